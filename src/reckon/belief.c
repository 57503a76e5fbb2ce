#include "reckon/belief.h"

#include "base/random.h"

#include <assert.h>
#include <math.h>
#include <string.h>

static const double STATE_LOW = -6.0, STATE_STEP = 12.0 / (BELIEF_STATES - 1);
static const double KIND_LOW = -5.0, KIND_STEP = 10.0 / (BELIEF_KINDS - 1);

static double grid_state(int i)
{
    return STATE_LOW + STATE_STEP * i;
}

static double grid_kind(int i)
{
    return KIND_LOW + KIND_STEP * i;
}

static double density(double z)
{
    return exp(-0.5 * z * z);
}

static double quantile_of(double p)
{
    return p <= 0 ? -INFINITY : p >= 1 ? INFINITY : normal_quantile(p);
}

void belief_cuts(const double odds[COND_COUNT], double shift, double missing,
                 double cut[COND_COUNT - 1])
{
    assert(missing >= 0 && missing < 1);
    double sum = 0;
    for (int c = COND_SOUND; c < COND_MISSING; c++) {
        sum += odds[c];
        double below = sum > 1 - 1e-9 ? 1 : normal_cdf(quantile_of(sum) - shift);
        if (c == COND_FAILED) below = 1;
        cut[c] = quantile_of(below * (1 - missing));
    }
}

void belief_odds_of_cuts(const double cut[COND_COUNT - 1], double odds[COND_COUNT])
{
    double before = 0;
    for (int c = 0; c < COND_COUNT; c++) {
        double upto = c < COND_COUNT - 1 ? normal_cdf(cut[c]) : 1;
        odds[c] = upto > before ? upto - before : 0;
        before = upto;
    }
}

/* Adds weight x P(condition | centre and spread of z) to each of the odds. */
static void add_odds(const struct project_component *pc, double centre, double spread,
                     double weight, double odds[COND_COUNT])
{
    double before = 0;
    for (int c = 0; c < COND_COUNT; c++) {
        double upto = c < COND_COUNT - 1 ? normal_cdf((pc->cut[c] - centre) / spread) : 1;
        if (upto > before) odds[c] += weight * (upto - before);
        before = upto;
    }
}

/* P(condition c | centre and spread of z). */
static double cell(const struct project_component *pc, int c, double centre, double spread)
{
    double upto = c < COND_COUNT - 1 ? normal_cdf((pc->cut[c] - centre) / spread) : 1;
    double before = c > 0 ? normal_cdf((pc->cut[c - 1] - centre) / spread) : 0;
    return upto > before ? upto - before : 0;
}

static double own_spread(const struct project_component *pc)
{
    return sqrt(1 - pc->state - pc->kind_share);
}

/* What is known of the miles, as far as odds go: their doublings taken as normal. A run draws them
 * as they are. */
struct doublings {
    double mean, variance;
};

static struct doublings doublings_of(const struct project *p)
{
    struct doublings d = {0};
    for (int i = 0; i < p->n_doublings; i++) d.mean += p->doublings[i] / p->n_doublings;
    for (int i = 0; i < p->n_doublings; i++)
        d.variance += (p->doublings[i] - d.mean) * (p->doublings[i] - d.mean) / p->n_doublings;
    return d;
}

static double worn_spread(const struct project_component *pc, double spread, struct doublings d)
{
    return sqrt(spread * spread + pc->wear * pc->wear * d.variance);
}

struct kind_members {
    int known, all, first; /* first: a known one */
};

/* Likelihood of the findings of one kind for each state; where siblings are unseen, also K's
 * posterior. */
static void kind_likelihood(struct arena *a, const struct project *p, int kind,
                            struct kind_members members, double like[BELIEF_STATES], float **table)
{
    const struct doublings miles = doublings_of(p);
    if (members.all == 1) {
        const struct project_component *pc = &p->components[members.first];
        for (int s = 0; s < BELIEF_STATES; s++)
            like[s] = cell(pc, pc->known, sqrt(pc->state) * grid_state(s) + pc->wear * miles.mean,
                           worn_spread(pc, sqrt(1 - pc->state), miles));
        return;
    }
    float *sums = ARENA_ARRAY(a, float, BELIEF_STATES *BELIEF_KINDS);
    for (int s = 0; s < BELIEF_STATES; s++) {
        double total = 0, norm = 0;
        double weight[BELIEF_KINDS];
        for (int k = 0; k < BELIEF_KINDS; k++) {
            double w = density(grid_kind(k));
            norm += w;
            for (int i = members.first; i < p->n_components && w > 0; i++) {
                const struct project_component *pc = &p->components[i];
                if (pc->kind != kind || pc->known < 0) continue;
                double centre = sqrt(pc->state) * grid_state(s) +
                                sqrt(pc->kind_share) * grid_kind(k) + pc->wear * miles.mean;
                w *= cell(pc, pc->known, centre, worn_spread(pc, own_spread(pc), miles));
            }
            weight[k] = w;
            total += w;
        }
        like[s] = total / norm;
        double sum = 0;
        for (int k = 0; k < BELIEF_KINDS; k++) {
            sum += total > 0 ? weight[k] / total : density(grid_kind(k)) / norm;
            sums[s * BELIEF_KINDS + k] = (float)sum;
        }
    }
    if (members.known < members.all) *table = sums;
}

struct belief belief_of(struct arena *a, const struct project *p)
{
    struct belief b = {0};
    b.kind_sum = ARENA_ARRAY(a, float *, p->n_kinds);
    struct kind_members *members = ARENA_ARRAY(a, struct kind_members, p->n_kinds);
    for (int i = 0; i < p->n_components; i++) {
        struct kind_members *m = &members[p->components[i].kind];
        m->all++;
        if (p->components[i].known >= 0 && m->known++ == 0) m->first = i;
    }
    b.unseen = ARENA_ARRAY(a, struct belief_unseen, p->n_components);
    b.unseen_stream = ARENA_ARRAY(a, uint64_t, p->n_components);
    for (int i = 0; i < p->n_components; i++) {
        const struct project_component *pc = &p->components[i];
        if (pc->known >= 0) continue;
        bool alone = members[pc->kind].all == 1;
        b.unseen_stream[b.n_unseen] = pc->stream;
        b.unseen[b.n_unseen++] =
            (struct belief_unseen){.component = i,
                                   .alone = alone,
                                   .state = sqrt(pc->state),
                                   .kind = alone ? 0 : sqrt(pc->kind_share),
                                   .own = alone ? sqrt(1 - pc->state) : own_spread(pc)};
    }
    double log_weight[BELIEF_STATES];
    for (int s = 0; s < BELIEF_STATES; s++) log_weight[s] = -0.5 * grid_state(s) * grid_state(s);
    for (int kind = 0; kind < p->n_kinds; kind++) {
        if (members[kind].known == 0) continue;
        double like[BELIEF_STATES], best = 0;
        kind_likelihood(a, p, kind, members[kind], like, &b.kind_sum[kind]);
        for (int s = 0; s < BELIEF_STATES; s++) best = like[s] > best ? like[s] : best;
        if (best <= 0)
            continue; /* a finding that its odds call impossible is kept, and tells nothing more */
        for (int s = 0; s < BELIEF_STATES; s++) log_weight[s] += log(fmax(like[s] / best, 1e-300));
        b.informed = true;
    }
    double top = -INFINITY, total = 0, sum = 0;
    for (int s = 0; s < BELIEF_STATES; s++) top = fmax(top, log_weight[s]);
    for (int s = 0; s < BELIEF_STATES; s++) total += exp(log_weight[s] - top);
    for (int s = 0; s < BELIEF_STATES; s++) {
        b.state_weight[s] = exp(log_weight[s] - top) / total;
        b.state_sum[s] = sum += b.state_weight[s];
    }
    return b;
}

double belief_state(const struct belief *b, double u)
{
    if (!b->informed) return normal_quantile(u);
    int low = 0, high = BELIEF_STATES - 1;
    while (low < high) {
        int middle = (low + high) / 2;
        if (b->state_sum[middle] < u)
            low = middle + 1;
        else
            high = middle;
    }
    double inside = (u - (b->state_sum[low] - b->state_weight[low])) / b->state_weight[low];
    return grid_state(low) + STATE_STEP * (fmin(fmax(inside, 0), 1) - 0.5);
}

static int nearest_state(double state)
{
    int s = (int)lround((state - STATE_LOW) / STATE_STEP);
    return s < 0 ? 0 : s >= BELIEF_STATES ? BELIEF_STATES - 1 : s;
}

double belief_kind(const struct belief *b, int kind, double state, double u)
{
    const float *sums = b->kind_sum[kind];
    if (!sums) return normal_quantile(u);
    sums += nearest_state(state) * BELIEF_KINDS;
    int low = 0, high = BELIEF_KINDS - 1;
    while (low < high) {
        int middle = (low + high) / 2;
        if ((double)sums[middle] < u)
            low = middle + 1;
        else
            high = middle;
    }
    double before = low > 0 ? (double)sums[low - 1] : 0;
    double inside = (u - before) / fmax((double)sums[low] - before, 1e-12);
    return grid_kind(low) + KIND_STEP * (fmin(fmax(inside, 0), 1) - 0.5);
}

void belief_odds(const struct belief *b, const struct project *p, int component,
                 double odds[COND_COUNT])
{
    const struct project_component *pc = &p->components[component];
    memset(odds, 0, COND_COUNT * sizeof *odds);
    if (pc->known >= 0) {
        odds[pc->known] = 1;
        return;
    }
    const float *sums = b->kind_sum[pc->kind];
    const struct doublings miles = doublings_of(p);
    for (int s = 0; s < BELIEF_STATES; s++) {
        double w = b->state_weight[s];
        double centre = sqrt(pc->state) * grid_state(s) + pc->wear * miles.mean;
        if (w < 1e-9) continue;
        if (!sums) {
            add_odds(pc, centre, worn_spread(pc, sqrt(1 - pc->state), miles), w, odds);
            continue;
        }
        for (int k = 0; k < BELIEF_KINDS; k++) {
            const float *row = sums + s * BELIEF_KINDS;
            double wk = w * (double)(row[k] - (k > 0 ? row[k - 1] : 0));
            if (wk < 1e-9) continue;
            add_odds(pc, centre + sqrt(pc->kind_share) * grid_kind(k),
                     worn_spread(pc, own_spread(pc), miles), wk, odds);
        }
    }
    double total = 0;
    for (int c = 0; c < COND_COUNT; c++) total += odds[c];
    for (int c = 0; c < COND_COUNT; c++) odds[c] /= total;
}
