/* pace.c - what the logged hours say of the builder's pace, by kind of work, and of the sessions
 * that happen. */
#include "model/build.h"

#include "model/choice.h"

#include <math.h>

/* ---- pace ---- */

struct done {
    double minutes;
    bool finished, setback;
};

/* By vehicle and job of the trade data. */
static struct done *sum_up(struct build *b)
{
    const struct facts *facts = b->facts;
    const int n = b->t->n_jobs;
    struct done *all = ARENA_ARRAY(b->a, struct done, facts->pace.vehicles * n);
    for (int i = 0; i < facts->pace.n; i++) {
        const struct fact_logged *l = &facts->pace.items[i];
        if (l->job < 0) continue;
        struct done *d = &all[l->vehicle * n + l->job];
        d->minutes += l->minutes;
        d->finished |= l->finished;
        d->setback |= l->setback;
    }
    for (int i = 0; i < facts->met.n && facts->pace.vehicles > 0; i++)
        all[facts->met.items[i].job].setback = true;
    return all;
}

/* Of a job that grows with the share of its components that want it: as far as that is known. */
static double share_of(const struct project *p, double (*odds)[COND_COUNT],
                       const struct project_job *job)
{
    double sum = 0;
    if (!job->by_share || job->needs.count == 0) return 1;
    for (int i = 0; i < job->needs.count; i++)
        for (int c = 0; c < COND_COUNT; c++)
            if (job->conditions >> c & 1) sum += odds[p->needs[job->needs.first + i]][c];
    return fmax(sum, 1) / job->needs.count; /* one at least wanted it, or it was not done */
}

static struct points estimate(struct build *b, int vehicle, int job)
{
    const struct trade_job *t = &b->t->jobs[job];
    const int j = vehicle == 0 ? b->job_of[job] : -1;
    if (j < 0) return points_scale(t->hours, 60);
    const struct chosen_work chosen = choice_work(b->a, b->t, &b->facts->buy, b->wanted, job);
    const struct points hours = chosen.any ? chosen.hours : t->hours;
    return points_scale(hours,
                        60 * share_of(&b->out->project, b->out->odds, &b->out->project.jobs[j]));
}

static void add_cells(struct build *b, struct pace_cell *cells, int *n_cells)
{
    struct model_pace *out = &b->out->pace;
    const struct done *all = sum_up(b);
    for (int v = 0; v < b->facts->pace.vehicles; v++)
        for (int job = 0; job < b->t->n_jobs; job++) {
            const struct trade_job *t = &b->t->jobs[job];
            const struct done d = all[v * b->t->n_jobs + job];
            if (!d.finished || d.minutes <= 0) continue;
            /* How much of it there was to do on another vehicle is not known here. */
            if (d.setback || (v > 0 && t->by_share)) {
                out->left_out++;
                continue;
            }
            const struct points points = estimate(b, v, job);
            struct pace_cell *c = cells;
            while (c < cells + *n_cells && (c->vehicle != v || c->kind != t->system)) c++;
            if (c == cells + *n_cells) {
                *c = (struct pace_cell){.vehicle = v, .kind = t->system};
                ++*n_cells;
            }
            pace_log_add(&c->log, points, d.minutes);
            struct model_pace_kind *kind = &out->kinds[t->system];
            kind->jobs++;
            kind->logged += d.minutes;
            kind->estimated += points.middle;
        }
}

void build_pace(struct build *b)
{
    struct project *p = &b->out->project;
    struct model_pace *out = &b->out->pace;
    const int kinds = b->t->n_systems;
    const struct pace_shares shares = {b->figures.pace_share, b->figures.state_share,
                                       b->figures.work_share};
    struct pace_cell *cells = ARENA_ARRAY(b->a, struct pace_cell, b->facts->pace.vehicles * kinds);
    int n_cells = 0;
    *out = (struct model_pace){.shares = shares,
                               .kinds = ARENA_ARRAY(b->a, struct model_pace_kind, kinds)};
    if (b->facts->pace.n > 0) add_cells(b, cells, &n_cells);
    out->learned = pace_learn(b->a, shares, cells, n_cells, b->facts->pace.vehicles, kinds);
    p->pace_share = shares.pace;
    p->state_share = shares.state;
    p->work_share = shares.kind;
    p->pace_mean = out->learned.mean[0];
    p->pace_sd = out->learned.root[0];
    p->n_works = kinds;
    p->work_mean = out->learned.mean + 1;
    p->work_root = out->learned.root + out->learned.n;
    p->work_stream = ARENA_ARRAY(b->a, uint64_t, kinds);
    for (int i = 0; i < kinds; i++)
        p->work_stream[i] = text_hash(arena_print(b->a, "work/%s", b->t->systems[i].head.id));
    for (int j = 0; j < p->n_jobs; j++) p->jobs[j].work = b->t->jobs[b->out->trade_job[j]].system;
}

/* ---- sessions ---- */

static bool is_away(const struct facts *facts, day d)
{
    for (int i = 0; i < facts->n_aways; i++)
        if (d >= facts->aways[i].from && d <= facts->aways[i].to) return true;
    return false;
}

static bool worked_on(const struct facts *facts, day d)
{
    for (int i = 0; i < facts->pace.n; i++)
        if (facts->pace.items[i].date == d) return true;
    return false;
}

/* Whole weeks from that of the first hours to the last one before today. */
static int list_weeks(struct build *b, struct habit_week **out)
{
    const struct facts *facts = b->facts;
    const struct calendar *c = &b->out->calendar;
    const day today = b->ask->today;
    day first = today;
    for (int i = 0; i < facts->pace.n; i++)
        if (facts->pace.items[i].date != DAY_NONE && facts->pace.items[i].date < first)
            first = facts->pace.items[i].date;
    /* Before the day on which work was to begin nothing was planned. */
    if (facts->start != DAY_NONE && facts->start > first) first = facts->start;
    first -= day_of_week(first);
    const int n = first < today ? (today - first) / 7 : 0;
    *out = ARENA_ARRAY(b->a, struct habit_week, n);
    for (int w = 0; w < n; w++)
        for (day d = first + 7 * w; d < first + 7 * (w + 1); d++) {
            for (int i = 0; i < c->n_week && !is_away(facts, d); i++)
                if (c->week[i].weekday == day_of_week(d)) {
                    (*out)[w].planned++;
                    break;
                }
            (*out)[w].done += worked_on(facts, d);
        }
    return n;
}

void build_habit(struct build *b)
{
    /* Mark of the weights: practice. A prior is worth this much of what is seen. */
    enum { SESSIONS_WORTH = 20, MONTHS_WORTH = 20, LAYOFFS_WORTH = 2 };
    const struct figures *g = &b->figures;
    struct project *p = &b->out->project;
    const double told = b->facts->sessions_kept > 0 ? b->facts->sessions_kept : g->sessions_kept;
    struct habit_week *weeks;
    const int n = list_weeks(b, &weeks);
    const struct habit_prior prior = {.kept = fmin(told, 0.98),
                                      .kept_sessions = SESSIONS_WORTH,
                                      .layoffs_a_month = g->layoff_a_month,
                                      .layoff_months = MONTHS_WORTH,
                                      .layoff_weeks = g->layoff_weeks.middle,
                                      .layoff_count = LAYOFFS_WORTH};
    const struct habit h = habit_learn(prior, weeks, n);
    b->out->pace.habit = h;
    p->kept = h.planned > 0 ? habit_kept(&h) : told;
    p->layoff_a_month = fmin(1, h.layoffs_a_month);
    p->layoff = spread_of(g->layoff_weeks, 7.0 * MINUTES_A_DAY);
    p->layoff.middle *= h.layoff_weeks / g->layoff_weeks.middle;
}
