#include "face/web/site.h"

#include "face/web/pack.h"
#include "face/web/page_frame.h"
#include "face/web/route.h"
#include "face/web/session.h"
#include "face/web/steady.h"

#include <assert.h>
#include <sodium.h>
#include <string.h>
#include <time.h>

enum { KEPT_BYTES = 16 << 20 };

static void add_common_headers(struct response *out)
{
    response_header(out, "X-Content-Type-Options", "nosniff");
    /* Not no-referrer: with it browsers send "Origin: null" along with our own forms. */
    response_header(out, "Referrer-Policy", "same-origin");
    response_header(out, "Content-Security-Policy",
                    "default-src 'none'; style-src 'self'; img-src 'self'; script-src 'self'; "
                    "connect-src 'self'; form-action 'self'; "
                    "base-uri 'none'; "
                    "frame-ancestors 'none'");
    response_header(out, "Cross-Origin-Opener-Policy", "same-origin");
    response_header(out, "Cross-Origin-Resource-Policy", "same-origin");
}

static day machine_day(void)
{
    time_t now = time(NULL);
    struct tm local;
    if (!localtime_r(&now, &local)) return 0;
    return day_from_civil(local.tm_year + 1900, local.tm_mon + 1, local.tm_mday);
}

static int status_of(const struct fail *f)
{
    return f->kind == FAIL_GARAGE ? 503 : 400;
}

void site_open(struct arena *a, const char *dir, day today, struct site *out)
{
    *out = (struct site){
        .dir = arena_copy(a, dir),
        .today = today,
        .runs = RUNS_USUAL,
        .shelf = shelf_open(arena_print(a, "%s/trade", dir)),
        .kept = kept_open(KEPT_BYTES),
        .pool = garage_pool_open(dir),
    };
    out->reckoner = reckoner_open(out->dir, out->shelf);
    randombytes_buf(out->secret, sizeof out->secret);
    unsigned char place[32]; /* nobody can type what nobody knows */
    randombytes_buf(place, sizeof place);
    sodium_bin2hex(out->token_place, sizeof out->token_place, place, sizeof place);
}

void site_close(struct site *site)
{
    reckoner_close(site->reckoner);
    shelf_close(site->shelf);
    kept_close(site->kept);
    garage_pool_close(site->pool);
}

/* False: only whether it would be admitted was asked, and it would. */
static bool answer(struct arena *a, const struct site *site, const struct request *request,
                   bool ask_only, struct response *out)
{
    *out = (struct response){0};
    struct visit v = {
        .arena = a, .site = site, .request = request, .response = out, .text = {.arena = a}};
    struct fail f = {0};
    page_function *to = NULL;
    v.today = site->today == DAY_NONE ? machine_day() : site->today;
    v.outside = site->beyond; /* until it is known better */
    bool session_new = session_begin(&v), told = route_find(&v, &to, session_new, &f);
    if (told && ask_only && to != page_outside) return false;
    if (!told || !(v.steady ? steady_answer(&v, to, &f) : to(&v, &f))) {
        v.steady = false;
        assert(f.kind != FAIL_NONE); /* whoever says no says why */
        if (out->status == 0) out->status = status_of(&f);
        if (v.outside && f.kind == FAIL_GARAGE) { /* its line may name folders of this machine */
            f = (struct fail){0};
            fail_set(&f, FAIL_GARAGE, "not now: on the machine itself it is told what is wrong");
        }
        page_failure(&v, &f);
    }
    visit_end(&v);
    if (out->status == 0) out->status = 200;
    if (!response_has(out, "ETag")) { /* what has one says itself how it may be kept */
        response_header(out, "Cache-Control", "no-store");
        if (session_new) session_give(&v);
    }
    add_common_headers(out);
    if (!out->body) out->body = "";
    if (!out->file) pack_response(a, request, out);
    return true;
}

void site_answer(struct arena *a, const struct site *site, const struct request *request,
                 struct response *out)
{
    answer(a, site, request, false, out);
}

bool site_admits(struct arena *a, const struct site *site, const struct request *request,
                 struct response *out)
{
    return !answer(a, site, request, true, out);
}

void site_refuse(struct arena *a, const struct refusal *no, struct response *out)
{
    *out = (struct response){.status = no->status, .type = "text/plain; charset=utf-8"};
    out->body = arena_print(a, "%s\n", no->why.text);
    out->length = strlen(out->body);
    response_header(out, "Cache-Control", "no-store");
    add_common_headers(out);
}
