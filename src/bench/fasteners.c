/* fasteners.c - the strength of screws: proof load, torque and preload, engagement, a joint. */
#include "bench/grades.h"
#include "bench/row.h"
#include "bench/systems.h"
#include "bench/thread_table.h"

static const double PI = 3.14159265358979323846;

static bool read_screw(struct arena *a, const struct calc_value *thread,
                       const struct calc_value *grade, struct thread *t, const struct grade **g,
                       struct fail *f)
{
    if (!thread_parse(a, "thread", thread->text, t, f)) return false;
    *g = grade_find(grade->choice, t->d);
    return *g || fail_set(f, FAIL_INPUT, "grade: %s is not made as thick as %s",
                          grade_names[grade->choice], t->name);
}

static const struct calc_caution tightening_cautions[] = {
    {"The maker's torque goes before any reckoned one. Wheels, steering, brakes, engine bearings "
     "and stretch bolts are tightened by the manual only, and old unmarked screws are weak ones.",
     "The workshop manual, or a mechanic of the marque"},
    CAUTION_END,
};
#define GRADE_SOURCE                                                                               \
    {                                                                                              \
        MARK_PUBLISHED, "ISO 898-1 and SAE J429: proof stress and tensile strength"                \
    }

/* ---- bolt-strength ---- */

static const struct calc_input strength_inputs[] = {
    IN_TEXT("thread", "of the screw: M8x1.25, 3/8-16 UNC"),
    IN_CHOICE("grade", grade_names, "8.8", "class or grade by its head marks"),
    IN_END,
};
static const struct calc_output strength_outputs[] = {
    OUT_NUMBER("proof-load", FORCE, "N", "lbf", 3, "what it bears without staying longer"),
    OUT_NUMBER("ultimate-load", FORCE, "N", "lbf", 3, "what breaks it"),
    OUT_NUMBER("yield-load", FORCE, "N", "lbf", 3, "where it begins to stretch for good"),
    OUT_NUMBER("stress-area", AREA, "mm2", "in2", 3, "of the thread"),
    OUT_NUMBER("proof-stress", PRESSURE, "MPa", "psi", 3, "of the grade"),
    OUT_TEXT("head-marks", "how the head is marked"),
    OUT_END,
};
static const struct calc_source strength_sources[] = {
    GRADE_SOURCE,
    {MARK_PUBLISHED, "ISO 724 and ASME B1.1: stress area"},
    SOURCE_END,
};

static bool strength_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                         struct fail *f)
{
    struct thread t;
    const struct grade *g;
    if (!read_screw(a, &in[0], &in[1], &t, &g, f)) return false;
    const double area = thread_stress_area(&t);
    out->out[0] = calc_number(area * g->proof);
    out->out[1] = calc_number(area * g->strength);
    if (g->yield > 0) out->out[2] = calc_number(area * g->yield);
    out->out[3] = calc_number(area);
    out->out[4] = calc_number(g->proof);
    out->out[5] = calc_text(g->marks);
    return true;
}

/* ---- bolt-torque and bolt-preload ---- */

static const char *const states[] = {"plain", "zinc", "lubricated", "cadmium", "anti-seize", NULL};
static const double state_k[] = {0.30, 0.20, 0.18, 0.16, 0.12};
#define FRICTION_INPUTS                                                                            \
    IN_CHOICE("state", states, "zinc", "of threads and face: dry black steel is plain"),           \
        IN_MAYBE("k", NUMBER, NULL, 0.05, 0.5, "nut factor, in place of the state's")

static double nut_factor(const struct calc_value *state, const struct calc_value *k)
{
    return k->set ? k->si : state_k[state->choice];
}

static const struct calc_input torque_inputs[] = {
    IN_TEXT("thread", "of the screw: M10x1.5, 3/8-24 UNF"),
    IN_CHOICE("grade", grade_names, "8.8", "class or grade by its head marks"),
    IN_USUAL("share", NUMBER, "%", "75 %", 0.1, 1,
             "of the proof load: 75 % where it is undone again, 90 % where never"),
    IN_MAYBE("preload", FORCE, "N", 10, 1e6, "wanted tension, in place of the share"),
    FRICTION_INPUTS,
    IN_END,
};
static const struct calc_output torque_outputs[] = {
    OUT_NUMBER("torque", TORQUE, "Nm", "lbf ft", 3, "to tighten to"),
    OUT_NUMBER("tension", FORCE, "N", "lbf", 3, "the preload that it gives"),
    OUT_NUMBER("proof-share", NUMBER, "%", "%", 3, "of the proof load"),
    OUT_NUMBER("least-tension", FORCE, "N", "lbf", 2, "if friction is the highest usual"),
    OUT_NUMBER("most-tension", FORCE, "N", "lbf", 2, "if friction is the lowest usual"),
    OUT_END,
};
static const struct calc_source torque_sources[] = {
    {MARK_PUBLISHED, "Shigley, Mechanical Engineering Design, Table 8-15: T = K F d, values of K"},
    GRADE_SOURCE,
    {MARK_PRACTICE, "A torque wrench leaves the tension uncertain by about 30 %"},
    SOURCE_END,
};
enum { SCATTER_PERCENT = 30 };

static void tell_tension(struct arena *a, struct calc_result *out, double tension, double proof)
{
    const double share = tension / proof;
    out->out[2] = calc_number(share);
    out->out[3] = calc_number(tension * (1 - SCATTER_PERCENT * 0.01));
    out->out[4] = calc_number(tension * (1 + SCATTER_PERCENT * 0.01));
    if (share > 1)
        calc_verdict(a, out, VERDICT_BAD, "Over the proof load: it stretches and stays so");
    else if (share > 0.9)
        calc_verdict(a, out, VERDICT_CARE,
                     "Over 90 %% of the proof load: nothing is left for error");
    else if (share < 0.5)
        calc_verdict(a, out, VERDICT_CARE, "Under half the proof load: it may work loose");
    else
        calc_verdict(a, out, VERDICT_GOOD, "%.0f %% of the proof load", 100 * share);
}

static bool torque_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                       struct fail *f)
{
    struct thread t;
    const struct grade *g;
    if (!read_screw(a, &in[0], &in[1], &t, &g, f)) return false;
    const double proof = thread_stress_area(&t) * g->proof;
    const double tension = in[3].set ? in[3].si : in[2].si * proof;
    out->out[0] = calc_number(nut_factor(&in[4], &in[5]) * tension * t.d);
    out->out[1] = calc_number(tension);
    tell_tension(a, out, tension, proof);
    return true;
}

static const struct calc_input preload_inputs[] = {
    IN_TEXT("thread", "of the screw: M10x1.5, 3/8-24 UNF"),
    IN_CHOICE("grade", grade_names, "8.8", "class or grade by its head marks"),
    IN_NEEDED("torque", TORQUE, "Nm", 0.01, 5000, "that the wrench is set to"),
    FRICTION_INPUTS,
    IN_END,
};
static const struct calc_output preload_outputs[] = {
    OUT_NUMBER("tension", FORCE, "N", "lbf", 3, "the preload"),
    OUT_NUMBER("stress", PRESSURE, "MPa", "psi", 3, "in the thread"),
    OUT_NUMBER("proof-share", NUMBER, "%", "%", 3, "of the proof load"),
    OUT_NUMBER("least-tension", FORCE, "N", "lbf", 2, "if friction is the highest usual"),
    OUT_NUMBER("most-tension", FORCE, "N", "lbf", 2, "if friction is the lowest usual"),
    OUT_END,
};

static bool preload_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                        struct fail *f)
{
    struct thread t;
    const struct grade *g;
    if (!read_screw(a, &in[0], &in[1], &t, &g, f)) return false;
    const double area = thread_stress_area(&t);
    const double tension = in[2].si / (nut_factor(&in[3], &in[4]) * t.d);
    out->out[0] = calc_number(tension);
    out->out[1] = calc_number(tension / area);
    tell_tension(a, out, tension, area * g->proof);
    return true;
}

/* ---- torque-long ---- */

static const struct calc_input long_inputs[] = {
    IN_TEXT("thread", "of the screw: 3/4-16 UNF"),
    IN_NEEDED("preload", FORCE, "N", 1, 1e6, "wanted tension"),
    IN_USUAL("thread-friction", NUMBER, NULL, "0.15", 0.02, 0.6, "coefficient in the thread"),
    IN_USUAL("face-friction", NUMBER, NULL, "0.15", 0.02, 0.6, "coefficient under head or nut"),
    IN_END,
};
static const struct calc_output long_outputs[] = {
    OUT_NUMBER("torque", TORQUE, "Nm", "lbf ft", 4, "to tighten to"),
    OUT_NUMBER("k", NUMBER, NULL, NULL, 3, "the nut factor that this is"),
    OUT_NUMBER("face-share", NUMBER, "%", "%", 2, "of the torque lost under the head"),
    OUT_NUMBER("stretch-share", NUMBER, "%", "%", 2, "of the torque that stretches the screw"),
    OUT_END,
};
static const struct calc_source long_sources[] = {
    {MARK_PUBLISHED, "Shigley, Mechanical Engineering Design, equation 8-26"},
    SOURCE_END,
};

static bool long_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                     struct fail *f)
{
    struct thread t;
    if (!thread_parse(a, "thread", in[0].text, &t, f)) return false;
    const struct thread_form *form = thread_form_of(&t);
    const double mean = t.d - form->effective * t.p, lead = t.p / (PI * mean);
    const double secant = 1 / cos(form->angle / 2 * PI / 180), friction = in[2].si;
    const double in_thread =
        mean / (2 * t.d) * (lead + friction * secant) / (1 - friction * lead * secant);
    const double k = in_thread + 0.625 * in[3].si;
    out->out[0] = calc_number(k * in[1].si * t.d);
    out->out[1] = calc_number(k);
    out->out[2] = calc_number(0.625 * in[3].si / k);
    out->out[3] = calc_number(t.p / (2 * PI * t.d) / k);
    return true;
}

/* ---- bolted-joint ---- */

static const struct calc_input joint_inputs[] = {
    IN_NEEDED("bolt-stiffness", NUMBER, NULL, 1e-3, 1e12,
              "of the bolt, in any unit of force by way"),
    IN_NEEDED("member-stiffness", NUMBER, NULL, 1e-3, 1e12,
              "of the clamped parts, in the same unit"),
    IN_NEEDED("load", FORCE, "N", 0, 1e7, "that pulls the joint open, on one bolt"),
    IN_NEEDED("preload", FORCE, "N", 1, 1e7, "tension of the bolt"),
    IN_NEEDED("stress-area", AREA, "mm2", 1e-7, 0.01, "of the thread"),
    IN_END,
};
static const struct calc_output joint_outputs[] = {
    OUT_NUMBER("stiffness-share", NUMBER, NULL, NULL, 3, "of the load that the bolt feels"),
    OUT_NUMBER("preload-stress", PRESSURE, "MPa", "psi", 4, "without the load"),
    OUT_NUMBER("bolt-stress", PRESSURE, "MPa", "psi", 4, "with the load"),
    OUT_NUMBER("opening-load", FORCE, "N", "lbf", 3, "load at which the joint opens"),
    OUT_END,
};
static const struct calc_source joint_sources[] = {
    {MARK_PUBLISHED, "Shigley, Mechanical Engineering Design, Example 8-3: stiffness of a joint"},
    SOURCE_END,
};

static bool joint_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                      struct fail *f)
{
    const double c = in[0].si / (in[0].si + in[1].si), opens = in[3].si / (1 - c);
    (void)f;
    out->out[0] = calc_number(c);
    out->out[1] = calc_number(in[3].si / in[4].si);
    out->out[2] = calc_number((c * in[2].si + in[3].si) / in[4].si);
    out->out[3] = calc_number(opens);
    if (in[2].si >= opens)
        calc_verdict(a, out, VERDICT_BAD, "The joint opens: more preload or more bolts");
    else
        calc_verdict(a, out, VERDICT_GOOD, "The joint stays closed");
    return true;
}

/* ---- engagement ---- */

static const char *const materials[] = {"steel", "cast-iron", "aluminium", "other", NULL};
/* Trade minimum in diameters, and a strength to reckon with where none is given. */
static const double material_diameters[] = {1.0, 1.5, 2.0, 2.0};
static const struct calc_input engagement_inputs[] = {
    IN_TEXT("thread", "of the screw: 1/4-20 UNC, M8x1.25"),
    IN_CHOICE("hole", materials, "aluminium", "what the hole is tapped in"),
    IN_MAYBE("screw-strength", PRESSURE, "MPa", 1e8, 2e9, "tensile strength of the screw"),
    IN_MAYBE("hole-strength", PRESSURE, "MPa", 2e7, 2e9, "tensile strength of the part"),
    IN_MAYBE("hole-minor-most", LENGTH, "mm", 5e-4, 0.1, "largest minor diameter of the hole"),
    IN_MAYBE("screw-pitch-least", LENGTH, "mm", 5e-4, 0.1, "least pitch diameter of the screw"),
    IN_MAYBE("screw-major-least", LENGTH, "mm", 5e-4, 0.1, "least outside diameter of the screw"),
    IN_MAYBE("hole-pitch-most", LENGTH, "mm", 5e-4, 0.1, "largest pitch diameter of the hole"),
    IN_END,
};
static const struct calc_output engagement_outputs[] = {
    OUT_NUMBER("screw-length", LENGTH, "mm", "in", 3, "so that the screw breaks before its thread"),
    OUT_NUMBER("weakness", NUMBER, NULL, NULL, 3, "J: over 1 the hole is the weaker thread"),
    OUT_NUMBER("length", LENGTH, "mm", "in", 3, "so that the screw breaks before either thread"),
    OUT_NUMBER("diameters", NUMBER, NULL, NULL, 2, "the same in diameters"),
    OUT_NUMBER("trade-length", LENGTH, "mm", "in", 3, "the least that the trade takes"),
    OUT_END,
};
static const struct calc_source engagement_sources[] = {
    {MARK_PUBLISHED, "Machinery's Handbook and FED-STD-H28/2: shear areas of engaged threads"},
    {MARK_PRACTICE, "Steel in steel 1 diameter, cast iron 1.25 to 1.5, aluminium 1.5 to 2"},
    SOURCE_END,
};

static double length_or(const struct calc_value *v, double usual)
{
    return v->set ? v->si : usual;
}

static bool engagement_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                           struct fail *f)
{
    struct thread t;
    if (!thread_parse(a, "thread", in[0].text, &t, f)) return false;
    const struct thread_form *form = thread_form_of(&t);
    const double kn = length_or(&in[4], t.d - form->minor * t.p);
    const double es = length_or(&in[5], t.d - form->effective * t.p);
    const double ds = length_or(&in[6], t.d), en = length_or(&in[7], t.d - form->effective * t.p);
    const double n = 1 / t.p, slope = tan(form->angle / 2 * PI / 180);
    if (!(kn < es && kn > 0.6 * t.d && es <= t.d))
        return fail_set(f, FAIL_INPUT,
                        "hole-minor-most: it is under the screw's pitch diameter, %.4g mm, and "
                        "near the thread's own %.4g mm",
                        1e3 * es, 1e3 * (t.d - form->minor * t.p));
    if (!(en < ds && en > 0.6 * t.d && ds <= 1.02 * t.d))
        return fail_set(f, FAIL_INPUT,
                        "hole-pitch-most: it is under the screw's outside diameter, %.4g mm, and "
                        "near the thread's own %.4g mm",
                        1e3 * ds, 1e3 * (t.d - form->effective * t.p));
    const double area = thread_stress_area(&t);
    const double length = 2 * area / (PI * kn * (0.5 + slope * n * (es - kn)));
    const double trade = material_diameters[in[1].choice] * t.d;
    out->out[0] = calc_number(length);
    out->out[4] = calc_number(trade);
    if (!in[2].set || !in[3].set) {
        calc_note(a, out, "Give both strengths to reckon which thread strips first.");
        return true;
    }
    const double external = kn * (t.p / 2 + slope * (es - kn));
    const double internal = ds * (t.p / 2 + slope * (ds - en));
    const double weakness = external * in[2].si / (internal * in[3].si);
    const double needed = fmax(1, weakness) * length;
    out->out[1] = calc_number(weakness);
    out->out[2] = calc_number(needed);
    out->out[3] = calc_number(needed / t.d);
    if (needed > 2.5 * t.d)
        calc_verdict(a, out, VERDICT_CARE,
                     "%.1f diameters are more than holes have: use a coil insert", needed / t.d);
    else
        calc_verdict(a, out, VERDICT_NONE, "At least %.1f diameters of whole thread",
                     fmax(needed, trade) / t.d);
    return true;
}

const struct calc calc_fasteners[] = {
    {.name = "bolt-strength",
     .question = "What does this bolt bear?",
     .inputs = strength_inputs,
     .outputs = strength_outputs,
     .formula = "load = stress area x stress of the grade",
     .limits = "Pull along the bolt, without bending, heat or rust.",
     .sources = strength_sources,
     .cautions = tightening_cautions,
     .run = strength_run},
    {.name = "bolt-torque",
     .question = "How tight should this bolt be?",
     .inputs = torque_inputs,
     .outputs = torque_outputs,
     .formula = "torque = K x preload x d; preload = share x proof stress x stress area",
     .limits = "Where the manual gives no torque. Steel in steel, clean threads.",
     .sources = torque_sources,
     .cautions = tightening_cautions,
     .plot_over = "share",
     .plot_of = "torque",
     .run = torque_run},
    {.name = "bolt-preload",
     .question = "How hard does this torque pull?",
     .inputs = preload_inputs,
     .outputs = preload_outputs,
     .formula = "preload = torque / (K x d)",
     .limits = "Steel in steel, clean threads.",
     .sources = torque_sources,
     .cautions = tightening_cautions,
     .run = preload_run},
    {.name = "torque-by-friction",
     .question = "What torque, from the friction of thread and face?",
     .inputs = long_inputs,
     .outputs = long_outputs,
     .formula =
         "T = F d [dm/2d (tan l + f sec a) / (1 - f tan l sec a) + 0.625 fc], tan l = P / (pi "
         "dm), a half the thread angle",
     .limits = "A hexagon head or nut of the usual width.",
     .sources = long_sources,
     .cautions = tightening_cautions,
     .run = long_run},
    {.name = "bolted-joint",
     .question = "What does a load on the joint do to its bolts?",
     .inputs = joint_inputs,
     .outputs = joint_outputs,
     .formula = "C = kb / (kb + km); bolt stress = (C P + Fi) / At; it opens at P = Fi / (1 - C)",
     .limits = "While the joint stays closed and nothing yields.",
     .sources = joint_sources,
     .cautions = tightening_cautions,
     .run = joint_run},
    {.name = "engagement",
     .question = "How deep must the screw go in before it strips?",
     .inputs = engagement_inputs,
     .outputs = engagement_outputs,
     .formula =
         "Le = 2 At / (pi Kn [1/2 + tan a n (Es - Kn)]); J = screw's shear area x strength / "
         "hole's; length = Le x J where J is over 1",
     .limits = "Without the limits of the fit, basic sizes are taken: then add a pitch.",
     .sources = engagement_sources,
     .cautions = tightening_cautions,
     .run = engagement_run},
    {.name = NULL},
};
