/* springs.c - coil, leaf and torsion-bar springs by themselves. */
#include "bench/row.h"
#include "bench/systems.h"

static const double PI = 3.14159265358979323846;

#define SHEAR "79.3 GPa"
#define YOUNG "207 GPa"

static const struct calc_caution spring_cautions[] = {
    {"A spring under load kills when it slips. Two compressors opposite each other, hooks fully "
     "home, hand tools only, never in line with it; leave a torsion bar or a leaf no load before "
     "its bolt comes out. Never heat a spring.",
     "A workshop with a spring press; a spring maker for setting or cutting"},
    CAUTION_END,
};

/* ---- coil-spring ---- */

static const struct calc_input coil_inputs[] = {
    IN_NEEDED("wire", LENGTH, "mm", 1e-4, 0.04, "its thickness"),
    IN_MAYBE("mean", LENGTH, "mm", 1e-3, 0.4, "diameter through the middle of the wire"),
    IN_MAYBE("outside", LENGTH, "mm", 1e-3, 0.4, "diameter over all, instead of the mean one"),
    IN_NEEDED("coils", NUMBER, NULL, 2, 40, "counted from end to end"),
    IN_USUAL("dead", NUMBER, NULL, "2", 0, 4, "that do not move: 2 if both ends are flat"),
    IN_USUAL("modulus", PRESSURE, "GPa", SHEAR, 30e9, 100e9, "of shear: 79.3 GPa for steel"),
    IN_MAYBE("load", FORCE, "kgf", 0.1, 5e4, "on the spring"),
    IN_END,
};
static const struct calc_output coil_outputs[] = {
    OUT_NUMBER("rate", STIFFNESS, "N/mm", "lbf/in", 4, "force for each bit of travel"),
    OUT_NUMBER("cut-rate", STIFFNESS, "N/mm", "lbf/in", 4, "with one coil cut off"),
    OUT_NUMBER("solid", LENGTH, "mm", "in", 3, "height when the coils touch, flat ends"),
    OUT_NUMBER("index", NUMBER, NULL, NULL, 3, "mean diameter over wire"),
    OUT_NUMBER("squash", LENGTH, "mm", "in", 3, "under the load"),
    OUT_NUMBER("stress", PRESSURE, "MPa", "psi", 3, "of the wire under the load"),
    OUT_END,
};
static const struct calc_source coil_sources[] = {
    {MARK_PRACTICE, "Spring mechanics: k = G d^4 / (8 D^3 n)"},
    {MARK_MEMORY, "Wahl's factor for the stress; up to about 900 MPa for suspension springs"},
    SOURCE_END,
};

static bool coil_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                     struct fail *f)
{
    const double wire = in[0].si, active = in[3].si - in[4].si;
    if (in[1].set == in[2].set)
        return fail_set(f, FAIL_INPUT, "mean: give either the mean diameter or the outside one");
    const double mean = in[1].set ? in[1].si : in[2].si - wire, index = mean / wire;
    if (!(index >= 3 && index <= 20))
        return fail_set(f, FAIL_INPUT, "wire: a coil of %.3g times its wire is no spring; 3 to 20",
                        index);
    if (active < 1) return fail_set(f, FAIL_INPUT, "coils: fewer than one of them moves");
    const double one = in[5].si * pow(wire, 4) / (8 * pow(mean, 3)); /* a single coil */
    out->out[0] = calc_number(one / active);
    if (active >= 2) out->out[1] = calc_number(one / (active - 1));
    out->out[2] = calc_number(in[3].si * wire);
    out->out[3] = calc_number(index);
    if (in[6].set) {
        const double wahl = (4 * index - 1) / (4 * index - 4) + 0.615 / index;
        const double stress = wahl * 8 * in[6].si * mean / (PI * pow(wire, 3));
        out->out[4] = calc_number(in[6].si * active / one);
        out->out[5] = calc_number(stress);
        if (stress > 900e6)
            calc_verdict(a, out, VERDICT_BAD, "More stress than a suspension spring bears");
        else
            calc_verdict(a, out, VERDICT_GOOD, "The wire bears this load standing still");
    }
    calc_note(a, out,
              "A tenth less wire is a third less rate: measure bright metal, without paint and "
              "rust, in three places.");
    if (active >= 2)
        calc_note(a, out, "A cut spring is stiffer, lower, and its new end must sit flat.");
    return true;
}

/* ---- leaf-spring ---- */

static const char *const shapes[] = {"semi-elliptic", "quarter-elliptic", NULL};
static const struct calc_input leaf_inputs[] = {
    IN_CHOICE("shape", shapes, "semi-elliptic", "held in the middle, or at one end"),
    IN_NEEDED("leaves", NUMBER, NULL, 1, 30, "in the pack"),
    IN_NEEDED("width", LENGTH, "mm", 0.01, 0.2, "of a leaf"),
    IN_NEEDED("thickness", LENGTH, "mm", 1e-3, 0.03, "of a leaf"),
    IN_NEEDED("span", LENGTH, "mm", 0.1, 3, "eye to eye; of a quarter one from clamp to eye"),
    IN_USUAL("modulus", PRESSURE, "GPa", YOUNG, 60e9, 230e9, "of elasticity: 207 GPa for steel"),
    IN_MAYBE("load", FORCE, "kgf", 1, 1e5, "on the spring"),
    IN_END,
};
static const struct calc_output leaf_outputs[] = {
    OUT_NUMBER("rate", STIFFNESS, "N/mm", "lbf/in", 3, "force for each bit of travel"),
    OUT_NUMBER("lost-leaf", STIFFNESS, "N/mm", "lbf/in", 3, "with one leaf broken or left out"),
    OUT_NUMBER("sinks", LENGTH, "mm", "in", 3, "under the load"),
    OUT_END,
};
static const struct calc_source leaf_sources[] = {
    {MARK_PUBLISHED, "A piping designer's collection of spring formulas: 8 E n b t^3 / (3 l^3), "
                     "quarter E n b t^3 / (6 L^3)"},
    SOURCE_END,
};

static bool leaf_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                     struct fail *f)
{
    const double factor = in[0].choice == 0 ? 8.0 / 3 : 1.0 / 6;
    const double one = factor * in[5].si * in[2].si * pow(in[3].si / in[4].si, 3);
    (void)f;
    out->out[0] = calc_number(one * in[1].si);
    if (in[1].si >= 2) out->out[1] = calc_number(one * (in[1].si - 1));
    if (in[6].set) out->out[2] = calc_number(in[6].si / (one * in[1].si));
    calc_note(a, out,
              "Rust between the leaves and dry shackles make it ride harder than its rate; a pack "
              "that sags has lost arch, and its rate is the same.");
    return true;
}

/* ---- leaf-pack ---- */

static const struct calc_input pack_inputs[] = {
    IN_NEEDED("load", FORCE, "kgf", 10, 2e5, "on the whole spring, in its middle"),
    IN_NEEDED("leaves", NUMBER, NULL, 1, 30, "in the pack, all of them"),
    IN_USUAL("full", NUMBER, NULL, "2", 1, 30, "of them over the full length"),
    IN_NEEDED("width", LENGTH, "mm", 0.01, 0.2, "of a leaf"),
    IN_NEEDED("thickness", LENGTH, "mm", 1e-3, 0.03, "of a leaf"),
    IN_NEEDED("span", LENGTH, "mm", 0.2, 3, "eye to eye"),
    IN_USUAL("band", LENGTH, "mm", "80 mm", 0, 0.3, "held dead by the U-bolts"),
    IN_USUAL("allowed", PRESSURE, "MPa", "350 MPa", 5e7, 1.2e9, "stress of the leaves"),
    IN_USUAL("modulus", PRESSURE, "GPa", "210 GPa", 60e9, 230e9, "of elasticity, steel"),
    IN_END,
};
static const struct calc_output pack_outputs[] = {
    OUT_NUMBER("stress", PRESSURE, "MPa", "psi", 3, "in the full-length leaves"),
    OUT_NUMBER("least-thickness", LENGTH, "mm", "in", 3, "of leaf for the allowed stress"),
    OUT_NUMBER("sinks", LENGTH, "mm", "in", 3, "under the load"),
    OUT_NUMBER("rate", STIFFNESS, "N/mm", "lbf/in", 3, "force for each bit of travel"),
    OUT_END,
};
static const struct calc_source pack_sources[] = {
    {MARK_MEMORY, "A usual textbook form of machine design for packs without preset; a published "
                  "problem of the same data comes out as its answer"},
    SOURCE_END,
};

static bool pack_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                     struct fail *f)
{
    const double half = in[0].si / 2, arm = (in[5].si - in[6].si) / 2;
    const double width = in[3].si, thickness = in[4].si;
    if (in[2].si > in[1].si)
        return fail_set(f, FAIL_INPUT, "full: more leaves of full length than leaves");
    if (arm < 0.05) return fail_set(f, FAIL_INPUT, "band: it leaves nothing of the spring free");
    const double leaves = 2 * (in[1].si - in[2].si) + 3 * in[2].si;
    const double moment = 18 * half * arm / (width * leaves); /* stress times thickness squared */
    const double stress = moment / (thickness * thickness);
    const double sinks = 12 * half * pow(arm, 3) / (in[8].si * width * pow(thickness, 3) * leaves);
    out->out[0] = calc_number(stress);
    out->out[1] = calc_number(sqrt(moment / in[7].si));
    out->out[2] = calc_number(sinks);
    out->out[3] = calc_number(in[0].si / sinks);
    if (stress > in[7].si)
        calc_verdict(a, out, VERDICT_BAD, "The full-length leaves bear more than is allowed");
    else
        calc_verdict(a, out, VERDICT_GOOD, "The leaves bear this load");
    return true;
}

/* ---- torsion-bar ---- */

static const struct calc_input bar_inputs[] = {
    IN_NEEDED("diameter", LENGTH, "mm", 5e-3, 0.08, "of the bar between its ends"),
    IN_NEEDED("length", LENGTH, "mm", 0.1, 3, "that twists"),
    IN_NEEDED("arm", LENGTH, "mm", 0.05, 1, "from the bar to where the load hangs, level"),
    IN_USUAL("modulus", PRESSURE, "GPa", SHEAR, 30e9, 100e9, "of shear: 79.3 GPa for steel"),
    IN_MAYBE("load", FORCE, "kgf", 0.1, 5e4, "at the end of the arm"),
    IN_END,
};
static const struct calc_output bar_outputs[] = {
    OUT_NUMBER("rate", STIFFNESS, "N/mm", "lbf/in", 3, "at the end of the arm"),
    OUT_NUMBER("a-degree", TORQUE, "Nm", "lbf ft", 3, "torque for each degree of twist"),
    OUT_NUMBER("twist", ANGLE, "°", "°", 3, "under the load"),
    OUT_NUMBER("sinks", LENGTH, "mm", "in", 3, "end of the arm under the load"),
    OUT_NUMBER("stress", PRESSURE, "MPa", "psi", 3, "at the skin under the load"),
    OUT_END,
};
static const struct calc_source bar_sources[] = {
    {MARK_PRACTICE, "Torsion of a round bar: torque = G pi d^4 / (32 L) x twist"},
    {MARK_MEMORY, "Up to about 900 MPa at the skin of a torsion bar"},
    SOURCE_END,
};

static bool bar_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                    struct fail *f)
{
    const double stiff = in[3].si * PI * pow(in[0].si, 4) / (32 * in[1].si); /* N m a radian */
    const double rate = stiff / (in[2].si * in[2].si);
    out->out[0] = calc_number(rate);
    out->out[1] = calc_number(stiff * PI / 180);
    if (in[4].set) {
        const double torque = in[4].si * in[2].si, twist = torque / stiff;
        if (twist > PI / 3)
            return fail_set(f, FAIL_INPUT, "load: it twists the bar by more than 60 degrees");
        const double stress = 16 * torque / (PI * pow(in[0].si, 3));
        out->out[2] = calc_number(twist);
        out->out[3] = calc_number(in[4].si / rate);
        out->out[4] = calc_number(stress);
        if (stress > 900e6)
            calc_verdict(a, out, VERDICT_BAD, "More stress than a torsion bar bears");
        else
            calc_verdict(a, out, VERDICT_GOOD, "The bar bears this load standing still");
    }
    calc_note(a, out,
              "Bars are set for one side and one way of twist: mark side and splines before they "
              "come out, and throw away one that is scratched or pitted.");
    return true;
}

const struct calc calc_springs[] = {
    {.name = "coil-spring",
     .question = "How stiff is this coil spring?",
     .inputs = coil_inputs,
     .outputs = coil_outputs,
     .formula = "rate = G wire^4 / (8 mean^3 moving coils)",
     .limits = "Round wire, even pitch, coils that do not touch.",
     .sources = coil_sources,
     .cautions = spring_cautions,
     .plot_over = "coils",
     .plot_of = "rate",
     .run = coil_run},
    {.name = "leaf-spring",
     .question = "How stiff is this leaf spring?",
     .inputs = leaf_inputs,
     .outputs = leaf_outputs,
     .formula = "rate = 8 E leaves width thickness^3 / (3 span^3); quarter: E leaves width "
                "thickness^3 / (6 length^3)",
     .limits = "Leaves of equal thickness that are graded in length and slide freely.",
     .sources = leaf_sources,
     .cautions = spring_cautions,
     .run = leaf_run},
    {.name = "leaf-pack",
     .question = "Do these leaves bear the load?",
     .inputs = pack_inputs,
     .outputs = pack_outputs,
     .formula = "with W half the load, L half the free span and N = 2 graded + 3 full leaves: "
                "stress = 18 W L / (b t^2 N), sinks = 12 W L^3 / (E b t^3 N)",
     .limits = "Held in the middle, leaves of equal thickness without preset, standing still.",
     .sources = pack_sources,
     .cautions = spring_cautions,
     .run = pack_run},
    {.name = "torsion-bar",
     .question = "How stiff is this torsion bar?",
     .inputs = bar_inputs,
     .outputs = bar_outputs,
     .formula = "rate = G pi d^4 / (32 length arm^2); twist = torque / (G pi d^4 / (32 length))",
     .limits = "A round bar, its arm about level; it grows stiffer as the arm goes down.",
     .sources = bar_sources,
     .cautions = spring_cautions,
     .run = bar_run},
    {.name = NULL},
};
