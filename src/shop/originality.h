/* originality.h - which vehicle it is, by what stands on it, and how much of it is its own.
 *
 * Numbers and dates are read against the code books; what does not agree is told, never averaged
 * away. What was told of components is summed by area, and held against rules of some place and
 * day: as it is, and after each direction. Evidence and reckoning only: the authority decides. */
#ifndef SHOP_ORIGINALITY_H
#define SHOP_ORIGINALITY_H

#include "model/facts_identity.h"
#include "reckon/code.h"
#include "shop/reckoning.h"

enum check_told {
    CHECK_NONE,
    CHECK_FITS,
    CHECK_DIFFERS,    /* where the rule is of that place */
    CHECK_INFORMATION /* not used or wrong: the rule is of another place */
};

struct mark_read {
    const struct fact_mark *mark;
    const struct trade_codebook *book; /* NULL: none reads it */
    struct code_reading code;          /* of a code */
    struct date_reading date;          /* of a date */
    enum check_told check;
    const int *years; /* that its year code can mean */
    int n_years;
    bool years_informed;  /* told by a rule of another place */
    enum mark year_mark;  /* of the table of years, if it is known less well than its book */
    const char **misfits; /* one line each */
    int n_misfits;
};

/* What does not agree. */
struct identity_conflict {
    const char *text;
    bool stop; /* spend nothing before it is cleared */
};

struct area {
    const struct trade_system *system;
    int count[ORIGINALITY_COUNT];
    int untold, total;
};

enum rule_verdict { RULE_MEETS, RULE_OPEN, RULE_FAILS };

struct rule_state {
    enum rule_verdict verdict;
    double sure, possible; /* points */
};

enum part_state { PART_SUITS, PART_UNTOLD, PART_DIFFERS, PART_NOT_FITTED };

struct rule_read {
    const struct trade_rule *rule;
    struct rule_state now, after[DIRECTIONS_MAX];
    enum part_state *parts; /* now, in the order of the rule's */
    int years_to_go;        /* until it is old enough; 0: it is, or its year is not known */
};

/* Rules of one scheme, as an answer: those that may still hold. */
struct scheme_read {
    const char *name;
    int *now; /* indices of rules; one: that is it */
    int n_now;
    int *after[DIRECTIONS_MAX];
    int n_after[DIRECTIONS_MAX];
};

/* What a direction changes of what was told as original, or what nobody has told yet. */
struct direction_change {
    const struct trade_change *change;
    int originals, untold; /* components, places counted singly */
};

struct originality_direction {
    const struct trade_direction *direction;
    struct direction_change *changes;
    int n_changes;
};

struct originality_answer {
    const char *vehicle;
    const struct trade *trade;
    day built_from, built_to; /* DAY_NONE: not known */
    bool built_told;          /* by a mark; else from the year of making */
    struct mark_read *marks;
    int n_marks;
    struct identity_conflict *conflicts;
    int n_conflicts;
    size_t conflicts_capacity;
    struct area *areas; /* those with components of this vehicle */
    int n_areas;
    const struct fact_original *originals;
    int n_originals;
    const char **loose; /* components that the trade data does not know */
    int n_loose;
    struct rule_read *rules;
    int n_rules;
    struct scheme_read *schemes;
    int n_schemes;
    struct originality_direction *directions;
    int n_directions;
};

bool originality_reckon(struct arena *a, const struct shop_ask *ask, struct originality_answer *out,
                        struct fail *f);

/* One code or date against a book (an id) or the one that suits, for a vehicle or for none
 * (facts NULL). FAIL_INPUT for a book that there is not. */
bool originality_read(struct arena *a, const struct trade *t, const char *text, const char *book,
                      day today, struct mark_read *out, struct fail *f);

#endif
