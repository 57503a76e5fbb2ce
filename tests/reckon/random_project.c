#include "reckon/random_project.h"

#include "base/random.h"
#include "base/text.h"
#include "reckon/belief.h"

#include <math.h>

enum { DICE_STREAM = 77, DAY_LONG = 1440 };

double dice_unit(struct dice *d)
{
    struct philox w = random_words(d->seed, DICE_STREAM, d->next / 4, 0);
    return random_unit(w.word[d->next++ % 4]);
}

int dice_between(struct dice *d, int least, int most)
{
    return least + (int)(dice_unit(d) * (most - least + 1));
}

bool dice_chance(struct dice *d, double p)
{
    return dice_unit(d) < p;
}

/* A middle between `least` and `most`, even in its logarithm, with unequal spreads; none is
 * sometimes spread. */
static struct spread some_spread(struct dice *d, double least, double most)
{
    double middle = least * pow(most / least, dice_unit(d));
    if (dice_chance(d, 0.1)) return (struct spread){middle, 0, 0};
    double below = 0.5 * dice_unit(d), above = 0.7 * dice_unit(d);
    return (struct spread){middle, below, above};
}

static uint64_t stream_of(struct arena *a, const char *what, int i)
{
    return text_hash(arena_print(a, "%s/%d", what, i));
}

static void add_components(struct arena *a, struct dice *d, struct project *p)
{
    int kinds = dice_between(d, 1, 12);
    p->components = ARENA_ARRAY(a, struct project_component, kinds * 4);
    p->kind_stream = ARENA_ARRAY(a, uint64_t, kinds);
    for (int k = 0; k < kinds; k++) {
        p->kind_stream[p->n_kinds++] = stream_of(a, "kind", k);
        double odds[COND_COUNT], sum = 0;
        for (int c = 0; c < COND_MISSING; c++) sum += odds[c] = dice_unit(d);
        for (int c = 0; c < COND_MISSING; c++) odds[c] /= sum;
        odds[COND_MISSING] = 0;
        double cut[COND_COUNT - 1];
        double shift = dice_unit(d) - 0.5, missing = 0.1 * dice_unit(d);
        belief_cuts(odds, shift, missing, cut);
        double state = 0.4 * dice_unit(d), kind_share = 0.5 * dice_unit(d);
        int places = dice_between(d, 1, 4);
        for (int i = 0; i < places; i++) {
            struct project_component *pc = &p->components[p->n_components];
            *pc = (struct project_component){
                .id = arena_print(a, "component-%d", p->n_components),
                .stream = stream_of(a, "component", p->n_components),
                .kind = k,
                .state = state,
                .kind_share = kind_share,
                .known = dice_chance(d, 0.3) ? dice_between(d, 0, COND_MISSING) : -1,
            };
            for (int c = 0; c < COND_COUNT - 1; c++) pc->cut[c] = cut[c];
            p->n_components++;
        }
    }
}

static void add_parts(struct arena *a, struct dice *d, struct project *p)
{
    p->n_parts = dice_between(d, 1, 40);
    p->parts = ARENA_ARRAY(a, struct project_part, p->n_parts);
    for (int i = 0; i < p->n_parts; i++) {
        struct spread price = some_spread(d, 100, 50000),
                      lead = some_spread(d, 200, 60.0 * DAY_LONG);
        p->parts[i] = (struct project_part){arena_print(a, "part-%d", i), stream_of(a, "part", i),
                                            price, lead};
    }
}

static struct range some_buys(struct dice *d, struct project *p)
{
    struct range r = {p->n_buys, dice_between(d, 1, 3)};
    for (int i = 0; i < r.count; i++) {
        int part = dice_between(d, 0, p->n_parts - 1), count = dice_between(d, 1, 4);
        p->buys[p->n_buys++] = (struct project_buy){part, count};
    }
    return r;
}

static struct range some_needs(struct dice *d, struct project *p)
{
    struct range r = {p->n_needs, dice_between(d, 1, 4)};
    for (int i = 0; i < r.count; i++)
        p->needs[p->n_needs++] = dice_between(d, 0, p->n_components - 1);
    return r;
}

/* Jobs before number `surveys` are surveys, and that number is the gate. */
static void add_job(struct arena *a, struct dice *d, unsigned with, int surveys, struct project *p)
{
    int j = p->n_jobs++;
    struct project_job *job = &p->jobs[j];
    *job = (struct project_job){
        .id = arena_print(a, "job-%d", j),
        .stream = stream_of(a, "job", j),
        .minutes = some_spread(d, 15, 1500),
        .hands = 1,
        .warm = -100,
        .chance = 1,
        .after = {p->n_after, 0},
    };
    bool gated = (with & RANDOM_GATE) != 0;
    job->survey = gated && j < surveys;
    job->gate = gated && j == surveys;
    for (int i = 0; j > 0 && i < dice_between(d, 0, 3); i++) {
        p->after[p->n_after++] = dice_between(d, j > 12 ? j - 12 : 0, j - 1);
        job->after.count++;
    }
    if (gated && j > surveys && dice_chance(d, 0.8)) {
        p->after[p->n_after++] = surveys;
        job->after.count++;
    }
    if (with & RANDOM_HELPERS && dice_chance(d, 0.1)) job->hands = 2;
    if (with & RANDOM_PLACE) {
        job->bay = dice_chance(d, 0.3);
        if (dice_chance(d, 0.2)) job->warm = 12;
    }
    if (with & RANDOM_UNBROKEN) job->unbroken = dice_chance(d, 0.2);
    if (with & RANDOM_WAITS && dice_chance(d, 0.3)) job->wait = some_spread(d, 60, 20.0 * DAY_LONG);
    if (with & RANDOM_PARTS && !job->gate && dice_chance(d, 0.5)) {
        job->buys = some_buys(d, p);
        job->parts_here = dice_chance(d, 0.1);
    }
    if (with & RANDOM_COMPONENTS && !job->gate) {
        if (dice_chance(d, 0.5)) {
            job->needs = some_needs(d, p);
            job->conditions = (unsigned)dice_between(d, 1, (1 << COND_COUNT) - 1);
            job->by_share = dice_chance(d, 0.5);
            job->chance = 0.5;
        }
        job->finished = dice_chance(d, 0.05);
    }
}

static void add_setbacks(struct arena *a, struct dice *d, unsigned with, struct project *p)
{
    int n = dice_between(d, 1, p->n_jobs);
    p->setbacks = ARENA_ARRAY(a, struct project_setback, n);
    p->steps = ARENA_ARRAY(a, struct project_step, 3 * n);
    for (int i = 0; i < n; i++) {
        struct project_setback *s = &p->setbacks[p->n_setbacks];
        int job = dice_between(d, 0, p->n_jobs - 1), steps = dice_between(d, 1, 3);
        bool each = dice_chance(d, 0.3);
        *s = (struct project_setback){
            .id = arena_print(a, "setback-%d", i),
            .stream = stream_of(a, "setback", i),
            .job = job,
            .each = each,
            .steps = {p->n_steps, steps},
        };
        p->n_setbacks++;
        for (int c = 0; c < COND_COUNT; c++) s->chance[c] = 0.5 * dice_unit(d);
        if (with & RANDOM_COMPONENTS && dice_chance(d, 0.6)) s->needs = some_needs(d, p);
        for (int k = 0; k < s->steps.count; k++) {
            struct project_step *step = &p->steps[p->n_steps++];
            *step = (struct project_step){.works = k + 1 < s->steps.count ? dice_unit(d) : 1};
            if (dice_chance(d, 0.8)) step->minutes = some_spread(d, 10, 600);
            if (with & RANDOM_WAITS && dice_chance(d, 0.3))
                step->wait = some_spread(d, 60, 10.0 * DAY_LONG);
            if (with & RANDOM_PARTS && dice_chance(d, 0.4)) step->buys = some_buys(d, p);
        }
    }
}

/* Two evenings a week and a longer Saturday, for four years. */
static void add_calendar(struct arena *a, struct dice *d, unsigned with, struct project *p)
{
    enum { WEEKS = 208 };
    static const struct {
        int day, from, to;
    } week[] = {{1, 19 * 60, 21 * 60 + 30}, {3, 19 * 60, 22 * 60}, {5, 9 * 60, 17 * 60}};
    p->sessions = ARENA_ARRAY(a, struct project_session, 3 * WEEKS);
    bool helper = (with & RANDOM_HELPERS) != 0, place = (with & RANDOM_PLACE) != 0;
    for (int w = 0; w < WEEKS; w++)
        for (int i = 0; i < 3; i++) {
            int day = (w * 7 + week[i].day) * DAY_LONG;
            double season = -cos(2 * 3.14159265358979 * w / 52);
            int late = dice_between(d, 0, 60), early = dice_between(d, 0, 60);
            bool helped = dice_chance(d, 0.15) && helper, taken = dice_chance(d, 0.2) && place;
            p->sessions[p->n_sessions++] = (struct project_session){
                .start = day + week[i].from + late,
                .end = day + week[i].to - early,
                .hands = helped ? dice_between(d, 2, 3) : 1,
                .bay = !taken,
                .degrees = place ? 12 + 9 * season : 20,
            };
        }
    p->kept = 0.5 + 0.5 * dice_unit(d);
    p->layoff_a_month = 0.1 * dice_unit(d);
    p->layoff = some_spread(d, 7.0 * DAY_LONG, 60.0 * DAY_LONG);
}

static void add_purse(struct arena *a, struct dice *d, struct project *p)
{
    enum { MONTHS = 48 };
    double all = 0;
    for (int i = 0; i < p->n_buys; i++)
        all += p->buys[i].count * p->parts[p->buys[i].part].price.middle;
    int32_t *payday = ARENA_ARRAY(a, int32_t, MONTHS);
    double *pay = ARENA_ARRAY(a, double, MONTHS);
    double monthly = all / dice_between(d, 4, 30);
    for (int m = 0; m < MONTHS; m++) {
        /* Half of them in the middle of a session, where the order of things matters most. */
        payday[m] = m * 43830 + dice_between(d, 0, 3000);
        for (int i = 0; m % 2 == 0 && i < p->n_sessions; i++) {
            if (p->sessions[i].start < payday[m]) continue;
            payday[m] = p->sessions[i].start + dice_between(d, 1, 100);
            break;
        }
        pay[m] = monthly;
    }
    double in_hand = all * 0.3 * dice_unit(d), reserve = monthly * dice_unit(d);
    double ceiling = all * (0.7 + 1.5 * dice_unit(d));
    p->purse = (struct project_purse){.in_hand = in_hand,
                                      .reserve = reserve,
                                      .ceiling = ceiling,
                                      .payday = payday,
                                      .pay = pay,
                                      .n_paydays = MONTHS};
}

struct project random_project(struct arena *a, uint64_t seed, unsigned with, int jobs)
{
    struct dice dice = {seed, 0}, *d = &dice;
    struct project p = {.kept = 1, .pace_sd = 1, .check_minutes = 7 * DAY_LONG, .purse.open = true};
    if (jobs == 0) jobs = dice_between(d, 5, 120);
    p.pace_share = 0.3 * dice_unit(d);
    p.state_share = 0.3 * dice_unit(d);
    p.jobs = ARENA_ARRAY(a, struct project_job, jobs);
    p.after = ARENA_ARRAY(a, int, 5 * jobs);
    p.needs = ARENA_ARRAY(a, int, 8 * jobs);
    p.buys = ARENA_ARRAY(a, struct project_buy, 12 * jobs);
    p.done = ARENA_ARRAY(a, int, jobs);
    if (with & RANDOM_COMPONENTS) add_components(a, d, &p);
    if (with & RANDOM_PARTS) add_parts(a, d, &p);
    int surveys = dice_between(d, 0, jobs / 5);
    while (p.n_jobs < jobs) add_job(a, d, with, surveys, &p);
    if (with & RANDOM_SETBACKS) add_setbacks(a, d, with, &p);
    if (with & RANDOM_CALENDAR) {
        add_calendar(a, d, with, &p);
    } else {
        p.sessions = ARENA_NEW(a, struct project_session);
        p.sessions[p.n_sessions++] = (struct project_session){0, NEVER - 1, 2 * jobs, true, 20};
    }
    if (with & RANDOM_PURSE) add_purse(a, d, &p);
    /* The end is the last job, or all of them. */
    if (dice_chance(d, 0.5))
        p.done[p.n_done++] = jobs - 1;
    else
        for (int j = 0; j < jobs; j++) p.done[p.n_done++] = j;
    return p;
}
