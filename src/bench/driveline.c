/* driveline.c - what turns between engine and wheels: propeller shaft, joints, clutch. */
#include "bench/row.h"
#include "bench/systems.h"

static const double PI = 3.14159265358979323846;

static const struct calc_caution shaft_cautions[] = {
    {"A shaft that whirls, or a joint that breaks, comes through the floor. Never run it with the "
     "wheels off the ground and someone near; chock and stand the car before you lie under it.",
     "A driveshaft shop, for a new tube, welding or balancing"},
    CAUTION_END,
};
static const struct calc_caution clutch_cautions[] = {
    {"Old clutch dust holds asbestos: never blow or brush it dry; wet it, bag it. A gearbox weighs "
     "as much as a person: a jack made for it, and stands under the car.",
     "A licensed disposer for the dust and the old plate"},
    CAUTION_END,
};

/* ---- shaft-speed ---- */

static const struct calc_input critical_inputs[] = {
    IN_NEEDED("outside", LENGTH, "mm", 0.01, 0.25, "diameter of the tube"),
    IN_MAYBE("wall", LENGTH, "mm", 0.0005, 0.1, "of the tube; left out: a solid bar"),
    IN_NEEDED("length", LENGTH, "mm", 0.1, 4, "between the joints"),
    IN_USUAL("modulus", PRESSURE, "GPa", "207 GPa", 1e9, 5e11, "of elasticity: steel 207"),
    IN_USUAL("density", NUMBER, NULL, "7850", 500, 20000, "kilogrammes a cubic metre: steel 7850"),
    IN_USUAL("share", NUMBER, "%", "70 %", 0.3, 0.95,
             "of the critical speed that is taken as safe"),
    IN_MAYBE("fastest", TURNING, "rpm", 10, 2000, "that the shaft turns in the car"),
    IN_END,
};
static const struct calc_output critical_outputs[] = {
    OUT_NUMBER("critical", TURNING, "rpm", "rpm", 4, "speed at which it whirls"),
    OUT_NUMBER("safe", TURNING, "rpm", "rpm", 3, "most speed in use"),
    OUT_NUMBER("used", NUMBER, "%", "%", 3, "of the critical speed, at its fastest"),
    OUT_END,
};
static const struct calc_source critical_sources[] = {
    {MARK_PRACTICE,
     "Beam on two supports, first bending: pi^2 / L^2 x root(E I / (density x area))"},
    {MARK_PRACTICE, "65 to 75 % of it in use"},
    SOURCE_END,
};

static bool critical_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                         struct fail *f)
{
    const double d = in[0].si;
    if (in[1].set && in[1].si > d / 2)
        return fail_set(f, FAIL_INPUT, "wall: it is thicker than half of the tube");
    if (in[2].si < 5 * d)
        return fail_set(f, FAIL_INPUT, "length: under five diameters it is no slender shaft");
    const double inside = in[1].set ? d - 2 * in[1].si : 0;
    /* E I / (density x area) of a tube is E (D^2 + d^2) / (16 density). */
    const double stiff = in[3].si * (d * d + inside * inside) / (16 * in[4].si);
    const double critical = PI * PI / (in[2].si * in[2].si) * sqrt(stiff);
    out->out[0] = calc_number(critical);
    out->out[1] = calc_number(critical * in[5].si);
    if (!in[6].set) return true;
    const double used = in[6].si / critical;
    out->out[2] = calc_number(used);
    if (used > 1)
        calc_verdict(a, out, VERDICT_BAD,
                     "It whirls before: a larger or shorter tube, or two shafts");
    else if (used > in[5].si)
        calc_verdict(a, out, VERDICT_BAD, "Too near to whirling: a larger or shorter tube");
    else
        calc_verdict(a, out, VERDICT_GOOD, "Far enough under its critical speed");
    return true;
}

/* ---- joint ---- */

/* Published: a driveline maker's table, from 3500 rpm; told from memory under it. */
static const struct {
    double rpm, degrees;
} joint_most[] = {{1500, 11.5}, {2000, 8.7}, {2500, 7.0}, {3000, 5.8},
                  {3500, 5.0},  {4000, 4.2}, {4500, 3.7}, {5000, 3.2}};
enum { JOINT_MOST = sizeof joint_most / sizeof *joint_most };

/* Above the table the product of both stays, as it nearly does in it; under it the first row. */
static double most_angle(double rpm)
{
    if (rpm <= joint_most[0].rpm) return joint_most[0].degrees * PI / 180;
    for (int i = 1; i < JOINT_MOST; i++) {
        if (rpm > joint_most[i].rpm) continue;
        const double t =
            (rpm - joint_most[i - 1].rpm) / (joint_most[i].rpm - joint_most[i - 1].rpm);
        const double low = joint_most[i - 1].degrees;
        return (low + t * (joint_most[i].degrees - low)) * PI / 180;
    }
    return joint_most[JOINT_MOST - 1].degrees * joint_most[JOINT_MOST - 1].rpm / rpm * PI / 180;
}

static const struct calc_input joint_inputs[] = {
    IN_NEEDED("angle", ANGLE, "deg", 0, 0.785, "between the shafts at the joint"),
    IN_USUAL("turned", ANGLE, "deg", "45 deg", 0, 2 * 3.14159265358979323846,
             "of the driving shaft, from where its fork lies in the plane of the angle"),
    IN_MAYBE("speed", TURNING, "rpm", 1, 1000, "most of the shaft"),
    IN_END,
};
static const struct calc_output joint_outputs[] = {
    OUT_NUMBER("fluctuation", NUMBER, "%", "%", 4, "from slowest to fastest, by the mean speed"),
    OUT_NUMBER("most", NUMBER, NULL, NULL, 5, "driven by driving speed, fastest"),
    OUT_NUMBER("least", NUMBER, NULL, NULL, 5, "driven by driving speed, slowest"),
    OUT_NUMBER("then", NUMBER, NULL, NULL, 5, "driven by driving speed, turned so far"),
    OUT_NUMBER("allowed", ANGLE, "deg", "deg", 3, "angle at that speed"),
    OUT_END,
};
static const struct calc_source joint_sources[] = {
    {MARK_PUBLISHED, "Cross joint: cos b / (1 - sin^2 b cos^2 t); 1.1547 and 0.8660 at 30 degrees"},
    {MARK_PUBLISHED, "A driveline maker's table: 5.0 degrees at 3500 rpm to 3.2 at 5000"},
    {MARK_MEMORY, "The same table under 3500 rpm"},
    SOURCE_END,
};

static bool joint_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                      struct fail *f)
{
    const double b = in[0].si, s = sin(b) * cos(in[1].si);
    (void)f;
    out->out[0] = calc_number(tan(b) * sin(b));
    out->out[1] = calc_number(1 / cos(b));
    out->out[2] = calc_number(cos(b));
    out->out[3] = calc_number(cos(b) / (1 - s * s));
    calc_note(a, out,
              "A second joint at the same angle, its fork in line with the first's on the shaft "
              "between, takes the ripple out.");
    if (!in[2].set) return true;
    const double most = most_angle(in[2].si * 30 / PI);
    out->out[4] = calc_number(most);
    if (b > most * (1 + 1e-9))
        calc_verdict(a, out, VERDICT_BAD, "Too steep for that speed: it shakes and wears");
    else if (b < 0.5 * PI / 180 * (1 - 1e-9))
        calc_verdict(a, out, VERDICT_CARE,
                     "Under half a degree: the needles do not roll and dent the cross");
    else
        calc_verdict(a, out, VERDICT_GOOD, "Within what a joint takes at that speed");
    return true;
}

/* ---- joint-angles ---- */

static const char *const layouts[] = {"parallel", "intersecting", NULL};
static const struct calc_input angles_inputs[] = {
    IN_NEEDED("front-side", ANGLE, "deg", 0, 0.6, "angle of the front joint seen from the side"),
    IN_USUAL("front-top", ANGLE, "deg", "0 deg", 0, 0.6, "the same seen from above"),
    IN_MAYBE("rear-side", ANGLE, "deg", 0, 0.6, "angle of the rear joint seen from the side"),
    IN_USUAL("rear-top", ANGLE, "deg", "0 deg", 0, 0.6, "the same seen from above"),
    IN_MAYBE("length", LENGTH, "mm", 0.1, 4, "of the shaft, for the rule of short ones"),
    IN_CHOICE("layout", layouts, "parallel", "gearbox and axle parallel, or meeting at a point"),
    IN_END,
};
static const struct calc_output angles_outputs[] = {
    OUT_NUMBER("front", ANGLE, "deg", "deg", 3, "true angle of the front joint"),
    OUT_NUMBER("rear", ANGLE, "deg", "deg", 3, "true angle of the rear joint"),
    OUT_NUMBER("apart", ANGLE, "deg", "deg", 3, "of one from the other"),
    OUT_NUMBER("allowed", ANGLE, "deg", "deg", 3, "most for a shaft of that length"),
    OUT_NUMBER("ripple", NUMBER, "%", "%", 3, "of speed left at the axle, slowest to fastest"),
    OUT_END,
};
static const struct calc_source angles_sources[] = {
    {MARK_PUBLISHED, "A driveline maker's service manual: true angle = root(top^2 + side^2); each "
                     "0.5 degree at least, within 1 degree of each other, 3 for smooth running"},
    {MARK_PUBLISHED, "A driveline shop's rule: inches / 5 degrees parallel, / 10 intersecting"},
    SOURCE_END,
};

static double compound(double top, double side)
{
    return atan(hypot(tan(top), tan(side)));
}

static bool angles_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                       struct fail *f)
{
    static const double DEGREE = 3.14159265358979323846 / 180, INCH = 0.0254, SAME = 1 + 1e-9;
    const double front = compound(in[1].si, in[0].si);
    const double rear = in[2].set ? compound(in[3].si, in[2].si) : front;
    const double steep = fmax(front, rear), flat = fmin(front, rear);
    const double allowed =
        in[4].set ? in[4].si / INCH / (in[5].choice == 0 ? 5 : 10) * DEGREE : INFINITY;
    (void)f;
    out->out[0] = calc_number(front);
    if (in[4].set) out->out[3] = calc_number(allowed);
    if (in[2].set) {
        const double left = sqrt(fabs(front * front - rear * rear));
        out->out[1] = calc_number(rear);
        out->out[2] = calc_number(steep - flat);
        out->out[4] = calc_number(tan(left) * sin(left));
    }
    if (steep > allowed * SAME)
        calc_verdict(a, out, VERDICT_BAD, "Too steep for so short a shaft");
    else if (steep - flat > DEGREE * SAME)
        calc_verdict(
            a, out, VERDICT_BAD,
            "The ends differ by over a degree: wedges under the axle, or the gearbox mount");
    else if (flat < 0.5 * DEGREE / SAME)
        calc_verdict(a, out, VERDICT_CARE, "Under half a degree: the needles dent the cross");
    else if (steep > 3 * DEGREE * SAME)
        calc_verdict(a, out, VERDICT_CARE,
                     "Over 3 degrees: it may be felt; ask joint for its speed");
    else
        calc_verdict(a, out, VERDICT_GOOD,
                     in[2].set ? "Both ends are alike and small enough"
                               : "Small enough; the other end must match");
    calc_note(a, out, "Measure laden, on its wheels; the forks of the shaft must lie in one line.");
    return true;
}

/* ---- clutch ---- */

static const struct calc_input clutch_inputs[] = {
    IN_NEEDED("clamp", FORCE, "N", 50, 1e5, "of the pressure plate"),
    IN_NEEDED("outside", LENGTH, "mm", 0.05, 0.6, "diameter of the lining"),
    IN_NEEDED("inside", LENGTH, "mm", 0.02, 0.55, "diameter of the lining's hole"),
    IN_USUAL("friction", NUMBER, NULL, "0.3", 0.08, 0.6, "of the lining: 0.25 to 0.4, oily 0.1"),
    IN_USUAL("faces", NUMBER, NULL, "2", 1, 20, "that rub: a single plate has 2"),
    IN_MAYBE("engine", TORQUE, "Nm", 1, 5000, "most torque of the engine"),
    IN_END,
};
static const struct calc_output clutch_outputs[] = {
    OUT_NUMBER("bedded", TORQUE, "Nm", "lbf ft", 4, "that it holds when bedded in (uniform wear)"),
    OUT_NUMBER("new", TORQUE, "Nm", "lbf ft", 4, "that it holds when new (uniform pressure)"),
    OUT_NUMBER("reserve", NUMBER, NULL, NULL, 3, "bedded torque by the engine's"),
    OUT_NUMBER("lining-pressure", PRESSURE, "kPa", "psi", 3, "mean, on the lining"),
    OUT_END,
};
static const struct calc_source clutch_sources[] = {
    {MARK_PRACTICE, "Shigley's forms: friction x clamp x mean radius x faces; by two thirds of the "
                    "cubes when new"},
    {MARK_PRACTICE, "A clutch holds 1.2 to 1.5 times the engine"},
    SOURCE_END,
};

static bool clutch_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                       struct fail *f)
{
    const double ro = in[1].si / 2, ri = in[2].si / 2, faces = in[4].si;
    if (ri >= 0.98 * ro) return fail_set(f, FAIL_INPUT, "inside: it leaves no lining");
    if (faces != floor(faces)) return fail_set(f, FAIL_INPUT, "faces: a whole number");
    const double push = in[3].si * in[0].si * faces, bedded = push * (ro + ri) / 2;
    out->out[0] = calc_number(bedded);
    out->out[1] = calc_number(push * 2 / 3 * (ro * ro * ro - ri * ri * ri) / (ro * ro - ri * ri));
    out->out[3] = calc_number(in[0].si / (PI * (ro * ro - ri * ri)));
    if (!in[5].set) return true;
    const double reserve = bedded / in[5].si;
    out->out[2] = calc_number(reserve);
    if (reserve < 1)
        calc_verdict(a, out, VERDICT_BAD, "It slips at full torque");
    else if (reserve < 1.2)
        calc_verdict(a, out, VERDICT_CARE,
                     "It holds, with under a fifth to spare: oil or heat slips it");
    else
        calc_verdict(a, out, VERDICT_GOOD, "It holds the engine");
    return true;
}

/* ---- cone-clutch ---- */

static const struct calc_input cone_inputs[] = {
    IN_NEEDED("torque", TORQUE, "Nm", 1, 5000, "to be held"),
    IN_NEEDED("large", LENGTH, "mm", 0.05, 0.8, "diameter at the wide end"),
    IN_NEEDED("small", LENGTH, "mm", 0.04, 0.8, "diameter at the narrow end"),
    IN_NEEDED("width", LENGTH, "mm", 0.005, 0.3, "along the axis"),
    IN_USUAL("friction", NUMBER, NULL, "0.26", 0.08, 0.6, "leather 0.2 to 0.4, woven 0.26"),
    IN_END,
};
static const struct calc_output cone_outputs[] = {
    OUT_NUMBER("spring", FORCE, "N", "lbf", 3, "needed, bedded in (uniform wear)"),
    OUT_NUMBER("spring-new", FORCE, "N", "lbf", 3, "needed when new (uniform pressure)"),
    OUT_NUMBER("pressure", PRESSURE, "kPa", "psi", 3, "most on the lining, bedded in"),
    OUT_NUMBER("pressure-new", PRESSURE, "kPa", "psi", 3, "on the lining when new"),
    OUT_NUMBER("angle", ANGLE, "deg", "deg", 4, "of the cone to the axis"),
    OUT_END,
};
static const struct calc_source cone_sources[] = {
    {MARK_PUBLISHED, "Shigley, Mechanical Engineering Design, solution 16-19"},
    {MARK_PRACTICE, "Under about 8 degrees a cone sticks"},
    SOURCE_END,
};

static bool cone_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                     struct fail *f)
{
    static const double STICKS = 8 * 3.14159265358979323846 / 180;
    const double t = in[0].si, D = in[1].si, d = in[2].si, mu = in[4].si;
    if (d >= D) return fail_set(f, FAIL_INPUT, "small: it is not under the large end");
    const double angle = atan((D - d) / (2 * in[3].si)), across = D * D - d * d;
    const double worn = 4 * t * sin(angle) / (mu * (D + d));
    const double fresh = 3 * t * sin(angle) * across / (mu * (D * D * D - d * d * d));
    out->out[0] = calc_number(worn);
    out->out[1] = calc_number(fresh);
    out->out[2] = calc_number(2 * worn / (PI * d * (D - d)));
    out->out[3] = calc_number(4 * fresh / (PI * across));
    out->out[4] = calc_number(angle);
    if (angle < STICKS)
        calc_verdict(a, out, VERDICT_CARE, "So slim a cone sticks when it should let go");
    return true;
}

const struct calc calc_driveline[] = {
    {.name = "shaft-speed",
     .question = "How fast may this propeller shaft turn?",
     .inputs = critical_inputs,
     .outputs = critical_outputs,
     .formula = "critical = pi^2 / length^2 x root(E (D^2 + d^2) / (16 x density)), in radians a "
                "second",
     .limits = "A straight, balanced tube between joints; a splined or bent one whirls earlier.",
     .sources = critical_sources,
     .cautions = shaft_cautions,
     .plot_over = "length",
     .plot_of = "safe",
     .run = critical_run},
    {.name = "joint",
     .question = "How uneven does a cross joint run at this angle?",
     .inputs = joint_inputs,
     .outputs = joint_outputs,
     .formula =
         "driven / driving = cos b / (1 - sin^2 b cos^2 turned); most 1 / cos b, least cos b, "
         "fluctuation tan b x sin b",
     .limits = "One cross joint; constant-velocity joints have no ripple.",
     .sources = joint_sources,
     .cautions = shaft_cautions,
     .plot_over = "angle",
     .plot_of = "fluctuation",
     .run = joint_run},
    {.name = "joint-angles",
     .question = "Do the two joints of the shaft cancel each other?",
     .inputs = angles_inputs,
     .outputs = angles_outputs,
     .formula = "true angle = atan root(tan^2 top + tan^2 side); ripple as of one joint of "
                "root(front^2 - rear^2)",
     .limits = "Two cross joints with their forks in line, both bends in one plane.",
     .sources = angles_sources,
     .cautions = shaft_cautions,
     .run = angles_run},
    {.name = "clutch",
     .question = "Does this clutch hold the engine?",
     .inputs = clutch_inputs,
     .outputs = clutch_outputs,
     .formula = "bedded = friction x clamp x (ro + ri) / 2 x faces; new = friction x clamp x 2/3 "
                "(ro^3 - ri^3) / (ro^2 - ri^2) x faces",
     .limits = "Dry linings; clamp as the worn plate has it.",
     .sources = clutch_sources,
     .cautions = clutch_cautions,
     .run = clutch_run},
    {.name = "cone-clutch",
     .question = "Which spring does a cone clutch need?",
     .inputs = cone_inputs,
     .outputs = cone_outputs,
     .formula = "spring = 4 torque sin a / (friction (D + d)); new: 3 torque sin a (D^2 - d^2) / "
                "(friction (D^3 - d^3)); tan a = (D - d) / (2 width)",
     .limits = "A whole ring of lining.",
     .sources = cone_sources,
     .cautions = clutch_cautions,
     .run = cone_run},
    {.name = NULL},
};
