/* Pairing with a clock of the test's own: who is let in, how long, and after how many tries. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "face/web/pair.h"

#include <sodium.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

static struct {
    struct arena arena;
    char folder[64];
} world;

static int begin(void **state)
{
    (void)state;
    world.arena = arena_open((size_t)64 << 20);
    snprintf(world.folder, sizeof world.folder, "/tmp/fettle-pair-XXXXXX");
    return sodium_init() >= 0 && mkdtemp(world.folder) ? 0 : -1;
}

static int end(void **state)
{
    (void)state;
    int removed = system(arena_print(&world.arena, "rm -r '%s'", world.folder));
    arena_close(&world.arena);
    return removed;
}

enum { NOON = 1800000000 };

/* What is typed at which second: the code, the code in another dress, or a wrong one. */
enum typed { RIGHT, LOWER, SPLIT, LONGER, SHORTER, EMPTY, WRONG, MARKUP };

static const char *type(enum typed what, const char *code)
{
    struct arena *a = &world.arena;
    switch (what) {
    case RIGHT:
        return code;
    case LOWER: {
        char *s = arena_copy(a, code);
        for (char *c = s; *c; c++) {
            if (*c >= 'A' && *c <= 'Z') *c = (char)(*c - 'A' + 'a');
            if (*c == '0') *c = 'o';
            if (*c == '1') *c = 'L';
        }
        return s;
    }
    case SPLIT:
        return arena_print(a, " %.4s-%s ", code, code + 4);
    case LONGER:
        return arena_print(a, "%sA", code);
    case SHORTER:
        return arena_copy_n(a, code, PAIR_CODE_LETTERS - 1);
    case EMPTY:
        return "";
    case WRONG:
        return arena_print(a, "%c%s", code[0] == 'A' ? 'B' : 'A', code + 1);
    default:
        return "<script>alert(1)</script>";
    }
}

static void tries_a_code(void **state)
{
    (void)state;
    static const struct {
        const char *name;
        struct {
            int at; /* seconds after the code was made */
            enum typed what;
            int status; /* 0: let in */
        } tries[8];
        int count;
        enum code_state after;
    } rows[] = {
        {"at once", {{0, RIGHT, 0}}, 1, CODE_USED},
        {"in lower case", {{9, LOWER, 0}}, 1, CODE_USED},
        {"in two halves", {{9, SPLIT, 0}}, 1, CODE_USED},
        {"in its last second", {{599, RIGHT, 0}}, 1, CODE_USED},
        {"too late", {{600, RIGHT, 403}}, 1, CODE_ENDED},
        {"with the clock set back", {{-1, RIGHT, 403}}, 1, CODE_ENDED},
        {"twice", {{1, RIGHT, 0}, {2, RIGHT, 403}}, 2, CODE_USED},
        {"a letter too many", {{1, LONGER, 403}}, 1, CODE_OPEN},
        {"a letter too few", {{1, SHORTER, 403}}, 1, CODE_OPEN},
        {"nothing", {{1, EMPTY, 403}}, 1, CODE_OPEN},
        {"markup", {{1, MARKUP, 403}}, 1, CODE_OPEN},
        {"wrong, then right too soon, then right",
         {{1, WRONG, 403}, {2, RIGHT, 429}, {3, RIGHT, 0}},
         3,
         CODE_USED},
        {"guessing fast costs no tries",
         {{1, WRONG, 403},
          {1, WRONG, 429},
          {1, WRONG, 429},
          {1, WRONG, 429},
          {1, WRONG, 429},
          {1, WRONG, 429},
          {4, RIGHT, 0}},
         7,
         CODE_USED},
        {"right after four wrong ones",
         {{2, WRONG, 403}, {4, WRONG, 403}, {6, WRONG, 403}, {8, WRONG, 403}, {10, RIGHT, 0}},
         5,
         CODE_USED},
        {"right after five wrong ones",
         {{2, WRONG, 403},
          {4, WRONG, 403},
          {6, WRONG, 403},
          {8, WRONG, 403},
          {10, WRONG, 403},
          {12, RIGHT, 403}},
         6,
         CODE_TRIED_OUT},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct pairing p;
        char code[PAIR_CODE_LETTERS + 1] = "";
        int64_t left = 0, now = NOON;
        pairing_begin(&p);
        pairing_renew(&p, NOON);
        assert_int_equal(CODE_OPEN, pairing_state(&p, NOON, code, &left));
        assert_int_equal(PAIR_CODE_SECONDS, left);
        for (int t = 0; t < rows[i].count; t++) {
            struct fail f = {0};
            int status = 0;
            now = NOON + rows[i].tries[t].at;
            bool in = pairing_try(&p, type(rows[i].tries[t].what, code), now, &status, &f);
            if (in) status = 0;
            if (status != rows[i].tries[t].status)
                fail_msg("%s, try %d: %d %s", rows[i].name, t, status, f.text);
            assert_int_equal(in, f.kind == FAIL_NONE);
        }
        assert_int_equal(rows[i].after, pairing_state(&p, now, code, &left));
        pairing_end(&p);
    }
}

static void gives_another_code_each_time(void **state)
{
    (void)state;
    struct pairing p;
    struct fail f = {0};
    char first[PAIR_CODE_LETTERS + 1], second[PAIR_CODE_LETTERS + 1];
    int64_t left;
    int status;
    pairing_begin(&p);
    assert_int_equal(CODE_NONE, pairing_state(&p, NOON, first, &left));
    assert_false(pairing_try(&p, "", NOON, &status, &f));
    pairing_renew(&p, NOON);
    pairing_state(&p, NOON, first, &left);
    pairing_renew(&p, NOON);
    pairing_state(&p, NOON, second, &left);
    assert_string_not_equal(first, second);
    assert_false(pairing_try(&p, first, NOON, &status, &f));
    /* A new code does not shorten the wait after a wrong one. */
    pairing_renew(&p, NOON);
    pairing_state(&p, NOON, second, &left);
    assert_false(pairing_try(&p, second, NOON + 1, &status, &f));
    assert_int_equal(429, status);
    assert_true(pairing_try(&p, second, NOON + 2, &status, &f));
    pairing_end(&p);
}

static const char *garage(const char *name)
{
    const char *dir = arena_print(&world.arena, "%s/%s", world.folder, name);
    assert_int_equal(0, mkdir(dir, 0700));
    return dir;
}

static const struct device *admit(const char *dir, const char *token, int64_t now, bool *renewed)
{
    struct fail f = {0};
    const struct device *d;
    if (!devices_admit(&world.arena, dir, token, now, &d, renewed, &f)) fail_msg("%s", f.text);
    return d;
}

static void admits_who_was_paired(void **state)
{
    (void)state;
    enum { DAY = 24 * 3600 };
    const char *dir = garage("admits"), *one, *two;
    struct devices list;
    struct fail f = {0};
    bool renewed;
    assert_null(admit(dir, NULL, NOON, &renewed));
    assert_true(devices_add(&world.arena, dir, "", NOON, &one, &f));
    assert_true(devices_add(&world.arena, dir, "<b>\"Blåbær\" 🔧", NOON + 5, &two, &f));
    assert_true(devices_read(&world.arena, dir, NOON + 5, &list, &f));
    assert_int_equal(2, list.count);
    assert_string_equal("phone", list.items[0].name);
    assert_string_equal("<b>\"Blåbær\" 🔧", admit(dir, two, NOON + 6, &renewed)->name);
    assert_false(renewed);
    assert_non_null(admit(dir, two, NOON + DAY, &renewed));
    assert_true(renewed); /* kept: asked again on the same day, it is not */
    assert_non_null(admit(dir, two, NOON + DAY, &renewed));
    assert_false(renewed);
    static const char *const strangers[] = {
        "", "0", "0000000000000000000000000000000000000000000000000000000000000000",
        "../../../../etc/passwd"};
    for (size_t i = 0; i < sizeof strangers / sizeof *strangers; i++)
        assert_null(admit(dir, strangers[i], NOON, &renewed));
    /* What is in the file lets nobody in. */
    assert_null(admit(dir, list.items[0].digest, NOON, &renewed));
    /* The one that was never seen again ends; the other goes on. */
    assert_null(admit(dir, one, NOON + DEVICE_SECONDS, &renewed));
    assert_non_null(admit(dir, two, NOON + DEVICE_SECONDS, &renewed));
    assert_false(devices_forget(&world.arena, dir, "00000000", NOON + 7, &f));
    assert_true(devices_forget(&world.arena, dir, list.items[1].id, NOON + 7, &f));
    assert_null(admit(dir, two, NOON + 8, &renewed));
    struct stat s;
    assert_int_equal(0, stat(arena_print(&world.arena, "%s/share/devices.json", dir), &s));
    assert_int_equal(0600, s.st_mode & 0777);
    assert_int_equal(0, stat(arena_print(&world.arena, "%s/share", dir), &s));
    assert_int_equal(0700, s.st_mode & 0777);
}

static void refuses_one_too_many(void **state)
{
    (void)state;
    const char *dir = garage("many"), *token;
    struct fail f = {0};
    for (int i = 0; i < DEVICES_MOST; i++)
        assert_true(devices_add(&world.arena, dir, "phone", NOON, &token, &f));
    assert_false(devices_add(&world.arena, dir, "phone", NOON, &token, &f));
    assert_non_null(strstr(f.text, "--forget"));
    f = (struct fail){0};
    assert_true(devices_add(&world.arena, dir, "phone", NOON + DEVICE_SECONDS, &token, &f));
}

static void refuses_a_broken_list(void **state)
{
    (void)state;
    static const char *const broken[] = {
        "",
        "{",
        "[]",
        "{\"devices\": {}}",
        "{\"devices\": [{}]}",
        "{\"devices\": [{\"id\": \"../../..\", \"name\": \"x\", \"token_sha256\": \"\", "
        "\"paired\": 1, \"seen\": 1}]}",
        "{\"devices\": [{\"id\": \"00000000\", \"name\": \"x\", \"token_sha256\": "
        "\"0000000000000000000000000000000000000000000000000000000000000000\", \"paired\": 1, "
        "\"seen\": 9000000000000000000}]}",
    };
    const char *dir = garage("broken");
    assert_int_equal(0, mkdir(arena_print(&world.arena, "%s/share", dir), 0700));
    for (size_t i = 0; i < sizeof broken / sizeof *broken; i++) {
        struct fail f = {0};
        struct devices list;
        const struct device *d = (const struct device *)&list;
        bool renewed;
        FILE *out = fopen(arena_print(&world.arena, "%s/share/devices.json", dir), "w");
        assert_non_null(out);
        fputs(broken[i], out);
        fclose(out);
        assert_false(devices_read(&world.arena, dir, NOON, &list, &f));
        assert_int_equal(FAIL_GARAGE, f.kind);
        assert_false(devices_admit(
            &world.arena, dir, "0000000000000000000000000000000000000000000000000000000000000000",
            NOON, &d, &renewed, &f));
        assert_null(d);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(tries_a_code),          cmocka_unit_test(gives_another_code_each_time),
        cmocka_unit_test(admits_who_was_paired), cmocka_unit_test(refuses_one_too_many),
        cmocka_unit_test(refuses_a_broken_list),
    };
    return cmocka_run_group_tests(tests, begin, end);
}
