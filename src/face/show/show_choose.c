#include "face/show/show_choose.h"

#include "face/show/show_choose_inside.h"
#include "face/show/show_crossed.h"
#include "face/show/words.h"

#include <math.h>

static void table_directions(struct sheet *s, const struct choose *c)
{
    struct arena *a = s->arena;
    struct sheet_table *t = sheet_table(s, "");
    sheet_column(s, t, "direction", ALIGN_LEFT, 1);
    sheet_column(s, t, "still to spend", ALIGN_RIGHT, 1);
    sheet_column(s, t, "at 80 %", ALIGN_RIGHT, 3);
    sheet_column(s, t, "hours", ALIGN_RIGHT, 4);
    sheet_column(s, t, "done at 50 %", ALIGN_LEFT, 2);
    sheet_column(s, t, "done at 80 %", ALIGN_LEFT, 3);
    for (int i = 0; i < c->n_directions; i++) {
        const struct choose_direction *d = &c->directions[i];
        sheet_cell(s, t, TONE_PLAIN, "%s%s", d->direction->head.id, d->decided ? " (decided)" : "");
        sheet_cell(s, t, TONE_PLAIN, "%s", words_money(a, d->cost.p50, c->currency));
        sheet_cell(s, t, TONE_PLAIN, "%s", words_money(a, d->cost.p80, c->currency));
        sheet_cell(s, t, TONE_PLAIN, "%s", words_hours(a, d->hours.p50));
        sheet_cell(s, t, isinf(d->finish.p50) ? TONE_CARE : TONE_PLAIN, "%s",
                   words_moment(a, c->first, d->finish.p50));
        sheet_cell(s, t, isinf(d->finish.p80) ? TONE_CARE : TONE_PLAIN, "%s",
                   words_moment(a, c->first, d->finish.p80));
    }
}

/* Where the worths come from, by the rule, and what the builder said beside it. */
static void say_worth(struct sheet *s, const struct choose *c)
{
    struct arena *a = s->arena;
    int n = c->facts->n_comparables;
    sheet_heading(s, 2, "What it would fetch");
    if (c->n_sales > 0) {
        sheet_text(s,
                   "Worths are taken from the %d sales and adverts that you told: from %d on they "
                   "say more than a guess. As it stands (grade %g): about %s, %s to %s.",
                   c->n_sales, MARKET_FEWEST, c->worth_now.grade,
                   words_money(a, c->worth_now.band.middle, c->currency),
                   words_money(a, c->worth_now.band.low, c->currency),
                   words_money(a, c->worth_now.band.high, c->currency));
        const struct fact_comparable *most = &c->facts->comparables[c->pull.sale];
        double part = 100 * (c->pull.factor - 1);
        if (fabs(part) >= 1)
            sheet_text(s,
                       "The one that pulls most is that of %s at %s: without it, it would be "
                       "about %.0f %% %s.",
                       words_month(a, most->date), words_money(a, most->minor, c->currency),
                       100 * fabs(1 - 1 / c->pull.factor), part > 0 ? "lower" : "higher");
        for (int i = 0; i < c->n_directions; i++)
            if (c->directions[i].worth.apart)
                sheet_item(s, "For '%s' you told %s; the sales say %s to %s. The sales are used.",
                           c->directions[i].direction->head.id,
                           words_money(a, c->directions[i].worth.told.middle, c->currency),
                           words_money(a, c->directions[i].worth.band.low, c->currency),
                           words_money(a, c->directions[i].worth.band.high, c->currency));
    } else if (c->worth_now_known) {
        sheet_text(s, "Worths are your own figures%s. As it stands: about %s, %s to %s.",
                   n > 0 ? arena_print(a,
                                       ": %d of others stand beside them, and from %d on those "
                                       "would be used instead",
                                       n, MARKET_FEWEST)
                         : "",
                   words_money(a, c->worth_now.band.middle, c->currency),
                   words_money(a, c->worth_now.band.low, c->currency),
                   words_money(a, c->worth_now.band.high, c->currency));
    } else {
        sheet_text(
            s,
            "What it is worth, now and done, was not told, so no direction can be called ahead. "
            "Tell it with: fettle add worth of=now worth=low/middle/high, and the same of=drive "
            "and the others; or tell %d or more sales of others: fettle add comparable.",
            MARKET_FEWEST);
    }
    show_choose_sales(s, c);
}

static const char *regret_words(struct arena *a, const struct choose *c, double minor)
{
    return c->compared ? words_money(a, minor, c->currency) : "-";
}

static void cells_of_choice(struct sheet *s, struct sheet_table *t, const struct choose *c,
                            int choice)
{
    struct arena *a = s->arena;
    if (choice < 0 || !c->compared) {
        for (int k = c->facts->weighed ? 0 : 1; k < 4; k++) sheet_cell(s, t, TONE_FAINT, "-");
        return;
    }
    const struct decide_choice *o = &c->choices[choice].odds;
    if (c->facts->weighed) sheet_cell(s, t, TONE_PLAIN, "%s", words_money(a, o->mean, c->currency));
    sheet_cell(s, t, TONE_PLAIN, "%s", words_share(a, o->best));
    sheet_cell(s, t, TONE_PLAIN, "%s", regret_words(a, c, o->regret));
    sheet_cell(s, t, TONE_PLAIN, "%s", regret_words(a, c, o->regret_90));
}

static void cells_of_net(struct sheet *s, struct sheet_table *t, const struct choose *c,
                         const struct choose_direction *d)
{
    struct arena *a = s->arena;
    if (d->worth.from == WORTH_UNKNOWN)
        sheet_cell(s, t, TONE_FAINT, "not told");
    else
        sheet_cell(s, t, TONE_PLAIN, "%s", words_money(a, d->worth.band.middle, c->currency));
    if (!d->worth_known) {
        for (int k = 0; k < 4; k++) sheet_cell(s, t, TONE_FAINT, "?");
        return;
    }
    sheet_cell(s, t, TONE_PLAIN, "%s", words_money(a, d->net.p10, c->currency));
    sheet_cell(s, t, TONE_PLAIN, "%s", words_money(a, d->net.p50, c->currency));
    sheet_cell(s, t, TONE_PLAIN, "%s", words_money(a, d->net.p90, c->currency));
    sheet_cell(s, t, TONE_PLAIN, "%s", words_share(a, d->chance_ahead));
}

static void table_nets(struct sheet *s, const struct choose *c)
{
    struct arena *a = s->arena;
    if (!c->worth_now_known) return;
    sheet_text(s, "Net is worth when done, less the money still to spend%s.",
               c->own_rate > 0 ? arena_print(a, ", less your hours at %s",
                                             words_money(a, c->own_rate, c->currency))
                               : "; your hours count nothing");
    struct sheet_table *t = sheet_table(s, "");
    sheet_column(s, t, "direction", ALIGN_LEFT, 1);
    sheet_column(s, t, "worth done", ALIGN_RIGHT, 5);
    sheet_column(s, t, "net at 10 %", ALIGN_RIGHT, 6);
    sheet_column(s, t, "net at 50 %", ALIGN_RIGHT, 1);
    sheet_column(s, t, "net at 90 %", ALIGN_RIGHT, 6);
    sheet_column(s, t, "ahead", ALIGN_RIGHT, 4);
    if (c->facts->weighed) sheet_column(s, t, "to you", ALIGN_RIGHT, 1);
    sheet_column(s, t, "best", ALIGN_RIGHT, 1);
    sheet_column(s, t, "regret", ALIGN_RIGHT, 2);
    sheet_column(s, t, "at 90 %", ALIGN_RIGHT, 5);
    for (int i = 0; i < c->n_directions; i++) {
        const struct choose_direction *d = &c->directions[i];
        sheet_cell(s, t, TONE_PLAIN, "%s", d->direction->head.id);
        cells_of_net(s, t, c, d);
        cells_of_choice(s, t, c, d->choice);
    }
    for (int i = 0; i < c->n_choices; i++) {
        const struct choose_choice *o = &c->choices[i];
        if (o->direction >= 0) continue;
        sheet_cell(s, t, TONE_PLAIN, "%s", "start from another");
        sheet_cell(s, t, TONE_PLAIN, "%s",
                   words_money(a, c->facts->instead.worth.middle, c->currency));
        sheet_cell(s, t, TONE_PLAIN, "%s", words_money(a, o->value.p10, c->currency));
        sheet_cell(s, t, TONE_PLAIN, "%s", words_money(a, o->value.p50, c->currency));
        sheet_cell(s, t, TONE_PLAIN, "%s", words_money(a, o->value.p90, c->currency));
        sheet_cell(s, t, TONE_FAINT, "-");
        cells_of_choice(s, t, c, i);
    }
    sheet_text(s,
               "Ahead: the odds that the net is more than it is worth today. Best: the share of "
               "runs in which it is the best of those that can be done. Regret: what the best of "
               "them would have given more, on average and in one run of ten%s.",
               c->facts->weighed
                   ? "; to you: the net and your weights, on average; they are in both"
                   : "");
}

/* What the builder would give beside money, and what is spent whatever comes. */
static void say_weights(struct sheet *s, const struct choose *c)
{
    const struct facts_worth *w = c->facts;
    struct arena *a = s->arena;
    if (w->weighed) {
        if (w->month > 0)
            sheet_fact(s, TONE_PLAIN, "a month sooner", "%s to you",
                       words_money(a, w->month, c->currency));
        if (w->original > 0)
            sheet_fact(s, TONE_PLAIN, "keeping it original", "%s to you, for all of it",
                       words_money(a, w->original, c->currency));
        if (w->driving > 0)
            sheet_fact(s, TONE_PLAIN, "having it to drive", "%s to you",
                       words_money(a, w->driving, c->currency));
    } else if (c->compared) {
        sheet_text(s, "Only money counts so far. Tell what else matters to you, as the money that "
                      "you would give for it: fettle add weights month=... original=... "
                      "driving=...");
    }
    if (w->spent > 0 || w->hours > 0)
        sheet_fact(s, TONE_PLAIN, "already in it",
                   "%s%s%s: it counts nothing here, being gone whichever way you choose",
                   w->spent > 0 ? words_money(a, w->spent, c->currency) : "",
                   w->spent > 0 && w->hours > 0 ? " and " : "",
                   w->hours > 0 ? arena_print(a, "%s of work", words_hours(a, w->hours)) : "");
}

static void say_lost(struct sheet *s, const struct choose *c)
{
    sheet_heading(s, 2, "What would be lost for good");
    for (int i = 0; i < c->n_directions; i++) {
        const struct trade_direction *d = c->directions[i].direction;
        struct text t = {.arena = s->arena};
        for (int k = 0; k < d->n_lost; k++) text_print(&t, "%s%s", k > 0 ? "; " : "", d->lost[k]);
        sheet_fact(s, TONE_PLAIN, d->head.id, "%s", text_get(&t));
    }
}

/* Directions that are not done in most of the runs: what they are worth when done is then no
 * comfort. */
static void say_never(struct sheet *s, const struct choose *c)
{
    struct text t = {.arena = s->arena};
    int n = 0;
    for (int i = 0; i < c->n_directions; i++)
        if (c->directions[i].never > 0.5)
            text_print(&t, "%s'%s'", n++ > 0 ? ", " : "", c->directions[i].direction->head.id);
    if (n == 0) return;
    sheet_text(
        s,
        "Never: not done within the money and the years there are, in more than half of the "
        "runs.%s",
        c->worth_now_known
            ? arena_print(s->arena,
                          " They are not chosen from, and the net of %s is told as if %s were "
                          "done all the same.",
                          t.s, n > 1 ? "they" : "it")
            : "");
}

struct sheet *show_choose(struct arena *a, const struct choose *c)
{
    struct sheet *s = sheet_new(a, arena_print(a, "%s: what shall become of it", c->vehicle));
    show_crossed(s, c->crossed, c->n_crossed, c->currency);
    show_choose_advice(s, c);
    if (c->after) sheet_item(s, "Hands, bay and money go first to: %s.", c->after);
    for (int i = 0; i < c->n_notes; i++) sheet_item(s, "%s", c->notes[i]);
    show_choose_left(s, c);
    show_choose_changes(s, c);
    show_choose_looks(s, c);
    sheet_heading(s, 2, "Side by side");
    show_choose_bands(s, c);
    table_directions(s, c);
    say_never(s, c);
    table_nets(s, c);
    say_weights(s, c);
    say_worth(s, c);
    say_lost(s, c);
    struct sheet_why *w = sheet_why(
        s, "Why these figures?",
        "every direction is reckoned on the same draws of condition, hours, setbacks and prices; "
        "a look's worth is the expected value of partial perfect information, a clue's that of "
        "sample information, chosen on one half of the runs and valued on the other",
        MARK_PRACTICE,
        c->n_sales > 0 ? "odds, hours and prices of the trade data; the sales that you told"
                       : "odds, hours and prices of the trade data; your own worths");
    sheet_why_input(s, w, "worths", "%s",
                    c->n_sales > 0
                        ? "log-price regression on the sales: asked or sold, age, grade, "
                          "originality, distance, each with what is usual as its prior"
                    : c->worth_now_known ? "your three points"
                                         : "none");
    sheet_why_input(s, w, "worths together", "%s",
                    "half of what each varies by is the market, the same for all in a run");
    sheet_why_input(s, w, "runs", "%d", c->runs);
    sheet_why_input(s, w, "seed", "%llu", (unsigned long long)c->seed);
    sheet_why_input(s, w, "components not seen", "%d", c->unseen);
    sheet_link(s, "Decide", "add decision direction=drive reason=...");
    return s;
}
