/* server.h - the pages over HTTP, on this machine's loopback address alone; a thread a connection.
 *
 * libmicrohttpd reads the bytes; what it lets pass and we do not (a second Host or Content-Length,
 * any transfer coding, a body over the limit, a client that never ends) is refused here. */
#ifndef WEB_SERVER_H
#define WEB_SERVER_H

#include "face/web/route.h"

enum { SERVER_PORT = 8060 };

struct server;

/* port 0: any free one. The site lives as long as the server. */
bool server_start(struct arena *a, const struct site *site, int port, struct server **out,
                  struct fail *f);
int server_port(const struct server *s);
void server_stop(struct server *s); /* after the requests that are being answered */

#endif
