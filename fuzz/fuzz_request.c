/* Requests as an enemy would send them: one of every page and form with up to eight edits, or none
 * that was ever good. Input: which request, then for each edit an offset (2 bytes), how many bytes
 * go, how many come, and those. Held: every
 * answer has a status that we know, a body that is not longer than it says, is UTF-8 where it is
 * text, and carries the headers that keep pages apart; a refusal is one line.
 *
 * Two garages in a folder of their own, removed at the end: one is only looked at, so that its
 * plans come from the cache; the other takes what forms bring. */
#include "face/web/once.h"
#include "face/web/route.h"

#include <assert.h>
#include <sodium.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

int LLVMFuzzerTestOneInput(const unsigned char *data, size_t size);
int LLVMFuzzerInitialize(int *argc, char ***argv);

#define SESSION "0123456789abcdef0123456789abcdef"
enum { EDITS_MOST = 8, REQUESTS_MOST = 128, ALL_RANDOM = 255 };

static struct site still, taking;
static struct arena keep;
static char folder[] = "/tmp/fettle-fuzz-XXXXXX";
static struct {
    const struct site *site;
    const char *bytes;
} requests[REQUESTS_MOST];
static int n_requests;

static void add_request(const struct site *site, const char *bytes)
{
    assert(n_requests < REQUESTS_MOST);
    requests[n_requests].site = site;
    requests[n_requests++].bytes = bytes;
}

static void add_get(const struct site *site, const char *path)
{
    add_request(site, arena_print(&keep,
                                  "GET %s HTTP/1.1\r\nHost: localhost:8060\r\nAccept-Encoding: "
                                  "gzip\r\nCookie: fettle=" SESSION "\r\n\r\n",
                                  path));
}

static void add_post(const struct site *site, const char *path, const char *fields)
{
    const struct request r = {.path = path};
    const struct visit v = {.arena = &keep, .site = site, .request = &r, .session = SESSION};
    const char *body = arena_print(&keep, "token=%s&%s", visit_token(&v), fields);
    add_request(
        site,
        arena_print(
            &keep,
            "POST %s HTTP/1.1\r\nHost: localhost\r\nOrigin: http://localhost\r\nCookie: "
            "fettle=" SESSION
            "\r\nContent-Type: application/x-www-form-urlencoded\r\nContent-Length: %zu\r\n\r\n%s",
            path, strlen(body), body));
}

/* The id of the one vehicle in it. */
static const char *make_garage(struct site *site, const char *name)
{
    struct fail f = {0};
    struct garage *g;
    struct record *r = record_new(&keep, record_kind_find("vehicle"));
    site_open(&keep, arena_print(&keep, "%s/%s", folder, name), day_from_civil(2026, 11, 25), site);
    memset(site->secret, 0, sizeof site->secret); /* the forms' tokens are the same each time */
    site->runs = ANSWER_RUNS_LEAST;               /* a reckoning is only in the way here */
    bool made = garage_create(site->dir, "UTC", NULL, &f) &&
                garage_open(&keep, site->dir, GARAGE_WRITE, NULL, &g, &f) &&
                record_set(&keep, r, "name", "Wren", NULL, &f) &&
                record_set(&keep, r, "kind", "car", NULL, &f) && garage_begin(g, &f) &&
                garage_add(g, r, &f) && garage_commit(g, &f);
    assert(made);
    garage_close(g);
    return r->id;
}

static void clear_up(void)
{
    site_close(&still);
    site_close(&taking);
    if (system(arena_print(&keep, "rm -r '%s'", folder)) != 0)
        fprintf(stderr, "%s is left behind\n", folder);
}

/* The pattern of a page with something in each place of a piece. */
static const char *address_of(const char *pattern, const char *id)
{
    static const char *const pieces[][2] = {
        {"/SUBJECT", "/jobs"},
        {"/PLACE", "/outside"},
        {"/SUM", "/metric-thread"},
        {"/CODE", "/0"},
        {"/PHOTO", "/0"},
        {"/KIND", "/quote"},
        {"/RECORD", "/0"},
        {"/GATE", "/before-fuel"},
        {"/SIZE", "/copy"},
        {"/DIGEST", "/0000000000000000000000000000000000000000000000000000000000000000"}};
    struct text t = {.arena = &keep};
    while (*pattern) {
        size_t n = 1 + strcspn(pattern + 1, "/");
        const char *piece = arena_copy_n(&keep, pattern, n);
        if (text_is(piece, "/ID"))
            piece = text_starts(text_get(&t), "/trade") ? "/x" : arena_print(&keep, "/%s", id);
        for (size_t i = 0; i < sizeof pieces / sizeof *pieces; i++)
            if (text_is(piece, pieces[i][0])) piece = pieces[i][1];
        text_add(&t, piece);
        pattern += n;
    }
    return text_get(&t);
}

int LLVMFuzzerInitialize(int *argc, char ***argv)
{
    (void)argc;
    (void)argv;
    keep = arena_open((size_t)64 << 20);
    if (sodium_init() < 0 || !mkdtemp(folder)) abort();
    atexit(clear_up);
    const char *id = make_garage(&still, "still"), *other = make_garage(&taking, "taking");
    for (const struct route *r = routes; r->pattern; r++)
        if (r->method == METHOD_GET) add_get(&still, address_of(r->pattern, id));
    static const char *const paths[] = {
        "/trade?words=drum+brake", "/trade/jobs/x",  "/vehicle/Wren/survey", "/nothing",
        "/household?direction=x",  "/bench?words=x", "/bench/torque?a=1&b=", "/pair?code=1"};
    for (size_t i = 0; i < sizeof paths / sizeof *paths; i++) add_get(&still, paths[i]);
    const char *survey = arena_print(&keep, "/vehicle/%s/survey", other);
    add_post(&taking, survey, "saw=battery+worn");
    add_post(&taking, survey, "component=sill&condition=poor&note=%C3%A9+%3Cb%3E");
    add_post(
        &taking, "/intake",
        "workshop-state=.0&purse-state=.0&name=Wren&kind=car&year=1960&hours=4&a-month=100+GBP");
    static const char *const posts[][2] = {
        {"survey/outside", "all.sill=worn&sill~outside-left=poor&rest=sound"},
        {"what-if", "hours=8&start=2027-01-01&helpers=2&a-month=100+GBP&direction=restore"},
        {"log", "line=4+h%2C+front+brakes%2C+left+cylinder+stuck"},
        {"setback", "what=snapped-stud&is=flush&thread=M8&in=iron"},
        {"session", "act=left-off&note=screws+in+the+blue+tray"},
        {"safe", "check=going-under&holds=yes"},
        {"fit", "prefer=dynamo&budget=500+GBP&reversible=yes"},
        {"bags", "what=front+left+drum&where=A2"},
    };
    for (size_t i = 0; i < sizeof posts / sizeof *posts; i++)
        add_post(&taking, arena_print(&keep, "/vehicle/%s/%s", other, posts[i][0]), posts[i][1]);
    add_post(&taking, "/devices", "act=code&device=0");
    add_post(&taking, "/pair", "code=000000");
    return 0;
}

static void check_answer(const struct response *r, bool refused)
{
    bool packed = false, kept_apart = false;
    assert(*response_reason(r->status));
    for (int i = 0; i < r->n_headers; i++) {
        assert(!strpbrk(r->headers[i].value, "\r\n"));
        packed |= text_is(r->headers[i].name, "Content-Encoding");
        kept_apart |= text_is(r->headers[i].name, "Content-Security-Policy");
    }
    assert(kept_apart && (packed || strlen(r->body) >= r->length) &&
           (packed || text_is_utf8(r->body, r->length)));
    if (refused) assert(r->status >= 400 && strchr(r->body, '\n') == r->body + r->length - 1);
}

int LLVMFuzzerTestOneInput(const unsigned char *data, size_t size)
{
    if (size < 1) return 0;
    struct arena a = arena_open((size_t)4 << 30);
    const int which = data[0] % n_requests;
    struct text bytes = {.arena = &a};
    text_add(&bytes, data[0] == ALL_RANDOM ? "" : requests[which].bytes);
    size_t at = 1;
    for (int edit = 0; edit < EDITS_MOST && at + 4 <= size; edit++) {
        size_t from = (size_t)(data[at] << 8 | data[at + 1]) % (bytes.length + 1),
               out = data[at + 2], in = data[at + 3];
        at += 4;
        if (out > bytes.length - from) out = bytes.length - from;
        if (in > size - at) in = size - at;
        struct text next = {.arena = &a};
        text_add_n(&next, bytes.s, from);
        text_add_n(&next, (const char *)data + at, in);
        text_add_n(&next, bytes.s + from + out, bytes.length - from - out);
        bytes = next;
        at += in;
    }
    struct response r;
    struct text written = {.arena = &a};
    bool head_only;
    once_answer_bytes(&a, requests[which].site, text_get(&bytes), bytes.length, &r, &head_only);
    check_answer(&r, text_starts(r.type ? r.type : "", "text/plain"));
    if (r.file) close(r.file);
    response_write(&written, &r, false);
    arena_close(&a);
    return 0;
}
