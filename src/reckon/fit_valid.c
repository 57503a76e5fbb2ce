#include "reckon/fit.h"

#include <math.h>

/* Single figures, and then what all of them could come to: the sums of the search are exact below
 * 2^53. */
#define MOST_COUNT  10000
#define MOST_PIECES 1000000
#define MOST_SUM    ((double)((int64_t)1 << 52))

#define BAD(...) return fail_set(f, FAIL_INPUT, __VA_ARGS__)

static bool money(int64_t v)
{
    return v >= 0 && v <= FIT_MOST_MONEY;
}

static bool money_either(int64_t v)
{
    return v >= -FIT_MOST_MONEY && v <= FIT_MOST_MONEY;
}

static bool index_in(int i, int n)
{
    return i >= 0 && i < n;
}

static bool option_valid(const struct fit_model *m, int o, struct fail *f)
{
    const struct fit_option *t = &m->options[o];
    if (t->need != -1 && !index_in(t->need, m->n_needs)) BAD("option %d: no need %d", o, t->need);
    if (!money_either(t->money)) BAD("option %d: its money is out of bounds", o);
    if (!money_either(t->lost)) BAD("option %d: its originality is out of bounds", o);
    for (int i = 0; i < t->n_takes; i++) {
        if (!index_in(t->takes[i].part, m->n_parts))
            BAD("option %d: no part %d", o, t->takes[i].part);
        if (t->takes[i].count < 1 || t->takes[i].count > MOST_COUNT)
            BAD("option %d: a count of part %d from 1 to %d is wanted, not %d", o, t->takes[i].part,
                MOST_COUNT, t->takes[i].count);
        for (int k = 0; k < i; k++)
            if (t->takes[k].part == t->takes[i].part)
                BAD("option %d: takes part %d twice", o, t->takes[i].part);
    }
    for (int i = 0; i < t->n_uses; i++) {
        if (!index_in(t->uses[i].limit, m->n_limits))
            BAD("option %d: no limit %d", o, t->uses[i].limit);
        if (!money_either(t->uses[i].amount)) BAD("option %d: a use is out of bounds", o);
        for (int k = 0; k < i; k++)
            if (t->uses[k].limit == t->uses[i].limit)
                BAD("option %d: uses limit %d twice", o, t->uses[i].limit);
    }
    return true;
}

static bool list_valid(const struct fit_model *m, const char *what, int which, const int *list,
                       int n, struct fail *f)
{
    for (int i = 0; i < n; i++) {
        if (!index_in(list[i], m->n_options)) BAD("%s %d: no option %d", what, which, list[i]);
        for (int k = 0; k < i; k++)
            if (list[k] == list[i]) BAD("%s %d: names option %d twice", what, which, list[i]);
    }
    return true;
}

static bool rule_valid(const struct fit_model *m, int r, struct fail *f)
{
    const struct fit_rule *t = &m->rules[r];
    if (!list_valid(m, "rule", r, t->when, t->n_when, f)) return false;
    if (!list_valid(m, "rule", r, t->one_of, t->n_one_of, f)) return false;
    for (int i = 0; i < t->n_when; i++)
        for (int k = 0; k < t->n_one_of; k++)
            if (t->when[i] == t->one_of[k])
                BAD("rule %d: option %d is asked for by itself", r, t->when[i]);
    return true;
}

static bool offer_valid(const struct fit_model *m, int i, struct fail *f)
{
    const struct fit_offer *t = &m->offers[i];
    if (!index_in(t->part, m->n_parts)) BAD("offer %d: no part %d", i, t->part);
    if (!index_in(t->supplier, m->n_suppliers)) BAD("offer %d: no supplier %d", i, t->supplier);
    if (t->n_breaks < 1) BAD("offer %d: has no price", i);
    for (int k = 0; k < t->n_breaks; k++) {
        if (t->breaks[k].from < 0 || t->breaks[k].from > MOST_COUNT)
            BAD("offer %d: a break from 0 to %d is wanted, not %d", i, MOST_COUNT,
                t->breaks[k].from);
        if (k > 0 && t->breaks[k].from <= t->breaks[k - 1].from)
            BAD("offer %d: its breaks must rise", i);
        if (!money(t->breaks[k].unit)) BAD("offer %d: its price is out of bounds", i);
    }
    if (t->n_breaks > 1 && t->breaks[1].from <= 1) BAD("offer %d: its breaks must rise from 1", i);
    if (t->most < 0) BAD("offer %d: fewer than none can be had", i);
    if (!money(t->core) || !money(t->late)) BAD("offer %d: core or lateness is out of bounds", i);
    return true;
}

/* All of it at every price at once: what the rows of the search could come to. */
static bool sums_valid(const struct fit_model *m, struct fail *f)
{
    double sum = 0, pieces = 0;
    for (int o = 0; o < m->n_options; o++) {
        const struct fit_option *t = &m->options[o];
        for (int i = 0; i < t->n_takes; i++) pieces += t->takes[i].count;
        for (int i = 0; i < t->n_uses; i++) sum += fabs((double)t->uses[i].amount);
        sum += fabs((double)t->money) + (double)m->weight * fabs((double)t->lost);
    }
    for (int p = 0; p < m->n_parts; p++) pieces += m->parts[p].spare;
    if (pieces > MOST_PIECES) BAD("all options take more than %d pieces", MOST_PIECES);
    for (int i = 0; i < m->n_offers; i++) {
        const struct fit_offer *t = &m->offers[i];
        for (int k = 0; k < t->n_breaks; k++)
            sum += pieces * ((double)t->breaks[k].unit + (double)t->core) + (double)t->late;
    }
    for (int s = 0; s < m->n_suppliers; s++)
        sum += (double)m->suppliers[s].carriage + (double)m->suppliers[s].least_order +
               (double)m->suppliers[s].free_from;
    if (sum > MOST_SUM) BAD("all money together is beyond what is reckoned with");
    return true;
}

bool fit_valid(const struct fit_model *m, struct fail *f)
{
    if (m->weight < 0 || m->weight > FIT_MOST_MONEY)
        BAD("the weight of originality is out of bounds");
    for (int o = 0; o < m->n_options; o++)
        if (!option_valid(m, o, f)) return false;
    for (int n = 0; n < m->n_needs; n++)
        if (!list_valid(m, "need", n, m->needs[n].woken_by, m->needs[n].n_woken_by, f))
            return false;
    for (int r = 0; r < m->n_rules; r++)
        if (!rule_valid(m, r, f)) return false;
    for (int p = 0; p < m->n_parts; p++)
        if (m->parts[p].spare < 0 || m->parts[p].spare > MOST_COUNT)
            BAD("part %d: spare ones from 0 to %d are wanted, not %d", p, MOST_COUNT,
                m->parts[p].spare);
    for (int i = 0; i < m->n_offers; i++)
        if (!offer_valid(m, i, f)) return false;
    for (int s = 0; s < m->n_suppliers; s++) {
        const struct fit_supplier *t = &m->suppliers[s];
        if (!money(t->carriage) || !money(t->least_order) || !money(t->free_from))
            BAD("supplier %d: carriage or order is out of bounds", s);
    }
    for (int l = 0; l < m->n_limits; l++)
        if (!money_either(m->limits[l].most)) BAD("limit %d: is out of bounds", l);
    return sums_valid(m, f);
}
