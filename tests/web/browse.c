#include "web/browse.h"

#include "face/web/once.h"

#include <sodium.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

struct site *browse_site(struct arena *a)
{
    struct fail f = {0};
    struct site *site = ARENA_NEW(a, struct site);
    char *folder = arena_copy(a, "/tmp/fettle-browse-XXXXXX");
    assert_true(sodium_init() >= 0);
    assert_non_null(mkdtemp(folder));
    site_open(a, arena_print(a, "%s/garage", folder), day_from_civil(2026, 11, 25), site);
    memset(site->secret, 9, sizeof site->secret);
    assert_true(garage_create(site->dir, "UTC", NULL, &f));
    return site;
}

void browse_site_end(struct arena *a, struct site *site)
{
    site_close(site);
    char *folder = arena_copy_n(a, site->dir, strlen(site->dir) - strlen("/garage"));
    assert_int_equal(system(arena_print(a, "rm -r '%s'", folder)), 0);
}

const char *browse_add(struct arena *a, struct site *site, const char *kind, ...)
{
    struct fail f = {0};
    struct garage *g;
    struct record *r = record_new(a, record_kind_find(kind));
    va_list words;
    va_start(words, kind);
    for (const char *word; (word = va_arg(words, const char *)) != NULL;) {
        const char *equals = strchr(word, '=');
        assert_non_null(equals);
        const char *field = arena_copy_n(a, word, (size_t)(equals - word));
        if (!record_set(a, r, field, equals + 1, "GBP", &f)) fail_msg("%s", f.text);
    }
    va_end(words);
    if (!garage_open(a, site->dir, GARAGE_WRITE, NULL, &g, &f) || !garage_begin(g, &f) ||
        !garage_add(g, r, &f) || !garage_commit(g, &f))
        fail_msg("%s", f.text);
    garage_close(g);
    return r->id;
}

struct browser *browse_open(struct arena *a, struct site *site)
{
    struct browser *b = ARENA_NEW(a, struct browser);
    b->arena = arena_open((size_t)1 << 30);
    b->site = site;
    b->cookie = "";
    return b;
}

/* ---- what is on the page ---- */

static const char *plain(struct arena *a, const char *s, size_t n)
{
    static const struct {
        const char *from;
        char to;
    } escapes[] = {{"&amp;", '&'}, {"&lt;", '<'}, {"&gt;", '>'}, {"&quot;", '"'}, {"&#39;", '\''}};
    char *out = arena_copy_n(a, s, n), *to = out;
    for (const char *from = out; *from;) {
        size_t k = 0;
        while (k < 5 && strncmp(from, escapes[k].from, strlen(escapes[k].from)) != 0) k++;
        *to++ = k < 5 ? escapes[k].to : *from;
        from += k < 5 ? strlen(escapes[k].from) : 1;
    }
    *to = 0;
    return out;
}

/* The value of an attribute within the tag that begins at `tag`, or NULL. */
static const char *attribute(struct arena *a, const char *tag, const char *name)
{
    const char *end = strchr(tag, '>');
    const char *mark = arena_print(a, " %s=\"", name), *at = strstr(tag, mark);
    if (!at || at > end) return NULL;
    at += strlen(mark);
    return plain(a, at, strcspn(at, "\""));
}

static bool flag(const char *tag, const char *name)
{
    const char *end = strchr(tag, '>'), *at = strstr(tag, name);
    return at && at < end;
}

static void add(struct browser *b, struct control c)
{
    assert_true(b->n_controls < CONTROLS_MOST);
    b->controls[b->n_controls++] = c;
}

static bool is_tag(const char *at, const char *name)
{
    return strncmp(at, name, strlen(name)) == 0;
}

static void read_controls(struct browser *b)
{
    struct arena *a = &b->arena;
    const char *select = NULL;
    int form = 0, first = 0;
    b->n_controls = 0;
    for (const char *at = b->page.body; (at = strchr(at, '<')); at++) {
        if (is_tag(at, "<form")) form++;
        if (is_tag(at, "<select")) select = attribute(a, at, "name"), first = b->n_controls;
        if (is_tag(at, "</select")) { /* a list always sends one: the first, if none is marked */
            bool any = false;
            for (int i = first; i < b->n_controls; i++) any |= b->controls[i].on;
            if (!any && first < b->n_controls) b->controls[first].on = true;
        }
        if (is_tag(at, "<option")) {
            const char *value = attribute(a, at, "value"), *text = strchr(at, '>') + 1;
            if (!value) value = plain(a, text, strcspn(text, "<"));
            add(b, (struct control){select, value, CONTROL_OPTION, flag(at, " selected"), form});
        }
        if (is_tag(at, "<button")) {
            const char *name = attribute(a, at, "name"), *value = attribute(a, at, "value");
            add(b, (struct control){name ? name : "", value ? value : "", CONTROL_BUTTON, false,
                                    form});
        }
        if (is_tag(at, "<textarea")) {
            const char *text = strchr(at, '>') + 1;
            add(b, (struct control){attribute(a, at, "name"), plain(a, text, strcspn(text, "<")),
                                    CONTROL_TEXT, true, form});
        }
        if (is_tag(at, "<input")) {
            bool radio = text_is(attribute(a, at, "type"), "radio");
            add(b, (struct control){attribute(a, at, "name"), attribute(a, at, "value"),
                                    radio ? CONTROL_RADIO : CONTROL_TEXT,
                                    !radio || flag(at, " checked"), form});
        }
    }
}

bool browse_has(const struct browser *b, const char *name, const char *value)
{
    for (int i = 0; i < b->n_controls; i++)
        if (text_starts(b->controls[i].name, name) &&
            (!value || text_is(b->controls[i].value, value)))
            return true;
    return false;
}

void browse_expect(const struct browser *b, const char *phrase)
{
    if (!strstr(b->page.body, phrase))
        fail_msg("%s: no '%s' in: %.600s", b->path, phrase, strstr(b->page.body, "<main"));
}

const char *browse_link(const struct browser *b, const char *prefix)
{
    struct arena *a = (struct arena *)&b->arena;
    const char *at = strstr(b->page.body, arena_print(a, "href=\"%s", prefix));
    if (!at) fail_msg("%s: no link to %s", b->path, prefix);
    at += strlen("href=\"");
    return plain(a, at, strcspn(at, "\""));
}

/* ---- requests ---- */

static const char *header(const struct response *r, const char *name)
{
    for (int i = 0; i < r->n_headers; i++)
        if (text_is(r->headers[i].name, name)) return r->headers[i].value;
    return NULL;
}

static void send_bytes(struct browser *b, const char *path, const char *bytes)
{
    bool head_only;
    once_answer_bytes(&b->arena, b->site, bytes, strlen(bytes), &b->page, &head_only);
    const char *set = header(&b->page, "Set-Cookie"), *to = header(&b->page, "Location");
    if (set) b->cookie = arena_copy_n(&b->arena, set, strcspn(set, ";"));
    b->path = path;
    if (b->page.status == 303)
        browse_go(b, to);
    else
        read_controls(b);
}

void browse_go(struct browser *b, const char *path)
{
    const char *sent = arena_copy_n(&b->arena, path, strcspn(path, "#"));
    send_bytes(b, sent,
               arena_print(&b->arena, "GET %s HTTP/1.1\r\nHost: localhost\r\nCookie: %s\r\n\r\n",
                           sent, b->cookie));
}

void browse_follow(struct browser *b, const char *href)
{
    browse_link(b, href);
    b->taps++;
    browse_go(b, href);
}

void browse_choose(struct browser *b, const char *name, const char *value)
{
    struct control *found = NULL;
    for (int i = 0; i < b->n_controls; i++) {
        struct control *c = &b->controls[i];
        if ((c->kind == CONTROL_RADIO || c->kind == CONTROL_OPTION) && text_starts(c->name, name) &&
            text_is(c->value, value) &&
            (!found || (text_is(c->name, name) && !text_is(found->name, name))))
            found = c;
    }
    if (!found) fail_msg("%s: nothing to choose '%s' for %s", b->path, value, name);
    for (int i = 0; i < b->n_controls; i++)
        if (text_is(b->controls[i].name, found->name)) b->controls[i].on = false;
    found->on = true;
    b->taps += found->kind == CONTROL_OPTION ? 2 : 1;
}

void browse_type(struct browser *b, const char *name, const char *text)
{
    for (int i = 0; i < b->n_controls; i++)
        if (b->controls[i].kind == CONTROL_TEXT && text_is(b->controls[i].name, name)) {
            b->controls[i].value = text;
            return;
        }
    fail_msg("%s: no field %s", b->path, name);
}

static void add_field(struct text *body, const char *name, const char *value)
{
    if (body->length) text_add(body, "&");
    html_percent(body, name);
    text_add(body, "=");
    html_percent(body, value);
}

void browse_press(struct browser *b, const char *name, const char *value)
{
    const struct control *button = NULL;
    for (int i = 0; i < b->n_controls && !button; i++) {
        const struct control *c = &b->controls[i];
        if (c->kind == CONTROL_BUTTON && text_is(c->name, name) &&
            (!value || text_is(c->value, value)))
            button = c;
    }
    if (!button) fail_msg("%s: no button %s %s", b->path, name, value ? value : "");
    struct text body = {.arena = &b->arena};
    for (int i = 0; i < b->n_controls; i++) {
        const struct control *c = &b->controls[i];
        if (c->on && c->form == button->form && c->name)
            add_field(&body, c->name, c->value ? c->value : "");
    }
    if (*button->name) add_field(&body, button->name, button->value);
    b->taps++;
    const char *to = arena_copy_n(&b->arena, b->path, strcspn(b->path, "?"));
    send_bytes(b, to,
               arena_print(&b->arena,
                           "POST %s HTTP/1.1\r\nHost: localhost\r\nCookie: %s\r\nContent-Type: "
                           "application/x-www-form-urlencoded\r\nContent-Length: %zu\r\n\r\n%s",
                           to, b->cookie, body.length, text_get(&body)));
}
