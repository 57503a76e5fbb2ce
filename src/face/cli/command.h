/* command.h - a verb of the command line, declared once: parsing, help, completion and dispatch
 * follow.
 *
 * A verb is one file verb_*.c that defines one struct command; command.c lists them all in the
 * order of the help. */
#ifndef CLI_COMMAND_H
#define CLI_COMMAND_H

#include "base/fail.h"
#include "base/text.h"

struct context;

struct option {
    const char *name;     /* without the dashes */
    const char *argument; /* what follows it, in capitals; NULL: a flag */
    const char *help;
};

struct example {
    const char *line; /* what to type; completely, so that it can be copied */
    const char *what;
};

struct command {
    const char *name, *help;        /* help: one line */
    const char *usage;              /* after "fettle NAME "; several forms a line each */
    const char *text;               /* what it does and what it takes, in paragraphs; may be NULL */
    const struct option *options;   /* its own, ended by a NULL name; may be NULL */
    const struct example *examples; /* ended by a NULL line; may be NULL */
    const char *words; /* for completion: the words that may come first, blank between; "KIND" for
                          record kinds; may be NULL */
    bool (*run)(struct context *c, struct fail *f);
};

extern const struct command *const commands[]; /* NULL-terminated */
extern const struct option global_options[];   /* ended by a NULL name */

const struct command *command_find(const char *name); /* or NULL */
/* The verb that is nearest to a mistyped one, or NULL if none is near. */
const char *command_nearest(const char *word);
const struct option *option_find(const struct option *list,
                                 const char *name); /* list may be NULL */

/* The nearest of `count` words to `word`, or NULL if none is near enough to be meant. */
const char *nearest_word(const char *word, const char *const *words, int count);

void command_help_all(struct text *out, int width);
void command_help(struct text *out, const struct command *c, int width);

#endif
