/* engine.c - size, compression, piston speed, firing, power, and how a head grows with heat. */
#include "bench/row.h"
#include "bench/systems.h"

#include <string.h>

static const double PI = 3.14159265358979323846;

/* ---- displacement ---- */

static const struct calc_input size_inputs[] = {
    IN_NEEDED("bore", LENGTH, "mm", 0.01, 0.5, "of the cylinder, as new"),
    IN_NEEDED("stroke", LENGTH, "mm", 0.01, 0.7, "of the piston"),
    IN_NEEDED("cylinders", NUMBER, NULL, 1, 24, "how many"),
    IN_USUAL("oversize", LENGTH, "mm", "0 mm", 0, 0.01, "by which it was or will be bored"),
    IN_END,
};
static const struct calc_output size_outputs[] = {
    OUT_NUMBER("displacement", VOLUME, "cm3", "in3", 4, "of all cylinders"),
    OUT_NUMBER("each", VOLUME, "cm3", "in3", 4, "of one cylinder"),
    OUT_NUMBER("more", VOLUME, "cm3", "in3", 3, "than as new"),
    OUT_NUMBER("bore-by-stroke", NUMBER, NULL, NULL, 3, "over 1: oversquare"),
    OUT_END,
};
static const struct calc_source geometry_sources[] = {
    {MARK_PRACTICE, "Geometry"},
    SOURCE_END,
};

static double circle(double diameter)
{
    return PI / 4 * diameter * diameter;
}

static bool is_whole(double x)
{
    return x == floor(x);
}

static bool size_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                     struct fail *f)
{
    if (!is_whole(in[2].si)) return fail_set(f, FAIL_INPUT, "cylinders: a whole number");
    const double each = circle(in[0].si + in[3].si) * in[1].si;
    out->out[0] = calc_number(each * in[2].si);
    out->out[1] = calc_number(each);
    out->out[2] = calc_number((each - circle(in[0].si) * in[1].si) * in[2].si);
    out->out[3] = calc_number((in[0].si + in[3].si) / in[1].si);
    if (in[3].si > 0.0016)
        calc_verdict(a, out, VERDICT_CARE,
                     "Past the usual last oversize (0.060 in): measure the wall, or have it "
                     "sleeved");
    return true;
}

/* ---- compression-ratio ---- */

static const struct calc_input ratio_inputs[] = {
    IN_NEEDED("bore", LENGTH, "mm", 0.01, 0.5, "of the cylinder"),
    IN_NEEDED("stroke", LENGTH, "mm", 0.01, 0.7, "of the piston"),
    IN_NEEDED("chamber", VOLUME, "cm3", 1e-7, 0.01, "in the head, poured full and measured"),
    IN_USUAL("dish", VOLUME, "cm3", "0 cm3", -2e-3, 2e-3, "in the piston's top; a dome is below 0"),
    IN_USUAL("gasket", LENGTH, "mm", "1 mm", 0, 0.005, "thickness, once tightened"),
    IN_MAYBE("gasket-bore", LENGTH, "mm", 0.01, 0.5, "of its hole; the cylinder's if left out"),
    IN_USUAL("deck", LENGTH, "mm", "0 mm", -0.005, 0.02, "that the piston stays below the block"),
    IN_END,
};
static const struct calc_output ratio_outputs[] = {
    OUT_NUMBER("ratio", NUMBER, NULL, NULL, 4, "to 1"),
    OUT_NUMBER("swept", VOLUME, "cm3", "in3", 4, "by one piston"),
    OUT_NUMBER("clearance", VOLUME, "cm3", "in3", 4, "left at the top"),
    OUT_NUMBER("gasket-volume", VOLUME, "cm3", "in3", 3, "of that"),
    OUT_NUMBER("deck-volume", VOLUME, "cm3", "in3", 3, "of that"),
    OUT_END,
};
static const struct calc_source ratio_sources[] = {
    {MARK_PRACTICE, "Geometry: (swept + clearance) / clearance"},
    {MARK_PRACTICE, "Iron heads on pump petrol pink from about 9.5 to 10"},
    SOURCE_END,
};

static bool ratio_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                      struct fail *f)
{
    const double hole = in[5].set ? in[5].si : in[0].si, swept = circle(in[0].si) * in[1].si;
    const double gasket = circle(hole) * in[4].si, deck = circle(in[0].si) * in[6].si;
    const double clearance = in[2].si + in[3].si + gasket + deck;
    if (hole < in[0].si * (1 - 1e-9))
        return fail_set(f, FAIL_INPUT, "gasket-bore: under the bore; it would hang into the flame");
    if (in[6].si + in[4].si < 0)
        return fail_set(f, FAIL_INPUT, "deck: the piston would stand above the gasket");
    if (clearance < swept / 29)
        return fail_set(f, FAIL_INPUT,
                        "chamber: only %.3g cm3 is left at the top; this holds up to 30 to 1",
                        fmax(0, clearance * 1e6));
    const double ratio = 1 + swept / clearance;
    out->out[0] = calc_number(ratio);
    out->out[1] = calc_number(swept);
    out->out[2] = calc_number(clearance);
    out->out[3] = calc_number(gasket);
    out->out[4] = calc_number(deck);
    if (ratio > 12)
        calc_verdict(a, out, VERDICT_CARE, "Too much for petrol, little for a diesel: look again");
    else if (ratio > 9.5)
        calc_verdict(a, out, VERDICT_CARE,
                     "High for an old engine: listen for pinking, and ask "
                     "which petrol it takes");
    else
        calc_verdict(a, out, VERDICT_GOOD, "Pump petrol does, if cooling and timing are right");
    calc_note(a, out, "A thin gasket or a planed head raises it; check that valves clear pistons.");
    return true;
}

/* ---- piston-speed ---- */

static const struct calc_input speed_inputs[] = {
    IN_NEEDED("stroke", LENGTH, "mm", 0.01, 0.7, "of the piston"),
    IN_USUAL("engine-speed", TURNING, "rpm", "3000 rpm", 5, 1600, "turns of the crank"),
    IN_END,
};
static const struct calc_output speed_outputs[] = {
    OUT_NUMBER("piston-speed", SPEED, "m/s", "ft/min", 4, "on average"),
    OUT_END,
};
static const struct calc_source speed_sources[] = {
    {MARK_PRACTICE, "Geometry: two strokes a turn; in feet a minute, inches x rpm / 6"},
    {MARK_PRACTICE, "Up to 15 m/s (3000 ft/min) for old engines, 20 for sound modern parts"},
    SOURCE_END,
};

static bool speed_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                      struct fail *f)
{
    const double speed = in[0].si * in[1].si / PI;
    (void)f;
    out->out[0] = calc_number(speed);
    if (speed > 20)
        calc_verdict(a, out, VERDICT_BAD, "Rods and pistons of an old engine do not bear this");
    else if (speed > 15)
        calc_verdict(a, out, VERDICT_CARE, "Only for moments, with rods and bearings known good");
    else
        calc_verdict(a, out, VERDICT_GOOD, "An old engine bears it");
    return true;
}

/* ---- firing ---- */

static const struct {
    int cylinders;
    const char *usual;
} orders[] = {
    {2, "1-2"},       {3, "1-3-2 or 1-2-3"},      {4, "1-3-4-2 or 1-2-4-3 in line; 1-4-3-2 flat"},
    {5, "1-2-4-5-3"}, {6, "1-5-3-6-2-4 in line"}, {8, "1-8-4-3-6-5-7-2 is common for a V"},
};

static const struct calc_input firing_inputs[] = {
    IN_NEEDED("cylinders", NUMBER, NULL, 1, 16, "how many"),
    IN_USUAL("engine-speed", TURNING, "rpm", "3000 rpm", 5, 1600, "turns of the crank"),
    IN_MAYBE_TEXT("order", "in which they fire, to be checked: 1-3-4-2"),
    IN_END,
};
static const struct calc_output firing_outputs[] = {
    OUT_NUMBER("interval", ANGLE, "°", "°", 4, "of the crank from one spark to the next"),
    OUT_NUMBER("sparks-a-minute", NUMBER, NULL, NULL, 5, "that the coil gives"),
    OUT_NUMBER("time-between", TIME, "ms", "ms", 3, "two sparks"),
    OUT_TEXT("usual-order", "met most often; the maker's goes before it"),
    OUT_END,
};
static const struct calc_source firing_sources[] = {
    {MARK_PRACTICE, "Four strokes: each cylinder fires once in two turns"},
    {MARK_MEMORY, "Usual firing orders"},
    SOURCE_END,
};
static const struct calc_caution spark_cautions[] = {
    {"Leads in a wrong order make it spit fire through the carburettor: air cleaner on, "
     "extinguisher at hand, no face over it.",
     "The maker's data and the rotor's direction; an auto electrician"},
    CAUTION_END,
};

/* Each number from 1 once. */
static bool order_is_whole(const char *order, int cylinders)
{
    bool seen[17] = {false};
    int n = 0;
    while (*order) {
        const size_t digits = strspn(order, "0123456789");
        const int value = digits == 1   ? order[0] - '0'
                          : digits == 2 ? (order[0] - '0') * 10 + order[1] - '0'
                                        : 0;
        if (value < 1 || value > cylinders || seen[value]) return false;
        seen[value] = true, n++;
        order += digits;
        order += strspn(order, " -,");
    }
    return n == cylinders;
}

static bool firing_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                       struct fail *f)
{
    const double n = in[0].si;
    if (!is_whole(n)) return fail_set(f, FAIL_INPUT, "cylinders: a whole number");
    if (in[2].set && !order_is_whole(in[2].text, (int)n))
        return fail_set(f, FAIL_INPUT, "order: each cylinder from 1 to %.0f once, as in 1-3-4-2",
                        n);
    out->out[0] = calc_number(4 * PI / n);
    out->out[1] = calc_number(n * unit_in(in[1].si, QUANTITY_TURNING, "rpm") / 2);
    out->out[2] = calc_number(4 * PI / n / in[1].si);
    for (size_t i = 0; i < sizeof orders / sizeof *orders; i++)
        if (orders[i].cylinders == (int)n) out->out[3] = calc_text(orders[i].usual);
    calc_note(a, out,
              "Numbers begin at the end that the maker says, and V engines are numbered "
              "in several ways: never take a usual order for yours.");
    return true;
}

/* ---- power ---- */

static const struct calc_input power_inputs[] = {
    IN_NEEDED("torque", TORQUE, "Nm", 0.1, 20000, "at the crank"),
    IN_NEEDED("engine-speed", TURNING, "rpm", 5, 2000, "at which it is given"),
    IN_END,
};
static const struct calc_output power_outputs[] = {
    OUT_NUMBER("power", POWER, "kW", "hp", 4, "at that speed"),
    OUT_NUMBER("metric-horses", POWER, "PS", "PS", 4, "the same"),
    OUT_END,
};
static const struct calc_source power_sources[] = {
    {MARK_PRACTICE, "Power = torque x turning; hp = lbf ft x rpm / 5252.1; kW = Nm x rpm / 9549.3"},
    {MARK_PUBLISHED, "NIST SP 811: 1 hp = 745.6999 W, 1 PS = 735.49875 W"},
    SOURCE_END,
};

static bool power_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                      struct fail *f)
{
    (void)f;
    out->out[0] = out->out[1] = calc_number(in[0].si * in[1].si);
    calc_note(a, out,
              "Old makers told gross power, without fan, silencer and generator: a fifth "
              "to a third more than reaches the clutch.");
    return true;
}

/* ---- power-correction ---- */

static const char *const rules[] = {"sae-j1349", "iso-1585", "std", NULL};
enum rule { SAE_J1349, ISO_1585, STD };
static const struct calc_input correction_inputs[] = {
    IN_CHOICE("rule", rules, "sae-j1349",
              "sae-j1349 (1990 form), iso-1585 (spark engines), std (older American)"),
    IN_NEEDED("barometer", PRESSURE, "hPa", 50000, 110000,
              "at the place, not brought down to the sea"),
    IN_USUAL("vapour", PRESSURE, "hPa", "0 hPa", 0, 7000, "pressure of the water in the air"),
    IN_NEEDED("temperature", TEMPERATURE, "°C", 253.15, 323.15, "of the air drawn in"),
    IN_MAYBE("power", POWER, "hp", 100, 2e6, "measured"),
    IN_END,
};
static const struct calc_output correction_outputs[] = {
    OUT_NUMBER("factor", NUMBER, NULL, NULL, 4, "times what was measured"),
    OUT_NUMBER("corrected", POWER, "kW", "hp", 4, "power"),
    OUT_NUMBER("dry", PRESSURE, "hPa", "inHg", 4, "pressure of the air alone"),
    OUT_END,
};
static const struct calc_source correction_sources[] = {
    {MARK_PUBLISHED, "SAE J1349, form of 1990: 1.180 (990 hPa / dry) root((T + 273) / 298) - 0.18"},
    {MARK_PUBLISHED, "The older STD form: 29.92 inHg / dry x root of absolute temperature / 60 °F"},
    {MARK_MEMORY, "ISO 1585, spark: (99 kPa / dry)^1.2 (T / 298 K)^0.6, from 0.93 to 1.07"},
    SOURCE_END,
};

static double factor_of(enum rule rule, double dry, double kelvin)
{
    const double fahrenheit = kelvin * 1.8 - 459.67;
    switch (rule) {
    case SAE_J1349:
        return 1.180 * (99000 / dry) * sqrt((kelvin - 0.15) / 298) - 0.18;
    case ISO_1585:
        return pow(99000 / dry, 1.2) * pow(kelvin / 298, 0.6);
    case STD:
        break;
    }
    return 29.92 / unit_in(dry, QUANTITY_PRESSURE, "inHg") * sqrt((459.7 + fahrenheit) / 519.7);
}

static bool correction_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                           struct fail *f)
{
    const double dry = in[1].si - in[2].si, by = factor_of((enum rule)in[0].choice, dry, in[3].si);
    (void)f;
    out->out[0] = calc_number(by);
    if (in[4].set) out->out[1] = calc_number(by * in[4].si);
    out->out[2] = calc_number(dry);
    if (in[0].choice == ISO_1585 && (by < 0.93 || by > 1.07))
        calc_verdict(a, out, VERDICT_CARE,
                     "Outside 0.93 to 1.07, where the rule holds: measure on another day");
    else if (by < 0.93 || by > 1.07)
        calc_verdict(a, out, VERDICT_CARE, "A large correction: compare with the same day only");
    calc_note(a, out, "Say which rule was used: std gives some 4 %% more than sae-j1349.");
    return true;
}

/* ---- expansion ---- */

static const char *const metals[] = {"aluminium", "iron", "steel", NULL};
static const double grows[] = {23e-6, 11e-6, 12e-6}; /* a kelvin */
static const struct calc_input expansion_inputs[] = {
    IN_NEEDED("length", LENGTH, "mm", 1e-3, 10, "of the part, cold"),
    IN_CHOICE("metal", metals, "aluminium", "of the part"),
    IN_CHOICE("against", metals, "iron", "metal of what it sits on"),
    IN_USUAL("cold", TEMPERATURE, "°C", "20 °C", 223.15, 373.15, "temperature"),
    IN_USUAL("hot", TEMPERATURE, "°C", "100 °C", 223.15, 573.15, "temperature"),
    IN_END,
};
static const struct calc_output expansion_outputs[] = {
    OUT_NUMBER("growth", LENGTH, "mm", "in", 3, "of the part"),
    OUT_NUMBER("growth-against", LENGTH, "mm", "in", 3, "of what it sits on"),
    OUT_NUMBER("difference", LENGTH, "mm", "in", 3, "by which one slides over the other"),
    OUT_END,
};
static const struct calc_source expansion_sources[] = {
    {MARK_PRACTICE, "Millionths a kelvin: aluminium 23, cast iron 11, steel 12"},
    SOURCE_END,
};
static const struct calc_caution hot_cautions[] = {
    {"Hot metal looks like cold metal. Never loosen a head or the coolant's cap while it is hot: "
     "it warps, and it scalds.",
     "An engine shop"},
    CAUTION_END,
};

static bool expansion_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                          struct fail *f)
{
    const double rise = in[4].si - in[3].si, own = grows[in[1].choice] * in[0].si * rise;
    const double other = grows[in[2].choice] * in[0].si * rise;
    if (rise <= 0) return fail_set(f, FAIL_INPUT, "hot: it is not over the cold temperature");
    out->out[0] = calc_number(own);
    out->out[1] = calc_number(other);
    out->out[2] = calc_number(fabs(own - other));
    calc_note(a, out,
              "Tighten a head cold, in the maker's order; aluminium on iron wants a gasket "
              "that lets it slide.");
    return true;
}

const struct calc calc_engine[] = {
    {.name = "displacement",
     .question = "How large is this engine?",
     .inputs = size_inputs,
     .outputs = size_outputs,
     .formula = "cylinders x pi/4 x (bore + oversize)^2 x stroke",
     .limits = "Papers round it, and tax classes went by it: an overbore may belong in them.",
     .sources = geometry_sources,
     .run = size_run},
    {.name = "compression-ratio",
     .question = "What is the compression ratio?",
     .inputs = ratio_inputs,
     .outputs = ratio_outputs,
     .formula = "(swept + clearance) / clearance; clearance = chamber + dish + gasket + deck",
     .limits = "Static; a piston that stands proud has a deck below 0. Up to 30 to 1.",
     .sources = ratio_sources,
     .plot_over = "gasket",
     .plot_of = "ratio",
     .run = ratio_run},
    {.name = "piston-speed",
     .question = "How fast do the pistons go?",
     .inputs = speed_inputs,
     .outputs = speed_outputs,
     .formula = "2 x stroke x turns",
     .limits = "On average; the fastest is some 1.6 times that.",
     .sources = speed_sources,
     .run = speed_run},
    {.name = "firing",
     .question = "How often does it fire, and in which order?",
     .inputs = firing_inputs,
     .outputs = firing_outputs,
     .formula = "interval = 720 degrees / cylinders; sparks = cylinders x rpm / 2",
     .limits = "Four-stroke engines that fire evenly.",
     .sources = firing_sources,
     .cautions = spark_cautions,
     .run = firing_run},
    {.name = "power",
     .question = "What power is this torque?",
     .inputs = power_inputs,
     .outputs = power_outputs,
     .formula = "power = torque x turning",
     .limits = "At the crank; gears and tyres take some 15 % on the way.",
     .sources = power_sources,
     .run = power_run},
    {.name = "power-correction",
     .question = "What would it have given on a standard day?",
     .inputs = correction_inputs,
     .outputs = correction_outputs,
     .formula = "by the rule's own formula, from dry pressure = barometer - vapour",
     .limits = "Engines that breathe by themselves, at full throttle.",
     .sources = correction_sources,
     .run = correction_run},
    {.name = "expansion",
     .question = "How much does a part grow with heat?",
     .inputs = expansion_inputs,
     .outputs = expansion_outputs,
     .formula = "growth = coefficient x length x rise",
     .limits = "Alloys differ by a tenth.",
     .sources = expansion_sources,
     .cautions = hot_cautions,
     .run = expansion_run},
    {.name = NULL},
};
