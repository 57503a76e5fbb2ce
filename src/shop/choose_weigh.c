/* choose_weigh.c - nets and values of the choices in every run, and which of them leads. */
#include "shop/choose_inside.h"

#include <math.h>
#include <string.h>

static const double DAYS_A_MONTH = 365.25 / 12;

/* Months from today; a run that never finishes counts as the end of the calendar. */
static double months_of(const struct reckoned *r, int run)
{
    const struct project *p = &r->model.project;
    int32_t at = r->forecast.finish[run];
    if (at == NEVER) at = p->sessions[p->n_sessions - 1].end;
    return (double)at / MINUTES_A_DAY / DAYS_A_MONTH;
}

/* What a choice is made of in one run, each as it counts. */
static void parts_of(const struct choosing *x, int d, int run, double part[PART_COUNT])
{
    const struct choose_direction *to = &x->out->directions[d];
    const struct reckoned *r = &x->r[d];
    const struct facts_worth *w = x->more;
    size_t runs = (size_t)x->ask->runs;
    bool finished = r->forecast.finish[run] != NEVER;
    part[PART_WORTH] = x->worth[(size_t)d * runs + (size_t)run];
    part[PART_BILL] = -r->forecast.cost[run];
    part[PART_HOURS] = -r->forecast.work[run] / 60 * x->out->own_rate;
    part[PART_TIME] = -w->month * months_of(r, run);
    /* Sold, it is as original as before, but that is another's. */
    part[PART_ORIGINAL] =
        text_is(to->direction->head.id, "sell") ? 0 : w->original * to->direction->original;
    part[PART_DRIVING] = to->direction->driven && finished ? w->driving : 0;
}

static double sum_of(const double part[PART_COUNT], int upto)
{
    double sum = 0;
    for (int k = 0; k < upto; k++) sum += part[k];
    return sum;
}

static void add_means(double mean[PART_COUNT], const double part[PART_COUNT], int runs)
{
    for (int k = 0; k < PART_COUNT; k++) mean[k] += part[k] / runs;
}

/* Net of a direction, and its value into `value`. */
static void weigh_direction(struct choosing *x, int d, double *value)
{
    struct choose_direction *to = &x->out->directions[d];
    int runs = x->ask->runs, ahead = 0;
    double *net = ARENA_ARRAY(x->a, double, runs);
    for (int i = 0; i < runs; i++) {
        double part[PART_COUNT];
        parts_of(x, d, i, part);
        net[i] = sum_of(part, PART_TIME);
        value[i] = sum_of(part, PART_COUNT);
        ahead += net[i] > x->worth_now[i];
        add_means(to->part, part, runs);
        to->months += months_of(&x->r[d], i) / runs;
    }
    to->worth_known = true;
    to->net_by_run = net;
    to->net = quantiles_of(net, (size_t)runs, *x->a);
    to->chance_ahead = (double)ahead / runs;
}

static double *next_value(struct choosing *x)
{
    return x->value + (size_t)x->n_values * (size_t)x->ask->runs;
}

static void add_choice(struct choosing *x, const char *name, int direction, const double *part)
{
    struct choose_choice *c = &x->out->choices[x->n_values];
    *c = (struct choose_choice){.name = name, .direction = direction};
    memcpy(c->part, part, sizeof c->part);
    c->value = quantiles_of(next_value(x), (size_t)x->ask->runs, *x->a);
    x->out->n_choices = ++x->n_values;
}

/* Sell this one, buy the other, finish it: all but the sale are the builder's own figures, each
 * with a stream of its own. */
static void weigh_instead(struct choosing *x)
{
    const struct fact_instead *other = &x->more->instead;
    int sell = trade_find_direction(x->ask->trade, "sell"), runs = x->ask->runs;
    if (!other->what || sell < 0 || !x->out->directions[sell].worth_known) return;
    struct arena scratch = *x->a;
    double *worth = ARENA_ARRAY(&scratch, double, runs);
    double *price = ARENA_ARRAY(&scratch, double, runs);
    double *bill = ARENA_ARRAY(&scratch, double, runs), *value = next_value(x);
    double mean[PART_COUNT] = {0};
    choose_draw(x, other->worth, "instead/worth", true, worth);
    choose_draw(x, other->price, "instead/price", true, price);
    choose_draw(x, other->bill, "instead/bill", false, bill);
    for (int i = 0; i < runs; i++) {
        double part[PART_COUNT];
        parts_of(x, sell, i, part);
        part[PART_WORTH] += worth[i];
        part[PART_BILL] -= price[i] + bill[i];
        part[PART_HOURS] -= other->hours * x->out->own_rate;
        part[PART_TIME] -= x->more->month * other->months;
        part[PART_DRIVING] = x->more->driving;
        value[i] = sum_of(part, PART_COUNT);
        add_means(mean, part, runs);
    }
    add_choice(x, "sell, and start from another", -1, mean);
}

static void lead(struct choosing *x)
{
    struct choose *out = x->out;
    out->leading = reckoning_direction(x->facts, x->ask->trade);
    out->led_by = out->runner = out->safest = -1;
    out->compared = x->n_values >= 2;
    if (!out->compared) return;
    struct decide d = decide_of(x->a, x->value, x->n_values, x->ask->runs);
    for (int c = 0; c < x->n_values; c++) out->choices[c].odds = d.choices[c];
    out->led_by = d.leading;
    out->runner = d.runner;
    out->safest = d.safest;
    out->ahead = d.ahead;
    out->ahead_error = d.ahead_error;
    int direction = out->choices[d.leading].direction;
    out->leading = direction >= 0 ? direction : trade_find_direction(x->ask->trade, "sell");
}

void choose_weigh(struct choosing *x)
{
    struct choose *out = x->out;
    size_t runs = (size_t)x->ask->runs;
    bool any_done = false;
    x->value = ARENA_ARRAY(x->a, double, runs *(size_t)(out->n_directions + 1));
    out->choices = ARENA_ARRAY(x->a, struct choose_choice, out->n_directions + 1);
    for (int d = 0; d < out->n_directions; d++)
        any_done = any_done || (out->directions[d].never <= CHOOSE_NEVER &&
                                out->directions[d].worth.from != WORTH_UNKNOWN);
    for (int d = 0; out->worth_now_known && d < out->n_directions; d++) {
        struct choose_direction *to = &out->directions[d];
        if (to->worth.from == WORTH_UNKNOWN) continue;
        weigh_direction(x, d, next_value(x));
        /* Where nothing can be finished, all are unfinished alike. */
        if (any_done && to->never > CHOOSE_NEVER) continue;
        to->choice = x->n_values;
        add_choice(x, to->direction->head.id, d, to->part);
    }
    weigh_instead(x);
    lead(x);
}
