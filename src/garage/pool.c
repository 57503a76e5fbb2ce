#include "garage/pool.h"

#include "garage/store.h"

#include <pthread.h>
#include <sys/stat.h>

/* Kept while nobody wants them; each holds half a megabyte of the database
 * at most. */
enum { IDLE_MOST = 16, OWN_BYTES = 1 << 16 };

/* The database as a file. SQLite tells of acts; of what is done to the file behind its back only
 * the file does. */
struct stamp {
    dev_t device;
    ino_t file;
    off_t size;
    struct timespec written;
};

struct pooled {
    struct arena arena; /* holds this and the garage */
    struct garage *garage;
    struct stamp stamp; /* from before it was opened: changed since then, it is opened anew */
    struct pooled *next;
};

struct garage_pool {
    struct arena arena; /* holds this */
    const char *dir, *path;
    pthread_mutex_t lock; /* of all below */
    struct pooled *idle;  /* the last put back first, so that few are in use */
    int n_idle;
};

struct garage_pool *garage_pool_open(const char *dir)
{
    struct arena a = arena_open(OWN_BYTES);
    struct garage_pool *p = ARENA_NEW(&a, struct garage_pool);
    p->dir = arena_copy(&a, dir);
    p->path = arena_print(&a, "%s/garage.db", dir);
    pthread_mutex_init(&p->lock, NULL);
    p->arena = a;
    return p;
}

static void let_go(struct pooled *x)
{
    struct arena a = x->arena;
    garage_close(x->garage);
    arena_close(&a);
}

void garage_pool_close(struct garage_pool *p)
{
    for (struct pooled *x = p->idle, *next; x; x = next) {
        next = x->next;
        let_go(x);
    }
    pthread_mutex_destroy(&p->lock);
    struct arena a = p->arena;
    arena_close(&a);
}

static bool stamp_of(const char *path, struct stamp *out)
{
    struct stat st;
    if (stat(path, &st) != 0) return false;
    *out = (struct stamp){st.st_dev, st.st_ino, st.st_size, st.st_mtim};
    return true;
}

static bool same(const struct stamp *a, const struct stamp *b)
{
    return a->device == b->device && a->file == b->file && a->size == b->size &&
           a->written.tv_sec == b->written.tv_sec && a->written.tv_nsec == b->written.tv_nsec;
}

static struct pooled *take_idle(struct garage_pool *p)
{
    pthread_mutex_lock(&p->lock);
    struct pooled *x = p->idle;
    if (x) {
        p->idle = x->next;
        p->n_idle--;
    }
    pthread_mutex_unlock(&p->lock);
    return x;
}

static bool open_new(struct garage_pool *p, enum garage_mode mode, const struct stamp *now,
                     struct garage **out, struct fail *f)
{
    struct arena a = arena_open(OWN_BYTES);
    struct pooled *x = ARENA_NEW(&a, struct pooled);
    if (!garage_open(&a, p->dir, mode, NULL, &x->garage, f)) {
        arena_close(&a);
        return false;
    }
    if (!store_run(&x->garage->store, "PRAGMA cache_size = -512", f)) {
        garage_close(x->garage);
        arena_close(&a);
        return false;
    }
    x->stamp = *now;
    x->arena = a;
    x->garage->pooled = x;
    *out = x->garage;
    return true;
}

bool garage_pool_take(struct garage_pool *p, enum garage_mode mode, struct garage **out,
                      struct fail *f)
{
    struct stamp now = {0};
    const bool there = stamp_of(p->path, &now); /* if not, opening it says why */
    for (struct pooled *x; mode == GARAGE_READ && (x = take_idle(p));) {
        if (there && same(&x->stamp, &now)) {
            *out = x->garage;
            return true;
        }
        let_go(x);
    }
    return open_new(p, mode, &now, out, f);
}

void garage_pool_put_back(struct garage_pool *p, struct garage *g)
{
    struct pooled *x = g->pooled;
    garage_rollback(g);
    pthread_mutex_lock(&p->lock);
    const bool keep = g->mode == GARAGE_READ && !g->frozen && p->n_idle < IDLE_MOST;
    if (keep) {
        x->next = p->idle;
        p->idle = x;
        p->n_idle++;
    }
    pthread_mutex_unlock(&p->lock);
    if (!keep) let_go(x);
}
