#include "garage/file.h"

#include "garage/journal.h"
#include "garage/place.h"

#include <assert.h>
#include <errno.h>
#include <fcntl.h>
#include <sodium.h>
#include <stdlib.h>
#include <string.h>
#include <sys/file.h>
#include <unistd.h>

enum { HELD_MOST = 65536 };

struct file_new {
    const char *dir, *folder;
    char *temporary;
    char *final;  /* its name holds the digest once it is sealed */
    int lock, fd; /* -1: closed */
    bool kept;
    size_t size;
    char *held; /* bytes that are not written yet: they come in small pieces */
    size_t n_held;
    crypto_hash_sha256_state state;
    char digest[FILE_DIGITS + 1];
};

static bool file_fail(const struct file_new *n, struct fail *f)
{
    const char *remedy = errno == ENOSPC || errno == EDQUOT ? "free some space and try again"
                         : errno == ENOENT                  ? "make an empty folder files/ there"
                                           : "check who owns the folder, and the disk";
    return fail_set(f, FAIL_GARAGE, "%s: a file cannot be stored: %s; %s", n->dir, strerror(errno),
                    remedy);
}

bool file_is_digest(const char *word)
{
    return strlen(word) == FILE_DIGITS && strspn(word, "0123456789abcdef") == FILE_DIGITS;
}

const char *file_path(struct arena *a, const char *dir, const char *digest)
{
    assert(file_is_digest(digest));
    return arena_print(a, "%s/files/%s", dir, digest);
}

bool file_begin(struct arena *a, const char *dir, struct file_new **out, struct fail *f)
{
    struct file_new *n = ARENA_NEW(a, struct file_new);
    n->dir = arena_copy(a, dir);
    n->folder = arena_print(a, "%s/files", dir);
    n->final = arena_print(a, "%s/%0*d", n->folder, FILE_DIGITS, 0); /* room for the digest */
    n->temporary = arena_print(a, "%s/.new-XXXXXX", n->folder);
    n->held = ARENA_ARRAY(a, char, HELD_MOST);
    n->fd = -1;
    n->lock = open(n->folder, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    if (n->lock >= 0 && flock(n->lock, LOCK_SH) == 0) n->fd = mkstemp(n->temporary); /* 0600 */
    if (n->fd < 0) {
        file_fail(n, f);
        if (n->lock >= 0) close(n->lock);
        return false;
    }
    crypto_hash_sha256_init(&n->state);
    *out = n;
    return true;
}

static bool write_held(struct file_new *n, struct fail *f)
{
    crypto_hash_sha256_update(&n->state, (const unsigned char *)n->held, n->n_held);
    for (size_t at = 0; at < n->n_held;) {
        ssize_t written = write(n->fd, n->held + at, n->n_held - at);
        if (written < 0 && errno == EINTR) continue;
        if (written < 0) return file_fail(n, f);
        at += (size_t)written;
    }
    n->n_held = 0;
    return true;
}

bool file_write(struct file_new *n, const void *bytes, size_t count, struct fail *f)
{
    assert(n->fd >= 0 && !*n->digest);
    n->size += count;
    for (const char *at = bytes; count > 0;) {
        const size_t room = HELD_MOST - n->n_held, piece = count < room ? count : room;
        memcpy(n->held + n->n_held, at, piece);
        n->n_held += piece;
        at += piece;
        count -= piece;
        if (n->n_held == HELD_MOST && !write_held(n, f)) return false;
    }
    return true;
}

bool file_seal(struct file_new *n, struct fail *f)
{
    unsigned char digest[crypto_hash_sha256_BYTES];
    assert(n->fd >= 0 && !*n->digest);
    if (!write_held(n, f)) return false;
    if (fsync(n->fd) != 0) return file_fail(n, f);
    crypto_hash_sha256_final(&n->state, digest);
    journal_hex(n->digest, digest, sizeof digest);
    memcpy(n->final + strlen(n->folder) + 1, n->digest, FILE_DIGITS);
    return true;
}

bool file_keep(struct file_new *n, struct fail *f)
{
    assert(*n->digest && !n->kept);
    if (rename(n->temporary, n->final) != 0) return file_fail(n, f);
    n->kept = true; /* though the folder may not be on the disk: then no record follows */
    return place_sync(n->folder) || file_fail(n, f);
}

void file_close(struct file_new *n)
{
    if (!n || n->fd < 0) return;
    if (!n->kept) unlink(n->temporary);
    close(n->fd);
    close(n->lock);
    n->fd = n->lock = -1;
}

size_t file_size(const struct file_new *n)
{
    return n->size;
}

const char *file_digest(const struct file_new *n)
{
    assert(*n->digest);
    return n->digest;
}

int file_reader(const struct file_new *n)
{
    return open(n->kept ? n->final : n->temporary, O_RDONLY | O_CLOEXEC);
}
