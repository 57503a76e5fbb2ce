/* record.h - a record kind is one table of fields; parsing, checking, SQL, journal, JSON, help and
 * forms follow.
 *
 * kinds.c declares every kind. A fact is never refused because it does not suit a rule of the
 * trade: only what cannot be understood is refused (not a date, not a number, no such choice). */
#ifndef GARAGE_RECORD_H
#define GARAGE_RECORD_H

#include "base/day.h"
#include "base/fail.h"
#include "base/money.h"
#include "base/points.h"
#include "base/unit.h"

enum field_type {
    FIELD_TEXT, /* one column */
    FIELD_INTEGER,
    FIELD_NUMBER,       /* "0.7" or "70 %" */
    FIELD_QUANTITY,     /* two: as typed, and SI */
    FIELD_CHOICE,       /* the chosen word */
    FIELD_YES,          /* yes or no */
    FIELD_DAY,          /* ISO 8601 */
    FIELD_CLOCK,        /* minutes of the day */
    FIELD_MONEY,        /* two: minor units, currency */
    FIELD_POINTS,       /* three */
    FIELD_MONEY_POINTS, /* four: three sums in minor units, currency; "800/1200/2000 GBP" */
    FIELD_FILE,         /* the digest of a file of the garage, see file.h */
    FIELD_PARENT,       /* the id of a record of parent_kind; its name is accepted */
};

struct field {
    const char *name; /* lower case, words joined by '-'; the column has '_' */
    enum field_type type;
    bool required, private_; /* private: kept beside the journal under a salted hash */
    bool own_currency;       /* money: its currency must be typed, none is taken for granted */
    enum quantity quantity;
    const char *bare; /* quantity: the unit of a number typed without one, or NULL: refused */
    double low, high; /* limits for integer, number, SI of a quantity, points; bytes of a text; 0,
                         0: none */
    const char *const *choices; /* NULL-terminated */
    const char *parent_kind;
    const char *help; /* one line; what it is, in the builder's words */
};

struct value {
    bool set;         /* false: not known */
    const char *text; /* as typed (quantity), else its normal form; record_set reads it back as the
                         same value */
    double number;    /* number, SI of a quantity */
    int64_t integer;  /* integer, clock, yes (0 or 1), index of a choice */
    struct money money;   /* money; for money points its currency */
    struct points points; /* points; for money points in minor units */
    day day;
};

struct record_kind;
struct garage;

enum { RECORD_PARENTS = 2 };

struct record {
    const struct record_kind *kind;
    char id[33];                      /* 128 random bits in hex; "" before it is stored */
    int revision;                     /* 1 when added */
    char at[25];                      /* UTC stamp of the last act, "2026-11-25T19:00:00Z" */
    char parents[RECORD_PARENTS][33]; /* ids of its parents, found when it is stored: where the
                                         texts of those values lie */
    struct value *values;             /* one a field */
};

struct record_kind {
    const char *name, *plural;
    int version;
    const struct field *fields;
    int n_fields;
    const char *label_field; /* the field by which people call it, or NULL */
    bool of_garage; /* on the garage's own chain; else its first field is "vehicle" and it is on
                       that one's */
    const char *help;
    bool (*check)(const struct record *r,
                  struct fail *f); /* one check across fields; may be NULL */
    bool (*keep)(struct garage *g, const struct record *r,
                 struct fail *f); /* false: it may not be removed yet; may be NULL */
};

extern const struct record_kind *const record_kinds[]; /* NULL-terminated */
const struct record_kind *record_kind_find(const char *name);
int record_field(const struct record_kind *k, const char *name); /* index, or -1 */

/* A new record with nothing set. */
struct record *record_new(struct arena *a, const struct record_kind *k);
/* Sets a field from text: "don't know", "?" and "" unset it. `currency` for sums without one (may
 * be NULL). A parent is taken as typed and looked up when the record is stored. FAIL_INPUT:
 * "finding.condition: ...", for what cannot be understood or is beyond the field's limits; the
 * field then keeps what it had. */
bool record_set(struct arena *a, struct record *r, const char *field, const char *text,
                const char *currency, struct fail *f);
/* Required fields and the check across fields (limits were checked by record_set). */
bool record_valid(const struct record *r, struct fail *f);

/* Makes text from the rest of a value that is set (a text, parent or quantity keeps the text that
 * it has). */
void value_normalise(struct arena *a, const struct field *d, struct value *v);

/* Reading; the field must exist (asserted). A value that is not set gives the fallback. */
const struct value *record_get(const struct record *r, const char *field);
const char *record_text(const struct record *r, const char *field, const char *fallback);
double record_number(const struct record *r, const char *field, double fallback);
int64_t record_integer(const struct record *r, const char *field, int64_t fallback);

#endif
