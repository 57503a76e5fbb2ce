/* tank.c - what is in the tank and how far it goes. */
#include "bench/pipe.h"
#include "bench/row.h"
#include "bench/systems.h"

static const double PI = 3.14159265358979323846;

/* ---- tank-volume ---- */

static const char *const shapes[] = {"box", "round", "oval", "upright", NULL};
static const struct calc_input tank_inputs[] = {
    IN_CHOICE("shape", shapes, "box", "box; round or oval lying; upright drum"),
    IN_MAYBE("length", LENGTH, "mm", 0.05, 5, "along the tank; not for an upright drum"),
    IN_NEEDED("width", LENGTH, "mm", 0.02, 3, "across; of a round one its diameter"),
    IN_MAYBE("height", LENGTH, "mm", 0.02, 3, "inside; not for a lying round one"),
    IN_MAYBE("depth", LENGTH, "mm", 0, 1.5, "wet on the dipstick; left out: full"),
    IN_END,
};
static const struct calc_output tank_outputs[] = {
    OUT_NUMBER("volume", VOLUME, "L", "US gal", 3, "in it"),
    OUT_NUMBER("full", VOLUME, "L", "US gal", 4, "when full"),
    OUT_NUMBER("share", NUMBER, "%", "%", 4, "of full"),
    OUT_NUMBER("imperial", VOLUME, "imp gal", "imp gal", 3, "in it, in imperial gallons"),
    OUT_END,
};
static const struct calc_source tank_sources[] = {
    {MARK_PRACTICE, "Geometry: a segment of a circle or an ellipse times the length"},
    SOURCE_END,
};
static const struct calc_caution tank_cautions[] = {
    {"An empty petrol tank explodes sooner than a full one. Never weld, braze or grind it, and dip "
     "it with wood or brass.",
     "A tank repairer, who washes and fills it with gas before any heat"},
    CAUTION_END,
};

/* Share of a lying circle or ellipse under a depth, its height being 1. */
static double segment(double depth)
{
    const double u = 1 - 2 * depth;
    return (acos(u) - u * sqrt(fmax(0, 1 - u * u))) / PI;
}

static bool tank_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                     struct fail *f)
{
    enum { BOX, ROUND, OVAL, UPRIGHT };
    const int shape = in[0].choice;
    (void)a;
    if (shape != UPRIGHT && !in[1].set) return fail_set(f, FAIL_INPUT, "length: not given");
    if (shape != ROUND && !in[3].set) return fail_set(f, FAIL_INPUT, "height: not given");
    const double height = shape == ROUND ? in[2].si : in[3].si;
    const double depth = in[4].set ? in[4].si : height;
    if (depth > height * (1 + 1e-9))
        return fail_set(f, FAIL_INPUT, "depth: the tank is only %.4g mm high", 1e3 * height);
    const double part = depth >= height ? 1 : depth / height;
    const double round = PI / 4 * in[2].si;
    const double full = shape == BOX       ? in[1].si * in[2].si * height
                        : shape == UPRIGHT ? round * in[2].si * height
                                           : round * height * in[1].si;
    const double share = shape == BOX || shape == UPRIGHT ? part : segment(part);
    out->out[0] = calc_number(share * full);
    out->out[1] = calc_number(full);
    out->out[2] = calc_number(share);
    out->out[3] = calc_number(share * full);
    return true;
}

/* ---- range ---- */

static const struct calc_input range_inputs[] = {
    IN_NEEDED("tank", VOLUME, "L", 1e-4, 2, "fuel in it"),
    IN_MAYBE("litres-per-100km", NUMBER, NULL, 0.5, 200, "consumption"),
    IN_MAYBE("miles-per-us-gallon", NUMBER, NULL, 1, 300, "in place of it"),
    IN_MAYBE("miles-per-imperial-gallon", NUMBER, NULL, 1, 400, "in place of it"),
    IN_USUAL("reserve", NUMBER, "%", "10 %", 0, 0.9, "left for safety"),
    IN_END,
};
static const struct calc_output range_outputs[] = {
    OUT_NUMBER("range", DISTANCE, "km", "miles", 3, "without the reserve"),
    OUT_NUMBER("dry", DISTANCE, "km", "miles", 3, "to the last drop"),
    OUT_NUMBER("per-100km", NUMBER, NULL, NULL, 5, "litres"),
    OUT_NUMBER("km-per-litre", NUMBER, NULL, NULL, 6, "the same the other way"),
    OUT_NUMBER("us-mpg", NUMBER, NULL, NULL, 4, "miles a US gallon"),
    OUT_NUMBER("imperial-mpg", NUMBER, NULL, NULL, 4, "miles an imperial gallon"),
    OUT_END,
};
static const struct calc_source range_sources[] = {
    {MARK_PUBLISHED, "NIST SP 811: mile, US and imperial gallon"},
    SOURCE_END,
};

static bool range_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                      struct fail *f)
{
    static const double MILE = 1609.344, US = 3.785411784, IMPERIAL = 4.54609;
    if (in[1].set + in[2].set + in[3].set != 1)
        return fail_set(f, FAIL_INPUT,
                        "litres-per-100km: give the consumption once, in one measure");
    const double litres = in[1].set   ? in[1].si
                          : in[2].set ? US * 1e5 / MILE / in[2].si
                                      : IMPERIAL * 1e5 / MILE / in[3].si; /* on 100 km */
    const double dry = in[0].si * 1e3 / litres * 1e5;
    (void)a;
    out->out[0] = calc_number(dry * (1 - in[4].si));
    out->out[1] = calc_number(dry);
    out->out[2] = calc_number(litres);
    out->out[3] = calc_number(100 / litres);
    out->out[4] = calc_number(US * 1e5 / MILE / litres);
    out->out[5] = calc_number(IMPERIAL * 1e5 / MILE / litres);
    return true;
}

/* ---- pipe-friction ---- */

static const struct calc_input friction_inputs[] = {
    IN_NEEDED("reynolds", NUMBER, NULL, 1, 1e8, "Reynolds number"),
    IN_USUAL("roughness", NUMBER, NULL, "0", 0, 0.05, "by diameter"),
    IN_END,
};
static const struct calc_output friction_outputs[] = {
    OUT_NUMBER("friction", NUMBER, NULL, NULL, 4, "Darcy's friction factor"),
    OUT_END,
};
static const struct calc_source friction_sources[] = {
    {MARK_PRACTICE, "f = 64 / Re below 2300; Colebrook's equation, solved, above"},
    SOURCE_END,
};

static bool friction_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                         struct fail *f)
{
    (void)a, (void)f;
    out->out[0] = calc_number(pipe_friction(in[0].si, in[1].si));
    return true;
}

const struct calc calc_tank[] = {
    {.name = "tank-volume",
     .question = "How much is in the tank?",
     .inputs = tank_inputs,
     .outputs = tank_outputs,
     .formula =
         "area of the wet part x length; of a circle r^2 acos((r - h)/r) - (r - h) root(2 r h - "
         "h^2), of an oval the same, stretched",
     .limits = "Inside measures, a level tank without baffles.",
     .sources = tank_sources,
     .cautions = tank_cautions,
     .plot_over = "depth",
     .plot_of = "volume",
     .run = tank_run},
    {.name = "range",
     .question = "How far does the fuel go?",
     .inputs = range_inputs,
     .outputs = range_outputs,
     .formula = "range = fuel x (1 - reserve) / consumption",
     .limits = "At the consumption given; a gauge long stored is not to be trusted.",
     .sources = range_sources,
     .run = range_run},
    {.name = "pipe-friction",
     .question = "What is the friction factor of a pipe?",
     .inputs = friction_inputs,
     .outputs = friction_outputs,
     .formula = "f = 64/Re below 2300, else 1/root f = -2 log (e/3.7 + 2.51/(Re root f))",
     .limits = "Full, straight, round.",
     .sources = friction_sources,
     .run = friction_run},
    {.name = NULL},
};
