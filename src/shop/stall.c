#include "shop/stall.h"

#include "shop/reckoning.h"

#include <stdlib.h>
#include <string.h>

/* Is there work left in the job, as far as is known? One that hangs on conditions counts once they
 * were found. */
static bool is_left(const struct facts *facts, const struct trade_job *job)
{
    if (job->n_when == 0) return true;
    for (int i = 0; i < facts->n_findings; i++) {
        const struct fact_finding *x = &facts->findings[i];
        if (x->kind < 0 || facts_finding(facts, x->kind, x->place) != x) continue;
        for (int k = 0; k < job->n_when; k++)
            if (job->when_components[k] == x->kind && job->when_conditions >> x->condition & 1)
                return true;
    }
    return false;
}

static bool is_ours(const struct facts *facts, const struct trade_job *job, int direction)
{
    return (job->directions >> direction & 1) && !job->survey && !job->gate &&
           job->package != PACKAGE_RECORD && fitted_holds(&job->fitted, facts->answers);
}

void stall_of(struct arena *a, const struct trade *t, const struct facts *facts,
              const struct facts_session *told, int direction, day today, struct stall *out)
{
    *out = (struct stall){.last = told->last_hours, .open = ARENA_ARRAY(a, int, t->n_systems)};
    if (out->last == DAY_NONE) out->last = facts->start;
    out->idle = out->last != DAY_NONE && today - out->last >= STALL_DAYS;
    for (int s = 0; s < t->n_systems; s++) {
        bool begun = false, left = false;
        for (int j = 0; j < t->n_jobs; j++) {
            const struct trade_job *job = &t->jobs[j];
            if (job->system != s || !is_ours(facts, job, direction)) continue;
            bool finished = false;
            for (int i = 0; i < facts->n_works; i++)
                if (text_same_word(facts->works[i].job, job->head.id) && facts->works[i].finished)
                    finished = true;
            begun = begun || told->jobs[j].begun;
            left = left || (!finished && (told->jobs[j].begun || is_left(facts, job)));
        }
        if (begun && left) out->open[out->n_open++] = s;
    }
    out->frayed = out->n_open > STALL_SYSTEMS;
}

static const char *kept(struct arena *a, const char *text)
{
    return text ? arena_copy(a, text) : NULL;
}

/* All facts of a vehicle are read for a few lines: into memory of their own, given back at once,
 * because a yard asks this of forty vehicles. */
bool stall_read(struct arena *a, struct garage *g, const struct trade *t, const char *vehicle,
                day today, struct stall *out, struct fact_left_off *left_off, struct fail *f)
{
    struct arena own = arena_open((size_t)1 << 30);
    struct facts *facts = ARENA_NEW(&own, struct facts);
    struct facts_session told;
    const bool good = facts_read(g, &own, t, vehicle, facts, f) &&
                      facts_session_read(g, &own, t, vehicle, &told, f);
    if (good) {
        stall_of(a, t, facts, &told, reckoning_direction(facts, t), today, out);
        *left_off = told.left_off;
        left_off->note = kept(a, left_off->note);
        left_off->where = kept(a, left_off->where);
        left_off->photo = kept(a, left_off->photo);
    }
    arena_close(&own);
    return good;
}

static int by_due(const void *a, const void *b)
{
    const struct care_due *x = a, *y = b;
    if (x->due != y->due) return x->due < y->due ? -1 : 1;
    return strcmp(x->care->head.id, y->care->head.id);
}

int care_of(struct arena *a, const struct trade *t, const struct facts *facts,
            const struct facts_session *told, day today, struct care_due **out, int *n_due)
{
    int n = 0;
    *out = ARENA_ARRAY(a, struct care_due, t->n_cares);
    *n_due = 0;
    for (int i = 0; i < t->n_cares; i++) {
        const struct trade_care *c = &t->cares[i];
        bool applies = c->n_since == 0, over = false;
        day since = DAY_NONE;
        for (int k = 0; k < c->n_since; k++) {
            if (!told->jobs[c->since[k]].begun) continue;
            applies = true;
            if (told->jobs[c->since[k]].worked > since) since = told->jobs[c->since[k]].worked;
        }
        for (int k = 0; k < c->n_until; k++)
            for (int w = 0; w < facts->n_works; w++)
                over = over || (facts->works[w].finished &&
                                text_same_word(facts->works[w].job, t->jobs[c->until[k]].head.id));
        if (!applies || over || !fitted_holds(&c->fitted, facts->answers)) continue;
        /* Never done, and nothing says since when: it is due at once. */
        day from = told->cared[i] != DAY_NONE ? told->cared[i] : since;
        day due = from == DAY_NONE ? today : from + c->every;
        (*out)[n++] = (struct care_due){c, due, told->cared[i]};
        *n_due += due <= today;
    }
    qsort(*out, (size_t)n, sizeof **out, by_due);
    return n;
}
