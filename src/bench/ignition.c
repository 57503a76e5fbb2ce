/* ignition.c - coil, dwell; and what an old vehicle's volts and earth ask for. */
#include "bench/row.h"
#include "bench/systems.h"

/* ---- coil ---- */

static const struct calc_input coil_inputs[] = {
    IN_NEEDED("resistance", RESISTANCE, "ohm", 0.1, 20, "of the coil's thin terminals"),
    IN_USUAL("ballast", RESISTANCE, "ohm", "0 ohm", 0, 10, "of its resistor or resistance wire"),
    IN_USUAL("volts", VOLTAGE, "V", "12 V", 4, 30, "of the system"),
    IN_END,
};
static const struct calc_output coil_outputs[] = {
    OUT_NUMBER("current", CURRENT, "A", "A", 3, "with the points closed"),
    OUT_NUMBER("power", POWER, "W", "W", 3, "with the points closed"),
    OUT_NUMBER("coil-volts", VOLTAGE, "V", "V", 3, "left at the coil"),
    OUT_END,
};
static const struct calc_source coil_sources[] = {
    {MARK_PRACTICE, "Ohm's law; points last with about 4 A and burn from 5"},
    SOURCE_END,
};
static const struct calc_caution coil_cautions[] = {
    {"Ignition left on with the points closed cooks the coil; the spark side gives a shock that "
     "can kill whoever wears a pacemaker.",
     "An auto electrician"},
    CAUTION_END,
};

static bool coil_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                     struct fail *f)
{
    const double amps = in[2].si / (in[0].si + in[1].si);
    (void)f;
    out->out[0] = calc_number(amps);
    out->out[1] = calc_number(amps * in[2].si);
    out->out[2] = calc_number(amps * in[0].si);
    if (amps > 5)
        calc_verdict(a, out, VERDICT_BAD, "The points burn: it wants a ballast or another coil");
    else if (amps < 2)
        calc_verdict(a, out, VERDICT_CARE, "A weak spark: wrong coil, or a ballast too many");
    else
        calc_verdict(a, out, VERDICT_GOOD, "The points bear it");
    return true;
}

/* ---- dwell ---- */

static const struct calc_input dwell_inputs[] = {
    IN_NEEDED("cylinders", NUMBER, NULL, 1, 12, "lobes of the distributor's cam"),
    IN_NEEDED("dwell", ANGLE, "°", 0.05, 6.2, "angle for which the points are closed"),
    IN_USUAL("engine-speed", TURNING, "rpm", "3000 rpm", 5, 1000, "of a four-stroke"),
    IN_END,
};
static const struct calc_output dwell_outputs[] = {
    OUT_NUMBER("share", NUMBER, "%", "%", 3, "of the turn of the cam with points closed"),
    OUT_NUMBER("lobe-angle", ANGLE, "°", "°", 3, "from one lobe to the next"),
    OUT_NUMBER("closed-time", TIME, "ms", "ms", 3, "for the coil to fill, at that speed"),
    OUT_NUMBER("sparks", NUMBER, NULL, NULL, 4, "a second"),
    OUT_END,
};
static const struct calc_source dwell_sources[] = {
    {MARK_PUBLISHED, "Ignition guides: dwell, dwell share, and that a wider gap lessens it"},
    {MARK_PRACTICE, "Usual share 55 to 72 %; a coil fills in some 3 ms"},
    SOURCE_END,
};

static bool dwell_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                      struct fail *f)
{
    const double turn = 6.28318530717958648, lobe = turn / in[0].si, share = in[1].si / lobe;
    if (in[0].si != floor(in[0].si)) return fail_set(f, FAIL_INPUT, "cylinders: a whole number");
    if (share >= 1)
        return fail_set(f, FAIL_INPUT, "dwell: at %.0f lobes it is under %.3g degrees", in[0].si,
                        360 / in[0].si);
    const double cam = in[2].si / 2;
    out->out[0] = calc_number(share);
    out->out[1] = calc_number(lobe);
    out->out[2] = calc_number(in[1].si / cam);
    out->out[3] = calc_number(cam / lobe);
    if (share < 0.55)
        calc_verdict(a, out, VERDICT_CARE,
                     "Little dwell: the gap is wide, the spark weak at speed");
    else if (share > 0.72)
        calc_verdict(a, out, VERDICT_CARE, "Much dwell: the gap is narrow, the points burn");
    else
        calc_verdict(a, out, VERDICT_GOOD, "Usual; the maker's figure goes before it");
    calc_note(a, out,
              "A wider gap lessens dwell and brings the spark forward: set timing after it.");
    return true;
}

/* ---- dropping-resistor ---- */

static const struct calc_input dropping_inputs[] = {
    IN_USUAL("supply", VOLTAGE, "V", "13.8 V", 5, 60, "of the new system, charging"),
    IN_USUAL("load-volts", VOLTAGE, "V", "6.9 V", 1, 30, "of the old part: 6.9 for 6 V"),
    IN_MAYBE("power", POWER, "W", 0.1, 500, "of the part at its own voltage"),
    IN_MAYBE("current", CURRENT, "A", 0.01, 100, "in place of the power"),
    IN_END,
};
static const struct calc_output dropping_outputs[] = {
    OUT_NUMBER("resistor", RESISTANCE, NULL, NULL, 3, "in the part's wire"),
    OUT_NUMBER("heat", POWER, "W", "W", 3, "that it gives off"),
    OUT_NUMBER("rating", POWER, "W", "W", 2, "to buy: twice as much"),
    OUT_NUMBER("flows", CURRENT, "A", "A", 3, "through both"),
    OUT_END,
};
static const struct calc_source dropping_sources[] = {
    {MARK_PRACTICE, "Ohm's law: R = (supply - load) / current; rated for twice its heat"},
    SOURCE_END,
};
static const struct calc_caution dropping_cautions[] = {
    {"The resistor gets as hot as the part's own power makes it: metal base, air, away from wires "
     "and petrol.",
     "An auto electrician"},
    CAUTION_END,
};

static bool dropping_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                         struct fail *f)
{
    if (in[2].set == in[3].set)
        return fail_set(f, FAIL_INPUT, "power: give the power or the current, one of them");
    if (in[0].si <= in[1].si)
        return fail_set(f, FAIL_INPUT, "load-volts: it needs no resistor: the supply is no higher");
    const double amps = in[3].set ? in[3].si : in[2].si / in[1].si;
    const double drop = in[0].si - in[1].si;
    out->out[0] = calc_number(drop / amps);
    out->out[1] = calc_number(drop * amps);
    out->out[2] = calc_number(2 * drop * amps);
    out->out[3] = calc_number(amps);
    if (drop * amps > 60)
        calc_verdict(a, out, VERDICT_CARE,
                     "%.0f W of heat: better a converter, or the part rewound", drop * amps);
    else
        calc_verdict(a, out, VERDICT_NONE, "%.3g ohm, %.0f W or more", drop / amps,
                     2 * drop * amps);
    calc_note(a, out,
              "For a steady load only. What varies (a motor, a radio, gauges) wants a "
              "converter; with the load off, the full supply stands at it.");
    return true;
}

/* ---- polarity ---- */

static const char *const earths[] = {"positive", "negative", NULL};
static const char *const generators[] = {"dynamo", "alternator", NULL};
static const struct calc_input polarity_inputs[] = {
    IN_CHOICE("from", earths, "positive", "battery post that is on the body now"),
    IN_CHOICE("to", earths, "negative", "battery post that shall be"),
    IN_CHOICE("generator", generators, "dynamo", "dynamo or alternator"),
    IN_END,
};
static const struct calc_output polarity_outputs[] = {
    OUT_TEXT("body", "what the body is then"),
    OUT_TEXT("battery", "what to do with it"),
    OUT_TEXT("generator-then", "what to do with it"),
    OUT_TEXT("coil", "what to do with it"),
    OUT_TEXT("electronics", "radio, electronic ignition, flasher, voltage regulator"),
    OUT_TEXT("unmoved", "what does not care"),
    OUT_END,
};
static const struct calc_source polarity_sources[] = {
    {MARK_PRACTICE, "Changing the earth: what has a direction, and what has none"},
    SOURCE_END,
};
static const struct calc_caution polarity_cautions[] = {
    {"An alternator or anything electronic on the wrong polarity is gone at once, and may burn.",
     "An auto electrician"},
    CAUTION_END,
};

static bool polarity_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                         struct fail *f)
{
    const bool negative = in[1].choice == 1, changed = in[0].choice != in[1].choice;
    const bool alternator = in[2].choice == 1;
    (void)f;
    out->out[0] = calc_text(negative ? "minus" : "plus");
    out->out[1] =
        calc_text(!changed ? "as it is" : "turn it round; the posts differ in size: new clamps");
    out->out[2] = calc_text(
        !changed     ? "as it is; re-polarise a dynamo after any work on it"
        : alternator ? "only one that is built for the new earth"
                     : "re-polarise before it runs, at the terminal that its manual names");
    out->out[3] = calc_text(changed ? "swap its two thin wires" : "as it is");
    out->out[4] = calc_text(!changed ? "as they are"
                                     : "each must be rated for the new earth; else take it out");
    out->out[5] = calc_text("lamps, starter, heater and wiper motors with wound fields, horn");
    if (changed && alternator && in[0].choice == 0)
        calc_verdict(a, out, VERDICT_CARE,
                     "Few alternators are made for positive earth: look first");
    else if (!changed)
        calc_verdict(a, out, VERDICT_NONE, "Nothing changes");
    else
        calc_verdict(a, out, VERDICT_NONE, "Battery off first, and last of all on again");
    calc_note(a, out,
              "Motors with magnets, an ammeter and an electric clock run backwards: swap "
              "their wires, unless earthed through the case.");
    return true;
}

const struct calc calc_ignition[] = {
    {.name = "coil",
     .question = "What does this coil draw?",
     .inputs = coil_inputs,
     .outputs = coil_outputs,
     .formula = "current = volts / (coil + ballast)",
     .limits = "Points closed, engine standing; running, it is less.",
     .sources = coil_sources,
     .cautions = coil_cautions,
     .run = coil_run},
    {.name = "dwell",
     .question = "Is this dwell right?",
     .inputs = dwell_inputs,
     .outputs = dwell_outputs,
     .formula = "share = dwell x cylinders / 360 degrees; closed time = dwell / cam speed",
     .limits = "One set of points, a four-stroke with the cam at half speed.",
     .sources = dwell_sources,
     .run = dwell_run},
    {.name = "dropping-resistor",
     .question = "Which resistor lets a 6 V part live on 12 V?",
     .inputs = dropping_inputs,
     .outputs = dropping_outputs,
     .formula = "R = (supply - load volts) / current; heat = (supply - load volts) x current",
     .limits = "A steady load.",
     .sources = dropping_sources,
     .cautions = dropping_cautions,
     .run = dropping_run},
    {.name = "polarity",
     .question = "What must be done to change the earth?",
     .inputs = polarity_inputs,
     .outputs = polarity_outputs,
     .formula = "what has a direction is turned round, re-polarised or replaced",
     .sources = polarity_sources,
     .cautions = polarity_cautions,
     .run = polarity_run},
    {.name = NULL},
};
