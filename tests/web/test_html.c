/* The writer: what is escaped, what an address may be, and that whatever is opened is closed.
 * Sources: the HTML standard (WHATWG) for void elements, controls and noncharacters; RFC 3629 for
 * UTF-8; RFC 3986 for addresses. Marks: published. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "face/web/html.h"

#include <signal.h>
#include <stdio.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#define FFFD "\xEF\xBF\xBD"

static void test_text_and_attribute(void **state)
{
    (void)state;
    static const struct {
        const char *typed, *written;
    } cases[] = {
        {"plain", "plain"},
        {"<b>&\"'", "&lt;b&gt;&amp;&quot;&#39;"},
        {"&amp;", "&amp;amp;"},
        {"caf\xC3\xA9 \xE2\x82\xAC \xF0\x9F\x94\xA7", "caf\xC3\xA9 \xE2\x82\xAC \xF0\x9F\x94\xA7"},
        {"\xFF", FFFD},
        {"\xC3", FFFD},
        {"\xC3<", FFFD "&lt;"},
        {"\xC0\x80", FFFD FFFD},
        {"\xE0\x80\x80", FFFD FFFD FFFD},
        {"\xED\xA0\x80", FFFD FFFD FFFD},
        {"\xF4\x90\x80\x80", FFFD FFFD FFFD FFFD},
        {"\xF0\x9F\x94", FFFD FFFD FFFD},
        {"a\x01"
         "b\x1B[2J\x7F",
         "a" FFFD "b" FFFD "[2J" FFFD},
        {"\xC2\x9B", FFFD},
        {"\xEF\xBF\xBE\xEF\xB7\x90", FFFD FFFD},
        {"a\tb\nc\r", "a\tb\nc\r"},
        {"", ""},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        struct arena a = arena_open(1 << 20);
        struct text t = {.arena = &a};
        struct html h = html_begin(&t);
        html_open(&h, "p");
        html_attr(&h, "title", cases[i].typed);
        html_text(&h, cases[i].typed);
        html_close(&h, "p");
        html_end(&h);
        assert_string_equal(text_get(&t), arena_print(&a, "<p title=\"%s\">%s</p>",
                                                      cases[i].written, cases[i].written));
        arena_close(&a);
    }
}

static void test_elements(void **state)
{
    (void)state;
    struct arena a = arena_open(1 << 20);
    struct text t = {.arena = &a};
    struct html h = html_begin(&t);
    html_doctype(&h);
    html_open(&h, "div");
    html_open(&h, "br");
    html_open(&h, "input");
    html_attr(&h, "value", "1");
    html_attr(&h, "list", NULL);
    html_flag(&h, "checked", true);
    html_flag(&h, "disabled", false);
    html_text(&h, "after");
    html_leaf(&h, "b", "x", "");
    html_open(&h, "textarea");
    html_text(&h, "\nfirst line empty");
    html_close(&h, "textarea");
    html_open(&h, "script");
    html_url(&h, "src", "/a.js");
    html_close(&h, "script");
    html_open(&h, "a");
    html_url(&h, "href", NULL);
    html_attr_print(&h, "id", "n-%d", html_id(&h));
    html_print(&h, "%d < %d", html_id(&h), 7);
    html_close(&h, "a");
    html_close(&h, "div");
    html_end(&h);
    assert_string_equal(
        text_get(&t),
        "<!doctype html>\n<div><br><input value=\"1\" checked>after<b class=\"x\"></b>"
        "<textarea>\n\nfirst line empty</textarea><script src=\"/a.js\"></script>"
        "<a id=\"n-1\">2 &lt; 7</a></div>");
    arena_close(&a);
}

static void test_addresses(void **state)
{
    (void)state;
    static const struct {
        const char *address;
        bool safe;
    } cases[] = {
        {"", true},
        {"#part", true},
        {"?a=b:c", true},
        {"/plan/linnet", true},
        {"plan", true},
        {"a/b:c", true},
        {"/%6Aavascript:x", true},
        {"http://example.org/", true},
        {"HTTPS://example.org/?q=a:b", true},
        {"mailto:owner@example.org", true},
        {"javascript:alert(1)", false},
        {"JaVaScRiPt:alert(1)", false},
        {"java\tscript:alert(1)", false},
        {"java\nscript:alert(1)", false},
        {" javascript:alert(1)", false},
        {"\x01javascript:alert(1)", false},
        {"data:text/html,<script>", false},
        {"vbscript:x", false},
        {"file:///etc/passwd", false},
        {"blob:x", false},
        {"http:evil", false},
        {"httpsx://e", false},
        {"//evil.example", false},
        {"/\\evil.example", false},
        {"\\\\evil.example", false},
        {"/\t/evil.example", false},
        {"a b", false},
        {":x", false},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        if (html_url_is_safe(cases[i].address) != cases[i].safe) fail_msg("%s", cases[i].address);
        struct arena a = arena_open(1 << 20);
        struct text t = {.arena = &a};
        struct html h = html_begin(&t);
        html_open(&h, "a");
        html_url(&h, "href", cases[i].address);
        html_close(&h, "a");
        html_end(&h);
        const char *address = cases[i].safe ? cases[i].address : "#";
        assert_string_equal(text_get(&t), arena_print(&a, "<a href=\"%s\"></a>", address));
        arena_close(&a);
    }
}

static void test_percent(void **state)
{
    (void)state;
    struct arena a = arena_open(1 << 20);
    struct text t = {.arena = &a};
    html_percent(&t, "aZ9-._~ /?&=%+\xC3\xA9");
    assert_string_equal(text_get(&t), "aZ9-._~%20%2F%3F%26%3D%25%2B%C3%A9");
    arena_close(&a);
}

/* ---- faults of ours stop the program ---- */

static void wrong_close(struct html *h)
{
    html_open(h, "p");
    html_close(h, "div");
}
static void close_of_void(struct html *h)
{
    html_open(h, "br");
    html_close(h, "br");
}
static void left_open(struct html *h)
{
    html_open(h, "p");
    html_end(h);
}
static void attribute_after_text(struct html *h)
{
    html_open(h, "p");
    html_text(h, "x");
    html_attr(h, "class", "y");
}
static void handler(struct html *h)
{
    html_open(h, "p");
    html_attr(h, "onClick", "x");
}
static void style(struct html *h)
{
    html_open(h, "p");
    html_attr(h, "style", "color: red");
}
static void address_as_text(struct html *h)
{
    html_open(h, "a");
    html_attr(h, "href", "/x");
}
static void text_as_address(struct html *h)
{
    html_open(h, "a");
    html_url(h, "title", "/x");
}
static void script_text(struct html *h)
{
    html_open(h, "script");
    html_text(h, "x");
}
static void bad_element(struct html *h)
{
    html_open(h, "p onload=x");
}
static void bad_attribute(struct html *h)
{
    html_open(h, "p");
    html_attr(h, "a=b", "x");
}
static void too_deep(struct html *h)
{
    for (int i = 0; i <= HTML_DEPTH; i++) html_open(h, "p");
}

static void test_faults_stop(void **state)
{
    (void)state;
    static void (*const fault[])(struct html *) = {
        wrong_close, close_of_void, left_open,       attribute_after_text,
        handler,     style,         address_as_text, text_as_address,
        script_text, bad_element,   bad_attribute,   too_deep};
    for (size_t i = 0; i < sizeof fault / sizeof *fault; i++) {
        fflush(NULL);
        pid_t child = fork();
        if (child == 0) {
            signal(SIGABRT, SIG_DFL);
            setrlimit(RLIMIT_CORE, &(struct rlimit){0, 0});
            if (!freopen("/dev/null", "r+", stderr)) _exit(1);
            struct arena a = arena_open(1 << 20);
            struct text t = {.arena = &a};
            struct html h = html_begin(&t);
            fault[i](&h);
            _exit(0);
        }
        int status = 0;
        assert_true(child > 0);
        assert_int_equal(waitpid(child, &status, 0), child);
        if (!WIFSIGNALED(status) || WTERMSIG(status) != SIGABRT)
            fail_msg("fault %zu went through", i);
    }
}

/* ---- balance: random trees, read back by a reader of its own ---- */

/* Start tags minus end tags, void ones apart; fails where an end does not match or '<' is text. */
static void check_balance(const char *s)
{
    const char *open[HTML_DEPTH];
    size_t length[HTML_DEPTH];
    int depth = 0;
    while ((s = strchr(s, '<'))) {
        bool end = *++s == '/';
        if (end) s++;
        size_t n = strspn(s, "abcdefghijklmnopqrstuvwxyz");
        assert_true(n > 0);
        if (end) {
            assert_true(depth > 0 && length[depth - 1] == n);
            assert_memory_equal(open[depth - 1], s, n);
            depth--;
        } else if (!(n == 2 && memcmp(s, "br", 2) == 0)) {
            open[depth] = s;
            length[depth++] = n;
        }
        s += strcspn(s, ">");
        assert_true(*s == '>');
    }
    assert_int_equal(depth, 0);
}

static uint32_t next(uint64_t *seed) /* Knuth's MMIX generator; its high bits */
{
    *seed = *seed * 6364136223846793005u + 1442695040888963407u;
    return (uint32_t)(*seed >> 33);
}

static void test_balance(void **state)
{
    (void)state;
    static const char *const name[] = {"p", "div", "b", "table", "g"};
    uint64_t seed = 1;
    for (int tree = 0; tree < 2000; tree++) {
        struct arena a = arena_open(1 << 20);
        struct text t = {.arena = &a};
        struct html h = html_begin(&t);
        const char *open[HTML_DEPTH];
        int depth = 0;
        for (int step = 0; step < 100; step++) {
            char any[9] = {0};
            for (int i = 0; i < 8; i++) any[i] = (char)next(&seed);
            uint32_t act = next(&seed) % 5;
            if (act == 0 && depth < HTML_DEPTH - 1)
                html_open(&h, open[depth++] = name[next(&seed) % 5]);
            else if (act == 1 && depth > 0)
                html_close(&h, open[--depth]);
            else if (act == 2)
                html_open(&h, "br");
            else if (act == 3 && h.in_tag)
                html_attr(&h, "title", any);
            else
                html_text(&h, any);
        }
        while (depth > 0) html_close(&h, open[--depth]);
        html_end(&h);
        assert_true(text_is_utf8(text_get(&t), t.length));
        check_balance(text_get(&t));
        arena_close(&a);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_text_and_attribute), cmocka_unit_test(test_elements),
        cmocka_unit_test(test_addresses),          cmocka_unit_test(test_percent),
        cmocka_unit_test(test_faults_stop),        cmocka_unit_test(test_balance),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
