/* charging.c - battery, generator, starter, coil. */
#include "bench/row.h"
#include "bench/systems.h"

static const struct calc_caution battery_cautions[] = {
    {"A charging battery gives off gas that explodes at a spark: air the place, switch off before "
     "the clamps go on or off, eye protection. Take the earth lead off first.",
     "A battery shop, for a cell that boils, bulges or has frozen"},
    CAUTION_END,
};

/* ---- charge-budget ---- */

static const struct calc_input budget_inputs[] = {
    IN_USUAL("ignition", POWER, "W", "50 W", 0, 1000, "coil, petrol pump, whatever runs always"),
    IN_USUAL("instruments", POWER, "W", "10 W", 0, 500, "gauges and their lamps"),
    IN_USUAL("headlamps", POWER, "W", "110 W", 0, 1000, "all that burn together"),
    IN_USUAL("side-lamps", POWER, "W", "20 W", 0, 500, "side, tail and number plate"),
    IN_USUAL("heater", POWER, "W", "60 W", 0, 1000, "its fan"),
    IN_USUAL("wipers", POWER, "W", "50 W", 0, 500, "their motor"),
    IN_USUAL("others", POWER, "W", "0 W", 0, 2000, "radio, cooling fan, what else runs by day"),
    IN_NEEDED("generator", CURRENT, "A", 1, 300, "what dynamo or alternator gives at speed"),
    IN_USUAL("idle-share", NUMBER, "%", "10 %", 0, 1,
             "of it at idle: a dynamo next to nothing, an alternator a third"),
    IN_USUAL("volts", VOLTAGE, "V", "13.8 V", 5, 60, "charging: 13.8 for 12 V, 7 for 6 V"),
    IN_END,
};
static const struct calc_output budget_outputs[] = {
    OUT_NUMBER("load", POWER, "W", "W", 3, "with everything on"),
    OUT_NUMBER("current", CURRENT, "A", "A", 3, "with everything on"),
    OUT_NUMBER("day-spare", CURRENT, "A", "A", 2, "left to charge by day; less than none: missing"),
    OUT_NUMBER("night-spare", CURRENT, "A", "A", 2, "left at night, dry"),
    OUT_NUMBER("rain-spare", CURRENT, "A", "A", 2, "left on a wet night with everything on"),
    OUT_NUMBER("idle-spare", CURRENT, "A", "A", 2, "left at night, standing in traffic"),
    OUT_END,
};
static const struct calc_source budget_sources[] = {
    {MARK_PRACTICE, "Current = sum of the loads / charging voltage: 13.8 V for 12 V, 6.9 to 7.2 V "
                    "for 6 V"},
    {MARK_PRACTICE, "A dynamo gives little at idle; a tenth left over keeps a battery charged"},
    SOURCE_END,
};

static bool budget_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                       struct fail *f)
{
    const double day = in[0].si + in[1].si + in[6].si;
    const double night = day + in[2].si + in[3].si, all = night + in[4].si + in[5].si;
    const double made = in[7].si, volts = in[9].si, rain_spare = made - all / volts;
    (void)f;
    out->out[0] = calc_number(all);
    out->out[1] = calc_number(all / volts);
    out->out[2] = calc_number(made - day / volts);
    out->out[3] = calc_number(made - night / volts);
    out->out[4] = calc_number(rain_spare);
    out->out[5] = calc_number(made * in[8].si - night / volts);
    if (made < night / volts)
        calc_verdict(a, out, VERDICT_BAD, "Short by %.1f A on any night", night / volts - made);
    else if (rain_spare < 0)
        calc_verdict(a, out, VERDICT_CARE, "Short by %.1f A on a wet night with everything on",
                     -rain_spare);
    else if (rain_spare < 0.1 * made)
        calc_verdict(a, out, VERDICT_CARE, "Enough, but next to nothing is left to charge with");
    else
        calc_verdict(a, out, VERDICT_GOOD, "Enough, %.1f A left on a wet night", rain_spare);
    return true;
}

/* ---- cranking ---- */

/* Published with a gauge maker's cranking table: least volts by battery temperature, 12 V. */
static const struct {
    double fahrenheit, volts;
} least_cranking[] = {{0, 8.5}, {20, 8.9}, {40, 9.3}, {60, 9.5}};
enum { CRANKING = sizeof least_cranking / sizeof *least_cranking };

static double cranking_least(double kelvin)
{
    const double f = kelvin * 1.8 - 459.67;
    if (f <= least_cranking[0].fahrenheit) return least_cranking[0].volts;
    for (int i = 1; i < CRANKING; i++)
        if (f <= least_cranking[i].fahrenheit) {
            const double share = (f - least_cranking[i - 1].fahrenheit) /
                                 (least_cranking[i].fahrenheit - least_cranking[i - 1].fahrenheit);
            return least_cranking[i - 1].volts +
                   share * (least_cranking[i].volts - least_cranking[i - 1].volts);
        }
    return least_cranking[CRANKING - 1].volts;
}

static const struct calc_input cranking_inputs[] = {
    IN_USUAL("battery", VOLTAGE, "V", "12.6 V", 4, 30, "at rest"),
    IN_NEEDED("current", CURRENT, "A", 1, 2000, "that the starter draws"),
    IN_USUAL("internal", RESISTANCE, "mohm", "8 mohm", 0, 1, "of the battery"),
    IN_USUAL("cables", RESISTANCE, "mohm", "1.5 mohm", 0, 1, "both cables, switch and earth strap"),
    IN_USUAL("temperature", TEMPERATURE, "°C", "20 °C", 233.15, 333.15, "of the battery"),
    IN_END,
};
static const struct calc_output cranking_outputs[] = {
    OUT_NUMBER("at-starter", VOLTAGE, "V", "V", 4, "while cranking"),
    OUT_NUMBER("at-battery", VOLTAGE, "V", "V", 4, "while cranking"),
    OUT_NUMBER("cable-drop", VOLTAGE, "V", "V", 3, "lost in cables and strap"),
    OUT_NUMBER("least", VOLTAGE, "V", "V", 3, "that a battery shall keep at that temperature"),
    OUT_END,
};
static const struct calc_source cranking_sources[] = {
    {MARK_PRACTICE, "Ohm's law: V = E - I (internal + cables)"},
    {MARK_PUBLISHED, "A cranking table of the trade: 9.5, 9.3, 8.9, 8.5 V at 60, 40, 20, 0 °F"},
    {MARK_PUBLISHED, "A gauge maker's manual: no more than 0.8 V lost in the starter's circuit"},
    SOURCE_END,
};

static bool cranking_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                         struct fail *f)
{
    const double at_battery = in[0].si - in[1].si * in[2].si, lost = in[1].si * in[3].si;
    const double scale = in[0].si > 8 ? 1 : 0.5, least = cranking_least(in[4].si) * scale;
    if (at_battery - lost <= 0)
        return fail_set(f, FAIL_INPUT,
                        "current: this battery cannot give it through that resistance");
    out->out[0] = calc_number(at_battery - lost);
    out->out[1] = calc_number(at_battery);
    out->out[2] = calc_number(lost);
    out->out[3] = calc_number(least);
    if (at_battery < least)
        calc_verdict(a, out, VERDICT_BAD, "The battery falls under %.1f V: charge or replace it",
                     least);
    else if (lost > 0.8 * scale)
        calc_verdict(a, out, VERDICT_CARE, "Over %.1f V lost in the cables: clean or replace them",
                     0.8 * scale);
    else
        calc_verdict(a, out, VERDICT_GOOD, "Battery and cables do");
    return true;
}

/* ---- starter-drop ---- */

static const struct calc_input starter_inputs[] = {
    IN_NEEDED("positive", VOLTAGE, "V", 0, 15, "live battery post to starter stud, cranking"),
    IN_NEEDED("earth", VOLTAGE, "V", 0, 15, "starter body to the other post, cranking"),
    IN_MAYBE("strap", VOLTAGE, "V", 0, 15, "battery post to block alone, cranking"),
    IN_END,
};
static const struct calc_output starter_outputs[] = {
    OUT_NUMBER("total", VOLTAGE, "V", "V", 3, "lost in the circuit"),
    OUT_TEXT("worst", "where to look first"),
    OUT_END,
};
static const struct calc_source starter_sources[] = {
    {MARK_PUBLISHED, "A gauge maker's manual: positive 0.5 V, earth 0.3 V, together 0.8 V at most"},
    {MARK_PUBLISHED, "A diagnosis guide: earth strap, battery to block, 0.2 V at most"},
    SOURCE_END,
};

static bool starter_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                        struct fail *f)
{
    const double positive = in[0].si, earth = in[1].si;
    const bool strap_bad = in[2].set && in[2].si > 0.2;
    (void)f;
    out->out[0] = calc_number(positive + earth);
    out->out[1] = calc_text(strap_bad                      ? "earth strap"
                            : positive / 0.5 > earth / 0.3 ? "positive cable, switch and clamps"
                                                           : "earth strap and clamps");
    if (positive > 0.5 || earth > 0.3 || strap_bad)
        calc_verdict(a, out, VERDICT_BAD, "Too much is lost; begin with: %s", out->out[1].text);
    else
        calc_verdict(a, out, VERDICT_GOOD, "The cables do; a slow starter has another reason");
    calc_note(a, out, "For 12 V; at 6 V half of these.");
    return true;
}

/* ---- battery-state ---- */

/* Battery Council tables, volts of a rested 12 V battery and gravity at 80 F. Published: volts of
 * three quarters to none, and the correction of gravity; the others told from memory. */
static const struct {
    double share, volts, gravity;
} charge[] = {{0, 11.89, 1.120},
              {0.25, 12.06, 1.155},
              {0.5, 12.24, 1.190},
              {0.75, 12.45, 1.225},
              {1, 12.65, 1.265}};
enum { CHARGES = sizeof charge / sizeof *charge };

static double charge_share(double x, bool by_gravity)
{
    double before = by_gravity ? charge[0].gravity : charge[0].volts;
    if (x <= before) return 0;
    for (int i = 1; i < CHARGES; i++) {
        const double next = by_gravity ? charge[i].gravity : charge[i].volts;
        if (x <= next)
            return charge[i - 1].share +
                   (charge[i].share - charge[i - 1].share) * (x - before) / (next - before);
        before = next;
    }
    return 1;
}

static const char *const systems[] = {"12", "6", NULL};
static const struct calc_input battery_inputs[] = {
    IN_MAYBE("volts", VOLTAGE, "V", 2, 15, "after some hours at rest"),
    IN_MAYBE("gravity", NUMBER, NULL, 1.0, 1.35, "by hydrometer, in place of volts: 1.265 is full"),
    IN_USUAL("temperature", TEMPERATURE, "°C", "80 °F", 233.15, 333.15, "of the acid"),
    IN_CHOICE("system", systems, "12", "volts of the battery: 12 or 6"),
    IN_END,
};
static const struct calc_output battery_outputs[] = {
    OUT_NUMBER("charge", NUMBER, "%", "%", 3, "state of charge"),
    OUT_NUMBER("corrected-gravity", NUMBER, NULL, NULL, 4, "gravity at 80 °F"),
    OUT_END,
};
static const struct calc_source battery_sources[] = {
    {MARK_PUBLISHED, "Battery Council table: 12.45, 12.24, 12.06, 11.89 V rested; gravity 0.016 "
                     "less at 40 °F than at 80 °F"},
    {MARK_MEMORY, "Battery Council table: full at 12.65 V; the gravities"},
    {MARK_PUBLISHED, "A charging guide: 12.6 V good, 12.4 to recharge, under 12.0 suspect"},
    SOURCE_END,
};

static bool battery_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                        struct fail *f)
{
    if (in[0].set == in[1].set)
        return fail_set(f, FAIL_INPUT, "volts: give volts or gravity, one of them");
    const double fahrenheit = in[2].si * 1.8 - 459.67;
    const double volts = in[0].set ? in[0].si * (in[3].choice == 1 ? 2 : 1) : 0;
    const double gravity = in[1].set ? in[1].si + 0.0004 * (fahrenheit - 80) : 0;
    const double share = in[0].set ? charge_share(volts, false) : charge_share(gravity, true);
    out->out[0] = calc_number(share);
    if (in[1].set) out->out[1] = calc_number(gravity);
    if (in[0].set && volts > 13)
        calc_verdict(a, out, VERDICT_CARE, "Not at rest: switch a lamp on for a minute, then wait");
    else if (in[0].set ? volts < 12.0 : share < 0.2)
        calc_verdict(a, out, VERDICT_BAD,
                     "Empty or a bad cell: charge it slowly and measure again");
    else if (in[0].set ? volts < 12.6 : share < 0.9)
        calc_verdict(a, out, VERDICT_CARE, "Charge it");
    else
        calc_verdict(a, out, VERDICT_GOOD, "Charged");
    calc_note(a, out, "An empty battery freezes in a light frost, a full one hardly ever.");
    return true;
}

/* ---- standing-drain ---- */

static const struct calc_input drain_inputs[] = {
    IN_NEEDED("current", CURRENT, "mA", 1e-4, 50, "that flows with everything off"),
    IN_USUAL("time", TIME, "d", "30 d", 3600, 3.2e7, "that it stands"),
    IN_USUAL("capacity", CHARGE, "Ah", "50 Ah", 3600, 3.6e6, "of the battery"),
    IN_END,
};
static const struct calc_output drain_outputs[] = {
    OUT_NUMBER("taken", CHARGE, "Ah", "Ah", 3, "from the battery in that time"),
    OUT_NUMBER("days-to-half", NUMBER, NULL, NULL, 3, "until half of it is gone"),
    OUT_END,
};
static const struct calc_source drain_sources[] = {
    {MARK_PRACTICE, "Charge = current x time"},
    {MARK_PUBLISHED, "Charging and diagnosis guides: 25 to 50 mA at most; here 25 and 50"},
    SOURCE_END,
};

static bool drain_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                      struct fail *f)
{
    (void)f;
    out->out[0] = calc_number(in[0].si * in[1].si);
    out->out[1] = calc_number(0.5 * in[2].si / in[0].si / 86400);
    if (in[0].si <= 0.025 * (1 + 1e-9))
        calc_verdict(a, out, VERDICT_GOOD, "Within every limit");
    else if (in[0].si <= 0.05 * (1 + 1e-9))
        calc_verdict(a, out, VERDICT_CARE,
                     "Limits differ from 25 to 50 mA; an old vehicle needs none");
    else
        calc_verdict(a, out, VERDICT_BAD, "Find it: pull fuses one by one and watch the meter");
    return true;
}

/* ---- gassing ---- */

static const struct calc_input gas_inputs[] = {
    IN_USUAL("cells", NUMBER, NULL, "6", 1, 24, "of the battery: 3 for 6 V, 6 for 12 V"),
    IN_NEEDED("current", CURRENT, "A", 0.01, 200, "still flowing when it is full"),
    IN_USUAL("limit", NUMBER, "%", "1 %", 0.001, 0.04,
             "hydrogen allowed in the air; it burns from 4 %"),
    IN_END,
};
static const struct calc_output gas_outputs[] = {
    OUT_NUMBER("hydrogen", FLOW, "L/h", "L/h", 3, "given off"),
    OUT_NUMBER("air", FLOW, "L/min", "cfm", 3, "to keep it under the limit"),
    OUT_END,
};
static const struct calc_source gas_sources[] = {
    {MARK_PRACTICE, "Faraday's law: 0.42 L of hydrogen an ampere-hour and cell"},
    {MARK_PUBLISHED, "29 CFR 1910.178(g) as interpreted: hydrogen burns from 4.1 %; plan for 1 %"},
    SOURCE_END,
};

static bool gas_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                    struct fail *f)
{
    const double hydrogen = in[0].si * in[1].si * 0.42e-3 / 3600;
    (void)a, (void)f;
    out->out[0] = calc_number(hydrogen);
    out->out[1] = calc_number(hydrogen / in[2].si);
    return true;
}

const struct calc calc_charging[] = {
    {.name = "charge-budget",
     .question = "Does the generator keep up, by day and on a wet night?",
     .inputs = budget_inputs,
     .outputs = budget_outputs,
     .formula = "spare = what it gives - sum of the loads / charging voltage; day: ignition, "
                "instruments, others; night: and lamps; rain: everything",
     .limits = "Steady loads; indicators, horn and brake lamps come and go.",
     .sources = budget_sources,
     .run = budget_run},
    {.name = "cranking",
     .question = "What is left while cranking?",
     .inputs = cranking_inputs,
     .outputs = cranking_outputs,
     .formula = "V = E - I (internal + cables); least by temperature, half of it for 6 V",
     .limits = "Once the starter turns; the first moment takes more.",
     .sources = cranking_sources,
     .cautions = battery_cautions,
     .run = cranking_run},
    {.name = "starter-drop",
     .question = "Do the starter's cables lose too much?",
     .inputs = starter_inputs,
     .outputs = starter_outputs,
     .formula = "positive at most 0.5 V, earth 0.3 V, strap 0.2 V",
     .sources = starter_sources,
     .cautions = battery_cautions,
     .run = starter_run},
    {.name = "battery-state",
     .question = "How full is the battery?",
     .inputs = battery_inputs,
     .outputs = battery_outputs,
     .formula = "by the table, straight between its rows; gravity + 0.0004 x (°F - 80)",
     .limits = "Lead and acid, at rest for some hours; a 6 V battery by half the volts.",
     .sources = battery_sources,
     .cautions = battery_cautions,
     .run = battery_run},
    {.name = "standing-drain",
     .question = "How long until the battery is flat?",
     .inputs = drain_inputs,
     .outputs = drain_outputs,
     .formula = "taken = current x time",
     .limits = "The battery's own discharge comes on top.",
     .sources = drain_sources,
     .run = drain_run},
    {.name = "gassing",
     .question = "How much air does a charging battery need?",
     .inputs = gas_inputs,
     .outputs = gas_outputs,
     .formula = "hydrogen = cells x A x 0.42 L/h; air = hydrogen / limit",
     .limits = "Vented lead and acid batteries, overcharging.",
     .sources = gas_sources,
     .cautions = battery_cautions,
     .run = gas_run},
    {.name = NULL},
};
