/* codebook.h - how the characters of a plate, a stamping or a cast date are laid out, as data.
 *
 * Positions count from 1. A range of characters is written like a key of the trade data: "A-H",
 * "5", "A-HJ-N". NULL and 0 stand for what a book does not say. What is known less well than the
 * rest of its book has a mark of its own; MARK_NONE: the book's. */
#ifndef BASE_CODEBOOK_H
#define BASE_CODEBOOK_H

#include "base/mark.h"
#include "base/points.h"

struct code_meaning {
    const char *is; /* ranges for one character; the text itself for several */
    const char *means;
};

struct code_place {
    int at, to; /* to 0: one character */
    const char *name;
    const char *letters; /* which characters may stand here; NULL: those of the book */
    struct code_meaning *meanings;
    int n_meanings;
    enum mark mark;
};

/* The weighted sum of the values, modulo the modulus, gives the letter that must stand at `at`. */
struct code_check {
    int at;       /* 0: no check digit */
    int *weights; /* one a position */
    int n_weights;
    const char **values; /* the characters that are worth 0, 1, 2 ... */
    int n_values;
    int modulus;
    const char *remainders; /* [modulus] letters */
};

/* One character tells the year; the cycle begins anew, and another character may tell which. */
struct code_year {
    int at; /* 0: no year */
    const char *codes;
    int first;            /* the year of the first code in the first cycle */
    int decided_by;       /* the position that tells the cycle; 0: nothing does */
    const char **decides; /* for each cycle, the characters that tell it */
    int n_decides;
    enum mark mark;
};

/* A date of casting or of glass is read part by part. */
enum date_part {
    DATE_MONTH_LETTER, /* A January .. L December */
    DATE_MONTH,        /* 1 .. 12 */
    DATE_DAY,
    DATE_WEEK,
    DATE_YEAR_LAST, /* the last figure: the decade is not told */
    DATE_YEAR_TWO,  /* the last two: the century is not told */
    DATE_YEAR,
    DATE_QUARTER_DOTS, /* one dot a quarter */
    DATE_PARTS
};

enum { CODE_LONGEST = 40, DATE_PARTS_MOST = 4 };

struct code_date {
    int *parts; /* of enum date_part; none: no date */
    int n_parts;
    struct points lead; /* days from the mark to assembly, as usual */
};

struct codebook {
    int length;          /* 0: a date, or of any length */
    const char *letters; /* which characters may stand at all; NULL: any */
    struct code_place *places;
    int n_places;
    struct code_check check;
    struct code_year year;
    struct code_date date;
};

#endif
