#include "face/web/kept.h"

#include <pthread.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

/* Few enough that going through all of them costs nothing beside copying one. */
enum { ENTRIES_MOST = 256, CLAIMS_MOST = 32, PATIENCE_SECONDS = 2 };

struct entry {
    char *name, *text; /* malloc; name NULL: free */
    size_t size;
    uint64_t wanted; /* when last, in gets and puts */
};

struct kept {
    pthread_mutex_t lock;
    size_t most, size;
    uint64_t now;
    struct entry entries[ENTRIES_MOST];
    pthread_cond_t released;
    char *claims[CLAIMS_MOST]; /* malloc; being made now; NULL: free */
};

struct kept *kept_open(size_t most_bytes)
{
    struct kept *k = calloc(1, sizeof *k);
    if (!k) abort();
    pthread_mutex_init(&k->lock, NULL);
    pthread_cond_init(&k->released, NULL);
    k->most = most_bytes;
    return k;
}

static void drop(struct kept *k, struct entry *e)
{
    k->size -= e->size;
    free(e->name);
    free(e->text);
    *e = (struct entry){0};
}

void kept_close(struct kept *k)
{
    for (int i = 0; i < ENTRIES_MOST; i++) drop(k, &k->entries[i]);
    for (int i = 0; i < CLAIMS_MOST; i++) free(k->claims[i]);
    pthread_cond_destroy(&k->released);
    pthread_mutex_destroy(&k->lock);
    free(k);
}

static struct entry *find(struct kept *k, const char *name)
{
    for (int i = 0; i < ENTRIES_MOST; i++)
        if (k->entries[i].name && text_is(k->entries[i].name, name)) return &k->entries[i];
    return NULL;
}

char *kept_get(struct kept *k, struct arena *a, const char *name)
{
    char *out = NULL;
    pthread_mutex_lock(&k->lock);
    struct entry *e = find(k, name);
    if (e) {
        e->wanted = ++k->now;
        out = arena_copy_n(a, e->text, e->size - strlen(name) - 2);
    }
    pthread_mutex_unlock(&k->lock);
    return out;
}

/* An entry that is free, if need be after throwing others away, so that `size` more fits. */
static struct entry *make_room(struct kept *k, size_t size)
{
    for (;;) {
        struct entry *free_one = NULL, *oldest = NULL;
        for (int i = 0; i < ENTRIES_MOST; i++) {
            struct entry *e = &k->entries[i];
            if (!e->name)
                free_one = e;
            else if (!oldest || e->wanted < oldest->wanted)
                oldest = e;
        }
        if (free_one && k->size + size <= k->most) return free_one;
        drop(k, oldest);
    }
}

void kept_put(struct kept *k, const char *name, const char *text)
{
    const size_t size = strlen(name) + strlen(text) + 2;
    if (size > k->most / 4) return;
    struct entry e = {.name = strdup(name), .text = strdup(text), .size = size};
    if (!e.name || !e.text) abort();
    pthread_mutex_lock(&k->lock);
    struct entry *old = find(k, name);
    if (old) drop(k, old);
    e.wanted = ++k->now;
    *make_room(k, size) = e;
    k->size += size;
    pthread_mutex_unlock(&k->lock);
}

/* Where the name is claimed; if nowhere, a free place; -1: there is none. */
static int claim_of(const struct kept *k, const char *name)
{
    int free_one = -1;
    for (int i = 0; i < CLAIMS_MOST; i++) {
        if (!k->claims[i])
            free_one = i;
        else if (text_is(k->claims[i], name))
            return i;
    }
    return free_one;
}

bool kept_claim(struct kept *k, const char *name)
{
    struct timespec until;
    bool in_time = true, make = false;
    clock_gettime(CLOCK_REALTIME, &until);
    until.tv_sec += PATIENCE_SECONDS;
    pthread_mutex_lock(&k->lock);
    while (!make && !find(k, name)) {
        const int at = claim_of(k, name);
        if (at >= 0 && k->claims[at] && in_time) {
            in_time = pthread_cond_timedwait(&k->released, &k->lock, &until) == 0;
            continue;
        }
        if (at >= 0 && !k->claims[at] && !(k->claims[at] = strdup(name))) abort();
        make = true;
    }
    pthread_mutex_unlock(&k->lock);
    return make;
}

void kept_release(struct kept *k, const char *name)
{
    pthread_mutex_lock(&k->lock);
    const int at = claim_of(k, name);
    if (at >= 0) {
        free(k->claims[at]);
        k->claims[at] = NULL;
    }
    pthread_cond_broadcast(&k->released);
    pthread_mutex_unlock(&k->lock);
}
