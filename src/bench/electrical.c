/* electrical.c - wires, fuses, lamps. */
#include "bench/fuses.h"
#include "bench/row.h"
#include "bench/systems.h"
#include "bench/wire_table.h"

static const struct calc_caution wiring_cautions[] = {
    {"A wire too thin or without a fuse burns the vehicle. Disconnect the battery before working; "
     "the fuse guards the wire and sits at its feeding end.",
     "An auto electrician, for the main feed and whatever stays live when parked"},
    CAUTION_END,
};
#define WIRE_INPUT IN_TEXT("wire", "2.5 mm2, 14 AWG, or strands and size: 44/0.012 in, 28/0.30 mm")
#define TEMPERATURE_INPUT                                                                          \
    IN_USUAL("temperature", TEMPERATURE, "°C", "20 °C", 233.15, 473.15, "of the copper")
static const char *const places[] = {"cool", "engine", NULL};
#define PLACE_INPUTS                                                                               \
    IN_CHOICE("insulation", wire_insulations, "75",                                                \
              "degrees C that the covering bears: 60 rubber and cloth, 75 old plastic, 105 new"),  \
        IN_CHOICE("place", places, "cool", "cool, or in the engine's heat"),                       \
        IN_CHOICE("bundle", wire_bundles, "1", "wires that carry current bound together")
#define TWO_WAYS IN_CHOICE("return", returns, "wire", "by a wire of its own, or by the body")
static const char *const returns[] = {"wire", "body", NULL};
#define AMPACITY_SOURCES                                                                           \
    {MARK_PUBLISHED, "33 CFR 183.425, Table 5: allowable current, single wires; 0.85 in engine "   \
                     "spaces at 105 °C"},                                                          \
    {                                                                                              \
        MARK_MEMORY, "33 CFR 183.425: shares for other coverings and for bundles"                  \
    }
#define RESISTANCE_SOURCES                                                                         \
    {MARK_PUBLISHED, "ASTM B258: gauge and diameter; copper of 1.7241e-8 ohm m at 20 °C"},         \
        {MARK_PUBLISHED, "IEC 60228 class 5: most resistance of metric flexible wire"},            \
    {                                                                                              \
        MARK_PUBLISHED, "NEC Chapter 9, Table 8: change with temperature, 0.00393 a degree"        \
    }

static struct wire_place place_of(const struct calc_value *first)
{
    return (struct wire_place){first[0].choice, first[1].choice == 1, first[2].choice};
}

/* ---- wire ---- */

static const struct calc_input wire_inputs[] = {
    WIRE_INPUT,
    IN_USUAL("length", LENGTH, "m", "1 m", 0.01, 10000, "of the wire, there and back"),
    TEMPERATURE_INPUT,
    PLACE_INPUTS,
    IN_END,
};
static const struct calc_output wire_outputs[] = {
    OUT_NUMBER("area", AREA, "mm2", "in2", 4, "of the copper"),
    OUT_NUMBER("diameter", LENGTH, "mm", "in", 4, "of the copper as one round wire"),
    OUT_NUMBER("circular-mils", NUMBER, NULL, NULL, 5, "the area as American tables have it"),
    OUT_NUMBER("resistance", RESISTANCE, NULL, NULL, 4, "of that length"),
    OUT_NUMBER("current", CURRENT, "A", "A", 3, "it may carry for ever"),
    OUT_END,
};
static const struct calc_source wire_sources[] = {RESISTANCE_SOURCES, AMPACITY_SOURCES, SOURCE_END};

static bool wire_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                     struct fail *f)
{
    struct wire w;
    if (!wire_parse(a, "wire", in[0].text, &w, f)) return false;
    const struct wire_place where = place_of(&in[3]);
    const double amps = wire_ampacity(w.area, &where);
    out->out[0] = calc_number(w.area);
    out->out[1] = calc_number(sqrt(w.area / 0.78539816339744831));
    out->out[2] = calc_number(w.area / 5.067074790975e-10);
    out->out[3] = calc_number(w.per_metre * in[1].si * wire_warm(in[2].si));
    if (amps > 0) out->out[4] = calc_number(amps);
    return true;
}

/* ---- copper-warm ---- */

static const struct calc_input warm_inputs[] = {
    IN_NEEDED("resistance", RESISTANCE, "ohm", 1e-6, 1e6, "measured"),
    IN_USUAL("measured-at", TEMPERATURE, "°C", "20 °C", 233.15, 473.15,
             "temperature of the copper"),
    IN_NEEDED("wanted-at", TEMPERATURE, "°C", 233.15, 473.15, "temperature to reckon it for"),
    IN_END,
};
static const struct calc_output warm_outputs[] = {
    OUT_NUMBER("there", RESISTANCE, NULL, NULL, 4, "resistance at the other temperature"),
    OUT_END,
};
static const struct calc_source warm_sources[] = {
    {MARK_PUBLISHED, "NEC Chapter 9, Table 8: R2 = R1 (1 + a (T2 - T1)), a = 0.00323 at 75 °C"},
    SOURCE_END,
};

static bool warm_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                     struct fail *f)
{
    (void)a, (void)f;
    out->out[0] = calc_number(in[0].si * wire_warm(in[2].si) / wire_warm(in[1].si));
    return true;
}

/* ---- voltage-drop ---- */

static const struct calc_input drop_inputs[] = {
    WIRE_INPUT,
    IN_NEEDED("length", LENGTH, "m", 0.3, 15, "of the wire, one way"),
    IN_NEEDED("current", CURRENT, "A", 0.001, 1000, "that flows"),
    IN_USUAL("volts", VOLTAGE, "V", "12 V", 4, 60, "of the system"),
    TWO_WAYS,
    IN_USUAL("contacts", RESISTANCE, "ohm", "0 ohm", 0, 10,
             "of switch, connectors and body, all together"),
    TEMPERATURE_INPUT,
    IN_END,
};
static const struct calc_output drop_outputs[] = {
    OUT_NUMBER("drop", VOLTAGE, "V", "V", 3, "lost on the way there and back"),
    OUT_NUMBER("drop-share", NUMBER, "%", "%", 3, "of the system's voltage"),
    OUT_NUMBER("left", VOLTAGE, "V", "V", 3, "left for the load"),
    OUT_NUMBER("resistance", RESISTANCE, NULL, NULL, 3, "of the whole way"),
    OUT_NUMBER("lamp-light", NUMBER, "%", "%", 2, "of its light that a lamp still gives"),
    OUT_END,
};
static const struct calc_source drop_sources[] = {
    RESISTANCE_SOURCES,
    {MARK_PUBLISHED, "ABYC E-11 and ISO 10133: 3 % where it matters, 10 % elsewhere"},
    {MARK_PRACTICE, "A lamp's light goes by the voltage to the power 3.4"},
    SOURCE_END,
};
static const double LIGHT_POWER = 3.4;

static bool drop_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                     struct fail *f)
{
    struct wire w;
    if (!wire_parse(a, "wire", in[0].text, &w, f)) return false;
    const double way = in[1].si * (in[4].choice == 0 ? 2 : 1);
    const double ohms = w.per_metre * way * wire_warm(in[6].si) + in[5].si;
    const double drop = ohms * in[2].si, share = drop / in[3].si;
    if (share >= 1)
        return fail_set(f, FAIL_INPUT,
                        "current: it cannot flow: the wire alone would take %.3g V of %.3g V", drop,
                        in[3].si);
    out->out[0] = calc_number(drop);
    out->out[1] = calc_number(share);
    out->out[2] = calc_number(in[3].si - drop);
    out->out[3] = calc_number(ohms);
    out->out[4] = calc_number(pow(1 - share, LIGHT_POWER));
    if (share <= 0.03)
        calc_verdict(a, out, VERDICT_GOOD, "%.1f %%: good for lamps and ignition", 100 * share);
    else if (share <= 0.1)
        calc_verdict(a, out, VERDICT_CARE, "%.1f %%: for motors and small things only",
                     100 * share);
    else
        calc_verdict(a, out, VERDICT_BAD, "%.0f %%: a thicker wire, or mend the contacts",
                     100 * share);
    return true;
}

/* ---- wire-size ---- */

static const struct calc_input size_inputs[] = {
    IN_NEEDED("current", CURRENT, "A", 0.01, 500, "that flows"),
    IN_NEEDED("length", LENGTH, "m", 0.01, 100, "of the wire, one way"),
    IN_USUAL("drop", NUMBER, "%", "3 %", 0.005, 0.2, "allowed: 3 % lamps and ignition, 10 % other"),
    IN_USUAL("volts", VOLTAGE, "V", "12 V", 4, 60, "of the system"),
    TWO_WAYS,
    PLACE_INPUTS,
    IN_END,
};
static const struct calc_output size_outputs[] = {
    OUT_TEXT("metric-wire", "the thinnest metric wire that does"),
    OUT_TEXT("awg-wire", "the thinnest gauge that does"),
    OUT_NUMBER("circular-mils", NUMBER, NULL, NULL, 4, "that the drop asks for"),
    OUT_NUMBER("least-area", AREA, "mm2", "in2", 3, "of copper that the drop asks for"),
    OUT_NUMBER("drop-left", VOLTAGE, "V", "V", 3, "lost with the gauge that does"),
    OUT_NUMBER("most-current", CURRENT, "A", "A", 3, "that the gauge may carry there"),
    OUT_TEXT("decided-by", "drop or heat"),
    OUT_END,
};
static const struct calc_source size_sources[] = {
    {MARK_PUBLISHED, "ABYC E-11 and ISO 10133: circular mils = 10.75 x A x feet / V"},
    AMPACITY_SOURCES,
    {MARK_PUBLISHED, "IEC 60228 class 5: metric sizes"},
    {MARK_PRACTICE, "Between gauges the allowable current goes by a power of the area"},
    SOURCE_END,
};
static const double MIL = 5.067074790975e-10, K_FEET = 10.75, FEET = 0.3048;

static bool size_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                     struct fail *f)
{
    const struct wire_place where = place_of(&in[5]);
    const double way = in[1].si * (in[4].choice == 0 ? 2 : 1), allowed = in[2].si * in[3].si;
    const double mils = K_FEET * in[0].si * (way / FEET) / allowed, area = mils * MIL;
    struct wire w = {0}, m = {0};
    int n = 0, k = 0;
    bool by_heat = false, found = false, found_metric = false;
    for (; !found && wire_awg(n, a, &w); n++) {
        const bool thick = w.area >= area * (1 - 1e-9),
                   cool = wire_ampacity(w.area, &where) >= in[0].si;
        found = thick && cool;
        by_heat = thick && !cool ? true : by_heat;
    }
    for (; !found_metric && wire_metric(k, a, &m); k++)
        found_metric =
            m.per_metre * way * in[0].si <= allowed && wire_ampacity(m.area, &where) >= in[0].si;
    if (!found)
        return fail_set(
            f, FAIL_INPUT,
            "current: more than 4/0 AWG carries there within that drop; shorten the run");
    if (found_metric) out->out[0] = calc_text(m.name);
    out->out[1] = calc_text(w.name);
    out->out[2] = calc_number(mils);
    out->out[3] = calc_number(area);
    out->out[4] = calc_number(K_FEET * in[0].si * (way / FEET) / (w.area / MIL));
    out->out[5] = calc_number(wire_ampacity(w.area, &where));
    out->out[6] = calc_text(by_heat ? "heat" : "drop");
    calc_note(a, out, "Printed tables round the length up a row: there the next size may stand.");
    calc_note(a, out, "Cranking cables are sized by the drop alone: see cranking.");
    return true;
}

/* ---- fuse ---- */

static const struct calc_input fuse_inputs[] = {
    IN_MAYBE("power", POWER, "W", 0.1, 2000, "of all on the fuse"),
    IN_MAYBE("current", CURRENT, "A", 0.01, 80, "in place of the power"),
    IN_USUAL("volts", VOLTAGE, "V", "12 V", 4, 60, "of the system"),
    IN_MAYBE_TEXT("wire", "the thinnest wire behind the fuse: 2.5 mm2, 14 AWG, 28/0.30"),
    PLACE_INPUTS,
    IN_END,
};
static const struct calc_output fuse_outputs[] = {
    OUT_NUMBER("flows", CURRENT, "A", "A", 3, "steady current"),
    OUT_NUMBER("least", CURRENT, "A", "A", 3, "a quarter more"),
    OUT_NUMBER("fuse", CURRENT, "A", "A", 3, "the next size that is sold"),
    OUT_NUMBER("wire-bears", CURRENT, "A", "A", 3, "that the wire may carry"),
    OUT_END,
};
static const struct calc_source fuse_sources[] = {
    {MARK_PRACTICE, "A fuse of 125 % of the steady current or the next size up, and no more than "
                    "the wire may carry"},
    AMPACITY_SOURCES,
    SOURCE_END,
};

static bool fuse_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                     struct fail *f)
{
    struct wire w;
    if (in[0].set == in[1].set)
        return fail_set(f, FAIL_INPUT, "power: give the power or the current, one of them");
    const double flows = in[1].set ? in[1].si : in[0].si / in[2].si;
    const double fuse = fuse_for(flows);
    if (fuse == 0)
        return fail_set(f, FAIL_INPUT, "power: over what one fuse carries; split the circuit");
    out->out[0] = calc_number(flows);
    out->out[1] = calc_number(1.25 * flows);
    out->out[2] = calc_number(fuse);
    calc_note(a, out,
              "Glass fuses of British make are marked with the current that blows them, "
              "twice what they carry: 35 marked is about 17 steady.");
    if (!in[3].set) return true;
    const struct wire_place where = place_of(&in[4]);
    if (!wire_parse(a, "wire", in[3].text, &w, f)) return false;
    const double bears = wire_ampacity(w.area, &where);
    if (!(bears > 0)) return fail_set(f, FAIL_INPUT, "wire: thicker than the table reaches");
    out->out[3] = calc_number(bears);
    if (fuse > bears)
        calc_verdict(a, out, VERDICT_BAD, "The wire burns before the fuse: it bears %.3g A only",
                     bears);
    else
        calc_verdict(a, out, VERDICT_GOOD, "The fuse guards the wire, which bears %.3g A", bears);
    return true;
}

/* ---- lamps ---- */

static const struct calc_input lamp_inputs[] = {
    IN_NEEDED("power", POWER, "W", 0.5, 200, "of one lamp: 5, 10, 21, 55 W"),
    IN_USUAL("count", NUMBER, NULL, "1", 1, 50, "lamps of it"),
    IN_USUAL("rated", VOLTAGE, "V", "12 V", 2, 30, "voltage of the lamp"),
    IN_USUAL("fed", VOLTAGE, "V", "12 V", 1, 30, "voltage that reaches it"),
    IN_END,
};
static const struct calc_output lamp_outputs[] = {
    OUT_NUMBER("current", CURRENT, "A", "A", 3, "of all"),
    OUT_NUMBER("drawn", POWER, "W", "W", 3, "by all"),
    OUT_NUMBER("surge", CURRENT, "A", "A", 2, "at switching on, cold"),
    OUT_NUMBER("light", NUMBER, "%", "%", 2, "of the light they were made for"),
    OUT_NUMBER("life", NUMBER, "%", "%", 2, "of the life they were made for"),
    OUT_END,
};
static const struct calc_source lamp_sources[] = {
    {MARK_PRACTICE, "Filaments: power by the voltage to 1.6, light to 3.4, life to -13"},
    {MARK_PRACTICE, "A cold filament has a tenth of its hot resistance"},
    {MARK_MEMORY, "UN R37: H4 60/55 W, P21W 21 W, P21/5W 21/5 W, R5W and C5W 5 W, R10W 10 W"},
    SOURCE_END,
};

static bool lamp_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                     struct fail *f)
{
    const double ratio = in[3].si / in[2].si;
    if (ratio < 0.5 || ratio > 1.3)
        return fail_set(f, FAIL_INPUT,
                        "fed: a %.3g V lamp on %.3g V %s; this holds from half to 1.3", in[2].si,
                        in[3].si, ratio > 1 ? "burns out" : "hardly glows");
    const double power = in[0].si * in[1].si * pow(ratio, 1.6);
    out->out[0] = calc_number(power / in[3].si);
    out->out[1] = calc_number(power);
    out->out[2] = calc_number(10 * in[0].si * in[1].si / in[2].si * ratio);
    out->out[3] = calc_number(pow(ratio, LIGHT_POWER));
    if (ratio > 0.8) out->out[4] = calc_number(pow(ratio, -13)); /* beyond, nobody has counted */
    calc_note(a, out,
              "Lamps are not ohmic: a meter on a cold one reads a tenth of its resistance.");
    return true;
}

const struct calc calc_electrical[] = {
    {.name = "wire",
     .question = "What is this wire, and what does it carry?",
     .inputs = wire_inputs,
     .outputs = wire_outputs,
     .formula = "gauge n: d = 0.005 in x 92^((36 - n) / 39); R = 1.7241e-8 ohm m x length / area x "
                "(1 + 0.00393 (T - 20))",
     .limits =
         "Copper. Current: single wires in air of 50 °C at most; thinner than 18 AWG by area.",
     .sources = wire_sources,
     .cautions = wiring_cautions,
     .run = wire_run},
    {.name = "voltage-drop",
     .question = "What does this wire lose?",
     .inputs = drop_inputs,
     .outputs = drop_outputs,
     .formula = "drop = current x (resistance of the wire there and back + contacts)",
     .limits = "Return by the body: what earth points lose belongs to the contacts.",
     .sources = drop_sources,
     .cautions = wiring_cautions,
     .plot_over = "length",
     .plot_of = "drop",
     .run = drop_run},
    {.name = "wire-size",
     .question = "Which wire for this circuit?",
     .inputs = size_inputs,
     .outputs = size_outputs,
     .formula = "circular mils = 10.75 x A x feet there and back / V allowed; and the allowable "
                "current no less than what flows",
     .limits = "Copper; steady loads.",
     .sources = size_sources,
     .cautions = wiring_cautions,
     .run = size_run},
    {.name = "fuse",
     .question = "Which fuse?",
     .inputs = fuse_inputs,
     .outputs = fuse_outputs,
     .formula = "1.25 x power / volts, then the next size; no more than the wire may carry",
     .limits = "Steady loads and lamps; motors that stall may need the maker's own.",
     .sources = fuse_sources,
     .cautions = wiring_cautions,
     .run = fuse_run},
    {.name = "lamps",
     .question = "What do these lamps draw and give?",
     .inputs = lamp_inputs,
     .outputs = lamp_outputs,
     .formula = "power = rated x (fed / rated)^1.6; light to 3.4; life to -13; surge = 10 x the "
                "current",
     .limits = "Filament lamps between half and 1.3 of their voltage.",
     .sources = lamp_sources,
     .run = lamp_run},
    {.name = "copper-warm",
     .question = "What is this winding's resistance hot?",
     .inputs = warm_inputs,
     .outputs = warm_outputs,
     .formula = "R2 = R1 x (1 + 0.00393 (T2 - 20)) / (1 + 0.00393 (T1 - 20))",
     .limits = "Copper.",
     .sources = warm_sources,
     .run = warm_run},
    {.name = NULL},
};
