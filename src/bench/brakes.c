/* brakes.c - from the pedal to the torque at the wheel: line pressure, disc, drum, master cylinder,
 * fluid. */
#include "bench/row.h"
#include "bench/systems.h"

static const double PI = 3.14159265358979323846;

static const struct calc_caution brake_cautions[] = {
    {"Brakes that fail kill. These sums choose and compare parts; they do not pass a brake. Change "
     "hoses, cups and fluid of a car that stood over five years, then try it slowly, off the road.",
     "A brake specialist or the test station, before the road and after any change of parts"},
    {"Old lining dust holds asbestos: never blow, brush dry or sand it; wet it, bag it, wash "
     "hands.",
     "A licensed disposer for the dust and the old linings"},
    CAUTION_END,
};

static double circle(double diameter)
{
    return PI / 4 * diameter * diameter;
}

/* ---- brake-pedal ---- */

static const struct calc_input pedal_inputs[] = {
    IN_NEEDED("force", FORCE, "N", 1, 3000, "of the foot: 65 to 500 N is what rules allow"),
    IN_USUAL("pedal-ratio", NUMBER, NULL, "5", 1, 12, "pad to pivot / pushrod to pivot"),
    IN_USUAL("booster", NUMBER, NULL, "1", 1, 10, "how often the servo multiplies; 1: none"),
    IN_NEEDED("master", LENGTH, "mm", 0.01, 0.06, "bore of the master cylinder"),
    IN_MAYBE("cylinder", LENGTH, "mm", 0.01, 0.12, "bore of a wheel cylinder or caliper"),
    IN_END,
};
static const struct calc_output pedal_outputs[] = {
    OUT_NUMBER("pressure", PRESSURE, "bar", "psi", 4, "in the line"),
    OUT_NUMBER("pushrod", FORCE, "N", "lbf", 3, "force into the master cylinder"),
    OUT_NUMBER("piston-force", FORCE, "N", "lbf", 3, "of that wheel cylinder's piston"),
    OUT_NUMBER("hydraulic-ratio", NUMBER, NULL, NULL, 3, "piston's area by the master's"),
    OUT_END,
};
static const struct calc_source pedal_sources[] = {
    {MARK_PRACTICE, "Lever and Pascal's law: pressure = force x ratio x booster / area"},
    {MARK_MEMORY, "FMVSS 135: 65 to 500 N at the pedal"},
    {MARK_PRACTICE, "Hard stops of old cars need 50 to 100 bar"},
    SOURCE_END,
};

static bool pedal_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                      struct fail *f)
{
    static const double HARD = 1e7, MOST_FOOT = 500;
    const double rod = in[0].si * in[1].si * in[2].si, pressure = rod / circle(in[3].si);
    (void)f;
    out->out[0] = calc_number(pressure);
    out->out[1] = calc_number(rod);
    if (in[4].set) {
        out->out[2] = calc_number(pressure * circle(in[4].si));
        out->out[3] = calc_number(circle(in[4].si) / circle(in[3].si));
    }
    if (in[0].si > MOST_FOOT)
        calc_verdict(a, out, VERDICT_CARE,
                     "Over 500 N: more than a foot can be asked for; a smaller bore or a booster");
    else if (pressure > HARD)
        calc_verdict(a, out, VERDICT_CARE,
                     "Over 100 bar: more than most old lines and hoses see in a hard stop");
    calc_note(a, out,
              "A smaller master cylinder gives more pressure and a longer pedal; ask "
              "master-cylinder whether its stroke still suffices.");
    return true;
}

/* ---- disc-brake ---- */

#define TORQUE_OUTPUTS                                                                             \
    OUT_NUMBER("torque", TORQUE, "Nm", "lbf ft", 4, "of the brake"),                               \
        OUT_NUMBER("factor", NUMBER, NULL, NULL, 3,                                                \
                   "brake factor: rubbing force by pushing force"),                                \
        OUT_NUMBER("at-ground", FORCE, "N", "lbf", 3, "braking force of that wheel")
#define TYRE_RADIUS_INPUT                                                                          \
    IN_MAYBE("tyre-radius", LENGTH, "mm", 0.1, 1, "hub to ground, loaded, for the force there")

static const struct calc_input disc_inputs[] = {
    IN_NEEDED("pressure", PRESSURE, "bar", 1e4, 3e7, "in the line"),
    IN_NEEDED("piston", LENGTH, "mm", 0.01, 0.12, "bore of the caliper"),
    IN_USUAL("pistons", NUMBER, NULL, "1", 1, 6, "on one side of the disc, each of that bore"),
    IN_USUAL("friction", NUMBER, NULL, "0.38", 0.1, 0.7, "of the pads, warm: 0.3 to 0.45"),
    IN_NEEDED("radius", LENGTH, "mm", 0.03, 0.3, "hub to the middle of the pad"),
    TYRE_RADIUS_INPUT,
    IN_END,
};
static const struct calc_output disc_outputs[] = {
    TORQUE_OUTPUTS,
    OUT_NUMBER("clamp", FORCE, "N", "lbf", 3, "of one pad on the disc"),
    OUT_END,
};
static const struct calc_source disc_sources[] = {
    {MARK_PRACTICE, "Friction on two faces: torque = 2 x friction x pressure x area x radius"},
    {MARK_MEMORY, "Limpert: brake factor of discs 0.7 to 0.8"},
    SOURCE_END,
};

static bool disc_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                     struct fail *f)
{
    const double clamp = in[0].si * circle(in[1].si) * in[2].si;
    const double torque = 2 * in[3].si * clamp * in[4].si;
    if (in[2].si != floor(in[2].si)) return fail_set(f, FAIL_INPUT, "pistons: a whole number");
    out->out[0] = calc_number(torque);
    out->out[1] = calc_number(2 * in[3].si);
    if (in[5].set) out->out[2] = calc_number(torque / in[5].si);
    out->out[3] = calc_number(clamp);
    calc_note(a, out,
              "A sliding caliper with one piston and a fixed one with a piston a side are the "
              "same; wet, hot or glazed pads lose half or more.");
    return true;
}

/* ---- drum-brake ---- */

static const char *const shoes[] = {"leading-trailing", "two-leading", "two-trailing", NULL};
static const struct calc_input drum_inputs[] = {
    IN_CHOICE("shoes", shoes, "leading-trailing", "how the two shoes meet the turning drum"),
    IN_NEEDED("radius", LENGTH, "mm", 0.05, 0.3, "of the drum inside"),
    IN_NEEDED("pivot", LENGTH, "mm", 0.02, 0.3, "hub to the hinge of a shoe"),
    IN_NEEDED("width", LENGTH, "mm", 0.01, 0.2, "of the lining"),
    IN_USUAL("from", ANGLE, "deg", "20 deg", 0, 1.4, "hinge to the lining's start"),
    IN_USUAL("to", ANGLE, "deg", "130 deg", 0.3, 2.8, "hinge to the lining's end"),
    IN_USUAL("friction", NUMBER, NULL, "0.35", 0.1, 0.6, "of the lining, warm: 0.3 to 0.4"),
    IN_NEEDED("arm", LENGTH, "mm", 0.03, 0.6, "hinge to the line of the cylinder's force"),
    IN_MAYBE("shoe-force", FORCE, "N", 10, 1e5, "that pushes each shoe"),
    IN_MAYBE("pressure", PRESSURE, "bar", 1e4, 3e7, "in the line, in place of it"),
    IN_MAYBE("cylinder", LENGTH, "mm", 0.01, 0.06, "bore of the wheel cylinder, with pressure"),
    TYRE_RADIUS_INPUT,
    IN_END,
};
static const struct calc_output drum_outputs[] = {
    TORQUE_OUTPUTS,
    OUT_NUMBER("leading-torque", TORQUE, "Nm", "lbf ft", 4, "of one shoe that leads"),
    OUT_NUMBER("trailing-torque", TORQUE, "Nm", "lbf ft", 4, "of one shoe that trails"),
    OUT_NUMBER("leading-pressure", PRESSURE, "kPa", "psi", 4, "most, on a lining that leads"),
    OUT_NUMBER("trailing-pressure", PRESSURE, "kPa", "psi", 4, "most, on a lining that trails"),
    OUT_NUMBER("locks-at", NUMBER, NULL, NULL, 3, "friction at which a leading shoe grabs"),
    OUT_END,
};
static const struct calc_source drum_sources[] = {
    {MARK_PUBLISHED, "Shigley, Mechanical Engineering Design, problem 16-1: 734 kPa on the leading "
                     "shoe of a drum of 150 mm"},
    {MARK_PRACTICE, "Long hinged shoe, pressure as the sine of the angle from the hinge"},
    {MARK_MEMORY, "Limpert: brake factor 2 to 2.5 leading and trailing, 3 to 4 two leading"},
    SOURCE_END,
};

/* Moments about the hinge and about the hub, for a greatest pressure of 1. */
struct shoe {
    double normal, friction, torque;
};

static struct shoe shoe_of(const struct calc_value *in, double friction)
{
    const double r = in[1].si, a = in[2].si, b = in[3].si, from = in[4].si, to = in[5].si;
    const double top = to < PI / 2 ? sin(to) : 1; /* where the pressure is greatest */
    const double cosines = cos(from) - cos(to);
    const double sines = 0.5 * (sin(to) * sin(to) - sin(from) * sin(from));
    const double squares = 0.5 * (to - from) - 0.25 * (sin(2 * to) - sin(2 * from));
    return (struct shoe){b * r * a / top * squares,
                         friction * b * r / top * (r * cosines - a * sines),
                         friction * b * r * r / top * cosines};
}

static bool shoe_force(const struct calc_value *in, double *out, struct fail *f)
{
    if (in[8].set && (in[9].set || in[10].set))
        return fail_set(f, FAIL_INPUT, "shoe-force: give it, or pressure and cylinder, not both");
    if (!in[8].set && !(in[9].set && in[10].set))
        return fail_set(f, FAIL_INPUT, "shoe-force: not given; or give pressure and cylinder");
    *out = in[8].set ? in[8].si : in[9].si * circle(in[10].si);
    return true;
}

static bool drum_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                     struct fail *f)
{
    enum { LEADING_TRAILING, TWO_LEADING };
    double force = 0;
    if (!shoe_force(in, &force, f)) return false;
    if (in[2].si >= in[1].si) return fail_set(f, FAIL_INPUT, "pivot: it lies outside the drum");
    if (in[5].si < in[4].si + 0.1)
        return fail_set(f, FAIL_INPUT, "to: the lining ends before it begins, or is too short");
    if (in[7].si > 2 * in[1].si) return fail_set(f, FAIL_INPUT, "arm: it reaches out of the drum");
    const struct shoe s = shoe_of(in, in[6].si);
    const double grabs = s.friction > 0 ? in[6].si * s.normal / s.friction : 0;
    if (s.friction >= 0.95 * s.normal)
        return fail_set(f, FAIL_INPUT,
                        "friction: a leading shoe grabs and locks by itself at %.2f; another "
                        "lining or shorter shoes",
                        grabs);
    const double leading = force * in[7].si / (s.normal - s.friction);
    const double trailing = force * in[7].si / (s.normal + s.friction);
    const double first = in[0].choice <= TWO_LEADING ? leading : trailing;
    const double second = in[0].choice == TWO_LEADING ? leading : trailing;
    const double torque = s.torque * (first + second);
    out->out[0] = calc_number(torque);
    out->out[1] = calc_number(torque / (in[1].si * force));
    if (in[11].set) out->out[2] = calc_number(torque / in[11].si);
    out->out[3] = calc_number(s.torque * leading);
    out->out[4] = calc_number(s.torque * trailing);
    out->out[5] = calc_number(leading);
    out->out[6] = calc_number(trailing);
    if (grabs > 0) out->out[7] = calc_number(grabs);
    if (in[0].choice <= TWO_LEADING && s.friction > 0.6 * s.normal)
        calc_verdict(a, out, VERDICT_CARE,
                     "Near to grabbing: a little damp or rust on the drum locks the wheel");
    if (in[0].choice == TWO_LEADING)
        calc_note(a, out, "Two leading shoes become two trailing ones when rolling back.");
    return true;
}

/* ---- master-cylinder ---- */

static const struct calc_input master_inputs[] = {
    IN_NEEDED("bore", LENGTH, "mm", 0.01, 0.06, "of the master cylinder"),
    IN_NEEDED("stroke", LENGTH, "mm", 0.003, 0.08, "that it has, past the compensating port"),
    IN_MAYBE("front-cylinder", LENGTH, "mm", 0.01, 0.12, "bore of a front wheel cylinder, caliper"),
    IN_USUAL("front-pistons", NUMBER, NULL, "4", 1, 16, "that move at the front, both wheels"),
    IN_USUAL("front-travel", LENGTH, "mm", "1 mm", 0, 0.01, "of each to touch and press"),
    IN_MAYBE("rear-cylinder", LENGTH, "mm", 0.01, 0.12, "bore of a rear wheel cylinder, caliper"),
    IN_USUAL("rear-pistons", NUMBER, NULL, "4", 1, 16, "that move at the rear"),
    IN_USUAL("rear-travel", LENGTH, "mm", "1 mm", 0, 0.01, "of each to touch and press"),
    IN_USUAL("wear", LENGTH, "mm", "0 mm", 0, 0.01,
             "more travel of each by wear that nobody took up"),
    IN_USUAL("pedal-ratio", NUMBER, NULL, "5", 1, 12, "pad to pivot / pushrod to pivot"),
    IN_END,
};
static const struct calc_output master_outputs[] = {
    OUT_NUMBER("displacement", VOLUME, "mL", "in3", 3, "that a full stroke gives"),
    OUT_NUMBER("wanted", VOLUME, "mL", "in3", 3, "that the wheels take"),
    OUT_NUMBER("spare", NUMBER, "%", "%", 3, "of the stroke left when the brakes are on"),
    OUT_NUMBER("pedal-travel", LENGTH, "mm", "in", 3, "at the pad until the brakes are on"),
    OUT_NUMBER("wear-left", LENGTH, "mm", "in", 3,
               "more travel of each piston until nothing is left"),
    OUT_END,
};
static const struct calc_source master_sources[] = {
    {MARK_PRACTICE, "Volume = area x travel; what goes in comes out"},
    {MARK_PRACTICE, "A third of the stroke is kept for hoses that swell, heat and one failed half"},
    SOURCE_END,
};

static bool master_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                       struct fail *f)
{
    const double area = circle(in[0].si), full = area * in[1].si;
    double wanted = 0, faces = 0;
    (void)f;
    for (int axle = 2; axle <= 5; axle += 3) {
        if (!in[axle].set) continue;
        const double face = circle(in[axle].si) * in[axle + 1].si;
        wanted += face * (in[axle + 2].si + in[8].si);
        faces += face;
    }
    out->out[0] = calc_number(full);
    calc_note(a, out,
              "Of a tandem cylinder this is one half: give it the stroke of that half, and the "
              "axle that it feeds.");
    if (faces == 0) return true;
    const double spare = 1 - wanted / full;
    out->out[1] = calc_number(wanted);
    out->out[2] = calc_number(spare);
    out->out[3] = calc_number(wanted / area * in[9].si);
    if (spare > 0) out->out[4] = calc_number((full - wanted) / faces);
    if (spare <= 0)
        calc_verdict(a, out, VERDICT_BAD,
                     "The pedal reaches the floor before the brakes are on: adjust the shoes, or a "
                     "larger master cylinder");
    else if (spare < 1.0 / 3)
        calc_verdict(a, out, VERDICT_CARE,
                     "Less than a third of the stroke is left: take up the wear before the road");
    else
        calc_verdict(a, out, VERDICT_GOOD, "The stroke suffices, with a reserve");
    return true;
}

/* ---- brake-fluid ---- */

static const char *const grades[] = {"dot-3", "dot-4", "dot-5", "dot-5.1", NULL};
static const char *const in_system[] = {"nothing", "dot-3",   "dot-4",   "dot-5",
                                        "dot-5.1", "mineral", "unknown", NULL};
/* Published: 49 CFR 571.116 (FMVSS 116). One copy on the web gives 270 and 191 to DOT 5.1: the
 * standard's least are 260 and 180. */
static const struct {
    double dry, wet, viscosity;
    bool silicone;
} fluids[] = {{205, 140, 1500, false},
              {230, 155, 1800, false},
              {260, 180, 900, true},
              {260, 180, 900, false}};
static const struct calc_input fluid_inputs[] = {
    IN_CHOICE("grade", grades, "dot-4", "to be filled in, or as the reservoir's cap says"),
    IN_CHOICE("in-system", in_system, "nothing", "what is in it now; nothing: emptied, new cups"),
    IN_MAYBE("boils-at", TEMPERATURE, "°C", 353.15, 623.15, "measured on what is in it"),
    IN_END,
};
static const struct calc_output fluid_outputs[] = {
    OUT_NUMBER("dry", TEMPERATURE, "°C", "°F", 3, "least boiling point, new"),
    OUT_NUMBER("wet", TEMPERATURE, "°C", "°F", 3, "least boiling point after it drew water"),
    OUT_NUMBER("viscosity", NUMBER, NULL, NULL, 4, "most, in cSt at -40 °C"),
    OUT_TEXT("base", "glycol or silicone"),
    OUT_END,
};
static const struct calc_source fluid_sources[] = {
    {MARK_PUBLISHED, "FMVSS 116 (49 CFR 571.116): boiling points and viscosity"},
    {MARK_MEMORY, "FMVSS 116: wet is with about 3.7 % of water"},
    SOURCE_END,
};
static const struct calc_caution fluid_cautions[] = {
    {"The wrong fluid swells the cups and the brakes fail or stay on. Glycol fluid blinds and "
     "strips paint: goggles, gloves, water at hand.",
     "The maker's book for the fluid; a brake specialist if what is in it is not known"},
    {"Fluid that drew water boils in a long descent, and the pedal goes to the floor.",
     "A garage with a boiling-point tester; else change it"},
    CAUTION_END,
};

static bool fluid_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                      struct fail *f)
{
    enum { NOTHING, MINERAL = 5, UNKNOWN };
    const int g = in[0].choice, now = in[1].choice;
    const double wet = fluids[g].wet + 273.15, dry = fluids[g].dry + 273.15;
    (void)f;
    out->out[0] = calc_number(dry);
    out->out[1] = calc_number(wet);
    out->out[2] = calc_number(fluids[g].viscosity);
    out->out[3] = calc_text(fluids[g].silicone ? "silicone" : "glycol");
    calc_note(a, out,
              "Natural rubber cups of before about 1960 and systems made for mineral oil need what "
              "their maker names; a car that stood over five years: new cups, hoses and fluid.");
    if (now == MINERAL)
        calc_verdict(a, out, VERDICT_BAD,
                     "Never in a mineral oil system: it ruins every seal within days");
    else if (now == UNKNOWN)
        calc_verdict(a, out, VERDICT_CARE,
                     "Do not top up: empty it, flush it and fit new cups, then fill");
    else if (now != NOTHING && fluids[g].silicone != fluids[now - 1].silicone)
        calc_verdict(a, out, VERDICT_BAD,
                     "Never mix silicone and glycol: empty it, new cups and hoses, then fill");
    else if (in[2].set && in[2].si < wet)
        calc_verdict(a, out, VERDICT_BAD, "It boils under the wet limit: change it now");
    else if (in[2].set && in[2].si < 0.5 * (wet + dry))
        calc_verdict(a, out, VERDICT_CARE, "It has drawn water: change it soon");
    else if (in[2].set)
        calc_verdict(a, out, VERDICT_GOOD, "It boils high enough");
    else if (now != NOTHING)
        calc_verdict(a, out, VERDICT_GOOD, "They may be mixed; a full change is better");
    return true;
}

const struct calc calc_brakes[] = {
    {.name = "brake-pedal",
     .question = "What line pressure does the foot give?",
     .inputs = pedal_inputs,
     .outputs = pedal_outputs,
     .formula = "pressure = force x pedal ratio x booster / area of the master cylinder",
     .limits = "Without friction and return springs; a booster gives its share only to its knee.",
     .sources = pedal_sources,
     .cautions = brake_cautions,
     .plot_over = "master",
     .plot_of = "pressure",
     .run = pedal_run},
    {.name = "disc-brake",
     .question = "What torque does this disc brake give?",
     .inputs = disc_inputs,
     .outputs = disc_outputs,
     .formula = "torque = 2 x friction x pressure x piston area of one side x radius",
     .limits = "Bedded pads, warm and dry.",
     .sources = disc_sources,
     .cautions = brake_cautions,
     .run = disc_run},
    {.name = "drum-brake",
     .question = "What torque does this drum brake give?",
     .inputs = drum_inputs,
     .outputs = drum_outputs,
     .formula =
         "with p the greatest pressure: normal = p b r a / sin A x integral of sin^2; friction "
         "= mu p b r / sin A x integral of sin (r - a cos); force x arm = normal - friction "
         "(leading) or + (trailing); torque = mu p b r^2 (cos from - cos to) / sin A",
     .limits =
         "Shoes hinged at one end, pushed alike, linings bedded all along. Not for shoes that "
         "float or push one another (servo): those give 4 to 7 by memory, and vary greatly.",
     .sources = drum_sources,
     .cautions = brake_cautions,
     .run = drum_run},
    {.name = "master-cylinder",
     .question = "Does the master cylinder move enough fluid?",
     .inputs = master_inputs,
     .outputs = master_outputs,
     .formula = "area x stroke against the sum of piston area x (travel + wear)",
     .limits = "Without air, and hoses that do not swell: the reserve is for those.",
     .sources = master_sources,
     .cautions = brake_cautions,
     .plot_over = "wear",
     .plot_of = "spare",
     .run = master_run},
    {.name = "brake-fluid",
     .question = "Which brake fluid, and is it still good?",
     .inputs = fluid_inputs,
     .outputs = fluid_outputs,
     .formula = "the standard's limits; glycol mixes with glycol, silicone with silicone",
     .limits = "Grades of the US standard, as used everywhere.",
     .sources = fluid_sources,
     .cautions = fluid_cautions,
     .run = fluid_run},
    {.name = NULL},
};
