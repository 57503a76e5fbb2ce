/* intake_ask.h - the twelve questions asked at a terminal. */
#ifndef CLI_INTAKE_ASK_H
#define CLI_INTAKE_ASK_H

#include "face/cli/context.h"
#include "face/show/intake.h"

/* Asks all of them on standard input and output; '<' goes back. False, nothing stored, if broken
 * off. */
bool intake_ask(struct context *c, struct intake *in, struct fail *f);

#endif
