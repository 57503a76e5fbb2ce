/* ride.c - what a spring does at the wheel: rate, frequency, height. */
#include "bench/row.h"
#include "bench/systems.h"

static const double PI = 3.14159265358979323846, GRAVITY = 9.80665;

static const struct calc_caution ride_cautions[] = {
    {"Never under a car on a jack: level floor, chocks, stands under hard points. A spring under "
     "load throws what holds it; take it out with its load carried.",
     "A workshop with a lift and a spring press; the maker's figures for height and springs"},
    {"A car that was lowered or raised brakes and steers otherwise, and may need approval for the "
     "road.",
     "The testing authority of the country"},
    CAUTION_END,
};

/* ---- wheel-rate ---- */

#define AT_WHEEL                                                                                   \
    IN_USUAL("ratio", NUMBER, NULL, "1", 0.2, 1.5, "spring travel over wheel travel"),             \
        IN_USUAL("lean", ANGLE, "deg", "0 deg", 0, 1.05, "of the spring from the wheel's path")

static const struct calc_input wheel_inputs[] = {
    IN_NEEDED("spring", STIFFNESS, "N/mm", 100, 2e6, "rate of the spring"),
    AT_WHEEL,
    IN_MAYBE("tyre", STIFFNESS, "N/mm", 3e4, 3e6, "rate of the tyre: 150 to 250 N/mm"),
    IN_END,
};
static const struct calc_output wheel_outputs[] = {
    OUT_NUMBER("wheel-rate", STIFFNESS, "N/mm", "lbf/in", 3, "at the wheel"),
    OUT_NUMBER("ride-rate", STIFFNESS, "N/mm", "lbf/in", 3, "of spring and tyre together"),
    OUT_NUMBER("share", NUMBER, "%", "%", 3, "of the spring's rate at the wheel"),
    OUT_END,
};
static const struct calc_source wheel_sources[] = {
    {MARK_PRACTICE, "Virtual work: wheel rate = spring rate x (ratio x cos lean)^2; springs in a "
                    "row: k1 k2 / (k1 + k2)"},
    SOURCE_END,
};

static double at_wheel(const struct calc_value *ratio)
{
    return ratio[0].si * cos(ratio[1].si);
}

static bool wheel_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                      struct fail *f)
{
    const double ratio = at_wheel(&in[1]), rate = in[0].si * ratio * ratio;
    (void)f;
    out->out[0] = calc_number(rate);
    if (in[3].set) out->out[1] = calc_number(rate * in[3].si / (rate + in[3].si));
    out->out[2] = calc_number(ratio * ratio);
    calc_note(a, out,
              "On a beam axle the springs stand nearer together than the wheels: in roll the ratio "
              "is their distance over the track.");
    return true;
}

/* ---- ride-frequency ---- */

static const struct calc_input ride_inputs[] = {
    IN_MAYBE("rate", STIFFNESS, "N/mm", 100, 2e6, "at the wheel"),
    IN_MAYBE("mass", MASS, "kg", 5, 2e4, "that this spring carries, without axle and wheel"),
    IN_MAYBE("sunk", LENGTH, "mm", 0.005, 1, "by the load from free, instead of rate and mass"),
    IN_END,
};
static const struct calc_output ride_outputs[] = {
    OUT_NUMBER("frequency", TURNING, "Hz", "Hz", 3, "of the body on this spring"),
    OUT_NUMBER("a-minute", TURNING, "cycles/min", "cycles/min", 3, "the same, as old books tell"),
    OUT_NUMBER("sinks", LENGTH, "mm", "in", 3, "under its load"),
    OUT_END,
};
static const struct calc_source ride_sources[] = {
    {MARK_PRACTICE, "A mass on a spring: f = root(k/m) / (2 pi) = root(g/sunk) / (2 pi)"},
    {MARK_PRACTICE, "Old cars ride at 1.0 to 1.3 Hz, the rear a little above the front"},
    SOURCE_END,
};

static bool ride_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                     struct fail *f)
{
    if (in[2].set && (in[0].set || in[1].set))
        return fail_set(f, FAIL_INPUT, "sunk: give it or rate and mass, not both");
    if (!in[2].set && !(in[0].set && in[1].set))
        return fail_set(f, FAIL_INPUT, "rate: give rate and mass, or what the spring sank");
    const double sunk = in[2].set ? in[2].si : in[1].si * GRAVITY / in[0].si;
    const double turning = sqrt(GRAVITY / sunk), hertz = turning / (2 * PI);
    out->out[0] = out->out[1] = calc_number(turning);
    out->out[2] = calc_number(sunk);
    if (hertz < 0.8)
        calc_verdict(a, out, VERDICT_CARE, "Softer than any usual car: weigh and measure again");
    else if (hertz < 1.0)
        calc_verdict(a, out, VERDICT_GOOD, "Soft, as a large saloon");
    else if (hertz <= 1.3)
        calc_verdict(a, out, VERDICT_GOOD, "As most old cars ride");
    else if (hertz <= 2.0)
        calc_verdict(a, out, VERDICT_GOOD, "Firm, as a sports car or an unladen van");
    else
        calc_verdict(a, out, VERDICT_CARE, "Hard, as a racing car or an empty truck");
    return true;
}

/* ---- ride-height ---- */

static const struct calc_input height_inputs[] = {
    IN_NEEDED("load", MASS, "kg", 5, 2e4, "on the wheel, without axle and wheel"),
    IN_NEEDED("old-rate", STIFFNESS, "N/mm", 1000, 2e6, "of the spring as it was"),
    IN_MAYBE("new-rate", STIFFNESS, "N/mm", 1000, 2e6, "of the new spring; left out: the same"),
    IN_USUAL("longer", LENGTH, "mm", "0 mm", -0.3, 0.3, "new free length less old; less: shorter"),
    IN_USUAL("packing", LENGTH, "mm", "0 mm", -0.1, 0.1, "added at the seat; less: taken out"),
    IN_USUAL("more-load", MASS, "kg", "0 kg", -5e3, 5e3, "added on this wheel; less: taken off"),
    AT_WHEEL,
    IN_END,
};
static const struct calc_output height_outputs[] = {
    OUT_NUMBER("rises", LENGTH, "mm", "in", 3, "at the wheel; less: sinks"),
    OUT_NUMBER("old-squash", LENGTH, "mm", "in", 3, "of the old spring under the old load"),
    OUT_NUMBER("new-squash", LENGTH, "mm", "in", 3, "of the new spring under the new load"),
    OUT_NUMBER("spring-load", FORCE, "kgf", "lbf", 3, "on the new spring"),
    OUT_END,
};
static const struct calc_source height_sources[] = {
    {MARK_PRACTICE, "Hooke: squash = load / (ratio cos lean) / rate; height at the wheel = change "
                    "at the spring / (ratio cos lean)"},
    SOURCE_END,
};

static bool height_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                       struct fail *f)
{
    const double ratio = at_wheel(&in[6]), load = in[0].si + in[5].si;
    const double rate = in[2].set ? in[2].si : in[1].si;
    if (load <= 0) return fail_set(f, FAIL_INPUT, "more-load: it takes off more than there is");
    const double before = in[0].si * GRAVITY / ratio / in[1].si;
    const double after = load * GRAVITY / ratio / rate;
    const double rises = (in[3].si + in[4].si + before - after) / ratio;
    out->out[0] = calc_number(rises);
    out->out[1] = calc_number(before);
    out->out[2] = calc_number(after);
    out->out[3] = calc_number(load * GRAVITY / ratio);
    if (fabs(rises) > 0.03)
        calc_verdict(
            a, out, VERDICT_CARE,
            "More than 30 mm: joints, hoses, propeller shaft and bump stops work elsewhere");
    calc_note(a, out,
              "Set toe and camber, headlamps and any brake-proportioning lever anew; settle the "
              "car by rolling it before measuring.");
    return true;
}

const struct calc calc_ride[] = {
    {.name = "wheel-rate",
     .question = "How stiff is this spring at the wheel?",
     .inputs = wheel_inputs,
     .outputs = wheel_outputs,
     .formula = "wheel rate = spring rate x (ratio x cos lean)^2; with the tyre: k t / (k + t)",
     .limits = "Near the usual height: the ratio changes with travel.",
     .sources = wheel_sources,
     .plot_over = "ratio",
     .plot_of = "wheel-rate",
     .run = wheel_run},
    {.name = "ride-frequency",
     .question = "How soft does it ride?",
     .inputs = ride_inputs,
     .outputs = ride_outputs,
     .formula = "frequency = root(rate / mass) / (2 pi) = root(g / sunk) / (2 pi)",
     .limits = "Without dampers; springs whose rate is even.",
     .sources = ride_sources,
     .run = ride_run},
    {.name = "ride-height",
     .question = "How high does it stand with another spring or load?",
     .inputs = height_inputs,
     .outputs = height_outputs,
     .formula = "rises = (longer + packing + old squash - new squash) / (ratio cos lean); squash = "
                "load / (ratio cos lean) / rate",
     .limits = "Springs of even rate, off their stops; one wheel, both sides alike.",
     .sources = height_sources,
     .cautions = ride_cautions,
     .run = height_run},
    {.name = NULL},
};
