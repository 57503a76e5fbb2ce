/* shape.h - what each subject may say: one row a key, which tells how the value is read and where
 * it goes. Adding a key to trade/ is a field in trade.h, a row in shape.c and a line in
 * docs/trade-data.md. */
#ifndef LIBRARY_SHAPE_H
#define LIBRARY_SHAPE_H

#include "library/trade.h"
#include "library/words.h"

#include <stddef.h>

/* How a value is written -> the field at `at` (and the int at `count_at`). */
enum key_kind {
    KEY_TEXT,       /* text -> const char * */
    KEY_ID,         /* lower-case words joined by '-' -> const char * */
    KEY_CURRENCY,   /* ISO 4217 code -> const char * */
    KEY_SOURCE,     /* id of a source -> const char * */
    KEY_FLAG,       /* true or false -> bool */
    KEY_WHOLE,      /* whole number, low..high -> int */
    KEY_NUMBER,     /* number, low..high -> double */
    KEY_POINTS,     /* number or [low, middle, high] -> struct points */
    KEY_WORD,       /* one of `words` -> int */
    KEY_REF,        /* id in `subject` -> int */
    KEY_BY_WORD,    /* mapping from `words` to numbers, low..high -> double[] */
    KEY_ODDS,       /* the same, and they sum to 1 */
    KEY_CHANCE,     /* one number for all, or KEY_BY_WORD -> double[COND_COUNT] */
    KEY_WORSE_THAN, /* a condition: all those after it -> unsigned bits */
    KEY_FITTED,     /* mapping from answers to lists of values -> struct fitted */
    KEY_RECORD,     /* mapping of `shape` -> the struct at `at` */
    /* Lists, never empty. */
    KEY_TEXTS,      /* -> const char **, count */
    KEY_VALUES,     /* a number, or a list of 3 or 12 -> double *, count */
    KEY_REFS,       /* -> int *, count */
    KEY_PLACES,     /* KEY_REFS with groups opened */
    KEY_BITS,       /* ids in `subject` -> uint32_t bits */
    KEY_CONDITIONS, /* `words` -> unsigned bits */
    KEY_NUMBERS,    /* numbers, low..high -> double *, count */
    KEY_WORDS,      /* `words`, in order -> int *, count */
    KEY_WHOLES,     /* whole numbers, low..high -> int *, count */
    KEY_RECORDS,    /* mappings of `shape` -> array of its size, count */
    KEY_KINDS
};

struct shape;

struct key {
    const char *name;
    enum key_kind kind;
    size_t at, count_at;
    bool needed;
    bool header; /* may stand once in the file's header, for all its entries */
    double low, high;
    enum subject subject;
    word_list *words;
    const struct shape *shape;
};

struct shape {
    size_t size;
    const void *blank; /* what stands where nothing is said; NULL: zeros */
    const struct key *keys;
    int n_keys;
};

struct subject_shape {
    struct shape shape;
    bool named, marked;        /* must have a name; a mark */
    size_t array_at, count_at; /* in struct trade */
};

/* Whether a key of the head must be there depends on the subject: its rows ask nothing themselves.
 */
extern const struct shape shape_head;
extern const struct subject_shape shape_of[SUBJECT_COUNT];

/* shape_clue.c */
enum { CLUSTER_KEYS = 3, CLUE_KEYS = 9 };
extern const struct key cluster_keys[CLUSTER_KEYS], clue_keys[CLUE_KEYS];
extern const struct trade_clue clue_blank;
/* shape_identity.c: the keys of code books and rules, and what directions change. */
extern const struct key codebook_keys[13], rule_keys[9];
extern const struct trade_codebook codebook_blank;
extern const struct shape change_shape;

/* shape_fit.c: joins, fittings, needs, options. */
enum { JOIN_KEYS = 9, FITTING_KEYS = 4, NEED_KEYS = 3, OPTION_KEYS = 18 };
extern const struct key join_keys[JOIN_KEYS], fitting_keys[FITTING_KEYS], need_keys[NEED_KEYS],
    option_keys[OPTION_KEYS];
extern const struct trade_join join_blank;
extern const struct trade_fitting fitting_blank;
extern const struct trade_need need_blank;
extern const struct trade_option option_blank;
extern const struct shape buy_shape; /* a part and how many of it */

/* shape_gate.c: proofs, gates, checks. */
enum { PROOF_KEYS = 11, GATE_KEYS = 8, CHECK_KEYS = 2 };
extern const struct key proof_keys[PROOF_KEYS], gate_keys[GATE_KEYS], asked_keys[CHECK_KEYS];
extern const struct trade_proof proof_blank;
extern const struct trade_gate gate_blank;

const struct key *shape_key(const struct shape *shape, const char *name);

#endif
