#include "face/show/photograph.h"

#include "face/show/photo_child.h"

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

/* ---- copies, in a folder of their own within the cache ---- */

static const char *const suffixes[] = {
    [PHOTOGRAPH_COPY] = "copy", [PHOTOGRAPH_THUMBNAIL] = "thumb"};
enum { SIZES = sizeof suffixes / sizeof *suffixes };

struct copies {
    const char *dir;
    int lock; /* one picture at a time: a large one takes memory */
    char *temporary[SIZES];
    int fd[SIZES];
};

static const char *copy_path(struct arena *a, const char *dir, const char *digest,
                             enum photograph_size size)
{
    return arena_print(a, "%s/cache/photographs/%s.%s.jpg", dir, digest, suffixes[size]);
}

static bool copies_begin(struct arena *a, const char *dir, struct copies *c, struct fail *f)
{
    const char *cache = arena_print(a, "%s/cache", dir),
               *folder = arena_print(a, "%s/photographs", cache);
    *c = (struct copies){.dir = dir, .fd = {-1, -1}};
    mkdir(cache, 0700); /* safe to delete, so they may be gone */
    mkdir(folder, 0700);
    c->lock = open(folder, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    bool ok = c->lock >= 0 && flock(c->lock, LOCK_EX) == 0;
    for (int i = 0; ok && i < SIZES; i++) {
        c->temporary[i] = arena_print(a, "%s/.new-XXXXXX", folder);
        ok = (c->fd[i] = mkstemp(c->temporary[i])) >= 0;
    }
    return ok || fail_set(f, FAIL_GARAGE, "%s: copies of photographs cannot be written there: %s",
                          folder, strerror(errno));
}

static void copies_keep(struct arena *a, struct copies *c, const char *digest)
{
    for (int i = 0; i < SIZES; i++)
        if (rename(c->temporary[i], copy_path(a, c->dir, digest, (enum photograph_size)i)) == 0)
            c->temporary[i] = NULL;
}

static void copies_end(struct copies *c)
{
    for (int i = 0; i < SIZES; i++) {
        if (c->fd[i] < 0) continue;
        close(c->fd[i]);
        if (c->temporary[i]) unlink(c->temporary[i]);
    }
    if (c->lock >= 0) close(c->lock);
}

bool photograph_open(struct arena *a, const char *dir, const char *digest,
                     enum photograph_size size, int *fd, struct fail *f)
{
    const char *path = copy_path(a, dir, digest, size);
    if ((*fd = open(path, O_RDONLY | O_CLOEXEC)) >= 0) return true;
    int picture = open(file_path(a, dir, digest), O_RDONLY | O_CLOEXEC);
    if (picture < 0)
        return fail_set(f, FAIL_INPUT, "there is no photograph with that digest in this garage");
    struct copies c;
    struct photo_facts facts;
    bool ok = copies_begin(a, dir, &c, f);
    /* Another may have made it while we waited. */
    if (ok && (*fd = open(path, O_RDONLY | O_CLOEXEC)) < 0) {
        ok = photo_look(picture, c.fd[PHOTOGRAPH_COPY], c.fd[PHOTOGRAPH_THUMBNAIL], PHOTO_SECONDS,
                        &facts, f);
        if (ok) {
            copies_keep(a, &c, digest);
            *fd = open(path, O_RDONLY | O_CLOEXEC);
            ok = *fd >= 0 || fail_set(f, FAIL_GARAGE, "%s: %s", path, strerror(errno));
        }
    }
    copies_end(&c);
    close(picture);
    return ok;
}

/* ---- taking in ---- */

static bool describe(struct arena *a, struct record *r, const char *digest,
                     const struct photo_facts *facts, struct fail *f)
{
    return record_set(a, r, "file", digest, NULL, f) &&
           record_set(a, r, "type", facts->type, NULL, f) &&
           record_set(a, r, "width", arena_print(a, "%u", facts->width), NULL, f) &&
           record_set(a, r, "height", arena_print(a, "%u", facts->height), NULL, f) &&
           (!*facts->taken || record_get(r, "taken")->set ||
            record_set(a, r, "taken", facts->taken, NULL, f)) &&
           record_valid(r, f);
}

/* The file gets its name last before the commit, so that a refused record leaves none. */
static bool store(struct garage *g, struct file_new *file, struct record *r, struct fail *f)
{
    if (!garage_begin(g, f)) return false;
    if (garage_add(g, r, f) && file_keep(file, f) && garage_commit(g, f)) return true;
    garage_rollback(g);
    return false;
}

bool photograph_take(struct arena *a, struct garage *g, struct file_new *file, const char *called,
                     struct record *r, struct fail *f)
{
    struct copies c;
    struct photo_facts facts;
    struct fail why = {0};
    int picture = file_reader(file);
    if (picture < 0)
        return fail_set(f, FAIL_GARAGE, "%s: cannot be read back: %s", called, strerror(errno));
    bool ok = copies_begin(a, garage_dir(g), &c, f);
    if (ok && !photo_look(picture, c.fd[PHOTOGRAPH_COPY], c.fd[PHOTOGRAPH_THUMBNAIL], PHOTO_SECONDS,
                          &facts, &why))
        ok = why.kind == FAIL_INPUT
                 ? fail_set(f, FAIL_INPUT, "%s is not taken: %s", called, why.text)
                 : fail_set(f, why.kind, "%s", why.text);
    ok = ok && describe(a, r, file_digest(file), &facts, f) && store(g, file, r, f);
    if (ok) copies_keep(a, &c, file_digest(file));
    copies_end(&c);
    close(picture);
    return ok;
}

static bool copy_in(int from, struct file_new *file, const char *path, struct fail *f)
{
    char piece[65536];
    ssize_t n;
    while ((n = read(from, piece, sizeof piece)) > 0) {
        if (file_size(file) + (size_t)n > FILE_BYTES_MOST)
            return fail_set(f, FAIL_INPUT, "%s: is larger than 100 MB; nothing was stored", path);
        if (!file_write(file, piece, (size_t)n, f)) return false;
    }
    return (n == 0 || fail_set(f, FAIL_INPUT, "%s: cannot be read: %s", path, strerror(errno))) &&
           file_seal(file, f);
}

bool photograph_take_path(struct arena *a, struct garage *g, const char *path, struct record *r,
                          struct fail *f)
{
    struct stat st;
    struct file_new *file;
    int from = open(path, O_RDONLY | O_CLOEXEC | O_NONBLOCK); /* a pipe would keep us waiting */
    if (from < 0) return fail_set(f, FAIL_INPUT, "photograph.file: %s: %s", path, strerror(errno));
    bool ok = (fstat(from, &st) == 0 && S_ISREG(st.st_mode)) ||
              fail_set(f, FAIL_INPUT, "photograph.file: %s is no file", path);
    if (ok && (ok = file_begin(a, garage_dir(g), &file, f))) {
        ok = copy_in(from, file, path, f) && photograph_take(a, g, file, path, r, f);
        file_close(file);
    }
    close(from);
    return ok;
}
