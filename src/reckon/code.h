/* code.h - a number or a date that stands on a vehicle, read against its code book.
 *
 * A reading never refuses: it tells what each character means and what does not fit, one line each.
 * Numbers and dates are evidence, not proof. */
#ifndef RECKON_CODE_H
#define RECKON_CODE_H

#include "base/arena.h"
#include "base/codebook.h"
#include "base/day.h"

/* Capitals, without blanks, hyphens, stops and slashes: what is compared and read. */
const char *code_normal(struct arena *a, const char *text);
/* Is the character in ranges like "A-HJ-N0-9"? */
bool code_in(const char *ranges, char c);

enum code_verdict {
    CODE_NONE, /* the book has no such rule, or the code is too broken to be judged by it */
    CODE_FITS,
    CODE_DIFFERS
};

struct code_line {
    const struct code_place *place;
    const char *text;  /* the characters */
    const char *means; /* NULL: the book does not tell */
};

struct code_reading {
    const char *text; /* normal form */
    struct code_line *lines;
    int n_lines;
    const char **misfits; /* what does not fit, and what to do */
    int n_misfits;
    enum code_verdict check;
    int check_sum;
    char check_due, check_stands; /* the letter that the rule gives, and the one that is there */
    int *years;                   /* that the year code can mean, ascending */
    int n_years;
};

/* years: only those up to `latest`. */
struct code_reading code_read(struct arena *a, const struct codebook *book, const char *text,
                              int latest);

enum date_verdict {
    DATE_FITS,
    DATE_LONG_BEFORE, /* asks: old stock, or a part of another vehicle */
    DATE_AFTER,       /* after assembly: cannot have been there when it was built */
    DATE_UNREADABLE
};

/* One time that the mark can mean. */
struct date_candidate {
    day from, to;
    enum date_verdict verdict;
    int days; /* from the end of the mark's time to the end of assembly; negative: after it */
};

struct date_reading {
    enum date_verdict verdict; /* the kindest of its candidates */
    struct date_candidate *candidates;
    int n_candidates;
    const char *misfit; /* why it cannot be read; NULL if it can */
};

/* A mark against the time in which the vehicle was assembled (built_from <= built_to; DAY_NONE: not
 * known, and then whatever can be read fits). Where decade or century are not told, the years from
 * `oldest` to the day `today` are tried. */
struct date_reading code_read_date(struct arena *a, const struct code_date *date, const char *text,
                                   day built_from, day built_to, int oldest, day today);

#endif
