/* trade.h - the trade's knowledge as structs, read from trade/ (docs/trade-data.md describes every
 * key).
 *
 * All arrays and strings live in the arena given to trade_load, in file order, which is sorted by
 * path. */
#ifndef LIBRARY_TRADE_H
#define LIBRARY_TRADE_H

#include "base/arena.h"
#include "base/condition.h"
#include "base/fail.h"
#include "base/mark.h"
#include "base/points.h"
#include "base/seal.h"
#include "library/trade_answer.h"
#include "library/trade_clue.h"
#include "library/trade_entry.h"
#include "library/trade_fit.h"
#include "library/trade_gate.h"
#include "library/trade_identity.h"

#include <stdint.h>

struct trade_place {
    struct entry head;
    int parent;   /* index, or -1 */
    int *members; /* indices of places; a group if n_members > 0 */
    int n_members;
};

struct trade_system {
    struct entry head;
};

struct ageing {
    struct entry head;
    double odds[COND_COUNT]; /* sound .. failed, sums to 1; missing 0 */
    double standing;         /* shift per doubling of years standing */
    double wear;             /* shift per doubling of miles */
    double storage[STORAGE_COUNT];
    double state;      /* share of variance that follows the vehicle's general state, 0..0.9 */
    double missing[3]; /* by answer state: whole, part-stripped, boxed */
};

struct trade_component {
    struct entry head;
    int system;  /* index */
    int *places; /* indices of single places, groups opened */
    int n_places;
    struct fitted fitted;
    int ages; /* index of ageing */
    double look_minutes;
    const char *seen_by;
};

struct trade_wait {
    struct points days;
    const char *what_for; /* NULL if no wait */
};

struct trade_buy {
    int part; /* index */
    double count;
};

enum package {
    PACKAGE_RECORD,
    PACKAGE_MECHANICAL,
    PACKAGE_BODY,
    PACKAGE_PAINT,
    PACKAGE_TRIM,
    PACKAGE_MODIFY,
    PACKAGE_CONSERVE,
    PACKAGE_HAND_OVER,
    PACKAGE_COUNT
};
const char *package_name(enum package p);

enum { DIRECTIONS_MAX = 16 };

struct trade_job {
    struct entry head;
    int system;
    enum package package;
    uint32_t directions; /* bit i: direction i */
    int *after;          /* indices of jobs */
    int n_after;
    bool survey, gate;
    int *when_components; /* indices of component kinds; none: always */
    int n_when;
    unsigned when_conditions; /* bit c: condition c makes the job needed */
    struct fitted fitted;
    bool by_share;
    struct points hours;
    int *excludes; /* indices of setbacks */
    int n_excludes;
    int hands;
    bool bay, unbroken;
    double warm; /* deg C, or -100 */
    struct trade_wait wait;
    const char **tools;
    int n_tools;
    struct trade_buy *parts;
    int n_parts;
    const char *accept;
    enum mark accept_mark;
    const char *accept_source;
    int *cautions;
    int n_cautions;
    const char **steps;
    int n_steps;
    const char *milestone; /* what its end means to the builder: "it drives"; NULL for most */
};

struct trade_setback_at {
    int job;
    uint32_t directions; /* bit i: direction i; 0: in every one that has the job */
    int *components;     /* kinds; none: the chance depends on nothing */
    int n_components;
    double chance[COND_COUNT];
    bool each;
};

/* What a builder sees of what broke: four questions, any of which may be left out. */
enum broken { BROKEN_IS, BROKEN_METAL, BROKEN_HOLE, BROKEN_DRILL, BROKEN_COUNT };
const char *broken_name(enum broken b);         /* "is", "in", "hole", "drill" */
const char *broken_value(enum broken b, int i); /* "proud", "flush", "below"; NULL past the last */

struct trade_worse {
    double chance;       /* share of the tries without a cure that leave it worse */
    struct points hours; /* what that costs */
    struct trade_buy *parts;
    int n_parts;
    int leaves; /* so many of the last steps are left; 1 where it is not told */
    const char *what;
};

struct trade_step {
    const char *called; /* a short word for it; NULL: only its number */
    const char *act;
    double works;
    struct trade_worse worse;
    unsigned
        when[BROKEN_COUNT]; /* bit i: it can be done where that value holds; 0: whatever it is */
    int after;              /* number of the step, from 1, that must have been tried; 0: none */
    const char **tools;
    int n_tools;
    struct points hours;
    struct trade_wait wait;
    struct trade_buy *parts;
    int n_parts;
    const char *risk;
    int *cautions;
    int n_cautions;
};

struct trade_setback {
    struct entry head;
    struct trade_setback_at *at;
    int n_at;
    struct trade_step *ladder;
    int n_ladder;
    const char *stop;
    const char *tonight; /* how it is left until another day; NULL: nothing of its own */
    bool fastener;       /* a thread is in it: drills and taps follow from that */
};

enum part_from {
    FROM_STOCK,
    FROM_SPECIALIST,
    FROM_EXCHANGE,
    FROM_MACHINE_SHOP,
    FROM_PLATING,
    FROM_TRIM_SHOP,
    FROM_AUTOJUMBLE,
    FROM_FEE,
    FROM_COUNT
};
const char *part_from_name(enum part_from f);

struct trade_part {
    struct entry head;
    int system;
    enum part_from from;
    struct points price; /* major units of currency */
    struct points lead;  /* days */
    const char *currency;
    int price_year;
    bool off_another; /* may well come off another vehicle */
};

struct trade_direction {
    struct entry head;
    const char *charter;
    const char **lost;
    int n_lost;
    int *done; /* jobs */
    int n_done;
    struct trade_change *changes; /* to what is original */
    int n_changes;
    const char *worth_hint;
    double grade;    /* that it ends at: 1 flawless .. 5 to be restored; 0: not said */
    double original; /* share of it that is still as built then, of what is as built now */
    double miles; /* what its price gains, as a share, with each doubling of the usual miles: below
                     0 */
    bool driven;  /* it can be driven then, by its keeper */
};

struct trade_caution {
    struct entry head;
    const char *text, *defer;
};

struct trade_coverage {
    struct entry head;
    struct fitted fitted;
    bool conditional; /* has fitted */
    const char *text;
};

struct trade_tool {
    struct entry head;
};

struct trade_source {
    struct entry head;
    const char *where;
};

struct trade_default {
    struct entry head;
    double *value; /* one, three or twelve numbers */
    int n_value;
    const char *unit, *text;
};

/* What says walk away from a vehicle that might be bought. */
struct trade_sign {
    struct entry head;
    int *components; /* kinds that meet it when found in such a condition; none: only when told */
    int n_components;
    unsigned conditions; /* bits */
    struct fitted fitted;
    int place;
    double minutes;
    const char *seen_by, *why, *ask;
};

/* What can be told of a component at a viewing, with nothing taken off. */
struct trade_glance {
    struct entry head;
    int component;
    double minutes; /* at each place */
    const char *seen_by;
};

/* May it go back? */
enum again { AGAIN_NEVER, AGAIN_LOOK, AGAIN_YES, AGAIN_COUNT };
const char *again_name(enum again a); /* "never", "look", "yes" */

struct trade_fastener {
    struct entry head;
    enum again again;
    const char *why;
};

/* What a standing vehicle asks for, again and again. */
struct trade_care {
    struct entry head;
    int every;      /* days */
    double minutes; /* of one go */
    struct fitted fitted;
    int *since; /* jobs: due once work on one of them was told; none: from the first day */
    int n_since;
    int *until; /* jobs: no longer due once one of them is finished */
    int n_until;
    const char *act, *accept;
    const char **tools;
    int n_tools;
    int *cautions;
    int n_cautions;
};

/* Weatherstrip by the metre: millimetres, newtons. */
struct trade_seal {
    struct entry head;
    enum seal_kind kind;
    enum seal_hold hold;
    double from, to;        /* thickness of the edge, or width of the groove, that it holds on */
    double height, breadth; /* uncompressed; of what is pressed */
    double force;           /* that closes 100 mm to the middle of its band */
};

enum outing {
    OUTING_VIEWING,
    OUTING_HOME,
    OUTING_SEIZED,
    OUTING_BRAKELESS,
    OUTING_PARTS,
    OUTING_COUNT
};

/* What to mind away from the bay. */
struct trade_outing {
    struct entry head;
    enum outing when;
    const char *text;
    int *cautions;
    int n_cautions;
};

struct trade {
    struct trade_place *places;
    int n_places;
    struct trade_system *systems;
    int n_systems;
    struct ageing *ageing;
    int n_ageing;
    struct trade_component *components;
    int n_components;
    struct trade_job *jobs;
    int n_jobs;
    struct trade_setback *setbacks;
    int n_setbacks;
    struct trade_part *parts;
    int n_parts;
    struct trade_direction *directions;
    int n_directions;
    struct trade_caution *cautions;
    int n_cautions;
    struct trade_coverage *coverage;
    int n_coverage;
    struct trade_tool *tools;
    int n_tools;
    struct trade_source *sources;
    int n_sources;
    struct trade_default *defaults;
    int n_defaults;
    struct trade_sign *signs;
    int n_signs;
    struct trade_outing *outings;
    int n_outings;
    struct trade_cluster *clusters;
    int n_clusters;
    struct trade_clue *clues;
    int n_clues;
    struct trade_codebook *codebooks;
    int n_codebooks;
    struct trade_rule *rules;
    int n_rules;
    struct trade_glance *glances;
    int n_glances;
    struct trade_join *joins;
    int n_joins;
    struct trade_fitting *fittings;
    int n_fittings;
    struct trade_need *needs;
    int n_needs;
    struct trade_option *options;
    int n_options;
    struct trade_proof *proofs;
    int n_proofs;
    struct trade_gate *gates; /* in the order in which they are opened */
    int n_gates;
    struct trade_check *checks;
    int n_checks;
    struct trade_care *cares;
    int n_cares;
    struct trade_fastener *fasteners;
    int n_fasteners;
    struct trade_seal *seals;
    int n_seals;
};

/* Every fault that was found, by file and line; the loader goes on after a fault as far as it can.
 */
struct trade_faults {
    const char **line; /* "file:line: what and what to do" */
    int count;
    size_t capacity;
};

/* Reads the trade data carried in the program and, where own_dir is not NULL, that of the garage (a
 * folder that does not exist counts as empty). False if there was any fault: *faults has them all
 * and f the first. */
bool trade_load(struct arena *a, const char *own_dir, struct trade *out,
                struct trade_faults *faults, struct fail *f);
/* Reads a folder instead of what the program carries. */
bool trade_load_dir(struct arena *a, const char *dir, struct trade *out,
                    struct trade_faults *faults, struct fail *f);
/* What `trade check DIR` does: a folder with places, systems and directions of its own is judged
 * alone, any other as a garage's additions to what the program carries. A folder without trade data
 * fails. */
bool trade_check_dir(struct arena *a, const char *dir, struct trade *out,
                     struct trade_faults *faults, struct fail *f);

/* SHA-256 in hex of the trade data that trade_load would read: the carried bytes and the own
 * folder's. Cheap: nothing is parsed. Where the own folder stands does not matter. */
bool trade_digest(struct arena *a, const char *own_dir, char hex[65], struct fail *f);

enum subject {
    SUBJECT_SOURCES,
    SUBJECT_PLACES,
    SUBJECT_SYSTEMS,
    SUBJECT_AGEING,
    SUBJECT_COMPONENTS,
    SUBJECT_JOBS,
    SUBJECT_SETBACKS,
    SUBJECT_PARTS,
    SUBJECT_DIRECTIONS,
    SUBJECT_CAUTIONS,
    SUBJECT_COVERAGE,
    SUBJECT_TOOLS,
    SUBJECT_DEFAULTS,
    SUBJECT_SIGNS,
    SUBJECT_OUTINGS,
    SUBJECT_CLUSTERS,
    SUBJECT_CLUES,
    SUBJECT_CODEBOOKS,
    SUBJECT_RULES,
    SUBJECT_GLANCES,
    SUBJECT_JOINS,
    SUBJECT_FITTINGS,
    SUBJECT_NEEDS,
    SUBJECT_OPTIONS,
    SUBJECT_PROOFS,
    SUBJECT_GATES,
    SUBJECT_CHECKS,
    SUBJECT_CARES,
    SUBJECT_FASTENERS,
    SUBJECT_SEALS,
    SUBJECT_COUNT
};
const char *subject_name(enum subject s); /* "components"; NULL past the last */
int trade_count(const struct trade *t, enum subject s);
/* The head of an entry, whatever its subject. */
const struct entry *trade_entry(const struct trade *t, enum subject s, int index);

/* Index by id, or -1. A component, job, part ... by id; the nearest id for "did you mean", or NULL.
 */
int trade_find(const struct trade *t, enum subject s, const char *id);
int trade_find_component(const struct trade *t, const char *id);
int trade_find_job(const struct trade *t, const char *id);
int trade_find_part(const struct trade *t, const char *id);
int trade_find_direction(const struct trade *t, const char *id);
int trade_find_place(const struct trade *t, const char *id);
int trade_find_setback(const struct trade *t, const char *id);
const struct trade_default *trade_find_default(const struct trade *t, const char *id);
const char *trade_nearest(const struct trade *t, enum subject s, const char *word);
const char *trade_nearest_component(const struct trade *t, const char *word);

/* Entries that have every word of `words` in their id, name or other words, without regard to ASCII
 * case: by subject, then in file order. Returns how many; no words find nothing. */
struct trade_hit {
    enum subject subject;
    int index;
};
int trade_search(struct arena *a, const struct trade *t, const char *words,
                 struct trade_hit **hits);

#endif
