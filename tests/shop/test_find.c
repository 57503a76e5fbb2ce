/* test_find.c - what is found is what has the words, in American or British. */
#include "shop/scene.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "garage/search.h"
#include "shop/find.h"

#include <string.h>

static struct scene s;

static int begin(void **state)
{
    (void)state;
    scene_open(&s);
    scene_add(&s, "vehicle", "name=Linnet", NULL);
    scene_add(&s, "finding", "component=bonnet", "condition=poor", "note=left hinge bent", NULL);
    scene_add(&s, "left-off", "note=Tank \"drained\"; do NOT fill", NULL);
    scene_add(&s, "bag", "code=B7", "what=hood latch and its spring", "shelf=A2", NULL);
    scene_add(&s, "bag-item", "bag=B7", "name=lock nut with insert", "count=2", NULL);
    scene_add(&s, "tool", "tool=axle stands", "have=borrowed", "note=of Żaneta", NULL);
    return 0;
}

static int end(void **state)
{
    (void)state;
    scene_close(&s);
    return 0;
}

static struct find asked(const char *words)
{
    struct find x;
    struct fail f = {0};
    if (!find_everything(&s.arena, s.garage, &s.trade, words, &x, &f)) fail_msg("%s", f.text);
    return x;
}

static bool has(const struct find *x, const char *kind)
{
    for (int i = 0; i < x->count; i++)
        if (x->hits[i].record && strcmp(x->hits[i].name, kind) == 0) return true;
    return false;
}

static void records_are_found_by_what_they_say(void **state)
{
    (void)state;
    static const struct {
        const char *words, *kind;
        bool all;
    } cases[] = {
        {"bonnet hinge", "finding", true},
        {"hood hinge", "finding", true},
        {"hood latches", "bag", true},
        {"not fill", "left-off", true},
        {"drain", "left-off", true}, /* the beginning of a word */
        {"b7", "bag", true},
        {"zaneta", "tool", true}, /* without its accent */
        {"hinge zzzz", "finding", false},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        const struct find x = asked(cases[i].words);
        if (!has(&x, cases[i].kind) || x.all != cases[i].all) fail_msg("%s", cases[i].words);
    }
    const struct find british = asked("bonnet hinge"), american = asked("hood hinge");
    assert_int_equal(british.count, american.count);
    for (int i = 0; i < british.count; i++)
        assert_string_equal(british.hits[i].words, american.hits[i].words);
}

static void no_word_is_an_operator(void **state)
{
    (void)state;
    static const char *const odd[] = {
        "\"drained\"", "NOT", "drained AND", "NEAR(a b)", "name:x", "-drain", "*",        "a*b",
        "^hinge",      "{x}", "''",          "x OR",      "+ +",    "\"",     "\xC5\xBB", "a\"*"};
    struct search *x;
    struct fail f = {0};
    int *numbers, n;
    assert_true(search_open(&s.arena, &x, &f));
    assert_true(search_add(x, 7, "tank", "drained, do not fill", &f));
    for (size_t i = 0; i < sizeof odd / sizeof *odd; i++)
        for (int all = 0; all < 2; all++)
            if (!search_find(x, &s.arena, odd[i], all, 9, &numbers, &n, &f)) fail_msg("%s", f.text);
    assert_true(search_find(x, &s.arena, "fill drain", true, 9, &numbers, &n, &f));
    assert_int_equal(n, 1);
    assert_int_equal(numbers[0], 7);
    search_close(x);
}

/* Does a word of the text begin so? */
static bool begins(const char *text, const char *word)
{
    for (const char *at = text; (at = strstr(at, word)) != NULL; at++)
        if (at == text || at[-1] == ' ') return true;
    return false;
}

/* Texts of a small alphabet, so that beginnings meet: what is found is what has the words. */
static void what_is_found_has_the_words_and_nothing_else_has(void **state)
{
    (void)state;
    enum { TEXTS = 300, ASKED = 200 };
    static const char *const part[] = {"ab", "ba", "abb", "b", "bab", "a"};
    const char *texts[TEXTS];
    uint32_t seed = 7;
    struct search *x;
    struct fail f = {0};
    assert_true(search_open(&s.arena, &x, &f));
    for (int i = 0; i < TEXTS; i++) {
        struct text t = {.arena = &s.arena};
        for (int k = 0; k < 5; k++) {
            seed = seed * 1664525 + 1013904223;
            text_print(&t, "%s%s%s", k ? " " : "", part[seed >> 16 & 3], part[seed >> 24 & 3]);
        }
        texts[i] = text_get(&t);
        assert_true(search_add(x, i, "", texts[i], &f));
    }
    int met = 0;
    for (int i = 0; i < ASKED; i++) {
        seed = seed * 1664525 + 1013904223;
        const char *one = arena_print(&s.arena, "%s%s", part[seed >> 8 & 3], part[seed >> 12 & 3]),
                   *two = part[seed >> 16 & 3];
        for (int all = 0; all < 2; all++) {
            int *numbers, n, expected = 0;
            assert_true(search_find(x, &s.arena, arena_print(&s.arena, "%s %s", one, two), all,
                                    TEXTS, &numbers, &n, &f));
            for (int k = 0; k < TEXTS; k++)
                expected += all ? begins(texts[k], one) && begins(texts[k], two)
                                : begins(texts[k], one) || begins(texts[k], two);
            assert_int_equal(n, expected);
            met += all && n > 0 && n < TEXTS;
        }
    }
    assert_true(met > ASKED / 4);
    search_close(x);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(records_are_found_by_what_they_say),
        cmocka_unit_test(no_word_is_an_operator),
        cmocka_unit_test(what_is_found_has_the_words_and_nothing_else_has),
    };
    return cmocka_run_group_tests(tests, begin, end);
}
