/* sharing.h - what `fettle serve` says in the terminal about phones: the code to pair one by, and
 * those that were paired. */
#ifndef CLI_SHARING_H
#define CLI_SHARING_H

#include "face/cli/context.h"
#include "face/web/pair.h"
#include "face/web/share.h"

/* --devices, and --forget ID. */
bool sharing_list(struct context *c, const char *garage, struct fail *f);
bool sharing_forget(struct context *c, const char *garage, const char *id, struct fail *f);
/* The address, a first code and the certificate's fingerprint. */
void sharing_tell(struct context *c, const struct share *s, struct pairing *p);
/* Until a signal ends the program. Meanwhile tells what became of the code, and gives a new one for
 * Enter. Both NULL: only waits. */
void sharing_wait(struct context *c, const struct share *s, struct pairing *p);

#endif
