/* tyres.c - what a tyre may carry and how fast, how old it is, and which may run together. */
#include "base/day.h"
#include "bench/row.h"
#include "bench/systems.h"
#include "bench/tyre_code.h"

#include <ctype.h>

static const struct calc_caution tyre_cautions[] = {
    {"Old rubber looks sound and lets go at speed, and takes the steering with it. A bulge, a cut "
     "or a crack that shows cord: do not drive, nor pump it up beside your face.",
     "A tyre fitter who takes it off the rim and looks inside"},
    CAUTION_END,
};

/* ---- tyre-load ---- */

static const struct calc_input load_inputs[] = {
    IN_MAYBE_TEXT("tyre", "as written on its side: 165SR13 82S"),
    IN_MAYBE("index", NUMBER, NULL, 71, 110, "its load index, instead"),
    IN_MAYBE_TEXT("symbol", "its speed symbol, instead: S"),
    IN_USUAL("tyres", NUMBER, NULL, "2", 1, 4, "on the axle"),
    IN_MAYBE("axle", MASS, "kg", 10, 3e4, "load of the axle, laden"),
    IN_MAYBE("speed", SPEED, "km/h", 1, 150, "that the vehicle reaches"),
    IN_END,
};
static const struct calc_output load_outputs[] = {
    OUT_NUMBER("each", MASS, "kg", "lb", 4, "tyre may carry"),
    OUT_NUMBER("together", MASS, "kg", "lb", 4, "the tyres of the axle may carry"),
    OUT_NUMBER("fastest", SPEED, "km/h", "mph", 3, "that the symbol allows"),
    OUT_END,
};
static const struct calc_source load_sources[] = {
    {MARK_PUBLISHED, "Tables of the tyre trade: load index 71 to 110, speed symbols N to Y"},
    {MARK_MEMORY, "Speed symbols L and M"},
    SOURCE_END,
};

/* The index and the symbol, from the code or told apart; 0: not told. */
static bool read_marks(const struct calc_value *in, int *index, char *symbol, struct fail *f)
{
    struct tyre t = {.load_index = 0};
    if (in[0].set && (in[1].set || in[2].set))
        return fail_set(f, FAIL_INPUT, "tyre: give it, or index and symbol, not both");
    if (in[0].set && !tyre_parse("tyre", in[0].text, &t, f)) return false;
    *index = in[1].set ? (int)in[1].si : t.load_index;
    *symbol = t.speed;
    if (in[1].set && in[1].si != floor(in[1].si))
        return fail_set(f, FAIL_INPUT, "index: load indexes are whole numbers");
    if (in[2].set) {
        *symbol = (char)toupper((unsigned char)in[2].text[0]);
        if (in[2].text[1] != '\0' || tyre_speed(*symbol) <= 0)
            return fail_set(f, FAIL_INPUT, "symbol: '%.20s' is none; those known are L to Y",
                            in[2].text);
    }
    if (*index == 0 && *symbol == '\0')
        return fail_set(f, FAIL_INPUT, "%s",
                        in[0].set ? "tyre: no load index is written in that code"
                                  : "tyre: give it, or its index or its symbol");
    if (*index != 0 && tyre_load(*index) <= 0)
        return fail_set(f, FAIL_INPUT, "tyre: load index %d is not in the table, 71 to 110",
                        *index);
    return true;
}

static bool load_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                     struct fail *f)
{
    enum { TYRES = 3, AXLE, SPEED };
    int index = 0;
    char symbol = 0;
    if (!read_marks(in, &index, &symbol, f)) return false;
    if (in[TYRES].si != floor(in[TYRES].si))
        return fail_set(f, FAIL_INPUT, "tyres: a whole number of them");
    const double each = tyre_load(index), together = each * in[TYRES].si;
    const double fastest = symbol ? tyre_speed(symbol) : 0;
    if (index) out->out[0] = calc_number(each), out->out[1] = calc_number(together);
    if (symbol) out->out[2] = calc_number(fastest);
    const bool heavy = index && in[AXLE].set && in[AXLE].si > together;
    const bool fast = symbol && in[SPEED].set && in[SPEED].si > fastest * (1 + 1e-9);
    if (heavy)
        calc_verdict(a, out, VERDICT_BAD, "Do not fit these: they carry less than the axle weighs");
    else if (fast)
        calc_verdict(a, out, VERDICT_BAD, "Do not fit these: the vehicle is faster than they are");
    else if (index && in[AXLE].set)
        calc_verdict(a, out, VERDICT_GOOD, "They carry this axle");
    calc_note(a, out,
              "At the pressure for that load, which the maker of the tyre tells; four on one axle "
              "carry less each, see the second index of a van tyre.");
    return true;
}

/* ---- tyre-age ---- */

static const struct calc_input age_inputs[] = {
    IN_TEXT("date", "last three or four figures of the DOT number: 2304"),
    IN_TEXT("on", "the day: 2026-06-30"),
    IN_END,
};
static const struct calc_output age_outputs[] = {
    OUT_TEXT("made", "week and year"),
    OUT_NUMBER("age", NUMBER, NULL, NULL, 3, "years, the youngest it can be"),
    OUT_END,
};
static const struct calc_source age_sources[] = {
    {MARK_PUBLISHED, "64 FR 36807: week and year in four figures from July 2000, in three before"},
    {MARK_PRACTICE, "Look closely at six years, replace at ten, the spare too"},
    {MARK_MEMORY, "The triangle of the nineties"},
    SOURCE_END,
};

static bool age_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                    struct fail *f)
{
    struct tyre_date date;
    struct fail why = {0};
    day on;
    if (!tyre_date_parse("date", in[0].text, &date, f)) return false;
    if (!day_parse(in[1].text, &on, &why)) return fail_set(f, FAIL_INPUT, "on: %s", why.text);
    double youngest = -1;
    struct text made = {.arena = a};
    text_print(&made, "week %d of ", date.week);
    for (int i = 0; i < date.n_years; i++) {
        const day week = day_from_civil(date.years[i], 1, 1) + 7 * (date.week - 1);
        text_print(&made, "%s%d", i ? " or " : "", date.years[i]);
        if (week <= on) youngest = (on - week) / 365.25;
    }
    if (youngest < 0)
        return fail_set(f, FAIL_INPUT, "date: that week was not yet on the day given");
    out->out[0] = calc_text(text_get(&made));
    out->out[1] = calc_number(youngest);
    if (date.n_years > 1)
        calc_note(a, out,
                  "Three figures do not tell the decade; a small triangle behind them is said to "
                  "mean the nineties.");
    if (youngest > 10)
        calc_verdict(a, out, VERDICT_BAD, "Not for the road: older than ten years");
    else if (youngest > 6)
        calc_verdict(a, out, VERDICT_CARE, "Over six years: have it looked at inside, every year");
    else
        calc_verdict(a, out, VERDICT_GOOD, "Young enough, if it is sound");
    calc_note(a, out, "No age is a law for light vehicles in the United States; ask your own.");
    return true;
}

/* ---- tyre-mix ---- */

static const char *const builds[] = {"radial", "cross-ply", "mixed", NULL};
static const struct calc_input mix_inputs[] = {
    IN_CHOICE("front", builds, NULL, "axle: both radial, both cross-ply, or one of each"),
    IN_CHOICE("rear", builds, NULL, "axle: both radial, both cross-ply, or one of each"),
    IN_END,
};
static const struct calc_output mix_outputs[] = {
    OUT_TEXT("may", "it run so"),
    OUT_END,
};
static const struct calc_source mix_sources[] = {
    {MARK_PRACTICE, "Never both on one axle; never radials in front with cross-plies behind"},
    SOURCE_END,
};

static bool mix_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                    struct fail *f)
{
    enum { RADIAL, CROSS_PLY, MIXED };
    const int front = in[0].choice, rear = in[1].choice;
    const bool bad = front == MIXED || rear == MIXED || (front == RADIAL && rear == CROSS_PLY);
    (void)f;
    out->out[0] = calc_text(bad ? "no" : front == rear ? "yes" : "only for want of better");
    if (front == MIXED || rear == MIXED)
        calc_verdict(a, out, VERDICT_BAD, "Do not drive so: two kinds on one axle pull apart");
    else if (bad)
        calc_verdict(a, out, VERDICT_BAD,
                     "Do not drive so: the rear lets go before the front in a bend");
    else if (front != rear)
        calc_verdict(a, out, VERDICT_CARE, "Radials behind only: better four alike");
    else
        calc_verdict(a, out, VERDICT_GOOD, "Four alike");
    return true;
}

const struct calc calc_tyres[] = {
    {.name = "tyre-load",
     .question = "Do these tyres carry the axle, and are they fast enough?",
     .inputs = load_inputs,
     .outputs = load_outputs,
     .formula = "the table of load indexes, times the tyres of the axle; the table of symbols",
     .limits = "Load indexes 71 to 110, symbols L to Y.",
     .sources = load_sources,
     .cautions = tyre_cautions,
     .run = load_run},
    {.name = "tyre-age",
     .question = "How old is this tyre?",
     .inputs = age_inputs,
     .outputs = age_outputs,
     .formula = "week and year as stamped; age from the first day of that week",
     .limits = "Tyres with a DOT number, from 1970 on.",
     .sources = age_sources,
     .cautions = tyre_cautions,
     .run = age_run},
    {.name = "tyre-mix",
     .question = "May radials and cross-plies run together so?",
     .inputs = mix_inputs,
     .outputs = mix_outputs,
     .formula = "one kind on an axle; radials in front only with radials behind",
     .limits = "The law of the place goes before.",
     .sources = mix_sources,
     .cautions = tyre_cautions,
     .run = mix_run},
    {.name = NULL},
};
