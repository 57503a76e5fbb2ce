/* demo.h - the demonstration garage as a list of facts. Everything in it is invented. */
#ifndef CLI_DEMO_H
#define CLI_DEMO_H

enum { DEMO_FIELDS_MAX = 28 };

struct demo_fact {
    const char *day; /* on which it was recorded */
    const char *kind;
    const char *fields[DEMO_FIELDS_MAX]; /* "key=value", ended by NULL */
};

extern const struct demo_fact demo_facts[]; /* in the order of recording, ended by a NULL kind */

#endif
