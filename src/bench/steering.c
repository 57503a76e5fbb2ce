/* steering.c - toe, camber and castor between degrees and what a tape measures. */
#include "bench/row.h"
#include "bench/systems.h"

static const double PI = 3.14159265358979323846;

static const struct calc_caution steering_cautions[] = {
    {"Steering that is set wrong wears tyres in a day and wanders; a rod end screwed out too far "
     "lets go. At least one and a half diameters of thread must hold, and every locknut be tight.",
     "An alignment shop with the maker's figures"},
    CAUTION_END,
};
static const struct calc_source angle_sources[] = {
    {MARK_PRACTICE, "Geometry of a wheel of the given diameter"},
    SOURCE_END,
};

/* ---- toe ---- */

static const struct calc_input toe_inputs[] = {
    IN_MAYBE("distance", LENGTH, "mm", -0.08, 0.08, "rear less front, both wheels; less: toe-out"),
    IN_MAYBE("angle", ANGLE, "deg", -0.1, 0.1, "of both wheels together; less: toe-out"),
    IN_NEEDED("diameter", LENGTH, "mm", 0.2, 1.5, "at which it is or was measured: tyre or rim"),
    IN_USUAL("least", LENGTH, "mm", "1.5 mm", -0.02, 0.02, "that the maker allows"),
    IN_USUAL("most", LENGTH, "mm", "3 mm", -0.02, 0.02, "that the maker allows"),
    IN_END,
};
static const struct calc_output toe_outputs[] = {
    OUT_NUMBER("toe-in", LENGTH, "mm", "in", 2, "both wheels together"),
    OUT_NUMBER("each", LENGTH, "mm", "in", 2, "wheel"),
    OUT_NUMBER("toe-angle", ANGLE, "°", "°", 3, "both wheels together"),
    OUT_NUMBER("each-angle", ANGLE, "°", "°", 3, "wheel"),
    OUT_END,
};
static const struct calc_source toe_sources[] = {
    {MARK_PUBLISHED, "Alignment notes: distance = diameter x sine of the angle, each wheel"},
    {MARK_PRACTICE, "1.5 to 3 mm in on most old cars with the drive at the rear"},
    SOURCE_END,
};

static bool toe_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                    struct fail *f)
{
    if (in[0].set == in[1].set)
        return fail_set(f, FAIL_INPUT, "distance: give either the distance or the angle");
    if (in[3].si > in[4].si) return fail_set(f, FAIL_INPUT, "least: more than the most");
    const double angle = in[0].set ? 2 * asin(in[0].si / 2 / in[2].si) : in[1].si;
    const double both = 2 * in[2].si * sin(angle / 2);
    out->out[0] = calc_number(both);
    out->out[1] = calc_number(both / 2);
    out->out[2] = calc_number(angle);
    out->out[3] = calc_number(angle / 2);
    if (both >= in[3].si - 1e-9 && both <= in[4].si + 1e-9)
        calc_verdict(a, out, VERDICT_GOOD, "Within the limits");
    else
        calc_verdict(a, out, VERDICT_CARE,
                     both < in[3].si ? "Less toe-in than the limits allow"
                                     : "More toe-in than the limits allow");
    calc_note(a, out,
              "Roll forward half a turn of the wheel and measure at the same mark; play in joints "
              "first, toe last. Front-drive cars often run toe-out.");
    return true;
}

/* ---- camber ---- */

static const struct calc_input camber_inputs[] = {
    IN_MAYBE("offset", LENGTH, "mm", -0.08, 0.08,
             "rim's bottom to its top, out of plumb; less: in"),
    IN_MAYBE("angle", ANGLE, "deg", -0.2, 0.2, "of the wheel; less: top in"),
    IN_NEEDED("rim", LENGTH, "mm", 0.15, 1.2, "diameter over which it is or was measured"),
    IN_END,
};
static const struct calc_output camber_outputs[] = {
    OUT_NUMBER("camber", ANGLE, "°", "°", 3, "of the wheel"),
    OUT_NUMBER("out-of-plumb", LENGTH, "mm", "in", 3, "over that diameter"),
    OUT_END,
};

static bool camber_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                       struct fail *f)
{
    if (in[0].set == in[1].set)
        return fail_set(f, FAIL_INPUT, "offset: give either the offset or the angle");
    const double angle = in[0].set ? atan(in[0].si / in[2].si) : in[1].si;
    out->out[0] = calc_number(angle);
    out->out[1] = calc_number(in[2].si * tan(angle));
    calc_note(a, out, "On a level floor, or take the floor's own slope off.");
    return true;
}

/* ---- castor ---- */

static const struct calc_input castor_inputs[] = {
    IN_NEEDED("out", ANGLE, "deg", -0.3, 0.3, "camber with the wheel turned out"),
    IN_NEEDED("in", ANGLE, "deg", -0.3, 0.3, "camber with the wheel turned in"),
    IN_USUAL("sweep", ANGLE, "deg", "20 deg", 0.08, 0.7, "turned each way from straight on"),
    IN_END,
};
static const struct calc_output castor_outputs[] = {
    OUT_NUMBER("castor", ANGLE, "°", "°", 3, "of the steering axis; less: leans forward"),
    OUT_NUMBER("factor", NUMBER, NULL, NULL, 4, "castor for each degree of change"),
    OUT_END,
};

static bool castor_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                       struct fail *f)
{
    const double factor = 1 / (2 * sin(in[2].si)), castor = factor * (in[0].si - in[1].si);
    (void)f;
    out->out[0] = calc_number(castor);
    out->out[1] = calc_number(factor);
    if (fabs(castor) > 15 * PI / 180)
        calc_verdict(a, out, VERDICT_CARE, "More than any usual car has: measure again");
    calc_note(a, out, "The two sides should be within half a degree, or it pulls to one side.");
    return true;
}

const struct calc calc_steering[] = {
    {.name = "toe",
     .question = "How much toe-in is that?",
     .inputs = toe_inputs,
     .outputs = toe_outputs,
     .formula = "distance of one wheel = diameter x sin(angle of one wheel); toe = both together",
     .limits = "Measured at the height of the wheels' centres.",
     .sources = toe_sources,
     .cautions = steering_cautions,
     .run = toe_run},
    {.name = "camber",
     .question = "How much camber is that?",
     .inputs = camber_inputs,
     .outputs = camber_outputs,
     .formula = "offset = rim x tan(camber)",
     .limits = "Wheels straight on, a rim that runs true.",
     .sources = angle_sources,
     .cautions = steering_cautions,
     .run = camber_run},
    {.name = "castor",
     .question = "How much castor is that?",
     .inputs = castor_inputs,
     .outputs = castor_outputs,
     .formula = "castor = (camber turned out - camber turned in) / (2 sin sweep)",
     .limits = "Small angles, the same sweep out and in.",
     .sources = angle_sources,
     .cautions = steering_cautions,
     .run = castor_run},
    {.name = NULL},
};
