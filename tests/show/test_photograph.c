/* Photographs taken in through fettle-photo, and what becomes of those that are none; also when
 * that program breaks, hangs, lies or is missing. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "face/show/photo_child.h"
#include "face/show/photograph.h"
#include "small_picture.h"

#include <dirent.h>
#include <fcntl.h>
#include <sodium.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

static struct {
    struct arena arena;
    char folder[64];
    const char *dir, *path; /* the garage; PATH with our program */
    struct garage *garage;
} world;

static int begin(void **state)
{
    (void)state;
    struct fail f = {0};
    world.arena = arena_open((size_t)64 << 20);
    strcpy(world.folder, "/tmp/fettle-photo-XXXXXX");
    if (sodium_init() < 0 || !mkdtemp(world.folder)) return -1;
    world.dir = arena_print(&world.arena, "%s/garage", world.folder);
    world.path = arena_print(&world.arena, PROGRAMS_DIR ":%s", getenv("PATH"));
    struct record *r = record_new(&world.arena, record_kind_find("vehicle"));
    bool made = garage_create(world.dir, "UTC", NULL, &f) &&
                garage_open(&world.arena, world.dir, GARAGE_WRITE, NULL, &world.garage, &f) &&
                record_set(&world.arena, r, "name", "Wren", NULL, &f) &&
                garage_begin(world.garage, &f) && garage_add(world.garage, r, &f) &&
                garage_commit(world.garage, &f);
    return made && setenv("PATH", world.path, 1) == 0 ? 0 : -1;
}

static int end(void **state)
{
    (void)state;
    garage_close(world.garage);
    int removed = system(arena_print(&world.arena, "rm -r '%s'", world.folder));
    arena_close(&world.arena);
    return removed;
}

static int names_in(const char *folder)
{
    int n = 0;
    DIR *dir = opendir(arena_print(&world.arena, "%s/%s", world.dir, folder));
    for (const struct dirent *d; dir && (d = readdir(dir));)
        n += !text_is(d->d_name, ".") && !text_is(d->d_name, "..");
    if (dir) closedir(dir);
    return n;
}

static bool take(const char *bytes, size_t n, struct record **out, struct fail *f)
{
    struct file_new *file;
    struct fail none = {0};
    struct record *r = *out = record_new(&world.arena, record_kind_find("photograph"));
    assert_true(record_set(&world.arena, r, "vehicle", "Wren", NULL, &none));
    assert_true(file_begin(&world.arena, world.dir, &file, &none) &&
                file_write(file, bytes, n, &none) && file_seal(file, &none));
    bool ok = photograph_take(&world.arena, world.garage, file, "IMG_1.jpg", r, f);
    file_close(file);
    return ok;
}

#define TAKE(bytes, out, f) take(bytes, sizeof bytes - 1, out, f)

static void is_jpeg(enum photograph_size size, const char *digest)
{
    struct fail f = {0};
    unsigned char first[3];
    int fd;
    if (!photograph_open(&world.arena, world.dir, digest, size, &fd, &f)) fail_msg("%s", f.text);
    assert_int_equal(read(fd, first, 3), 3);
    assert_memory_equal(first, "\xff\xd8\xff", 3);
    close(fd);
}

static void a_photograph_is_stored_with_its_facts(void **state)
{
    (void)state;
    struct fail f = {0};
    struct record *jpeg, *png;
    if (!TAKE(SMALL_JPEG, &jpeg, &f) || !TAKE(SMALL_PNG, &png, &f)) fail_msg("%s", f.text);
    assert_string_equal(record_text(jpeg, "type", ""), "jpeg");
    assert_int_equal(record_integer(jpeg, "width", 0), 8); /* upright */
    assert_int_equal(record_integer(jpeg, "height", 0), 16);
    assert_string_equal(record_text(jpeg, "taken", ""), "2026-11-24");
    assert_string_equal(record_text(png, "type", ""), "png");
    assert_int_equal(record_integer(png, "width", 0), 16);
    assert_string_equal(record_text(png, "taken", "?"), "?");
    assert_int_equal(names_in("files"), 2);
    assert_int_equal(names_in("cache/photographs"), 4);
    /* The cache is safe to delete. */
    assert_int_equal(system(arena_print(&world.arena, "rm -r '%s/cache'", world.dir)), 0);
    is_jpeg(PHOTOGRAPH_THUMBNAIL, record_text(jpeg, "file", ""));
    is_jpeg(PHOTOGRAPH_COPY, record_text(jpeg, "file", ""));
    is_jpeg(PHOTOGRAPH_COPY, record_text(png, "file", ""));
    assert_int_equal(names_in("cache/photographs"), 4);
}

static void what_is_none_is_refused_and_leaves_nothing(void **state)
{
    (void)state;
    static const char html[] = "<!doctype html><script>alert(1)</script>";
    static const struct {
        const char *bytes;
        size_t n;
        const char *says;
    } table[] = {
        {"", 0, "it is empty"},
        {html, sizeof html - 1, "no picture"},
        {SMALL_JPEG, sizeof SMALL_JPEG - 40, "broken JPEG"},
        {SMALL_PNG, sizeof SMALL_PNG - 10, "broken PNG"},
    };
    const int files = names_in("files"), copies = names_in("cache/photographs");
    for (size_t i = 0; i < sizeof table / sizeof *table; i++) {
        struct fail f = {0};
        struct record *r;
        assert_false(take(table[i].bytes, table[i].n, &r, &f));
        assert_int_equal(f.kind, FAIL_INPUT);
        if (!strstr(f.text, table[i].says) || !text_starts(f.text, "IMG_1.jpg is not taken: it"))
            fail_msg("'%s' does not say '%s'", f.text, table[i].says);
    }
    /* Nor does one whose record is refused. */
    struct fail f = {0};
    struct file_new *file;
    struct record *r = record_new(&world.arena, record_kind_find("photograph"));
    assert_true(record_set(&world.arena, r, "vehicle", "nobody's", NULL, &f));
    assert_true(file_begin(&world.arena, world.dir, &file, &f) &&
                file_write(file, SMALL_PNG "x", sizeof SMALL_PNG, &f) && file_seal(file, &f));
    assert_false(photograph_take(&world.arena, world.garage, file, "x", r, &f));
    assert_non_null(strstr(f.text, "no vehicle"));
    file_close(file);
    assert_int_equal(names_in("files"), files);
    assert_int_equal(names_in("cache/photographs"), copies);
}

/* Stand-ins for the program that do as a broken decoder would. */
static void whatever_the_child_does_is_one_line(void **state)
{
    (void)state;
    static const struct {
        const char *script, *says;
    } table[] = {
        {"kill -SEGV $$", "broke on it (signal 11)"},
        {"kill -KILL $$", "too long"},
        {"exec sleep 30", "too long"},
        {"exit 0", "does not work here (status 0)"},
        {"echo jpeg 4 3", "does not work here (status 0)"},
        {"echo 'jpeg 4 3 2026-02-30'", "does not work here (status 0)"},
        {"echo 'jpeg 0 3 -'", "does not work here (status 0)"},
        {"echo 'tiff 4 3 -'", "does not work here (status 0)"},
        {"echo 'jpeg 4 3 - more'", "does not work here (status 0)"},
        {"echo 'it is odd' >&2; exit 1", "it is odd"},
        {"printf 'it is odd\\nand more\\033[2J' >&2; exit 1", "it is odd"},
        {"head -c 100000 /dev/zero | tr '\\0' x; exit 1", "xxxx"},
        {"exit 3", "does not work here (status 3)"},
    };
    const char *bin = arena_print(&world.arena, "%s/bin", world.folder),
               *program = arena_print(&world.arena, "%s/fettle-photo", bin);
    assert_int_equal(mkdir(bin, 0700), 0);
    setenv("PATH", arena_print(&world.arena, "%s:%s", bin, world.path), 1);
    for (size_t i = 0; i < sizeof table / sizeof *table; i++) {
        struct fail f = {0};
        struct photo_facts facts;
        FILE *to = fopen(program, "w");
        fprintf(to, "#!/bin/sh\nPATH=/usr/bin:/bin\n%s\n", table[i].script);
        fclose(to);
        chmod(program, 0700);
        int null = open("/dev/null", O_RDWR);
        const bool slow = strstr(table[i].script, "sleep");
        assert_false(photo_look(null, null, null, slow ? 1 : 30, &facts, &f));
        close(null);
        assert_null(strchr(f.text, '\n'));
        assert_null(strchr(f.text, '\033'));
        if (!strstr(f.text, table[i].says))
            fail_msg("'%s' does not say '%s'", f.text, table[i].says);
    }
    struct fail f = {0};
    struct photo_facts facts;
    unlink(program);
    setenv("PATH", bin, 1);
    assert_false(photo_look(0, 1, 1, 30, &facts, &f));
    setenv("PATH", world.path, 1);
    assert_int_equal(f.kind, FAIL_GARAGE);
    assert_non_null(strstr(f.text, "build it with: make"));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_photograph_is_stored_with_its_facts),
        cmocka_unit_test(what_is_none_is_refused_and_leaves_nothing),
        cmocka_unit_test(whatever_the_child_does_is_one_line),
    };
    return cmocka_run_group_tests(tests, begin, end);
}
