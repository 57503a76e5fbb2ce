#include "face/show/show_loom.h"

#include <math.h>
#include <stdlib.h>

enum { COVER_USUAL = 1 }; /* 75 C */

static struct loom_circuit circuit_of(const struct record *r)
{
    return (struct loom_circuit){
        .name = record_text(r, "name", "?"),
        .wire = record_text(r, "wire", ""),
        .switch_name = record_text(r, "switch", NULL),
        .use = (enum loom_use)record_integer(r, "use", LOOM_OTHER),
        .watts = record_number(r, "power", 0),
        .amps = record_number(r, "draws", 0),
        .length = record_number(r, "length", 0),
        .fuse = record_number(r, "fuse", 0),
        .switch_rates = record_number(r, "switch-rating", 0),
        .earth_wire = record_integer(r, "earth", 0) == 1,
        .insulation = (int)record_integer(r, "cover", COVER_USUAL),
        .bundle = (int)record_integer(r, "bundle", 0),
        .engine_space = record_integer(r, "space", 0) == 1,
    };
}

bool loom_of_vehicle(struct arena *a, struct garage *g, const struct record *vehicle,
                     struct loom_told *out, struct fail *f)
{
    struct record *records;
    int count;
    if (!garage_list(g, a, record_kind_find("circuit"), vehicle->id, &records, &count, f))
        return false;
    struct loom_circuit *circuits = ARENA_ARRAY(a, struct loom_circuit, count);
    for (int i = 0; i < count; i++) circuits[i] = circuit_of(&records[i]);
    const char *volts = record_text(vehicle, "voltage", NULL);
    *out = (struct loom_told){.vehicle = record_text(vehicle, "name", "?"),
                              .volts = volts ? atof(volts) : 12,
                              .volts_told = volts != NULL,
                              .circuits = circuits,
                              .count = count};
    loom_check(a, circuits, count, out->volts, &out->loom);
    return true;
}

/* ---- as a sheet ---- */

static enum tone tone_of(enum verdict v)
{
    return v == VERDICT_BAD ? TONE_BAD : v == VERDICT_CARE ? TONE_CARE : TONE_GOOD;
}

/* "battery - 15 A fuse - light switch 10 A - 3 m of 4 mm2 - 110 W - body" */
static const char *way_of(struct arena *a, const struct loom_circuit *c)
{
    struct text t = {.arena = a};
    text_add(&t, "battery");
    if (c->use != LOOM_STARTER && c->fuse > 0) text_print(&t, " ─ %.3g A fuse", c->fuse);
    if (c->use != LOOM_STARTER && c->fuse <= 0) text_add(&t, " ─ no fuse");
    if (c->switch_name || c->switch_rates > 0)
        text_print(&t, " ─ %s", c->switch_name ? c->switch_name : "switch");
    if (c->switch_rates > 0) text_print(&t, " %.3g A", c->switch_rates);
    text_print(&t, " ─ %.3g m of %s", c->length, c->wire);
    if (c->amps > 0)
        text_print(&t, " ─ %.3g A", c->amps);
    else if (c->watts > 0)
        text_print(&t, " ─ %.3g W", c->watts);
    else
        text_add(&t, " ─ load?");
    text_add(&t, c->earth_wire ? " ─ earth wire" : " ─ body");
    return text_get(&t);
}

static void say_faults(struct sheet *s, const struct loom_told *x)
{
    static const enum verdict order[] = {VERDICT_BAD, VERDICT_CARE};
    for (int o = 0; o < 2; o++)
        for (int i = 0; i < x->count; i++)
            for (int k = 0; k < x->loom.lines[i].n_faults; k++)
                if (x->loom.lines[i].worth[k] == order[o])
                    sheet_fact(s, tone_of(order[o]), x->circuits[i].name, "%s",
                               x->loom.lines[i].faults[k]);
}

static void say_table(struct sheet *s, const struct loom_told *x)
{
    struct sheet_table *t = sheet_table(s, "");
    sheet_column(s, t, "circuit", ALIGN_LEFT, 1);
    sheet_column(s, t, "from battery to earth", ALIGN_LEFT, 1);
    sheet_column(s, t, "A", ALIGN_RIGHT, 2);
    sheet_column(s, t, "bears", ALIGN_RIGHT, 3);
    sheet_column(s, t, "loses", ALIGN_RIGHT, 2);
    for (int i = 0; i < x->count; i++) {
        const struct loom_line *line = &x->loom.lines[i];
        const enum tone tone = tone_of(line->verdict);
        sheet_cell(s, t, tone, "%s", x->circuits[i].name);
        sheet_cell(s, t, TONE_PLAIN, "%s", way_of(s->arena, &x->circuits[i]));
        const bool bears = line->known && line->bears > 0 && x->circuits[i].use != LOOM_STARTER;
        sheet_cell(s, t, TONE_PLAIN, "%s",
                   line->amps > 0 ? arena_print(s->arena, "%.3g", line->amps) : "?");
        sheet_cell(s, t, TONE_PLAIN, "%s", bears ? arena_print(s->arena, "%.3g", line->bears) : "");
        sheet_cell(s, t, TONE_PLAIN, "%s",
                   line->known ? arena_print(s->arena, "%.1f %%", 100 * line->share) : "?");
    }
}

static void say_chart(struct sheet *s, const struct loom_told *x)
{
    double high = 0.11;
    for (int i = 0; i < x->count; i++) high = fmax(high, x->loom.lines[i].share);
    struct sheet_chart *c = sheet_chart(s, CHART_BARS, "lost on the way", "", 0, "0", 100 * high,
                                        arena_print(s->arena, "%.0f %%", 100 * high));
    sheet_chart_limit(s, c, 3, "3 %: lamps, ignition");
    sheet_chart_limit(s, c, 10, "10 %: others");
    for (int i = 0; i < x->count; i++) {
        const struct loom_line *line = &x->loom.lines[i];
        if (!line->known) continue;
        const double percent = 100 * line->share;
        sheet_chart_row(s, c,
                        (struct chart_row){
                            .label = x->circuits[i].name,
                            .text = arena_print(s->arena, "%.2g V, %.1f %%", line->drop, percent),
                            .middle = percent,
                            .high = percent,
                            .tone = tone_of(line->verdict)});
    }
}

struct sheet *show_loom(struct arena *a, const struct loom_told *x)
{
    struct sheet *s = sheet_new(a, arena_print(a, "The loom of %s", x->vehicle));
    if (x->count == 0) {
        sheet_text(s, "No circuit is told yet. Each one is a record: what it feeds, its load, "
                      "length, wire, fuse and switch, as in");
        sheet_item(s, "fettle add circuit name='headlamps dipped' use=lamps power=110 length=3 "
                      "wire='2.5 mm2' fuse=15 switch='light switch' switch-rating=10");
        return s;
    }
    if (x->loom.bad > 0)
        sheet_fact(s, TONE_BAD, "Verdict", "%d of %d circuits must be mended", x->loom.bad,
                   x->count);
    else if (x->loom.care > 0)
        sheet_fact(s, TONE_CARE, "Verdict", "%d of %d circuits want care", x->loom.care, x->count);
    else
        sheet_fact(s, TONE_GOOD, "Verdict", "All %d circuits are sound on paper", x->count);
    sheet_fact(s, TONE_PLAIN, "All on at once", "%.3g A at %.3g V%s", x->loom.amps, x->volts,
               x->volts_told ? "" : ", taken as its voltage is not told");
    if (x->loom.bad + x->loom.care > 0) sheet_heading(s, 2, "What is wrong");
    say_faults(s, x);
    sheet_heading(s, 2, "Each circuit");
    say_table(s, x);
    say_chart(s, x);
    sheet_caution(s,
                  "A wire too thin or without a fuse burns the vehicle. On paper is not on the "
                  "vehicle: rotten wire, loose joints and bad earths are not seen here. Disconnect "
                  "the battery before working.",
                  "An auto electrician, for the main feed and whatever stays live when parked");
    struct sheet_why *why = sheet_why(
        s, "Where does it come from?",
        "drop = current x resistance of the wire, there and by a wire back; lamps and ignition may "
        "lose 3 %, others 10 %, the starter 0.8 V of 12; fuse: 125 % of the current or the next "
        "size, and no more than the wire bears",
        MARK_NONE, "");
    sheet_why_input(s, why, "covering", "75 °C unless told");
    sheet_note(s, MARK_PUBLISHED, "ABYC E-11 and ISO 10133: drop", "");
    sheet_note(s, MARK_PUBLISHED, "33 CFR 183.425, Table 5: current of single wires", "");
    sheet_note(s, MARK_PUBLISHED, "ASTM B258, IEC 60228: resistance", "");
    sheet_note(s, MARK_PRACTICE, "Fuses of 125 %", "");
    return s;
}

/* ---- as JSON ---- */

static const char *word_of(enum verdict v)
{
    static const char *const words[] = {"", "good", "care", "bad"};
    return words[v];
}

json_t *show_loom_json(const struct loom_told *x)
{
    json_t *circuits = json_array();
    for (int i = 0; i < x->count; i++) {
        const struct loom_line *line = &x->loom.lines[i];
        json_t *faults = json_array();
        for (int k = 0; k < line->n_faults; k++)
            json_array_append_new(faults,
                                  json_pack("{s:s, s:s}", "verdict", word_of(line->worth[k]),
                                            "text", line->faults[k]));
        json_t *c = json_pack("{s:s, s:s, s:s?, s:o}", "name", x->circuits[i].name, "verdict",
                              word_of(line->verdict), "wire-needed", line->needs, "faults", faults);
        json_object_set_new(c, "amps", line->amps > 0 ? json_real(line->amps) : json_null());
        json_object_set_new(c, "drop-volts", line->known ? json_real(line->drop) : json_null());
        json_object_set_new(c, "bears-amps",
                            line->known && line->bears > 0 ? json_real(line->bears) : json_null());
        json_array_append_new(circuits, c);
    }
    return json_pack("{s:s, s:f, s:i, s:i, s:f, s:o}", "vehicle", x->vehicle, "volts", x->volts,
                     "bad", x->loom.bad, "care", x->loom.care, "amps", x->loom.amps, "circuits",
                     circuits);
}
