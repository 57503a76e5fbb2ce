/* stopping.c - brakes on the road: balance, distance, the rules of year and place, roller test,
 * hill. */
#include "bench/row.h"
#include "bench/systems.h"

static const double GRAVITY = 9.80665;

static const struct calc_caution stopping_cautions[] = {
    {"A brake that pulls, grabs or locks the rear wheels first throws the car round. Try it slowly "
     "in a straight line, on an empty, dry, private place, before any road.",
     "The test station or a brake specialist, with a roller tester, before the road"},
    CAUTION_END,
};

/* ---- brake-balance ---- */

static const struct calc_input balance_inputs[] = {
    IN_NEEDED("mass", MASS, "kg", 50, 20000, "with people and load"),
    IN_NEEDED("front-load", NUMBER, "%", 0.2, 0.8, "share of it on the front axle, standing"),
    IN_NEEDED("wheelbase", LENGTH, "mm", 0.8, 8, "between the axles"),
    IN_NEEDED("height", LENGTH, "mm", 0.1, 2.5, "of the centre of gravity: about 550 in a car"),
    IN_USUAL("deceleration", ACCELERATION, "g", "0.6 g", 0.05 * 9.80665, 1.2 * 9.80665,
             "of the car"),
    IN_MAYBE("front-brakes", NUMBER, "%", 0.05, 0.95, "share of the braking that the front does"),
    IN_USUAL("grip", NUMBER, NULL, "0.8", 0.1, 1.3, "tyre on road: dry 0.8, wet 0.5, ice 0.1"),
    IN_END,
};
static const struct calc_output balance_outputs[] = {
    OUT_NUMBER("ideal-front", NUMBER, "%", "%", 4,
               "share of the braking that the front should do then"),
    OUT_NUMBER("transfer", MASS, "kg", "lb", 3, "of weight from the rear to the front"),
    OUT_NUMBER("front", MASS, "kg", "lb", 4, "on the front axle then"),
    OUT_NUMBER("rear", MASS, "kg", "lb", 4, "on the rear axle then"),
    OUT_NUMBER("front-grip", NUMBER, NULL, NULL, 3, "adhesion that the front tyres use"),
    OUT_NUMBER("rear-grip", NUMBER, NULL, NULL, 3, "adhesion that the rear tyres use"),
    OUT_NUMBER("lock-together", ACCELERATION, "g", "g", 3, "at which both axles lock at once"),
    OUT_NUMBER("first-lock", ACCELERATION, "g", "g", 3, "at which an axle locks on that grip"),
    OUT_TEXT("locks-first", "front or rear, on that grip"),
    OUT_END,
};
static const struct calc_source balance_sources[] = {
    {MARK_PRACTICE,
     "Moments about the ground: transfer = weight x deceleration x height / wheelbase"},
    {MARK_MEMORY, "Limpert, Gillespie: share of the front that uses both axles alike"},
    SOURCE_END,
};

struct balance {
    double first_lock; /* g */
    bool rear;
};

/* front, rear: static shares; h: height by wheelbase; share: of the front brakes. */
static struct balance balance_of(double front, double h, double share, double grip)
{
    const double rear_locks = grip * (1 - front) / (1 - share + grip * h);
    const double under = share - grip * h;
    const double front_locks = under > 0 ? grip * front / under : INFINITY;
    return (struct balance){fmin(rear_locks, front_locks), rear_locks < front_locks};
}

static bool balance_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                        struct fail *f)
{
    const double mass = in[0].si, front = in[1].si, h = in[3].si / in[2].si, z = in[4].si / GRAVITY,
                 ideal = front + z * h;
    if (ideal >= 1)
        return fail_set(f, FAIL_INPUT, "deceleration: the rear wheels lift at %.2f g",
                        (1 - front) / h);
    out->out[0] = calc_number(ideal);
    out->out[1] = calc_number(mass * z * h);
    out->out[2] = calc_number(mass * ideal);
    out->out[3] = calc_number(mass * (1 - ideal));
    if (!in[5].set) return true;
    const double share = in[5].si, both = (share - front) / h;
    const struct balance b = balance_of(front, h, share, in[6].si);
    out->out[4] = calc_number(share * z / ideal);
    out->out[5] = calc_number((1 - share) * z / (1 - ideal));
    if (both > 0) out->out[6] = calc_number(both * GRAVITY);
    out->out[7] = calc_number(b.first_lock * GRAVITY);
    out->out[8] = calc_text(b.rear ? "rear" : "front");
    if (b.rear)
        calc_verdict(a, out, VERDICT_BAD,
                     "The rear wheels lock first, at %.2f g: the car spins; less brake behind",
                     b.first_lock);
    else if (b.first_lock < 0.8 * in[6].si)
        calc_verdict(a, out, VERDICT_CARE,
                     "The front locks first, but early: over a fifth of the grip is not used");
    else
        calc_verdict(a, out, VERDICT_GOOD, "The front locks first, late");
    calc_note(a, out, "Try it light and laden, on wet and on dry: the balance moves with both.");
    return true;
}

/* ---- stopping-distance ---- */

static const struct calc_input distance_inputs[] = {
    IN_NEEDED("speed", SPEED, "km/h", 2, 90, "before"),
    IN_USUAL("deceleration", ACCELERATION, "g", "0.5 g", 0.05 * 9.80665, 1.2 * 9.80665,
             "steady: 0.3 poor drums, 0.5 sound ones, 0.7 good tyres and brakes"),
    IN_USUAL("reaction", TIME, "s", "1 s", 0, 5, "before the brakes are on"),
    IN_END,
};
static const struct calc_output distance_outputs[] = {
    OUT_NUMBER("distance", LENGTH, "m", "ft", 4, "to stand"),
    OUT_NUMBER("braking", LENGTH, "m", "ft", 4, "with the brakes on"),
    OUT_NUMBER("thinking", LENGTH, "m", "ft", 3, "before they are on"),
    OUT_NUMBER("time", TIME, "s", "s", 3, "to stand"),
    OUT_END,
};
static const struct calc_source distance_sources[] = {
    {MARK_PRACTICE, "Steady deceleration: distance = v t + v^2 / (2 a)"},
    {MARK_PUBLISHED, "NHTSA letter of 29 April 1970: 20 ft/s2 from 60 mph is 194 ft"},
    SOURCE_END,
};

static bool distance_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                         struct fail *f)
{
    const double v = in[0].si, braking = v * v / (2 * in[1].si), thinking = v * in[2].si;
    (void)f;
    out->out[0] = calc_number(thinking + braking);
    out->out[1] = calc_number(braking);
    out->out[2] = calc_number(thinking);
    out->out[3] = calc_number(in[2].si + v / in[1].si);
    calc_note(a, out, "Twice the speed is four times the braking distance.");
    return true;
}

/* ---- brake-rule ---- */

static const char *const places[] = {"un", "us", "uk", NULL};
enum { UN, US, UK };
/* The newest of a place first. Limits of distance: linear V + square V^2 metres, V in km/h. */
static const struct rule {
    int place, from;
    const char *name;
    double linear, square, deceleration, service, secondary, parking, hill;
} rules[] = {
    {UN, 1998, "UN R13-H, cars", 0.10, 0.0060, 6.43, 0, 0, 0, 0.20},
    {UN, 1970, "UN R13, cars, older form", 0.10, 1 / 150.0, 5.8, 0, 0, 0, 0.18},
    {US, 2000, "FMVSS 135", 0.10, 0.0060, 6.43, 0, 0, 0, 0.20},
    {US, 1968, "FMVSS 105", 0, 1 / (2 * 3.6 * 3.6 * 20 * 0.3048), 20 * 0.3048, 0, 0, 0, 0.30},
    {UK, 2010, "UK test, cars from 1 September 2010", 0, 0, 0, 0.58, 0.25, 0.16, 0},
    {UK, 1968, "UK test, cars from 1968", 0, 0, 0, 0.50, 0.25, 0.16, 0},
    {UK, 1885, "UK test, cars before 1968", 0, 0, 0, 0.40, 0.15, 0.15, 0},
};
enum { RULES = sizeof rules / sizeof *rules };

static const struct calc_input rule_inputs[] = {
    IN_CHOICE("place", places, NULL, "un (Europe and most others), us, uk (yearly test)"),
    IN_NEEDED("year", NUMBER, NULL, 1885, 2100, "of first use"),
    IN_USUAL("speed", SPEED, "km/h", "100 km/h", 5, 45, "of the test stop"),
    IN_MAYBE("stopped-in", LENGTH, "m", 0.1, 500, "measured, from the foot on the pedal"),
    IN_MAYBE("efficiency", NUMBER, "%", 0.01, 1.2, "measured: braking force by weight"),
    IN_END,
};
static const struct calc_output rule_outputs[] = {
    OUT_TEXT("rule", "that applies"),
    OUT_NUMBER("limit", LENGTH, "m", "ft", 4, "most distance from that speed"),
    OUT_NUMBER("least", ACCELERATION, "m/s2", "ft/s2", 3, "mean deceleration at full braking"),
    OUT_NUMBER("service", NUMBER, "%", "%", 3, "least efficiency of the foot brake"),
    OUT_NUMBER("secondary", NUMBER, "%", "%", 3, "least efficiency of the second brake"),
    OUT_NUMBER("parking", NUMBER, "%", "%", 3, "least efficiency of the parking brake"),
    OUT_NUMBER("hill", NUMBER, "%", "%", 3, "that the parking brake must hold"),
    OUT_END,
};
static const struct calc_source rule_sources[] = {
    {MARK_PUBLISHED, "UK brake-test notes of 2013: 58 % for cars first used from 1 September 2010"},
    {MARK_MEMORY, "UK test: 50, 25, 16 % from 1968; 40, 15, 15 % before; hills of all rules"},
    {MARK_MEMORY, "UN R13-H and FMVSS 135: 0.10 V + 0.0060 V^2 and 6.43 m/s2; UN R13: 0.1 V + "
                  "V^2/150 and 5.8 m/s2; the years from which they apply"},
    {MARK_PUBLISHED, "NHTSA letter of 29 April 1970: Standard 105 asks for 20 ft/s2"},
    SOURCE_END,
};
static const struct calc_caution rule_cautions[] = {
    {"A rule passed by reckoning is not passed. A stop at speed is for a closed place, worked up "
     "to "
     "from walking pace.",
     "The test station, and the law of the place as it is today: rules changed often"},
    CAUTION_END,
};

static const struct rule *rule_of(int place, double year)
{
    for (int i = 0; i < RULES; i++)
        if (rules[i].place == place && year >= rules[i].from) return &rules[i];
    return NULL;
}

static void share(struct calc_value *out, double least)
{
    if (least > 0) *out = calc_number(least);
}

static bool rule_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                     struct fail *f)
{
    const struct rule *r = rule_of(in[0].choice, in[1].si);
    if (!r)
        return fail_set(f, FAIL_INPUT,
                        "year: no rule of that place is known so early; ask for 1970, or another "
                        "place, to have a measure");
    if (in[3].set && r->service > 0)
        return fail_set(f, FAIL_INPUT, "stopped-in: this rule asks for efficiency, not distance");
    if (in[4].set && r->service == 0)
        return fail_set(f, FAIL_INPUT, "efficiency: this rule asks for stopped-in, a distance");
    const double kmh = in[2].si * 3.6, limit = r->linear * kmh + r->square * kmh * kmh;
    out->out[0] = calc_text(r->name);
    share(&out->out[1], limit);
    share(&out->out[2], r->deceleration);
    share(&out->out[3], r->service);
    share(&out->out[4], r->secondary);
    share(&out->out[5], r->parking);
    share(&out->out[6], r->hill);
    if (in[3].set || in[4].set) {
        const bool good =
            in[3].set ? in[3].si <= limit * (1 + 1e-9) : in[4].si >= r->service * (1 - 1e-9);
        calc_verdict(a, out, good ? VERDICT_GOOD : VERDICT_BAD, "%s the figure of %s",
                     good ? "It reaches" : "It misses", r->name);
    }
    if (r->place == UK && in[1].si == 2010)
        calc_note(a, out, "First used before 1 September 2010: 50 %% suffices.");
    if (r->place == UK)
        calc_note(a, out,
                  "One line to all brakes: the parking brake is the second one, 25 %% from "
                  "1968.");
    if (r->place == US && r->from == 1968)
        calc_note(a, out,
                  "In 1970 it asked for 20 ft/s2 only; later forms for 194 ft from 60 mph, which "
                  "is the same.");
    return true;
}

/* ---- brake-road-test ---- */

static const struct calc_input road_inputs[] = {
    IN_NEEDED("speed", SPEED, "km/h", 5, 70, "at which the brakes came on"),
    IN_NEEDED("to-eight-tenths", LENGTH, "m", 0, 500, "run when down to 80 % of that speed"),
    IN_NEEDED("to-one-tenth", LENGTH, "m", 0.1, 1000, "run when down to 10 % of it"),
    IN_USUAL("least", ACCELERATION, "m/s2", "5.8 m/s2", 0.5, 12, "that is asked for"),
    IN_END,
};
static const struct calc_output road_outputs[] = {
    OUT_NUMBER("deceleration", ACCELERATION, "m/s2", "ft/s2", 3, "mean, fully developed (MFDD)"),
    OUT_NUMBER("efficiency", NUMBER, "%", "%", 3, "the same by gravity"),
    OUT_END,
};
static const struct calc_source road_sources[] = {
    {MARK_PUBLISHED,
     "UN R13 annex 4: (vb^2 - ve^2) / (25.92 (se - sb)), from 0.8 to 0.1 of the speed"},
    SOURCE_END,
};

static bool road_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                     struct fail *f)
{
    static const double TYRES_GIVE = 1.3 * 9.80665;
    const double v = in[0].si, run = in[2].si - in[1].si;
    if (!(run > 0)) return fail_set(f, FAIL_INPUT, "to-one-tenth: it is not after to-eight-tenths");
    const double mean = (0.64 - 0.01) * v * v / (2 * run);
    if (mean > TYRES_GIVE)
        return fail_set(f, FAIL_INPUT,
                        "to-one-tenth: that is %.3g m/s2, more than tyres give; measure again",
                        mean);
    out->out[0] = calc_number(mean);
    out->out[1] = calc_number(mean / GRAVITY);
    if (mean >= in[3].si * (1 - 1e-9))
        calc_verdict(a, out, VERDICT_GOOD, "It reaches what is asked for");
    else
        calc_verdict(a, out, VERDICT_BAD, "It misses what is asked for");
    return true;
}

/* ---- roller-test ---- */

static const struct calc_input roller_inputs[] = {
    IN_MAYBE("left", FORCE, "N", 0, 5e4, "of a left wheel"),
    IN_MAYBE("right", FORCE, "N", 0, 5e4, "of the right wheel of the same axle"),
    IN_MAYBE("total", FORCE, "N", 0, 2e5, "of all wheels"),
    IN_MAYBE("mass", MASS, "kg", 50, 20000, "of the car as tested"),
    IN_USUAL("least", NUMBER, "%", "50 %", 0.05, 1, "efficiency that the rule asks for"),
    IN_END,
};
static const struct calc_output roller_outputs[] = {
    OUT_NUMBER("imbalance", NUMBER, "%", "%", 3, "weaker side under the stronger"),
    OUT_NUMBER("efficiency", NUMBER, "%", "%", 3, "braking force by weight"),
    OUT_END,
};
static const struct calc_source roller_sources[] = {
    {MARK_PUBLISHED, "UK brake-test notes of 2013: efficiency by hand; an axle fails over 30 %"},
    SOURCE_END,
};

static bool roller_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                       struct fail *f)
{
    static const double MOST = 0.30, NEAR = 0.20;
    const double strong = fmax(in[0].si, in[1].si), weak = fmin(in[0].si, in[1].si);
    const bool axle = in[0].set && in[1].set, whole = in[2].set && in[3].set;
    if (in[0].set != in[1].set)
        return fail_set(f, FAIL_INPUT, "right: give left and right, or neither");
    if (in[2].set && !in[3].set)
        return fail_set(f, FAIL_INPUT, "mass: not given; the total needs it");
    if (!axle && !whole)
        return fail_set(f, FAIL_INPUT,
                        "left: nothing measured; give left and right, "
                        "or total and mass");
    if (axle && strong == 0) return fail_set(f, FAIL_INPUT, "left: neither wheel brakes at all");
    const double uneven = axle ? 1 - weak / strong : 0;
    const double efficiency = whole ? in[2].si / (in[3].si * GRAVITY) : 1;
    if (axle) out->out[0] = calc_number(uneven);
    if (whole) out->out[1] = calc_number(efficiency);
    if (uneven > MOST)
        calc_verdict(a, out, VERDICT_BAD,
                     "The sides differ by over 30 %%: a seized cylinder, oil on a lining, a hose "
                     "that closed inside");
    else if (efficiency < in[4].si * (1 - 1e-9))
        calc_verdict(a, out, VERDICT_BAD, "It misses the efficiency that is asked for");
    else if (uneven > NEAR)
        calc_verdict(a, out, VERDICT_CARE, "The sides differ by over 20 %%: it will pull");
    else
        calc_verdict(a, out, VERDICT_GOOD, "It passes");
    return true;
}

/* ---- park-brake ---- */

static const struct calc_input park_inputs[] = {
    IN_NEEDED("mass", MASS, "kg", 50, 20000, "with people and load"),
    IN_USUAL("grade", NUMBER, "%", "20 %", 0.01, 1, "rise by run: rules ask for 16 to 30 %"),
    IN_MAYBE("force", FORCE, "N", 1, 1e5, "that the parking brake gives at the ground"),
    IN_MAYBE("axle-load", MASS, "kg", 10, 20000, "on the wheels that it holds, on the level"),
    IN_USUAL("grip", NUMBER, NULL, "0.6", 0.1, 1.3, "tyre on road: dry 0.8, wet 0.5"),
    IN_END,
};
static const struct calc_output park_outputs[] = {
    OUT_NUMBER("hold", FORCE, "N", "lbf", 4, "needed to stay"),
    OUT_NUMBER("angle", ANGLE, "deg", "deg", 4, "of the hill"),
    OUT_NUMBER("efficiency", NUMBER, "%", "%", 3, "that this is, by weight"),
    OUT_NUMBER("grips", FORCE, "N", "lbf", 4, "that the held wheels give before they slide"),
    OUT_NUMBER("steepest", NUMBER, "%", "%", 3, "grade that the brake holds"),
    OUT_END,
};
static const struct calc_source park_sources[] = {
    {MARK_PRACTICE, "Weight x sine of the slope"},
    {MARK_MEMORY, "FMVSS 135: 20 % for 5 min, 400 N at the hand or 500 N at the foot; 105: 30 %"},
    SOURCE_END,
};
static const struct calc_caution park_cautions[] = {
    {"A car that rolls away kills. Chock the wheels, stay out of its line, and never try the "
     "parking brake on a hill with anyone below.",
     "The test station, for the parking brake's figure"},
    CAUTION_END,
};

static bool park_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                     struct fail *f)
{
    const double slope = atan(in[1].si), weight = in[0].si * GRAVITY, hold = weight * sin(slope);
    double gives = in[2].set ? in[2].si : INFINITY;
    if (in[3].set && in[3].si > in[0].si)
        return fail_set(f, FAIL_INPUT, "axle-load: it is more than the whole car");
    out->out[0] = calc_number(hold);
    out->out[1] = calc_number(slope);
    out->out[2] = calc_number(sin(slope));
    if (in[3].set) {
        const double grips = in[4].si * in[3].si * GRAVITY * cos(slope);
        out->out[3] = calc_number(grips);
        gives = fmin(gives, grips);
    }
    if (in[2].set && in[2].si < weight) out->out[4] = calc_number(tan(asin(in[2].si / weight)));
    if (isinf(gives)) return true;
    if (gives < hold)
        calc_verdict(a, out, VERDICT_BAD,
                     in[2].set && in[2].si < hold
                         ? "The brake does not hold it"
                         : "The held wheels slide: too little weight or grip");
    else if (gives < 1.2 * hold)
        calc_verdict(a, out, VERDICT_CARE, "It holds, with under a fifth to spare");
    else
        calc_verdict(a, out, VERDICT_GOOD, "It holds");
    return true;
}

const struct calc calc_stopping[] = {
    {.name = "brake-balance",
     .question = "How should the braking be shared between front and rear?",
     .inputs = balance_inputs,
     .outputs = balance_outputs,
     .formula =
         "ideal front share = front load + deceleration x height / wheelbase; adhesion used = "
         "share of the braking x deceleration / share of the load",
     .limits = "Steady braking on the level, a fixed share, springs at rest.",
     .sources = balance_sources,
     .cautions = stopping_cautions,
     .plot_over = "deceleration",
     .plot_of = "ideal-front",
     .run = balance_run},
    {.name = "stopping-distance",
     .question = "How far does it take to stop?",
     .inputs = distance_inputs,
     .outputs = distance_outputs,
     .formula = "distance = speed x reaction + speed^2 / (2 x deceleration)",
     .limits = "Steady deceleration on the level.",
     .sources = distance_sources,
     .cautions = stopping_cautions,
     .plot_over = "speed",
     .plot_of = "distance",
     .run = distance_run},
    {.name = "brake-rule",
     .question = "What does the rule of its year and place ask of the brakes?",
     .inputs = rule_inputs,
     .outputs = rule_outputs,
     .formula = "limit = 0.10 V + 0.0060 V^2 m and the like, V in km/h; or a share of the weight",
     .limits = "Cars, cold brakes, one stop; the rule of the place goes before what is told here.",
     .sources = rule_sources,
     .cautions = rule_cautions,
     .run = rule_run},
    {.name = "brake-road-test",
     .question = "What deceleration was that stop?",
     .inputs = road_inputs,
     .outputs = road_outputs,
     .formula = "mean = ((0.8 v)^2 - (0.1 v)^2) / (2 x distance between)",
     .limits = "A straight stop on the level, no wheel locked.",
     .sources = road_sources,
     .cautions = rule_cautions,
     .run = road_run},
    {.name = "roller-test",
     .question = "Are the brakes strong and even?",
     .inputs = roller_inputs,
     .outputs = roller_outputs,
     .formula = "imbalance = (stronger - weaker) / stronger; efficiency = force / weight",
     .limits = "Wheels that lock on the rollers show less than they could.",
     .sources = roller_sources,
     .cautions = stopping_cautions,
     .run = roller_run},
    {.name = "park-brake",
     .question = "Does the parking brake hold it on a hill?",
     .inputs = park_inputs,
     .outputs = park_outputs,
     .formula =
         "hold = weight x sin(atan grade); grips = grip x axle load x cos; steepest = tan(asin "
         "(force / weight))",
     .limits = "The load of the axle as on the level: facing downhill the rear has less.",
     .sources = park_sources,
     .cautions = park_cautions,
     .run = park_run},
    {.name = NULL},
};
