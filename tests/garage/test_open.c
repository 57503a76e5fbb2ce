/* A garage that cannot be made or opened: one line, FAIL_GARAGE, what to do; and nothing left
 * behind. */
#include "world.h"

#include "garage/place.h"

#include <dirent.h>
#include <fcntl.h>
#include <sqlite3.h>
#include <sys/prctl.h>
#include <sys/stat.h>

static int entries_of(const char *dir)
{
    int n = 0;
    DIR *d = opendir(dir);
    assert_non_null(d);
    while (readdir(d)) n++;
    closedir(d);
    return n - 2; /* . and .. */
}

static void write_at(const char *path, long offset, const void *bytes, size_t n)
{
    int fd = open(path, O_WRONLY | O_CREAT, 0600);
    assert_true(fd >= 0 && pwrite(fd, bytes, n, offset) == (ssize_t)n);
    close(fd);
}

/* ---- making ---- */

static void a_new_garage_is_whole_and_private(void **state)
{
    struct world *w = *state;
    struct stat st;
    char path[200];
    world_garage(w);
    assert_int_equal(entries_of(w->root), 1);
    assert_int_equal(stat(w->dir, &st), 0);
    assert_int_equal(st.st_mode & 0777, 0700);
    static const char *const inner[] = {"files", "cache", "trade", "garage.db", "garage.db-wal"};
    world_add(w, world_record(w, "vehicle", "name=A", NULL));
    for (int i = 0; i < 5; i++) {
        snprintf(path, sizeof path, "%s/%s", w->dir, inner[i]);
        if (stat(path, &st) != 0) fail_msg("%s is not there", path);
        assert_int_equal(st.st_mode & 0077, 0);
    }
}

static void an_empty_folder_is_taken(void **state)
{
    struct world *w = *state;
    assert_int_equal(mkdir(w->dir, 0755), 0);
    world_garage(w);
    assert_int_equal(world_faults(w, NULL), 0);
}

static void what_is_there_already_is_left_alone(void **state)
{
    struct world *w = *state;
    struct fail f = {0};
    char path[200];
    assert_int_equal(mkdir(w->dir, 0755), 0);
    snprintf(path, sizeof path, "%s/mine", w->dir);
    write_at(path, 0, "mine", 4);
    assert_false(garage_create(w->dir, NULL, NULL, &f));
    assert_int_equal(f.kind, FAIL_GARAGE);
    assert_non_null(strstr(f.text, "not empty; give another folder"));
    assert_int_equal(entries_of(w->dir), 1);
    f = (struct fail){0};
    assert_false(garage_create(path, NULL, NULL, &f)); /* a file by that name */
    assert_non_null(strstr(f.text, "give another folder"));
    assert_int_equal(entries_of(w->root), 1);
    f = (struct fail){0};
    snprintf(path, sizeof path, "%s/no/such/place", w->root);
    assert_false(garage_create(path, NULL, NULL, &f));
    assert_non_null(strstr(f.text, "make that first"));
    assert_int_equal(entries_of(w->root), 1);
}

/* ---- opening: what is done to garage.db, and what must be said ---- */

static void database(struct world *w, const char *sql)
{
    char path[200];
    sqlite3 *db;
    snprintf(path, sizeof path, "%s/garage.db", w->dir);
    assert_int_equal(sqlite3_open(path, &db), SQLITE_OK);
    assert_int_equal(sqlite3_exec(db, sql, NULL, NULL, NULL), SQLITE_OK);
    sqlite3_close(db);
}

static void nothing(struct world *w)
{
    (void)w;
}
static void no_folder(struct world *w)
{
    char command[200];
    snprintf(command, sizeof command, "rm -r %s", w->dir);
    assert_int_equal(system(command), 0);
}
static void no_database(struct world *w)
{
    char path[200];
    snprintf(path, sizeof path, "%s/garage.db", w->dir);
    assert_int_equal(unlink(path), 0);
}
static void cut(struct world *w, off_t to)
{
    char path[200];
    snprintf(path, sizeof path, "%s/garage.db", w->dir);
    assert_int_equal(truncate(path, to), 0);
}
static void cut_to_nothing(struct world *w)
{
    cut(w, 0);
}
static void cut_in_the_header(struct world *w)
{
    cut(w, 50);
}
static void cut_in_half(struct world *w)
{
    cut(w, 8192);
}
static void not_a_database(struct world *w)
{
    char path[200];
    snprintf(path, sizeof path, "%s/garage.db", w->dir);
    write_at(path, 0, "A shopping list, not a database", 31);
}
static void of_another_program(struct world *w)
{
    database(w, "PRAGMA application_id = 7");
}
static void of_a_newer_version(struct world *w)
{
    database(w, "PRAGMA user_version = 99");
}
static void of_a_lost_version(struct world *w)
{
    database(w, "PRAGMA user_version = 0");
}

static const struct {
    void (*harm)(struct world *w);
    const char *says;
} harms[] = {
    {no_folder, "there is no garage; make one with: fettle new"},
    {no_database, "there is no garage"},
    {cut_to_nothing, "empty or of another program"},
    {cut_in_the_header, "damaged or cut short; put back a copy"},
    {cut_in_half, "damaged or cut short; put back a copy"},
    {not_a_database, "not a database; put back a copy"},
    {of_another_program, "of another program"},
    {of_a_newer_version, "newer version of this program"},
    {of_a_lost_version, "no step leads to"},
    {nothing, NULL},
};

static void what_cannot_be_opened_says_so(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof harms / sizeof *harms; i++)
        for (int mode = GARAGE_READ; mode <= GARAGE_WRITE; mode++) {
            struct world *w = world_open();
            struct fail f = {0};
            world_garage(w);
            garage_close(w->garage);
            w->garage = NULL;
            harms[i].harm(w);
            bool ok =
                garage_open(&w->arena, w->dir, (enum garage_mode)mode, &w->source, &w->garage, &f);
            assert_int_equal(ok, harms[i].says == NULL);
            if (!ok) {
                assert_int_equal(f.kind, FAIL_GARAGE);
                assert_null(strchr(f.text, '\n'));
                if (!strstr(f.text, harms[i].says))
                    fail_msg("'%s' does not say '%s'", f.text, harms[i].says);
            }
            world_close(w);
        }
}

/* A folder that may not be written to. Root may write anywhere, so root becomes nobody for a while.
 */
static void a_folder_for_reading_only(void **state)
{
    struct world *w = *state;
    struct fail f = {0};
    struct garage *g;
    char command[300];
    world_garage(w);
    world_add(w, world_record(w, "vehicle", "name=A", NULL));
    garage_close(w->garage);
    w->garage = NULL;
    snprintf(command, sizeof command, "chmod 755 %s && chmod -R a+rX,a-w %s", w->root, w->dir);
    assert_int_equal(system(command), 0);
    bool root = geteuid() == 0;
    if (root) assert_int_equal(seteuid(65534), 0);

    assert_false(garage_open(&w->arena, w->dir, GARAGE_WRITE, &w->source, &g, &f));
    assert_int_equal(f.kind, FAIL_GARAGE);
    assert_non_null(strstr(f.text, "cannot be written to; check who owns it"));
    f = (struct fail){0};
    if (!garage_open(&w->arena, w->dir, GARAGE_READ, &w->source, &g, &f)) fail_msg("%s", f.text);
    w->garage = g;
    assert_int_equal(world_count(w, "vehicle", NULL), 1);
    assert_int_equal(world_faults(w, NULL), 0);
    garage_close(w->garage);
    w->garage = NULL;
    if (root) assert_int_equal(seteuid(0), 0);
    prctl(PR_SET_DUMPABLE, 1); /* lost with the change of user; the leak checker needs it */
}

static void a_reader_sees_one_state(void **state)
{
    struct world *w = *state;
    struct garage *reader;
    struct record *list;
    int n;
    world_garage(w);
    assert_true(garage_open(&w->arena, w->dir, GARAGE_READ, &w->source, &reader, &w->fail));
    assert_true(garage_begin(reader, &w->fail));
    for (int i = 0; i < 3; i++) {
        assert_true(
            garage_list(reader, &w->arena, record_kind_find("vehicle"), NULL, &list, &n, &w->fail));
        assert_int_equal(n, 0);
        world_add(w, world_record(w, "vehicle", "name=A", NULL));
    }
    assert_true(garage_commit(reader, &w->fail));
    assert_true(
        garage_list(reader, &w->arena, record_kind_find("vehicle"), NULL, &list, &n, &w->fail));
    assert_int_equal(n, 3);
    garage_close(reader);
}

static void network_folders_are_known(void **state)
{
    (void)state;
    /* Numbers of statfs(2). */
    static const struct {
        long magic;
        const char *type, *network;
    } places[] = {
        {0xef53, "ext4", NULL},
        {0x9123683e, "btrfs", NULL},
        {0x01021994, "tmpfs", NULL},
        {0x6969, NULL, "NFS"},
        {0xff534d42, NULL, "CIFS"},
        {0xfe534d42, NULL, "SMB2"},
        {(int)0xfe534d42, NULL, "SMB2"},
        {0x65735546, NULL, NULL},
        {0x65735546, "fuseblk", NULL},
        {0x65735546, "fuse.sshfs", "sshfs"},
        {0x65735546, "fuse.rclone", "rclone"},
        {0x65735546, "fuse.fuse-overlayfs", NULL},
    };
    for (size_t i = 0; i < sizeof places / sizeof *places; i++) {
        const char *network = place_network(places[i].magic, places[i].type);
        if (places[i].network ? !text_is(network, places[i].network) : network != NULL)
            fail_msg("%lx %s: %s", places[i].magic, places[i].type ? places[i].type : "",
                     network ? network : "local");
    }
    struct fail f = {0};
    assert_false(place_is_local("/no/such/folder", &f));
}

static int set_up(void **state)
{
    *state = world_open();
    return 0;
}

static int tear_down(void **state)
{
    world_close(*state);
    return 0;
}

#define IN_A_WORLD(test) cmocka_unit_test_setup_teardown(test, set_up, tear_down)

int main(void)
{
    const struct CMUnitTest tests[] = {
        IN_A_WORLD(a_new_garage_is_whole_and_private),
        IN_A_WORLD(an_empty_folder_is_taken),
        IN_A_WORLD(what_is_there_already_is_left_alone),
        cmocka_unit_test(what_cannot_be_opened_says_so),
        IN_A_WORLD(a_folder_for_reading_only),
        IN_A_WORLD(a_reader_sees_one_state),
        IN_A_WORLD(network_folders_are_known),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
