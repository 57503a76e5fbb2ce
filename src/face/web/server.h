/* server.h - the pages over HTTP, a thread a connection: on this machine's loopback address alone,
 * or, for a site that is beyond it, on all addresses over TLS, for machines of its own networks.
 *
 * libmicrohttpd reads the bytes; what it lets pass and we do not (a second Host or Content-Length,
 * any transfer coding, a body over the limit, a client that never ends) is refused here. */
#ifndef WEB_SERVER_H
#define WEB_SERVER_H

#include "face/web/site.h"

enum {
    SERVER_PORT = 8060,
    SERVER_CONNECTIONS_MOST = 64,
    SERVER_CONNECTIONS_OF_ONE = 16, /* from one address beyond this machine */
};

struct server_settings {
    int port; /* 0: any free one */
    /* 0: the usual. Idle: nothing moves. Deadline: the whole of a request, or of the taking of an
     * answer. */
    int idle_seconds, deadline_seconds;
};

struct server;

/* The site lives as long as the server. */
bool server_start(struct arena *a, const struct site *site, const struct server_settings *settings,
                  struct server **out, struct fail *f);
int server_port(const struct server *s);
void server_stop(struct server *s); /* after the requests that are being answered */

#endif
