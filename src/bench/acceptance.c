/* acceptance.c - what a long-stored vehicle must show before it runs and before it drives: one
 * table of limits, each with its mark. Screening only: the maker's figure goes before each of them.
 */
#include "bench/row.h"
#include "bench/systems.h"

enum check {
    COMPRESSION,
    LEAK_DOWN,
    HAND_TURN,
    OIL_PRIMING,
    OIL_HOT,
    BRAKE_PEDAL,
    BRAKE_LINES,
    FUEL_PRESSURE,
    CHARGING,
    BATTERY,
    DRAIN,
    CRANKING,
    COOLANT_PRESSURE,
    COOLANT_FREEZING,
    TYRE_AGE,
    TOE,
    CO_IDLE,
    CO_IDLE_OLD,
    HYDROCARBONS,
    FIRST_DRIVE,
    CHECKS
};
static const char *const names[] = {
    [COMPRESSION] = "compression",
    [LEAK_DOWN] = "leak-down",
    [HAND_TURN] = "turn-by-hand",
    [OIL_PRIMING] = "oil-priming",
    [OIL_HOT] = "oil-hot",
    [BRAKE_PEDAL] = "brake-pedal",
    [BRAKE_LINES] = "brake-lines",
    [FUEL_PRESSURE] = "fuel-pressure",
    [CHARGING] = "charging",
    [BATTERY] = "battery",
    [DRAIN] = "standing-drain",
    [CRANKING] = "cranking",
    [COOLANT_PRESSURE] = "coolant-pressure",
    [COOLANT_FREEZING] = "coolant-freezing",
    [TYRE_AGE] = "tyre-age",
    [TOE] = "toe",
    [CO_IDLE] = "co-idle",
    [CO_IDLE_OLD] = "co-idle-before-1986",
    [HYDROCARBONS] = "hydrocarbons",
    [FIRST_DRIVE] = "first-drive",
    [CHECKS] = NULL,
};

#define NO_LOW  (-INFINITY)
#define NO_HIGH INFINITY
static const struct acceptance {
    enum quantity quantity;
    const char *unit; /* NULL: nothing to measure */
    /* In that unit. Pass within the inner two, stop outside the outer two, look between. */
    double stop_under, pass_from, pass_to, stop_over;
    const char *how, *sum; /* sum: that knows more of it, or NULL */
    enum mark mark;
    const char *source;
} checks[CHECKS] = {
    [COMPRESSION] = {QUANTITY_NUMBER, "%", 70, 75, NO_HIGH, NO_HIGH,
                     "Lowest cylinder of the highest; none under 100 psi, but for ratios up to 6",
                     "compression-test", MARK_PUBLISHED, "workshop manuals: 70 and 75 %, 100 psi"},
    [LEAK_DOWN] = {QUANTITY_NUMBER, "%", NO_LOW, NO_LOW, 10, 20, "Worst cylinder at its top",
                   "leak-down", MARK_PRACTICE, "garages"},
    [HAND_TURN] = {QUANTITY_NUMBER, NULL, 0, 0, 0, 0,
                   "Plugs out, oil in the bores for a day: two full turns by hand, with even "
                   "effort, before the starter is touched",
                   NULL, MARK_PRACTICE, "garages"},
    [OIL_PRIMING] = {QUANTITY_PRESSURE, "psi", 20, 30, NO_HIGH, NO_HIGH,
                     "By a drill on the pump, or on the starter with plugs out, before it fires",
                     "oil-pressure", MARK_PRACTICE, "garages: 20 to 30 psi"},
    [OIL_HOT] = {QUANTITY_PRESSURE, "psi", 10, 10, NO_HIGH, NO_HIGH,
                 "For each 1000 rpm, hot; 5 to 7 psi at idle", "oil-pressure", MARK_PRACTICE,
                 "garages"},
    [BRAKE_PEDAL] = {QUANTITY_NUMBER, NULL, 0, 0, 0, 0,
                     "Hard in the upper half; no sinking in 60 s of a firm push; no drop when the "
                     "engine starts but the servo's dip",
                     NULL, MARK_PRACTICE, "garages"},
    [BRAKE_LINES] = {QUANTITY_NUMBER, NULL, 0, 0, 0, 0,
                     "A push of 1000 psi (6.9 MPa) in the lines for 2 minutes: nothing wet "
                     "anywhere",
                     NULL, MARK_PRACTICE, "garages"},
    [FUEL_PRESSURE] = {QUANTITY_PRESSURE, "psi", 2.5, 2.5, 7, 7,
                       "Carburettor; it stays for minutes after the pump stops", "pump-test",
                       MARK_PRACTICE, "garages; the span was read in workshop manuals"},
    [CHARGING] = {QUANTITY_VOLTAGE, "V", 13.5, 13.8, 14.6, 15.0,
                  "12 V system, fast idle, after some minutes; half of it for 6 V", "charge-budget",
                  MARK_PRACTICE, "garages; one charging guide ends at 15.5 V"},
    [BATTERY] = {QUANTITY_VOLTAGE, "V", 12.0, 12.6, NO_HIGH, NO_HIGH,
                 "12 V battery after hours at rest; half of it for 6 V; 12.4 and under: charge it",
                 "battery-state", MARK_PUBLISHED, "a charging guide; Battery Council table"},
    [DRAIN] = {QUANTITY_CURRENT, "mA", NO_LOW, NO_LOW, 25, 50, "Everything off, doors shut",
               "standing-drain", MARK_PUBLISHED, "charging and diagnosis guides: 25 to 50 mA"},
    [CRANKING] = {QUANTITY_VOLTAGE, "V", 9.6, 9.7, NO_HIGH, NO_HIGH,
                  "12 V battery at room warmth; less is allowed in the cold; half of it for 6 V",
                  "cranking", MARK_PUBLISHED, "a charging guide: 9.7 V; 9.6 is often said"},
    [COOLANT_PRESSURE] = {QUANTITY_NUMBER, NULL, 0, 0, 0, 0,
                          "Pumped to the cap's rating, cold: no fall to be seen in 10 to 15 "
                          "minutes",
                          "cooling-test", MARK_PRACTICE, "garages"},
    [COOLANT_FREEZING] = {QUANTITY_NUMBER, "", 0, 5, NO_HIGH, NO_HIGH,
                          "Degrees C by which it freezes below the coldest that is expected",
                          "antifreeze", MARK_PRACTICE, "garages"},
    [TYRE_AGE] = {QUANTITY_NUMBER, "", NO_LOW, NO_LOW, 6, 10,
                  "Years since the week on its side; a crack down to the cord stops it at any age",
                  "tyre-age", MARK_PRACTICE, "garages; advice on age that was read"},
    [TOE] = {QUANTITY_LENGTH, "mm", NO_LOW, 1.5, 3, NO_HIGH,
             "In, both wheels together, unless the maker says else", "toe", MARK_PRACTICE,
             "garages"},
    [CO_IDLE] = {QUANTITY_NUMBER, "%", NO_LOW, NO_LOW, 3.5, 3.5,
                 "By volume, hot, at idle, no catalyst; UK, first used from August 1986", NULL,
                 MARK_PUBLISHED, "UK Statutory Instrument 2001/25, Schedule 3"},
    [CO_IDLE_OLD] = {QUANTITY_NUMBER, "%", NO_LOW, NO_LOW, 4.5, 4.5,
                     "By volume, hot, at idle, no catalyst; UK, first used before August 1986",
                     NULL, MARK_PUBLISHED, "UK Statutory Instrument 2001/25, Schedule 3"},
    [HYDROCARBONS] = {QUANTITY_NUMBER, "", NO_LOW, NO_LOW, 1200, 1200,
                      "Parts in a million, hot, at idle, no catalyst; UK, first used from August "
                      "1975",
                      NULL, MARK_PUBLISHED, "UK inspection manual"},
    [FIRST_DRIVE] = {QUANTITY_NUMBER, NULL, 0, 0, 0, 0,
                     "10 minutes of idle looking for leaks; a mile under 20 mph with 5 stops; "
                     "wheels tightened again at 50 miles",
                     NULL, MARK_PRACTICE, "garages"},
};

static const struct calc_input acceptance_inputs[] = {
    IN_CHOICE("check", names, NULL, "what was looked at"),
    IN_MAYBE_TEXT("value", "what was measured: 72 %, 25 psi, 14.2 V"),
    IN_END,
};
static const struct calc_output acceptance_outputs[] = {
    OUT_TEXT("pass", "where it is good"),
    OUT_TEXT("stop", "where it must not run or drive"),
    OUT_TEXT("how", "it is looked at"),
    OUT_TEXT("rests-on", "how well the limit is known"),
    OUT_TEXT("ask-too", "the sum that knows more of it"),
    OUT_END,
};
static const struct calc_source acceptance_sources[] = {
    {MARK_PUBLISHED,
     "Compression, battery, cranking, drain, carbon monoxide: as each answer names"},
    {MARK_PRACTICE, "All others: what the trade looks for in a vehicle that stood"},
    SOURCE_END,
};
static const struct calc_caution acceptance_cautions[] = {
    {"Brakes are proved before it moves by itself, at walking pace, with room and a second brake. "
     "A turning engine takes hands, hair and sleeves; a tyre that stood may burst as it is filled. "
     "Exhaust kills in a closed room.",
     "The maker's figures; a garage for brakes, tyres and the first road test"},
    CAUTION_END,
};

static const char *span(struct arena *a, double low, double high, const char *unit, bool outside)
{
    const char *gap = *unit ? " " : "";
    if (isfinite(low) && isfinite(high))
        return outside ? arena_print(a, "under %.4g or over %.4g%s%s", low, high, gap, unit)
                       : arena_print(a, "%.4g to %.4g%s%s", low, high, gap, unit);
    if (isfinite(low))
        return arena_print(a, "%s %.4g%s%s", outside ? "under" : "from", low, gap, unit);
    if (isfinite(high))
        return arena_print(a, "%s %.4g%s%s", outside ? "over" : "up to", high, gap, unit);
    return "no limit told: look, and go by the maker";
}

static bool judge(struct arena *a, const struct acceptance *c, const char *typed,
                  struct calc_result *out, struct fail *f)
{
    static const double SLACK = 1e-9;
    struct fail why = {0};
    double si;
    if (!unit_parse(typed, c->quantity, *c->unit ? c->unit : NULL, &si, &why))
        return fail_set(f, FAIL_INPUT, "value: %s", why.text);
    const double value = *c->unit ? unit_in(si, c->quantity, c->unit) : si;
    if (value < c->stop_under - SLACK || value > c->stop_over + SLACK)
        calc_verdict(a, out, VERDICT_BAD, "Stop: find out why before anything else");
    else if (value < c->pass_from - SLACK || value > c->pass_to + SLACK)
        calc_verdict(a, out, VERDICT_CARE,
                     "Look: outside of what passes, not yet a reason to stop");
    else
        calc_verdict(a, out, VERDICT_GOOD, "Pass");
    return true;
}

static bool acceptance_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                           struct fail *f)
{
    static const char *const marks[] = {"", "published", "practice", "memory", "demo"};
    const struct acceptance *c = &checks[in[0].choice];
    if (in[1].set && !c->unit)
        return fail_set(f, FAIL_INPUT, "value: nothing is measured here; leave it out and do: %s",
                        c->how);
    if (in[1].set && !judge(a, c, in[1].text, out, f)) return false;
    if (c->unit) {
        out->out[0] = calc_text(span(a, c->pass_from, c->pass_to, c->unit, false));
        out->out[1] = calc_text(span(a, c->stop_under, c->stop_over, c->unit, true));
    }
    out->out[2] = calc_text(c->how);
    out->out[3] = calc_text(arena_print(a, "%s (%s)", marks[c->mark], c->source));
    if (c->sum) out->out[4] = calc_text(c->sum);
    return true;
}

const struct calc calc_acceptance[] = {
    {.name = "acceptance",
     .question = "Does it pass, after standing so long?",
     .inputs = acceptance_inputs,
     .outputs = acceptance_outputs,
     .formula = "pass within the limits, stop outside the wider ones, look between",
     .limits = "Screening: the maker's figure and the law of the place go before each of them.",
     .sources = acceptance_sources,
     .cautions = acceptance_cautions,
     .run = acceptance_run},
    {.name = NULL},
};
