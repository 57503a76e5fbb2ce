#include "face/web/reckoner.h"

#include <assert.h>
#include <errno.h>
#include <pthread.h>
#include <semaphore.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

/* So many are taken on at a time; who comes then waits for a slot. So many are reckoned at a time:
 * one works while the other is at what cannot be shared out. */
enum { SLOTS = 8, TURNS = 2 };
static const size_t ARENA_BYTES = (size_t)4 << 30; /* address space only */

struct slot {
    struct reckoner *owner;
    char name[65]; /* "": free */
    int waiting;   /* who still want to hear of it */
    bool done, failed;
    double share;
    struct fail why;
    enum question question;
    struct shop_ask ask;
    char vehicle[33];
};

struct reckoner {
    char *dir;
    struct shelf *shelf;
    pthread_mutex_t lock; /* of the slots */
    pthread_cond_t change;
    sem_t turns;
    int running; /* threads */
    struct slot slots[SLOTS];
};

struct reckoner *reckoner_open(const char *garage_dir, struct shelf *shelf)
{
    struct reckoner *r = calloc(1, sizeof *r);
    pthread_condattr_t monotonic;
    if (!r || !(r->dir = strdup(garage_dir))) abort();
    r->shelf = shelf;
    pthread_condattr_init(&monotonic);
    pthread_condattr_setclock(&monotonic, CLOCK_MONOTONIC);
    pthread_mutex_init(&r->lock, NULL);
    pthread_cond_init(&r->change, &monotonic);
    pthread_condattr_destroy(&monotonic);
    sem_init(&r->turns, 0, TURNS);
    return r;
}

void reckoner_close(struct reckoner *r)
{
    pthread_mutex_lock(&r->lock);
    while (r->running > 0) pthread_cond_wait(&r->change, &r->lock);
    pthread_mutex_unlock(&r->lock);
    pthread_cond_destroy(&r->change);
    pthread_mutex_destroy(&r->lock);
    sem_destroy(&r->turns);
    free(r->dir);
    free(r);
}

void reckoner_turn_begin(struct reckoner *r)
{
    while (sem_wait(&r->turns) != 0) assert(errno == EINTR);
}

void reckoner_turn_end(struct reckoner *r)
{
    sem_post(&r->turns);
}

/* ---- on the thread ---- */

static void note_progress(void *context, double share)
{
    struct slot *s = context;
    pthread_mutex_lock(&s->owner->lock);
    s->share = share;
    pthread_mutex_unlock(&s->owner->lock);
}

struct borrowed {
    struct shelf *shelf;
    const struct shelf_copy *copy; /* NULL until it is wanted */
};

static bool borrow(struct borrowed *b, struct fail *f)
{
    return b->copy || shelf_take(b->shelf, &b->copy, f);
}

static bool trade_digest_of(void *context, char hex[65], struct fail *f)
{
    struct borrowed *b = context;
    if (!borrow(b, f)) return false;
    memcpy(hex, b->copy->digest, 65);
    return true;
}

static bool trade_of(void *context, const struct trade **out, struct fail *f)
{
    struct borrowed *b = context;
    if (!borrow(b, f)) return false;
    *out = &b->copy->trade;
    return true;
}

static bool answer(struct slot *s, struct arena *a, struct fail *f)
{
    struct borrowed borrowed = {.shelf = s->owner->shelf};
    const struct answer_trade trade = {trade_digest_of, trade_of, &borrowed};
    struct told told = {0};
    struct shop_ask ask = s->ask;
    ask.vehicle = s->vehicle;
    ask.progress = note_progress;
    ask.progress_context = s;
    if (!garage_open(a, s->owner->dir, GARAGE_READ, NULL, &ask.garage, f)) return false;
    bool good = answer_get(a, s->question, &ask, NULL, trade, &told, f);
    json_decref(told.json);
    garage_close(ask.garage);
    if (borrowed.copy) shelf_put_back(s->owner->shelf, borrowed.copy);
    return good;
}

/* With the lock held: a slot that nobody wants to hear of any more is free again. */
static void leave(struct slot *s)
{
    if (s->done && s->waiting == 0) s->name[0] = '\0';
}

static void *work(void *context)
{
    struct slot *s = context;
    struct reckoner *r = s->owner;
    struct fail why = {0};
    reckoner_turn_begin(r);
    struct arena a = arena_open(ARENA_BYTES);
    bool good = answer(s, &a, &why);
    arena_close(&a);
    reckoner_turn_end(r);
    pthread_mutex_lock(&r->lock);
    s->done = true;
    s->failed = !good;
    s->why = why;
    leave(s);
    r->running--;
    pthread_cond_broadcast(&r->change);
    pthread_mutex_unlock(&r->lock);
    return NULL;
}

/* ---- for those who ask ---- */

static struct slot *find(struct reckoner *r, const char *name)
{
    for (int i = 0; i < SLOTS; i++)
        if (text_is(r->slots[i].name, name)) return &r->slots[i];
    return NULL;
}

static bool begin(struct reckoner *r, struct slot *s, const struct reckoner_ask *what,
                  struct fail *f)
{
    pthread_t thread;
    pthread_attr_t apart;
    *s = (struct slot){.owner = r, .question = what->question, .ask = what->ask};
    assert(strlen(what->name) < sizeof s->name && strlen(what->ask.vehicle) < sizeof s->vehicle);
    memcpy(s->name, what->name, strlen(what->name) + 1);
    memcpy(s->vehicle, what->ask.vehicle, strlen(what->ask.vehicle) + 1);
    pthread_attr_init(&apart);
    pthread_attr_setdetachstate(&apart, PTHREAD_CREATE_DETACHED);
    bool good = pthread_create(&thread, &apart, work, s) == 0;
    pthread_attr_destroy(&apart);
    if (good)
        r->running++;
    else
        s->name[0] = '\0';
    return good ||
           fail_set(f, FAIL_GARAGE, "the machine is too busy to begin; try again in a minute");
}

static void wait_for_change(struct reckoner *r, const struct timespec *until, bool *late)
{
    if (!until)
        pthread_cond_wait(&r->change, &r->lock);
    else
        *late = pthread_cond_timedwait(&r->change, &r->lock, until) != 0;
}

enum reckoning reckoner_wait(struct reckoner *r, const struct reckoner_ask *what, int patience,
                             bool *began, double *share, struct fail *f)
{
    struct timespec end, *until = patience < 0 ? NULL : &end;
    enum reckoning how = RECKONING_GOES_ON;
    bool late = false;
    clock_gettime(CLOCK_MONOTONIC, &end);
    end.tv_sec += patience / 1000;
    end.tv_nsec += patience % 1000 * 1000000L;
    if (end.tv_nsec >= 1000000000L) end.tv_sec++, end.tv_nsec -= 1000000000L;
    *began = false;
    *share = 0;
    pthread_mutex_lock(&r->lock);
    struct slot *s;
    for (;;) {
        s = find(r, what->name);
        if (!s && (s = find(r, ""))) {
            *began = begin(r, s, what, f);
            if (!*began) how = RECKONING_FAILED;
        }
        if (s || late) break;
        wait_for_change(r, until, &late);
    }
    if (s && how != RECKONING_FAILED) {
        s->waiting++;
        while (!s->done && !late) wait_for_change(r, until, &late);
        *share = s->share;
        if (s->done) how = s->failed ? RECKONING_FAILED : RECKONING_DONE;
        if (s->done && s->failed) *f = s->why;
        s->waiting--;
        leave(s);
        pthread_cond_broadcast(&r->change);
    }
    pthread_mutex_unlock(&r->lock);
    return how;
}
