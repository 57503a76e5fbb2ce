/* show_choose_chart.c - the directions side by side as bands, and the sales of others as dots. */
#include "face/show/show_choose_inside.h"
#include "face/show/words.h"

#include <math.h>

/* ---- directions side by side: money, date, worth ---- */

struct band {
    const char *title, *unit;
    double (*high)(const struct choose *c, const struct choose_direction *d);
    struct chart_row (*row)(struct arena *a, const struct choose *c,
                            const struct choose_direction *d);
    const char *(*text)(struct arena *a, const struct choose *c, double value);
};

static const char *money_text(struct arena *a, const struct choose *c, double value)
{
    return words_money(a, value, c->currency);
}

static double money_high(const struct choose *c, const struct choose_direction *d)
{
    (void)c;
    return d->cost.p90;
}

static struct chart_row money_row(struct arena *a, const struct choose *c,
                                  const struct choose_direction *d)
{
    return (struct chart_row){.text = arena_print(a, "%s", money_text(a, c, d->cost.p50)),
                              .low = d->cost.p10,
                              .middle = d->cost.p50,
                              .high = d->cost.p90};
}

static const char *date_text(struct arena *a, const struct choose *c, double value)
{
    return words_moment(a, c->first, value);
}

static double date_high(const struct choose *c, const struct choose_direction *d)
{
    (void)c;
    return isinf(d->finish.p50) ? 0 : isinf(d->finish.p90) ? d->finish.p50 : d->finish.p90;
}

static struct chart_row date_row(struct arena *a, const struct choose *c,
                                 const struct choose_direction *d)
{
    if (isinf(d->finish.p50))
        return (struct chart_row){
            .text = "not in half of the runs", .tone = TONE_CARE, .how = ROW_WORDS};
    return (struct chart_row){.text = date_text(a, c, d->finish.p50),
                              .low = d->finish.p10,
                              .middle = d->finish.p50,
                              .high = date_high(c, d)};
}

static double worth_high(const struct choose *c, const struct choose_direction *d)
{
    return fmax(c->worth_now_known ? c->worth_now.band.high : 0,
                d->worth.from != WORTH_UNKNOWN ? d->worth.band.high : 0);
}

static struct chart_row worth_row(struct arena *a, const struct choose *c,
                                  const struct choose_direction *d)
{
    if (d->worth.from == WORTH_UNKNOWN)
        return (struct chart_row){.text = "not told", .tone = TONE_FAINT, .how = ROW_WORDS};
    return (struct chart_row){.text = money_text(a, c, d->worth.band.middle),
                              .low = d->worth.band.low,
                              .middle = d->worth.band.middle,
                              .high = d->worth.band.high};
}

static void chart_band(struct sheet *s, const struct choose *c, const struct band *band)
{
    double high = 0;
    for (int i = 0; i < c->n_directions; i++) high = fmax(high, band->high(c, &c->directions[i]));
    if (!(high > 0)) return;
    struct sheet_chart *chart =
        sheet_chart(s, CHART_RANGES, band->title, band->unit ? band->unit : c->currency, 0,
                    band->text(s->arena, c, 0), high, band->text(s->arena, c, high));
    for (int i = 0; i < c->n_directions; i++) {
        const struct choose_direction *d = &c->directions[i];
        struct chart_row row = band->row(s->arena, c, d);
        row.label =
            arena_print(s->arena, "%s%s", d->direction->head.id, d->decided ? " (decided)" : "");
        sheet_chart_row(s, chart, row);
    }
    if (band->high == worth_high && c->worth_now_known)
        sheet_chart_limit(
            s, chart, c->worth_now.band.middle,
            arena_print(s->arena, "today %s", money_text(s->arena, c, c->worth_now.band.middle)));
}

void show_choose_bands(struct sheet *s, const struct choose *c)
{
    static const struct band bands[] = {
        {"Still to spend: 10 %, 50 % and 90 %", NULL, money_high, money_row, money_text},
        {"Done: 10 %, 50 % and 90 %", "date", date_high, date_row, date_text},
        {"Worth when done: 10 %, 50 % and 90 %", NULL, worth_high, worth_row, money_text},
    };
    for (size_t i = 0; i < sizeof bands / sizeof *bands; i++) chart_band(s, c, &bands[i]);
}

/* ---- what would be left ---- */

static struct chart_row row_left(struct arena *a, const struct choose *c, const char *label,
                                 const struct quantiles *q)
{
    return (struct chart_row){.label = label,
                              .text = money_text(a, c, q->p50),
                              .low = q->p10,
                              .middle = q->p50,
                              .high = q->p90};
}

/* Values of the choices; a direction that is none has a row that says why. */
void show_choose_left(struct sheet *s, const struct choose *c)
{
    struct arena *a = s->arena;
    double low = 0, high = 0;
    for (int i = 0; i < c->n_choices; i++) {
        low = fmin(low, c->choices[i].value.p10);
        high = fmax(high, c->choices[i].value.p90);
    }
    if (!c->compared || !(high > low)) return;
    struct sheet_chart *chart =
        sheet_chart(s, CHART_RANGES,
                    c->facts->weighed ? "What would be left: worth less bill, and your weights"
                                      : "What would be left: worth less bill",
                    c->currency, low, money_text(a, c, low), high, money_text(a, c, high));
    for (int i = 0; i < c->n_directions; i++) {
        const struct choose_direction *d = &c->directions[i];
        const char *id = d->direction->head.id;
        if (d->choice >= 0)
            sheet_chart_row(s, chart, row_left(a, c, id, &c->choices[d->choice].value));
        else
            sheet_chart_row(s, chart,
                            (struct chart_row){.label = id,
                                               .text = d->never > CHOOSE_NEVER ? "never done"
                                                                               : "worth not told",
                                               .tone = TONE_FAINT,
                                               .how = ROW_WORDS});
    }
    for (int i = 0; i < c->n_choices; i++)
        if (c->choices[i].direction < 0)
            sheet_chart_row(s, chart, row_left(a, c, "start from another", &c->choices[i].value));
    if (low < 0) sheet_chart_limit(s, chart, 0, "nothing left");
}

/* ---- the sales of others ---- */

static const char *label_of(struct arena *a, const struct fact_comparable *k)
{
    return arena_print(a, "%s %s, grade %g", k->asked ? "asked" : "sold", words_month(a, k->date),
                       k->grade);
}

static void row_of_band(struct sheet *s, const struct choose *c, struct sheet_chart *chart,
                        const char *label, struct points p)
{
    sheet_chart_row(s, chart,
                    (struct chart_row){.label = label,
                                       .text = words_money(s->arena, p.middle, c->currency),
                                       .low = p.low,
                                       .middle = p.middle,
                                       .high = p.high});
}

void show_choose_sales(struct sheet *s, const struct choose *c)
{
    const struct facts_worth *w = c->facts;
    const struct choose_worth *now = &c->worth_now;
    struct arena *a = s->arena;
    if (w->n_comparables == 0) return;
    double high = now->from != WORTH_UNKNOWN ? fmax(now->band.high, now->told.high) : 0;
    for (int i = 0; i < w->n_comparables; i++) high = fmax(high, w->comparables[i].minor);
    struct sheet_chart *chart =
        sheet_chart(s, CHART_RANGES, "Others like it, and this one as it stands", c->currency, 0,
                    words_money(a, 0, c->currency), high, words_money(a, high, c->currency));
    for (int i = 0; i < w->n_comparables; i++) {
        const struct fact_comparable *k = &w->comparables[i];
        row_of_band(s, c, chart, label_of(a, k), (struct points){k->minor, k->minor, k->minor});
    }
    if (now->from == WORTH_SALES)
        row_of_band(s, c, chart, arena_print(a, "this one, grade %g", now->grade), now->band);
    struct points own = now->from == WORTH_SALES ? now->told : now->band;
    if (now->from == WORTH_TOLD || own.middle > 0)
        row_of_band(s, c, chart, "this one, as you told", own);
}
