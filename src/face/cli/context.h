/* context.h - what a verb is given: the parsed command line, and doors to garage and trade data
 * that open when they are first asked for, so that help loads nothing. */
#ifndef CLI_CONTEXT_H
#define CLI_CONTEXT_H

#include "base/day.h"
#include "face/cli/command.h"
#include "face/cli/render_text.h"
#include "face/show/sheet.h"
#include "garage/garage.h"
#include "library/trade.h"

#include <jansson.h>

enum { OPTIONS_MAX = 32 };

struct context {
    struct arena *arena;
    const struct command *command;
    const char **words; /* what followed the verb, options taken out */
    int n_words;
    struct {
        const char *name, *value; /* value "" for a flag */
    } given[OPTIONS_MAX];
    int n_given;
    bool json;
    struct render_style style; /* of standard output */
    day today;                 /* --date, or the machine's */

    /* Opened when asked for; see the functions below. */
    struct garage *garage;
    enum garage_mode garage_mode;
    struct trade *trade;
    const struct record *vehicle;
};

/* Fills command, words, given, json from the command line: options anywhere, "--name value" or
 * "--name=value",
 * "--" ends them. No command and no failure: --help or --version alone, or `fettle` with nothing.
 */
bool context_parse(struct context *c, int argc, char *const argv[], struct fail *f);
/* The value of an option of the verb or of all verbs; NULL if not given, "" for a flag that was. */
const char *context_option(const struct context *c, const char *name);
/* A whole number from an option, `fallback` if not given; refused outside low..high. */
bool context_whole(const struct context *c, const char *name, int64_t low, int64_t high,
                   int64_t fallback, int64_t *out, struct fail *f);

/* The garage's folder: --garage, FETTLE_GARAGE, or the XDG data folder. False if there is no home.
 */
bool context_garage_dir(const struct context *c, const char **dir, struct fail *f);
bool context_garage(struct context *c, enum garage_mode mode, struct garage **out, struct fail *f);
/* What the program carries, with the garage's additions where there is a garage. */
bool context_trade(struct context *c, const struct trade **out, struct fail *f);
/* --vehicle, or the only one. Several and none named: refused, with their names. */
bool context_vehicle(struct context *c, const struct record **out, struct fail *f);
/* The garage's currency (its latest workshop record), else the locale's, else NULL. */
const char *context_currency(struct context *c);
void context_close(struct context *c);

/* How a verb answers: a sheet as text, or an object as JSON (taken over; dates and version are
 * added: see docs/json.md). A verb makes the one that c->json asks for. */
void context_print_sheet(const struct context *c, const struct sheet *s);
bool context_print_json(struct context *c, json_t *object, struct fail *f);

/* For a person at the other end: a line on standard output, made harmless (wrap_clean). */
void context_say(const struct context *c, const char *format, ...)
    __attribute__((format(printf, 2, 3)));

#endif
