/* serve: the pages, for the browser on this machine. */
#include "face/cli/context.h"
#include "face/cli/verbs.h"
#include "face/web/server.h"

#include <signal.h>
#include <sodium.h>
#include <stdio.h>

/* A request that is longer than any that is taken is read so far as to say so. */
enum { REQUEST_MOST = REQUEST_HEAD_MOST + REQUEST_BODY_MOST + 1 };

static bool serve_once(struct context *c, const struct site *site, struct fail *f)
{
    struct request *request = ARENA_NEW(c->arena, struct request);
    struct response response;
    struct refusal no = {0};
    struct text out = {.arena = c->arena};
    char *bytes = ARENA_ARRAY(c->arena, char, REQUEST_MOST);
    size_t length = fread(bytes, 1, REQUEST_MOST, stdin);
    if (length == 0 || ferror(stdin))
        return fail_set(
            f, FAIL_INPUT,
            "serve --once: no request on standard input; as: fettle serve --once < request");
    if (length == REQUEST_MOST) {
        no.status = 413;
        fail_set(&no.why, FAIL_INPUT, "the request is too large");
        site_refuse(c->arena, &no, &response);
    } else if (request_read(c->arena, bytes, length, request, &no)) {
        site_answer(c->arena, site, request, &response);
    } else {
        site_refuse(c->arena, &no, &response);
    }
    response_write(&out, &response, request->method == METHOD_HEAD);
    fwrite(out.s, 1, out.length, stdout);
    return true;
}

static bool serve_until_told(struct context *c, const struct site *site, int port, struct fail *f)
{
    struct server *server;
    sigset_t ends;
    int which;
    /* Blocked before any thread is made, so that the signal waits for sigwait. */
    sigemptyset(&ends);
    sigaddset(&ends, SIGINT);
    sigaddset(&ends, SIGTERM);
    pthread_sigmask(SIG_BLOCK, &ends, NULL);
    signal(SIGPIPE, SIG_IGN);
    const struct server_settings settings = {.port = port};
    if (!server_start(c->arena, site, &settings, &server, f)) return false;
    context_say(c, "http://localhost:%d/ - on this machine only. Ctrl-C ends it.",
                server_port(server));
    fflush(stdout);
    sigwait(&ends, &which);
    server_stop(server);
    return true;
}

static bool run(struct context *c, struct fail *f)
{
    struct site *site = ARENA_NEW(c->arena, struct site);
    struct garage *g;
    int64_t port;
    if (c->n_words > 0)
        return fail_set(f, FAIL_INPUT, "serve: takes no word '%s'; see fettle help serve",
                        c->words[0]);
    if (!context_whole(c, "port", 0, 65535, SERVER_PORT, &port, f) ||
        !context_garage_dir(c, &site->dir, f))
        return false;
    if (sodium_init() < 0)
        return fail_set(f, FAIL_GARAGE, "serve: this machine gives no random numbers");
    site->today = context_option(c, "date") ? c->today : DAY_NONE;
    randombytes_buf(site->secret, sizeof site->secret);
    if (context_option(c, "once")) return serve_once(c, site, f);
    /* Better told now than on the first page. */
    if (!context_garage(c, GARAGE_READ, &g, f)) return false;
    context_close(c);
    return serve_until_told(c, site, (int)port, f);
}

static const struct option options[] = {
    {"port", "N", "where to listen; 8060 if left out, 0: any that is free"},
    {"once", NULL, "answer one HTTP request from standard input, on standard output"},
    {NULL, NULL, NULL},
};
static const struct example examples[] = {
    {"fettle serve", "the pages at http://localhost:8060/"},
    {"fettle serve --port 9000", "elsewhere"},
    {"printf 'GET / HTTP/1.1\\r\\nHost: localhost\\r\\n\\r\\n' | fettle serve --once",
     "one page, without a socket"},
    {NULL, NULL},
};
const struct command command_serve = {
    .name = "serve",
    .help = "the pages, for the browser on this machine",
    .usage = "[--port N] [--once]",
    .text = "The yard, survey, choose, plan, intake and the trade data, as pages. Only this "
            "machine can reach them: to share "
            "them with a phone is not possible yet. Ctrl-C ends it.",
    .options = options,
    .examples = examples,
    .run = run,
};
