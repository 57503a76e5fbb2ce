/* threads.c - thread forms and sizes. */
#include "bench/drills.h"
#include "bench/row.h"
#include "bench/systems.h"
#include "bench/thread_table.h"

#include <string.h>

static const double PI = 3.14159265358979323846;

/* ---- metric-thread: basic sizes of an ISO metric thread ---- */

static const struct calc_input metric_inputs[] = {
    IN_NEEDED("diameter", LENGTH, "mm", 1e-3, 0.3, "nominal diameter, the 8 of M8x1.25"),
    IN_NEEDED("pitch", LENGTH, "mm", 0.2e-3, 8e-3, "pitch, the 1.25 of M8x1.25"),
    IN_END,
};
static const struct calc_output metric_outputs[] = {
    OUT_NUMBER("pitch-diameter", LENGTH, "mm", "in", 4, "basic pitch diameter"),
    OUT_NUMBER("minor-diameter", LENGTH, "mm", "in", 4, "basic minor diameter of the hole"),
    OUT_NUMBER("stress-area", AREA, "mm2", "in2", 3, "tensile stress area of the screw"),
    OUT_NUMBER("tap-drill", LENGTH, "mm", "in", 3,
               "usual drill for tapping, about three quarters of the thread"),
    OUT_END,
};
static const struct calc_source metric_sources[] = {
    {MARK_PUBLISHED, "ISO 68-1 and ISO 724: basic profile and basic dimensions"},
    {MARK_PUBLISHED, "ISO 898-1: stress area from pitch and root diameter"},
    {MARK_NONE, NULL},
};

static bool metric_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                       struct fail *f)
{
    const double d = in[0].si, p = in[1].si;
    (void)a;
    if (p > 0.35 * d)
        return fail_set(f, FAIL_INPUT, "pitch: too coarse for this diameter; measure both again");
    out->out[0] = calc_number(d - 0.6495191 * p);
    out->out[1] = calc_number(d - 1.0825318 * p);
    out->out[2] = calc_number(PI / 4 * (d - 0.9381942 * p) * (d - 0.9381942 * p));
    out->out[3] = calc_number(d - p);
    return true;
}

/* ---- thread: any standard thread by its name ---- */

static const struct calc_input thread_inputs[] = {
    IN_TEXT("thread", "its name: M8x1.25, 1/4-20 UNC, 3/8 BSF, 2BA, 1/8 BSP"),
    IN_END,
};
static const struct calc_output thread_outputs[] = {
    OUT_TEXT("form", "the form of the thread and its angle"),
    OUT_NUMBER("major-diameter", LENGTH, "mm", "in", 4, "nominal outside diameter"),
    OUT_NUMBER("pitch", LENGTH, "mm", "in", 4, "from one thread to the next"),
    OUT_NUMBER("threads-per-inch", NUMBER, NULL, NULL, 3, "the same as a count"),
    OUT_NUMBER("pitch-diameter", LENGTH, "mm", "in", 4, "basic pitch, or effective, diameter"),
    OUT_NUMBER("minor-diameter", LENGTH, "mm", "in", 4, "basic minor diameter of the hole"),
    OUT_NUMBER("core-diameter", LENGTH, "mm", "in", 4, "root diameter of the screw"),
    OUT_NUMBER("stress-area", AREA, "mm2", "in2", 3, "tensile stress area of the screw"),
    OUT_TEXT("usual-drill", "the drill that tapping charts name"),
    OUT_TEXT("look-alikes", "other threads so near that they start in one another"),
    OUT_END,
};
static const struct calc_source thread_sources[] = {
    {MARK_PUBLISHED, "ISO 68-1, ISO 724: metric profile and basic dimensions"},
    {MARK_PUBLISHED, "ASME B1.1: Unified profile, sizes and pitches"},
    {MARK_PUBLISHED, "BS 84: Whitworth form, sizes and pitches of BSW and BSF"},
    {MARK_PUBLISHED, "BS 93: British Association form; tabulated 0 to 4 and 12 BA"},
    {MARK_MEMORY, "ISO 261 choice of sizes, machine screw sizes, BS 2779 pipe threads, 5 to 11 BA"},
    {MARK_PRACTICE, "Stress area of Whitworth and BA: between effective and core diameter"},
    SOURCE_END,
};

/* Another thread that would start in its place: as near as a worn screw or a hurried eye makes it.
 */
static bool looks_like(const struct thread *t, const struct thread *u)
{
    return strcmp(t->name, u->name) != 0 && fabs(log(u->d / t->d)) < 0.065 &&
           fabs(log(u->p / t->p)) < 0.135;
}

static const char *look_alikes(struct arena *a, const struct thread *t)
{
    struct text list = {.arena = a};
    int n = 0;
    for (int i = 0; i < thread_table_count; i++)
        if (looks_like(t, &thread_table[i]))
            text_print(&list, "%s%s", n++ ? ", " : "", thread_table[i].name);
    return n ? text_get(&list) : "none in the table";
}

static bool thread_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                       struct fail *f)
{
    struct thread t;
    if (!thread_parse(a, "thread", in[0].text, &t, f)) return false;
    const struct thread_form *form = thread_form_of(&t);
    out->out[0] = calc_text(form->name);
    out->out[1] = calc_number(t.d);
    out->out[2] = calc_number(t.p);
    out->out[3] = calc_number(0.0254 / t.p);
    out->out[4] = calc_number(t.d - form->effective * t.p);
    out->out[5] = calc_number(t.d - form->minor * t.p);
    out->out[6] = calc_number(t.d - form->core * t.p);
    out->out[7] = calc_number(thread_stress_area(&t));
    if (t.usual_drill) out->out[8] = calc_text(t.usual_drill);
    out->out[9] = calc_text(look_alikes(a, &t));
    return true;
}

/* ---- tap-drill ---- */

static const char *const drill_kinds[] = {"any", "metric", "inch", NULL};
static const struct calc_input drill_inputs[] = {
    IN_TEXT("thread", "the thread to be cut: M8x1.25, 1/4-20 UNC, 3/8 BSF"),
    IN_USUAL("share", NUMBER, "%", "75 %", 0.4, 1, "how much of the full thread is wanted"),
    IN_CHOICE("drills", drill_kinds, "any", "the drills at hand: any, metric or inch"),
    IN_MAYBE("drill", LENGTH, "mm", 0.5e-3, 0.05, "a drill at hand, to be judged"),
    IN_END,
};
static const struct calc_output drill_outputs[] = {
    OUT_TEXT("standard-drill", "the nearest drill that can be bought"),
    OUT_NUMBER("standard-size", LENGTH, "mm", "in", 4, "its size"),
    OUT_NUMBER("standard-share", NUMBER, "%", "%", 3, "the thread it leaves"),
    OUT_NUMBER("hole", LENGTH, "mm", "in", 4, "the hole for just the wanted share"),
    OUT_TEXT("usual-drill", "the drill that tapping charts name"),
    OUT_NUMBER("drill-share", NUMBER, "%", "%", 3, "the thread that the drill at hand leaves"),
    OUT_END,
};
static const struct calc_source drill_sources[] = {
    {MARK_PUBLISHED, "ISO 68-1 and ASME B1.1: share = (d - drill) / (1.299 P)"},
    {MARK_PRACTICE, "Whitworth and BA: the share of twice the depth of thread"},
    {MARK_PUBLISHED, "Tap drill charts: the usual drills"},
    {MARK_MEMORY, "ASME B94.11M: number and letter drills"},
    {MARK_PRACTICE, "60 to 80 % holds as well as more and taps easier"},
    SOURCE_END,
};

static void judge_share(struct arena *a, struct calc_result *out, double share)
{
    const double percent = 100 * share;
    if (share < 0.5)
        calc_verdict(a, out, VERDICT_BAD, "%.0f %% of the thread: it will strip; a smaller drill",
                     percent);
    else if (share < 0.6)
        calc_verdict(a, out, VERDICT_CARE, "%.0f %% of the thread: only for deep holes", percent);
    else if (share <= 0.85)
        calc_verdict(a, out, VERDICT_GOOD, "%.0f %% of the thread: sound", percent);
    else
        calc_verdict(a, out, VERDICT_CARE, "%.0f %% of the thread: the tap goes hard and may break",
                     percent);
}

static bool drill_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                      struct fail *f)
{
    static const enum drill_kind kinds[] = {DRILL_ANY, DRILL_METRIC, DRILL_INCH};
    struct thread t;
    if (!thread_parse(a, "thread", in[0].text, &t, f)) return false;
    const double hole = t.d - in[1].si * thread_full_height(&t) * t.p;
    const struct drill drill = drill_nearest(a, hole, kinds[in[2].choice]);
    if (in[3].set && !(in[3].si < t.d && thread_share(&t, in[3].si) < 1.15))
        return fail_set(f, FAIL_INPUT, "drill: no hole for %s; it lies between %.2f mm and %.2f mm",
                        t.name, 1e3 * (t.d - 1.15 * thread_full_height(&t) * t.p), 1e3 * t.d);
    out->out[0] = calc_text(drill.name);
    out->out[1] = calc_number(drill.size);
    out->out[2] = calc_number(thread_share(&t, drill.size));
    out->out[3] = calc_number(hole);
    if (t.usual_drill) out->out[4] = calc_text(t.usual_drill);
    if (in[3].set) out->out[5] = calc_number(thread_share(&t, in[3].si));
    judge_share(a, out, out->out[in[3].set ? 5 : 2].si);
    return true;
}

/* ---- identify-thread ---- */

static const char *const measured_on[] = {"screw", "hole", NULL};
static const struct calc_input identify_inputs[] = {
    IN_NEEDED("diameter", LENGTH, "mm", 1e-3, 0.05,
              "measured over the threads, or across the hole"),
    IN_MAYBE("pitch", LENGTH, "mm", 0.25e-3, 4.5e-3,
             "measured over many threads and divided, or by gauge"),
    IN_MAYBE("threads-per-inch", NUMBER, NULL, 5, 100,
             "the same as a count, in place of the pitch"),
    IN_CHOICE("on", measured_on, "screw", "what was measured: screw or hole"),
    IN_END,
};
static const struct calc_output identify_outputs[] = {
    OUT_TEXT("likely", "the standard thread that fits best"),
    OUT_TEXT("form", "its form: try a gauge of this angle in the flanks"),
    OUT_TEXT("also", "others that the measurement allows"),
    OUT_TEXT("never-mix", "look-alikes of the likely one"),
    OUT_NUMBER("pitch-off", NUMBER, "%", "%", 2, "how far the pitch is from the standard one"),
    OUT_NUMBER("diameter-off", LENGTH, "mm", "in", 2, "how far the diameter is from the usual one"),
    OUT_END,
};
static const struct calc_source identify_sources[] = {
    {MARK_PUBLISHED, "ISO 724, ASME B1.1, BS 84, BS 93: sizes of the threads compared"},
    {MARK_PRACTICE, "A screw measures about a tenth of its pitch under its name"},
    SOURCE_END,
};
static const struct calc_caution mixing_cautions[] = {
    {"A look-alike goes in a few turns and then strips or lets go under load; brake, steering and "
     "wheel threads are never guessed.",
     "The maker's parts list, or a machine shop with thread gauges"},
    CAUTION_END,
};

/* How badly the measurement fits: 1 is as much as a careful hand is off. */
static double misfit(const struct thread *t, double d, double p, bool hole)
{
    const double expected =
        hole ? t->d - (thread_form_of(t)->minor - 0.1) * t->p : t->d - 0.1 * t->p;
    return hypot((p / t->p - 1) / 0.02, (d / expected - 1) / (hole ? 0.02 : 0.012));
}

static bool identify_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                         struct fail *f)
{
    enum { MOST = 3 };
    if (in[1].set == in[2].set)
        return fail_set(f, FAIL_INPUT,
                        "pitch: give the pitch or the threads per inch, one of them");
    const double d = in[0].si, p = in[1].set ? in[1].si : 0.0254 / in[2].si;
    const bool hole = in[3].choice == 1;
    const struct thread *best = NULL;
    struct text also = {.arena = a};
    int others = 0;
    for (const struct thread *t = thread_table; t < thread_table + thread_table_count; t++)
        if (!best || misfit(t, d, p, hole) < misfit(best, d, p, hole)) best = t;
    const double off = misfit(best, d, p, hole);
    if (off > 6)
        return fail_set(f, FAIL_INPUT,
                        "diameter: no standard thread is near this size and pitch; nearest is %s, "
                        "%.3g mm by %.3g mm; measure again, or it is a special",
                        best->name, 1e3 * best->d, 1e3 * best->p);
    for (const struct thread *t = thread_table; t < thread_table + thread_table_count; t++)
        if (t != best && others < MOST && misfit(t, d, p, hole) < fmax(2.5, off + 1.5))
            text_print(&also, "%s%s", others++ ? ", " : "", t->name);
    out->out[0] = calc_text(best->name);
    out->out[1] = calc_text(thread_form_of(best)->name);
    if (others) out->out[2] = calc_text(text_get(&also));
    out->out[3] = calc_text(look_alikes(a, best));
    out->out[4] = calc_number(p / best->p - 1);
    out->out[5] = calc_number(d - (hole ? best->d - (thread_form_of(best)->minor - 0.1) * best->p
                                        : best->d - 0.1 * best->p));
    if (off > 3)
        calc_verdict(a, out, VERDICT_BAD, "Not sure: nothing fits well; measure again");
    else if (others)
        calc_verdict(a, out, VERDICT_CARE, "%s, but the measurement also allows %s", best->name,
                     text_get(&also));
    else
        calc_verdict(a, out, VERDICT_GOOD, "%s", best->name);
    calc_note(a, out,
              "Make sure with a part known to be right: it must run by the fingers for its "
              "whole length, without shake.");
    return true;
}

/* ---- thread-match ---- */

static const struct calc_input match_inputs[] = {
    IN_TEXT("thread", "one thread: 1/2 BSW"),
    IN_TEXT("other", "the one it is to go with: 1/2-13 UNC"),
    IN_END,
};
static const struct calc_output match_outputs[] = {
    OUT_TEXT("answer", "whether they go together"),
    OUT_NUMBER("pitch-difference", NUMBER, "%", "%", 3, "between the pitches"),
    OUT_NUMBER("drift", LENGTH, "mm", "in", 3, "how far they run apart in one diameter of length"),
    OUT_NUMBER("diameter-difference", LENGTH, "mm", "in", 3, "between the outside diameters"),
    OUT_END,
};
static const struct calc_source match_sources[] = {
    {MARK_PUBLISHED, "ISO 724, ASME B1.1, BS 84, BS 93: the sizes compared"},
    {MARK_PRACTICE, "Only the same diameter, pitch and angle are one thread"},
    SOURCE_END,
};

static bool match_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                      struct fail *f)
{
    struct thread t, u;
    if (!thread_parse(a, "thread", in[0].text, &t, f) ||
        !thread_parse(a, "other", in[1].text, &u, f))
        return false;
    const double by_pitch = fabs(u.p - t.p) / t.p, by_size = fabs(u.d - t.d);
    const double angle = thread_form_of(&t)->angle, other_angle = thread_form_of(&u)->angle;
    const bool same_size = by_size < 0.002 * t.d, same_pitch = by_pitch < 1e-4;
    out->out[1] = calc_number(by_pitch);
    out->out[2] = calc_number(by_pitch * t.d);
    out->out[3] = calc_number(by_size);
    if (same_size && same_pitch && angle == other_angle) {
        out->out[0] = calc_text("interchangeable");
        calc_verdict(a, out, VERDICT_GOOD, "The same thread");
        return true;
    }
    out->out[0] = calc_text("not interchangeable");
    if (same_size && same_pitch)
        calc_verdict(a, out, VERDICT_BAD,
                     "Not one thread: they screw together, but at %.3g and %.3g degrees bear on a "
                     "line only",
                     angle, other_angle);
    else if (looks_like(&t, &u))
        calc_verdict(a, out, VERDICT_BAD,
                     "Not one thread, though they start together: they bind or strip");
    else
        calc_verdict(a, out, VERDICT_BAD, "Not one thread");
    return true;
}

const struct calc calc_threads[] = {
    {.name = "metric-thread",
     .question = "What are the basic sizes of this metric thread?",
     .inputs = metric_inputs,
     .outputs = metric_outputs,
     .formula = "pitch diameter = d - 0.6495 P; minor = d - 1.0825 P; stress area = pi/4 (d - "
                "0.9382 P)^2; drill = d - P",
     .limits = "Basic sizes, without the play of the tolerance classes.",
     .sources = metric_sources,
     .run = metric_run},
    {.name = "thread",
     .question = "What are the sizes of this thread, and what looks like it?",
     .inputs = thread_inputs,
     .outputs = thread_outputs,
     .formula = "60 degrees: pitch diameter = d - 0.6495 P, minor = d - 1.0825 P; Whitworth: "
                "effective = d - 0.6403 p, core = d - 1.2807 p; BA: d - 0.6 p and d - 1.2 p",
     .limits = "Basic sizes, without the play of the tolerance classes.",
     .sources = thread_sources,
     .cautions = mixing_cautions,
     .run = thread_run},
    {.name = "tap-drill",
     .question = "Which drill for tapping this thread?",
     .inputs = drill_inputs,
     .outputs = drill_outputs,
     .formula = "hole = d - share x 1.299 P (Whitworth 1.2807 p, BA 1.2 p)",
     .limits = "For cutting taps; a forming tap needs a larger hole.",
     .sources = drill_sources,
     .run = drill_run},
    {.name = "identify-thread",
     .question = "Which thread is this?",
     .inputs = identify_inputs,
     .outputs = identify_outputs,
     .formula = "the standard thread least off in pitch (2 % counts as one) and in diameter (1.2 % "
                "on a screw, 2 % in a hole)",
     .limits = "Standard threads of the table only; cycle, pipe taper and specials are not in it.",
     .sources = identify_sources,
     .cautions = mixing_cautions,
     .run = identify_run},
    {.name = "thread-match",
     .question = "Do these two threads go together?",
     .inputs = match_inputs,
     .outputs = match_outputs,
     .formula = "one thread only if diameter, pitch and angle are the same",
     .sources = match_sources,
     .cautions = mixing_cautions,
     .run = match_run},
    {.name = NULL},
};
