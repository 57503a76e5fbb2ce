/* engine_test.c - what a gauge says of an engine: compression, leak-down, oil pressure. */
#include "bench/list.h"
#include "bench/row.h"
#include "bench/systems.h"

enum { CYLINDERS = 16 };
static const double PSI = 6894.757293168, SLACK = 1e-9;

static const struct calc_caution turning_cautions[] = {
    {"The engine turns by itself: out of gear, chocked, coil wire off and earthed, fuel off, "
     "plugs out and no flame near the mist that comes out. Hands, hair, sleeves and lamps away "
     "from fan and belts.",
     "A second person at the key; an engine shop"},
    CAUTION_END,
};
static const struct calc_caution air_cautions[] = {
    {"Compressed air kicks the crank round: no spanner left on it, no hand near fan or belts, out "
     "of gear, eyes covered. Never loosen a hot radiator's cap to look for bubbles.",
     "An engine shop"},
    CAUTION_END,
};

/* ---- compression-test ---- */

static const struct calc_input compression_inputs[] = {
    IN_TEXT("readings", "highest of each cylinder, in the order in which they stand: 150, 148, 140 "
                        "psi"),
    IN_MAYBE_TEXT("wet", "the same again, a spoon (15 mL) of oil in each"),
    IN_MAYBE("ratio", NUMBER, NULL, 3, 24,
             "compression ratio, if known: 6 and under is judged "
             "by evenness alone"),
    IN_MAYBE("maker", PRESSURE, "psi", 1e5, 6e6, "least that the maker asks for, if known"),
    IN_END,
};
static const struct calc_output compression_outputs[] = {
    OUT_NUMBER("highest", PRESSURE, "bar", "psi", 4, "of all"),
    OUT_NUMBER("lowest", PRESSURE, "bar", "psi", 4, "of all"),
    OUT_NUMBER("weakest", NUMBER, NULL, NULL, 2, "cylinder, as listed"),
    OUT_NUMBER("share", NUMBER, "%", "%", 3, "lowest of highest"),
    OUT_NUMBER("spread", NUMBER, "%", "%", 3, "(highest - lowest) / highest"),
    OUT_NUMBER("pass-from", PRESSURE, "bar", "psi", 4, "each cylinder, by the 75 % rule"),
    OUT_NUMBER("stop-under", PRESSURE, "bar", "psi", 4,
               "any cylinder: 70 % of the highest, and the least of all"),
    OUT_TEXT("points-to", "what is likely worn or burnt"),
    OUT_END,
};
static const struct calc_source compression_sources[] = {
    {MARK_PUBLISHED, "A workshop manual: lowest at least 70 % of highest, none under 100 psi; oil "
                     "that lifts it: rings; no lift: valves; two neighbours low: gasket"},
    {MARK_PUBLISHED, "A workshop manual: lowest at least 75 % of highest"},
    {MARK_PRACTICE, "Ratios of 6 and under never reach 100 psi: evenness and the maker's figure"},
    SOURCE_END,
};

/* Where the low cylinders point. */
static const char *pointed(const double *dry, const double *wet, int n, double low_under)
{
    bool rings = false, valves = false, any = false;
    for (int i = 0; i < n; i++)
        if (dry[i] < low_under) {
            any = true;
            if (i + 1 < n && dry[i + 1] < low_under)
                return "head gasket between two low neighbours, or both worn";
            if (!wet) continue;
            if (wet[i] > 1.1 * dry[i])
                rings = true;
            else
                valves = true;
        }
    if (!any) return "nothing";
    if (!wet) return "repeat with oil in the low ones: a rise is rings, none is valves";
    return rings && valves ? "rings in some, valves in others"
           : rings         ? "rings and bores: oil made it rise"
                           : "valves, or the head gasket: oil did not help";
}

static bool compression_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                            struct fail *f)
{
    double dry[CYLINDERS], wet[CYLINDERS];
    struct list_kind kind = {"readings", QUANTITY_PRESSURE, "psi", 0, 6e6};
    const int n = list_read(a, &kind, in[0].text, dry, CYLINDERS, f);
    if (n == 0) return false;
    if (in[1].set) {
        kind.name = "wet";
        const int n_wet = list_read(a, &kind, in[1].text, wet, CYLINDERS, f);
        if (n_wet == 0) return false;
        if (n_wet != n)
            return fail_set(f, FAIL_INPUT, "wet: %d readings for %d cylinders", n_wet, n);
    }
    int low = 0, high = 0;
    for (int i = 1; i < n; i++) {
        if (dry[i] < dry[low]) low = i;
        if (dry[i] > dry[high]) high = i;
    }
    if (dry[high] < 2e4)
        return fail_set(f, FAIL_INPUT,
                        "readings: no cylinder reaches 3 psi; look at the gauge, the throttle and "
                        "whether the cam turns");
    const bool is_low_ratio = in[2].set && in[2].si <= 6 * (1 + SLACK);
    const double floor_of = in[3].set ? in[3].si : is_low_ratio ? 0 : 100 * PSI;
    const double share = dry[low] / dry[high], stop = fmax(0.7 * dry[high], floor_of);
    const double pass = fmax(0.75 * dry[high], stop);
    out->out[0] = calc_number(dry[high]);
    out->out[1] = calc_number(dry[low]);
    out->out[2] = calc_number(low + 1);
    out->out[3] = calc_number(share);
    out->out[4] = calc_number(1 - share);
    out->out[5] = calc_number(pass);
    out->out[6] = calc_number(stop);
    out->out[7] = calc_text(pointed(dry, in[1].set ? wet : NULL, n, pass * (1 - SLACK)));
    if (dry[low] < floor_of * (1 - SLACK))
        calc_verdict(a, out, VERDICT_BAD, "Stop: cylinder %d is under %.0f psi, the least%s",
                     low + 1, floor_of / PSI, in[3].set ? " that the maker asks for" : "");
    else if (share < 0.7 * (1 - SLACK))
        calc_verdict(a, out, VERDICT_BAD, "Stop: cylinder %d has %.3g %% of the best, under 70 %%",
                     low + 1, 100 * share);
    else if (share < 0.75 * (1 - SLACK))
        calc_verdict(a, out, VERDICT_CARE,
                     "Look: cylinder %d has %.3g %% of the best; manuals say 70 or 75 %%", low + 1,
                     100 * share);
    else if (n == 1)
        calc_verdict(a, out, VERDICT_CARE, "One reading alone has nothing to be even with");
    else
        calc_verdict(a, out, VERDICT_GOOD, "Even: the weakest has %.3g %% of the best",
                     100 * share);
    calc_note(a, out,
              "Engine warm if it can be, throttle open, all plugs out, battery full, the "
              "same turns for each.");
    if (!in[2].set && !in[3].set && dry[high] < 110 * PSI)
        calc_note(a, out,
                  "All low alike may be how it was built: give its ratio, or the maker's "
                  "figure.");
    return true;
}

/* ---- leak-down ---- */

static const char *const places[] = {"nowhere",  "carburettor", "exhaust", "oil-filler",
                                     "radiator", "neighbour",   NULL};
static const char *const leaks_by[] = {
    "nothing heard",        "inlet valve, or one that is set too tight",
    "exhaust valve",        "rings and bore",
    "head gasket or crack", "head gasket between two cylinders",
};
static const struct calc_input leak_inputs[] = {
    IN_USUAL("fed", PRESSURE, "psi", "100 psi", 1e5, 1.2e6, "pressure that the tester feeds"),
    IN_TEXT("held", "pressure that each cylinder holds, at the top of its stroke: 94, 91, 88 psi"),
    IN_CHOICE("hiss", places, "nowhere", "where air is heard to escape"),
    IN_END,
};
static const struct calc_output leak_outputs[] = {
    OUT_NUMBER("worst", NUMBER, "%", "%", 3, "leak"),
    OUT_NUMBER("average", NUMBER, "%", "%", 3, "leak"),
    OUT_NUMBER("worst-cylinder", NUMBER, NULL, NULL, 2, "as listed"),
    OUT_TEXT("points-to", "by where it hisses"),
    OUT_END,
};
static const struct calc_source leak_sources[] = {
    {MARK_PRACTICE, "Leak = (fed - held) / fed; to 10 % good, to 20 % usable, over it find it"},
    SOURCE_END,
};

static bool leak_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                     struct fail *f)
{
    double held[CYLINDERS], sum = 0;
    const struct list_kind kind = {"held", QUANTITY_PRESSURE, "psi", 0, 1.2e6};
    const int n = list_read(a, &kind, in[1].text, held, CYLINDERS, f);
    int worst = 0;
    for (int i = 0; i < n; i++) {
        if (held[i] > in[0].si * (1 + SLACK))
            return fail_set(f, FAIL_INPUT, "held: cylinder %d holds more than it is fed", i + 1);
        if (held[i] < held[worst]) worst = i;
        sum += 1 - held[i] / in[0].si;
    }
    if (n == 0) return false;
    const double leak = fmax(0, 1 - held[worst] / in[0].si);
    out->out[0] = calc_number(leak);
    out->out[1] = calc_number(fmax(0, sum / n));
    out->out[2] = calc_number(worst + 1);
    out->out[3] = calc_text(leaks_by[in[2].choice]);
    if (leak > 0.2 * (1 + SLACK))
        calc_verdict(a, out, VERDICT_BAD, "Stop: cylinder %d leaks %.3g %%; find where it goes",
                     worst + 1, 100 * leak);
    else if (leak > 0.1 * (1 + SLACK))
        calc_verdict(a, out, VERDICT_CARE,
                     "Usable: cylinder %d leaks %.3g %%; measure again after "
                     "some hours of running",
                     worst + 1, 100 * leak);
    else
        calc_verdict(a, out, VERDICT_GOOD, "Tight");
    calc_note(a, out,
              "A long-stored engine often leaks by dry rings and a valve that sticks: oil "
              "in the bores, turn it, measure again.");
    return true;
}

/* ---- oil-pressure ---- */

static const char *const oil_states[] = {"hot", "priming", NULL};
static const struct calc_input oil_inputs[] = {
    IN_NEEDED("pressure", PRESSURE, "psi", 0, 1.4e6, "by a gauge screwed in, not the old one"),
    IN_CHOICE("when", oil_states, "hot", "hot and running; or priming: before it first fires"),
    IN_USUAL("engine-speed", TURNING, "rpm", "2000 rpm", 1, 1000, "when hot"),
    IN_MAYBE("maker", PRESSURE, "psi", 1e4, 1e6, "least that the maker asks for then, if known"),
    IN_END,
};
static const struct calc_output oil_outputs[] = {
    OUT_NUMBER("least", PRESSURE, "bar", "psi", 3, "wanted then"),
    OUT_END,
};
static const struct calc_source oil_sources[] = {
    {MARK_PRACTICE, "10 psi per 1000 rpm hot; 5 to 7 psi at idle; 20 to 30 psi while priming"},
    SOURCE_END,
};
static const struct calc_caution oil_cautions[] = {
    {"No pressure within 10 seconds of the start: switch off at once. Hands, hair, sleeves and "
     "lead lamps away from fan and belts; hot oil burns, and on the floor it makes you fall.",
     "An engine shop"},
    CAUTION_END,
};

static bool oil_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                    struct fail *f)
{
    const bool priming = in[1].choice == 1;
    const double turns = unit_in(in[2].si, QUANTITY_TURNING, "rpm"), p = in[0].si;
    /* Where practice gives a span, its upper end passes and its lower end stops. */
    const double usual = priming ? 30 : turns < 1000 ? 7 : turns / 100;
    const double stops = priming ? 20 : turns < 1000 ? 5 : 0.8 * turns / 100;
    const double good = in[3].set ? in[3].si : usual * PSI, stop = in[3].set ? good : stops * PSI;
    (void)f;
    out->out[0] = calc_number(good);
    if (p < stop * (1 - SLACK))
        calc_verdict(a, out, VERDICT_BAD, "%s",
                     priming ? "Do not fire it: find why no oil arrives"
                             : "Stop the engine: level, gauge, relief valve, pump, then bearings");
    else if (p < good * (1 - SLACK))
        calc_verdict(a, out, VERDICT_CARE, "Just: makers differ in what they ask for");
    else
        calc_verdict(a, out, VERDICT_GOOD, "%s",
                     priming ? "Oil is there: it may fire" : "Enough at that speed");
    calc_note(a, out,
              "Prime with a drill on the pump's shaft, or on the starter with plugs out; "
              "then look that oil comes at the rockers.");
    return true;
}

const struct calc calc_engine_test[] = {
    {.name = "compression-test",
     .question = "Is the compression good?",
     .inputs = compression_inputs,
     .outputs = compression_outputs,
     .formula = "share = lowest / highest: from 75 % good, from 70 % look, under it stop; under "
                "100 psi stop, but for ratios up to 6",
     .limits = "Petrol engines; the maker's figure goes before it. A cold, dry engine reads low.",
     .sources = compression_sources,
     .cautions = turning_cautions,
     .run = compression_run},
    {.name = "leak-down",
     .question = "How much do the cylinders leak, and where?",
     .inputs = leak_inputs,
     .outputs = leak_outputs,
     .formula = "leak = (fed - held) / fed",
     .limits = "Testers have holes of different sizes: compare with the same one. Small bores leak "
               "more in percent.",
     .sources = leak_sources,
     .cautions = air_cautions,
     .run = leak_run},
    {.name = "oil-pressure",
     .question = "Is the oil pressure enough?",
     .inputs = oil_inputs,
     .outputs = oil_outputs,
     .formula = "hot: 10 psi per 1000 rpm, under 1000 rpm 7 psi (under 5 stop); priming: 30 psi "
                "(under 20 stop)",
     .limits = "Bearings fed by pressure; splash oiling has next to none. The maker's figure goes "
               "before it.",
     .sources = oil_sources,
     .cautions = oil_cautions,
     .run = oil_run},
    {.name = NULL},
};
