/* dispatch_prepare.c - what of a project is the same in every run, by rank. */
#include "reckon/dispatch_inside.h"

#include <assert.h>
#include <math.h>

/* A job too long for any session is begun in one as long as any that suits it within so many
 * minutes: waiting for a helper's long day that comes once, or no more, would wait for ever. Four
 * weeks (practice). */
static const int32_t LOOK_OUT = 28 * 1440;

static bool suits(const struct project_session *s, const struct project_job *job)
{
    return s->hands >= job->hands && (s->bay || !job->bay) && s->degrees >= job->warm;
}

static double high_minutes(const struct project_job *job)
{
    return job->minutes.middle * exp(1.2815515655446004 * job->minutes.above); /* the 90 % point */
}

/* By session: the 90 % point of an unbroken job's minutes, no more than the longest session ahead.
 */
static int32_t *room_for(struct arena *a, const struct project *p, const struct project_job *job)
{
    int32_t *room = ARENA_ARRAY(a, int32_t, p->n_sessions);
    double high = high_minutes(job);
    for (int s = 0; s < p->n_sessions; s++) {
        int32_t longest = 0;
        for (int i = s; i < p->n_sessions && longest <= high && /* one that is longer will do */
                        p->sessions[i].start - p->sessions[s].start <= LOOK_OUT;
             i++)
            if (suits(&p->sessions[i], job))
                longest = later_of(longest, p->sessions[i].end - p->sessions[i].start);
        room[s] = high < longest ? (int32_t)high : longest;
    }
    return room;
}

struct dispatch *dispatch_prepare(struct arena *a, const struct project *p, const int *order)
{
    struct dispatch *d = ARENA_NEW(a, struct dispatch);
    int n = p->n_jobs;
    assert(n < 1 << 16);
    *d = (struct dispatch){.p = p, .n = n, .words = (n + 63) / 64, .gate = -1};
    d->job = ARENA_ARRAY(a, int, n);
    d->rank = ARENA_ARRAY(a, int, n);
    const int *by = order ? order : rank_by_tail(a, p);
    for (int r = 0; r < n; r++) d->rank[d->job[r] = by[r]] = r;
    d->n_before = ARENA_ARRAY(a, int, n);
    d->next = ARENA_ARRAY(a, struct range, n);
    d->nexts = ARENA_ARRAY(a, int, p->n_after);
    d->hands = ARENA_ARRAY(a, int, n);
    d->room = ARENA_ARRAY(a, int32_t *, n);
    d->bay = ARENA_ARRAY(a, uint8_t, n);
    d->unbroken = ARENA_ARRAY(a, uint8_t, n);
    d->rare = ARENA_ARRAY(a, uint64_t, d->words);
    d->warm = ARENA_ARRAY(a, double, n);
    d->survey = ARENA_ARRAY(a, int, n);
    d->later = ARENA_ARRAY(a, int, n);
    int32_t shortest = NEVER;
    for (int s = 0; s < p->n_sessions; s++)
        if (p->sessions[s].end - p->sessions[s].start < shortest)
            shortest = p->sessions[s].end - p->sessions[s].start;
    bool gated = false;
    for (int r = 0; r < n; r++) {
        const struct project_job *job = &p->jobs[d->job[r]];
        d->n_before[r] = job->after.count;
        for (int i = 0; i < job->after.count; i++)
            d->next[d->rank[p->after[job->after.first + i]]].count++;
        d->hands[r] = job->hands;
        if (job->hands > 1 || (job->unbroken && high_minutes(job) > shortest)) put_in(d->rare, r);
        d->bay[r] = job->bay;
        d->unbroken[r] = job->unbroken;
        d->warm[r] = job->warm;
        if (job->unbroken) d->room[r] = room_for(a, p, job);
        if (job->gate && !job->finished) d->gate = r, gated = true;
    }
    for (int r = 0; r < n; r++) {
        if (p->jobs[d->job[r]].survey || !gated)
            d->survey[d->n_survey++] = r;
        else
            d->later[d->n_later++] = r;
    }
    for (int r = 1; r < n; r++) d->next[r].first = d->next[r - 1].first + d->next[r - 1].count;
    for (int r = 0; r < n; r++) d->next[r].count = 0;
    for (int r = 0; r < n; r++) {
        struct range after = p->jobs[d->job[r]].after;
        for (int i = 0; i < after.count; i++) {
            struct range *next = &d->next[d->rank[p->after[after.first + i]]];
            d->nexts[next->first + next->count++] = r;
        }
    }
    return d;
}

int dispatch_most_stints(const struct project *p)
{
    /* A stint ends with its phase or its session, and at most `hands` run across a session's end.
     */
    int most = 2 * p->n_jobs;
    for (int s = 0; s < p->n_sessions; s++) most += p->sessions[s].hands;
    return most;
}
