/* Trade data kept parsed: the same copy until a file of the garage's own changes, and a copy that
 * is out stays as it is. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "library/shelf.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

static char folder[] = "/tmp/fettle-shelf-XXXXXX";

static int begin(void **state)
{
    (void)state;
    return mkdtemp(folder) ? 0 : -1;
}

static int end(void **state)
{
    (void)state;
    char line[64];
    snprintf(line, sizeof line, "rm -r '%s'", folder);
    return system(line);
}

static void write_file(const char *name, const char *text)
{
    char path[64];
    snprintf(path, sizeof path, "%s/%s", folder, name);
    FILE *f = fopen(path, "w");
    assert_non_null(f);
    assert_true(fputs(text, f) >= 0);
    assert_int_equal(0, fclose(f));
}

#define CAUTION(id, text)                                                                          \
    "subject: cautions\nmark: practice\nentries:\n  - id: " id "\n    name: " id                   \
    "\n    text: " text "\n"                                                                       \
    "    defer: a trained person\n"

static void read_again_only_when_changed(void **state)
{
    (void)state;
    struct fail f = {0};
    struct arena a = arena_open((size_t)64 << 20);
    const struct shelf_copy *first, *same, *changed, *mended;
    char digest[65];
    struct shelf *s = shelf_open(folder);
    assert_true(shelf_take(s, &first, &f));
    assert_true(trade_digest(&a, folder, digest, &f));
    assert_string_equal(first->digest, digest);
    assert_true(shelf_take(s, &same, &f));
    assert_ptr_equal(first, same);
    shelf_put_back(s, same);

    write_file("own.yaml", CAUTION("own-caution", "Mind the step."));
    const int before = first->trade.n_cautions;
    if (!shelf_take(s, &changed, &f)) fail_msg("%s", f.text);
    assert_ptr_not_equal(first, changed);
    assert_int_equal(changed->trade.n_cautions, before + 1);
    assert_int_equal(first->trade.n_cautions, before);
    assert_string_not_equal(changed->digest, first->digest);
    assert_true(trade_digest(&a, folder, digest, &f));
    assert_string_equal(changed->digest, digest);
    shelf_put_back(s, first);
    shelf_put_back(s, changed);

    write_file("own.yaml", "subject: nonsense\n");
    assert_false(shelf_take(s, &mended, &f));
    assert_non_null(strstr(f.text, "own.yaml"));
    write_file("own.yaml", CAUTION("own-caution", "Mind the other step."));
    assert_true(shelf_take(s, &mended, &f));
    assert_int_equal(mended->trade.n_cautions, before + 1);
    shelf_put_back(s, mended);
    shelf_close(s);
    arena_close(&a);
}

static void a_folder_need_not_be_there(void **state)
{
    (void)state;
    static const char *const dirs[] = {NULL, "/nonexistent/trade"};
    for (int i = 0; i < 2; i++) {
        struct fail f = {0};
        const struct shelf_copy *copy;
        struct shelf *s = shelf_open(dirs[i]);
        assert_true(shelf_take(s, &copy, &f));
        assert_true(copy->trade.n_jobs > 0);
        shelf_put_back(s, copy);
        shelf_close(s);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(read_again_only_when_changed),
        cmocka_unit_test(a_folder_need_not_be_there),
    };
    return cmocka_run_group_tests(tests, begin, end);
}
