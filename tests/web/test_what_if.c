/* What if, on the pages: what is typed and wrong comes back with one line beside it; keeping writes
 * exactly what was said before, and plans the same; nothing is written until then. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "face/show/what_if_keep.h"
#include "face/web/once.h"

#include <sodium.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static struct {
    struct site site;
    struct arena keep, arena;
    char folder[64];
    char vehicle[33];
} world;

static void add(struct garage *g, const char *kind, const char *const *fields)
{
    struct fail f = {0};
    struct record *r = record_new(&world.arena, record_kind_find(kind));
    bool good = true;
    for (; *fields && good; fields += 2)
        good = record_set(&world.arena, r, fields[0], fields[1], "GBP", &f);
    if (!good || !record_valid(r, &f) || !garage_begin(g, &f) || !garage_add(g, r, &f) ||
        !garage_commit(g, &f))
        fail_msg("%s: %s", kind, f.text);
    if (strcmp(kind, "vehicle") == 0) memcpy(world.vehicle, r->id, sizeof world.vehicle);
}
#define ADD(g, kind, ...) add((g), (kind), (const char *const[]){__VA_ARGS__, NULL})

/* A new garage for each test. */
static int set_up(void **state)
{
    (void)state;
    struct fail f = {0};
    struct garage *g;
    world.keep = arena_open((size_t)64 << 20);
    world.arena = arena_open((size_t)4 << 30);
    strcpy(world.folder, "/tmp/fettle-what-if-XXXXXX");
    if (sodium_init() < 0 || !mkdtemp(world.folder)) return -1;
    const char *dir = arena_print(&world.keep, "%s/garage", world.folder);
    if (!garage_create(dir, "UTC", NULL, &f) ||
        !garage_open(&world.arena, dir, GARAGE_WRITE, NULL, &g, &f))
        return -1;
    ADD(g, "workshop", "hours-a-week", "11", "hands", "1", "currency", "GBP");
    ADD(g, "slot", "weekday", "tue", "from", "19:00", "to", "22:00");
    ADD(g, "slot", "weekday", "sat", "from", "09:00", "to", "17:00");
    ADD(g, "purse", "a-month", "400", "in-hand", "1500", "ceiling", "20000");
    ADD(g, "vehicle", "name", "Wren <b>", "kind", "car", "year", "1958", "build", "unitary",
        "cylinders", "4", "fuel", "petrol", "standing", "25", "storage", "dry");
    garage_close(g);
    site_open(&world.keep, dir, day_from_civil(2026, 11, 25), &world.site);
    return 0;
}

static int tear_down(void **state)
{
    (void)state;
    site_close(&world.site);
    int removed = system(arena_print(&world.keep, "rm -r '%s'", world.folder));
    arena_close(&world.arena);
    arena_close(&world.keep);
    return removed;
}

static struct response ask(const char *bytes)
{
    struct response out;
    bool head_only;
    once_answer_bytes(&world.arena, &world.site, bytes, strlen(bytes), &out, &head_only);
    return out;
}

static struct response get(const char *page)
{
    return ask(arena_print(&world.arena, "GET /vehicle/%s/%s HTTP/1.1\r\nHost: localhost\r\n\r\n",
                           world.vehicle, page));
}

static const char *header(const struct response *r, const char *name)
{
    for (int i = 0; i < r->n_headers; i++)
        if (strcmp(r->headers[i].name, name) == 0) return r->headers[i].value;
    return "";
}

static void assert_holds(const struct response *r, const char *phrase)
{
    if (!strstr(r->body, phrase)) fail_msg("no '%s' in: %.3000s", phrase, r->body);
}

static const char *hidden(const struct response *page, const char *name)
{
    const char *mark = arena_print(&world.arena, "type=\"hidden\" name=\"%s\" value=\"", name),
               *at = strstr(page->body, mark);
    if (!at) fail_msg("no hidden '%s'", name);
    at += strlen(mark);
    return arena_copy_n(&world.arena, at, strcspn(at, "\""));
}

/* "Keep this" of a page that was got. */
static struct response keep(const struct response *page, const char *said)
{
    const char *cookie = header(page, "Set-Cookie");
    const char *body = arena_print(&world.arena, "token=%s&basis=%s&%s", hidden(page, "token"),
                                   hidden(page, "basis"), said);
    return ask(arena_print(&world.arena,
                           "POST /vehicle/%s/what-if HTTP/1.1\r\nHost: localhost\r\nCookie: "
                           "%.*s\r\nContent-Type: application/x-www-form-urlencoded\r\n"
                           "Content-Length: %zu\r\n\r\n%s",
                           world.vehicle, (int)strcspn(cookie, ";"), cookie, strlen(body), body));
}

static const char *basis_now(void)
{
    struct garage *g;
    struct fail f = {0};
    char *hex = ARENA_ARRAY(&world.arena, char, 65);
    if (!garage_open(&world.arena, world.site.dir, GARAGE_READ, NULL, &g, &f) ||
        !garage_basis(g, hex, &f))
        fail_msg("%s", f.text);
    garage_close(g);
    return hex;
}

static void bad_input_comes_back(void **state)
{
    (void)state;
    static const struct {
        const char *sent, *line, *back; /* back: what the field shows again */
    } rows[] = {
        {"hours=-3", "hours: -3 is beyond what can be", "value=\"-3\""},
        {"hours=1e9", "hours: 1e+09 is beyond what can be", "value=\"1e9\""},
        {"hours=NaN", "hours: &#39;NaN&#39; is not a number", "value=\"NaN\""},
        {"hours=inf", "hours: &#39;inf&#39; is not a number", "value=\"inf\""},
        {"hours=%3Cscript%3E", "hours: &#39;&lt;script&gt;&#39;", "value=\"&lt;script&gt;\""},
        {"hours=%E1%88%B4%F0%9F%94%A7", "hours: ", "value=\"\xe1\x88\xb4\xf0\x9f\x94\xa7\""},
        {"start=2027-02-31", "start: &#39;2027-02-31&#39;: Feb 2027 has 28 days",
         "value=\"2027-02-31\""},
        {"start=2026-11-24", "start: lies before today", "value=\"2026-11-24\""},
        {"start=2037-01-01", "start: lies more than 10 years ahead", "value=\"2037-01-01\""},
        {"start=soon", "start: ", "value=\"soon\""},
        {"helpers=-1", "helpers: &#39;-1&#39; is no whole number from 0 to 52", "value=\"-1\""},
        {"helpers=1.5", "helpers: &#39;1.5&#39;", "value=\"1.5\""},
        {"helpers=99999999999999999999", "helpers: ", "value=\"99999999999999999999\""},
        {"money=300+EUR", "money: is in EUR, the plan in GBP", "value=\"300 EUR\""},
        {"money=-5", "money: is less than nothing", "value=\"-5\""},
        {"money=1e9", "money: &#39;1e9&#39;: no sum of money", "value=\"1e9\""},
        {"direction=none", "direction: no choice &#39;none&#39;", ""},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct response r = get(arena_print(&world.arena, "what-if?%s", rows[i].sent));
        assert_int_equal(r.status, 422);
        assert_holds(&r, rows[i].line);
        assert_holds(&r, rows[i].back);
        const char *first = strstr(r.body, "class=\"wrong\"");
        assert_non_null(first);
        assert_null(strstr(first + 1, "class=\"wrong\"")); /* one line, no more */
        assert_null(strstr(r.body, "Keep this"));
    }
}

/* What can be understood but not reckoned is told beside its field too. */
static void a_purse_of_nothing_is_told_beside_money(void **state)
{
    (void)state;
    struct garage *g;
    struct fail f = {0};
    assert_true(garage_open(&world.arena, world.site.dir, GARAGE_WRITE, NULL, &g, &f));
    ADD(g, "purse", "a-month", "400", "in-hand", "0", "ceiling", "20000");
    garage_close(g);
    struct response r = get("what-if?money=0");
    assert_int_equal(r.status, 422);
    assert_holds(&r, "money: it holds nothing beyond its reserve");
}

static void looking_writes_nothing(void **state)
{
    (void)state;
    const char *before = basis_now();
    struct response r = get("what-if?hours=6&start=2027-01-11&helpers=2&money=300&direction=sell");
    assert_int_equal(r.status, 200);
    assert_holds(&r, "6 instead of 11");
    assert_holds(&r, "300.00 GBP instead of 400.00 GBP");
    assert_holds(&r, "sell instead of drive");
    assert_holds(&r, "Keep this");
    assert_holds(&r, "Wren &lt;b&gt;");
    assert_string_equal(before, basis_now());
    r = get("what-if");
    assert_int_equal(r.status, 200);
    assert_holds(&r, "Nothing is said otherwise yet");
    assert_null(strstr(r.body, "Keep this"));
    /* Said as it is, in other words: no difference. */
    r = get("what-if?hours=11.0&money=400&helpers=0&direction=drive");
    assert_holds(&r, "no difference<");
    assert_null(strstr(r.body, "Keep this"));
}

/* What is asked of the garage as it is now; its garage is to be closed. */
static struct shop_ask ask_of_garage(void)
{
    struct fail f = {0};
    struct trade_faults faults = {0};
    struct trade *t = ARENA_NEW(&world.arena, struct trade);
    struct shop_ask asked = {.trade = t,
                             .vehicle = world.vehicle,
                             .today = world.site.today,
                             .direction = -1,
                             .seed = SEED_USUAL,
                             .runs = 200};
    if (!trade_load(&world.arena, NULL, t, &faults, &f) ||
        !garage_open(&world.arena, world.site.dir, GARAGE_READ, NULL, &asked.garage, &f))
        fail_msg("%s", f.text);
    return asked;
}

static struct what_if_side side_now(void)
{
    struct fail f = {0};
    struct what_if_side side;
    struct shop_ask asked = ask_of_garage();
    if (!what_if_as_is(&world.arena, &asked, &side, &f)) fail_msg("%s", f.text);
    garage_close(asked.garage);
    return side;
}

/* What it would be, reckoned before anything is kept. */
static struct what_if_side side_said(struct override said, const char *direction)
{
    struct fail f = {0};
    struct what_if w;
    struct what_if_side as_is = side_now();
    struct shop_ask asked = ask_of_garage();
    if (direction) said.direction = trade_find_direction(asked.trade, direction);
    if (!what_if_reckon(&world.arena, &asked, &said, &as_is, &w, &f)) fail_msg("%s", f.text);
    garage_close(asked.garage);
    return w.changed;
}

static void keeping_plans_the_same(void **state)
{
    (void)state;
    static const struct {
        const char *sent;
        double hours;
        int helpers;
        double money;
        const char *direction;
        const char *lines[4];
    } rows[] = {
        {"hours=20",
         20,
         0,
         -1,
         NULL,
         {"Hours a week: 11 becomes 20", "Thu 19:00 to 22:00 is added",
          "Sun 10:00 to 16:00 is added"}},
        {"hours=7&money=250", 7, 0, 25000, NULL, {NULL}},
        {"helpers=3&direction=sell",
         -1,
         3,
         -1,
         "sell",
         {"Helper day 2026-12-05, 09:00 to ", "Direction: not decided becomes sell"}},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct override said = override_none();
        said.hours_a_week = rows[i].hours;
        said.helpers = rows[i].helpers;
        said.a_month = rows[i].money;
        struct what_if_side promised = side_said(said, rows[i].direction);
        struct response page = get(arena_print(&world.arena, "what-if?%s", rows[i].sent));
        for (int k = 0; k < 4 && rows[i].lines[k]; k++) assert_holds(&page, rows[i].lines[k]);
        struct response kept = keep(&page, rows[i].sent);
        assert_int_equal(kept.status, 303);
        struct what_if_side now = side_now();
        assert_int_equal(promised.runs, now.runs);
        assert_memory_equal(promised.finish, now.finish, (size_t)now.runs * sizeof *now.finish);
        assert_memory_equal(promised.cost, now.cost, (size_t)now.runs * sizeof *now.cost);
    }
}

static void a_stale_one_is_shown_again(void **state)
{
    (void)state;
    struct response page = get("what-if?hours=6");
    struct garage *g;
    struct fail f = {0};
    assert_true(garage_open(&world.arena, world.site.dir, GARAGE_WRITE, NULL, &g, &f));
    ADD(g, "purse", "a-month", "100", "in-hand", "50", "ceiling", "20000");
    garage_close(g);
    const char *before = basis_now();
    struct response r = keep(&page, "hours=6");
    assert_int_equal(r.status, 409);
    assert_holds(&r, "changed elsewhere");
    assert_holds(&r, "6 instead of 11");
    assert_string_equal(before, basis_now());
    assert_int_equal(keep(&r, "hours=6").status, 403); /* its session is the first page's */
    r = get("what-if?hours=6");
    assert_int_equal(keep(&r, "hours=6").status, 303);
    r = get("what-if?hours=9");
    assert_int_equal(keep(&r, "hours=junk").status, 422);
    assert_int_equal(keep(&r, "hours=6").status, 422); /* as it is by now */
}

static void the_plan_has_the_form_and_its_charts(void **state)
{
    (void)state;
    struct response r = get("plan");
    assert_int_equal(r.status, 200);
    static const char *const parts[] = {
        "class=\"said\"",
        "src=\"/what-if.js\"",
        "id=\"headline\"",
        "id=\"answer\"",
        "data-kind=\"number\" data-low=\"1\" data-high=\"40\"",
        "value=\"400.00 GBP\"",
        "<figcaption>Done by when: share of the runs (date)</figcaption>",
        "<figcaption>Money so far, at the end of each month (GBP)</figcaption>",
        "class=\"block\"",
        "class=\"open\"",
        "class=\"dashed\"",
        "class=\"diamond\"",
        ">work by hands<",
        ">bay taken<",
        ">wait: soak, cure, shop<",
        ">ordered, then here<",
        "ceiling 20,000 GBP"};
    for (size_t i = 0; i < sizeof parts / sizeof *parts; i++) assert_holds(&r, parts[i]);
    /* Every chart has a name, a description and a table. */
    int images = 0, tables = 0;
    for (const char *s = r.body; (s = strstr(s, "<svg role=\"img\"")); s++) images++;
    for (const char *s = r.body; (s = strstr(s, "The same as a table")); s++) tables++;
    assert_int_equal(images, 4);
    assert_int_equal(tables, images);
    assert_non_null(strstr(header(&r, "Content-Security-Policy"), "script-src 'self'"));
    assert_null(strstr(header(&r, "Content-Security-Policy"), "unsafe"));
}

static void the_script_is_kept_by_its_tag(void **state)
{
    (void)state;
    struct response r = ask("GET /what-if.js HTTP/1.1\r\nHost: localhost\r\n\r\n");
    assert_int_equal(r.status, 200);
    assert_string_equal(r.type, "text/javascript; charset=utf-8");
    const char *tag = header(&r, "ETag");
    assert_true(strlen(tag) > 10);
    r = ask(arena_print(&world.arena,
                        "GET /what-if.js HTTP/1.1\r\nHost: localhost\r\nIf-None-Match: "
                        "%s\r\n\r\n",
                        tag));
    assert_int_equal(r.status, 304);
}

int main(void)
{
#define EACH(test) cmocka_unit_test_setup_teardown(test, set_up, tear_down)
    const struct CMUnitTest tests[] = {
        EACH(bad_input_comes_back),          EACH(a_purse_of_nothing_is_told_beside_money),
        EACH(looking_writes_nothing),        EACH(keeping_plans_the_same),
        EACH(a_stale_one_is_shown_again),    EACH(the_plan_has_the_form_and_its_charts),
        EACH(the_script_is_kept_by_its_tag),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
