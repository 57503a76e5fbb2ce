/* Trade data in folders, cut short, and in bulk. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "small_trade.h"

#include "base/text.h"
#include "library/tree.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#define COUNT(array) (sizeof(array) / sizeof *(array))

struct folder {
    struct arena arena;
    char dir[64];
};

static int set_up(void **state)
{
    static struct folder f;
    f = (struct folder){arena_open(256 << 20), "build/test-trade-XXXXXX"};
    *state = &f;
    return mkdtemp(f.dir) ? 0 : -1;
}

static int take_down(void **state)
{
    struct folder *f = *state;
    char command[128];
    snprintf(command, sizeof command, "rm -rf '%s'", f->dir);
    arena_close(&f->arena);
    return system(command);
}

static const char *path_in(struct folder *f, const char *name)
{
    return arena_print(&f->arena, "%s/%s", f->dir, name);
}

static void write_file(struct folder *f, const char *name, const char *text)
{
    FILE *file = fopen(path_in(f, name), "w");
    assert_non_null(file);
    assert_true(fputs(text, file) >= 0);
    assert_int_equal(fclose(file), 0);
}

static void write_all(struct folder *f)
{
    for (int i = 0; i < n_small_trade; i++) write_file(f, small_trade[i].file, small_trade[i].text);
}

static void a_folder_is_read_below_and_in_order(void **state)
{
    struct folder *f = *state;
    struct trade t;
    struct trade_faults faults;
    struct fail fail = {0};
    write_all(f);
    mkdir(path_in(f, "more"), 0700);
    write_file(f, "more/b.yaml", "subject: tools\nentries:\n  - {id: hammer, name: hammer}\n");
    write_file(f, "a.yaml", "subject: tools\nentries:\n  - {id: file, name: file}\n");
    write_file(f, ".hidden.yaml", "nonsense: [");
    write_file(f, "notes.txt", "nonsense: [");
    assert_int_equal(symlink(".", path_in(f, "round.yaml")), 0);
    if (!trade_load_dir(&f->arena, f->dir, &t, &faults, &fail)) fail_msg("%s", fail.text);
    assert_int_equal(t.n_tools, 3);
    assert_string_equal(t.tools[0].head.id, "file");
    assert_string_equal(t.tools[1].head.id, "hammer");
    assert_string_equal(t.tools[0].head.file, path_in(f, "a.yaml"));
}

static void what_cannot_be_read_is_told(void **state)
{
    struct folder *f = *state;
    struct trade t;
    struct trade_faults faults;
    struct fail fail = {0};
    assert_false(trade_load_dir(&f->arena, path_in(f, "none"), &t, &faults, &fail));
    assert_string_equal(fail.text,
                        path_in(f, "none: No such file or directory; name a folder of trade data"));
    assert_int_equal(faults.count, 1);
    fail = (struct fail){0};
    assert_false(trade_check_dir(&f->arena, f->dir, &t, &faults, &fail));
    assert_string_equal(
        fail.text, arena_print(&f->arena, "%s: no trade data; it holds no .yaml file", f->dir));
    write_file(f, "big.yaml", "");
    assert_int_equal(truncate(path_in(f, "big.yaml"), SOURCE_MAX_BYTES + 1), 0);
    fail = (struct fail){0};
    assert_false(trade_load(&f->arena, f->dir, &t, &faults, &fail));
    assert_string_equal(fail.text, path_in(f, "big.yaml: over 4 MB; split the file"));
}

static void a_whole_folder_is_judged_alone_and_a_part_over_the_carried(void **state)
{
    struct folder *f = *state;
    struct trade t;
    struct trade_faults faults;
    struct fail fail = {0};
    write_file(f, "own.yaml", "subject: tools\nentries:\n  - {id: own-tool, name: own tool}\n");
    if (!trade_check_dir(&f->arena, f->dir, &t, &faults, &fail)) fail_msg("%s", fail.text);
    assert_true(t.n_jobs > 0 && t.tools[trade_find(&t, SUBJECT_TOOLS, "own-tool")].head.own);
    write_all(f);
    if (!trade_check_dir(&f->arena, f->dir, &t, &faults, &fail)) fail_msg("%s", fail.text);
    assert_int_equal(t.n_jobs, 3);
    write_file(f, "own.yaml", "subject: tools\nentries:\n  - {id: own-tool}\n");
    assert_false(trade_check_dir(&f->arena, f->dir, &t, &faults, &fail));
    assert_string_equal(fail.text, path_in(f, "own.yaml:3: missing key 'name'; add it"));
}

static void the_digest_tells_what_is_own(void **state)
{
    struct folder *f = *state;
    struct fail fail = {0};
    char carried[65], none[65], own[65], again[65], other[65];
    assert_true(trade_digest(&f->arena, NULL, carried, &fail));
    assert_true(trade_digest(&f->arena, path_in(f, "none"), none, &fail));
    assert_string_equal(none, carried);
    assert_int_equal(strspn(carried, "0123456789abcdef"), 64);
    write_file(f, "own.yaml", "a");
    assert_true(trade_digest(&f->arena, f->dir, own, &fail));
    assert_true(trade_digest(&f->arena, path_in(f, "."), again, &fail));
    assert_string_equal(own, again);
    write_file(f, "own.yaml", "b");
    assert_true(trade_digest(&f->arena, f->dir, other, &fail));
    assert_string_not_equal(own, carried);
    assert_string_not_equal(own, other);
}

/* By sha256sum of printf 'p\n3\nown\nabc': path, size, layer, bytes. */
static void the_digest_is_sha_256(void **state)
{
    struct folder *f = *state;
    struct sources s = {0};
    char hex[65];
    small_add(&f->arena, &s, "p", "abc", 3, true);
    sources_digest(&s, hex);
    assert_string_equal(hex, "25ac3372cff697f5bf9ff4a6ddb78a239335d80e85b506c534347807072445ea");
}

static void the_shipped_data_is_clean(void **state)
{
    struct folder *f = *state;
    struct trade t;
    struct trade_faults faults;
    struct fail fail = {0};
    if (!trade_load_dir(&f->arena, TRADE_DIR, &t, &faults, &fail)) {
        for (int i = 0; i < faults.count; i++) print_error("%s\n", faults.line[i]);
        fail_msg("%d faults", faults.count);
    }
    for (int s = 0; s < SUBJECT_COUNT; s++)
        if (trade_count(&t, (enum subject)s) == 0) fail_msg("no %s", subject_name((enum subject)s));
    if (!trade_load(&f->arena, NULL, &t, &faults, &fail)) fail_msg("carried: %s", fail.text);
}

/* ---- cut short and in bulk
 * --------------------------------------------------------------------------------- */

static size_t cut_step = 11; /* the argument; 1: each byte */

/* Each file cut short loads or is told; the bytes lie in a block of their own size, so that
 * a read past the cut is caught. */
static void a_cut_file_loads_or_is_told(void **state)
{
    (void)state;
    for (int i = 0; i < n_small_trade; i++) {
        size_t size = strlen(small_trade[i].text);
        for (size_t cut = 0; cut < size; cut += cut_step) {
            struct arena a = arena_open(16 << 20);
            struct sources s = small_sources(&a, NULL, "", "");
            char *bytes = malloc(cut + (cut == 0));
            assert_non_null(bytes);
            memcpy(bytes, small_trade[i].text, cut);
            s.at[i].bytes = bytes;
            s.at[i].size = cut;
            struct trade t;
            const char *said = small_faults(&a, &s, &t);
            if (cut < 12 && said[0] == '\0')
                fail_msg("%s cut at %zu: clean", small_trade[i].file, cut);
            free(bytes);
            arena_close(&a);
        }
    }
}

static void limits_hold(void **state)
{
    struct folder *f = *state;
    struct faults faults = {.arena = &f->arena};
    struct text deep = {.arena = &f->arena}, wide = {.arena = &f->arena},
                many = {.arena = &f->arena};
    for (int i = 0; i < TREE_DEPTH; i++) text_add(&deep, "[");
    for (int i = 0; i < TREE_DEPTH; i++) text_add(&deep, "]");
    for (int i = 0; i < TREE_KEYS; i++) text_print(&wide, "k%d: 1\n", i);
    text_add(&many, "- a");
    for (int i = 2; i < TREE_NODES; i++) text_add(&many, "\n- a");
    const struct text *just[] = {&deep, &wide, &many};
    for (size_t i = 0; i < COUNT(just); i++)
        assert_non_null(tree_read(&faults, "just", text_get(just[i]), just[i]->length));
    assert_int_equal(faults.count, 0);
    text_add(&wide, "k: 1\n");
    text_add(&many, "\n- a");
    const char *deeper = arena_print(&f->arena, "[%s]", text_get(&deep));
    assert_null(tree_read(&faults, "deep", deeper, strlen(deeper)));
    assert_null(tree_read(&faults, "wide", text_get(&wide), wide.length));
    assert_null(tree_read(&faults, "many", text_get(&many), many.length));
    assert_int_equal(faults.count, 3);
    assert_string_equal(faults.fault[0].text, "nested too deep; mend the brackets");
    assert_string_equal(faults.fault[1].text, "too many keys in one mapping; is a '-' missing?");
    assert_string_equal(faults.fault[2].text, "too many values; split the file");
}

static void faults_without_end_are_counted(void **state)
{
    struct folder *f = *state;
    struct trade t;
    struct sources s = small_sources(&f->arena, NULL, "", "");
    struct text text = {.arena = &f->arena};
    text_add(&text, "subject: tools\nentries:\n");
    for (int i = 0; i < FAULTS_MAX + 7; i++) text_print(&text, "  - {id: t%d}\n", i);
    small_add(&f->arena, &s, "z.yaml", text_get(&text), text.length, false);
    struct trade_faults faults;
    assert_false(trade_read(&f->arena, &s, &t, &faults));
    assert_int_equal(faults.count, FAULTS_MAX + 1);
    assert_string_equal(faults.line[0], "z.yaml:3: missing key 'name'; add it");
    assert_string_equal(faults.line[FAULTS_MAX], "7 more faults; mend these first");
}

static void a_hostile_word_stays_on_one_short_line(void **state)
{
    struct folder *f = *state;
    struct trade t;
    struct sources s = small_sources(&f->arena, "tools.yaml", "also:",
                                     "\"\\e[31m\\n\\u009b\xc3\xa9 a key that is much longer than "
                                     "any word of the trade \xc3\xa9\":");
    assert_string_equal(small_faults(&f->arena, &s, &t),
                        "tools.yaml:3: unknown key '?[31m???\xc3\xa9 a key that is much longer "
                        "than any wo...'; the keys here "
                        "are id, name, also, mark, source\n");
}

int main(int argc, char **argv)
{
    if (argc > 1) cut_step = (size_t)atoi(argv[1]);
    assert_true(cut_step > 0);
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(a_folder_is_read_below_and_in_order, set_up, take_down),
        cmocka_unit_test_setup_teardown(what_cannot_be_read_is_told, set_up, take_down),
        cmocka_unit_test_setup_teardown(a_whole_folder_is_judged_alone_and_a_part_over_the_carried,
                                        set_up, take_down),
        cmocka_unit_test_setup_teardown(the_digest_tells_what_is_own, set_up, take_down),
        cmocka_unit_test_setup_teardown(the_digest_is_sha_256, set_up, take_down),
        cmocka_unit_test_setup_teardown(the_shipped_data_is_clean, set_up, take_down),
        cmocka_unit_test(a_cut_file_loads_or_is_told),
        cmocka_unit_test_setup_teardown(limits_hold, set_up, take_down),
        cmocka_unit_test_setup_teardown(faults_without_end_are_counted, set_up, take_down),
        cmocka_unit_test_setup_teardown(a_hostile_word_stays_on_one_short_line, set_up, take_down),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
