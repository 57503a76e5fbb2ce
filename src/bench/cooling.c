/* cooling.c - heat, flow, pressure cap, boiling and freezing, antifreeze. */
#include "bench/coolant.h"
#include "bench/row.h"
#include "bench/systems.h"

static const double SLACK = 1e-9, PSI = 6894.757293168, ZERO = 273.15;

#define SCALD                                                                                      \
    {                                                                                              \
        "Hot coolant boils over the moment the cap is opened, and scalds: wait until the top "     \
        "hose "                                                                                    \
        "can be held, then a thick cloth, to the first stop, and let it hiss out.",                \
            "A garage; burns larger than a hand: a doctor"                                         \
    }
#define POISON                                                                                     \
    {                                                                                              \
        "Antifreeze tastes sweet and is poison: a little kills a child, a cat, a dog. Wipe it "    \
        "up, "                                                                                     \
        "keep it closed and marked, never in a drink's bottle nor on the ground.",                 \
            "Poison information by telephone, or a vet, at once; the waste site for the old"       \
    }
static const struct calc_caution hot_cautions[] = {SCALD, CAUTION_END};
static const struct calc_caution poison_cautions[] = {POISON, SCALD, CAUTION_END};

/* ---- cooling-need ---- */

static const struct calc_input need_inputs[] = {
    IN_NEEDED("power", POWER, "hp", 100, 2e6, "of the engine, at the crank"),
    IN_MAYBE("fuel", FLOW, "L/h", 1e-8, 1e-3, "petrol burnt at that power, if known"),
    IN_END,
};
static const struct calc_output need_outputs[] = {
    OUT_NUMBER("least-heat", POWER, "kW", "BTU/h", 2, "for the radiator"),
    OUT_NUMBER("most-heat", POWER, "kW", "BTU/h", 2, "to plan for"),
    OUT_NUMBER("by-fuel", POWER, "kW", "BTU/h", 2, "a third of what the petrol holds"),
    OUT_END,
};
static const struct calc_source need_sources[] = {
    {MARK_PRACTICE, "0.6 to 1.0 of the power goes into the coolant, a third of the fuel's energy"},
    {MARK_PUBLISHED, "US Department of Energy property table: petrol 115 000 Btu/US gal"},
    SOURCE_END,
};

static bool need_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                     struct fail *f)
{
    static const double PETROL = 115000 * 1055.05585262 / 3.785411784e-3; /* J/m3 */
    (void)f;
    out->out[0] = calc_number(0.6 * in[0].si);
    out->out[1] = calc_number(in[0].si);
    if (in[1].set) out->out[2] = calc_number(in[1].si * PETROL / 3);
    calc_note(a, out,
              "A vehicle hardly ever gives its full power for long; hills, heat, towing and "
              "air conditioning are when it does.");
    return true;
}

/* ---- coolant-flow ---- */

static const struct calc_input flow_inputs[] = {
    IN_NEEDED("heat", POWER, "kW", 10, 2e6, "to be carried to the radiator"),
    IN_USUAL("drop", NUMBER, NULL, "8", 1, 40, "degrees C that it cools down by in the radiator"),
    IN_USUAL("antifreeze", NUMBER, "%", "50 %", 0, 0.6, "ethylene glycol by volume"),
    IN_USUAL("temperature", TEMPERATURE, "°C", "90 °C", 273.15, 393.15, "of the coolant"),
    IN_END,
};
static const struct calc_output flow_outputs[] = {
    OUT_NUMBER("flow", FLOW, "L/min", "US gal/min", 3, "that the pump must give"),
    OUT_NUMBER("more-than-water", NUMBER, "%", "%", 3, "flow for the same heat"),
    OUT_NUMBER("carries", NUMBER, NULL, NULL, 3, "kilojoules a kilogramme and degree C"),
    OUT_NUMBER("density", NUMBER, NULL, NULL, 4, "kilogrammes a cubic metre"),
    OUT_END,
};
static const struct calc_source flow_sources[] = {
    {MARK_PRACTICE, "Heat = density x flow x heat capacity x drop"},
    {MARK_PUBLISHED, "A fit of the ASHRAE Handbook of 2001: ethylene glycol in water"},
    SOURCE_END,
};

static double flow_for(double heat, double drop, double share, double kelvin)
{
    return heat / (drop * coolant_heat(share, kelvin) * coolant_gravity(share, kelvin));
}

static bool flow_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                     struct fail *f)
{
    const double share = in[2].si, kelvin = in[3].si;
    const double flow = flow_for(in[0].si, in[1].si, share, kelvin);
    (void)f;
    out->out[0] = calc_number(flow);
    out->out[1] = calc_number(flow / flow_for(in[0].si, in[1].si, 0, kelvin) - 1);
    out->out[2] = calc_number(coolant_heat(share, kelvin) * 1e-3);
    out->out[3] = calc_number(coolant_gravity(share, kelvin));
    calc_note(a, out,
              "Boiling with a sound pump is more often a furred block or radiator than too "
              "little flow: feel the core for cold patches.");
    return true;
}

/* ---- coolant-boiling ---- */

static const struct calc_input boiling_inputs[] = {
    IN_NEEDED("cap", PRESSURE, "psi", 0, 2.5e5, "rating of the pressure cap; 0: open"),
    IN_USUAL("altitude", LENGTH, "m", "0 m", -430, 5500, "above the sea"),
    IN_USUAL("antifreeze", NUMBER, "%", "50 %", 0, 0.7, "ethylene glycol by volume; 0: water"),
    IN_MAYBE("runs-at", TEMPERATURE, "°C", 273.15, 423.15, "the hottest that the gauge shows"),
    IN_END,
};
static const struct calc_output boiling_outputs[] = {
    OUT_NUMBER("boils", TEMPERATURE, "°C", "°F", 4, "with cap, height and mixture"),
    OUT_NUMBER("water-boils", TEMPERATURE, "°C", "°F", 4, "with the same cap, plain water"),
    OUT_NUMBER("open-boils", TEMPERATURE, "°C", "°F", 4, "with the cap off: why it spits"),
    OUT_NUMBER("air", PRESSURE, "kPa", "inHg", 4, "pressure up there"),
    OUT_END,
};
static const struct calc_source boiling_sources[] = {
    {MARK_PUBLISHED, "IAPWS-IF97: boiling of water by pressure"},
    {MARK_PRACTICE, "Standard atmosphere; Raoult's law for the mixture, good to some 2 °C"},
    SOURCE_END,
};

static bool boiling_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                        struct fail *f)
{
    const double air = air_pressure(in[1].si), share = in[2].si;
    const double boils = coolant_boils(share, air + in[0].si), open = coolant_boils(share, air);
    const double left = in[3].set ? boils - in[3].si : 0;
    (void)f;
    out->out[0] = calc_number(boils);
    out->out[1] = calc_number(coolant_boils(0, air + in[0].si));
    out->out[2] = calc_number(open);
    out->out[3] = calc_number(air);
    if (in[3].set && left <= 0)
        calc_verdict(a, out, VERDICT_BAD, "It boils: stop, let it cool with the cap on");
    else if (in[3].set && left < 10)
        calc_verdict(a, out, VERDICT_CARE, "Only %.0f °C (%.0f °F) below boiling", left,
                     left * 1.8);
    else if (in[3].set)
        calc_verdict(a, out, VERDICT_GOOD, "%.0f °C (%.0f °F) below boiling", left, left * 1.8);
    if (in[3].set && in[3].si > open)
        calc_note(a, out, "Over what it boils at without the cap: opened now it flashes to steam.");
    if (in[0].si > 0)
        calc_note(
            a, out,
            "This cap lifts it by %.0f °C (%.0f °F). The rule of 3 °F a psi fits water by the "
            "sea and 4 psi; more pressure lifts less for each psi.",
            boils - open, (boils - open) * 1.8);
    return true;
}

/* ---- antifreeze ---- */

static const struct calc_input freeze_inputs[] = {
    IN_NEEDED("share", NUMBER, "%", 0, 1, "ethylene glycol by volume: 33, 50"),
    IN_MAYBE("coldest", TEMPERATURE, "°C", 213.15, 293.15, "that is expected where it stands"),
    IN_END,
};
static const struct calc_output freeze_outputs[] = {
    OUT_NUMBER("freezes", TEMPERATURE, "°C", "°F", 3, "first crystals"),
    OUT_NUMBER("safe-to", TEMPERATURE, "°C", "°F", 3, "5 °C (9 °F) kept in hand"),
    OUT_NUMBER("needed", NUMBER, "%", "%", 3, "share for the coldest that is expected"),
    OUT_NUMBER("gravity", NUMBER, NULL, NULL, 4, "by hydrometer at 20 °C (68 °F)"),
    OUT_END,
};
static const struct calc_source freeze_sources[] = {
    {MARK_PUBLISHED, "A fit of the ASHRAE Handbook of 2001, and tables of the trade: 25 % -12 °C, "
                     "44 % -29, 52.5 % -40"},
    {MARK_PUBLISHED, "A maker's page: neat it freezes at some -13 °C"},
    {MARK_PRACTICE, "At least 5 °C below the coldest that is expected"},
    SOURCE_END,
};

/* The least share that is safe at `coldest`, above COOLANT_MOST if none. */
static double share_for(double coldest)
{
    double low = 0, high = COOLANT_MOST;
    if (coolant_freezes(high) > coldest - 5) return 1;
    if (coolant_freezes(low) <= coldest - 5) return 0;
    for (int i = 0; i < 50; i++) {
        const double middle = (low + high) / 2;
        if (coolant_freezes(middle) > coldest - 5)
            low = middle;
        else
            high = middle;
    }
    return high;
}

static bool freeze_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                       struct fail *f)
{
    const double share = in[0].si;
    const bool is_known = share <= COOLANT_MOST, is_neat = share > 0.995;
    const double freezes = is_known ? coolant_freezes(share) : ZERO - 13;
    const double needed = in[1].set ? share_for(in[1].si) : 0;
    (void)f;
    if (is_known || is_neat) {
        out->out[0] = calc_number(freezes);
        out->out[1] = calc_number(freezes + 5);
    }
    if (in[1].set && needed <= COOLANT_MOST) out->out[2] = calc_number(needed);
    if (is_known) out->out[3] = calc_number(coolant_gravity(share, 293.15) / 998.2);
    if (share > 0.65)
        calc_verdict(a, out, VERDICT_BAD,
                     "Too strong: over 65 to 70 %% it freezes sooner again, "
                     "and carries less heat; thin it to 50 %%");
    else if (!is_known)
        calc_verdict(a, out, VERDICT_CARE, "Stronger than the tables go (60 %%): thin it");
    else if (in[1].set && freezes > in[1].si)
        calc_verdict(a, out, VERDICT_BAD,
                     "It freezes and bursts the block: strengthen or drain it");
    else if (in[1].set && freezes > in[1].si - 5 + SLACK)
        calc_verdict(a, out, VERDICT_CARE, "Less than 5 °C (9 °F) in hand: strengthen it");
    else if (share < 0.25)
        calc_verdict(a, out, VERDICT_CARE, "Too weak against rust: makers ask for 25 to 50 %%");
    else
        calc_verdict(a, out, VERDICT_GOOD, "It does%s", in[1].set ? " for that cold" : "");
    calc_note(a, out,
              "Some tables are by mass: 50 %% by mass is 47 by volume. Change it every few "
              "years: what keeps rust away is used up, though it still does not freeze.");
    return true;
}

/* ---- coolant-mix ---- */

static const struct calc_input mix_inputs[] = {
    IN_NEEDED("system", VOLUME, "L", 1e-4, 1, "all that engine, radiator and heater hold"),
    IN_NEEDED("now", NUMBER, "%", 0, 1, "antifreeze in it by volume"),
    IN_USUAL("wanted", NUMBER, "%", "50 %", 0, 1, "antifreeze by volume"),
    IN_USUAL("strength", NUMBER, "%", "100 %", 0.01, 1, "of what is poured in: ready-mixed 50"),
    IN_END,
};
static const struct calc_output mix_outputs[] = {
    OUT_NUMBER("drain", VOLUME, "L", "US qt", 3, "and pour in as much of the other"),
    OUT_TEXT("pour-in", "antifreeze or water"),
    OUT_NUMBER("freezes", TEMPERATURE, "°C", "°F", 3, "after it"),
    OUT_END,
};
static const struct calc_source mix_sources[] = {
    {MARK_PRACTICE, "Drain = system (wanted - now) / (poured - now)"},
    SOURCE_END,
};

static bool mix_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                    struct fail *f)
{
    const double now = in[1].si, wanted = in[2].si, poured = wanted < now ? 0 : in[3].si;
    if (wanted > now && wanted > poured * (1 + SLACK))
        return fail_set(f, FAIL_INPUT, "wanted: stronger than what is poured in");
    const double drain = fabs(wanted - now) < SLACK ? 0 : (wanted - now) / (poured - now);
    out->out[0] = calc_number(in[0].si * fmin(1, drain));
    out->out[1] = calc_text(drain <= 0 ? "nothing" : poured > 0 ? "antifreeze" : "water");
    if (wanted <= COOLANT_MOST) out->out[2] = calc_number(coolant_freezes(wanted));
    if (wanted > 0.65) calc_verdict(a, out, VERDICT_BAD, "Too strong: it freezes sooner again");
    calc_note(a, out,
              "Water without lime (distilled or soft). Do not mix kinds: some turn to jelly. "
              "Run it warm, heater open, and measure again.");
    return true;
}

/* ---- pressure-cap ---- */

static const char *const falls[] = {"holds", "slow", "quick", NULL};
static const char *const no_yes[] = {"no", "yes", NULL};
static const struct calc_input cap_inputs[] = {
    IN_NEEDED("rating", PRESSURE, "psi", 5e3, 2.5e5, "that the maker asks for: 4, 7, 10, 13, 15"),
    IN_MAYBE("fitted", PRESSURE, "psi", 5e3, 2.5e5, "what is stamped on the cap there is"),
    IN_MAYBE("opens", PRESSURE, "psi", 0, 4e5, "where it lets go on the tester"),
    IN_CHOICE("on-tester", falls, "holds", "then: holds, slow fall, quick fall"),
    IN_CHOICE("loses-coolant", no_yes, "no", "whether the vehicle has been losing any"),
    IN_END,
};
static const struct calc_output cap_outputs[] = {
    OUT_NUMBER("least-opening", PRESSURE, "kPa", "psi", 3, "of a sound cap"),
    OUT_NUMBER("most-opening", PRESSURE, "kPa", "psi", 3, "of a sound cap"),
    OUT_END,
};
static const struct calc_source cap_sources[] = {
    {MARK_PUBLISHED, "A workshop manual: a cap that leaks off quickly is rejected; a slow fall "
                     "without a loss of coolant is no fault"},
    {MARK_PRACTICE, "Opens within 15 %; never a higher cap on an old radiator or heater"},
    SOURCE_END,
};

static bool cap_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                    struct fail *f)
{
    const double low = 0.85 * in[0].si, high = 1.15 * in[0].si;
    const bool quick = in[3].choice == 2, slow = in[3].choice == 1, loses = in[4].choice == 1;
    (void)f;
    out->out[0] = calc_number(low);
    out->out[1] = calc_number(high);
    if (in[1].set && in[1].si > in[0].si * 1.03)
        calc_verdict(a, out, VERDICT_BAD,
                     "A higher cap than the maker's: it bursts an old "
                     "radiator, hose or heater");
    else if (in[2].set && in[2].si > high * (1 + SLACK))
        calc_verdict(a, out, VERDICT_BAD, "It opens too late: replace it, something else bursts");
    else if (in[2].set && in[2].si < low * (1 - SLACK))
        calc_verdict(a, out, VERDICT_BAD, "It opens too early: replace it, the engine boils");
    else if (quick)
        calc_verdict(a, out, VERDICT_BAD, "It leaks off quickly: replace it");
    else if (slow && loses)
        calc_verdict(a, out, VERDICT_BAD, "It falls, and coolant is lost: replace it");
    else if (in[1].set && in[1].si < in[0].si * 0.97)
        calc_verdict(a, out, VERDICT_CARE,
                     "A lower cap than the maker's: gentle on the radiator, "
                     "but it boils sooner");
    else if (slow)
        calc_verdict(a, out, VERDICT_GOOD, "A slow fall without a loss of coolant is no fault");
    else
        calc_verdict(a, out, VERDICT_GOOD,
                     loses ? "The cap is sound: look elsewhere for the loss" : "The cap is sound");
    calc_note(a, out, "Its little valve must also let air back in, or the hoses are sucked flat.");
    return true;
}

/* ---- cooling-test ---- */

static const struct calc_input test_inputs[] = {
    IN_NEEDED("rating", PRESSURE, "psi", 5e3, 2.5e5, "of the cap"),
    IN_NEEDED("pumped", PRESSURE, "psi", 5e3, 4e5, "by the hand pump, engine cold"),
    IN_NEEDED("left", PRESSURE, "psi", 0, 4e5, "after the time"),
    IN_USUAL("time", TIME, "min", "15 min", 30, 86400, "waited"),
    IN_END,
};
static const struct calc_output test_outputs[] = {
    OUT_NUMBER("fall", PRESSURE, "kPa", "psi", 3, "in that time"),
    OUT_END,
};
static const struct calc_source test_sources[] = {
    {MARK_PRACTICE, "It holds the cap's rating, no visible fall in 10 to 15 minutes"},
    SOURCE_END,
};

static bool test_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                     struct fail *f)
{
    const double fall = in[1].si - in[2].si;
    if (fall < 0) return fail_set(f, FAIL_INPUT, "left: more than was pumped");
    out->out[0] = calc_number(fall);
    if (in[1].si > 1.05 * in[0].si)
        calc_verdict(a, out, VERDICT_BAD,
                     "Let some out: pumped over the cap's rating, old "
                     "radiators and heaters burst");
    else if (fall > 0.25 * PSI)
        calc_verdict(a, out, VERDICT_BAD,
                     "It leaks: look for wet hoses, core plugs, pump, heater; "
                     "if nothing is wet, at the plugs and the oil");
    else if (in[1].si < 0.95 * in[0].si)
        calc_verdict(a, out, VERDICT_CARE, "Pumped to less than the cap's rating: no proof yet");
    else if (in[3].si < 600 * (1 - SLACK))
        calc_verdict(a, out, VERDICT_CARE, "Nothing lost, but wait 10 to 15 minutes");
    else
        calc_verdict(a, out, VERDICT_GOOD, "Tight");
    calc_note(a, out, "Less than 0.25 psi (2 kPa) is not seen on the usual gauge.");
    return true;
}

const struct calc calc_cooling[] = {
    {.name = "cooling-need",
     .question = "How much heat must the radiator get rid of?",
     .inputs = need_inputs,
     .outputs = need_outputs,
     .formula = "heat = 0.6 to 1.0 x power; or a third of the fuel's energy",
     .limits = "To plan by: side valves and diesels differ.",
     .sources = need_sources,
     .run = need_run},
    {.name = "coolant-flow",
     .question = "How much must the water pump move?",
     .inputs = flow_inputs,
     .outputs = flow_outputs,
     .formula = "flow = heat / (density x heat capacity x drop)",
     .limits = "Ethylene glycol and water up to 60 %.",
     .sources = flow_sources,
     .run = flow_run},
    {.name = "coolant-boiling",
     .question = "When does the coolant boil?",
     .inputs = boiling_inputs,
     .outputs = boiling_outputs,
     .formula =
         "boiling of water at (air + cap) / share of water by molecules; air = 101.325 kPa x "
         "(1 - 22.558e-6 x m)^5.256",
     .limits = "Ethylene glycol; the block is hotter in places than the gauge says.",
     .sources = boiling_sources,
     .cautions = hot_cautions,
     .run = boiling_run},
    {.name = "antifreeze",
     .question = "When does the coolant freeze?",
     .inputs = freeze_inputs,
     .outputs = freeze_outputs,
     .formula = "by the table, straight between its rows of 5 %",
     .limits = "Ethylene glycol by volume up to 60 %; propylene glycol protects a little less.",
     .sources = freeze_sources,
     .cautions = poison_cautions,
     .run = freeze_run},
    {.name = "coolant-mix",
     .question = "How much to drain for the right mixture?",
     .inputs = mix_inputs,
     .outputs = mix_outputs,
     .formula = "drain = system (wanted - now) / (poured - now)",
     .limits = "Well mixed before it is drained.",
     .sources = mix_sources,
     .cautions = poison_cautions,
     .run = mix_run},
    {.name = "pressure-cap",
     .question = "Is this pressure cap right and sound?",
     .inputs = cap_inputs,
     .outputs = cap_outputs,
     .formula = "stamped as the maker asks; opens within 15 % of it; holds on the tester",
     .limits = "The maker's figure goes before any other.",
     .sources = cap_sources,
     .cautions = hot_cautions,
     .run = cap_run},
    {.name = "cooling-test",
     .question = "Does the cooling system hold its pressure?",
     .inputs = test_inputs,
     .outputs = test_outputs,
     .formula = "fall = pumped - left; none to be seen in 10 minutes or more",
     .limits = "Cold and still; once more when warm, since some leaks only open then.",
     .sources = test_sources,
     .cautions = hot_cautions,
     .run = test_run},
    {.name = NULL},
};
