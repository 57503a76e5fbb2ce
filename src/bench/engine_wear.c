/* engine_wear.c - bores, ring gaps, timing, timing chain, valve lash. */
#include "bench/row.h"
#include "bench/systems.h"

static const double SLACK = 1e-9, INCH = 0.0254;

/* ---- bore-wear ---- */

static const char *const steps[] = {"inch", "metric", NULL};
static const struct calc_input bore_inputs[] = {
    IN_NEEDED("standard", LENGTH, "mm", 0.02, 0.5, "bore as made, or as last bored"),
    IN_NEEDED("top-across", LENGTH, "mm", 0.02, 0.5,
              "just under the ridge, across the engine, where it wears most"),
    IN_NEEDED("top-along", LENGTH, "mm", 0.02, 0.5, "at the same height, along the engine"),
    IN_NEEDED("bottom", LENGTH, "mm", 0.02, 0.5, "below where the rings run"),
    IN_CHOICE("pistons", steps, "inch", "oversizes sold: inch (0.010 in) or metric (0.25 mm)"),
    IN_END,
};
static const struct calc_output bore_outputs[] = {
    OUT_NUMBER("wear", LENGTH, "mm", "thou", 3, "of the largest over standard"),
    OUT_NUMBER("taper", LENGTH, "mm", "thou", 3, "top less bottom"),
    OUT_NUMBER("out-of-round", LENGTH, "mm", "thou", 3, "across less along"),
    OUT_NUMBER("oversize", LENGTH, "mm", "thou", 3, "first that would clean it up"),
    OUT_NUMBER("bored-to", LENGTH, "mm", "in", 5, "with that"),
    OUT_END,
};
static const struct calc_source bore_sources[] = {
    {MARK_PRACTICE, "Rebore from 0.13 mm (0.005 in) taper, 0.05 mm out of round, 0.25 mm wear"},
    {MARK_PRACTICE, "0.08 mm (0.003 in) to clean up; oversizes up to 1.5 mm (0.060 in)"},
    SOURCE_END,
};

static bool bore_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                     struct fail *f)
{
    static const double LIMITS[] = {0.25e-3, 0.13e-3, 0.05e-3};
    const double largest = fmax(in[1].si, in[2].si), wear = largest - in[0].si;
    for (int i = 1; i <= 3; i++)
        if (fabs(in[i].si - in[0].si) > 0.005)
            return fail_set(f, FAIL_INPUT, "standard: over 5 mm from what was measured");
    if (wear < -0.05e-3)
        return fail_set(f, FAIL_INPUT,
                        "standard: the bore is under it; another standard, or look at the gauge");
    const double found[] = {fmax(0, wear), fabs(largest - in[3].si), fabs(in[1].si - in[2].si)};
    const double step = in[4].choice == 0 ? 0.01 * INCH : 0.25e-3;
    const double oversize = ceil((found[0] + 0.08e-3) / step - SLACK) * step;
    double worst = 0;
    for (int i = 0; i < 3; i++) {
        out->out[i] = calc_number(found[i]);
        worst = fmax(worst, found[i] / LIMITS[i]);
    }
    out->out[3] = calc_number(oversize);
    out->out[4] = calc_number(in[0].si + oversize);
    if (worst > 1 && oversize > 0.0016)
        calc_verdict(a, out, VERDICT_BAD, "Past the last usual oversize: it wants sleeves");
    else if (worst > 1)
        calc_verdict(a, out, VERDICT_BAD, "Rebore it: past a limit");
    else if (worst > 0.8)
        calc_verdict(a, out, VERDICT_CARE, "Near a limit: new rings in it will not live long");
    else
        calc_verdict(a, out, VERDICT_GOOD, "Hone it and fit rings");
    calc_note(a, out,
              "Measure every bore: all get the oversize of the worst. Buy pistons before "
              "the block is bored, and have it bored to them.");
    return true;
}

/* ---- ring-gap ---- */

static const struct calc_input gap_inputs[] = {
    IN_NEEDED("bore", LENGTH, "mm", 0.02, 0.3, "of the cylinder"),
    IN_MAYBE("gap", LENGTH, "mm", 0, 0.01, "of the ring, square in the bore, low down"),
    IN_END,
};
static const struct calc_output gap_outputs[] = {
    OUT_NUMBER("least-gap", LENGTH, "mm", "in", 2, "or its ends meet when hot"),
    OUT_NUMBER("most-gap", LENGTH, "mm", "in", 2, "over it: bore worn, or the wrong ring"),
    OUT_END,
};
static const struct calc_source gap_sources[] = {
    {MARK_PUBLISHED, "A ring maker's advice: iron rings 0.0035 in an inch of bore at least; over "
                     "0.008 in an inch the bore is worn or oversize"},
    SOURCE_END,
};

static bool gap_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                    struct fail *f)
{
    const double least = 0.0035 * in[0].si, most = 0.008 * in[0].si;
    (void)f;
    out->out[0] = calc_number(least);
    out->out[1] = calc_number(most);
    if (!in[1].set) return true;
    if (in[1].si < least * (1 - SLACK))
        calc_verdict(a, out, VERDICT_BAD, "Too close: file it, or it seizes and breaks when hot");
    else if (in[1].si > most * (1 + SLACK))
        calc_verdict(a, out, VERDICT_CARE,
                     "Wide: the bore is worn, or the ring is for another one");
    else
        calc_verdict(a, out, VERDICT_GOOD, "It fits");
    return true;
}

/* ---- timing ---- */

static const struct calc_input timing_inputs[] = {
    IN_NEEDED("rim", LENGTH, "mm", 0.03, 1, "diameter of the pulley or flywheel with the mark"),
    IN_NEEDED("advance", ANGLE, "°", -0.5, 1.2, "of the crank, wanted before top"),
    IN_MAYBE("dwell-before", ANGLE, "°", 0.1, 1.6, "when timing was last set"),
    IN_MAYBE("dwell-now", ANGLE, "°", 0.1, 1.6, "after points were set"),
    IN_END,
};
static const struct calc_output timing_outputs[] = {
    OUT_NUMBER("along-rim", LENGTH, "mm", "in", 3, "from the top mark to the new one"),
    OUT_NUMBER("points-shift", ANGLE, "°", "°", 3, "of the crank, by the points alone; - is later"),
    OUT_NUMBER("advance-now", ANGLE, "°", "°", 3, "if it stood right before"),
    OUT_END,
};
static const struct calc_source timing_sources[] = {
    {MARK_PRACTICE, "Geometry: arc = diameter x angle / 2"},
    {MARK_PRACTICE, "A degree more dwell sets the spark about a degree of crank later"},
    SOURCE_END,
};
static const struct calc_caution timing_cautions[] = {
    {"Under a timing lamp the fan seems to stand still: it takes fingers and throws a loose "
     "blade. Stand beside it, no tie, no sleeve, leads clear of belts; doors open for the exhaust.",
     "A garage with a timing lamp and an exhaust hose"},
    CAUTION_END,
};

static bool timing_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                       struct fail *f)
{
    if (in[2].set != in[3].set)
        return fail_set(f, FAIL_INPUT, "%s: give both dwells, before and now, or none",
                        in[2].set ? "dwell-now" : "dwell-before");
    out->out[0] = calc_number(in[0].si * in[1].si / 2);
    if (in[2].set) {
        out->out[1] = calc_number(in[2].si - in[3].si);
        out->out[2] = calc_number(in[1].si + in[2].si - in[3].si);
    }
    calc_note(a, out,
              "A rubber pulley slips on its hub: prove the top mark with a stop in the plug "
              "hole. Points first, timing after.");
    return true;
}

/* ---- timing-chain ---- */

static const struct calc_input chain_inputs[] = {
    IN_MAYBE("rock", ANGLE, "°", 0, 0.8,
             "that the crank turns back and forth before the rotor follows"),
    IN_MAYBE("span", LENGTH, "mm", 0.03, 3, "over the links below, chain pulled straight"),
    IN_USUAL("links", NUMBER, NULL, "20", 4, 200, "measured over, pin to pin"),
    IN_USUAL("pitch", LENGTH, "mm", "9.525 mm", 0.004, 0.03, "of one link: 3/8 in is usual"),
    IN_END,
};
static const struct calc_output chain_outputs[] = {
    OUT_NUMBER("stretch", NUMBER, "%", "%", 3, "longer than new"),
    OUT_NUMBER("most-span", LENGTH, "mm", "in", 4, "for these links"),
    OUT_END,
};
static const struct calc_source chain_sources[] = {
    {MARK_PRACTICE, "Rock up to 5 degrees of crank is usual, over 10 a new chain"},
    {MARK_PRACTICE, "Timing chains: 1 % stretch look, 1.5 % replace (other drives bear 2 to 3)"},
    SOURCE_END,
};

static bool chain_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                      struct fail *f)
{
    static const double DEGREE = 0.01745329251994330;
    if (!in[0].set && !in[1].set)
        return fail_set(f, FAIL_INPUT, "rock: nothing measured; give rock or span");
    if (in[2].si != floor(in[2].si)) return fail_set(f, FAIL_INPUT, "links: a whole number");
    const double rock = in[0].set ? in[0].si / DEGREE : 0, fresh = in[2].si * in[3].si;
    const double stretch = in[1].set ? in[1].si / fresh - 1 : 0;
    if (stretch < -0.01 || stretch > 0.1)
        return fail_set(f, FAIL_INPUT, "span: %.0f links are %.1f mm long when new; count again",
                        in[2].si, 1e3 * fresh);
    if (in[1].set) out->out[0] = calc_number(stretch);
    out->out[1] = calc_number(1.015 * fresh);
    if (rock > 10 * (1 + SLACK) || stretch > 0.015 * (1 + SLACK))
        calc_verdict(a, out, VERDICT_BAD, "New chain, and look at wheels and tensioner");
    else if (rock > 5 * (1 + SLACK) || stretch > 0.01 * (1 + SLACK))
        calc_verdict(a, out, VERDICT_CARE, "Worn: replace it when the front is open");
    else
        calc_verdict(a, out, VERDICT_GOOD, "It may stay");
    calc_note(a, out,
              "A chain that jumps a tooth lets valves meet pistons in some engines. Play in "
              "the distributor's drive counts into the rock.");
    return true;
}

/* ---- valve-lash ---- */

static const struct calc_input lash_inputs[] = {
    IN_NEEDED("lash", LENGTH, "mm", 0, 0.01, "measured, cold or hot as the maker says"),
    IN_USUAL("least", LENGTH, "mm", "0.25 mm", 0.01e-3, 0.003, "that the maker allows"),
    IN_USUAL("most", LENGTH, "mm", "0.40 mm", 0.01e-3, 0.003, "that the maker allows"),
    IN_MAYBE("shim", LENGTH, "mm", 0.0005, 0.01, "thickness of the one fitted, if it has shims"),
    IN_END,
};
static const struct calc_output lash_outputs[] = {
    OUT_NUMBER("wanted", LENGTH, "mm", "thou", 3, "middle of what is allowed"),
    OUT_NUMBER("change", LENGTH, "mm", "thou", 3, "from what was measured; - is closer"),
    OUT_NUMBER("new-shim", LENGTH, "mm", "in", 4, "for the middle"),
    OUT_END,
};
static const struct calc_source lash_sources[] = {
    {MARK_PRACTICE, "As the maker says; 0.25 to 0.40 mm (0.010 to 0.016 in) is typical"},
    SOURCE_END,
};

static bool lash_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                     struct fail *f)
{
    if (in[1].si > in[2].si) return fail_set(f, FAIL_INPUT, "least: it is over the most allowed");
    const double wanted = (in[1].si + in[2].si) / 2;
    const double shim = in[3].set ? in[3].si + in[0].si - wanted : 0;
    out->out[0] = calc_number(wanted);
    out->out[1] = calc_number(wanted - in[0].si);
    if (in[3].set && shim <= 0)
        return fail_set(f, FAIL_INPUT, "shim: none that is thick enough to exist would do");
    if (in[3].set) out->out[2] = calc_number(shim);
    if (in[0].si < in[1].si * (1 - SLACK))
        calc_verdict(a, out, VERDICT_BAD, "Tight: the valve does not close, and burns");
    else if (in[0].si > in[2].si * (1 + SLACK))
        calc_verdict(a, out, VERDICT_CARE, "Loose: it clatters and wears; set it");
    else
        calc_verdict(a, out, VERDICT_GOOD, "Within what is allowed");
    calc_note(a, out, "Turn to the back of the cam for that valve; measure again after turning.");
    return true;
}

static const struct calc_caution hand_cautions[] = {
    {"Turned by hand it may still fire or pinch: coil wire off, out of gear, plugs out, no finger "
     "between chain and wheel.",
     "An engine shop"},
    CAUTION_END,
};

const struct calc calc_engine_wear[] = {
    {.name = "bore-wear",
     .question = "Is the bore worn out, and what oversize cleans it?",
     .inputs = bore_inputs,
     .outputs = bore_outputs,
     .formula = "wear = largest - standard; taper = top - bottom; out of round = across - along",
     .limits = "Cast iron bores; the maker's figures go before it.",
     .sources = bore_sources,
     .run = bore_run},
    {.name = "ring-gap",
     .question = "Is this ring's gap right?",
     .inputs = gap_inputs,
     .outputs = gap_outputs,
     .formula = "from 0.0035 to 0.008 of the bore",
     .limits = "Cast iron rings; the ring maker's figures go before it.",
     .sources = gap_sources,
     .run = gap_run},
    {.name = "timing",
     .question = "Where is this many degrees on the pulley?",
     .inputs = timing_inputs,
     .outputs = timing_outputs,
     .formula = "along the rim = diameter x advance / 2; shift = dwell before - dwell now",
     .limits = "The shift by dwell is practice: set it with a lamp in the end.",
     .sources = timing_sources,
     .cautions = timing_cautions,
     .run = timing_run},
    {.name = "timing-chain",
     .question = "Is the timing chain worn?",
     .inputs = chain_inputs,
     .outputs = chain_outputs,
     .formula = "stretch = span / (links x pitch) - 1",
     .limits = "Roller chains; silent ones and belts go by the maker, belts also by age.",
     .sources = chain_sources,
     .cautions = hand_cautions,
     .run = chain_run},
    {.name = "valve-lash",
     .question = "Is the valve lash right, and which shim?",
     .inputs = lash_inputs,
     .outputs = lash_outputs,
     .formula = "new shim = shim + lash - wanted",
     .limits = "Without hydraulic lifters.",
     .sources = lash_sources,
     .cautions = hand_cautions,
     .run = lash_run},
    {.name = NULL},
};
