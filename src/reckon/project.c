#include "reckon/project.h"

#include <math.h>

static bool bad_range(struct range r, int n)
{
    return r.first < 0 || r.count < 0 || r.first > n - r.count;
}

static bool bad_spread(struct spread s)
{
    return !(s.middle >= 0 && s.below >= 0 && s.above >= 0) || !isfinite(s.middle) ||
           !isfinite(s.below) || !isfinite(s.above);
}

static bool bad_index(int i, int n)
{
    return i < 0 || i >= n;
}

static bool buys_valid(const struct project *p, struct fail *f)
{
    for (int i = 0; i < p->n_buys; i++)
        if (bad_index(p->buys[i].part, p->n_parts) || !(p->buys[i].count > 0))
            return fail_set(f, FAIL_INPUT, "project: buy %d names no part or no count", i);
    for (int i = 0; i < p->n_parts; i++)
        if (bad_spread(p->parts[i].price) || bad_spread(p->parts[i].lead))
            return fail_set(f, FAIL_INPUT, "project: part '%s' has an impossible price or lead",
                            p->parts[i].id);
    return true;
}

static bool components_valid(const struct project *p, struct fail *f)
{
    for (int i = 0; i < p->n_components; i++) {
        const struct project_component *c = &p->components[i];
        bool bad = bad_index(c->kind, p->n_kinds) || c->known < -1 || c->known >= COND_COUNT ||
                   !(c->state >= 0 && c->kind_share >= 0 && c->state + c->kind_share < 1);
        for (int k = 1; k < COND_COUNT - 1; k++) bad = bad || !(c->cut[k - 1] <= c->cut[k]);
        if (bad)
            return fail_set(f, FAIL_INPUT, "project: component '%s' has impossible odds", c->id);
    }
    for (int i = 0; i < p->n_needs; i++)
        if (bad_index(p->needs[i], p->n_components))
            return fail_set(f, FAIL_INPUT, "project: need %d names no component", i);
    return true;
}

static bool jobs_valid(const struct project *p, struct fail *f)
{
    for (int j = 0; j < p->n_jobs; j++) {
        const struct project_job *job = &p->jobs[j];
        if (bad_range(job->needs, p->n_needs) || bad_range(job->after, p->n_after) ||
            bad_range(job->buys, p->n_buys) || job->hands < 1 || bad_spread(job->minutes) ||
            bad_spread(job->wait) || !(job->chance >= 0 && job->chance <= 1) ||
            (job->minutes.middle <= 0 && !job->finished))
            return fail_set(f, FAIL_INPUT, "project: job '%s' has an impossible figure", job->id);
        for (int i = 0; i < job->after.count; i++)
            if (bad_index(p->after[job->after.first + i], p->n_jobs))
                return fail_set(f, FAIL_INPUT, "project: job '%s' comes after no job", job->id);
    }
    for (int i = 0; i < p->n_done; i++)
        if (bad_index(p->done[i], p->n_jobs))
            return fail_set(f, FAIL_INPUT, "project: the end names no job");
    return p->n_done > 0 || fail_set(f, FAIL_INPUT, "project: no job ends it");
}

static bool setbacks_valid(const struct project *p, struct fail *f)
{
    for (int i = 0; i < p->n_setbacks; i++) {
        const struct project_setback *s = &p->setbacks[i];
        bool bad = bad_index(s->job, p->n_jobs) || bad_range(s->needs, p->n_needs) ||
                   bad_range(s->steps, p->n_steps);
        for (int c = 0; c < COND_COUNT; c++) bad = bad || !(s->chance[c] >= 0 && s->chance[c] <= 1);
        if (bad)
            return fail_set(f, FAIL_INPUT, "project: setback '%s' has an impossible figure", s->id);
    }
    for (int i = 0; i < p->n_steps; i++)
        if (bad_spread(p->steps[i].minutes) || bad_spread(p->steps[i].wait) ||
            bad_range(p->steps[i].buys, p->n_buys) ||
            !(p->steps[i].works >= 0 && p->steps[i].works <= 1))
            return fail_set(f, FAIL_INPUT, "project: step %d of a ladder has an impossible figure",
                            i);
    return true;
}

static bool calendar_valid(const struct project *p, struct fail *f)
{
    for (int s = 0; s < p->n_sessions; s++) {
        const struct project_session *x = &p->sessions[s];
        if (x->start < 0 || x->end <= x->start || x->hands < 1 ||
            (s > 0 && x->start < p->sessions[s - 1].end))
            return fail_set(f, FAIL_INPUT,
                            "project: session %d is empty or overlaps the one before", s);
    }
    for (int i = 0; i < p->purse.n_paydays; i++)
        if (!(p->purse.pay[i] >= 0) || (i > 0 && p->purse.payday[i] < p->purse.payday[i - 1]))
            return fail_set(f, FAIL_INPUT, "project: payday %d is out of order or negative", i);
    if (!(p->kept > 0 && p->kept <= 1))
        return fail_set(f, FAIL_INPUT,
                        "project: the share of sessions kept must be above 0, at most 1");
    if (!(p->pace_share >= 0 && p->state_share >= 0 && p->work_share >= 0 &&
          p->pace_share + p->state_share + p->work_share <= 1 &&
          (p->work_share == 0 || p->n_works > 0)))
        return fail_set(f, FAIL_INPUT,
                        "project: the shares of pace and state must be 0 to 1 together");
    return true;
}

/* Strikes off jobs whose predecessors are all struck off, until none is left or none can be. */
static bool acyclic(const struct project *p, struct arena scratch, struct fail *f)
{
    uint8_t *struck = ARENA_ARRAY(&scratch, uint8_t, p->n_jobs);
    int left = p->n_jobs;
    for (bool moved = true; moved && left > 0;) {
        moved = false;
        for (int j = 0; j < p->n_jobs; j++) {
            if (struck[j]) continue;
            bool open = false;
            for (int i = 0; i < p->jobs[j].after.count; i++)
                open = open || !struck[p->after[p->jobs[j].after.first + i]];
            if (open) continue;
            struck[j] = 1;
            left--;
            moved = true;
        }
    }
    for (int j = 0; j < p->n_jobs; j++)
        if (!struck[j])
            return fail_set(f, FAIL_INPUT, "project: job '%s' waits for itself in a circle",
                            p->jobs[j].id);
    return true;
}

/* A gate that is in doubt, or that waits for parts which are ordered only after it, would never
 * open. */
static bool gate_valid(const struct project *p, struct arena scratch, struct fail *f)
{
    int gate = -1;
    for (int j = 0; j < p->n_jobs; j++) {
        if (!p->jobs[j].gate || p->jobs[j].finished) continue;
        if (gate >= 0)
            return fail_set(f, FAIL_INPUT, "project: '%s' and '%s' are both the gate",
                            p->jobs[gate].id, p->jobs[j].id);
        gate = j;
    }
    if (gate < 0) return true;
    if (p->jobs[gate].needs.count > 0)
        return fail_set(f, FAIL_INPUT, "project: the gate '%s' must always be needed",
                        p->jobs[gate].id);
    uint8_t *seen = ARENA_ARRAY(&scratch, uint8_t, p->n_jobs);
    int *stack = ARENA_ARRAY(&scratch, int, p->n_jobs);
    int depth = 0;
    stack[depth++] = gate;
    seen[gate] = 1;
    while (depth > 0) {
        const struct project_job *job = &p->jobs[stack[--depth]];
        if (job->buys.count > 0 && !job->survey && !job->parts_here && !job->finished)
            return fail_set(f, FAIL_INPUT,
                            "project: the gate '%s' waits for parts of '%s', which are ordered "
                            "only after it; make it a survey",
                            p->jobs[gate].id, job->id);
        for (int i = 0; i < job->after.count; i++) {
            int before = p->after[job->after.first + i];
            if (!seen[before]) stack[depth++] = before;
            seen[before] = 1;
        }
    }
    return true;
}

bool project_valid(const struct project *p, struct arena scratch, struct fail *f)
{
    return components_valid(p, f) && buys_valid(p, f) && jobs_valid(p, f) && setbacks_valid(p, f) &&
           calendar_valid(p, f) && acyclic(p, scratch, f) && gate_valid(p, scratch, f);
}
