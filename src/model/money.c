/* money.c - prices in the builder's currency, and what the purse brings when. */
#include "model/build.h"
#include "model/facts_worth.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

bool build_money(struct build *b, struct fail *f)
{
    const struct trade *t = b->t;
    const char *shipped = t->n_parts > 0 ? t->parts[0].currency : "GBP";
    memcpy(b->out->currency, b->facts->currency[0] ? b->facts->currency : shipped, 4);
    int digits = 2;
    if (!currency_digits(b->out->currency, &digits))
        return fail_set(f, FAIL_INPUT, "workshop.currency: '%s' is not a currency code",
                        b->out->currency);
    double minor = pow(10, digits), level = b->facts->price_level > 0 ? b->facts->price_level : 1;
    b->money_of = ARENA_ARRAY(b->a, double, t->n_parts);
    const char *missing = NULL;
    for (int i = 0; i < t->n_parts; i++) {
        double rate = facts_rate(b->facts, t->parts[i].currency, b->out->currency);
        if (rate <= 0) missing = t->parts[i].currency, rate = 1;
        b->money_of[i] = minor * level * rate;
    }
    if (missing)
        build_note(b,
                   "Prices are figures in %s taken one for one as %s: no rate is known. Mend with: "
                   "fettle add rate "
                   "currency=%s per=%s rate=... date=...",
                   missing, b->out->currency, missing, b->out->currency);
    if (!b->facts->currency[0])
        build_note(
            b,
            "No currency is known, so money is in %s. Mend with: fettle add workshop currency=...",
            b->out->currency);
    return true;
}

/* A month's first day brings the month's sum; the day in hand is there from the start. What
 * vehicles of a better rank will order is taken off first: what is left at a moment is the least
 * that is left from then on. */
bool build_purse(struct build *b, struct fail *f)
{
    const struct facts *facts = b->facts;
    struct project_purse *purse = &b->out->project.purse;
    bool told = facts->purse && (facts->a_month >= 0 || facts->in_hand >= 0 || facts->ceiling >= 0);
    if (!told) {
        purse->open = true;
        build_note(b, "No money was told, so nothing waits for it. Mend with: fettle add purse "
                      "a-month=... ceiling=...");
        return true;
    }
    double a_month =
        facts->a_month >= 0 ? facts->a_month + b->ask->more_a_month : b->ask->more_a_month;
    /* Not told what is in hand: this month's money is. */
    double in_hand = facts->in_hand >= 0 ? facts->in_hand : fmax(facts->a_month, 0);
    if (facts->a_month < 0 && facts->in_hand < 0) { /* a ceiling alone: all of it is there */
        in_hand = facts->ceiling;
    }
    purse->ceiling = facts->ceiling >= 0 ? facts->ceiling : INFINITY;
    purse->reserve = facts->reserve >= 0 ? facts->reserve : 0;
    if (a_month <= 0 && in_hand <= purse->reserve)
        return fail_set(
            f, FAIL_INPUT,
            "purse: it holds nothing beyond its reserve and gets nothing; say what there is "
            "with: fettle add purse a-month=... in-hand=...");
    if (purse->ceiling <= 0)
        return fail_set(
            f, FAIL_INPUT,
            "purse.ceiling: nothing may be spent; say more with: fettle add purse ceiling=...");
    int months = b->out->project.n_months - 1;
    const int32_t *payday = b->out->project.month + 1;
    double *left =
        ARENA_ARRAY(b->a, double, months + 1); /* cash after payday k-1, all earlier orders paid */
    double *pay = ARENA_ARRAY(b->a, double, months);
    const struct taken *taken = b->ask->taken;
    int at = 0;
    double cash = in_hand;
    for (int k = 0; k <= months; k++) {
        if (k > 0) cash += a_month;
        int32_t until = k < months ? payday[k] : NEVER;
        for (; taken && at < taken->n_orders && taken->orders[at].when < until; at++) {
            cash -= taken->orders[at].minor;
            purse->ceiling -= taken->orders[at].minor;
        }
        left[k] = cash;
    }
    for (int k = months - 1; k >= 0; k--) left[k] = fmin(left[k], left[k + 1]);
    for (int k = 0; k < months; k++) pay[k] = fmax(0, left[k + 1] - left[k]);
    purse->in_hand = left[0];
    purse->payday = payday;
    purse->pay = pay;
    purse->n_paydays = months;
    return true;
}
