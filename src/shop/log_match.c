#include "shop/log_match.h"

#include "shop/fold.h"

#include <assert.h>
#include <math.h>
#include <string.h>

/* How much a word of it says of the entry; by where it stands. */
static const double NAMED = 1, OF_SYSTEM = 0.7, OF_COMPONENT = 0.6, OF_JOB = 0.3, EXTRA = 0.3;
static const double IN_PLAN = 1.5, TO_DO = 1.3, BEGUN = 1.25, NEXT = 0.2, AT_JOB = 2;
static const double LEAST = 1.5; /* less is no more than a common word by chance */
static const double NEAR = 0.9;

/* ---- the words of entries ---- */

struct said {
    const char *word;
    double weight;
};

struct doc {
    struct said *said;
    int n;
    size_t capacity;
    double favour;
};

struct log_match {
    struct arena *a;
    const struct model *m;
    struct doc *jobs, *setbacks;
    int *project_job; /* by job of trade data, or -1 */
};

static void say_word(struct arena *a, struct doc *d, const char *word, size_t n, double weight)
{
    const char *folded = fold_word(a, word, n);
    for (int i = 0; i < d->n; i++)
        if (text_is(d->said[i].word, folded)) {
            d->said[i].weight = fmax(d->said[i].weight, weight);
            return;
        }
    d->said = arena_grow(a, d->said, (size_t)d->n, &d->capacity, sizeof *d->said);
    d->said[d->n++] = (struct said){folded, weight};
}

static void say(struct arena *a, struct doc *d, const char *text, double weight)
{
    static const char apart[] = " \t,;.:()/-";
    while (*(text += strspn(text, apart))) {
        const size_t n = strcspn(text, apart);
        if (n > 2) say_word(a, d, text, n, weight);
        text += n;
    }
}

static void say_entry(struct arena *a, struct doc *d, const struct entry *e, double weight)
{
    say(a, d, e->id, weight);
    say(a, d, e->name, weight);
    for (int i = 0; i < e->n_also; i++) say(a, d, e->also[i], weight);
}

/* What is next has few jobs before it that are still to be done. */
static double favour_of(const struct model *m, int j)
{
    const struct project *p = &m->project;
    const struct project_job *job = &p->jobs[j];
    if (job->finished) return IN_PLAN;
    int waits = 0;
    double favour = IN_PLAN * TO_DO;
    for (int i = 0; i < job->after.count; i++)
        waits += !p->jobs[p->after[job->after.first + i]].finished;
    for (int i = 0; i < m->facts->n_works; i++)
        if (text_same_word(m->facts->works[i].job, job->id)) {
            favour *= BEGUN;
            break;
        }
    return favour * (1 + NEXT / (1 + waits));
}

static void read_job(struct log_match *x, int i)
{
    const struct trade *t = x->m->trade;
    const struct trade_job *job = &t->jobs[i];
    struct doc *d = &x->jobs[i];
    say_entry(x->a, d, &job->head, NAMED);
    say_entry(x->a, d, &t->systems[job->system].head, OF_SYSTEM);
    for (int k = 0; k < job->n_when; k++)
        say_entry(x->a, d, &t->components[job->when_components[k]].head, OF_COMPONENT);
    d->favour = x->project_job[i] < 0 ? 1 : favour_of(x->m, x->project_job[i]);
}

static void read_setback(struct log_match *x, int i)
{
    const struct trade *t = x->m->trade;
    const struct trade_setback *s = &t->setbacks[i];
    struct doc *d = &x->setbacks[i];
    say_entry(x->a, d, &s->head, NAMED);
    d->favour = 1;
    for (int k = 0; k < s->n_at; k++) {
        say_entry(x->a, d, &t->jobs[s->at[k].job].head, OF_JOB);
        for (int c = 0; c < s->at[k].n_components; c++)
            say_entry(x->a, d, &t->components[s->at[k].components[c]].head, OF_COMPONENT);
        if (x->project_job[s->at[k].job] >= 0) d->favour = IN_PLAN;
    }
}

struct log_match *log_match_new(struct arena *a, const struct model *m)
{
    const struct trade *t = m->trade;
    struct log_match *x = ARENA_NEW(a, struct log_match);
    *x = (struct log_match){a, m, ARENA_ARRAY(a, struct doc, t->n_jobs),
                            ARENA_ARRAY(a, struct doc, t->n_setbacks),
                            ARENA_ARRAY(a, int, t->n_jobs)};
    for (int i = 0; i < t->n_jobs; i++) x->project_job[i] = -1;
    for (int j = 0; j < m->project.n_jobs; j++) x->project_job[m->trade_job[j]] = j;
    for (int i = 0; i < t->n_jobs; i++) read_job(x, i);
    for (int i = 0; i < t->n_setbacks; i++) read_setback(x, i);
    return x;
}

bool log_match_in_plan(const struct log_match *x, int job, bool *finished)
{
    const int j = x->project_job[job];
    *finished = j >= 0 && x->m->project.jobs[j].finished;
    return j >= 0;
}

/* ---- looking up ---- */

static double weight_in(const struct doc *d, const char *word)
{
    for (int i = 0; i < d->n; i++)
        if (text_is(d->said[i].word, word)) return d->said[i].weight;
    return 0;
}

bool log_match_knows(const struct log_match *x, const char *word)
{
    for (int i = 0; i < x->m->trade->n_jobs; i++)
        if (weight_in(&x->jobs[i], word) > 0) return true;
    for (int i = 0; i < x->m->trade->n_setbacks; i++)
        if (weight_in(&x->setbacks[i], word) > 0) return true;
    return false;
}

static void add_word(const struct doc *docs, int n, const char *word, double times, double *score)
{
    int with = 0;
    for (int i = 0; i < n; i++) with += weight_in(&docs[i], word) > 0;
    if (with == 0) return;
    const double tells = log((n + 1) / (with + 0.5));
    for (int i = 0; i < n; i++) score[i] += times * tells * weight_in(&docs[i], word);
}

static struct log_found nearest(const double *score, int n)
{
    struct log_found f = {.count = 0};
    double top = 0;
    for (int i = 0; i < n; i++) top = fmax(top, score[i]);
    if (top < LEAST) return f;
    for (;;) { /* the few at the top, in order */
        int best = -1;
        for (int i = 0; i < n; i++) {
            bool had = false;
            for (int k = 0; k < f.count; k++) had |= f.best[k] == i;
            if (!had && score[i] >= NEAR * top && (best < 0 || score[i] > score[best])) best = i;
        }
        if (best < 0 || f.count == LOG_NEAR) return f;
        f.best[f.count++] = best;
    }
}

struct log_found log_match_job(const struct log_match *x, const char *const *words, int n,
                               const char *const *extra, int n_extra)
{
    struct arena a = *x->a; /* scratch: gives itself back */
    const int jobs = x->m->trade->n_jobs;
    double *score = ARENA_ARRAY(&a, double, jobs);
    for (int i = 0; i < n; i++) add_word(x->jobs, jobs, words[i], 1, score);
    double top = 0;
    for (int i = 0; i < jobs; i++) top = fmax(top, score[i]);
    if (top < LEAST) return (struct log_found){.count = 0};
    for (int i = 0; i < n_extra; i++) add_word(x->jobs, jobs, extra[i], EXTRA, score);
    for (int i = 0; i < jobs; i++) {
        int known = 0;
        for (int k = 0; k < n; k++) known += weight_in(&x->jobs[i], words[k]) > 0;
        /* By half of what was said; one that is not in the plan only by all of it. */
        const bool said = x->project_job[i] >= 0 ? 2 * known >= n : known == n;
        score[i] *= said ? x->jobs[i].favour : 0;
    }
    return nearest(score, jobs);
}

struct log_found log_match_setback(const struct log_match *x, const char *const *words, int n,
                                   const int *jobs, int n_jobs)
{
    struct arena a = *x->a;
    const struct trade *t = x->m->trade;
    double *score = ARENA_ARRAY(&a, double, t->n_setbacks);
    for (int i = 0; i < n; i++) add_word(x->setbacks, t->n_setbacks, words[i], 1, score);
    for (int i = 0; i < t->n_setbacks; i++) {
        bool at = false, system = false;
        for (int k = 0; k < t->setbacks[i].n_at; k++)
            for (int j = 0; j < n_jobs; j++) {
                at |= t->setbacks[i].at[k].job == jobs[j];
                system |= t->jobs[t->setbacks[i].at[k].job].system == t->jobs[jobs[j]].system;
            }
        score[i] *= x->setbacks[i].favour * (at ? AT_JOB : system ? 1 : 0.5);
    }
    return nearest(score, t->n_setbacks);
}
