/* trade_identity.h - trade data that says what a vehicle really is: code books of its numbers and
 * dates, and rules that ask how much of it is original. Included by trade.h. */
#ifndef LIBRARY_TRADE_IDENTITY_H
#define LIBRARY_TRADE_IDENTITY_H

#include "base/codebook.h"
#include "library/trade_entry.h"

/* What a number or a date belongs to. */
enum mark_of {
    MARK_OF_VEHICLE,
    MARK_OF_BODY,
    MARK_OF_ENGINE,
    MARK_OF_GEARBOX,
    MARK_OF_AXLE,
    MARK_OF_CASTING,
    MARK_OF_GLASS,
    MARK_OF_BUILT,
    MARK_OF_OTHER,
    MARK_OF_COUNT
};

struct trade_codebook {
    struct entry head;
    const char *where;  /* of which place and time it is the rule */
    unsigned what;      /* bits of enum mark_of */
    const char *maker;  /* NULL: any */
    int from, until;    /* years of making; 0: open */
    const char *starts; /* only codes whose first character is one of these; NULL: any */
    int informed_by;    /* a book whose check digit and year are told as information only; or -1 */
    struct codebook book;
};

enum originality {
    ORIGINAL, /* to this vehicle */
    ORIGINAL_PERIOD,
    ORIGINAL_REPRODUCTION,
    ORIGINAL_MODERN,
    ORIGINAL_UNKNOWN,
    ORIGINALITY_COUNT
};

/* What a rule counts as one. */
struct trade_rule_part {
    const char *name;
    int *components;
    int n_components;
    unsigned classes; /* bits of enum originality that suit the rule */
    double points;
    bool needed;
};

struct trade_rule {
    struct entry head;
    const char *scheme; /* rules of one scheme exclude each other: the first that holds counts;
                           NULL: stands alone */
    const char *place, *dated;
    int age; /* years since it was made, at least; 0: any */
    struct trade_rule_part *parts;
    int n_parts;
    double need; /* points; 0: the needed parts alone decide */
    const char *gives, *text, *defer;
};

/* What a direction does to what is original. */
struct trade_change {
    int *systems;
    int n_systems;
    int *components;
    int n_components;
    enum originality to;
    const char *what;
    bool can_be_undone;
};

const char *mark_of_name(enum mark_of m);         /* "vehicle"; NULL past the last */
const char *originality_name(enum originality o); /* "original" */

#endif
