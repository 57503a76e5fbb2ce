/* towing.c - loads on the axles, the nose of a trailer, what may still be loaded, tie-downs. */
#include "bench/row.h"
#include "bench/systems.h"

static const double GRAVITY = 9.80665;

static const struct calc_caution towing_cautions[] = {
    {"Too much behind, or too little on the nose, and the trailer swings until it turns the car "
     "over. The lowest of the plates of car, coupling, trailer and tyres is the limit; weigh.",
     "A weighbridge; the maker's plates; the licence and the rules of the country"},
    CAUTION_END,
};
static const struct calc_caution tie_cautions[] = {
    {"A car that breaks loose kills others. Straps with a readable rating, no cut, knot or twist; "
     "tighten, drive a mile, tighten again. Stand aside of a winch rope under load.",
     "A recovery firm, for a car without wheels, brakes or steering"},
    CAUTION_END,
};

/* ---- axle-loads ---- */

static const struct calc_input axle_inputs[] = {
    IN_NEEDED("front", MASS, "kg", 10, 3e4, "axle load as weighed or told, unladen"),
    IN_NEEDED("rear", MASS, "kg", 10, 3e4, "axle load, unladen"),
    IN_NEEDED("wheelbase", LENGTH, "mm", 0.5, 12, "axle to axle"),
    IN_USUAL("load", MASS, "kg", "0 kg", 0, 3e4, "on the bed, in the boot or on the seats"),
    IN_USUAL("behind-front", LENGTH, "mm", "0 mm", -1, 6, "axle lies the middle of that load"),
    IN_USUAL("nose", MASS, "kg", "0 kg", -500, 3e3, "weight of the trailer on the coupling"),
    IN_USUAL("overhang", LENGTH, "mm", "0 mm", -5, 5, "of the coupling behind the rear axle"),
    IN_MAYBE("front-limit", MASS, "kg", 50, 3e4, "plate, or two tyres"),
    IN_MAYBE("rear-limit", MASS, "kg", 50, 3e4, "plate, or two tyres"),
    IN_MAYBE("gross", MASS, "kg", 50, 6e4, "allowed gross mass"),
    IN_END,
};
static const struct calc_output axle_outputs[] = {
    OUT_NUMBER("on-front", MASS, "kg", "lb", 4, "axle, laden"),
    OUT_NUMBER("on-rear", MASS, "kg", "lb", 4, "axle, laden"),
    OUT_NUMBER("whole", MASS, "kg", "lb", 4, "laden, with the nose of the trailer"),
    OUT_NUMBER("front-share", NUMBER, "%", "%", 3, "of the whole"),
    OUT_NUMBER("front-gains", MASS, "kg", "lb", 3, "by load and trailer; less: loses"),
    OUT_NUMBER("payload-left", MASS, "kg", "lb", 3, "to the allowed gross mass; less: over it"),
    OUT_END,
};
static const struct calc_source axle_sources[] = {
    {MARK_PRACTICE, "Balance of moments about the axles"},
    {MARK_PRACTICE, "With less than a third of the weight in front it steers and brakes badly"},
    SOURCE_END,
};

static bool axle_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                     struct fail *f)
{
    enum { FRONT, REAR, BASE, LOAD, AT, NOSE, OVERHANG, FRONT_LIMIT, REAR_LIMIT, GROSS };
    const double base = in[BASE].si;
    const double to_rear = in[LOAD].si * in[AT].si / base;
    const double lever = in[NOSE].si * in[OVERHANG].si / base;
    const double gains = in[LOAD].si - to_rear - lever;
    const double front = in[FRONT].si + gains, rear = in[REAR].si + to_rear + in[NOSE].si + lever;
    if (front < 0) return fail_set(f, FAIL_INPUT, "load: it lifts the front wheels off the road");
    if (rear < 0) return fail_set(f, FAIL_INPUT, "load: it lifts the rear wheels off the road");
    const double whole = front + rear;
    const bool heavy_front = in[FRONT_LIMIT].set && front > in[FRONT_LIMIT].si * (1 + 1e-9);
    const bool heavy_rear = in[REAR_LIMIT].set && rear > in[REAR_LIMIT].si * (1 + 1e-9);
    const bool heavy = in[GROSS].set && whole > in[GROSS].si * (1 + 1e-9);
    out->out[0] = calc_number(front);
    out->out[1] = calc_number(rear);
    out->out[2] = calc_number(whole);
    out->out[3] = calc_number(front / whole);
    out->out[4] = calc_number(gains);
    if (in[GROSS].set) out->out[5] = calc_number(in[GROSS].si - whole);
    if (heavy || heavy_front || heavy_rear)
        calc_verdict(a, out, VERDICT_BAD, "Do not drive so: over the limit of the%s%s%s",
                     heavy ? " whole" : "", heavy_front ? " front axle" : "",
                     heavy_rear ? " rear axle" : "");
    else if (front < whole / 3)
        calc_verdict(a, out, VERDICT_CARE, "Light in front: it steers and brakes badly");
    else if (in[FRONT_LIMIT].set && in[REAR_LIMIT].set && in[GROSS].set)
        calc_verdict(a, out, VERDICT_GOOD, "Within all three limits");
    calc_note(a, out, "The nose of a trailer counts as load of the car that draws it.");
    return true;
}

/* ---- trailer-nose ---- */

static const struct calc_input nose_inputs[] = {
    IN_NEEDED("trailer", MASS, "kg", 20, 3e4, "laden, all of it"),
    IN_NEEDED("nose", MASS, "kg", -500, 5e3, "weight on the coupling, by a scale"),
    IN_USUAL("least", NUMBER, "%", "10 %", 0, 0.5, "share of the nose"),
    IN_USUAL("most", NUMBER, "%", "15 %", 0, 0.5, "share of the nose"),
    IN_MAYBE("nose-limit", MASS, "kg", 10, 5e3, "of coupling, bracket and car: the lowest"),
    IN_MAYBE("tow-limit", MASS, "kg", 50, 3e4, "what the car may draw, and trailer may weigh"),
    IN_MAYBE("car", MASS, "kg", 50, 3e4, "that draws, as laden, for the ratio"),
    IN_END,
};
static const struct calc_output nose_outputs[] = {
    OUT_NUMBER("share", NUMBER, "%", "%", 3, "of the trailer's weight on the nose"),
    OUT_NUMBER("least-nose", MASS, "kg", "lb", 3, "for the least share"),
    OUT_NUMBER("most-nose", MASS, "kg", "lb", 3, "for the most, and the limit of the coupling"),
    OUT_NUMBER("ratio", NUMBER, "%", "%", 3, "of the trailer to the car that draws it"),
    OUT_END,
};
static const struct calc_source nose_sources[] = {
    {MARK_PRACTICE, "10 to 15 % of the trailer's weight on the nose"},
    SOURCE_END,
};

static bool nose_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                     struct fail *f)
{
    enum { TRAILER, NOSE, LEAST, MOST, NOSE_LIMIT, TOW_LIMIT, CAR };
    const double share = in[NOSE].si / in[TRAILER].si;
    const double most = in[MOST].si * in[TRAILER].si;
    if (in[NOSE].si > in[TRAILER].si)
        return fail_set(f, FAIL_INPUT, "nose: more than the whole trailer weighs");
    if (in[LEAST].si > in[MOST].si) return fail_set(f, FAIL_INPUT, "least: more than the most");
    out->out[0] = calc_number(share);
    out->out[1] = calc_number(in[LEAST].si * in[TRAILER].si);
    out->out[2] = calc_number(in[NOSE_LIMIT].set ? fmin(most, in[NOSE_LIMIT].si) : most);
    if (in[CAR].set) out->out[3] = calc_number(in[TRAILER].si / in[CAR].si);
    if (in[TOW_LIMIT].set && in[TRAILER].si > in[TOW_LIMIT].si)
        calc_verdict(a, out, VERDICT_BAD, "Do not tow: the trailer is over the limit");
    else if (in[NOSE_LIMIT].set && in[NOSE].si > in[NOSE_LIMIT].si)
        calc_verdict(a, out, VERDICT_BAD, "Do not tow: the nose is over the limit of the coupling");
    else if (share < 0)
        calc_verdict(a, out, VERDICT_BAD, "Do not tow: the nose lifts the car");
    else if (share < in[LEAST].si)
        calc_verdict(a, out, VERDICT_BAD,
                     "Do not tow: too light on the nose, it will swing. Move "
                     "the load forward");
    else if (share > in[MOST].si)
        calc_verdict(a, out, VERDICT_CARE, "Heavy on the nose: move the load back");
    else
        calc_verdict(a, out, VERDICT_GOOD, "Right on the nose");
    if (in[NOSE_LIMIT].set && in[NOSE_LIMIT].si < in[LEAST].si * in[TRAILER].si)
        calc_note(a, out,
                  "The coupling bears less than the least share of this trailer: load less, or "
                  "give the share that the maker of the trailer allows.");
    if (in[CAR].set && in[TRAILER].si > 0.85 * in[CAR].si)
        calc_note(a, out, "The trailer is over 85 %% of the car: for a practised driver, slowly.");
    return true;
}

/* ---- car-on-trailer ---- */

static const struct calc_input place_inputs[] = {
    IN_NEEDED("car", MASS, "kg", 50, 2e4, "that is carried"),
    IN_NEEDED("car-rear", MASS, "kg", 0, 2e4, "of it on its rear axle"),
    IN_NEEDED("wheelbase", LENGTH, "mm", 0.5, 8, "of the car that is carried"),
    IN_NEEDED("trailer", MASS, "kg", 50, 1e4, "empty"),
    IN_USUAL("empty-nose", MASS, "kg", "50 kg", -200, 2e3, "weight on the coupling, empty"),
    IN_NEEDED("drawbar", LENGTH, "mm", 0.5, 15, "coupling to the middle of the trailer's axles"),
    IN_USUAL("share", NUMBER, "%", "12 %", 0.02, 0.25, "of the whole that is wanted on the nose"),
    IN_END,
};
static const struct calc_output place_outputs[] = {
    OUT_NUMBER("nose", MASS, "kg", "lb", 3, "weight then on the coupling"),
    OUT_NUMBER("ahead", LENGTH, "mm", "in", 3, "of the trailer's axles: the car's middle of mass"),
    OUT_NUMBER("front-wheels", LENGTH, "mm", "in", 3, "ahead of them, nose first"),
    OUT_NUMBER("rear-wheels", LENGTH, "mm", "in", 3, "ahead of them, tail first"),
    OUT_NUMBER("whole", MASS, "kg", "lb", 4, "trailer and car"),
    OUT_END,
};
static const struct calc_source place_sources[] = {
    {MARK_PRACTICE, "Balance of moments about the trailer's axles"},
    {MARK_PRACTICE, "10 to 15 % of the trailer's weight on the nose"},
    SOURCE_END,
};

static bool place_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                      struct fail *f)
{
    enum { CAR, CAR_REAR, BASE, TRAILER, EMPTY_NOSE, DRAWBAR, SHARE };
    if (in[CAR_REAR].si > in[CAR].si)
        return fail_set(f, FAIL_INPUT, "car-rear: more than the whole car");
    const double whole = in[CAR].si + in[TRAILER].si, nose = in[SHARE].si * whole;
    const double ahead = (nose - in[EMPTY_NOSE].si) * in[DRAWBAR].si / in[CAR].si;
    const double behind_front = in[CAR_REAR].si / in[CAR].si * in[BASE].si;
    if (fabs(ahead) > in[DRAWBAR].si)
        return fail_set(f, FAIL_INPUT, "share: no place of the car on this trailer gives it");
    out->out[0] = calc_number(nose);
    out->out[1] = calc_number(ahead);
    out->out[2] = calc_number(ahead + behind_front);
    out->out[3] = calc_number(ahead + in[BASE].si - behind_front);
    out->out[4] = calc_number(whole);
    calc_note(a, out, "Mark the place on the deck, then weigh the nose: the scale decides.");
    return true;
}

/* ---- payload ---- */

static const struct calc_input payload_inputs[] = {
    IN_NEEDED("gross", MASS, "kg", 50, 6e4, "allowed gross mass, from the plate"),
    IN_NEEDED("unladen", MASS, "kg", 50, 6e4, "as weighed, tank full, nobody in it"),
    IN_USUAL("people", NUMBER, NULL, "1", 0, 60, "with the driver"),
    IN_USUAL("each", MASS, "kg", "75 kg", 10, 200, "of them"),
    IN_USUAL("luggage", MASS, "kg", "0 kg", 0, 3e4, "and tools, roof, everything bolted on since"),
    IN_USUAL("nose", MASS, "kg", "0 kg", 0, 3e3, "weight of a trailer on the coupling"),
    IN_END,
};
static const struct calc_output payload_outputs[] = {
    OUT_NUMBER("payload", MASS, "kg", "lb", 4, "that the vehicle may carry"),
    OUT_NUMBER("left", MASS, "kg", "lb", 3, "of it; less: over"),
    OUT_NUMBER("laden", MASS, "kg", "lb", 4, "mass"),
    OUT_END,
};
static const struct calc_source payload_sources[] = {
    {MARK_PRACTICE, "Allowed gross mass less what is aboard; 75 kg a person"},
    SOURCE_END,
};

static bool payload_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                        struct fail *f)
{
    const double laden = in[1].si + in[2].si * in[3].si + in[4].si + in[5].si;
    const double left = in[0].si - laden;
    if (in[1].si > in[0].si)
        return fail_set(f, FAIL_INPUT, "unladen: more than the allowed gross mass");
    out->out[0] = calc_number(in[0].si - in[1].si);
    out->out[1] = calc_number(left);
    out->out[2] = calc_number(laden);
    if (left < 0)
        calc_verdict(a, out, VERDICT_BAD, "Do not drive so: over the allowed gross mass");
    else
        calc_verdict(a, out, VERDICT_GOOD, "Within the allowed gross mass");
    calc_note(a, out, "Each axle and each tyre has a limit of its own: axle-loads.");
    return true;
}

/* ---- tie-down ---- */

static const char *const ways[] = {"direct", "over", NULL};
static const struct calc_input tie_inputs[] = {
    IN_NEEDED("load", MASS, "kg", 10, 4e4, "what is carried"),
    IN_NEEDED("rating", MASS, "kg", 20, 2e4, "working load limit of the weakest part of a tie"),
    IN_USUAL("ties", NUMBER, NULL, "4", 1, 30, "all of them"),
    IN_CHOICE("way", ways, "direct", "direct: from deck to car; over: across it to the other side"),
    IN_USUAL("angle", ANGLE, "deg", "45 deg", 0, 1.4, "of a tie down from level"),
    IN_USUAL("brakes", NUMBER, NULL, "0.8", 0.1, 2, "to hold, in g: 0.8 forward, 0.5 aside"),
    IN_USUAL("share-by", NUMBER, NULL, "2", 1, 30, "ties that hold against that at once"),
    IN_END,
};
static const struct calc_output tie_outputs[] = {
    OUT_NUMBER("needed", MASS, "kg", "lb", 4, "working load limits together: half of the load"),
    OUT_NUMBER("counted", MASS, "kg", "lb", 4, "of these ties"),
    OUT_NUMBER("pull", FORCE, "kN", "lbf", 3, "along each tie when it brakes so"),
    OUT_NUMBER("pull-share", NUMBER, "%", "%", 3, "of the rating"),
    OUT_END,
};
static const struct calc_source tie_sources[] = {
    {MARK_PUBLISHED, "US cargo rule of 1994: working load limits together at least half of the "
                     "load"},
    {MARK_MEMORY, "49 CFR 393.102, .106 and .128: a direct tie counts half, one over the load "
                  "whole; 0.8 g forward, 0.5 g aside and back; a car tied front and rear, twice at "
                  "least"},
    {MARK_PRACTICE, "Four ties"},
    SOURCE_END,
};

static bool tie_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                    struct fail *f)
{
    enum { LOAD, RATING, TIES, WAY, ANGLE, BRAKES, SHARE };
    const bool is_direct = in[WAY].choice == 0;
    const double needed = in[LOAD].si / 2;
    const double counted = in[TIES].si * in[RATING].si * (is_direct ? 0.5 : 1);
    if (in[SHARE].si > in[TIES].si)
        return fail_set(f, FAIL_INPUT, "share-by: more ties than there are");
    out->out[0] = calc_number(needed);
    out->out[1] = calc_number(counted);
    double part = 0; /* of the rating */
    if (is_direct) { /* one over the load holds by friction: no pull is known */
        const double pull =
            in[BRAKES].si * in[LOAD].si * GRAVITY / (in[SHARE].si * cos(in[ANGLE].si));
        part = pull / (in[RATING].si * GRAVITY);
        out->out[2] = calc_number(pull);
        out->out[3] = calc_number(part);
    }
    if (counted < needed * (1 - 1e-9))
        calc_verdict(a, out, VERDICT_BAD, "Too weak: the ratings do not reach half of the load");
    else if (in[TIES].si < 2)
        calc_verdict(a, out, VERDICT_BAD, "One tie holds nothing: front and rear, two each");
    else if (part > 1)
        calc_verdict(a, out, VERDICT_BAD, "Over the rating when it brakes: more or stronger ties");
    else if (in[TIES].si < 4)
        calc_verdict(a, out, VERDICT_CARE, "Enough by the ratings; four ties are usual");
    else
        calc_verdict(a, out, VERDICT_GOOD, "The ties hold it");
    calc_note(a, out,
              "Tie axles or wheels rather than the body, which pulls down its springs and slackens "
              "the ties; in gear, hand brake on, wheels chocked as well.");
    return true;
}

const struct calc calc_towing[] = {
    {.name = "axle-loads",
     .question = "What stands on each axle with this load or trailer?",
     .inputs = axle_inputs,
     .outputs = axle_outputs,
     .formula = "rear = unladen + load x behind front / wheelbase + nose (1 + overhang / "
                "wheelbase); front = the rest",
     .limits = "Standing level; two axles.",
     .sources = axle_sources,
     .cautions = towing_cautions,
     .plot_over = "behind-front",
     .plot_of = "on-front",
     .run = axle_run},
    {.name = "trailer-nose",
     .question = "Is the weight on the trailer's nose right?",
     .inputs = nose_inputs,
     .outputs = nose_outputs,
     .formula = "share = nose / trailer",
     .limits = "Trailers with one axle or a close pair; the plates go before the usual shares.",
     .sources = nose_sources,
     .cautions = towing_cautions,
     .run = nose_run},
    {.name = "car-on-trailer",
     .question = "Where on the trailer must the car stand?",
     .inputs = place_inputs,
     .outputs = place_outputs,
     .formula = "ahead = (share x whole - empty nose) x drawbar / car",
     .limits = "Trailers with one axle or a close pair.",
     .sources = place_sources,
     .cautions = towing_cautions,
     .run = place_run},
    {.name = "payload",
     .question = "How much may it still carry?",
     .inputs = payload_inputs,
     .outputs = payload_outputs,
     .formula = "left = gross - unladen - people x each - luggage - nose",
     .limits = "The whole vehicle only.",
     .sources = payload_sources,
     .cautions = towing_cautions,
     .run = payload_run},
    {.name = "tie-down",
     .question = "Do these straps hold the car?",
     .inputs = tie_inputs,
     .outputs = tie_outputs,
     .formula = "needed = load / 2; counted = ties x rating (direct: half); pull = brakes x load x "
                "g / (ties that share x cos angle)",
     .limits = "Straps or chains in order; the tie's angle seen from the side.",
     .sources = tie_sources,
     .cautions = tie_cautions,
     .run = tie_run},
    {.name = NULL},
};
