/* browse.h - a browser without script for tests: it sees only what is on the page, and counts taps.
 *
 * It fills the form of the page that has a given button, as the page holds it: what is checked,
 * selected and hidden is sent as it stands. A field, value or button that is not on the page is a
 * failed test. A tile is one tap, a choice from a list two (open it, choose), a button or a link
 * one. */
#ifndef TESTS_BROWSE_H
#define TESTS_BROWSE_H

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "face/web/route.h"

enum { CONTROLS_MOST = 4096 };

struct control {
    const char *name, *value;
    enum { CONTROL_TEXT, CONTROL_RADIO, CONTROL_OPTION, CONTROL_BUTTON } kind;
    bool on;  /* would be sent */
    int form; /* of which form on the page */
};

struct browser {
    struct arena arena;
    struct site *site;
    const char *cookie, *path;
    struct response page;
    struct control controls[CONTROLS_MOST];
    int n_controls, taps;
};

/* A new garage in a folder of its own; the site lives as long as the arena. */
struct site *browse_site(struct arena *a);
void browse_site_end(struct arena *a, struct site *site);
/* "kind", "field=value", ..., NULL: stores a record in its garage; gives its id. */
const char *browse_add(struct arena *a, struct site *site, const char *kind, ...)
    __attribute__((sentinel));
struct browser *browse_open(struct arena *a, struct site *site);

void browse_go(struct browser *b, const char *path);     /* types an address: no tap */
void browse_follow(struct browser *b, const char *href); /* a link that is on the page */
/* The one radio button or option whose name begins so, or is so, with that value. */
void browse_choose(struct browser *b, const char *name, const char *value);
void browse_type(struct browser *b, const char *name, const char *text);
/* Sends the form by the first button of that name and value ("" for one without), follows where it
 * leads. */
void browse_press(struct browser *b, const char *name, const char *value);
/* Is there such a control, with that value unless NULL? */
bool browse_has(const struct browser *b, const char *name, const char *value);
void browse_expect(const struct browser *b, const char *phrase); /* in the bytes of the page */
/* The first address on the page that begins so. */
const char *browse_link(const struct browser *b, const char *prefix);

#endif
