/* photo_child.h - fettle-photo, the program that decodes pictures, run for one of them.
 *
 * It is looked for beside this program, then on PATH. Whatever it does (refuses, crashes, hangs),
 * comes back as one line. */
#ifndef SHOW_PHOTO_CHILD_H
#define SHOW_PHOTO_CHILD_H

#include "base/fail.h"

struct photo_facts {
    char type[5];           /* "jpeg" or "png" */
    unsigned width, height; /* the right way up */
    char taken[11];         /* "2026-11-25", or "" */
};

/* seconds: how long it may take by the clock. picture: a file, open for reading, read from its
 * beginning; copy and thumbnail: files, open for writing, empty. FAIL_INPUT: the picture is not
 * taken, "it is ..."; FAIL_GARAGE: the program cannot be run. */
bool photo_look(int picture, int copy, int thumbnail, int seconds, struct photo_facts *out,
                struct fail *f);

enum { PHOTO_SECONDS = 40 }; /* it limits its own processor time to half of that */

#endif
