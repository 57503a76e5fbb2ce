#include "library/check.h"

#include "base/text.h"
#include "library/check_clue.h"
#include "library/check_fit.h"
#include "library/check_gate.h"
#include "library/check_identity.h"
#include "library/cycle.h"

static const double WIDEST =
    4; /* high against middle of a job's hours, beyond which a setback hides in it */

#define FAULT(f, head, ...) fault_add((f), (head)->file, (head)->line, __VA_ARGS__)

static void check_mark(struct faults *f, const struct entry *head, enum mark mark,
                       const char *source, const char *prefix)
{
    if (mark == MARK_PUBLISHED && !source)
        FAULT(f, head, "'%s': %smark is published without %ssource; name it, or mark it memory",
              head->id, prefix, prefix);
}

static void check_marks(struct faults *f, const struct trade *t)
{
    for (int s = 0; s < SUBJECT_COUNT; s++) {
        if (s == SUBJECT_SOURCES) continue; /* they are what the others name */
        for (int i = 0; i < trade_count(t, (enum subject)s); i++) {
            const struct entry *head = trade_entry(t, (enum subject)s, i);
            check_mark(f, head, head->mark, head->source, "");
        }
    }
    for (int i = 0; i < t->n_jobs; i++) {
        const struct trade_job *job = &t->jobs[i];
        check_mark(f, &job->head, job->accept_mark, job->accept_source, "accept-");
        if (job->accept_mark != MARK_NONE && !job->accept)
            FAULT(f, &job->head, "'%s': accept-mark without accept; say when the job is good",
                  job->head.id);
    }
}

/* ---- circles
 * --------------------------------------------------------------------------------------------- */

struct circles {
    struct faults *faults;
    const struct trade *trade;
    enum subject subject;
    const char *key;
};

static void circle_tell(void *context, const int *circle, int length)
{
    const struct circles *c = context;
    struct text names = {.arena = c->faults->arena};
    for (int i = 0; i <= length && i < 12; i++)
        text_print(&names, "%s -> ", trade_entry(c->trade, c->subject, circle[i % length])->id);
    const struct entry *first = trade_entry(c->trade, c->subject, circle[0]);
    names.s[names.length - 4] = '\0';
    FAULT(c->faults, first, "%s: %s go in a circle: %s%s; take one out", c->key,
          subject_name(c->subject), text_get(&names), length > 11 ? " ..." : "");
}

static void check_circles(struct faults *f, const struct trade *t)
{
    struct links *after = ARENA_ARRAY(f->arena, struct links, t->n_jobs);
    struct links *members = ARENA_ARRAY(f->arena, struct links, t->n_places);
    struct links *parent = ARENA_ARRAY(f->arena, struct links, t->n_places);
    for (int i = 0; i < t->n_jobs; i++)
        after[i] = (struct links){t->jobs[i].after, t->jobs[i].n_after};
    for (int i = 0; i < t->n_places; i++) {
        const struct trade_place *p = &t->places[i];
        members[i] = (struct links){p->members, p->n_members};
        parent[i] = (struct links){&p->parent, p->parent >= 0};
    }
    struct circles of_jobs = {f, t, SUBJECT_JOBS, "after"};
    struct circles of_groups = {f, t, SUBJECT_PLACES, "members"};
    struct circles of_parents = {f, t, SUBJECT_PLACES, "parent"};
    cycles_find(f->arena, after, t->n_jobs, circle_tell, &of_jobs);
    cycles_find(f->arena, members, t->n_places, circle_tell, &of_groups);
    cycles_find(f->arena, parent, t->n_places, circle_tell, &of_parents);
}

/* ---- directions
 * ------------------------------------------------------------------------------------------ */

static void check_gate(struct faults *f, const struct trade *t, int direction)
{
    const struct entry *d = &t->directions[direction].head, *gate = NULL;
    for (int i = 0; i < t->n_jobs; i++) {
        const struct trade_job *job = &t->jobs[i];
        if (!job->gate || !(job->directions >> direction & 1)) continue;
        if (gate)
            FAULT(f, &job->head, "'%s': a second gate in direction '%s' beside '%s'; keep one",
                  job->head.id, d->id, gate->id);
        else
            gate = &job->head;
    }
    if (!gate) FAULT(f, d, "'%s': no job has gate: true; mark its decision job", d->id);
}

static void check_directions(struct faults *f, const struct trade *t)
{
    for (int i = 0; i < t->n_directions; i++) {
        const struct trade_direction *d = &t->directions[i];
        if (i >= DIRECTIONS_MAX) {
            FAULT(f, &d->head, "'%s': more than %d directions; leave one out", d->head.id,
                  DIRECTIONS_MAX);
            continue;
        }
        check_gate(f, t, i);
        for (int k = 0; k < d->n_done; k++) {
            const struct trade_job *job = &t->jobs[d->done[k]];
            if (job->directions != 0 && !(job->directions >> i & 1))
                FAULT(f, &d->head,
                      "'%s': done names '%s', which is no job of it; add the direction there",
                      d->head.id, job->head.id);
        }
    }
}

/* ---- jobs and setbacks
 * ----------------------------------------------------------------------------------- */

static void check_jobs(struct faults *f, const struct trade *t)
{
    for (int i = 0; i < t->n_jobs; i++) {
        const struct trade_job *job = &t->jobs[i];
        if (job->hours.high > WIDEST * job->hours.middle && job->n_excludes == 0)
            FAULT(f, &job->head,
                  "'%s': hours: high %g is over 4 x middle %g; take setbacks out and name them in "
                  "excludes",
                  job->head.id, job->hours.high, job->hours.middle);
        if (job->n_when > 0 && job->when_conditions == 0)
            FAULT(f, &job->head, "'%s': when: no condition; add worse-than: or is:", job->head.id);
    }
}

enum { LADDER_MOST = 8 };

static bool step_is_bound(const struct trade_step *s)
{
    for (int i = 0; i < BROKEN_COUNT; i++)
        if (s->when[i]) return true;
    return s->after > 0 || s->worse.chance > 0;
}

static void check_setbacks(struct faults *f, const struct trade *t)
{
    for (int i = 0; i < t->n_setbacks; i++) {
        const struct trade_setback *s = &t->setbacks[i];
        for (int k = 0; k < s->n_at; k++) {
            const struct trade_job *job = s->at[k].job < 0 ? NULL : &t->jobs[s->at[k].job];
            if (job && job->directions != 0 && s->at[k].directions & ~job->directions)
                FAULT(f, &s->head,
                      "'%s': at '%s' in a direction that has no such job; leave it out", s->head.id,
                      job->head.id);
            for (int c = 1; c < COND_COUNT && s->at[k].n_components == 0; c++)
                if (s->at[k].chance[c] != s->at[k].chance[0]) {
                    FAULT(f, &s->head,
                          "'%s': chance by condition, but of what? add components to at",
                          s->head.id);
                    break;
                }
        }
        if (s->n_ladder > LADDER_MOST)
            FAULT(f, &s->head, "'%s': %d steps; a ladder has at most %d", s->head.id, s->n_ladder,
                  LADDER_MOST);
        for (int k = 0; k < s->n_ladder; k++) {
            if (s->ladder[k].after > k)
                FAULT(f, &s->head, "'%s': step %d comes after step %d; name one before it",
                      s->head.id, k + 1, s->ladder[k].after);
            if (k == s->n_ladder - 1 && step_is_bound(&s->ladder[k]))
                FAULT(
                    f, &s->head,
                    "'%s': the last step must be open whatever broke; take its when and after out",
                    s->head.id);
            bool last = k == s->n_ladder - 1, sure = s->ladder[k].works >= 1;
            if (last && !sure)
                FAULT(f, &s->head, "'%s': the last step works %g; it must end the matter, works: 1",
                      s->head.id, s->ladder[k].works);
            if (!last && sure)
                FAULT(f, &s->head,
                      "'%s': step %d always works; what follows is never reached, take it out",
                      s->head.id, k + 1);
        }
    }
}

static void check_signs(struct faults *f, const struct trade *t)
{
    for (int i = 0; i < t->n_signs; i++) {
        const struct trade_sign *s = &t->signs[i];
        if ((s->n_components > 0) != (s->conditions != 0))
            FAULT(f, &s->head, "'%s': components and is belong together; add the other",
                  s->head.id);
    }
}

static void check_seal(struct faults *f, const struct trade_seal *s)
{
    const struct entry *h = &s->head;
    const bool glued = s->hold == HELD_BY_GLUE;
    if (glued ? s->from > 0 || s->to > 0 : s->from <= 0 || s->to <= 0)
        fault_add(f, h->file, h->line,
                  "'%s': from and to belong to what holds on a flange or in a "
                  "groove, both, and to that alone",
                  h->id);
    else if (s->from > s->to)
        fault_add(f, h->file, h->line, "'%s': from %g is above to %g; exchange them", h->id,
                  s->from, s->to);
}

void check_trade(struct faults *f, const struct trade *t)
{
    check_marks(f, t);
    check_circles(f, t);
    check_directions(f, t);
    check_jobs(f, t);
    check_setbacks(f, t);
    check_signs(f, t);
    check_clues(f, t);
    check_codebooks(f, t);
    check_rules(f, t);
    check_fit(f, t);
    check_gates(f, t);
    for (int i = 0; i < t->n_seals; i++) check_seal(f, &t->seals[i]);
}
