#include "model/build.h"

#include <math.h>
#include <string.h>

/* An answer of "don't know" counts as the usual one; returns which, or NULL. */
static const char *settle_answers(struct build *b)
{
    struct text unknown = {.arena = b->a};
    for (int i = 0; i < ANSWER_COUNT; i++) {
        b->out->answers[i] = b->facts->answers[i] >= 0 ? b->facts->answers[i] : 0;
        if (b->facts->answers[i] < 0)
            text_print(&unknown, "%s%s %s", unknown.length > 0 ? ", " : "",
                       answer_name((enum answer)i), answer_value((enum answer)i, 0));
    }
    if (b->facts->standing < 0)
        text_print(&unknown, "%s%g years standing", unknown.length > 0 ? ", " : "",
                   b->figures.standing_if_unknown);
    return unknown.length > 0 ? unknown.s : NULL;
}

static void note_coverage(struct build *b)
{
    for (int i = 0; i < b->t->n_coverage; i++) {
        const struct trade_coverage *c = &b->t->coverage[i];
        if (c->conditional && fitted_holds(&c->fitted, b->out->answers))
            build_note(b, "Not covered: %s. %s", c->head.name, c->text);
    }
}

static void note_loose(struct build *b, const char *what, const char *name, const char *kind,
                       const char *near)
{
    build_note(b,
               "The %s '%s' is kept, but nothing hangs on it: the trade data knows no such %s%s.",
               what, name, kind, near ? arena_print(b->a, " (did you mean '%s'?)", near) : "");
}

/* Facts are never refused for a name that the trade data does not know, but they move nothing, and
 * that is told. */
static void note_loose_facts(struct build *b)
{
    const struct facts *facts = b->facts;
    for (int i = 0; i < facts->n_findings; i++)
        if (facts->findings[i].kind < 0)
            note_loose(b, "finding on", facts->findings[i].component, "component",
                       trade_nearest_component(b->t, facts->findings[i].component));
    for (int i = 0; i < facts->n_works; i++) {
        bool known = false;
        for (int k = 0; k < b->t->n_jobs && !known; k++)
            known = text_same_word(b->t->jobs[k].head.id, facts->works[i].job);
        if (!known)
            note_loose(b, "time logged on", facts->works[i].job, "job",
                       trade_nearest(b->t, SUBJECT_JOBS, facts->works[i].job));
    }
    for (int i = 0; i < facts->n_orders; i++)
        if (facts->orders[i].part < 0)
            note_loose(b, "order of", facts->orders[i].name, "part",
                       trade_nearest(b->t, SUBJECT_PARTS, facts->orders[i].name));
    for (int i = 0; i < facts->met.n_loose; i++)
        build_note(b, "A setback that was told is kept, but nothing hangs on it: %s.",
                   facts->met.loose[i]);
    for (int i = 0; i < facts->met.n; i++) {
        const struct fact_setback *met = &facts->met.items[i];
        const int job = b->job_of[met->job];
        if (met->state == SETBACK_OPEN && (job < 0 || b->out->project.jobs[job].finished))
            build_note(b, "The open setback '%s' moves nothing: its job, %s, is %s.",
                       b->t->setbacks[met->setback].head.id, b->t->jobs[met->job].head.id,
                       job < 0 ? "not in this plan" : "told as finished");
    }
}

/* Sessions lose what a better rank has taken of them; what is left must be worth going out for. */
static void take_off(struct model *m, const struct taken *taken)
{
    enum { WORTH_GOING = 15 };
    struct project *p = &m->project;
    int kept = 0;
    for (int s = 0; s < p->n_sessions; s++) {
        struct project_session x = p->sessions[s];
        m->session_of[kept] = s;
        if (taken && s < taken->n_sessions) {
            if (taken->until[s] > x.start) x.start = taken->until[s];
            x.bay = taken->bays[s] < (m->facts->bays > 0 ? m->facts->bays : 1);
        }
        if (x.end - x.start >= WORTH_GOING) p->sessions[kept++] = x;
    }
    p->n_sessions = kept;
}

/* Calendar months, the first of them that of day 0. */
static void make_months(struct build *b)
{
    struct project *p = &b->out->project;
    int year, month, dom, n = (int)(b->figures.horizon_years * 12) + 2;
    day_to_civil(b->out->first, &year, &month, &dom);
    int32_t *begins = ARENA_ARRAY(b->a, int32_t, n);
    for (int k = 0; k < n; k++)
        begins[k] =
            (day_add_months(day_from_civil(year, month, 1), k) - b->out->first) * MINUTES_A_DAY;
    p->month = begins;
    p->n_months = n;
}

bool build_calendar(struct build *b, struct fail *f)
{
    const struct figures *g = &b->figures;
    struct project *p = &b->out->project;
    struct calendar_ask ask = {.first = b->out->first,
                               .days = (int)(g->horizon_years * 365.25),
                               .set_up = g->set_up,
                               .clear_up = g->clear_up,
                               .heated_least = g->heated_least,
                               .hours_if_unknown = g->hours_if_unknown};
    memcpy(ask.temperature, g->temperature, sizeof ask.temperature);
    struct calendar *c = &b->out->calendar;
    make_months(b);
    if (!calendar_make(b->a, b->facts, &ask, c, f)) return false;
    p->sessions = ARENA_ARRAY(b->a, struct project_session, c->n_sessions);
    memcpy(p->sessions, c->sessions, (size_t)c->n_sessions * sizeof *p->sessions);
    p->n_sessions = c->n_sessions;
    b->out->session_of = ARENA_ARRAY(b->a, int, c->n_sessions);
    take_off(b->out, b->ask->taken);
    if (p->n_sessions == 0)
        return fail_set(
            f, FAIL_INPUT,
            "calendar: vehicles of a better rank take every session; change a rank or add a slot");
    build_habit(b);
    p->check_minutes = g->check_days * MINUTES_A_DAY;
    if (c->hours_assumed)
        build_note(b,
                   "Hours a week are not known, so %g are taken. Mend with: fettle add workshop "
                   "hours-a-week=...",
                   g->hours_if_unknown);
    if (c->helper_assumed)
        build_note(b,
                   "Jobs for two wait for a helper: one is taken to come once a month%s. Mend "
                   "with: fettle add "
                   "helper-day ...",
                   b->facts->n_helpers > 0 ? " after the days that were told" : "");
    return true;
}

static bool build_vehicle(struct build *b, struct fail *f)
{
    if (!figures_read(b->t, &b->figures, f)) return false;
    const char *unknown = settle_answers(b);
    note_coverage(b); /* what is not covered stands first */
    if (unknown)
        build_note(
            b, "Not known, so the usual is taken: %s. Mend with: fettle change vehicle '%s' ...",
            unknown, b->facts->name);
    build_components(b);
    return true;
}

bool model_survey(struct arena *a, const struct trade *t, const struct facts *facts,
                  struct model *out, struct fail *f)
{
    *out = (struct model){.trade = t, .facts = facts, .direction = -1};
    struct build b = {.a = a, .t = t, .facts = facts, .out = out};
    return build_vehicle(&b, f);
}

bool model_with_purse(struct arena *a, const struct model *m, const struct model_ask *ask,
                      struct model *out, struct fail *f)
{
    struct build b = {.a = a, .t = m->trade, .facts = m->facts, .ask = ask, .out = out};
    *out = *m;
    out->notes = NULL; /* they were told by m, and its list is not ours to add to */
    out->n_notes = 0;
    out->notes_capacity = 0;
    out->project.purse = (struct project_purse){0};
    return build_purse(&b, f);
}

enum { FIRST_PLANNED = 1800, LAST_PLANNED = 2300 };

bool model_make(struct arena *a, const struct trade *t, const struct facts *facts,
                const struct model_ask *ask, struct model *out, struct fail *f)
{
    *out = (struct model){.trade = t, .facts = facts, .direction = ask->direction};
    struct build b = {.a = a, .t = t, .facts = facts, .ask = ask, .out = out};
    out->first = facts->start != DAY_NONE && facts->start > ask->today ? facts->start : ask->today;
    /* Days are known from 1700 to 2399; orders look back from the first one, the calendar reaches
     * ahead of it. */
    if (out->first < day_from_civil(FIRST_PLANNED, 1, 1) ||
        out->first > day_from_civil(LAST_PLANNED, 12, 31))
        return fail_set(
            f, FAIL_INPUT,
            "plan: its first day must be in the years %d to %d; mend --date or workshop.start",
            FIRST_PLANNED, LAST_PLANNED);
    if (!build_vehicle(&b, f) || !build_money(&b, f) || !build_jobs(&b, f) ||
        !build_calendar(&b, f) || !build_purse(&b, f))
        return false;
    note_loose_facts(&b);
    return project_valid(&out->project, *a, f);
}
