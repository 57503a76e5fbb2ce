#include "face/web/server.h"

#include "face/web/body.h"
#include "face/web/share.h"

#include <arpa/inet.h>
#include <errno.h>
#include <netinet/in.h>
#include <pthread.h>
#include <stdlib.h>
#include <string.h>
#include <sys/socket.h>
#include <time.h>
#include <unistd.h>

#include <microhttpd.h>

enum {
    CONNECTIONS_MOST = SERVER_CONNECTIONS_MOST,
    IDLE_SECONDS = 15,     /* nothing moved */
    DEADLINE_SECONDS = 30, /* a request sent a byte at a time, or an answer taken so: the library
                              knows only of idleness */
    RATE_LEAST = 16384, /* bytes a second of a large body or file: each buys that much time, so that
                           a slow phone gets its photograph through */
    HEADER_MEMORY = 32768,
    FILE_PIECE = 65536,
};
/* Nothing older than TLS 1.2, and there only suites with forward secrecy. */
static const char TLS_PRIORITIES[] = "SECURE128:-VERS-ALL:+VERS-TLS1.3:+VERS-TLS1.2:-RSA";
static const size_t ARENA_BYTES = (size_t)4 << 30; /* address space only; touched pages count */
/* What a connection holds between requests. To map memory anew for each halts every thread. */
static const size_t SPARE_BYTES = (size_t)512 << 10;

struct connection {
    int fd;             /* -1: the slot is free */
    int64_t since;      /* seconds; when it began to send or to take; 0 while we reckon */
    int64_t moved;      /* bytes of body or file since then */
    struct arena spare; /* of the request before, for the next; only its own thread takes it */
};

struct server {
    const struct site *site;
    struct MHD_Daemon *daemon;
    int port, deadline;
    pthread_t watch;
    pthread_mutex_t lock; /* of all below */
    pthread_cond_t end;
    bool ending;
    struct connection connections[CONNECTIONS_MOST];
};

/* One request while it comes in. */
struct exchange {
    struct arena arena;
    const char *target;
    bool begun;
    struct request request;
    struct body body;
};

static int64_t now_seconds(void)
{
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return t.tv_sec + 1; /* never 0 */
}

static struct connection *connection_of(struct MHD_Connection *c)
{
    const union MHD_ConnectionInfo *info =
        MHD_get_connection_info(c, MHD_CONNECTION_INFO_SOCKET_CONTEXT);
    return info ? info->socket_context : NULL;
}

static void connection_at(struct server *s, struct MHD_Connection *c, bool working)
{
    struct connection *slot = connection_of(c);
    if (!slot) return;
    pthread_mutex_lock(&s->lock);
    slot->since = working ? 0 : now_seconds();
    slot->moved = 0;
    pthread_mutex_unlock(&s->lock);
}

static void connection_moved(struct server *s, struct connection *slot, size_t n)
{
    if (!slot) return;
    pthread_mutex_lock(&s->lock);
    slot->moved += (int64_t)n;
    pthread_mutex_unlock(&s->lock);
}

/* Whoever is not on a network of ours is hung up on before a word is said. */
static enum MHD_Result on_peer(void *context, const struct sockaddr *peer, socklen_t length)
{
    const struct server *s = context;
    struct sockaddr_in from;
    if (!s->site->beyond) return MHD_YES;
    if (peer->sa_family != AF_INET || length < sizeof from) return MHD_NO;
    memcpy(&from, peer, sizeof from);
    return share_is_near(s->site->share, ntohl(from.sin_addr.s_addr)) ? MHD_YES : MHD_NO;
}

static void on_connection(void *context, struct MHD_Connection *c, void **slot,
                          enum MHD_ConnectionNotificationCode code)
{
    struct server *s = context;
    pthread_mutex_lock(&s->lock);
    if (code == MHD_CONNECTION_NOTIFY_CLOSED) {
        if (*slot) {
            arena_close(&((struct connection *)*slot)->spare);
            ((struct connection *)*slot)->fd = -1;
        }
    } else {
        for (int i = 0; i < CONNECTIONS_MOST && !*slot; i++)
            if (s->connections[i].fd < 0) *slot = &s->connections[i];
        if (*slot)
            *(struct connection *)*slot = (struct connection){
                MHD_get_connection_info(c, MHD_CONNECTION_INFO_CONNECTION_FD)->connect_fd,
                now_seconds(),
                0,
                {0}};
    }
    pthread_mutex_unlock(&s->lock);
}

/* Cuts off whoever is past the deadline; the library then closes the connection as if the client
 * had gone. */
static void *watch(void *context)
{
    struct server *s = context;
    pthread_mutex_lock(&s->lock);
    while (!s->ending) {
        struct timespec next;
        clock_gettime(CLOCK_REALTIME, &next);
        next.tv_sec += 1;
        pthread_cond_timedwait(&s->end, &s->lock, &next);
        for (int i = 0; i < CONNECTIONS_MOST; i++) {
            const struct connection *c = &s->connections[i];
            if (c->fd >= 0 && c->since &&
                now_seconds() - c->since > s->deadline + c->moved / RATE_LEAST)
                shutdown(c->fd, SHUT_RDWR);
        }
    }
    pthread_mutex_unlock(&s->lock);
    return NULL;
}

/* The raw address, before the library decodes it. What it returns is the exchange of on_request. */
static void *on_target(void *context, const char *target, struct MHD_Connection *c)
{
    struct server *s = context;
    connection_at(s, c, false);
    struct exchange *x = calloc(1, sizeof *x);
    if (!x) return NULL;
    struct connection *slot = connection_of(c);
    if (slot && slot->spare.start) {
        x->arena = slot->spare;
        slot->spare = (struct arena){0};
    } else {
        x->arena = arena_open(ARENA_BYTES);
    }
    x->target = arena_copy(&x->arena, target);
    return x;
}

static void on_done(void *context, struct MHD_Connection *c, void **exchange,
                    enum MHD_RequestTerminationCode code)
{
    struct exchange *x = *exchange;
    (void)code;
    connection_at(context, c, false);
    if (!x) return;
    body_close(&x->body);
    struct connection *slot = connection_of(c);
    if (!slot)
        arena_close(&x->arena);
    else if (arena_reuse(&x->arena, SPARE_BYTES))
        slot->spare = x->arena;
    free(x);
    *exchange = NULL;
}

/* A file on its way out. */
struct sending {
    struct server *server;
    struct connection *slot;
    int fd;
};

static ssize_t send_piece(void *context, uint64_t at, char *out, size_t most)
{
    struct sending *sending = context;
    ssize_t n = pread(sending->fd, out, most, (off_t)at);
    if (n <= 0) return MHD_CONTENT_READER_END_WITH_ERROR; /* it was cut short meanwhile */
    connection_moved(sending->server, sending->slot, (size_t)n);
    return n;
}

static void end_sending(void *context)
{
    struct sending *sending = context;
    close(sending->fd);
    free(sending);
}

static struct MHD_Response *file_response(struct server *s, struct MHD_Connection *c,
                                          const struct response *r)
{
    struct MHD_Response *out = NULL;
    struct sending *sending = malloc(sizeof *sending);
    if (sending) {
        *sending = (struct sending){s, connection_of(c), r->file};
        out = MHD_create_response_from_callback(r->length, FILE_PIECE, send_piece, sending,
                                                end_sending);
    }
    if (out) return out;
    free(sending);
    close(r->file);
    return NULL;
}

static enum MHD_Result send_response(struct server *s, struct MHD_Connection *c,
                                     const struct response *r)
{
    connection_at(s, c, false);
    struct MHD_Response *out =
        r->file ? file_response(s, c, r)
                : MHD_create_response_from_buffer(r->length, (void *)(uintptr_t)r->body,
                                                  MHD_RESPMEM_PERSISTENT);
    if (!out) return MHD_NO;
    if (r->type) MHD_add_response_header(out, "Content-Type", r->type);
    for (int i = 0; i < r->n_headers; i++)
        MHD_add_response_header(out, r->headers[i].name, r->headers[i].value);
    enum MHD_Result queued = MHD_queue_response(c, (unsigned)r->status, out);
    MHD_destroy_response(out);
    return queued;
}

static enum MHD_Result refuse(struct server *s, struct MHD_Connection *c, struct exchange *x,
                              const struct refusal *no)
{
    struct response r;
    site_refuse(&x->arena, no, &r);
    response_header(&r, "Connection", "close");
    return send_response(s, c, &r);
}

struct reading {
    struct exchange *x;
    int64_t length;
    int count;
    struct refusal no;
};

static enum MHD_Result on_header(void *context, enum MHD_ValueKind kind, const char *name,
                                 const char *value)
{
    struct reading *r = context;
    (void)kind;
    if (++r->count > REQUEST_HEADERS_MOST) {
        r->no.status = 431;
        fail_set(&r->no.why, FAIL_INPUT, "there are too many headers");
        return MHD_NO;
    }
    return request_header(&r->x->arena, name, value ? value : "", &r->x->request, &r->length,
                          &r->no)
               ? MHD_YES
               : MHD_NO;
}

static enum MHD_Result begin_request(struct server *s, struct MHD_Connection *c, struct exchange *x,
                                     const char *method, const char *version)
{
    struct reading r = {.x = x, .length = -1};
    x->begun = true;
    x->request.method = request_method(method);
    bool good = request_target(&x->arena, x->target, &x->request, &r.no);
    if (good) MHD_get_connection_values(c, MHD_HEADER_KIND, on_header, &r);
    if (r.no.status == 0 && !text_is(version, "HTTP/1.1") && !text_is(version, "HTTP/1.0")) {
        r.no.status = 505;
        fail_set(&r.no.why, FAIL_INPUT, "only HTTP/1.1 is spoken here");
    }
    if (r.no.status == 0) request_length(&x->request, r.length, &r.no);
    if (r.no.status) return refuse(s, c, x, &r.no);
    body_begin(&x->body, &x->arena, s->site, &x->request);
    return MHD_YES;
}

static enum MHD_Result on_request(void *context, struct MHD_Connection *c, const char *url,
                                  const char *method, const char *version, const char *data,
                                  size_t *size, void **exchange)
{
    struct server *s = context;
    struct exchange *x = *exchange;
    (void)url;
    if (!x) return MHD_NO;
    if (!x->begun) return begin_request(s, c, x, method, version);
    if (*size > 0) {
        /* Content-Length was held against the limit, and the library gives no more than it says. */
        connection_moved(s, connection_of(c), *size);
        body_take(&x->body, data, *size);
        *size = 0;
        return MHD_YES;
    }
    struct response r;
    connection_at(s, c, true);
    body_answer(&x->body, &r);
    return send_response(s, c, &r);
}

bool server_start(struct arena *a, const struct site *site, const struct server_settings *settings,
                  struct server **out, struct fail *f)
{
    struct server *s = ARENA_NEW(a, struct server);
    const int port = settings->port,
              idle = settings->idle_seconds ? settings->idle_seconds : IDLE_SECONDS;
    struct sockaddr_in address = {.sin_family = AF_INET, .sin_port = htons((uint16_t)port)};
    s->deadline = settings->deadline_seconds ? settings->deadline_seconds : DEADLINE_SECONDS;
    address.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
    s->site = site;
    pthread_mutex_init(&s->lock, NULL);
    pthread_cond_init(&s->end, NULL);
    for (int i = 0; i < CONNECTIONS_MOST; i++) s->connections[i].fd = -1;
    struct MHD_OptionItem more[5] = {{MHD_OPTION_END, 0, NULL}};
    unsigned flags = MHD_USE_INTERNAL_POLLING_THREAD | MHD_USE_THREAD_PER_CONNECTION | MHD_USE_POLL;
    if (site->beyond) {
        /* The library only reads them. */
        void *key = (void *)(uintptr_t)site->share->key,
             *certificate = (void *)(uintptr_t)site->share->certificate,
             *priorities = (void *)(uintptr_t)TLS_PRIORITIES;
        flags |= MHD_USE_TLS;
        address.sin_addr.s_addr = htonl(INADDR_ANY);
        more[0] = (struct MHD_OptionItem){MHD_OPTION_HTTPS_MEM_KEY, 0, key};
        more[1] = (struct MHD_OptionItem){MHD_OPTION_HTTPS_MEM_CERT, 0, certificate};
        more[2] = (struct MHD_OptionItem){MHD_OPTION_HTTPS_PRIORITIES, 0, priorities};
        more[3] = (struct MHD_OptionItem){MHD_OPTION_PER_IP_CONNECTION_LIMIT,
                                          SERVER_CONNECTIONS_OF_ONE, NULL};
        more[4] = (struct MHD_OptionItem){MHD_OPTION_END, 0, NULL};
    }
    errno = 0;
    s->daemon = MHD_start_daemon(
        flags, (uint16_t)port, on_peer, s, on_request, s, MHD_OPTION_SOCK_ADDR,
        (struct sockaddr *)&address, MHD_OPTION_CONNECTION_LIMIT, (unsigned)CONNECTIONS_MOST,
        MHD_OPTION_CONNECTION_TIMEOUT, (unsigned)idle, MHD_OPTION_CONNECTION_MEMORY_LIMIT,
        (size_t)HEADER_MEMORY, MHD_OPTION_STRICT_FOR_CLIENT, 1, MHD_OPTION_URI_LOG_CALLBACK,
        on_target, s, MHD_OPTION_NOTIFY_COMPLETED, on_done, s, MHD_OPTION_NOTIFY_CONNECTION,
        on_connection, s, MHD_OPTION_ARRAY, more, MHD_OPTION_END);
    if (!s->daemon)
        return fail_set(
            f, FAIL_INPUT,
            "serve: port %d of this machine cannot be had: %s; name another with --port", port,
            errno ? strerror(errno) : "the server did not start");
    s->port = MHD_get_daemon_info(s->daemon, MHD_DAEMON_INFO_BIND_PORT)->port;
    if (pthread_create(&s->watch, NULL, watch, s) != 0) {
        MHD_stop_daemon(s->daemon);
        return fail_set(f, FAIL_INPUT,
                        "serve: no thread to watch slow clients by; close other programs");
    }
    *out = s;
    return true;
}

int server_port(const struct server *s)
{
    return s->port;
}

void server_stop(struct server *s)
{
    MHD_stop_daemon(s->daemon);
    pthread_mutex_lock(&s->lock);
    s->ending = true;
    pthread_cond_signal(&s->end);
    pthread_mutex_unlock(&s->lock);
    pthread_join(s->watch, NULL);
    pthread_cond_destroy(&s->end);
    pthread_mutex_destroy(&s->lock);
}
