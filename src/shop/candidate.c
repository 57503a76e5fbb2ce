#include "shop/candidate.h"

#include "garage/kinds.h"
#include "shop/candidate_parts.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

enum {
    GROUP_LEAST = 60, /* runs below which a quantile of a group is not told (practice) */
    MOVED_RUNS = 1000,
};

struct viewing {
    struct arena *a;
    const struct shop_ask *ask;
    const struct facts *facts;
    struct candidate *out;
    double *net; /* what each choice nets at the asked price, the first: walk away */
    int choices;
};

static double default_of(const struct trade *t, const char *id, double fallback)
{
    const struct trade_default *d = trade_find_default(t, id);
    return d && d->n_value > 0 ? d->value[0] : fallback;
}

/* ---- the highest price ---- */

/* What P(net >= x) = odds leaves for the seller: the (1 - odds) quantile, over the runs of a group
 * (NULL: all). NAN if they are too few. */
static double price_over(const struct viewing *x, const double *net, int runs, const uint8_t *group)
{
    struct arena scratch = *x->a;
    double *some = ARENA_ARRAY(&scratch, double, runs);
    size_t n = 0;
    for (int i = 0; i < runs; i++)
        if (!group || group[i]) some[n++] = net[i];
    if (n < (group ? GROUP_LEAST : 1)) return NAN;
    return quantile_of(some, n, fmax(1 - x->out->odds, 1.0 / (double)n)) -
           fmax(x->out->facts.carriage, 0);
}

static void price_directions(struct viewing *x)
{
    struct candidate *out = x->out;
    const struct choose *c = &out->choose;
    double spent = fmax(out->facts.asked, 0) + fmax(out->facts.carriage, 0);
    out->prices = ARENA_ARRAY(x->a, struct candidate_price, c->n_directions);
    out->best = -1;
    for (int d = 0; d < c->n_directions; d++) {
        const double *net = c->directions[d].net_by_run;
        out->prices[d] = (struct candidate_price){
            .direction = &c->directions[d], .known = net != NULL, .pays = -1};
        if (!net) continue;
        out->prices[d].price = price_over(x, net, c->runs, NULL);
        if (out->best < 0 || out->prices[d].price > out->prices[out->best].price) out->best = d;
        if (out->facts.asked < 0) continue;
        int pays = 0;
        for (int i = 0; i < c->runs; i++) pays += net[i] >= spent;
        out->prices[d].pays = (double)pays / c->runs;
    }
}

/* The highest price of all directions on the first runs; -1: no worths. */
static int best_on(const struct viewing *x, const struct choose *c, int runs, double *price)
{
    int best = -1;
    for (int d = 0; d < c->n_directions; d++) {
        if (!c->directions[d].net_by_run) continue;
        double p = price_over(x, c->directions[d].net_by_run, runs, NULL);
        if (best < 0 || p > *price) best = d, *price = p;
    }
    return best;
}

static bool price_before(struct viewing *x, struct fail *f)
{
    struct candidate *out = x->out;
    struct choose *before = ARENA_NEW(x->a, struct choose);
    struct shop_ask ask = *x->ask;
    if (out->best < 0 || x->facts->n_findings == 0) return true;
    ask.leave_out = x->ask->leave_out + 1;
    ask.progress = NULL;
    if (ask.runs > MOVED_RUNS) ask.runs = MOVED_RUNS;
    if (!choose_reckon(x->a, &ask, before, f)) return false;
    int best = best_on(x, before, ask.runs, &out->moved_before);
    if (best < 0) return true;
    out->moved = true;
    out->moved_by = x->facts->findings[x->facts->n_findings - 1].component;
    out->best_before = before->directions[best].direction;
    best_on(x, &out->choose, ask.runs, &out->moved_after);
    return true;
}

/* ---- signs ---- */

static bool names_kind(const struct trade_sign *s, int kind)
{
    for (int i = 0; i < s->n_components; i++)
        if (s->components[i] == kind) return true;
    return false;
}

/* The component that was found so, at each place the latest finding; NULL if there is none. */
static const char *found_by(const struct facts *facts, const struct trade_sign *s)
{
    for (int i = 0; i < facts->n_findings; i++) {
        const struct fact_finding *x = &facts->findings[i];
        bool later = false;
        if (x->kind < 0 || x->condition >= COND_COUNT || !names_kind(s, x->kind) ||
            !(s->conditions >> x->condition & 1))
            continue;
        for (int k = i + 1; k < facts->n_findings; k++)
            later |= facts->findings[k].kind == x->kind &&
                     (facts->findings[k].place < 0 || facts->findings[k].place == x->place);
        if (!later) return x->component;
    }
    return NULL;
}

enum told { TOLD_NOT, TOLD_CLEAR, TOLD_MET };

static enum told told_of(const struct facts_candidate *facts, int sign)
{
    enum told told = TOLD_NOT;
    for (int i = 0; i < facts->n_signs; i++)
        if (facts->signs[i].sign == sign) told = facts->signs[i].met ? TOLD_MET : TOLD_CLEAR;
    return told;
}

static const struct trade_place *lap_of(const struct trade *t, int place)
{
    while (t->places[place].parent >= 0) place = t->places[place].parent;
    return &t->places[place];
}

static void take_signs(struct viewing *x)
{
    const struct trade *t = x->ask->trade;
    struct candidate *out = x->out;
    out->met = ARENA_ARRAY(x->a, struct candidate_met, t->n_signs);
    for (int i = 0; i < t->n_signs; i++) {
        const struct trade_sign *s = &t->signs[i];
        const char *by = found_by(x->facts, s);
        enum told told = told_of(&out->facts, i);
        if (!fitted_holds(&s->fitted, x->facts->answers)) continue;
        if (by || told == TOLD_MET)
            out->met[out->met_count++] = (struct candidate_met){s, by};
        else if (told == TOLD_NOT) {
            out->stops[out->n_stops++] = (struct candidate_stop){.lap = lap_of(t, s->place),
                                                                 .place = &t->places[s->place],
                                                                 .minutes = s->minutes,
                                                                 .seen_by = s->seen_by,
                                                                 .sign = s,
                                                                 .if_good = NAN,
                                                                 .if_bad = NAN};
            out->minutes += s->minutes;
        }
    }
}

/* ---- looks ---- */

/* At the asked price walking away is a choice too, and it nets nothing. */
static void net_choices(struct viewing *x)
{
    const struct candidate *out = x->out;
    const struct choose *c = &out->choose;
    size_t runs = (size_t)c->runs;
    if (out->facts.asked < 0 || out->best < 0) return;
    x->net = ARENA_ARRAY(x->a, double, runs *(size_t)(c->n_directions + 1));
    x->choices = 1;
    for (int d = 0; d < c->n_directions; d++) {
        if (!c->directions[d].net_by_run) continue;
        double *net = x->net + runs * (size_t)x->choices++;
        for (size_t i = 0; i < runs; i++)
            net[i] =
                c->directions[d].net_by_run[i] - out->facts.asked - fmax(out->facts.carriage, 0);
    }
}

static double middle_of_group(const struct viewing *x, const double *column, int runs,
                              const uint8_t *group)
{
    struct arena scratch = *x->a;
    double *some = ARENA_ARRAY(&scratch, double, runs);
    size_t n = 0;
    for (int i = 0; i < runs; i++)
        if (group[i]) some[n++] = column[i];
    return n < GROUP_LEAST ? NAN : quantile_of(some, n, 0.5);
}

/* What the looks are to tell of, by run: the net of the best direction, without worths the bill. */
static const double *column_of(const struct candidate *c)
{
    return c->best >= 0 ? c->choose.directions[c->best].net_by_run
                        : c->choose.directions[c->choose.leading].cost_by_run;
}

/* Between what a look can show, less what chance alone would make of so many groups. */
static double moves(const int *shows, const double *column, int runs)
{
    double sum[COND_COUNT] = {0}, all = 0, squares = 0, between = 0;
    int n[COND_COUNT] = {0}, groups = 0;
    for (int i = 0; i < runs; i++) {
        sum[shows[i]] += column[i];
        n[shows[i]]++;
        all += column[i];
    }
    const double mean = all / runs;
    for (int i = 0; i < runs; i++) squares += (column[i] - mean) * (column[i] - mean);
    for (int g = 0; g < COND_COUNT; g++) {
        if (n[g] == 0) continue;
        groups++;
        between += n[g] * (sum[g] / n[g] - mean) * (sum[g] / n[g] - mean);
    }
    between -= (groups - 1) * squares / runs;
    return sqrt(fmax(0, between / runs));
}

static void weigh(struct viewing *x, struct candidate_stop *s)
{
    struct arena scratch = *x->a;
    const struct choose *c = &x->out->choose;
    int *shows = ARENA_ARRAY(&scratch, int, c->runs), bad = 0;
    s->worth = s->look->worth;
    for (int i = 0; i < c->runs; i++) {
        shows[i] = s->look->shows[i];
        bad += shows[i] >= COND_POOR;
    }
    s->bad = (double)bad / c->runs;
    s->moves = moves(shows, column_of(x->out), c->runs);
    if (x->choices == 0) return;
    const struct look look = {.runs = c->runs, .shows = shows, .outcomes = COND_COUNT};
    s->worth = look_worth_of(&look, x->net, x->choices, scratch);
}

/* Standard error of the difference of two groups' quantiles, as if the column were normal: that of
 * a 30 % one is 1.32 times that of a mean, of a middle 1.25 times. */
static const double QUANTILE_ERROR = 1.32;

static void swing(struct viewing *x, struct candidate_stop *s)
{
    struct arena scratch = *x->a;
    const struct choose *c = &x->out->choose;
    const double *column = column_of(x->out);
    uint8_t *group = ARENA_ARRAY(&scratch, uint8_t, c->runs);
    const struct viewing inside = {.a = &scratch, .out = x->out};
    double side[2];
    for (int is_bad = 0; is_bad < 2; is_bad++) {
        for (int i = 0; i < c->runs; i++)
            group[i] = (s->look->shows[i] >= COND_POOR) == (is_bad == 1);
        side[is_bad] = x->out->best >= 0 ? price_over(&inside, column, c->runs, group)
                                         : middle_of_group(&inside, column, c->runs, group);
    }
    double sd = quantiles_of(column, (size_t)c->runs, scratch).sd;
    double error = QUANTILE_ERROR * sd / sqrt(c->runs * s->bad * (1 - s->bad));
    bool tells = fabs(side[0] - side[1]) > 2 * error; /* false for NAN */
    s->if_good = tells ? side[0] : NAN;
    s->if_bad = tells ? side[1] : NAN;
}

/* First what could change the choice, by its gain for its minutes; then what moves the net (or the
 * bill), by variance for its minutes, for variances are what adds up. */
static int by_gain(const void *a, const void *b)
{
    const struct candidate_stop *x = a, *y = b;
    const double gx = x->worth.tells ? x->worth.gain / x->minutes : 0,
                 gy = y->worth.tells ? y->worth.gain / y->minutes : 0,
                 vx = x->moves * x->moves / x->minutes, vy = y->moves * y->moves / y->minutes;
    if (gx != gy) return gx > gy ? -1 : 1;
    if (vx != vy) return vx > vy ? -1 : 1;
    return strcmp(x->look->component, y->look->component);
}

static const struct trade_glance *glance_of(const struct trade *t, int kind)
{
    for (int i = 0; i < t->n_glances; i++)
        if (t->glances[i].component == kind) return &t->glances[i];
    return NULL;
}

/* What was told today took its minutes. */
static void sum_spent(struct viewing *x)
{
    const struct trade *t = x->ask->trade;
    struct candidate *out = x->out;
    for (int i = 0; i < x->facts->n_findings; i++) {
        const struct fact_finding *found = &x->facts->findings[i];
        const struct trade_glance *g = found->kind >= 0 ? glance_of(t, found->kind) : NULL;
        if (!g || found->date != x->ask->today) continue;
        out->minutes_spent += g->minutes;
        out->looks_spent++;
    }
    for (int i = 0; i < out->facts.n_signs; i++)
        if (out->facts.signs[i].sign >= 0 && out->facts.signs[i].date == x->ask->today)
            out->minutes_spent += t->signs[out->facts.signs[i].sign].minutes;
}

static const struct trade_sign *sign_met_by(const struct viewing *x, const struct choose_look *l)
{
    const struct trade *t = x->ask->trade;
    for (int i = 0; i < t->n_signs; i++)
        if (names_kind(&t->signs[i], (int)(l->kind - t->components)) &&
            fitted_holds(&t->signs[i].fitted, x->facts->answers))
            return &t->signs[i];
    return NULL;
}

static void take_looks(struct viewing *x)
{
    const struct trade *t = x->ask->trade;
    struct candidate *out = x->out;
    const struct choose *c = &out->choose;
    int most = (int)default_of(t, "viewing-looks", 15), n = 0;
    struct candidate_stop *all = ARENA_ARRAY(x->a, struct candidate_stop, c->n_looks);
    for (int i = 0; i < c->n_looks; i++) {
        if (c->looks[i].clue) continue; /* its minutes are the owner's */
        const struct trade_glance *g = glance_of(t, (int)(c->looks[i].kind - t->components));
        if (!g) continue;
        const char *at = strchr(c->looks[i].component, '@');
        int place = at ? trade_find_place(t, at + 1) : c->looks[i].kind->places[0];
        all[n] = (struct candidate_stop){.lap = lap_of(t, place),
                                         .place = &t->places[place],
                                         .minutes = g->minutes,
                                         .seen_by = g->seen_by,
                                         .look = &c->looks[i],
                                         .meets = sign_met_by(x, &c->looks[i])};
        weigh(x, &all[n++]);
    }
    qsort(all, (size_t)n, sizeof *all, by_gain);
    for (int i = 0; i < n; i++) {
        if (out->looks + out->looks_spent >= most ||
            out->minutes + out->minutes_spent + all[i].minutes > out->minutes_given) {
            out->left_out++;
            continue;
        }
        swing(x, &all[i]);
        out->stops[out->n_stops++] = all[i];
        out->minutes += all[i].minutes;
        out->looks++;
    }
}

/* Places lie in one array in the order of the lap; at each the signs come first. */
static int by_walk(const void *a, const void *b)
{
    const struct candidate_stop *x = a, *y = b;
    if (x->lap != y->lap) return x->lap < y->lap ? -1 : 1;
    if (!x->sign != !y->sign) return x->sign ? -1 : 1;
    if (x->sign) return x->sign < y->sign ? -1 : x->sign > y->sign;
    if (x->place != y->place) return x->place < y->place ? -1 : 1;
    return strcmp(x->look->component, y->look->component);
}

/* Asked before anything is reckoned. */
static bool is_not_owned(struct arena *a, const struct shop_ask *ask, const struct facts *facts,
                         struct fail *f)
{
    struct record *vehicle;
    if (!garage_find(ask->garage, a, record_kind_find("vehicle"), facts->vehicle_id, &vehicle, f))
        return false;
    if (vehicle_owned(vehicle) != OWNED_YES) return true;
    return fail_set(f, FAIL_INPUT,
                    "view: %s is yours already; look at it with 'fettle survey lap'. One that "
                    "you might buy is told by: fettle change vehicle NAME owned=no",
                    facts->name);
}

bool candidate_reckon(struct arena *a, const struct shop_ask *ask, struct candidate *out,
                      struct fail *f)
{
    const struct trade *t = ask->trade;
    struct facts *facts = ARENA_NEW(a, struct facts);
    *out = (struct candidate){.best = -1};
    struct viewing x = {.a = a, .ask = ask, .facts = facts, .out = out};
    if (!facts_read(ask->garage, a, t, ask->vehicle, facts, f) || !is_not_owned(a, ask, facts, f) ||
        !choose_reckon(a, ask, &out->choose, f) ||
        !facts_candidate_read(ask->garage, a, t, facts, out->choose.currency, &out->facts, f))
        return false;
    out->odds = out->facts.odds > 0 ? out->facts.odds : default_of(t, "viewing-odds", 0.7);
    out->minutes_given =
        out->facts.minutes > 0 ? out->facts.minutes : default_of(t, "viewing-minutes", 40);
    out->seized = facts->rolls == TRI_NO;
    out->brakeless = facts->stops != TRI_YES;
    out->in_pieces = facts->answers[ANSWER_STATE] > 0;
    out->stops = ARENA_ARRAY(a, struct candidate_stop, t->n_signs + out->choose.n_looks);
    sum_spent(&x);
    price_directions(&x);
    net_choices(&x);
    take_signs(&x);
    take_looks(&x);
    qsort(out->stops, (size_t)out->n_stops, sizeof *out->stops, by_walk);
    return price_before(&x, f) && candidate_parts_reckon(a, ask, out, f);
}
