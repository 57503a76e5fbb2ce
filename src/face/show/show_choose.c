#include "face/show/show_choose.h"

#include "face/show/words.h"

#include <math.h>

enum { LOOKS_SHOWN = 10 };

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
    return fmax(c->worth_now_known ? c->worth_now.high : 0, d->worth_known ? d->worth.high : 0);
}

static struct chart_row worth_row(struct arena *a, const struct choose *c,
                                  const struct choose_direction *d)
{
    if (!d->worth_known)
        return (struct chart_row){.text = "not told", .tone = TONE_FAINT, .how = ROW_WORDS};
    return (struct chart_row){.text = money_text(a, c, d->worth.middle),
                              .low = d->worth.low,
                              .middle = d->worth.middle,
                              .high = d->worth.high};
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
            s, chart, c->worth_now.middle,
            arena_print(s->arena, "today %s", money_text(s->arena, c, c->worth_now.middle)));
}

static void chart_bands(struct sheet *s, const struct choose *c)
{
    static const struct band bands[] = {
        {"Still to spend: 10 %, 50 % and 90 %", NULL, money_high, money_row, money_text},
        {"Done: 10 %, 50 % and 90 %", "date", date_high, date_row, date_text},
        {"Worth when done: low, middle and high", NULL, worth_high, worth_row, money_text},
    };
    for (size_t i = 0; i < sizeof bands / sizeof *bands; i++) chart_band(s, c, &bands[i]);
}

static void table_nets(struct sheet *s, const struct choose *c)
{
    struct arena *a = s->arena;
    if (!c->worth_now_known) {
        sheet_text(
            s,
            "What it is worth, now and done, was not told, so no direction can be called ahead. "
            "Tell it with: "
            "fettle add worth of=now worth=low/middle/high, and the same of=drive and the others.");
        return;
    }
    sheet_text(s,
               "Worth today: about %s (%s to %s). Net is worth when done, less the money still to "
               "spend%s.",
               words_money(a, c->worth_now.middle, c->currency),
               words_money(a, c->worth_now.low, c->currency),
               words_money(a, c->worth_now.high, c->currency),
               c->own_rate > 0 ? arena_print(a, ", less your hours at %s",
                                             words_money(a, c->own_rate, c->currency))
                               : "; your hours count nothing");
    struct sheet_table *t = sheet_table(s, "");
    sheet_column(s, t, "direction", ALIGN_LEFT, 1);
    sheet_column(s, t, "worth done", ALIGN_RIGHT, 3);
    sheet_column(s, t, "net at 10 %", ALIGN_RIGHT, 4);
    sheet_column(s, t, "net at 50 %", ALIGN_RIGHT, 1);
    sheet_column(s, t, "net at 90 %", ALIGN_RIGHT, 4);
    sheet_column(s, t, "ahead", ALIGN_RIGHT, 1);
    sheet_column(s, t, "best", ALIGN_RIGHT, 2);
    for (int i = 0; i < c->n_directions; i++) {
        const struct choose_direction *d = &c->directions[i];
        sheet_cell(s, t, TONE_PLAIN, "%s", d->direction->head.id);
        if (!d->worth_known) {
            sheet_cell(s, t, TONE_FAINT, "not told");
            for (int k = 0; k < 5; k++) sheet_cell(s, t, TONE_FAINT, "?");
            continue;
        }
        sheet_cell(s, t, TONE_PLAIN, "%s", words_money(a, d->worth.middle, c->currency));
        sheet_cell(s, t, TONE_PLAIN, "%s", words_money(a, d->net.p10, c->currency));
        sheet_cell(s, t, TONE_PLAIN, "%s", words_money(a, d->net.p50, c->currency));
        sheet_cell(s, t, TONE_PLAIN, "%s", words_money(a, d->net.p90, c->currency));
        sheet_cell(s, t, TONE_PLAIN, "%s", words_share(a, d->chance_ahead));
        sheet_cell(s, t, TONE_PLAIN, "%s", words_share(a, d->chance_best));
    }
    sheet_text(s, "Ahead: the odds that the net is more than it is worth today. Best: the share of "
                  "runs in which that "
                  "direction nets the most.");
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

static void table_looks(struct sheet *s, const struct choose *c)
{
    struct arena *a = s->arena;
    sheet_heading(s, 2, "What to look at next");
    if (c->n_looks == 0) {
        sheet_text(s, "Everything has been seen.");
        return;
    }
    const char *leading = c->directions[c->leading].direction->head.id;
    int tell = 0;
    for (int i = 0; i < c->n_looks; i++) tell += c->looks[i].worth.tells || c->looks[i].narrows;
    if (tell == 0) {
        sheet_text(s,
                   "No single look changes the choice, or narrows date and bill of '%s', as far as "
                   "%d runs can tell.",
                   leading, c->runs);
        return;
    }
    if (!c->any_tells)
        sheet_text(s,
                   "No single look changes the choice that we can tell. These would narrow the "
                   "date and the bill of '%s' "
                   "the most for their minutes:",
                   leading);
    else
        sheet_text(s, "Ten minutes can be worth more than a week's work. In order of worth for "
                      "their minutes:");
    struct sheet_table *t = sheet_table(s, "");
    sheet_column(s, t, "look at", ALIGN_LEFT, 1);
    sheet_column(s, t, "minutes", ALIGN_RIGHT, 2);
    sheet_column(s, t, "could save", ALIGN_RIGHT, c->any_tells ? 1 : 4);
    sheet_column(s, t, "narrows the bill", ALIGN_RIGHT, 1);
    sheet_column(s, t, "and the date", ALIGN_RIGHT, 3);
    sheet_column(s, t, "how", ALIGN_LEFT, 5);
    int shown = 0;
    for (int i = 0; i < c->n_looks && shown < LOOKS_SHOWN; i++) {
        const struct choose_look *l = &c->looks[i];
        if (!l->worth.tells && !l->narrows) continue;
        shown++;
        sheet_cell(s, t, TONE_PLAIN, "%s", l->component);
        sheet_cell(s, t, TONE_PLAIN, "%.0f", l->minutes);
        sheet_cell(s, t, TONE_PLAIN, "%s",
                   l->worth.tells ? words_money(a, l->worth.gain, c->currency) : "-");
        sheet_cell(s, t, TONE_PLAIN, "%s",
                   l->money > 0 ? words_money(a, l->money, c->currency) : "-");
        sheet_cell(s, t, TONE_PLAIN, "%s", l->days > 0 ? words_days(a, l->days) : "-");
        sheet_cell(s, t, TONE_FAINT, "%s", l->kind->seen_by ? l->kind->seen_by : "");
    }
    sheet_caution(s,
                  "Never go under a vehicle that stands on a jack; use stands on firm level "
                  "ground, wheels chocked.",
                  "local law and whoever is trained for it");
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
    sheet_text(s,
               "Never: not done within the money and the years there are, in more than half of the "
               "runs.%s",
               c->worth_now_known
                   ? arena_print(s->arena,
                                 " The net of %s is told as if %s were done all the same.", t.s,
                                 n > 1 ? "they" : "it")
                   : "");
}

static void say_choice(struct sheet *s, const struct choose *c)
{
    struct arena *a = s->arena;
    const struct choose_direction *d = &c->directions[c->leading];
    if (!c->compared) return;
    sheet_text(s,
               "On these figures '%s' nets the most on average (%s), and is the best in %s of the "
               "runs. The choice is yours: "
               "money is not all of it.",
               d->direction->head.id, words_money(a, d->net.mean, c->currency),
               words_share(a, d->chance_best));
}

struct sheet *show_choose(struct arena *a, const struct choose *c)
{
    struct sheet *s = sheet_new(a, arena_print(a, "%s: what shall become of it", c->vehicle));
    if (c->after) sheet_item(s, "Hands, bay and money go first to: %s.", c->after);
    for (int i = 0; i < c->n_notes; i++) sheet_item(s, "%s", c->notes[i]);
    say_choice(s, c);
    chart_bands(s, c);
    table_directions(s, c);
    say_never(s, c);
    table_nets(s, c);
    table_looks(s, c);
    say_lost(s, c);
    struct sheet_why *w = sheet_why(
        s, "Why these figures?",
        "every direction is reckoned on the same draws of condition, hours, setbacks and prices; "
        "a look's worth is the expected value of partial perfect information, chosen on one half "
        "of "
        "the runs and valued on the other",
        MARK_PRACTICE, "odds, hours and prices of the trade data; your own worths");
    sheet_why_input(s, w, "runs", "%d", c->runs);
    sheet_why_input(s, w, "seed", "%llu", (unsigned long long)c->seed);
    sheet_why_input(s, w, "components not seen", "%d", c->unseen);
    sheet_link(s, "Decide", "add decision direction=drive reason=...");
    return s;
}

static json_t *json_direction(const struct choose *c, const struct choose_direction *d)
{
    json_t *lost = json_array();
    for (int k = 0; k < d->direction->n_lost; k++)
        json_array_append_new(lost, json_string(d->direction->lost[k]));
    json_t *o =
        json_pack("{s:s, s:b, s:o, s:o, s:o, s:f, s:o}", "direction", d->direction->head.id,
                  "decided", d->decided, "cost", words_json_moneys(&d->cost, c->currency), "finish",
                  words_json_moments(&d->finish, c->first), "hours", words_json_numbers(&d->hours),
                  "not_finished", words_round(d->never, 4), "lost", lost);
    if (!d->worth_known) {
        json_object_set_new(o, "worth", json_null());
        json_object_set_new(o, "net", json_null());
        json_object_set_new(o, "chance_ahead", json_null());
        json_object_set_new(o, "chance_best", json_null());
        return o;
    }
    json_object_set_new(o, "worth",
                        json_pack("{s:o, s:o, s:o}", "p10",
                                  words_json_money(d->worth.low, c->currency), "p50",
                                  words_json_money(d->worth.middle, c->currency), "p90",
                                  words_json_money(d->worth.high, c->currency)));
    json_object_set_new(o, "net", words_json_moneys(&d->net, c->currency));
    json_object_set_new(o, "chance_ahead", json_real(words_round(d->chance_ahead, 4)));
    json_object_set_new(o, "chance_best", json_real(words_round(d->chance_best, 4)));
    return o;
}

json_t *show_choose_json(const struct choose *c)
{
    json_t *directions = json_array(), *looks = json_array(), *notes = json_array();
    for (int i = 0; i < c->n_directions; i++)
        json_array_append_new(directions, json_direction(c, &c->directions[i]));
    for (int i = 0; i < c->n_looks; i++) {
        const struct choose_look *l = &c->looks[i];
        json_array_append_new(
            looks,
            json_pack("{s:s, s:f, s:o, s:o, s:b, s:f, s:o, s:o}", "component", l->component,
                      "minutes", l->minutes, "worth", words_json_money(l->worth.gain, c->currency),
                      "error", words_json_money(l->worth.error, c->currency), "tells",
                      l->worth.tells, "days", words_round(l->days, 2), "bill",
                      words_json_money(l->money, c->currency), "odds", words_json_odds(l->odds)));
    }
    for (int i = 0; i < c->n_notes; i++) json_array_append_new(notes, json_string(c->notes[i]));
    return json_pack("{s:s, s:I, s:i, s:o, s:o, s:o}", "vehicle", c->vehicle, "seed",
                     (json_int_t)c->seed, "runs", c->runs, "notes", notes, "directions", directions,
                     "look_next", looks);
}
