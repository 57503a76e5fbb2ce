/* choose_change.c - one thing at a time: how far it would have to go for another choice to lead.
 * Means are lines in each of them, so that the place where they cross is exact on these draws. */
#include "shop/choose_inside.h"

#include <math.h>

enum {
    CHOICES_MOST = 32,
    GROUP_FEWEST =
        50, /* runs in which a component is bad, or is not: fewer tell no mean (practice) */
};

/* The one that then leads must do so beyond this many errors: many components are tried. */
static const double ERRORS = 3;

static void add_change(struct choosing *x, struct choose_change c)
{
    x->out->changes[x->out->n_changes++] = c;
}

/* Tries one line: every choice's mean gains slope * t. `now` + step * t is what is told. */
static void try_line(struct choosing *x, enum change_what what, const double *slope, double now,
                     double step)
{
    const struct choose *out = x->out;
    double at[CHOICES_MOST];
    struct decide_change change;
    for (int c = 0; c < out->n_choices; c++) at[c] = out->choices[c].value.mean;
    if (!decide_change_of(at, slope, out->n_choices, out->led_by, &change)) return;
    add_change(x, (struct choose_change){what, now, now + step * change.t, change.to, NULL});
}

static void try_one(struct choosing *x, enum change_what what, int choice, double gains, double now,
                    double step)
{
    double slope[CHOICES_MOST] = {0};
    slope[choice] = gains;
    try_line(x, what, slope, now, step);
}

/* Worth as it is told to the builder: the middle of the band, which goes with the mean. */
static double middle_of(const struct choose *out, int choice)
{
    int d = out->choices[choice].direction;
    return d >= 0 ? out->directions[d].worth.band.middle : 0;
}

static void try_worths(struct choosing *x)
{
    struct choose *out = x->out;
    int leading = out->led_by, runner = out->runner, n = out->n_changes;
    double middle = middle_of(out, leading), mean = out->choices[leading].part[PART_WORTH];
    if (middle > 0) {
        try_one(x, CHANGE_WORTH, leading, -1, middle, -middle / mean);
        if (out->n_changes > n && out->changes[n].at <= 0) out->n_changes = n; /* never so low */
    }
    if (out->choices[leading].direction >= 0)
        try_one(x, CHANGE_BILL, leading, -1,
                out->directions[out->choices[leading].direction].cost.mean, 1);
    middle = middle_of(out, runner);
    mean = out->choices[runner].part[PART_WORTH];
    if (middle > 0) try_one(x, CHANGE_OTHER_WORTH, runner, 1, middle, middle / mean);
}

/* What each choice has of a thing that the builder could weigh otherwise. */
static double amount_of(const struct choosing *x, enum change_what what, int choice)
{
    const struct choose *out = x->out;
    const struct fact_instead *other = &x->more->instead;
    int at = out->choices[choice].direction;
    int d = at >= 0 ? at : trade_find_direction(x->ask->trade, "sell");
    const struct choose_direction *to = &out->directions[d];
    switch (what) {
    case CHANGE_RATE:
        return -to->hours.mean - (at < 0 ? other->hours : 0);
    case CHANGE_MONTH:
        return -to->months - (at < 0 ? other->months : 0);
    case CHANGE_KEEPING:
        return text_is(to->direction->head.id, "sell") ? 0 : to->direction->original;
    case CHANGE_DRIVING:
        return at < 0 ? 1 : to->direction->driven ? 1 - to->never : 0;
    default:
        return 0;
    }
}

static void try_weights(struct choosing *x)
{
    const struct {
        enum change_what what;
        double now;
    } weights[] = {
        {CHANGE_RATE, x->out->own_rate},
        {CHANGE_MONTH, x->more->month},
        {CHANGE_KEEPING, x->more->original},
        {CHANGE_DRIVING, x->more->driving},
    };
    for (size_t k = 0; k < sizeof weights / sizeof *weights; k++) {
        double slope[CHOICES_MOST];
        for (int c = 0; c < x->out->n_choices; c++) slope[c] = amount_of(x, weights[k].what, c);
        try_line(x, weights[k].what, slope, weights[k].now, 1);
    }
}

/* ---- the chance that a component is bad ---- */

struct split {
    int bad;
    double mean[2][CHOICES_MOST]; /* not bad, bad */
};

static struct split split_of(const struct choosing *x, const uint8_t *condition)
{
    struct split s = {0};
    size_t runs = (size_t)x->ask->runs;
    for (size_t i = 0; i < runs; i++) s.bad += condition[i] >= COND_POOR;
    for (int c = 0; c < x->n_values; c++) {
        const double *v = x->value + (size_t)c * runs;
        double sum[2] = {0};
        for (size_t i = 0; i < runs; i++) sum[condition[i] >= COND_POOR] += v[i];
        s.mean[1][c] = sum[1] / fmax(1, s.bad);
        s.mean[0][c] = sum[0] / fmax(1, (double)runs - s.bad);
    }
    return s;
}

/* In the runs of that group the other choice is better than the leading one, beyond chance. */
static bool sure(const struct choosing *x, const uint8_t *condition, bool bad, int to)
{
    size_t runs = (size_t)x->ask->runs;
    const double *leading = x->value + (size_t)x->out->led_by * runs;
    const double *other = x->value + (size_t)to * runs;
    double sum = 0, squares = 0;
    int n = 0;
    for (size_t i = 0; i < runs; i++) {
        if ((condition[i] >= COND_POOR) != bad) continue;
        double gains = other[i] - leading[i];
        sum += gains;
        squares += gains * gains;
        n++;
    }
    double mean = sum / n, error = sqrt(fmax(0, squares / n - mean * mean) / n);
    return mean > ERRORS * error;
}

static double distance_of(const struct choose_change *c)
{
    return fabs(c->at - c->now);
}

/* The components of which the nearest chances would change the choice. */
static void try_components(struct choosing *x)
{
    struct choose *out = x->out;
    const struct reckoned *r = &x->r[out->leading];
    const struct project *p = &r->model.project;
    int runs = x->ask->runs, first = out->n_changes;
    for (int i = 0; i < p->n_components; i++) {
        if (p->components[i].known >= 0) continue;
        const uint8_t *condition = r->forecast.condition + (size_t)i * (size_t)runs;
        struct split s = split_of(x, condition);
        if (s.bad < GROUP_FEWEST || runs - s.bad < GROUP_FEWEST) continue;
        double now = (double)s.bad / runs;
        struct decide_change change;
        if (!decide_break_even(s.mean[1], s.mean[0], x->n_values, now, &change)) continue;
        if (!sure(x, condition, change.t > now, change.to)) continue;
        struct choose_change c = {CHANGE_COMPONENT, now, change.t, change.to, p->components[i].id};
        int at = out->n_changes; /* nearest first */
        while (at > first && distance_of(&out->changes[at - 1]) > distance_of(&c)) at--;
        if (at - first >= CHOOSE_COMPONENTS) continue;
        if (out->n_changes - first < CHOOSE_COMPONENTS) out->n_changes++;
        for (int k = out->n_changes - 1; k > at; k--) out->changes[k] = out->changes[k - 1];
        out->changes[at] = c;
    }
}

void choose_changes(struct choosing *x)
{
    enum { LINES = 7 };
    x->out->changes = ARENA_ARRAY(x->a, struct choose_change, LINES + CHOOSE_COMPONENTS);
    if (!x->out->compared) return;
    try_worths(x);
    try_weights(x);
    try_components(x);
}
