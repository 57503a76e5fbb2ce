#include "library/source.h"

#include "base/text.h"

#include <assert.h>
#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <sodium.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

extern const char embed_trade[], embed_trade_end[];

static void source_add(struct arena *a, struct sources *s, struct source source)
{
    s->at = arena_grow(a, s->at, (size_t)s->count, &s->capacity, sizeof *s->at);
    s->at[s->count++] = source;
}

/* One line of the blob's heading; the blob is our own build's, so a fault in it is a fault of ours.
 */
static const char *blob_line(struct arena *a, const char **at)
{
    const char *end = memchr(*at, '\n', (size_t)(embed_trade_end - *at));
    assert(end);
    char *line = arena_copy_n(a, *at, (size_t)(end - *at));
    *at = end + 1;
    return line;
}

void sources_add_carried(struct arena *a, struct sources *s)
{
    for (const char *at = embed_trade; at < embed_trade_end;) {
        const char *path = blob_line(a, &at);
        int64_t size = -1;
        bool number = text_to_int(blob_line(a, &at), &size);
        assert(number && size >= 0 && size < embed_trade_end - at);
        source_add(a, s, (struct source){path, path, at, (size_t)size, false});
        at += size + 1;
    }
}

/* ---- a folder
 * ------------------------------------------------------------------------------------------ */

struct walk {
    struct arena *arena;
    struct sources *sources;
    const char *dir;
    size_t total;
    bool own;
    crypto_generichash_state *stamp; /* not NULL: only this is wanted */
    struct fail *fail;
};

static void stamp_file(struct walk *w, const char *path, const struct stat *st)
{
    const int64_t what[] = {st->st_size, (int64_t)st->st_ino, st->st_ctim.tv_sec,
                            st->st_ctim.tv_nsec};
    crypto_generichash_update(w->stamp, (const unsigned char *)path, strlen(path) + 1);
    crypto_generichash_update(w->stamp, (const unsigned char *)what, sizeof what);
}

static bool walk_file(struct walk *w, const char *file, const char *path)
{
    int fd = open(file, O_RDONLY | O_NOFOLLOW | O_NONBLOCK | O_CLOEXEC);
    struct stat st;
    if (fd < 0 || fstat(fd, &st) != 0) {
        if (fd >= 0) close(fd);
        return fail_set(w->fail, FAIL_INPUT, "%s: %s; make it readable", file, strerror(errno));
    }
    bool good = S_ISREG(st.st_mode);
    if (good && st.st_size > SOURCE_MAX_BYTES)
        good = fail_set(w->fail, FAIL_INPUT, "%s: over 4 MB; split the file", file);
    w->total += good ? (size_t)st.st_size : 0;
    if (good && w->total > SOURCES_MAX_BYTES)
        good =
            fail_set(w->fail, FAIL_INPUT, "%s: over 16 MB of trade data; take some away", w->dir);
    if (good) {
        size_t size = (size_t)st.st_size, have = 0;
        char *bytes = ARENA_ARRAY(w->arena, char, size + 1);
        ssize_t got = 1;
        while (have < size && (got = read(fd, bytes + have, size - have)) > 0) have += (size_t)got;
        if (got < 0)
            good = fail_set(w->fail, FAIL_INPUT, "%s: %s; make it readable", file, strerror(errno));
        else
            source_add(w->arena, w->sources, (struct source){file, path, bytes, have, w->own});
    }
    close(fd);
    return good || w->fail->kind == FAIL_NONE;
}

static bool is_yaml(const char *name)
{
    size_t n = strlen(name);
    return n > 5 && strcmp(name + n - 5, ".yaml") == 0;
}

static bool walk_folder(struct walk *w, const char *below, int depth)
{
    const char *folder = *below ? arena_print(w->arena, "%s/%s", w->dir, below) : w->dir;
    DIR *d = opendir(folder);
    if (!d)
        return fail_set(w->fail, FAIL_INPUT, "%s: %s; make it readable", folder, strerror(errno));
    bool good = true;
    for (struct dirent *e; good && (e = readdir(d));) {
        if (e->d_name[0] == '.') continue;
        const char *file = arena_print(w->arena, "%s/%s", folder, e->d_name);
        const char *path = arena_print(w->arena, "%s%s%s", below, *below ? "/" : "", e->d_name);
        struct stat st;
        if (lstat(file, &st) != 0) continue;
        if (S_ISDIR(st.st_mode))
            good = depth < SOURCES_MAX_DEPTH
                       ? walk_folder(w, path, depth + 1)
                       : fail_set(w->fail, FAIL_INPUT, "%s: folders nested too deep; move it up",
                                  file);
        else if (S_ISREG(st.st_mode) && is_yaml(e->d_name) && w->stamp)
            stamp_file(w, path, &st);
        else if (S_ISREG(st.st_mode) && is_yaml(e->d_name))
            good = walk_file(w, file, path);
    }
    closedir(d);
    return good;
}

static int by_path(const void *a, const void *b)
{
    return strcmp(((const struct source *)a)->path, ((const struct source *)b)->path);
}

bool sources_add_dir(struct arena *a, struct sources *s, const char *dir, bool own, bool may_lack,
                     struct fail *f)
{
    struct stat st;
    if (stat(dir, &st) != 0) {
        if (errno == ENOENT && may_lack) return true;
        return fail_set(f, FAIL_INPUT, "%s: %s; name a folder of trade data", dir, strerror(errno));
    }
    struct fail walking = {0};
    struct walk w = {.arena = a, .sources = s, .dir = dir, .own = own, .fail = &walking};
    int before = s->count;
    if (!walk_folder(&w, "", 1)) return fail_set(f, walking.kind, "%s", walking.text);
    if (s->count > before)
        qsort(s->at + before, (size_t)(s->count - before), sizeof *s->at, by_path);
    return true;
}

/* In the order in which the folder lists its files: if that changes alone, they are read once more
 * for nothing. */
void sources_stamp(struct arena scratch, const char *dir, unsigned char stamp[32])
{
    struct fail walking = {0};
    crypto_generichash_state state;
    struct walk w = {.arena = &scratch, .dir = dir, .stamp = &state, .fail = &walking};
    crypto_generichash_init(&state, NULL, 0, 32);
    if (dir && access(dir, F_OK) == 0 && !walk_folder(&w, "", 1))
        crypto_generichash_update(&state, (const unsigned char *)walking.text,
                                  strlen(walking.text));
    crypto_generichash_final(&state, stamp, 32);
}

void sources_digest(const struct sources *s, char hex[65])
{
    crypto_hash_sha256_state state;
    crypto_hash_sha256_init(&state);
    for (int i = 0; i < s->count; i++) {
        const struct source *x = &s->at[i];
        char size[32];
        int n = snprintf(size, sizeof size, "\n%zu\n%s\n", x->size, x->own ? "own" : "carried");
        crypto_hash_sha256_update(&state, (const unsigned char *)x->path, strlen(x->path));
        crypto_hash_sha256_update(&state, (const unsigned char *)size, (unsigned long long)n);
        crypto_hash_sha256_update(&state, (const unsigned char *)x->bytes, x->size);
    }
    unsigned char hash[crypto_hash_sha256_BYTES];
    crypto_hash_sha256_final(&state, hash);
    sodium_bin2hex(hex, 65, hash, sizeof hash);
}
