/* once.h - one request from bytes, without a socket: `fettle serve --once`, the tests and the
 * fuzzer. */
#ifndef WEB_ONCE_H
#define WEB_ONCE_H

#include "face/web/site.h"

/* Gives up to n bytes; 0: there are no more. */
typedef size_t once_read(void *context, char *out, size_t n);

/* head_only: the request asked for the head alone. */
void once_answer(struct arena *a, const struct site *site, once_read *read, void *context,
                 struct response *out, bool *head_only);
/* The same of bytes in memory. */
void once_answer_bytes(struct arena *a, const struct site *site, const char *bytes, size_t length,
                       struct response *out, bool *head_only);

#endif
