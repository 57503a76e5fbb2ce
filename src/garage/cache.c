/* cache.c - reckonings kept for next time. A cache never fails: what cannot be kept is reckoned
 * again, and what does not have its digest (cut short, altered) is as good as not there. */
#include "garage/place.h"
#include "garage/store.h"

#include <assert.h>
#include <dirent.h>
#include <fcntl.h>
#include <sodium.h>
#include <string.h>
#include <sys/stat.h>
#include <time.h>
#include <unistd.h>

enum { DIGEST = crypto_hash_sha256_BYTES };

static const char *cache_path(struct arena *a, const struct garage *g, const char *name)
{
    assert(*name && strspn(name, "0123456789abcdef") == strlen(name));
    return arena_print(a, "%s/cache/%s", g->store.name, name);
}

bool garage_cache_get(struct garage *g, struct arena *a, const char *name, char **data, size_t *n)
{
    struct arena undo = *a;
    int fd = open(cache_path(a, g, name), O_RDONLY | O_CLOEXEC);
    if (fd < 0) return false;
    struct stat st;
    bool ok = fstat(fd, &st) == 0 && st.st_size >= DIGEST;
    if (ok) {
        size_t all = (size_t)st.st_size, got = 0;
        char *bytes = arena_take(a, all + 1, 1);
        for (ssize_t part = 1; got < all && part > 0; got += (size_t)(part > 0 ? part : 0))
            part = read(fd, bytes + got, all - got);
        unsigned char digest[DIGEST];
        *n = all - DIGEST;
        crypto_hash_sha256(digest, (const unsigned char *)bytes, *n);
        ok = got == all && memcmp(digest, bytes + *n, DIGEST) == 0;
        bytes[*n] = '\0';
        *data = bytes;
    }
    close(fd);
    if (!ok) *a = undo;
    return ok;
}

bool garage_cache_has(struct garage *g, struct arena scratch, const char *name)
{
    return access(cache_path(&scratch, g, name), R_OK) == 0;
}

/* A system stamps files by a clock that moves in steps, of 10 ms at most. */
static const int64_t SETTLED_NS = 50 * 1000000;

static int64_t nanoseconds(struct timespec t)
{
    return (int64_t)t.tv_sec * 1000000000 + t.tv_nsec;
}

bool garage_cache_stamp(struct garage *g, struct arena scratch, int64_t *out)
{
    struct stat st;
    struct timespec now;
    *out = 0;
    if (stat(arena_print(&scratch, "%s/cache", g->store.name), &st) != 0) return true;
    clock_gettime(CLOCK_REALTIME, &now);
    *out = nanoseconds(st.st_mtim);
    return nanoseconds(now) - *out > SETTLED_NS;
}

enum { KEPT_MOST = 256, STALE_SECONDS = 24 * 3600 };

/* So that a cache does not grow for ever: once there are too many, the older half goes, and with it
 * what a killed writer left behind. Nobody misses a file of a cache. */
static void cache_sweep(struct arena scratch, const struct garage *g)
{
    const char *folder = arena_print(&scratch, "%s/cache", g->store.name);
    DIR *d = opendir(folder);
    if (!d) return;
    time_t newest = 0, oldest = 0;
    for (int pass = 0; pass < 2; pass++) {
        int count = 0;
        rewinddir(d);
        for (struct dirent *e; (e = readdir(d)) != NULL;) {
            struct stat st;
            if (e->d_name[0] == '.' || fstatat(dirfd(d), e->d_name, &st, AT_SYMLINK_NOFOLLOW) != 0)
                continue;
            if (!S_ISREG(st.st_mode)) continue;
            bool leftover = strchr(e->d_name, '.') != NULL && st.st_mtime < newest - STALE_SECONDS;
            if (pass == 1 && (leftover || st.st_mtime < oldest + (newest - oldest) / 2))
                unlinkat(dirfd(d), e->d_name, 0);
            if (pass == 1) continue;
            count++;
            if (st.st_mtime > newest) newest = st.st_mtime;
            if (oldest == 0 || st.st_mtime < oldest) oldest = st.st_mtime;
        }
        if (pass == 0 && count <= KEPT_MOST) break;
    }
    closedir(d);
}

void garage_cache_put(struct garage *g, const char *name, const char *data, size_t n)
{
    struct arena scratch = g->arena;
    char *bytes = arena_take(&scratch, n + DIGEST, 1);
    memcpy(bytes, data, n);
    crypto_hash_sha256((unsigned char *)bytes + n, (const unsigned char *)data, n);
    const char *path = cache_path(&scratch, g, name);
    mkdir(arena_print(&scratch, "%s/cache", g->store.name),
          0700); /* safe to delete, so it may be gone */
    place_write_file(scratch, path, bytes, n + DIGEST);
    cache_sweep(g->arena, g);
}
