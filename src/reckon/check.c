#include "reckon/check.h"

#include <math.h>

static bool breach(struct fail *f, const struct project *p, int job, const char *what)
{
    return fail_set(f, FAIL_NO, "schedule: job '%s' %s", p->jobs[job].id, what);
}

/* Hands in use at moment t of one session, by all stints of it. */
static int hands_at(const struct schedule *s, int session, int32_t t)
{
    int hands = 0;
    for (int i = 0; i < s->n_stints; i++) {
        const struct stint *x = &s->stints[i];
        if (x->session == session && x->from <= t && t < x->to) hands += x->hands;
    }
    return hands;
}

static bool stints_in_sessions(const struct project *p, const struct drawn *d,
                               const struct schedule *s, struct fail *f)
{
    for (int i = 0; i < s->n_stints; i++) {
        const struct stint *x = &s->stints[i];
        if (x->session < 0 || x->session >= p->n_sessions || x->job < 0 || x->job >= p->n_jobs)
            return fail_set(f, FAIL_NO, "schedule: stint %d names no session or job", i);
        const struct project_session *at = &p->sessions[x->session];
        const struct project_job *job = &p->jobs[x->job];
        int32_t limit = at->end;
        if (job->unbroken && !x->again)
            limit = x->session + 1 < p->n_sessions ? p->sessions[x->session + 1].start : NEVER;
        if (!d->kept[x->session])
            return breach(f, p, x->job, "is worked on in a session that is missed");
        if (!d->applies[x->job]) return breach(f, p, x->job, "is worked on but not needed");
        if (x->from < at->start || x->from >= at->end || x->to > limit || x->to <= x->from)
            return breach(f, p, x->job, "is worked on outside its session");
        if (x->hands != job->hands) return breach(f, p, x->job, "has the wrong number of hands");
        if (job->bay && !at->bay) return breach(f, p, x->job, "needs the bay, which is taken");
        if (at->degrees < job->warm) return breach(f, p, x->job, "is done too cold");
        if (hands_at(s, x->session, x->from) > at->hands)
            return breach(f, p, x->job, "takes a hand too many");
    }
    return true;
}

struct tally {
    int32_t work, again_work; /* minutes done */
    int32_t first, end;       /* of its own work */
    int32_t again_first, last;
    int stints, session; /* of its own work; the session of the first */
    int32_t arrives, again_arrives;
    bool ordered, again_ordered;
};

static bool work_is_whole(const struct project *p, const struct drawn *d, const struct schedule *s,
                          struct tally *tally, struct fail *f)
{
    for (int i = 0; i < s->n_stints; i++) {
        const struct stint *x = &s->stints[i];
        struct tally *t = &tally[x->job];
        if (x->from < t->last) return breach(f, p, x->job, "is in two places at once");
        t->last = x->to;
        if (x->again) {
            if (t->again_work == 0) t->again_first = x->from;
            t->again_work += x->to - x->from;
        } else {
            if (t->again_work > 0)
                return breach(f, p, x->job, "goes back to its own work after its setback");
            if (t->work == 0) t->first = x->from, t->session = x->session;
            t->work += x->to - x->from;
            t->end = x->to;
            t->stints++;
        }
    }
    for (int j = 0; j < p->n_jobs; j++) {
        if (!d->applies[j] || s->finish[j] == NEVER) continue;
        const struct tally *t = &tally[j];
        bool setback = d->again_minutes[j] > 0 || d->again_wait[j] > 0 || d->again_lead[j] >= 0;
        int32_t again = d->again_minutes[j] > 1 ? d->again_minutes[j] : setback ? 1 : 0;
        if (t->work != d->minutes[j] || t->again_work != again)
            return breach(f, p, j, "is not worked on for as long as it takes");
        if (s->start[j] != t->first || s->finish[j] != t->last)
            return breach(f, p, j, "starts or finishes at another moment than its work");
        if (p->jobs[j].unbroken && t->stints > 1) {
            int next = t->session + 1;
            int32_t room = next < p->n_sessions ? p->sessions[next].start : NEVER;
            if (t->first + d->minutes[j] <= room)
                return breach(f, p, j, "is broken off though it could have been finished that day");
        }
    }
    return true;
}

static bool nothing_too_early(const struct project *p, const struct drawn *d,
                              const struct schedule *s, const struct tally *tally, struct fail *f)
{
    for (int j = 0; j < p->n_jobs; j++) {
        if (s->start[j] == NEVER) continue;
        const struct project_job *job = &p->jobs[j];
        for (int i = 0; i < job->after.count; i++) {
            int before = p->after[job->after.first + i];
            const struct project_job *b = &p->jobs[before];
            const int32_t from = b->away ? b->away_from : s->finish[before];
            if (s->finish[before] == NEVER || s->start[j] < s->finish[before] ||
                s->start[j] < from + d->wait[before])
                return breach(f, p, j, "starts before what it comes after");
        }
        if (!d->applies[j]) continue;
        if (d->lead[j] >= 0 && (!tally[j].ordered || s->start[j] < tally[j].arrives))
            return breach(f, p, j, "starts before its parts are here");
        if (tally[j].again_work == 0) continue;
        if (tally[j].again_first < tally[j].end + d->again_wait[j])
            return breach(f, p, j, "goes on before its setback's wait is over");
        if (d->again_lead[j] >= 0 &&
            (!tally[j].again_ordered || tally[j].again_first < tally[j].again_arrives))
            return breach(f, p, j, "goes on before its setback's parts are here");
    }
    return true;
}

static bool orders_are_known(const struct project *p, const struct drawn *d,
                             const struct schedule *s, struct tally *tally, struct fail *f)
{
    int gate = -1;
    for (int j = 0; j < p->n_jobs; j++)
        if (p->jobs[j].gate && !p->jobs[j].finished) gate = j;
    for (int i = 0; i < s->n_orders; i++) {
        const struct order_placed *o = &s->orders[i];
        struct tally *t = &tally[o->job];
        int32_t lead = o->again ? d->again_lead[o->job] : d->lead[o->job];
        if (o->again ? t->again_ordered : t->ordered)
            return breach(f, p, o->job, "has its parts ordered twice");
        if (lead < 0 || o->arrives != o->ordered + lead)
            return breach(f, p, o->job, "has parts that come too soon");
        if (fabs(o->price - (o->again ? d->again_price[o->job] : d->price[o->job])) > 1e-6)
            return breach(f, p, o->job, "has parts at another price");
        if (o->again && o->ordered < t->end)
            return breach(f, p, o->job, "orders for a setback before it happens");
        if (!o->again && gate >= 0 && !p->jobs[o->job].survey &&
            (s->finish[gate] == NEVER || o->ordered < s->finish[gate]))
            return breach(f, p, o->job, "has parts ordered before the decision");
        if (o->again)
            t->again_ordered = true, t->again_arrives = o->arrives;
        else
            t->ordered = true, t->arrives = o->arrives;
    }
    return true;
}

static bool purse_holds(const struct project *p, const struct schedule *s, struct fail *f)
{
    if (p->purse.open) return true;
    for (int i = 0; i < s->n_orders; i++) {
        double cash = p->purse.in_hand, spent = 0;
        for (int k = 0; k < p->purse.n_paydays && p->purse.payday[k] <= s->orders[i].ordered; k++)
            cash += p->purse.pay[k];
        for (int k = 0; k < s->n_orders; k++)
            if (s->orders[k].ordered < s->orders[i].ordered ||
                (s->orders[k].ordered == s->orders[i].ordered && k <= i))
                spent += s->orders[k].price;
        if (spent > p->purse.ceiling + 1e-6)
            return breach(f, p, s->orders[i].job, "is ordered beyond the ceiling");
        if (cash - spent < p->purse.reserve - 1e-6)
            return breach(f, p, s->orders[i].job, "is ordered without the money for it");
    }
    return true;
}

bool schedule_check(const struct project *p, const struct drawn *drawn, const struct schedule *s,
                    struct arena scratch, struct fail *f)
{
    struct tally *tally = ARENA_ARRAY(&scratch, struct tally, p->n_jobs);
    return stints_in_sessions(p, drawn, s, f) && work_is_whole(p, drawn, s, tally, f) &&
           orders_are_known(p, drawn, s, tally, f) && nothing_too_early(p, drawn, s, tally, f) &&
           purse_holds(p, s, f);
}
