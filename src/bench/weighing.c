/* weighing.c - what scales under the wheels tell: shares, cross weight, centre of gravity; and
 * what jack and stands must bear. */
#include "bench/row.h"
#include "bench/systems.h"

static const struct calc_caution lift_cautions[] = {
    {"Level hard floor, chocks on both sides of the wheels that stay down. The jack lifts, stands "
     "under hard points hold; shake it before going under, and never under a car on a jack.",
     "A workshop with a lift"},
    CAUTION_END,
};

/* ---- corner-weights ---- */

static const struct calc_input corner_inputs[] = {
    IN_NEEDED("left-front", MASS, "kg", 0, 2e4, "on that scale"),
    IN_NEEDED("right-front", MASS, "kg", 0, 2e4, "on that scale"),
    IN_NEEDED("left-rear", MASS, "kg", 0, 2e4, "on that scale"),
    IN_NEEDED("right-rear", MASS, "kg", 0, 2e4, "on that scale"),
    IN_MAYBE("wheelbase", LENGTH, "mm", 0.5, 12, "for the centre of gravity"),
    IN_END,
};
static const struct calc_output corner_outputs[] = {
    OUT_NUMBER("whole", MASS, "kg", "lb", 4, "weight"),
    OUT_NUMBER("front", MASS, "kg", "lb", 4, "axle"),
    OUT_NUMBER("rear", MASS, "kg", "lb", 4, "axle"),
    OUT_NUMBER("front-share", NUMBER, "%", "%", 3, "of the whole"),
    OUT_NUMBER("left-share", NUMBER, "%", "%", 3, "of the whole"),
    OUT_NUMBER("cross", NUMBER, "%", "%", 3, "right front and left rear of the whole"),
    OUT_NUMBER("behind-front", LENGTH, "mm", "in", 4, "axle lies the centre of gravity"),
    OUT_END,
};
static const struct calc_source corner_sources[] = {
    {MARK_PRACTICE, "Balance of moments; cross weight = (right front + left rear) / whole"},
    SOURCE_END,
};

static bool corner_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                       struct fail *f)
{
    enum { LF, RF, LR, RR, BASE };
    const double front = in[LF].si + in[RF].si, rear = in[LR].si + in[RR].si, whole = front + rear;
    if (whole < 1) return fail_set(f, FAIL_INPUT, "left-front: nothing stands on the scales");
    const double cross = (in[RF].si + in[LR].si) / whole;
    out->out[0] = calc_number(whole);
    out->out[1] = calc_number(front);
    out->out[2] = calc_number(rear);
    out->out[3] = calc_number(front / whole);
    out->out[4] = calc_number((in[LF].si + in[LR].si) / whole);
    out->out[5] = calc_number(cross);
    if (in[BASE].set) out->out[6] = calc_number(rear / whole * in[BASE].si);
    if (fabs(cross - 0.5) <= 0.02)
        calc_verdict(a, out, VERDICT_GOOD, "It stands square on its wheels");
    else
        calc_verdict(
            a, out, VERDICT_CARE,
            "Crossed: %s carry too much. Look for a sagged spring, a seized bush or a bent "
            "frame",
            cross > 0.5 ? "right front and left rear" : "left front and right rear");
    calc_note(a, out,
              "Scales level within 3 mm, tyres at pressure, fluids full, driver's weight aboard, "
              "anti-roll bars loose, the car rolled and bounced.");
    return true;
}

/* ---- centre-of-gravity ---- */

static const struct calc_input gravity_inputs[] = {
    IN_NEEDED("whole", MASS, "kg", 50, 6e4, "weight, level"),
    IN_NEEDED("rear", MASS, "kg", 0, 6e4, "of it on the rear axle"),
    IN_NEEDED("wheelbase", LENGTH, "mm", 0.5, 12, "axle to axle"),
    IN_MAYBE("tilt", ANGLE, "deg", 0.02, 0.6, "one end lifted by this"),
    IN_MAYBE("gain", MASS, "kg", 0, 2e4, "what the lower axle weighs more when tilted"),
    IN_USUAL("wheel", LENGTH, "mm", "300 mm", 0.1, 1, "centres above the floor"),
    IN_END,
};
static const struct calc_output gravity_outputs[] = {
    OUT_NUMBER("behind-front", LENGTH, "mm", "in", 4, "axle lies the centre of gravity"),
    OUT_NUMBER("front-share", NUMBER, "%", "%", 3, "of the weight"),
    OUT_NUMBER("height", LENGTH, "mm", "in", 3, "of the centre of gravity above the floor"),
    OUT_NUMBER("lift", LENGTH, "mm", "in", 3, "of the raised axle at that tilt"),
    OUT_END,
};
static const struct calc_source gravity_sources[] = {
    {MARK_PRACTICE, "Balance of moments: a = rear L / whole; h = r + gain L / (whole tan tilt)"},
    SOURCE_END,
};

static bool gravity_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                        struct fail *f)
{
    if (in[1].si > in[0].si) return fail_set(f, FAIL_INPUT, "rear: more than the whole weight");
    if (in[3].set != in[4].set)
        return fail_set(f, FAIL_INPUT, "tilt: tilt and gain go together, for the height");
    out->out[0] = calc_number(in[1].si / in[0].si * in[2].si);
    out->out[1] = calc_number(1 - in[1].si / in[0].si);
    if (in[3].set) {
        const double height = in[5].si + in[4].si * in[2].si / (in[0].si * tan(in[3].si));
        if (height > in[2].si)
            return fail_set(f, FAIL_INPUT,
                            "gain: the centre of gravity would be higher than the wheelbase is "
                            "long; weigh again");
        out->out[2] = calc_number(height);
        out->out[3] = calc_number(in[2].si * sin(in[3].si));
    }
    calc_note(a, out,
              "Small tilts give large errors: lift 600 mm or more, block the springs, brakes off, "
              "gear out, the lower wheels chocked on the scales.");
    return true;
}

/* ---- jack-and-stands ---- */

static const struct calc_input stand_inputs[] = {
    IN_NEEDED("mass", MASS, "kg", 50, 6e4, "of the vehicle as it stands"),
    IN_USUAL("gross", MASS, "kg", "0 kg", 0, 6e4, "allowed gross mass; 0: as it stands"),
    IN_USUAL("share", NUMBER, "%", "55 %", 0.05, 1, "of the mass on the end that is lifted"),
    IN_USUAL("stands", NUMBER, NULL, "2", 1, 4, "under that end"),
    IN_MAYBE("stand-rating", MASS, "kg", 50, 6e4, "of each stand"),
    IN_MAYBE("jack-rating", MASS, "kg", 50, 6e4, "of the jack"),
    IN_END,
};
static const struct calc_output stand_outputs[] = {
    OUT_NUMBER("each-stand", MASS, "kg", "lb", 3, "carries"),
    OUT_NUMBER("stand-to-have", MASS, "kg", "lb", 3, "rating of each: twice what it carries"),
    OUT_NUMBER("jack-to-have", MASS, "kg", "lb", 3, "rating: half the gross mass"),
    OUT_END,
};
static const struct calc_source stand_sources[] = {
    {MARK_PUBLISHED, "ASME PALD-2009 part 5: a tyre-changing jack is rated for at least half the "
                     "gross mass of the vehicle"},
    {MARK_PRACTICE, "Each stand twice what it carries"},
    SOURCE_END,
};

static bool stand_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                      struct fail *f)
{
    const double each = in[0].si * in[2].si / in[3].si, gross = fmax(in[0].si, in[1].si);
    if (in[1].si > 0 && in[1].si < in[0].si)
        return fail_set(f, FAIL_INPUT, "gross: the vehicle is heavier than it may be");
    const bool weak_stand = in[4].set && in[4].si < 2 * each;
    const bool weak_jack = in[5].set && in[5].si < 0.5 * gross;
    out->out[0] = calc_number(each);
    out->out[1] = calc_number(2 * each);
    out->out[2] = calc_number(0.5 * gross);
    if (weak_stand || weak_jack)
        calc_verdict(a, out, VERDICT_BAD, "Do not lift with these: the %s %s too weak",
                     weak_stand && weak_jack ? "stands and the jack"
                     : weak_stand            ? "stands"
                                             : "jack",
                     weak_stand ? "are" : "is");
    else if (in[4].set && in[5].set)
        calc_verdict(a, out, VERDICT_GOOD, "Jack and stands are rated for it");
    calc_note(a, out, "Read whether the label of a stand is for each or for the pair.");
    return true;
}

const struct calc calc_weighing[] = {
    {.name = "corner-weights",
     .question = "What do scales under four wheels tell?",
     .inputs = corner_inputs,
     .outputs = corner_outputs,
     .formula =
         "cross = (right front + left rear) / whole; behind front = rear x wheelbase / whole",
     .limits = "On level scales.",
     .sources = corner_sources,
     .cautions = lift_cautions,
     .run = corner_run},
    {.name = "centre-of-gravity",
     .question = "Where is the centre of gravity, and how high?",
     .inputs = gravity_inputs,
     .outputs = gravity_outputs,
     .formula =
         "behind front = rear x wheelbase / whole; height = wheel + gain x wheelbase / (whole "
         "x tan tilt)",
     .limits = "Springs blocked, wheels of equal radius.",
     .sources = gravity_sources,
     .cautions = lift_cautions,
     .run = gravity_run},
    {.name = "jack-and-stands",
     .question = "Do jack and stands bear this car?",
     .inputs = stand_inputs,
     .outputs = stand_outputs,
     .formula = "each stand = mass x share / stands; stand rated twice that, jack half the gross "
                "mass",
     .limits = "One end lifted, stands alike, on a level hard floor.",
     .sources = stand_sources,
     .cautions = lift_cautions,
     .run = stand_run},
    {.name = NULL},
};
