/* sweep.c - files that no entry of the journal speaks of: what a crash left between a file and its
 * record. */
#include "garage/file.h"
#include "garage/store.h"

#include <assert.h>
#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <stdlib.h>
#include <string.h>
#include <sys/file.h>
#include <unistd.h>

static int by_digest(const void *a, const void *b)
{
    return strcmp(*(const char *const *)a, *(const char *const *)b);
}

bool store_files(struct store *s, struct arena *a, const char ***out, int *count, struct fail *f)
{
    static const char sql[] =
        "SELECT DISTINCT file.value FROM journal, json_each(CAST(entry AS TEXT), '$.files') file "
        "WHERE instr(entry, CAST('\"files\":[\"' AS BLOB)) > 0";
    sqlite3_stmt *q;
    bool row, ok;
    size_t n = 0, room = 0;
    const char **list = NULL;
    if (!store_prepare(s, sql, &q, f)) return false;
    while ((ok = store_step(s, q, &row, f)) && row) {
        const char *digest = (const char *)sqlite3_column_text(q, 0);
        if (!digest || !file_is_digest(digest)) continue;
        list = arena_grow(a, list, n, &room, sizeof *list);
        list[n++] = arena_copy(a, digest);
    }
    sqlite3_finalize(q);
    if (n > 1) qsort(list, n, sizeof *list, by_digest);
    *out = list;
    *count = (int)n;
    return ok;
}

static bool is_listed(const char **list, int n, const char *digest)
{
    return n > 0 && bsearch(&digest, list, (size_t)n, sizeof *list, by_digest);
}

/* Only names that we give ourselves; what somebody else put there is not ours to remove. */
static bool is_orphan(const char *name, const char **list, int n)
{
    return text_starts(name, ".new-") || (file_is_digest(name) && !is_listed(list, n, name));
}

bool garage_sweep(struct garage *g, int *swept, struct fail *f)
{
    struct arena scratch = g->arena;
    const char **list;
    int n;
    assert(!g->in_act); /* what it sees must be younger than the lock */
    *swept = 0;
    int fd =
        open(arena_print(&scratch, "%s/files", g->store.name), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    if (fd < 0)
        return fail_set(f, FAIL_GARAGE,
                        "%s/files: %s; make an empty folder files/, or put back a copy",
                        g->store.name, strerror(errno));
    bool ok = true;
    DIR *dir = NULL;
    /* Somebody stores a file: then another time. */
    if (flock(fd, LOCK_EX | LOCK_NB) == 0 &&
        (ok = store_files(&g->store, &scratch, &list, &n, f)) && (dir = fdopendir(fd)))
        for (const struct dirent *d; (d = readdir(dir));)
            if (is_orphan(d->d_name, list, n) && unlinkat(fd, d->d_name, 0) == 0) ++*swept;
    if (dir)
        closedir(dir);
    else
        close(fd);
    return ok;
}
