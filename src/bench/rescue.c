/* rescue.c - spoilt threads: coil inserts and broken studs. */
#include "bench/drills.h"
#include "bench/row.h"
#include "bench/systems.h"
#include "bench/thread_table.h"

#include <string.h>

static const double STI_MINOR = 0.2165064, STI_PITCH = 0.6495191, STI_MAJOR = 1.2990381;

/* The drills that are sold for coil inserts: DIN 8140 for metric ones (published); the inch ones
 * told from memory. */
static const struct {
    const char *thread, *drill;
} insert_drills[] = {
    {"M6x1", "6.3 mm"},          {"M8x1.25", "8.4 mm"},       {"M10x1.5", "10.5 mm"},
    {"1/4-20 UNC", "17/64 in"},  {"5/16-18 UNC", "letter Q"}, {"3/8-16 UNC", "letter X"},
    {"7/16-14 UNC", "29/64 in"},
};

static struct drill insert_drill(struct arena *a, const struct thread *t)
{
    for (size_t i = 0; i < sizeof insert_drills / sizeof *insert_drills; i++)
        if (strcmp(insert_drills[i].thread, t->name) == 0)
            return (struct drill){insert_drills[i].drill, drill_size(insert_drills[i].drill)};
    return drill_not_under(
        a, t->d + STI_MINOR * t->p,
        t->series == THREAD_METRIC || t->series == THREAD_METRIC_FINE ? DRILL_METRIC : DRILL_ANY);
}

static bool read_sixty(struct arena *a, const char *typed, struct thread *t, struct fail *f)
{
    if (!thread_parse(a, "thread", typed, t, f)) return false;
    return thread_form_of(t)->angle == 60 ||
           fail_set(f, FAIL_INPUT,
                    "thread: these sizes are of 60 degree threads; %s has %.3g degrees: ask the "
                    "maker of its inserts",
                    t->name, thread_form_of(t)->angle);
}

/* ---- coil-insert ---- */

static const char *const taps[] = {"plug", "bottoming", NULL};
static const struct calc_input insert_inputs[] = {
    IN_TEXT("thread", "that the screw has: M8x1.25, 1/4-20 UNC"),
    IN_USUAL("diameters", NUMBER, NULL, "1.5", 0.5, 3,
             "length of the insert: 1, 1.5, 2, 2.5 or 3 diameters"),
    IN_MAYBE("length", LENGTH, "mm", 1e-3, 0.15, "of the insert, in place of diameters"),
    IN_CHOICE("tap", taps, "plug", "plug, or bottoming for a blind hole without room"),
    IN_MAYBE("drill", LENGTH, "mm", 1e-3, 0.06, "a drill at hand, to be judged"),
    IN_MAYBE("depth", LENGTH, "mm", 1e-3, 0.3, "that the part allows"),
    IN_END,
};
static const struct calc_output insert_outputs[] = {
    OUT_TEXT("standard-drill", "the drill for the insert's tap"),
    OUT_NUMBER("drill-size", LENGTH, "mm", "in", 4, "its size"),
    OUT_NUMBER("minor", LENGTH, "mm", "in", 4, "least hole for the insert's tap"),
    OUT_NUMBER("pitch-diameter", LENGTH, "mm", "in", 4, "of the insert's tapped hole"),
    OUT_NUMBER("major", LENGTH, "mm", "in", 4, "outside diameter of the insert's tap"),
    OUT_NUMBER("insert-length", LENGTH, "mm", "in", 4, "of the insert"),
    OUT_NUMBER("drilled-depth", LENGTH, "mm", "in", 4, "least depth to drill"),
    OUT_NUMBER("tapped-depth", LENGTH, "mm", "in", 4, "of whole thread"),
    OUT_NUMBER("set-low", LENGTH, "mm", "in", 2, "least depth of the insert under the face"),
    OUT_NUMBER("set-deep", LENGTH, "mm", "in", 2, "most depth of the insert under the face"),
    OUT_END,
};
static const struct calc_source insert_sources[] = {
    {MARK_PUBLISHED, "ASME B18.29.1, B18.29.2M and Machinery's Handbook: depths for coil inserts"},
    {MARK_PUBLISHED, "DIN 8140: metric drills"},
    {MARK_MEMORY, "Diameters of the insert's hole and the inch drills"},
    SOURCE_END,
};
static const struct calc_caution insert_cautions[] = {
    {"Chips in an engine ruin it: grease the tap, stuff the hole, plug and vacuum after. Break off "
     "the tang and count it out. Brake, steering and lifting points are not mended so.",
     "A machine shop, for anything whose failure could hurt someone"},
    CAUTION_END,
};

static bool insert_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                       struct fail *f)
{
    struct thread t;
    if (!read_sixty(a, in[0].text, &t, f)) return false;
    const struct drill drill = insert_drill(a, &t);
    const double length = in[2].set ? in[2].si : in[1].si * t.d, minor = t.d + STI_MINOR * t.p;
    const bool bottoming = in[3].choice == 1, small = t.d <= 8e-3 * (1 + 1e-9);
    if (length < 0.5 * t.d || length > 3.5 * t.d)
        return fail_set(f, FAIL_INPUT, "length: inserts for %s are %.3g to %.3g mm long", t.name,
                        1e3 * t.d, 3e3 * t.d);
    const double depth = length + (bottoming ? 4 * t.p : small ? 0.5 * t.d + 6 * t.p : 6 * t.p);
    out->out[0] = calc_text(drill.name);
    out->out[1] = calc_number(drill.size);
    out->out[2] = calc_number(minor);
    out->out[3] = calc_number(t.d + STI_PITCH * t.p);
    out->out[4] = calc_number(t.d + STI_MAJOR * t.p);
    out->out[5] = calc_number(length);
    out->out[6] = calc_number(depth);
    out->out[7] = calc_number(length + t.p);
    out->out[8] = calc_number(0.75 * t.p);
    out->out[9] = calc_number(1.5 * t.p);
    if (in[4].set && in[4].si < minor)
        calc_verdict(a, out, VERDICT_BAD,
                     "The drill is under the least hole of %.4g mm: the tap will bind",
                     1e3 * minor);
    else if (in[4].set && in[4].si > minor + 0.25 * t.p)
        calc_verdict(a, out, VERDICT_CARE,
                     "The drill is far over the least hole of %.4g mm: the insert will hold little",
                     1e3 * minor);
    else if (in[5].set && in[5].si < depth)
        calc_verdict(a, out, VERDICT_BAD,
                     "It needs %.3g mm of depth: a shorter insert, or a bottoming tap",
                     1e3 * depth);
    else if (in[4].set || in[5].set)
        calc_verdict(a, out, VERDICT_GOOD, "That does");
    calc_note(a, out, "Charts of drills differ a little; none may be under the least hole.");
    return true;
}

/* ---- broken-stud ---- */

static const struct calc_input stud_inputs[] = {
    IN_TEXT("thread", "of the stud: M8x1.25, 3/8-16 UNC"),
    IN_USUAL("offset", LENGTH, "mm", "0 mm", 0, 0.02,
             "how far a first hole has gone off the middle"),
    IN_END,
};
static const struct calc_output stud_outputs[] = {
    OUT_TEXT("punch", "the mark to begin at"),
    OUT_TEXT("pilot-drill", "left-handed if there is one: about a quarter of the thread"),
    OUT_TEXT("first-drill", "for an extractor or to relieve it: about half the thread"),
    OUT_TEXT("chase-drill", "last drill before picking the old thread out and chasing it"),
    OUT_TEXT("tap", "to chase what is left of the thread"),
    OUT_TEXT("insert-drill", "if it goes to a coil insert"),
    OUT_TEXT("insert-tap", "and its tap"),
    OUT_NUMBER("hides", LENGTH, "mm", "in", 2, "offset that the insert's hole still takes in"),
    OUT_END,
};
static const struct calc_source stud_sources[] = {
    {MARK_PUBLISHED, "DIN 8140 and tap drill charts: the drills"},
    {MARK_PRACTICE, "Offset hidden = (insert drill - thread diameter) / 2; pilot a quarter, first "
                    "hole half of the thread"},
    {MARK_PRACTICE,
     "The order: soak, tap, heat the part, tighten a hair, turn back and forth, weld "
     "a nut on, drill left-handed, extractor, chase, insert"},
    SOURCE_END,
};
static const struct calc_caution stud_cautions[] = {
    {"Heat the part around, never the stud while the block is cold, and nothing near petrol, "
     "sealed "
     "bearings or magnesium, which burns; aluminium not over about 200 °C. Wear eye protection. A "
     "broken extractor is harder than the drill.",
     "A machine shop, before the extractor breaks"},
    CAUTION_END,
};

static bool stud_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                     struct fail *f)
{
    struct thread t;
    if (!read_sixty(a, in[0].text, &t, f)) return false;
    const struct drill insert = insert_drill(a, &t);
    const bool is_metric = t.series == THREAD_METRIC || t.series == THREAD_METRIC_FINE;
    const enum drill_kind kinds = is_metric ? DRILL_METRIC : DRILL_ANY;
    const struct drill chase = drill_nearest(a, t.d - 0.75 * thread_full_height(&t) * t.p, kinds);
    const double hides = fmax(0, (insert.size - t.d) / 2);
    if (in[1].si > t.d / 2)
        return fail_set(f, FAIL_INPUT, "offset: that is outside the stud, which is %.3g mm thick",
                        1e3 * t.d);
    out->out[0] = calc_text(arena_print(
        a, "centre punch on a face made flat, within %.2g mm of the middle", 1e3 * hides));
    out->out[1] = calc_text(drill_nearest(a, t.d / 4, kinds).name);
    out->out[2] = calc_text(drill_nearest(a, t.d / 2, kinds).name);
    out->out[3] = calc_text(t.usual_drill ? t.usual_drill : chase.name);
    out->out[4] = calc_text(t.name);
    out->out[5] = calc_text(insert.name);
    out->out[6] = calc_text(arena_print(a, "coil-insert tap for %s, %.2f mm over its threads",
                                        t.name, 1e3 * (t.d + STI_MAJOR * t.p)));
    out->out[7] = calc_number(hides);
    if (in[1].si == 0)
        calc_verdict(a, out, VERDICT_NONE,
                     "Punch and drill in the middle; keep it there by a bush");
    else if (in[1].si <= hides * (1 + 1e-9))
        calc_verdict(a, out, VERDICT_CARE, "Off the middle, but a coil insert takes it in");
    else
        calc_verdict(a, out, VERDICT_BAD,
                     "Too far off for a coil insert: a thick-wall insert, or weld and drill anew");
    calc_note(a, out,
              "If a stud breaks while its nut is hot and the block cold: stop, and heat the "
              "side of the block instead.");
    return true;
}

const struct calc calc_rescue[] = {
    {.name = "coil-insert",
     .question = "How is this thread mended with a coil insert?",
     .inputs = insert_inputs,
     .outputs = insert_outputs,
     .formula = "least hole = d + 0.2165 P; depth = length + d/2 + 6 P (to 8 mm) or + 6 P (over) "
                "with a plug tap, + 4 P with a bottoming one; whole thread = length + P",
     .limits = "60 degree threads.",
     .sources = insert_sources,
     .cautions = insert_cautions,
     .run = insert_run},
    {.name = "broken-stud",
     .question = "Which drills for a broken stud?",
     .inputs = stud_inputs,
     .outputs = stud_outputs,
     .formula = "pilot = d/4; first hole = d/2; last = the tapping drill; hidden offset = (insert "
                "drill - d) / 2",
     .limits = "60 degree threads. Nobody knows the odds of getting it out: none are told.",
     .sources = stud_sources,
     .cautions = stud_cautions,
     .run = stud_run},
    {.name = NULL},
};
