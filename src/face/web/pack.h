/* pack.h - a response's body packed for the way, if the browser takes it so. */
#ifndef WEB_PACK_H
#define WEB_PACK_H

#include "face/web/request.h"

void pack_response(struct arena *a, const struct request *r, struct response *out);

#endif
