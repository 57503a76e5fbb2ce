#include "face/web/route.h"

#include "face/web/page_frame.h"
#include "face/web/share.h"

#include <assert.h>
#include <sodium.h>
#include <stdlib.h>
#include <string.h>
#include <strings.h>
#include <time.h>
#include <zlib.h>

enum { GZIP_LEAST = 1024, SESSION_DIGITS = 32, KEPT_BYTES = 16 << 20 };
/* Milliseconds after which a reckoning is shown to go on; a browser that has been shown it once
 * asks again at once and then is kept waiting. */
enum { SHOWN_AFTER = 120, SHOWN_AGAIN_AFTER = 3000 };

const struct route routes[] = {
    {METHOD_GET, "/", page_yard, "the yard: every vehicle at a glance", TO_PAIRED, false},
    {METHOD_GET, "/vehicle/ID/survey", page_survey, "what is here, and in what state", TO_PAIRED,
     true},
    {METHOD_POST, "/vehicle/ID/survey", page_survey_tell, "tell a finding", TO_PAIRED, false},
    {METHOD_GET, "/vehicle/ID/survey/everything", page_survey_everything, "all of it as a table",
     TO_PAIRED, true},
    {METHOD_GET, "/vehicle/ID/survey/PLACE", page_lap, "one stop of the lap", TO_PAIRED, true},
    {METHOD_POST, "/vehicle/ID/survey/PLACE", page_lap_tell, "tell what is seen there", TO_PAIRED,
     false},
    {METHOD_GET, "/vehicle/ID/originality", page_originality,
     "which one it is, and how much is its own", TO_PAIRED, true},
    {METHOD_POST, "/vehicle/ID/originality", page_originality_tell,
     "tell a number, a date or a component", TO_PAIRED, false},
    {METHOD_GET, "/vehicle/ID/photographs", page_photographs, "what it looks like", TO_PAIRED,
     true},
    {METHOD_FILES, "/vehicle/ID/photographs", page_photographs_take, "take some in", TO_PAIRED,
     false},
    {METHOD_GET, "/vehicle/ID/photographs/PHOTO", page_photograph, "one of them", TO_PAIRED, true},
    {METHOD_POST, "/vehicle/ID/photographs/PHOTO", page_photograph_name, "name it", TO_PAIRED,
     false},
    {METHOD_GET, "/photograph/DIGEST", page_photograph_original, "as it came", TO_PAIRED, false},
    {METHOD_GET, "/photograph/DIGEST/SIZE", page_photograph_copy, "smaller", TO_PAIRED, false},
    {METHOD_GET, "/vehicle/ID/identify", page_identify, "what it really is", TO_PAIRED, true},
    {METHOD_POST, "/vehicle/ID/identify", page_identify_tell, "tell a clue, the clock, a paper",
     TO_PAIRED, false},
    {METHOD_GET, "/vehicle/ID/choose", page_choose, "what shall become of it", TO_PAIRED, true},
    {METHOD_GET, "/vehicle/ID/plan", page_plan, "what happens when, and what it costs", TO_PAIRED,
     true},
    {METHOD_GET, "/vehicle/ID/what-if", page_what_if, "the plan if it were otherwise", TO_PAIRED,
     false},
    {METHOD_POST, "/vehicle/ID/what-if", page_what_if_keep, "make it so", TO_PAIRED, false},
    {METHOD_GET, "/vehicle/ID/loom", page_loom, "its circuits, and what is wrong", TO_PAIRED,
     false},
    {METHOD_GET, "/household", page_household, "for who shares the purse", TO_PAIRED, false},
    {METHOD_GET, "/vehicle/ID/view", page_view, "before buying", TO_PAIRED, false},
    {METHOD_POST, "/vehicle/ID/view", page_view_tell, "tell what is seen", TO_PAIRED, false},
    {METHOD_GET, "/vehicle/ID/advert", page_advert, "what is asked for it", TO_PAIRED, false},
    {METHOD_POST, "/vehicle/ID/advert", page_advert_take, "store it, or it is bought", TO_PAIRED,
     false},
    {METHOD_GET, "/intake", page_intake, "twelve questions about a vehicle", TO_PAIRED, true},
    {METHOD_POST, "/intake", page_intake_take, "take it in", TO_PAIRED, false},
    {METHOD_GET, "/trade", page_trade, "look into the trade data", TO_PAIRED, false},
    {METHOD_GET, "/trade/SUBJECT", page_trade_subject, "one subject of the trade data", TO_PAIRED,
     false},
    {METHOD_GET, "/trade/SUBJECT/ID", page_trade_entry, "one entry of the trade data", TO_PAIRED,
     false},
    {METHOD_GET, "/bench", page_bench, "the engineering sums", TO_PAIRED, false},
    {METHOD_GET, "/bench/SUM", page_bench_sum, "one sum, asked by its address", TO_PAIRED, false},
    {METHOD_GET, "/style.css", page_style, "how the pages look", TO_ANYONE, false},
    {METHOD_GET, "/what-if.js", page_what_if_script, "sliders for a what-if", TO_ANYONE, false},
    {METHOD_GET, "/live.js", page_live_script, "answers that follow the hand", TO_ANYONE, false},
    {METHOD_GET, "/pair", page_pair, "let a phone in by a code", TO_ANYONE, false},
    {METHOD_POST, "/pair", page_pair_take, "with the code that was typed", TO_ANYONE, false},
    {METHOD_GET, "/pair/CODE", page_pair, "the same, with the code filled in", TO_ANYONE, false},
    {METHOD_POST, "/pair/CODE", page_pair_take, "with that code", TO_ANYONE, false},
    {METHOD_GET, "/devices", page_devices, "which phones are let in", TO_THIS_MACHINE, false},
    {METHOD_POST, "/devices", page_devices_take, "a new code, or an end", TO_THIS_MACHINE, false},
    {METHOD_OTHER, NULL, NULL, NULL, TO_PAIRED, false},
};

static void leave_garage(struct visit *v)
{
    if (v->garage) garage_pool_put_back(v->site->pool, v->garage);
    v->garage = NULL;
}

bool visit_garage(struct visit *v, enum garage_mode mode, struct fail *f)
{
    leave_garage(v);
    return garage_pool_take(v->site->pool, mode, &v->garage, f);
}

static bool take_trade(struct visit *v, struct fail *f)
{
    return v->trade || shelf_take(v->site->shelf, &v->trade, f);
}

bool visit_trade(struct visit *v, const struct trade **out, struct fail *f)
{
    if (!take_trade(v, f)) return false;
    *out = &v->trade->trade;
    return true;
}

bool visit_fail(struct visit *v, int status, struct fail *f, const char *line)
{
    v->response->status = status;
    return fail_set(f, FAIL_INPUT, "%s", line);
}

bool visit_vehicle(struct visit *v, struct record **out, struct fail *f)
{
    const struct record_kind *k = record_kind_find("vehicle");
    assert(k);
    if (!v->garage && !visit_garage(v, GARAGE_READ, f)) return false;
    if (garage_find(v->garage, v->arena, k, v->piece[0], out, f)) return true;
    if (f->kind == FAIL_INPUT) v->response->status = 404;
    return false;
}

static bool load_trade(void *context, const struct trade **out, struct fail *f)
{
    return visit_trade(context, out, f);
}

static bool digest_trade(void *context, char hex[65], struct fail *f)
{
    struct visit *v = context;
    if (!take_trade(v, f)) return false;
    memcpy(hex, v->trade->digest, 65);
    return true;
}

static struct shop_ask ask_of(const struct visit *v, const char *vehicle)
{
    return (struct shop_ask){.garage = v->garage,
                             .vehicle = vehicle,
                             .today = v->today,
                             .direction = -1,
                             .seed = SEED_USUAL,
                             .runs = v->site->runs};
}

bool visit_shop_ask(struct visit *v, const char *vehicle, struct shop_ask *out,
                    struct answer_trade *trade, struct fail *f)
{
    *out = ask_of(v, vehicle);
    *trade = (struct answer_trade){digest_trade, load_trade, v};
    return visit_trade(v, &out->trade, f);
}

/* Has it reckoned, unless that was done before, by the one place where each answer is reckoned
 * once. `watched`: whoever asks is shown how far it is, and then asks again. */
static enum reckoning have_reckoned(struct visit *v, enum question q, const char *vehicle,
                                    const char *key, bool watched, double *share, struct fail *f)
{
    const struct reckoner_ask what = {key, q, ask_of(v, vehicle)};
    bool began;
    if (garage_cache_has(v->garage, *v->arena, key)) return RECKONING_DONE;
    enum reckoning how =
        reckoner_wait(v->site->reckoner, &what, watched ? SHOWN_AFTER : -1, &began, share, f);
    if (how != RECKONING_GOES_ON || began) return how;
    return reckoner_wait(v->site->reckoner, &what, SHOWN_AGAIN_AFTER, &began, share, f);
}

bool visit_ask(struct visit *v, enum question q, const char *vehicle, struct told *out,
               struct fail *f)
{
    const struct shop_ask ask = ask_of(v, vehicle);
    const struct answer_trade trade = {digest_trade, load_trade, v};
    char key[65];
    double share;
    return answer_key(v->arena, q, &ask, NULL, trade, key, f) &&
           have_reckoned(v, q, vehicle, key, false, &share, f) != RECKONING_FAILED &&
           answer_get(v->arena, q, &ask, NULL, trade, out, f);
}

bool visit_kept(struct visit *v, enum question q, const char *vehicle, struct told *out,
                bool *current)
{
    const struct shop_ask ask = ask_of(v, vehicle);
    const struct answer_trade trade = {digest_trade, load_trade, v};
    return answer_kept(v->arena, q, &ask, NULL, trade, out, current);
}

bool visit_brief(struct visit *v, enum question q, const char *vehicle, struct answer_brief *out)
{
    const struct shop_ask ask = ask_of(v, vehicle);
    const struct answer_trade trade = {digest_trade, load_trade, v};
    return answer_brief(v->arena, q, &ask, NULL, trade, out);
}

/* Kept as one text: a line with ids and the title's length, the title, the HTML. */
static const char *fold(struct arena *a, const struct sheet_page *page)
{
    struct text t = {.arena = a};
    text_print(&t, "%d %zu\n", page->ids, strlen(page->title));
    text_add(&t, page->title);
    text_add(&t, page->html);
    return text_get(&t);
}

static struct sheet_page unfold(struct arena *a, const char *kept)
{
    char *end;
    const int ids = (int)strtol(kept, &end, 10);
    const size_t length = strtoul(end, &end, 10);
    return (struct sheet_page){arena_copy_n(a, end + 1, length), end + 1 + length, ids, 1};
}

bool visit_ask_page(struct visit *v, enum question q, const struct record *vehicle,
                    struct sheet_page *out, struct fail *f)
{
    const char *id = vehicle ? vehicle->id : "";
    const struct shop_ask ask = ask_of(v, id);
    const struct answer_trade trade = {digest_trade, load_trade, v};
    char name[65];
    if (!answer_key(v->arena, q, &ask, NULL, trade, name, f)) return false;
    const char *kept = kept_get(v->site->kept, v->arena, name);
    if (kept) {
        *out = unfold(v->arena, kept);
        return true;
    }
    struct told told;
    double share;
    enum reckoning how = have_reckoned(v, q, id, name, v->request->navigates, &share, f);
    if (how == RECKONING_GOES_ON) *out = (struct sheet_page){.title = "Reckoning", .share = share};
    if (how != RECKONING_DONE) return how == RECKONING_GOES_ON;
    if (!answer_get(v->arena, q, &ask, NULL, trade, &told, f)) return false;
    struct text text = {.arena = v->arena};
    struct html h = html_begin(&text);
    page_answer_sheet(&h, &told, vehicle, v->today);
    html_end(&h);
    json_decref(told.json);
    *out = (struct sheet_page){told.sheet->title, text_get(&text), h.ids, 1};
    kept_put(v->site->kept, name, fold(v->arena, out));
    return true;
}

bool visit_go(struct visit *v, const char *address)
{
    v->response->status = 303;
    response_header(v->response, "Location", address);
    return true;
}

const char *visit_token(const struct visit *v)
{
    if (v->steady) return v->site->token_place;
    unsigned char mac[crypto_auth_hmacsha256_BYTES];
    const char *what = arena_print(v->arena, "%s\n%s", v->session, v->request->path);
    crypto_auth_hmacsha256(mac, (const unsigned char *)what, strlen(what), v->site->secret);
    char *hex = ARENA_ARRAY(v->arena, char, 2 * sizeof mac + 1);
    return sodium_bin2hex(hex, 2 * sizeof mac + 1, mac, sizeof mac);
}

/* Does the path fit the pattern? Pieces in capitals match anything but nothing. */
static bool path_fits(struct arena *a, const char *pattern, const char *path, const char *piece[2])
{
    int n = 0;
    while (*pattern == '/' && *path == '/') {
        size_t wanted = strcspn(++pattern, "/"), there = strcspn(++path, "/");
        if (*pattern >= 'A' && *pattern <= 'Z') {
            if (there == 0) return false;
            assert(n < 2);
            piece[n++] = arena_copy_n(a, path, there);
        } else if (wanted != there || strncmp(pattern, path, there) != 0) {
            return false;
        }
        pattern += wanted;
        path += there;
    }
    return !*pattern && !*path;
}

/* A page from elsewhere whose name was pointed at this machine must not reach it: only names for
 * this machine itself. */
static bool host_is_ours(const struct site *site, const char *host)
{
    if (site->beyond) return share_is_host(site->share, host);
    static const char *const ours[] = {"localhost", "127.0.0.1", "[::1]"};
    for (size_t i = 0; i < sizeof ours / sizeof *ours; i++) {
        size_t n = strlen(ours[i]);
        if (strncasecmp(host, ours[i], n) != 0) continue;
        const char *port = host + n;
        if (!*port ||
            (*port == ':' && port[1] && strspn(port + 1, "0123456789") == strlen(port + 1)))
            return true;
    }
    return false;
}

static bool form_is_ours(struct visit *v, bool session_new, struct fail *f)
{
    const struct request *r = v->request;
    const char *token = pairs_get(&r->form, "token"), *wanted = visit_token(v);
    if (r->origin && !text_is(r->origin, arena_print(v->arena, "%s://%s",
                                                     v->site->beyond ? "https" : "http", r->host)))
        return visit_fail(v, 403, f, "the form comes from another site; nothing was stored");
    if (session_new || !token || strlen(token) != strlen(wanted) ||
        sodium_memcmp(token, wanted, strlen(wanted)) != 0)
        return visit_fail(v, 403, f,
                          "the form is not one that was given out since the program started; "
                          "nothing was stored: go back, "
                          "load the page again and send it once more");
    return true;
}

/* A name with __Host- is taken by a browser only from this very host, over TLS. */
static const char *session_cookie(const struct site *site)
{
    return site->beyond ? "__Host-fettle" : "fettle";
}

/* A session only ties forms to the browser that they were given to; it lets nobody in. Returns
 * whether it is new. */
static bool begin_session(struct visit *v)
{
    const char *known = request_cookie(v->arena, v->request, session_cookie(v->site));
    v->session = known;
    if (known && strlen(known) == SESSION_DIGITS &&
        strspn(known, "0123456789abcdef") == SESSION_DIGITS)
        return false;
    unsigned char bytes[SESSION_DIGITS / 2];
    char *hex = ARENA_ARRAY(v->arena, char, SESSION_DIGITS + 1);
    randombytes_buf(bytes, sizeof bytes);
    v->session = sodium_bin2hex(hex, SESSION_DIGITS + 1, bytes, sizeof bytes);
    return true;
}

static bool find_page(struct visit *v, page_function **out, bool session_new, struct fail *f)
{
    const struct request *r = v->request;
    bool get = false, post = false;
    if (!r->host) return visit_fail(v, 400, f, "there is no Host header; send one");
    if (!host_is_ours(v->site, r->host))
        return visit_fail(
            v, 421, f,
            v->site->beyond
                ? "this machine has no such name; use the address that is on its screen"
                : "this program answers to localhost only; use that name in the address");
    if (v->site->beyond && !visit_admit(v, f)) return false;
    for (const struct route *route = routes; route->pattern; route++) {
        const char *piece[2] = {NULL, NULL};
        if (!path_fits(v->arena, route->pattern, r->path, piece)) continue;
        const bool takes = route->method == METHOD_POST || route->method == METHOD_FILES;
        const bool wanted =
            takes ? r->method == METHOD_POST : r->method == METHOD_GET || r->method == METHOD_HEAD;
        get |= !takes;
        post |= takes;
        if (!wanted) continue;
        if (route->to == TO_THIS_MACHINE && v->site->beyond)
            return visit_fail(v, 403, f, "this is done on the machine that serves the pages");
        if (route->to != TO_ANYONE && v->outside) {
            *out = page_outside;
            return true;
        }
        v->piece[0] = piece[0];
        v->piece[1] = piece[1];
        *out = route->page;
        v->steady = route->steady && !v->outside;
        if (r->multipart && route->method != METHOD_FILES)
            return visit_fail(v, 415, f, "this page takes no files; send the form that it shows");
        return !takes || form_is_ours(v, session_new, f);
    }
    if (!get && !post) return visit_fail(v, 404, f, "there is no such page; begin at the yard");
    response_header(v->response, "Allow", post ? "GET, HEAD, POST" : "GET, HEAD");
    return visit_fail(v, 405, f, "this page does not take that; look at it instead");
}

/* "gzip" among the codings, and not as "gzip;q=0". */
static bool takes_gzip(const char *accept)
{
    for (const char *s = accept; s && *s;) {
        s += strspn(s, " \t,");
        size_t n = strcspn(s, ",");
        if (n >= 4 && strncasecmp(s, "gzip", 4) == 0 && (n == 4 || strchr("; \t", s[4]))) {
            const char *q = memchr(s, '=', n);
            return !q || strspn(q + 1, "0.") != (size_t)(s + n - q - 1);
        }
        s += n;
    }
    return false;
}

static void squeeze(struct arena *a, const struct request *r, struct response *out)
{
    if (out->length <= GZIP_LEAST) return;
    response_header(out, "Vary", "Accept-Encoding");
    if (!takes_gzip(r->accept_encoding)) return;
    z_stream z = {0};
    /* 15 + 16: the largest window, with a gzip header. */
    if (deflateInit2(&z, Z_BEST_SPEED, Z_DEFLATED, 15 + 16, 8, Z_DEFAULT_STRATEGY) != Z_OK) return;
    uLong bound = deflateBound(&z, out->length);
    unsigned char *small = arena_take(a, bound, 1);
    z.next_in = (unsigned char *)(uintptr_t)out->body; /* zlib does not write to it */
    z.avail_in = (uInt)out->length;
    z.next_out = small;
    z.avail_out = (uInt)bound;
    if (deflate(&z, Z_FINISH) == Z_STREAM_END) {
        out->body = (const char *)small;
        out->length = z.total_out;
        response_header(out, "Content-Encoding", "gzip");
    }
    deflateEnd(&z);
}

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

static bool has_header(const struct response *r, const char *name)
{
    for (int i = 0; i < r->n_headers; i++)
        if (text_is(r->headers[i].name, name)) return true;
    return false;
}

/* ---- steady pages: kept whole, with a place for the token ---- */

/* What such a page hangs on: address, day, facts, trade data, who may see what, and whether the
 * looks that matter are known. */
static const char *steady_name(struct visit *v, struct fail *f)
{
    const struct request *r = v->request;
    const struct answer_trade trade = {digest_trade, load_trade, v};
    struct text t = {.arena = v->arena};
    char key[65];
    if (!v->garage && !visit_garage(v, GARAGE_READ, f)) return NULL;
    const struct shop_ask ask = ask_of(v, v->piece[0] ? v->piece[0] : "");
    if (!answer_key(v->arena, QUESTION_CHOOSE, &ask, NULL, trade, key, f)) return NULL;
    text_print(&t, "%s %d %d %s", key, garage_cache_has(v->garage, *v->arena, key), v->site->beyond,
               r->path);
    for (int i = 0; i < r->query.count; i++) {
        text_add(&t, i ? "&" : "?");
        html_percent(&t, r->query.items[i].name);
        text_add(&t, "=");
        html_percent(&t, r->query.items[i].value);
    }
    return text_get(&t);
}

/* Every place of the token gets this visit's own: both are as long. */
static void place_token(struct visit *v, char *page)
{
    v->steady = false;
    const char *token = visit_token(v), *place = v->site->token_place;
    for (char *at = page; (at = strstr(at, place)); at += strlen(place))
        memcpy(at, token, strlen(place));
}

/* The page from before, or made now by `page` and kept if it came out well. */
static bool steady(struct visit *v, page_function *page, struct fail *f)
{
    struct response *out = v->response;
    struct fail ignored = {0};
    const char *name = steady_name(v, &ignored);
    const char *kept = name ? kept_get(v->site->kept, v->arena, name) : NULL;
    if (!kept) {
        if (!page(v, f)) return false;
        bool whole = out->status == 0 && !has_header(out, "Refresh") && out->body;
        if (name && whole) kept_put(v->site->kept, name, out->body);
        kept = out->body;
    }
    out->type = "text/html; charset=utf-8";
    char *body = arena_copy(v->arena, kept);
    place_token(v, body);
    out->body = body;
    out->length = strlen(body);
    return true;
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
    bool session_new = begin_session(&v), told = find_page(&v, &to, session_new, &f);
    if (told && ask_only && to != page_outside) return false;
    if (!told || !(v.steady ? steady(&v, to, &f) : to(&v, &f))) {
        v.steady = false;
        assert(f.kind != FAIL_NONE); /* whoever says no says why */
        if (out->status == 0) out->status = status_of(&f);
        if (v.outside && f.kind == FAIL_GARAGE) { /* its line may name folders of this machine */
            f = (struct fail){0};
            fail_set(&f, FAIL_GARAGE, "not now: on the machine itself it is told what is wrong");
        }
        page_failure(&v, &f);
    }
    leave_garage(&v);
    if (v.trade) shelf_put_back(site->shelf, v.trade);
    if (out->status == 0) out->status = 200;
    if (!has_header(out, "ETag")) { /* what has one says itself how it may be kept */
        response_header(out, "Cache-Control", "no-store");
        if (session_new)
            response_header(out, "Set-Cookie",
                            arena_print(a, "%s=%s; Path=/; HttpOnly; SameSite=Strict%s",
                                        session_cookie(site), v.session,
                                        site->beyond ? "; Secure" : ""));
    }
    add_common_headers(out);
    if (!out->body) out->body = "";
    if (!out->file) squeeze(a, request, out);
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
