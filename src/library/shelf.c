#include "library/shelf.h"

#include "library/source.h"

#include <assert.h>
#include <pthread.h>
#include <string.h>

struct shelf {
    struct arena arena;
    const char *own_dir; /* or NULL */
    pthread_mutex_t lock;
    struct arena scratch;   /* with the lock held */
    struct shelf_copy *now; /* the newest, or NULL */
};

/* Address space; a parsed copy touches a few megabytes of it. */
static const size_t COPY_BYTES = (size_t)1 << 30;

struct shelf *shelf_open(const char *own_dir)
{
    struct arena a = arena_open(1 << 16);
    struct shelf *s = ARENA_NEW(&a, struct shelf);
    s->own_dir = own_dir ? arena_copy(&a, own_dir) : NULL;
    pthread_mutex_init(&s->lock, NULL);
    s->scratch = arena_open(1 << 20);
    s->arena = a;
    return s;
}

/* With the lock held. */
static void let_go(struct shelf_copy *copy)
{
    if (--copy->users > 0) return;
    struct arena a = copy->arena; /* which the copy itself lies in */
    arena_close(&a);
}

void shelf_close(struct shelf *s)
{
    if (s->now) {
        assert(s->now->users == 1);
        let_go(s->now);
    }
    pthread_mutex_destroy(&s->lock);
    arena_close(&s->scratch);
    struct arena a = s->arena;
    arena_close(&a);
}

static bool read_anew(struct shelf *s, const unsigned char stamp[32], struct fail *f)
{
    struct arena a = arena_open(COPY_BYTES);
    struct shelf_copy *copy = ARENA_NEW(&a, struct shelf_copy);
    struct trade_faults faults = {0};
    if (!trade_load(&a, s->own_dir, &copy->trade, &faults, f) ||
        !trade_digest(&a, s->own_dir, copy->digest, f)) {
        arena_close(&a);
        return false;
    }
    memcpy(copy->stamp, stamp, sizeof copy->stamp);
    copy->users = 1;
    copy->arena = a;
    if (s->now) let_go(s->now);
    s->now = copy;
    return true;
}

bool shelf_take(struct shelf *s, const struct shelf_copy **out, struct fail *f)
{
    unsigned char stamp[32];
    bool good = true;
    pthread_mutex_lock(&s->lock); /* held while it is read, so that it is read once */
    /* Stamped before it is read: a file changed meanwhile is seen the next time. */
    sources_stamp(s->scratch, s->own_dir, stamp);
    if (!s->now || memcmp(s->now->stamp, stamp, sizeof stamp) != 0) good = read_anew(s, stamp, f);
    if (good) {
        s->now->users++;
        *out = s->now;
    }
    pthread_mutex_unlock(&s->lock);
    return good;
}

void shelf_put_back(struct shelf *s, const struct shelf_copy *copy)
{
    pthread_mutex_lock(&s->lock);
    let_go((struct shelf_copy *)(uintptr_t)copy); /* const for the takers only */
    pthread_mutex_unlock(&s->lock);
}
