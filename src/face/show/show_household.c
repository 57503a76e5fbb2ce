#include "face/show/show_household.h"

#include "face/show/words.h"

#include <math.h>
#include <stdlib.h>

enum { SHOWN = 5 };

/* No day of the week, no "p80": whoever shares the purse plans by the month. */
static const char *month_of(struct arena *a, const struct household *x, double moment)
{
    return isinf(moment) ? "not in sight"
                         : words_month(a, x->first + (day)floor(moment / MINUTES_A_DAY));
}

static const char *count_of(struct arena *a, const struct household_need *need, int planned)
{
    if (planned == 0) return "none are planned";
    return need->p80 > need->p50
               ? arena_print(a, "about %.0f, perhaps %.0f, of %d that are planned", need->p50,
                             need->p80, planned)
               : arena_print(a, "about %.0f of %d that are planned", need->p50, planned);
}

static const char *spent_of(struct arena *a, const struct household *x)
{
    struct text t = {.arena = a};
    if (x->orders == 0) return "no order was told yet";
    text_print(&t, "%s, for %d order%s", words_money(a, x->spent, x->currency), x->orders,
               x->orders == 1 ? "" : "s");
    if (x->unpriced > 0) text_print(&t, ", %d of them without a price", x->unpriced);
    return text_get(&t);
}

/* No order exceeds the purse, so that a sum at its edge says that orders wait. */
static const char *wanted_of(struct arena *a, const struct household *x, double sum)
{
    const char *money = words_money(a, sum, x->currency);
    return !x->purse_open && sum >= 0.98 * (x->brought - x->reserve)
               ? arena_print(a, "%s, all that is free; what is wanted beyond it waits", money)
               : money;
}

static void say_purse(struct sheet *s, const struct household *x)
{
    struct arena *a = s->arena;
    const double free = x->brought - x->reserve;
    sheet_fact(s, TONE_PLAIN, "spent so far", "%s", spent_of(a, x));
    sheet_fact(s, TONE_PLAIN, "to be spent, as likely as not", "up to %s",
               wanted_of(a, x, x->money.p50));
    sheet_fact(s, TONE_PLAIN, "in four cases of five", "up to %s", wanted_of(a, x, x->money.p80));
    if (x->purse_open)
        sheet_fact(s, TONE_CARE, "in the purse by then", "not told, so nothing waits for money");
    else
        sheet_fact(s, x->money.p80 >= 0.98 * free ? TONE_CARE : TONE_GOOD, "in the purse by then",
                   "%s%s", words_money(a, x->brought, x->currency),
                   x->reserve > 0 ? arena_print(a, ", of which %s are kept back",
                                                words_money(a, x->reserve, x->currency))
                                  : "");
    sheet_fact(s, TONE_PLAIN, "weekends with work", "%s",
               count_of(a, &x->weekends, x->weekends_planned));
    sheet_fact(s, TONE_PLAIN, x->evenings ? "evenings with work" : "weekdays with work", "%s",
               count_of(a, &x->weekdays, x->weekdays_planned));
}

/* Names, the first few; nobody reads forty. */
static const char *undecided_of(struct arena *a, const struct household *x, int *count)
{
    struct text t = {.arena = a};
    *count = 0;
    for (int i = 0; i < x->n_vehicles; i++) {
        const struct household_vehicle *v = &x->vehicles[i];
        if (v->why || v->decided) continue;
        if ((*count)++ < SHOWN) text_print(&t, "%s%s", *count > 1 ? ", " : "", v->name);
    }
    if (*count > SHOWN) text_print(&t, " and %d more", *count - SHOWN);
    return text_get(&t);
}

static int by_gate(const void *a, const void *b)
{
    const struct household_vehicle *const *x = a, *const *y = b;
    const double one = (*x)->gate_finish.p50, other = (*y)->gate_finish.p50;
    if (one != other) return one < other ? -1 : 1;
    return *x < *y ? -1 : *x > *y;
}

static void say_decided(struct sheet *s, const struct household *x)
{
    struct arena *a = s->arena;
    const struct household_vehicle **gates =
        ARENA_ARRAY(a, const struct household_vehicle *, x->n_vehicles);
    int n = 0, open;
    for (int i = 0; i < x->n_vehicles; i++)
        if (x->vehicles[i].gate) gates[n++] = &x->vehicles[i];
    qsort(gates, (size_t)n, sizeof *gates, by_gate);
    const char *names = undecided_of(a, x, &open);
    if (open > 0)
        sheet_item(s,
                   "Still to be said: what shall become of %s. Until then %s planned as 'drive': "
                   "safe and usable, every change reversible.",
                   names, open > 1 ? "they are" : "it is");
    for (int i = 0; i < n && i < SHOWN; i++)
        sheet_item(s,
                   "%s: whether it goes on so, once all has been looked over: about %s, in four "
                   "cases of five by %s.",
                   gates[i]->name, month_of(a, x, gates[i]->gate_finish.p50),
                   month_of(a, x, gates[i]->gate_finish.p80));
    if (n > SHOWN) sheet_item(s, "%d more after that.", n - SHOWN);
    if (n > 0) sheet_text(s, "The large orders of a vehicle wait until that is decided.");
    if (open == 0 && n == 0) sheet_text(s, "Nothing waits for a decision.");
}

static const char *next_of(struct arena *a, const struct household *x,
                           const struct household_vehicle *v)
{
    if (!v->next) return "";
    return arena_print(a, "%s: about %s", v->next->milestone, month_of(a, x, v->next_finish.p50));
}

static void table_done(struct sheet *s, const struct household *x)
{
    struct sheet_table *t = sheet_table(s, "");
    sheet_column(s, t, "vehicle", ALIGN_LEFT, 1);
    sheet_column(s, t, "becomes", ALIGN_LEFT, 2);
    sheet_column(s, t, "done, as likely as not by", ALIGN_LEFT, 1);
    sheet_column(s, t, "in four cases of five by", ALIGN_LEFT, 1);
    sheet_column(s, t, "before that", ALIGN_LEFT, 2);
    for (int i = 0; i < x->n_vehicles; i++) {
        const struct household_vehicle *v = &x->vehicles[i];
        if (v->why) continue;
        const bool never = isinf(v->finish.p50);
        sheet_cell(s, t, TONE_PLAIN, "%s", v->name);
        sheet_cell(s, t, TONE_PLAIN, "%s", v->direction->head.name);
        sheet_cell(s, t, never ? TONE_CARE : TONE_PLAIN, "%s",
                   month_of(s->arena, x, v->finish.p50));
        sheet_cell(s, t, TONE_PLAIN, "%s", month_of(s->arena, x, v->finish.p80));
        sheet_cell(s, t, TONE_PLAIN, "%s", next_of(s->arena, x, v));
    }
}

struct sheet *show_household(struct arena *a, const struct household *x)
{
    struct sheet *s = sheet_new(a, "The household: money and weekends");
    if (x->n_vehicles == 0) {
        sheet_text(s, "No vehicle in the garage yet.");
        return s;
    }
    if (x->reckoned > 0) {
        sheet_heading(s, 2, arena_print(a, "From now to %s", words_day(a, x->until)));
        say_purse(s, x);
        sheet_heading(s, 2, "What is decided next");
        say_decided(s, x);
        sheet_heading(s, 2, "When each is done");
        table_done(s, x);
    }
    for (int i = 0; i < x->n_vehicles; i++)
        if (x->vehicles[i].why)
            sheet_item(s, "%s cannot be reckoned: %s", x->vehicles[i].name, x->vehicles[i].why);
    if (x->reckoned == 0) return s;
    sheet_text(s, "'Not in sight': not within the money and the weekends that are planned.");
    sheet_note(s, MARK_PRACTICE,
               arena_print(a,
                           "%d runs of each vehicle, each with its own luck; hours, prices and "
                           "waits are what is usual, narrowed by what was found",
                           x->runs),
               "");
    return s;
}

/* ---- JSON ---- */

static json_t *json_count(const struct household_need *need, int planned)
{
    return json_pack("{s:f, s:f, s:i}", "p50", need->p50, "p80", need->p80, "planned", planned);
}

static json_t *json_job(const struct trade_job *job, const struct quantiles *finish, day first)
{
    if (!job) return json_null();
    return json_pack("{s:s, s:o}", "job", job->head.id, "finish",
                     words_json_moments(finish, first));
}

static json_t *json_vehicle(const struct household *x, const struct household_vehicle *v)
{
    if (v->why) return json_pack("{s:s, s:s}", "vehicle", v->name, "why", v->why);
    return json_pack("{s:s, s:s, s:b, s:o, s:o, s:o}", "vehicle", v->name, "direction",
                     v->direction->head.id, "decided", v->decided, "finish",
                     words_json_moments(&v->finish, x->first), "decide",
                     json_job(v->gate, &v->gate_finish, x->first), "next",
                     json_job(v->next, &v->next_finish, x->first));
}

json_t *show_household_json(const struct household *x)
{
    json_t *vehicles = json_array();
    for (int i = 0; i < x->n_vehicles; i++)
        json_array_append_new(vehicles, json_vehicle(x, &x->vehicles[i]));
    if (x->reckoned == 0)
        return json_pack("{s:I, s:i, s:o}", "seed", (json_int_t)x->seed, "runs", x->runs,
                         "vehicles", vehicles);
    return json_pack(
        "{s:I, s:i, s:o, s:o, s:i, s:i, s:o, s:o, s:o, s:o, s:o}", "seed", (json_int_t)x->seed,
        "runs", x->runs, "until", words_json_moment(x->until, 0), "spent",
        words_json_money(x->spent, x->currency), "orders", x->orders, "unpriced", x->unpriced,
        "purse", x->purse_open ? json_null() : words_json_money(x->brought, x->currency), "money",
        json_pack("{s:o, s:o}", "p50", words_json_money(x->money.p50, x->currency), "p80",
                  words_json_money(x->money.p80, x->currency)),
        "weekends", json_count(&x->weekends, x->weekends_planned), "weekdays",
        json_count(&x->weekdays, x->weekdays_planned), "vehicles", vehicles);
}
