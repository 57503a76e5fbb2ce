/* Power cuts and full disks. A file system of our own stands between SQLite and the disk: it
 * remembers what was written since each file's last sync, and can lose any of it, whole or by
 * 512-byte sectors; or it can refuse the Nth write. After a power cut at any write the garage must
 * open, verify, and hold every act that was reported done (and at most the one that was on its
 * way). A refused write must leave the facts as they were. */
#include "world.h"

#include "garage/store.h"

#include <dirent.h>
#include <fcntl.h>
#include <sys/stat.h>

enum { SECTOR = 512, FILES = 4 };

/* A write since the last sync; bytes NULL: the file was cut to `offset`. */
struct pending {
    struct pending *next;
    char *bytes;
    size_t n;
    off_t offset;
};

struct image { /* a file as it is on the platters */
    char name[32];
    bool there, ghost; /* ghost: deleted, but the folder was not synced: it may come back */
    char *bytes;
    size_t size, room;
    struct pending *first, *last;
};

static struct {
    sqlite3_vfs vfs, *real;
    char root[64]; /* only files below are watched */
    struct image images[FILES];
    void (*at_point)(void);                     /* called before each write, cut, sync and delete */
    int fail_write_at, fail_sync_at, fail_code; /* count down; 1: fail now and from now on */
} disk;

struct file {
    sqlite3_file base;
    struct image *image; /* NULL: not watched */
    sqlite3_file *real;
};

/* ---- the platters ---- */

static void grow(struct image *m, size_t size)
{
    if (size <= m->size) return;
    if (size > m->room) {
        m->room = 2 * size;
        m->bytes = realloc(m->bytes, m->room);
        assert_non_null(m->bytes);
    }
    memset(m->bytes + m->size, 0, size - m->size);
    m->size = size;
}

static void put(struct image *m, const char *bytes, size_t n, size_t offset)
{
    grow(m, offset + n);
    memcpy(m->bytes + offset, bytes, n);
}

static void forget_pending(struct image *m)
{
    for (struct pending *p = m->first, *next; p; p = next) {
        next = p->next;
        free(p->bytes);
        free(p);
    }
    m->first = m->last = NULL;
}

static void add_pending(struct image *m, const char *bytes, size_t n, off_t offset)
{
    struct pending *p = calloc(1, sizeof *p);
    assert_non_null(p);
    p->n = n;
    p->offset = offset;
    if (bytes) {
        p->bytes = malloc(n);
        assert_non_null(p->bytes);
        memcpy(p->bytes, bytes, n);
    }
    if (m->last)
        m->last->next = p;
    else
        m->first = p;
    m->last = p;
}

static uint64_t dice = 1;
static unsigned roll(unsigned sides)
{
    dice = dice * 6364136223846793005u + 1442695040888963407u;
    return (unsigned)(dice >> 33) % sides;
}

enum loss { LOSE_ALL, LOSE_NONE, LOSE_SOME, LOSE_SECTORS, LOSSES };

/* Does what reached the platters by luck. */
static void settle(struct image *m, enum loss loss)
{
    for (const struct pending *p = m->first; p; p = p->next) {
        if (loss == LOSE_ALL || (loss == LOSE_SOME && roll(2))) continue;
        if (!p->bytes) {
            if ((size_t)p->offset < m->size) m->size = (size_t)p->offset;
            continue;
        }
        for (size_t at = 0; at < p->n;) {
            size_t part = SECTOR - ((size_t)p->offset + at) % SECTOR;
            if (part > p->n - at) part = p->n - at;
            if (loss != LOSE_SECTORS || roll(2))
                put(m, p->bytes + at, part, (size_t)p->offset + at);
            at += part;
        }
    }
}

/* Writes into `dir` what a power cut now would leave. */
static void cut_power(const char *dir, enum loss loss)
{
    for (int i = 0; i < FILES; i++) {
        struct image *m = &disk.images[i];
        char path[160];
        snprintf(path, sizeof path, "%s/%s", dir, m->name);
        if (!*m->name) continue;
        unlink(path);
        if (!m->there && !(m->ghost && roll(2))) continue;
        struct image left = *m;
        left.room = m->size + 1;
        left.bytes = malloc(left.room);
        assert_non_null(left.bytes);
        if (m->size) memcpy(left.bytes, m->bytes, m->size);
        settle(&left, loss);
        int fd = open(path, O_WRONLY | O_CREAT | O_TRUNC, 0600);
        assert_true(fd >= 0 && write(fd, left.bytes, left.size) == (ssize_t)left.size);
        close(fd);
        free(left.bytes);
    }
}

static struct image *image_of(const char *path)
{
    if (strncmp(path, disk.root, strlen(disk.root)) != 0) return NULL;
    const char *name = strrchr(path, '/') + 1;
    for (int i = 0; i < FILES; i++) {
        struct image *m = &disk.images[i];
        if (!*m->name) snprintf(m->name, sizeof m->name, "%s", name);
        if (strcmp(m->name, name) == 0) return m;
    }
    return NULL;
}

static void disk_reset(const char *root)
{
    for (int i = 0; i < FILES; i++) {
        forget_pending(&disk.images[i]);
        free(disk.images[i].bytes);
        disk.images[i] = (struct image){0};
    }
    snprintf(disk.root, sizeof disk.root, "%s", root);
    disk.at_point = NULL;
    disk.fail_write_at = disk.fail_sync_at = 0;
}

/* ---- between SQLite and the real file system ---- */

static void point(const struct file *f)
{
    if (f->image && disk.at_point) disk.at_point();
}

static bool refused(const struct file *f, int *countdown)
{
    if (!f->image || !*countdown) return false;
    if (*countdown > 1) {
        --*countdown;
        return false;
    }
    return true;
}

static struct file *of(sqlite3_file *f)
{
    return (struct file *)(void *)f;
}
static int file_close(sqlite3_file *f)
{
    return of(f)->real->pMethods->xClose(of(f)->real);
}
static int file_read(sqlite3_file *f, void *out, int n, sqlite3_int64 at)
{
    return of(f)->real->pMethods->xRead(of(f)->real, out, n, at);
}
static int file_write(sqlite3_file *f, const void *bytes, int n, sqlite3_int64 at)
{
    point(of(f));
    if (refused(of(f), &disk.fail_write_at)) return disk.fail_code;
    if (of(f)->image) add_pending(of(f)->image, bytes, (size_t)n, (off_t)at);
    return of(f)->real->pMethods->xWrite(of(f)->real, bytes, n, at);
}
static int file_truncate(sqlite3_file *f, sqlite3_int64 size)
{
    point(of(f));
    if (of(f)->image) add_pending(of(f)->image, NULL, 0, (off_t)size);
    return of(f)->real->pMethods->xTruncate(of(f)->real, size);
}
static int file_sync(sqlite3_file *f, int flags)
{
    (void)flags;
    point(of(f));
    if (refused(of(f), &disk.fail_sync_at)) return SQLITE_IOERR_FSYNC;
    if (!of(f)->image) return SQLITE_OK;
    settle(of(f)->image, LOSE_NONE); /* the real disk need not be bothered */
    forget_pending(of(f)->image);
    return SQLITE_OK;
}
static int file_size(sqlite3_file *f, sqlite3_int64 *size)
{
    return of(f)->real->pMethods->xFileSize(of(f)->real, size);
}
static int file_lock(sqlite3_file *f, int level)
{
    return of(f)->real->pMethods->xLock(of(f)->real, level);
}
static int file_unlock(sqlite3_file *f, int level)
{
    return of(f)->real->pMethods->xUnlock(of(f)->real, level);
}
static int file_reserved(sqlite3_file *f, int *out)
{
    return of(f)->real->pMethods->xCheckReservedLock(of(f)->real, out);
}
static int file_control(sqlite3_file *f, int what, void *arg)
{
    return of(f)->real->pMethods->xFileControl(of(f)->real, what, arg);
}
static int file_sector(sqlite3_file *f)
{
    return of(f)->real->pMethods->xSectorSize(of(f)->real);
}
static int file_device(sqlite3_file *f)
{
    return of(f)->real->pMethods->xDeviceCharacteristics(of(f)->real);
}
static int file_shm_map(sqlite3_file *f, int page, int size, int extend, void volatile **out)
{
    return of(f)->real->pMethods->xShmMap(of(f)->real, page, size, extend, out);
}
static int file_shm_lock(sqlite3_file *f, int at, int n, int flags)
{
    return of(f)->real->pMethods->xShmLock(of(f)->real, at, n, flags);
}
static void file_shm_barrier(sqlite3_file *f)
{
    of(f)->real->pMethods->xShmBarrier(of(f)->real);
}
static int file_shm_unmap(sqlite3_file *f, int delete)
{
    return of(f)->real->pMethods->xShmUnmap(of(f)->real, delete);
}

static const sqlite3_io_methods methods = {
    .iVersion = 2,
    .xClose = file_close,
    .xRead = file_read,
    .xWrite = file_write,
    .xTruncate = file_truncate,
    .xSync = file_sync,
    .xFileSize = file_size,
    .xLock = file_lock,
    .xUnlock = file_unlock,
    .xCheckReservedLock = file_reserved,
    .xFileControl = file_control,
    .xSectorSize = file_sector,
    .xDeviceCharacteristics = file_device,
    .xShmMap = file_shm_map,
    .xShmLock = file_shm_lock,
    .xShmBarrier = file_shm_barrier,
    .xShmUnmap = file_shm_unmap,
};

static int disk_open(sqlite3_vfs *vfs, const char *name, sqlite3_file *out, int flags,
                     int *out_flags)
{
    struct file *f = of(out);
    (void)vfs;
    f->base.pMethods = NULL;
    f->real = (sqlite3_file *)(void *)(f + 1);
    f->image = name ? image_of(name) : NULL;
    int code = disk.real->xOpen(disk.real, name, f->real, flags, out_flags);
    if (code != SQLITE_OK) return code;
    f->base.pMethods = &methods;
    struct image *m = f->image;
    if (m && !m->there) {
        sqlite3_int64 size = 0;
        *m = (struct image){.there = true, .bytes = m->bytes};
        snprintf(m->name, sizeof m->name, "%s", strrchr(name, '/') + 1);
        file_size(out, &size); /* what was there before the test began counts as durable */
        if (size) {
            grow(m, (size_t)size);
            file_read(out, m->bytes, (int)size, 0);
        }
    }
    return SQLITE_OK;
}

static int disk_delete(sqlite3_vfs *vfs, const char *name, int sync_folder)
{
    (void)vfs;
    struct image *m = image_of(name);
    if (m && disk.at_point) disk.at_point();
    int code = disk.real->xDelete(disk.real, name, sync_folder);
    if (m && m->there && code == SQLITE_OK) {
        settle(m, LOSE_NONE);
        forget_pending(m);
        m->there = false;
        m->ghost = !sync_folder;
    }
    return code;
}

static void disk_install(void)
{
    disk.real = sqlite3_vfs_find(NULL);
    disk.vfs = *disk.real; /* what is not replaced works on names and asks the real one's context */
    disk.vfs.pNext = NULL;
    disk.vfs.zName = "test-disk";
    disk.vfs.szOsFile = (int)sizeof(struct file) + disk.real->szOsFile;
    disk.vfs.xOpen = disk_open;
    disk.vfs.xDelete = disk_delete;
    assert_int_equal(sqlite3_vfs_register(&disk.vfs, 1), SQLITE_OK);
}

/* ---- power cuts ---- */

static struct {
    struct world *w;
    char dir[80]; /* what a cut leaves is looked at here */
    char done[65],
        ahead[65]; /* basis after the last act reported done; of the act on its way, once seen */
    int moments, points, kept_early;
} cuts;

static void look_after_cut(enum loss loss)
{
    struct arena scratch = cuts.w->arena;
    struct fail f = {0};
    struct garage *g;
    char basis[65];
    int entries, faults;
    cut_power(cuts.dir, loss);
    if (!garage_open(&scratch, cuts.dir, GARAGE_WRITE, &cuts.w->source, &g, &f))
        fail_msg("cut %d: %s", cuts.points, f.text);
    struct text report = {.arena = &scratch};
    assert_true(garage_check(g, &report, &entries, &faults, &f));
    if (faults) fail_msg("cut %d: %s", cuts.points, text_get(&report));
    assert_true(garage_basis(g, basis, &f));
    if (!text_is(basis, cuts.done)) {
        if (*cuts.ahead && !text_is(basis, cuts.ahead))
            fail_msg("cut %d: neither the last act's facts nor the next one's", cuts.points);
        memcpy(cuts.ahead, basis, sizeof basis);
        cuts.kept_early++;
    }
    garage_close(g);
    cuts.points++;
}

/* Of the moments at which power could be cut, and of the writes of a garage in the making that
 * could be refused, every so manieth is tried: the argument; 1: each. */
static int step = 7;

static void at_point(void)
{
    if (cuts.moments++ % step) return;
    void (*again)(void) = disk.at_point;
    disk.at_point = NULL;
    look_after_cut((enum loss)(cuts.points % LOSSES));
    disk.at_point = again;
}

static void act_done(void)
{
    char basis[65];
    assert_true(garage_basis(cuts.w->garage, basis, &cuts.w->fail));
    if (*cuts.ahead && !text_is(basis, cuts.ahead)) fail_msg("a cut kept facts that no act wrote");
    memcpy(cuts.done, basis, sizeof basis);
    cuts.ahead[0] = '\0';
}

static void acts_outlive_power_cuts(void **state)
{
    struct world *w = *state;
    struct record *v;
    char command[300];
    const char *what;
    cuts.w = w;
    snprintf(cuts.dir, sizeof cuts.dir, "/tmp/fettle-cut-XXXXXX");
    assert_non_null(mkdtemp(cuts.dir));
    snprintf(command, sizeof command, "mkdir %s/files", cuts.dir);
    assert_int_equal(system(command), 0);
    world_garage(w);
    v = world_add(w, world_record(w, "vehicle", "name=A", NULL));
    garage_close(w->garage);

    disk_reset(w->root);
    world_garage(w);
    sqlite3_wal_autocheckpoint(w->garage->store.db,
                               25); /* so that the log is carried over and begun anew often */
    act_done();
    disk.at_point = at_point;
    for (int i = 0; i < 24; i++) {
        struct arena keep = w->arena;
        char component[40];
        snprintf(component, sizeof component, "component=c%d", i);
        struct record *d =
            world_record(w, "finding", "vehicle=A", component, "condition=worn", NULL);
        if (i % 5 == 4) {
            assert_true(garage_undo(w->garage, &w->arena, v->id, &what, &w->fail));
        } else if (i % 5 == 3) {
            assert_true(
                garage_begin(w->garage, &w->fail) && garage_add(w->garage, d, &w->fail) &&
                garage_add(w->garage, world_record(w, "purse", "a-month=100", NULL), &w->fail) &&
                garage_commit(w->garage, &w->fail));
        } else {
            world_add(w, d);
        }
        act_done();
        if (i % 8 == 7) { /* the last to close carries the log over and deletes it */
            garage_close(w->garage);
            world_garage(w);
            sqlite3_wal_autocheckpoint(w->garage->store.db, 25);
        } else {
            w->arena = keep;
        }
    }
    disk.at_point = NULL;
    print_message("%d power cuts; in %d of them the act on its way was kept\n", cuts.points,
                  cuts.kept_early);
    assert_true(cuts.points > 200 / step);
    assert_true(cuts.kept_early > 0);
    assert_int_equal(world_faults(w, NULL), 0);
    snprintf(command, sizeof command, "rm -r %s", cuts.dir);
    assert_int_equal(system(command), 0);
}

/* ---- refused writes ---- */

static bool add_three(struct world *w, struct fail *f)
{
    bool ok = garage_begin(w->garage, f);
    for (int i = 0; ok && i < 3; i++)
        ok = garage_add(
            w->garage,
            world_record(w, "finding", "vehicle=A", "component=x", "condition=worn", NULL), f);
    if (ok) return garage_commit(w->garage, f);
    garage_rollback(w->garage);
    return false;
}

static const struct {
    int code;
    bool sync;
    const char *says;
} refusals[] = {
    {SQLITE_FULL, false, "the disk is full; nothing was changed"},
    {SQLITE_IOERR_WRITE, false, "the disk failed"},
    {SQLITE_IOERR_FSYNC, true, "the disk failed"},
};

static void a_refused_write_changes_nothing(void **state)
{
    struct world *w = *state;
    disk_reset(w->root);
    world_garage(w);
    sqlite3_wal_autocheckpoint(w->garage->store.db, 25);
    world_add(w, world_record(w, "vehicle", "name=A", NULL));
    int there = 0, refused_acts = 0;
    for (size_t k = 0; k < sizeof refusals / sizeof *refusals; k++)
        for (int n = 1, through = 0; !through; n++) {
            struct fail f = {0};
            int *countdown = refusals[k].sync ? &disk.fail_sync_at : &disk.fail_write_at;
            disk.fail_code = refusals[k].code;
            *countdown = n;
            bool ok = add_three(w, &f);
            through = *countdown > 1; /* the act needed fewer than n */
            *countdown = 0;
            if (ok) {
                there += 3;
            } else {
                refused_acts++;
                assert_int_equal(f.kind, FAIL_GARAGE);
                if (!strstr(f.text, refusals[k].says))
                    fail_msg("'%s' does not say '%s'", f.text, refusals[k].says);
            }
            assert_int_equal(world_count(w, "finding", NULL), there);
            f = (struct fail){0};
            if (!add_three(w, &f)) fail_msg("after a refused write: %s", f.text);
            there += 3;
        }
    const char *report;
    if (world_faults(w, &report)) fail_msg("%s", report);
    print_message("%d acts refused at the Nth write or sync, none in part\n", refused_acts);
    assert_true(refused_acts > 10);
}

static void a_garage_is_made_whole_or_not_at_all(void **state)
{
    struct world *w = *state;
    int refused_makings = 0;
    for (size_t k = 0; k < sizeof refusals / sizeof *refusals; k++)
        for (int n = 1, through = 0; !through; n += step) {
            struct fail f = {0};
            char command[200];
            disk_reset(w->root);
            int *countdown = refusals[k].sync ? &disk.fail_sync_at : &disk.fail_write_at;
            disk.fail_code = refusals[k].code;
            *countdown = n;
            bool ok = garage_create(w->dir, NULL, NULL, &f);
            through = *countdown > 1;
            *countdown = 0;
            DIR *d = opendir(w->root);
            int entries = -2;
            while (readdir(d)) entries++;
            closedir(d);
            assert_int_equal(entries, ok); /* the garage, or nothing */
            if (ok) {
                assert_true(
                    garage_open(&w->arena, w->dir, GARAGE_WRITE, &w->source, &w->garage, &f));
                assert_int_equal(world_faults(w, NULL), 0);
                garage_close(w->garage);
                w->garage = NULL;
                snprintf(command, sizeof command, "rm -r %s", w->dir);
                assert_int_equal(system(command), 0);
            } else {
                refused_makings++;
                assert_int_equal(f.kind, FAIL_GARAGE);
            }
        }
    print_message("%d makings refused, nothing left behind\n", refused_makings);
    assert_true(refused_makings > 200 / step);
}

static int set_up(void **state)
{
    *state = world_open();
    return 0;
}

static int tear_down(void **state)
{
    disk_reset("/nowhere");
    world_close(*state);
    return 0;
}

#define IN_A_WORLD(test) cmocka_unit_test_setup_teardown(test, set_up, tear_down)

int main(int argc, char **argv)
{
    if (argc > 1) step = atoi(argv[1]);
    assert_true(step > 0);
    const struct CMUnitTest tests[] = {
        IN_A_WORLD(acts_outlive_power_cuts),
        IN_A_WORLD(a_refused_write_changes_nothing),
        IN_A_WORLD(a_garage_is_made_whole_or_not_at_all),
    };
    disk_install();
    return cmocka_run_group_tests(tests, NULL, NULL);
}
