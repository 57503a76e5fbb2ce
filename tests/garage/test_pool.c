/* Garages kept open: the same again while nothing happened, and never an old state: acts of others,
 * also of other processes, a database put in the old one's place, written over or taken away. */
#include "world.h"

#include "garage/pool.h"
#include "garage/store.h"

#include <fcntl.h>
#include <pthread.h>
#include <sys/prctl.h>
#include <sys/stat.h>
#include <sys/wait.h>

struct state {
    struct world *w;
    struct garage_pool *pool;
};

static int begin(void **state)
{
    struct state *s = calloc(1, sizeof *s);
    s->w = world_open();
    s->pool = garage_pool_open(s->w->dir);
    *state = s;
    return 0;
}

static int end(void **state)
{
    struct state *s = *state;
    garage_pool_close(s->pool);
    world_close(s->w);
    free(s);
    return 0;
}

static struct garage *take(struct state *s, enum garage_mode mode)
{
    struct garage *g;
    struct fail f = {0};
    if (!garage_pool_take(s->pool, mode, &g, &f)) fail_msg("%s", f.text);
    return g;
}

static struct garage *take_reader(struct state *s)
{
    return take(s, GARAGE_READ);
}

static const char *basis(struct state *s, struct garage *g)
{
    char hex[65];
    if (!garage_basis(g, hex, &s->w->fail)) fail_msg("%s", s->w->fail.text);
    return arena_copy(&s->w->arena, hex);
}

/* Of the vehicles, "Wren, Linnet": all that is asked here of the facts. */
static const char *names(struct state *s, struct garage *g)
{
    struct record *list;
    struct text t = {.arena = &s->w->arena};
    int n;
    if (!garage_list(g, &s->w->arena, record_kind_find("vehicle"), NULL, &list, &n, &s->w->fail))
        fail_msg("%s", s->w->fail.text);
    for (int i = 0; i < n; i++)
        text_print(&t, "%s%s", i ? ", " : "", record_text(&list[i], "name", ""));
    return text_get(&t);
}

/* The same by one that is put back at once, told with its basis. */
static const char *names_now(struct state *s, const char **digest)
{
    struct garage *g = take_reader(s);
    const char *out = names(s, g);
    if (digest) *digest = basis(s, g);
    garage_pool_put_back(s->pool, g);
    return out;
}

static void add(struct world *w, const char *name)
{
    world_add(w, world_record(w, "vehicle", arena_print(&w->arena, "name=%s", name), NULL));
}

static void command(struct state *s, const char *format, const char *one, const char *two)
{
    char *line = arena_print(&s->w->arena, "%s %s %s", format, one, two);
    assert_int_equal(system(line), 0);
}

static void the_last_is_taken_again(void **state)
{
    struct state *s = *state;
    world_garage(s->w);
    struct garage *a = take_reader(s), *b = take_reader(s);
    assert_ptr_not_equal(a, b);
    garage_pool_put_back(s->pool, b);
    garage_pool_put_back(s->pool, a);
    assert_ptr_equal(take_reader(s), a);
    assert_ptr_equal(take_reader(s), b);
    garage_pool_put_back(s->pool, b);
    garage_pool_put_back(s->pool, a);
}

static void an_act_left_open_ends(void **state)
{
    struct state *s = *state;
    world_garage(s->w);
    struct garage *g = take_reader(s);
    assert_true(garage_begin(g, &s->w->fail));
    assert_string_equal(names(s, g), "");
    add(s->w, "Wren");
    assert_string_equal(names(s, g), ""); /* one state within an act */
    garage_pool_put_back(s->pool, g);
    assert_string_equal(names_now(s, NULL), "Wren");
}

static void the_basis_within_an_act_is_the_act_s(void **state)
{
    struct state *s = *state;
    world_garage(s->w);
    add(s->w, "Wren");
    struct garage *g = take_reader(s);
    const char *before = basis(s, g);
    assert_true(garage_begin(g, &s->w->fail));
    assert_string_equal(basis(s, g), before);
    add(s->w, "Linnet");
    assert_string_equal(basis(s, g), before);
    garage_rollback(g);
    assert_string_not_equal(basis(s, g), before);
    assert_string_equal(basis(s, g), basis(s, s->w->garage));
    garage_pool_put_back(s->pool, g);
}

static void a_writer_is_not_kept(void **state)
{
    struct state *s = *state;
    const char *before, *after;
    world_garage(s->w);
    names_now(s, &before);
    struct garage *g = take(s, GARAGE_WRITE), *mine = s->w->garage;
    s->w->garage = g;
    add(s->w, "Wren");
    s->w->garage = mine;
    garage_pool_put_back(s->pool, g);
    assert_string_equal(names_now(s, &after), "Wren");
    assert_string_not_equal(after, before);
    g = take_reader(s);
    assert_int_equal(g->mode, GARAGE_READ);
    garage_pool_put_back(s->pool, g);
}

/* The other process is there before anything is opened: SQLite is not to be carried over a fork. */
static void another_process_is_heard(void **state)
{
    struct state *s = *state;
    int go[2], told[2], status;
    char c;
    const char *digest[3];
    assert_true(pipe(go) == 0 && pipe(told) == 0);
    pid_t child = fork();
    if (child == 0) {
        close(go[1]); /* so that it ends with the parent */
        for (int i = 0; i < 2 && read(go[0], &c, 1) == 1; i++) {
            struct fail f = {0};
            struct garage *g;
            struct record *r = world_record(s->w, "vehicle", i ? "name=Linnet" : "name=Wren", NULL);
            if (!garage_open(&s->w->arena, s->w->dir, GARAGE_WRITE, NULL, &g, &f) ||
                !garage_begin(g, &f) || !garage_add(g, r, &f) || !garage_commit(g, &f))
                _exit(1);
            garage_close(g);
            if (write(told[1], "x", 1) != 1) _exit(1);
        }
        _exit(0);
    }
    world_garage(s->w);
    garage_close(s->w->garage); /* only the pool keeps it open */
    s->w->garage = NULL;
    static const char *const expect[] = {"", "Wren", "Wren, Linnet"};
    for (int i = 0; i < 3; i++) {
        assert_string_equal(names_now(s, &digest[i]), expect[i]);
        if (i > 0) assert_string_not_equal(digest[i], digest[i - 1]);
        if (i < 2) assert_true(write(go[1], "x", 1) == 1 && read(told[0], &c, 1) == 1);
    }
    assert_true(waitpid(child, &status, 0) == child && status == 0);
    for (int i = 0; i < 2; i++) close(go[i]), close(told[i]);
}

/* Another garage's files are moved over it, the last acts still beside the database. */
static void put_in_its_place(void **state)
{
    struct state *s = *state;
    struct world *other = world_open();
    const char *before, *after;
    world_garage(s->w);
    add(s->w, "Wren");
    garage_close(s->w->garage);
    s->w->garage = NULL;
    assert_string_equal(names_now(s, &before), "Wren");
    struct garage *out = take_reader(s);

    world_garage(other);
    add(other, "Linnet");
    command(s, "cp -r", other->dir, arena_print(&s->w->arena, "%s.new", s->w->dir));
    command(s, "mv", s->w->dir, arena_print(&s->w->arena, "%s.old", s->w->dir));
    command(s, "mv", arena_print(&s->w->arena, "%s.new", s->w->dir), s->w->dir);
    assert_string_equal(names(s, out), "Wren"); /* taken before */
    assert_string_equal(names_now(s, &after), "Linnet");
    assert_string_not_equal(after, before);
    garage_pool_put_back(s->pool, out);
    assert_string_equal(names_now(s, NULL), "Linnet");
    world_close(other);
}

/* What is closed for another's having come tidies nothing of the other's away. */
static void the_newcomer_keeps_its_last_acts(void **state)
{
    struct state *s = *state;
    struct world *other = world_open();
    char *wal = arena_print(&s->w->arena, "%s/garage.db-wal", s->w->dir);
    world_garage(s->w);
    add(s->w, "Wren");
    garage_close(s->w->garage);
    s->w->garage = NULL;
    assert_string_equal(names_now(s, NULL), "Wren");
    world_garage(other);
    add(other, "Linnet");
    command(s, "rm", arena_print(&s->w->arena, "%s/garage.db*", s->w->dir), "");
    command(s, "cp", arena_print(&s->w->arena, "%s/garage.db*", other->dir), s->w->dir);
    assert_int_equal(access(wal, F_OK), 0);
    assert_string_equal(names_now(s, NULL), "Linnet");
    assert_int_equal(access(wal, F_OK), 0);
    world_close(other);
}

static void written_over(void **state)
{
    struct state *s = *state;
    char *path = arena_print(&s->w->arena, "%s/garage.db", s->w->dir), *at = NULL;
    world_garage(s->w);
    add(s->w, "Wren");
    garage_close(s->w->garage); /* and all is in the one file */
    s->w->garage = NULL;
    struct garage *g = take_reader(s);
    assert_string_equal(names(s, g), "Wren");
    garage_pool_put_back(s->pool, g);

    int fd = open(path, O_RDWR);
    struct stat st;
    assert_true(fd >= 0 && fstat(fd, &st) == 0);
    char *bytes = ARENA_ARRAY(&s->w->arena, char, st.st_size);
    assert_int_equal(pread(fd, bytes, (size_t)st.st_size, 0), st.st_size);
    for (off_t i = 0; i + 4 <= st.st_size; i++)
        if (memcmp(bytes + i, "Wren", 4) == 0) {
            at = bytes + i;
            assert_int_equal(pwrite(fd, "Wrex", 4, i), 4);
        }
    close(fd);
    assert_non_null(at);
    assert_string_equal(names_now(s, NULL), "Wrex");
}

static void taken_away_and_brought_back(void **state)
{
    struct state *s = *state;
    struct garage *g;
    struct fail f = {0};
    const char *away = arena_print(&s->w->arena, "%s.away", s->w->dir);
    assert_false(garage_pool_take(s->pool, GARAGE_READ, &g, &f));
    assert_non_null(strstr(f.text, "there is no garage"));
    world_garage(s->w);
    add(s->w, "Wren");
    garage_close(s->w->garage);
    s->w->garage = NULL;
    assert_string_equal(names_now(s, NULL), "Wren");
    command(s, "mv", s->w->dir, away);
    assert_false(garage_pool_take(s->pool, GARAGE_READ, &g, &f));
    assert_int_equal(f.kind, FAIL_GARAGE);
    assert_non_null(strstr(f.text, "there is no garage"));
    command(s, "mv", away, s->w->dir);
    assert_string_equal(names_now(s, NULL), "Wren");
}

/* Such a garage sees no change while it is open, so it is not kept. Root may write anywhere, so
 * root becomes nobody for a while. */
static void a_folder_for_reading_only_is_opened_anew(void **state)
{
    struct state *s = *state;
    const bool root = geteuid() == 0;
    world_garage(s->w);
    add(s->w, "Wren");
    garage_close(s->w->garage);
    command(s, "chmod 755", s->w->root, "");
    command(s, "chmod -R a+rX,a-w", s->w->dir, "");
    if (root) assert_int_equal(seteuid(65534), 0);
    const char *then = names_now(s, NULL);
    if (root) assert_int_equal(seteuid(0), 0);
    prctl(PR_SET_DUMPABLE, 1); /* lost with the change of user; the leak checker needs it */
    assert_string_equal(then, "Wren");

    command(s, "chmod -R u+w", s->w->dir, "");
    assert_true(garage_open(&s->w->arena, s->w->dir, GARAGE_WRITE, &s->w->source, &s->w->garage,
                            &s->w->fail));
    add(s->w, "Linnet"); /* beside the database, which stays as it is */
    assert_string_equal(names_now(s, NULL), "Wren, Linnet");
}

enum { READERS = 6, ACTS = 40 };

/* What one has seen, the next take by the same thread must not have unseen. */
static void *read_often(void *context)
{
    struct state *s = context;
    struct arena a = arena_open((size_t)1 << 26);
    int most = 0;
    bool good = true;
    for (int i = 0; i < 200 && good; i++) {
        struct arena scratch = a;
        struct garage *g;
        struct fail f = {0};
        struct record *list;
        char hex[65];
        int n;
        good = garage_pool_take(s->pool, GARAGE_READ, &g, &f) && garage_basis(g, hex, &f) &&
               garage_list(g, &scratch, record_kind_find("vehicle"), NULL, &list, &n, &f) &&
               n >= most;
        if (good) most = n;
        garage_pool_put_back(s->pool, g);
    }
    arena_close(&a);
    return good ? s : NULL;
}

static void many_threads(void **state)
{
    struct state *s = *state;
    pthread_t threads[READERS];
    world_garage(s->w);
    for (int i = 0; i < READERS; i++)
        assert_int_equal(pthread_create(&threads[i], NULL, read_often, s), 0);
    for (int i = 0; i < ACTS; i++) add(s->w, arena_print(&s->w->arena, "Wren %d", i));
    for (int i = 0; i < READERS; i++) {
        void *good;
        pthread_join(threads[i], &good);
        assert_non_null(good);
    }
    const char *now;
    names_now(s, &now);
    assert_string_equal(now, basis(s, s->w->garage));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(the_last_is_taken_again, begin, end),
        cmocka_unit_test_setup_teardown(an_act_left_open_ends, begin, end),
        cmocka_unit_test_setup_teardown(the_basis_within_an_act_is_the_act_s, begin, end),
        cmocka_unit_test_setup_teardown(a_writer_is_not_kept, begin, end),
        cmocka_unit_test_setup_teardown(another_process_is_heard, begin, end),
        cmocka_unit_test_setup_teardown(put_in_its_place, begin, end),
        cmocka_unit_test_setup_teardown(the_newcomer_keeps_its_last_acts, begin, end),
        cmocka_unit_test_setup_teardown(written_over, begin, end),
        cmocka_unit_test_setup_teardown(taken_away_and_brought_back, begin, end),
        cmocka_unit_test_setup_teardown(a_folder_for_reading_only_is_opened_anew, begin, end),
        cmocka_unit_test_setup_teardown(many_threads, begin, end),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
