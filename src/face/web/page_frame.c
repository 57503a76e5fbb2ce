#include "face/web/page_frame.h"

#include "face/web/form.h"
#include "garage/kinds.h"

#include <sodium.h>
#include <string.h>

const char *page_of_vehicle(struct arena *a, const struct record *vehicle, const char *name)
{
    return arena_print(a, "/vehicle/%s/%s", vehicle->id, name);
}

static void go_to(struct html *h, const char *address, const char *text, bool here)
{
    html_open(h, "a");
    html_url(h, "href", address);
    if (here) html_attr(h, "aria-current", "page");
    html_text(h, text);
    html_close(h, "a");
}

/* Where one can go: what is used daily is always there, the rest behind "More", so that on a phone
 * the page itself begins on the first screen. */
struct way {
    const char *name, *label; /* name: `here` of page_begin, and of a vehicle's page its address */
    const char *address;      /* NULL: a page of the vehicle */
    bool daily;
};

static const struct way of_garage[] = {
    {"yard", "Yard", "/", true},
    {"household", "Household", "/household", true},
    {"buying", "Buying", "/buying", true},
    {"find", "Find", "/find", false},
    {"intake", "Take one in", "/intake", false},
    {"trade", "Trade", "/trade", false},
    {"bench", "Sums", "/bench", false},
    {"devices", "Phones", "/devices", false},
};
static const struct way of_vehicle[] = {
    {"view", "View", NULL, true},
    {"survey", "Survey", NULL, true},
    {"choose", "Choose", NULL, true},
    {"plan", "Plan", NULL, true},
    {"session", "Session", NULL, true},
    {"log", "Log", NULL, true},
    {"setback", "Setback", NULL, true},
    {"safe", "Safe", NULL, false},
    {"bags", "Bags", NULL, false},
    {"tools", "Tools", NULL, false},
    {"fit", "Fit", NULL, false},
    {"pace", "Pace", NULL, false},
    {"identify", "Identify", NULL, false},
    {"originality", "Originality", NULL, false},
    {"photographs", "Photographs", NULL, false},
    {"loom", "Loom", NULL, false},
};

static bool is_there(const struct visit *v, const struct way *w, const struct record *vehicle)
{
    if (text_is(w->name, "view")) return vehicle_owned(vehicle) == OWNED_NO;
    if (text_is(w->name, "devices")) return v->site->pairing && !v->site->beyond;
    return true;
}

static void write_ways(struct visit *v, const struct way *ways, size_t n, const char *label,
                       const struct record *vehicle, const char *here)
{
    struct html *h = &v->html;
    html_open(h, "nav");
    html_attr(h, "aria-label", label);
    for (int daily = 1; daily >= 0; daily--) {
        if (!daily) {
            html_open(h, "details");
            html_leaf(h, "summary", NULL, "More");
        }
        for (size_t i = 0; i < n; i++) {
            const bool is_here = text_is(here, ways[i].name);
            if ((ways[i].daily || is_here) != daily || !is_there(v, &ways[i], vehicle)) continue;
            go_to(h,
                  ways[i].address ? ways[i].address
                                  : page_of_vehicle(v->arena, vehicle, ways[i].name),
                  ways[i].label, is_here);
        }
    }
    html_close(h, "details");
    html_close(h, "nav");
}

static void write_top(struct visit *v, const struct record *vehicle, const char *here)
{
    struct html *h = &v->html;
    html_open(h, "a");
    html_attr(h, "class", "skip");
    html_url(h, "href", "#main");
    html_text(h, "To the page itself");
    html_close(h, "a");
    if (v->outside) return;
    html_open(h, "header");
    html_attr(h, "class", "top");
    write_ways(v, of_garage, sizeof of_garage / sizeof *of_garage, "Fettle", vehicle, here);
    if (vehicle)
        write_ways(v, of_vehicle, sizeof of_vehicle / sizeof *of_vehicle,
                   record_text(vehicle, "name", "?"), vehicle, here);
    html_close(h, "header");
}

struct html *page_begin(struct visit *v, const char *title, const struct record *vehicle,
                        const char *here)
{
    struct html *h = &v->html;
    v->html = html_begin(&v->text);
    html_doctype(h);
    html_open(h, "html");
    html_attr(h, "lang", "en");
    html_open(h, "head");
    html_open(h, "meta");
    html_attr(h, "charset", "utf-8");
    html_open(h, "meta");
    html_attr(h, "name", "viewport");
    html_attr(h, "content", "width=device-width, initial-scale=1");
    html_leaf(h, "title", NULL, arena_print(v->arena, "%s - Fettle", title));
    html_open(h, "link");
    html_attr(h, "rel", "stylesheet");
    html_url(h, "href", "/style.css");
    html_close(h, "head");
    html_open(h, "body");
    write_top(v, vehicle, here);
    html_open(h, "main");
    html_attr(h, "id", "main");
    return h;
}

bool page_end(struct visit *v)
{
    html_close(&v->html, "main");
    html_close(&v->html, "body");
    html_close(&v->html, "html");
    html_end(&v->html);
    v->response->type = "text/html; charset=utf-8";
    v->response->body = text_get(&v->text);
    v->response->length = v->text.length;
    return true;
}

void page_stored(struct visit *v, const char *fault)
{
    struct html *h = &v->html;
    if (pairs_get(&v->request->query, "stored")) {
        html_open(h, "p");
        html_attr(h, "role", "status");
        render_html_toned(h, "Stored.", TONE_GOOD);
        html_close(h, "p");
    }
    if (fault) form_fault(h, "Nothing was stored: see the line beside the form below.");
}

void page_failure(struct visit *v, const struct fail *f)
{
    v->text = (struct text){.arena = v->arena}; /* what a page had begun is left behind */
    const char *reason = response_reason(v->response->status);
    struct html *h = page_begin(v, reason, NULL, "");
    html_leaf(h, "h1", NULL, reason);
    html_leaf(h, "p", "wrong", f->text);
    page_end(v);
}

/* Several words after a question's name are an act that is typed, but a lap is walked on the page
 * itself. */
static const char *address_of(const void *context, struct arena *a, const char *command)
{
    const struct record *vehicle = context;
    if (text_starts(command, "bench ")) return arena_print(a, "/bench/%s", command + 6);
    if (text_is(command, "household") || text_is(command, "buying") || text_is(command, "intake") ||
        text_is(command, "trade") || text_is(command, "bench"))
        return arena_print(a, "/%s", command);
    if (text_is(command, "quote import")) return "/buying#import";
    if (!vehicle) return NULL;
    if (text_starts(command, "setback "))
        return arena_print(a, "%s?what=%s", page_of_vehicle(a, vehicle, "setback"), command + 8);
    if (text_is(command, "survey lap")) return page_of_vehicle(a, vehicle, "survey");
    if (text_is(command, "fit adopt")) return page_of_vehicle(a, vehicle, "fit");
    if (text_is(command, "identify add")) return page_of_vehicle(a, vehicle, "identify");
    if (text_is(command, "plan --what-if")) return page_of_vehicle(a, vehicle, "what-if");
    for (size_t i = 0; i < sizeof of_vehicle / sizeof *of_vehicle; i++)
        if (text_is(command, of_vehicle[i].name)) return page_of_vehicle(a, vehicle, command);
    return NULL;
}

struct page_links page_links_of(const struct record *vehicle)
{
    return (struct page_links){address_of, vehicle};
}

static void open_form(struct visit *v, const char *class_name, const char *coding)
{
    struct html *h = &v->html;
    html_open(h, "form");
    html_attr(h, "method", "post");
    html_attr(h, "enctype", coding);
    html_attr(h, "class", class_name);
    struct text action = {.arena = v->arena};
    for (const char *s = v->request->path; *s;) { /* the decoded path, encoded again */
        size_t n = strcspn(s, "/");
        if (n > 0) html_percent(&action, arena_copy_n(v->arena, s, n));
        s += n;
        if (*s == '/') text_add(&action, "/"), s++;
    }
    html_url(h, "action", text_get(&action));
    html_open(h, "input");
    html_attr(h, "type", "hidden");
    html_attr(h, "name", "token");
    html_attr(h, "value", visit_token(v));
}

void page_form(struct visit *v, const char *class_name)
{
    open_form(v, class_name, NULL);
}

void page_form_files(struct visit *v, const char *class_name)
{
    open_form(v, class_name, "multipart/form-data");
}

void page_script_tag(struct html *h, const char *address)
{
    html_open(h, "script");
    html_attr(h, "type", "module");
    html_url(h, "src", address);
    html_close(h, "script");
}

bool page_file(struct visit *v, const char *from, const char *end, const char *type)
{
    const size_t n = (size_t)(end - from);
    unsigned char hash[crypto_generichash_BYTES_MIN];
    char hex[2 * sizeof hash + 1];
    crypto_generichash(hash, sizeof hash, (const unsigned char *)from, n, NULL, 0);
    /* Weak, because it is the same for both codings of the bytes. */
    const char *tag =
        arena_print(v->arena, "W/\"%s\"", sodium_bin2hex(hex, sizeof hex, hash, sizeof hash));
    response_header(v->response, "ETag", tag);
    response_header(v->response, "Cache-Control", "no-cache");
    v->response->type = type;
    if (v->request->if_none_match && strstr(v->request->if_none_match, tag + 2)) {
        v->response->status = 304;
        return true;
    }
    v->response->body = from;
    v->response->length = n;
    return true;
}

extern const char embed_style[], embed_style_end[];

bool page_style(struct visit *v, struct fail *f)
{
    (void)f;
    return page_file(v, embed_style, embed_style_end, "text/css; charset=utf-8");
}
