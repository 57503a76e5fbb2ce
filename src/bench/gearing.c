/* gearing.c - tyre, ratio, revs and road speed. */
#include "bench/row.h"
#include "bench/systems.h"
#include "bench/tyre_code.h"

#include <stdio.h>
#include <string.h>

static const double PI = 3.14159265358979323846, MILE = 1609.344;

static const struct calc_caution tyre_cautions[] = {
    {"Old rubber lets go without warning, however deep its tread. Never mix cross-ply and radial "
     "on "
     "one axle, nor radials in front with cross-ply behind.",
     "A tyre fitter, for load, speed, age and what fits the rim"},
    CAUTION_END,
};

/* ---- the tyre as three ways to tell how far a turn goes ---- */

#define TYRE_INPUTS                                                                                \
    IN_MAYBE_TEXT("tyre", "its code: 185/60R14, 165SR13, 6.00-16, A78-14"),                        \
        IN_MAYBE("diameter", LENGTH, "mm", 0.2, 2, "over the tread, in place of the code"),        \
        IN_MAYBE("circumference", LENGTH, "m", 0.6, 6, "rolled out and measured: the best of all")
enum { TYRE_COUNT = 3 };

/* How far one turn goes. */
static bool turn_of(struct arena *a, const struct calc_value *in, double *out,
                    struct calc_result *result, struct fail *f)
{
    struct tyre t;
    *out = 1;
    if (in[0].set + in[1].set + in[2].set != 1)
        return fail_set(f, FAIL_INPUT, "tyre: give one of tyre, diameter and circumference");
    if (in[1].set) *out = PI * in[1].si;
    if (in[2].set) *out = in[2].si;
    if (!in[0].set) return true;
    if (!tyre_parse("tyre", in[0].text, &t, f)) return false;
    *out = t.rolling;
    if (t.doubt > 0.02)
        calc_note(
            a, result,
            "The size of this old tyre is known to %.2g %%: roll it out one turn, measure, and "
            "give circumference.",
            100 * t.doubt);
    return true;
}

/* ---- road-speed ---- */

static const struct calc_input speed_inputs[] = {
    TYRE_INPUTS,
    IN_USUAL("engine-speed", TURNING, "rpm", "3000 rpm", 10, 1600, "of the engine"),
    IN_USUAL("gear", NUMBER, NULL, "1", 0.3, 30, "ratio of the gearbox; direct is 1"),
    IN_NEEDED("axle", NUMBER, NULL, 0.5, 20, "ratio of the axle: 41 by 11 teeth is 3.727"),
    IN_END,
};
static const struct calc_output speed_outputs[] = {
    OUT_NUMBER("speed", SPEED, "km/h", "mph", 4, "on the road"),
    OUT_NUMBER("a-thousand", SPEED, "km/h", "mph", 4, "speed at 1000 rpm"),
    OUT_NUMBER("overall", NUMBER, NULL, NULL, 4, "gear x axle"),
    OUT_NUMBER("turns-a-mile", NUMBER, NULL, NULL, 4, "of the tyre"),
    OUT_NUMBER("turns-a-km", NUMBER, NULL, NULL, 4, "of the tyre"),
    OUT_NUMBER("shaft", TURNING, "rpm", "rpm", 4, "of the propeller shaft"),
    OUT_END,
};
static const struct calc_source speed_sources[] = {
    {MARK_PUBLISHED, "A tuner's form: mph = rpm x diameter / (336 x ratio); exactly 336.135"},
    {MARK_MEMORY, "ETRTO and UN convention: rolls 3.05 x diameter, cross-ply 2.99 to 3.00"},
    SOURCE_END,
};

static bool speed_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                      struct fail *f)
{
    double turn;
    if (!turn_of(a, in, &turn, out, f)) return false;
    const double engine = in[TYRE_COUNT].si, gear = in[TYRE_COUNT + 1].si;
    const double overall = gear * in[TYRE_COUNT + 2].si, by_turn = turn / (2 * PI * overall);
    out->out[0] = calc_number(engine * by_turn);
    out->out[1] = calc_number(1000 * PI / 30 * by_turn);
    out->out[2] = calc_number(overall);
    out->out[3] = calc_number(MILE / turn);
    out->out[4] = calc_number(1000 / turn);
    out->out[5] = calc_number(engine / gear);
    if (in[1].set)
        calc_note(a, out,
                  "By the bare diameter; a tyre under load rolls less: a radial some 3 %%, a "
                  "cross-ply 5 %%.");
    return true;
}

/* ---- speed-by-gear ---- */

enum { GEARS = 6 };
static const struct calc_input gears_inputs[] = {
    TYRE_INPUTS,
    IN_TEXT("gears", "ratios from the lowest, with blanks: 3.5 2.1 1.4 1"),
    IN_NEEDED("axle", NUMBER, NULL, 0.5, 20, "ratio of the axle"),
    IN_USUAL("engine-speed", TURNING, "rpm", "3000 rpm", 10, 1600, "of the engine"),
    IN_USUAL("gear", NUMBER, NULL, "1", 1, GEARS, "the gear that is asked for"),
    IN_END,
};
static const struct calc_output gears_outputs[] = {
    OUT_NUMBER("speed", SPEED, "km/h", "mph", 3, "in the gear that is asked for"),
    OUT_NUMBER("first", SPEED, "km/h", "mph", 3, "in first"),
    OUT_NUMBER("second", SPEED, "km/h", "mph", 3, "in second"),
    OUT_NUMBER("third", SPEED, "km/h", "mph", 3, "in third"),
    OUT_NUMBER("fourth", SPEED, "km/h", "mph", 3, "in fourth"),
    OUT_NUMBER("fifth", SPEED, "km/h", "mph", 3, "in fifth"),
    OUT_NUMBER("sixth", SPEED, "km/h", "mph", 3, "in sixth"),
    OUT_NUMBER("after-shift", TURNING, "rpm", "rpm", 3,
               "of the engine in the next gear, same speed"),
    OUT_END,
};

/* How many; 0 with the line if one is no ratio, or they do not fall. */
static int read_gears(const char *typed, double ratio[GEARS], struct fail *f)
{
    int n = 0;
    for (const char *s = typed; *(s += strspn(s, " \t;/"));) {
        char one[12];
        const size_t length = strcspn(s, " \t;/");
        if (n == GEARS) return fail_set(f, FAIL_INPUT, "gears: more than six"), 0;
        snprintf(one, sizeof one, "%.*s", (int)length, s);
        if (length >= sizeof one || !text_to_double(one, &ratio[n]) || ratio[n] < 0.3 ||
            ratio[n] > 30)
            return fail_set(f, FAIL_INPUT, "gears: '%.12s' is no ratio from 0.3 to 30", one), 0;
        if (n > 0 && ratio[n] >= ratio[n - 1])
            return fail_set(f, FAIL_INPUT,
                            "gears: %s does not follow %.4g; begin with the lowest gear", one,
                            ratio[n - 1]),
                   0;
        s += length;
        n++;
    }
    if (n == 0) fail_set(f, FAIL_INPUT, "gears: not given; as 3.5 2.1 1.4 1");
    return n;
}

static bool gears_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                      struct fail *f)
{
    double turn, ratio[GEARS];
    if (!turn_of(a, in, &turn, out, f)) return false;
    const struct calc_value *own = in + TYRE_COUNT;
    const int n = read_gears(own[0].text, ratio, f);
    if (n == 0) return false;
    const int asked = (int)own[3].si;
    if (asked != own[3].si) return fail_set(f, FAIL_INPUT, "gear: a whole number");
    if (asked > n) return fail_set(f, FAIL_INPUT, "gear: there are only %d", n);
    for (int i = 0; i < n; i++)
        out->out[1 + i] = calc_number(own[2].si * turn / (2 * PI * own[1].si * ratio[i]));
    out->out[0] = out->out[asked];
    if (asked < n) out->out[7] = calc_number(own[2].si * ratio[asked] / ratio[asked - 1]);
    return true;
}

/* ---- axle-ratio ---- */

static const struct calc_input axle_inputs[] = {
    IN_NEEDED("driven", NUMBER, NULL, 1, 200, "teeth of the crown wheel, or turns of the shaft"),
    IN_USUAL("driver", NUMBER, NULL, "1", 1, 200, "teeth of the pinion, or turns of the wheels"),
    IN_USUAL("gear", NUMBER, NULL, "1", 0.3, 30, "ratio before it"),
    IN_END,
};
static const struct calc_output axle_outputs[] = {
    OUT_NUMBER("ratio", NUMBER, NULL, NULL, 4, "of this pair"),
    OUT_NUMBER("overall", NUMBER, NULL, NULL, 4, "with the one before it"),
    OUT_END,
};
static const struct calc_source axle_sources[] = {
    {MARK_PRACTICE, "Driven by driver; ratios one after another multiply"},
    SOURCE_END,
};

static bool axle_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                     struct fail *f)
{
    (void)f;
    out->out[0] = calc_number(in[0].si / in[1].si);
    out->out[1] = calc_number(in[0].si / in[1].si * in[2].si);
    calc_note(a, out,
              "Without opening it: both wheels off the ground and chocked, turn both wheels ten "
              "times the same way and count the shaft's turns.");
    return true;
}
static const struct calc_caution axle_cautions[] = {
    {"Turn it by hand only, the car on stands, gearbox in neutral, the other axle chocked.",
     "A gearbox and axle shop, for setting a crown wheel"},
    CAUTION_END,
};

/* ---- tyre-size ---- */

static const struct calc_input size_inputs[] = {
    IN_TEXT("tyre", "its code: 185/60R14 82H, 165SR13, 6.00-16, A78-14, 31x10.50R15"),
    IN_END,
};
static const struct calc_output size_outputs[] = {
    OUT_NUMBER("diameter", LENGTH, "mm", "in", 4, "over the tread"),
    OUT_NUMBER("width", LENGTH, "mm", "in", 3, "of the section"),
    OUT_NUMBER("height", LENGTH, "mm", "in", 3, "of the section"),
    OUT_NUMBER("aspect", NUMBER, "%", "%", 3, "height by width"),
    OUT_NUMBER("rim", LENGTH, "mm", "in", 3, "diameter"),
    OUT_NUMBER("rolls", LENGTH, "m", "in", 4, "in one turn, about"),
    OUT_NUMBER("turns-a-mile", NUMBER, NULL, NULL, 4, "by that"),
    OUT_NUMBER("turns-bare", NUMBER, NULL, NULL, 4, "turns a mile by the bare diameter"),
    OUT_TEXT("build", "radial or cross-ply"),
    OUT_NUMBER("load", MASS, "kg", "lb", 4, "that one tyre bears, by its load index"),
    OUT_NUMBER("fastest", SPEED, "km/h", "mph", 3, "by its speed symbol"),
    OUT_NUMBER("doubt", NUMBER, "%", "%", 2, "by which the diameter may be off"),
    OUT_END,
};
static const struct calc_source size_sources[] = {
    {MARK_PUBLISHED, "ISO metric sizes: rim + 2 x width x aspect; lists of P-metric sizes"},
    {MARK_PUBLISHED, "A repair manual: A78-14 is 24.2 in, within 2.5 %"},
    {MARK_MEMORY,
     "Other inch sizes of the table; 80 to 82 % where no aspect is written (practice); "
     "inch sizes outside it by how high old sections were (practice)"},
    {MARK_PUBLISHED, "Tyre trade tables of load index and speed symbol"},
    {MARK_MEMORY, "ETRTO and UN convention: rolls 3.05 x diameter, cross-ply 2.99 to 3.00"},
    SOURCE_END,
};

static bool size_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                     struct fail *f)
{
    struct tyre t;
    if (!tyre_parse("tyre", in[0].text, &t, f)) return false;
    out->out[0] = calc_number(t.diameter);
    if (t.width > 0) out->out[1] = calc_number(t.width);
    out->out[2] = calc_number((t.diameter - t.rim) / 2);
    out->out[3] = calc_number(t.aspect);
    out->out[4] = calc_number(t.rim);
    out->out[5] = calc_number(t.rolling);
    out->out[6] = calc_number(MILE / t.rolling);
    out->out[7] = calc_number(MILE / (PI * t.diameter));
    out->out[8] = calc_text(tyre_build_names[t.build]);
    if (tyre_load(t.load_index) > 0) out->out[9] = calc_number(tyre_load(t.load_index));
    if (tyre_speed(t.speed) > 0) out->out[10] = calc_number(tyre_speed(t.speed));
    if (t.doubt > 0) out->out[11] = calc_number(t.doubt);
    if (t.doubt > 0.02)
        calc_verdict(a, out, VERDICT_CARE, "An old size, known roughly: measure the tyre itself");
    return true;
}

/* ---- speedometer ---- */

static const struct calc_input clock_inputs[] = {
    IN_USUAL("shows", SPEED, "km/h", "100 km/h", 1, 120, "on the dial"),
    IN_MAYBE_TEXT("old-tyre", "code of the tyre for which the speedometer is right"),
    IN_MAYBE("old-diameter", LENGTH, "mm", 0.2, 2, "or how large it is"),
    IN_MAYBE_TEXT("new-tyre", "code of the tyre that is on it"),
    IN_MAYBE("new-diameter", LENGTH, "mm", 0.2, 2, "or how large it is"),
    IN_USUAL("old-axle", NUMBER, NULL, "1", 0.5, 20, "ratio for which the speedometer is right"),
    IN_USUAL("new-axle", NUMBER, NULL, "1", 0.5, 20, "ratio that is in it"),
    IN_END,
};
static const struct calc_output clock_outputs[] = {
    OUT_NUMBER("true-speed", SPEED, "km/h", "mph", 4, "on the road"),
    OUT_NUMBER("off", NUMBER, "%", "%", 3, "true over shown: above 0 the dial shows too little"),
    OUT_NUMBER("drive-ratio", NUMBER, NULL, NULL, 4, "turns of the cable to be multiplied by this"),
    OUT_END,
};
static const struct calc_source clock_sources[] = {
    {MARK_PRACTICE, "True = shown x new circumference / old x old axle / new"},
    {MARK_MEMORY, "UN R39: never shows less than the truth, nor more by over a tenth and 4 km/h"},
    SOURCE_END,
};

static bool across(const struct calc_value *in, const char *name, double *out, struct fail *f)
{
    struct tyre t = {0};
    *out = 1;
    if (in[0].set == in[1].set)
        return fail_set(f, FAIL_INPUT, "%s: give its code or its diameter, one of them", name);
    if (in[0].set && !tyre_parse(name, in[0].text, &t, f)) return false;
    *out = in[0].set ? t.rolling / 3.05 : in[1].si; /* as a radial's */
    return true;
}

static bool clock_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                      struct fail *f)
{
    double before, after;
    if (!across(in + 1, "old-tyre", &before, f) || !across(in + 3, "new-tyre", &after, f))
        return false;
    const double by = after / before * in[5].si / in[6].si, off = by - 1;
    out->out[0] = calc_number(in[0].si * by);
    out->out[1] = calc_number(off);
    out->out[2] = calc_number(by);
    if (off > 0.005)
        calc_verdict(a, out, VERDICT_BAD,
                     "The dial shows too little: you drive faster than you read");
    else if (off < -0.10)
        calc_verdict(a, out, VERDICT_CARE, "The dial shows over a tenth too much");
    else
        calc_verdict(a, out, VERDICT_GOOD, "Near enough, if the dial was right before");
    calc_note(a, out, "Try it against milestones or a watch: old dials are off by themselves.");
    return true;
}
static const struct calc_caution clock_cautions[] = {
    {"A dial that shows too little breaks speed limits and takes braking distance unseen.",
     "An instrument maker, for the dial or the ratio of its drive"},
    CAUTION_END,
};

const struct calc calc_gearing[] = {
    {.name = "road-speed",
     .question = "How fast does it go at these revs?",
     .inputs = speed_inputs,
     .outputs = speed_outputs,
     .formula = "speed = engine speed x circumference / (gear x axle)",
     .limits = "Without slip of clutch or tyre; the loaded radius is no measure of speed.",
     .sources = speed_sources,
     .cautions = tyre_cautions,
     .plot_over = "engine-speed",
     .plot_of = "speed",
     .run = speed_run},
    {.name = "speed-by-gear",
     .question = "How fast does it go in each gear?",
     .inputs = gears_inputs,
     .outputs = gears_outputs,
     .formula = "speed = engine speed x circumference / (gear x axle)",
     .limits = "Without slip; six gears at most.",
     .sources = speed_sources,
     .cautions = tyre_cautions,
     .plot_over = "gear",
     .plot_of = "speed",
     .plot_whole = true,
     .run = gears_run},
    {.name = "axle-ratio",
     .question = "Which ratio do these teeth, or turns, make?",
     .inputs = axle_inputs,
     .outputs = axle_outputs,
     .formula = "ratio = driven / driver; overall = ratio x gear",
     .limits = "With one wheel held, the other turns twice: turn both.",
     .sources = axle_sources,
     .cautions = axle_cautions,
     .run = axle_run},
    {.name = "tyre-size",
     .question = "What does the code of this tyre say?",
     .inputs = size_inputs,
     .outputs = size_outputs,
     .formula = "diameter = rim + 2 x width x aspect; an old inch size from a table, else from how "
                "high old sections were",
     .limits = "New, at its pressure, without load.",
     .sources = size_sources,
     .cautions = tyre_cautions,
     .run = size_run},
    {.name = "speedometer",
     .question = "What is the true speed after a change of tyre or axle?",
     .inputs = clock_inputs,
     .outputs = clock_outputs,
     .formula = "true = shown x new circumference / old circumference x old axle / new axle",
     .limits = "A dial driven from the gearbox's output, right before the change.",
     .sources = clock_sources,
     .cautions = clock_cautions,
     .run = clock_run},
    {.name = NULL},
};
