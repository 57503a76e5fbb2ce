/* rank.c - the priority rule: longest tail first. */
#include "reckon/dispatch.h"

#include <assert.h>
#include <math.h>
#include <stdlib.h>

struct ranked {
    double tail;
    int job;
};

static int by_tail(const void *a, const void *b)
{
    const struct ranked *x = a, *y = b;
    if (x->tail != y->tail) return x->tail > y->tail ? -1 : 1;
    return x->job - y->job;
}

/* Calendar minutes that a minute of work takes on average. */
static double stretch_of(const struct project *p)
{
    double hands_on = 0;
    for (int s = 0; s < p->n_sessions; s++) hands_on += p->sessions[s].end - p->sessions[s].start;
    if (hands_on <= 0) return 1;
    double span = p->sessions[p->n_sessions - 1].end - p->sessions[0].start;
    return fmax(span, hands_on) / (hands_on * fmax(p->kept, 0.05));
}

static double tail_of(const struct project *p, const struct range *next, const int *nexts,
                      double stretch, int j, double *tail)
{
    if (tail[j] >= 0) return tail[j];
    tail[j] = 0; /* no cycles: project_valid */
    double longest = 0;
    for (int i = 0; i < next[j].count; i++) {
        double t = tail_of(p, next, nexts, stretch, nexts[next[j].first + i], tail);
        if (t > longest) longest = t;
    }
    const struct project_job *job = &p->jobs[j];
    double own =
        job->finished ? 0 : job->chance * (job->minutes.middle * stretch + job->wait.middle);
    return tail[j] = own + longest;
}

int *rank_by_tail(struct arena *a, const struct project *p)
{
    int *order = ARENA_ARRAY(a, int, p->n_jobs);
    struct range *next = ARENA_ARRAY(a, struct range, p->n_jobs);
    int *nexts = ARENA_ARRAY(a, int, p->n_after);
    for (int j = 0; j < p->n_jobs; j++)
        for (int i = 0; i < p->jobs[j].after.count; i++)
            next[p->after[p->jobs[j].after.first + i]].count++;
    for (int j = 1; j < p->n_jobs; j++) next[j].first = next[j - 1].first + next[j - 1].count;
    for (int j = 0; j < p->n_jobs; j++) next[j].count = 0;
    for (int j = 0; j < p->n_jobs; j++)
        for (int i = 0; i < p->jobs[j].after.count; i++) {
            struct range *r = &next[p->after[p->jobs[j].after.first + i]];
            nexts[r->first + r->count++] = j;
        }
    double *tail = ARENA_ARRAY(a, double, p->n_jobs);
    struct ranked *ranked = ARENA_ARRAY(a, struct ranked, p->n_jobs);
    for (int j = 0; j < p->n_jobs; j++) tail[j] = -1;
    double stretch = stretch_of(p);
    for (int j = 0; j < p->n_jobs; j++)
        ranked[j] = (struct ranked){tail_of(p, next, nexts, stretch, j, tail), j};
    qsort(ranked, (size_t)p->n_jobs, sizeof *ranked, by_tail);
    for (int j = 0; j < p->n_jobs; j++) order[j] = ranked[j].job;
    return order;
}
