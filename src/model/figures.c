#include "model/figures.h"

#include <stddef.h>

static const struct wanted {
    const char *id;
    int count;
    size_t offset;
} wanted[] = {
    {"share-of-sessions-kept", 1, offsetof(struct figures, sessions_kept)},
    {"set-up-minutes", 1, offsetof(struct figures, set_up)},
    {"clear-up-minutes", 1, offsetof(struct figures, clear_up)},
    {"lay-off-chance-a-month", 1, offsetof(struct figures, layoff_a_month)},
    {"lay-off-weeks", 3, offsetof(struct figures, layoff_weeks)},
    {"pace-share", 1, offsetof(struct figures, pace_share)},
    {"work-share", 1, offsetof(struct figures, work_share)},
    {"state-share", 1, offsetof(struct figures, state_share)},
    {"kind-share", 1, offsetof(struct figures, kind_share)},
    {"order-check-days", 1, offsetof(struct figures, check_days)},
    {"monthly-temperature", 12, offsetof(struct figures, temperature)},
    {"heated-temperature", 1, offsetof(struct figures, heated_least)},
    {"hours-a-week", 1, offsetof(struct figures, hours_if_unknown)},
    {"years-standing", 1, offsetof(struct figures, standing_if_unknown)},
    {"miles-a-year", 3, offsetof(struct figures, miles_a_year)},
    {"full-years", 1, offsetof(struct figures, full_years)},
    {"later-years-share", 1, offsetof(struct figures, later_share)},
    {"years-in-use", 1, offsetof(struct figures, years_in_use)},
    {"clock-digits", 1, offsetof(struct figures, clock_digits)},
    {"clock-changed", 1, offsetof(struct figures, clock_changed)},
    {"clock-stood", 3, offsetof(struct figures, clock_stood)},
    {"mileage-steadiness", 1, offsetof(struct figures, mileage_steadiness)},
    {"paper-wrong", 1, offsetof(struct figures, paper_wrong)},
    {"identity-holds", 1, offsetof(struct figures, identity_holds)},
    {"original-holds", 1, offsetof(struct figures, original_holds)},
    {"worth-if-another", 1, offsetof(struct figures, worth_if_another)},
    {"worth-if-not-original", 1, offsetof(struct figures, worth_if_not_original)},
    {"hour-in-a-ladder", 1, offsetof(struct figures, ladder_hour)},
    {"horizon-years", 1, offsetof(struct figures, horizon_years)},
};

bool figures_read(const struct trade *t, struct figures *out, struct fail *f)
{
    for (size_t i = 0; i < sizeof wanted / sizeof wanted[0]; i++) {
        const struct trade_default *d = trade_find_default(t, wanted[i].id);
        if (!d || d->n_value != wanted[i].count)
            return fail_set(f, FAIL_INPUT, "trade data: defaults need '%s' with %d value%s",
                            wanted[i].id, wanted[i].count, wanted[i].count == 1 ? "" : "s");
        double *to = (double *)((char *)out + wanted[i].offset);
        for (int k = 0; k < d->n_value; k++) to[k] = d->value[k];
    }
    return true;
}
