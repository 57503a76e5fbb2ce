/* serve: the pages, for the browser on this machine, and for phones. */
#include "face/cli/context.h"
#include "face/cli/sharing.h"
#include "face/cli/verbs.h"
#include "face/web/once.h"
#include "face/web/server.h"

#include <signal.h>
#include <sodium.h>
#include <stdio.h>
#include <time.h>
#include <unistd.h>

static size_t read_stdin(void *context, char *out, size_t n)
{
    bool *began = context;
    n = fread(out, 1, n, stdin);
    *began |= n > 0;
    return n;
}

static bool serve_once(struct context *c, const struct site *site, struct fail *f)
{
    struct response response;
    struct text out = {.arena = c->arena};
    bool began = false, head_only;
    once_answer(c->arena, site, read_stdin, &began, &response, &head_only);
    if (!began || ferror(stdin))
        return fail_set(
            f, FAIL_INPUT,
            "serve --once: no request on standard input; as: fettle serve --once < request");
    response_write(&out, &response, head_only);
    fwrite(out.s, 1, out.length, stdout);
    if (response.file) {
        char piece[65536];
        ssize_t n;
        while (!head_only && (n = read(response.file, piece, sizeof piece)) > 0)
            fwrite(piece, 1, (size_t)n, stdout);
        close(response.file);
    }
    return true;
}

/* The server for phones: the same pages, over TLS, under a secret of its own. */
static bool start_sharing(struct context *c, const struct site *here, int port,
                          struct server **server, struct fail *f)
{
    struct site *beyond = ARENA_NEW(c->arena, struct site);
    struct share *share = (struct share *)(uintptr_t)here->share;
    const struct server_settings settings = {.port = port ? port + 1 : 0};
    *beyond = *here;
    beyond->beyond = true;
    randombytes_buf(beyond->secret, sizeof beyond->secret);
    if (port == 65535)
        return fail_set(f, FAIL_INPUT,
                        "serve --share: there is no port after 65535 for the phones; name a lower "
                        "one with --port");
    if (!share_find_addresses(c->arena, share, f) ||
        !share_find_certificate(c->arena, here->dir, time(NULL), share, f) ||
        !server_start(c->arena, beyond, &settings, server, f))
        return false;
    share->port = server_port(*server);
    return true;
}

static bool serve_until_told(struct context *c, struct site *site, int port, struct fail *f)
{
    struct server *server, *shared = NULL;
    struct pairing pairing;
    const struct server_settings settings = {.port = port};
    sigset_t ends;
    /* Blocked before any thread is made, so that the signal comes to the one that waits. */
    sigemptyset(&ends);
    sigaddset(&ends, SIGINT);
    sigaddset(&ends, SIGTERM);
    pthread_sigmask(SIG_BLOCK, &ends, NULL);
    signal(SIGPIPE, SIG_IGN);
    pairing_begin(&pairing);
    if (context_option(c, "share")) {
        site->share = ARENA_NEW(c->arena, struct share);
        site->pairing = &pairing;
        if (!start_sharing(c, site, port, &shared, f)) return false;
    }
    bool started = server_start(c->arena, site, &settings, &server, f);
    if (started) {
        context_say(c, "http://localhost:%d/ - on this machine%s. Ctrl-C ends it.",
                    server_port(server), shared ? "" : " only");
        if (shared) sharing_tell(c, site->share, &pairing);
        fflush(stdout);
        sharing_wait(c, site->share, site->pairing);
        server_stop(server);
    }
    if (shared) server_stop(shared);
    pairing_end(&pairing);
    return started;
}

static bool run(struct context *c, struct fail *f)
{
    struct site *site = ARENA_NEW(c->arena, struct site);
    int swept;
    struct garage *g;
    const char *dir;
    int64_t port;
    if (c->n_words > 0)
        return fail_set(f, FAIL_INPUT, "serve: takes no word '%s'; see fettle help serve",
                        c->words[0]);
    if (!context_whole(c, "port", 0, 65535, SERVER_PORT, &port, f) ||
        !context_garage_dir(c, &dir, f))
        return false;
    if (sodium_init() < 0)
        return fail_set(f, FAIL_GARAGE, "serve: this machine gives no random numbers");
    const char *forget = context_option(c, "forget");
    if (context_option(c, "devices") || forget) {
        if (!context_garage(c, GARAGE_READ, &g, f)) return false;
        return forget ? sharing_forget(c, dir, forget, f) : sharing_list(c, dir, f);
    }
    site_open(c->arena, dir, context_option(c, "date") ? c->today : DAY_NONE, site);
    bool good;
    if (context_option(c, "once")) {
        good = serve_once(c, site, f);
    } else {
        /* Better told now than on the first page. */
        good = context_garage(c, GARAGE_READ, &g, f) && garage_sweep(g, &swept, f);
        context_close(c);
        good = good && serve_until_told(c, site, (int)port, f);
    }
    site_close(site);
    return good;
}

static const struct option options[] = {
    {"port", "N", "where to listen; 8060 if left out, 0: any that is free"},
    {"share", NULL, "let paired phones on your network in as well, at the port after N"},
    {"devices", NULL, "list the phones that were paired"},
    {"forget", "ID", "end the access of one"},
    {"once", NULL, "answer one HTTP request from standard input, on standard output"},
    {NULL, NULL, NULL},
};
static const struct example examples[] = {
    {"fettle serve", "the pages at http://localhost:8060/"},
    {"fettle serve --port 9000", "elsewhere"},
    {"fettle serve --share", "for a phone too: shows a code that its camera reads"},
    {"fettle serve --devices", "which phones have access"},
    {"printf 'GET / HTTP/1.1\\r\\nHost: localhost\\r\\n\\r\\n' | fettle serve --once",
     "one page, without a socket"},
    {NULL, NULL},
};
const struct command command_serve = {
    .name = "serve",
    .help = "the pages, for the browser on this machine, and for paired phones",
    .usage = "[--port N] [--share]\n--devices\n--forget ID\n--once",
    .text = "The yard, survey, choose, plan, intake and the trade data, as pages. Only this "
            "machine can reach them, but for --share: then machines of the same network can, over "
            "TLS, and only phones that were paired by the code that is shown see more than the "
            "page that asks for it. What stands against whom is told in docs/threats.md. "
            "Ctrl-C ends it.",
    .options = options,
    .examples = examples,
    .run = run,
};
