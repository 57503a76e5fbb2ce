/* fuel.c - air and carburettor, pump, tank, range, blends. */
#include "bench/pipe.h"
#include "bench/row.h"
#include "bench/systems.h"

static const double PI = 3.14159265358979323846;

static const struct calc_caution fuel_cautions[] = {
    {"Petrol vapour runs along the floor and burns from any spark. Battery off, outside, no flame "
     "or lamp that breaks, extinguisher at hand; catch what runs out.",
     "A garage with a fuel retriever, for draining a full tank"},
    CAUTION_END,
};

/* ---- carburettor-air ---- */

static const struct calc_input air_inputs[] = {
    IN_NEEDED("displacement", VOLUME, "cm3", 2e-5, 0.03, "of the engine"),
    IN_NEEDED("engine-speed", TURNING, "rpm", 50, 1300, "highest that is used"),
    IN_USUAL("filling", NUMBER, "%", "85 %", 0.4, 1.2,
             "volumetric efficiency: 75 old side valve, 85 usual, 95 tuned"),
    IN_USUAL("chokes", NUMBER, NULL, "1", 1, 12, "that share the air at the same time"),
    IN_USUAL("air-speed", SPEED, "m/s", "100 m/s", 40, 160, "wanted in the choke"),
    IN_END,
};
static const struct calc_output air_outputs[] = {
    OUT_NUMBER("air", FLOW, "L/min", "cfm", 4, "that the engine draws"),
    OUT_NUMBER("choke", LENGTH, "mm", "in", 3, "diameter of each choke for that"),
    OUT_END,
};
static const struct calc_source air_sources[] = {
    {MARK_PUBLISHED, "A tuner's formula: cfm = cubic inches x rpm x filling / 3456"},
    {MARK_PRACTICE, "80 to 120 m/s in the choke at the highest speed"},
    SOURCE_END,
};

static bool air_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                    struct fail *f)
{
    const double air = in[0].si * in[1].si / (4 * PI) * in[2].si; /* one filling in two turns */
    (void)f;
    out->out[0] = calc_number(air);
    out->out[1] = calc_number(sqrt(4 * air / (PI * in[3].si * in[4].si)));
    calc_note(a, out,
              "Smaller pulls better from below, larger gives more at the top; an engine with "
              "a choke to each cylinder needs larger ones, since it draws in gulps.");
    return true;
}

/* ---- fuel-need ---- */

static const struct calc_input need_inputs[] = {
    IN_NEEDED("power", POWER, "hp", 100, 2e6, "of the engine"),
    IN_USUAL("consumption", NUMBER, NULL, "0.5", 0.35, 0.8,
             "pounds an hour and horsepower: petrol 0.45 to 0.55"),
    IN_USUAL("density", NUMBER, NULL, "0.731", 0.68, 0.9, "kilogrammes a litre"),
    IN_END,
};
static const struct calc_output need_outputs[] = {
    OUT_NUMBER("flow", FLOW, "L/h", "US gal/h", 3, "that the pump must give at full power"),
    OUT_NUMBER("mass", NUMBER, NULL, NULL, 3, "kilogrammes an hour"),
    OUT_NUMBER("pump", FLOW, "L/h", "US gal/h", 2, "to look for: half as much again"),
    OUT_END,
};
static const struct calc_source need_sources[] = {
    {MARK_PRACTICE, "Flow = power x consumption / density; 0.45 to 0.55 lb/(hp h) for petrol"},
    {MARK_PUBLISHED, "US Department of Energy property table: petrol 6.0 to 6.5 lb/US gal"},
    SOURCE_END,
};

static bool need_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                     struct fail *f)
{
    const double horses = unit_in(in[0].si, QUANTITY_POWER, "hp");
    const double mass = horses * in[1].si * 0.45359237; /* kg/h */
    const double flow = mass / in[2].si * 1e-3 / 3600;
    (void)a, (void)f;
    out->out[0] = calc_number(flow);
    out->out[1] = calc_number(mass);
    out->out[2] = calc_number(1.5 * flow);
    return true;
}

/* ---- fuel-line, and the pump at its end ---- */

#define LINE_INPUTS                                                                                \
    IN_NEEDED("flow", FLOW, "L/h", 1e-8, 0.05, "through the line"),                                \
        IN_USUAL("bore", LENGTH, "mm", "8 mm", 1e-3, 0.15, "inside diameter"),                     \
        IN_USUAL("length", LENGTH, "m", "4 m", 0.01, 300, "of the line"),                          \
        IN_USUAL("lift", LENGTH, "m", "0.5 m", -5, 50, "from the tank's floor to the float bowl"), \
        IN_USUAL("density", NUMBER, NULL, "0.745", 0.6, 1.2, "kilogrammes a litre"),               \
        IN_USUAL("viscosity", NUMBER, NULL, "0.5", 0.1, 100, "millipascal-seconds: petrol 0.5"),   \
        IN_USUAL("roughness", LENGTH, "mm", "0 mm", 0, 2e-3, "inside: 0 drawn pipe and hose")
static const struct calc_input line_inputs[] = {LINE_INPUTS, IN_END};
static const struct calc_output line_outputs[] = {
    OUT_NUMBER("loss", PRESSURE, "kPa", "psi", 3, "by friction"),
    OUT_NUMBER("lift-loss", PRESSURE, "kPa", "psi", 3, "by height"),
    OUT_NUMBER("together", PRESSURE, "kPa", "psi", 3, "that the pump must overcome"),
    OUT_NUMBER("speed", SPEED, "m/s", "ft/s", 3, "in the line"),
    OUT_NUMBER("reynolds", NUMBER, NULL, NULL, 4, "Reynolds number"),
    OUT_NUMBER("friction", NUMBER, NULL, NULL, 4, "friction factor"),
    OUT_NUMBER("head", LENGTH, "m", "ft", 3, "the friction as a height of the fluid"),
    OUT_TEXT("kind", "laminar, turbulent or between"),
    OUT_END,
};
static const struct calc_source line_sources[] = {
    {MARK_PRACTICE, "Darcy and Weisbach; f = 64 / Re below 2300, Colebrook's equation above"},
    SOURCE_END,
};

static struct pipe_flow flow_of(const struct calc_value *line)
{
    return pipe_flow(line[0].si, line[1].si, line[2].si, line[4].si * 1e3, line[5].si * 1e-3,
                     line[6].si);
}

static double lift_of(const struct calc_value *line)
{
    return line[4].si * 1e3 * 9.80665 * line[3].si;
}

static bool line_holds(const struct calc_value *line, struct fail *f)
{
    return (line[6].si <= 0.05 * line[1].si ||
            fail_set(f, FAIL_INPUT, "roughness: over a twentieth of the bore; this is no pipe")) &&
           (flow_of(line).speed < 30 ||
            fail_set(f, FAIL_INPUT, "flow: it would run at %.0f m/s; a larger bore",
                     flow_of(line).speed));
}

static bool line_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                     struct fail *f)
{
    if (!line_holds(in, f)) return false;
    const struct pipe_flow p = flow_of(in);
    const double lift = lift_of(in), density = in[4].si * 1e3;
    out->out[0] = calc_number(p.loss);
    out->out[1] = calc_number(lift);
    out->out[2] = calc_number(p.loss + lift);
    out->out[3] = calc_number(p.speed);
    out->out[4] = calc_number(p.reynolds);
    out->out[5] = calc_number(p.friction);
    out->out[6] = calc_number(p.loss / (density * 9.80665));
    out->out[7] = calc_text(p.reynolds < 2300   ? "laminar"
                            : p.reynolds < 4000 ? "between"
                                                : "turbulent");
    calc_note(a, out,
              "Each elbow and filter adds; on the side that sucks, a warm day makes vapour.");
    return true;
}

static const char *const bowls[] = {"downdraught", "sidedraught", NULL};
static const double bowl_low[] = {4 * 6894.757293, 2.5 * 6894.757293};
static const double bowl_high[] = {7 * 6894.757293, 4 * 6894.757293};
static const struct calc_input pump_inputs[] = {
    LINE_INPUTS,
    IN_NEEDED("pump", PRESSURE, "psi", 1000, 1e6, "that it gives without flow"),
    IN_CHOICE("carburettor", bowls, "downdraught",
              "downdraught, or sidedraught and older European"),
    IN_MAYBE("most", PRESSURE, "psi", 5000, 2e5, "that the needle valve holds, if known"),
    IN_END,
};
static const struct calc_output pump_outputs[] = {
    OUT_NUMBER("at-bowl", PRESSURE, "kPa", "psi", 3, "without flow"),
    OUT_NUMBER("flowing", PRESSURE, "kPa", "psi", 3,
               "left at that flow, if the pump kept its pressure"),
    OUT_NUMBER("needle-most", PRESSURE, "kPa", "psi", 3, "that the bowl takes"),
    OUT_TEXT("regulator", "needed or not"),
    OUT_END,
};
static const struct calc_source pump_sources[] = {
    {MARK_PRACTICE,
     "Downdraught 4 to 7 psi, sidedraught and older European 2.5 to 4; over 7 floods"},
    {MARK_PRACTICE, "Darcy and Weisbach; height times density"},
    SOURCE_END,
};

static bool pump_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                     struct fail *f)
{
    if (!line_holds(in, f)) return false;
    const double still = in[7].si - lift_of(in), flowing = still - flow_of(in).loss;
    const double most = in[9].set ? in[9].si : bowl_high[in[8].choice];
    const double low = fmin(bowl_low[in[8].choice], most);
    out->out[0] = calc_number(still);
    out->out[1] = calc_number(flowing);
    out->out[2] = calc_number(most);
    out->out[3] = calc_text(still > most ? "needed" : "not needed");
    if (flowing <= 0)
        calc_verdict(a, out, VERDICT_BAD, "Nothing arrives: another pump, or a larger bore");
    else if (still > most)
        calc_verdict(a, out, VERDICT_BAD,
                     "It floods: fit a regulator, and a line back to the tank");
    else if (flowing < 0.5 * low)
        calc_verdict(a, out, VERDICT_CARE, "Little is left at full flow: the bowl may run low");
    else
        calc_verdict(a, out, VERDICT_GOOD, "The bowl is fed and does not flood");
    return true;
}

/* ---- pump-test ---- */

static const struct calc_input test_inputs[] = {
    IN_MAYBE("pressure", PRESSURE, "psi", 0, 1e6, "measured, without flow"),
    IN_USUAL("least", PRESSURE, "psi", "2.5 psi", 0, 1e6, "pressure that the maker asks for"),
    IN_USUAL("most", PRESSURE, "psi", "7 psi", 1000, 1e6, "pressure that the maker allows"),
    IN_MAYBE("delivered", VOLUME, "mL", 0, 0.02, "into a bottle"),
    IN_USUAL("time", TIME, "s", "30 s", 1, 600, "for that"),
    IN_USUAL("least-flow", FLOW, "mL/min", "940 mL/min", 1e-6, 1e-3, "that the maker asks for"),
    IN_MAYBE("vacuum", PRESSURE, "inHg", 0, 1e5, "that it sucks against a closed line"),
    IN_END,
};
static const struct calc_output test_outputs[] = {
    OUT_NUMBER("flow", FLOW, "mL/min", "US qt/min", 3, "that it gave"),
    OUT_TEXT("found", "what is wrong, if anything"),
    OUT_END,
};
static const struct calc_source test_sources[] = {
    {MARK_PUBLISHED, "Workshop manual of a V8 truck: 28 to 34 kPa, 470 mL in 30 s"},
    {MARK_PUBLISHED, "Workshop manuals of small cars: 2.8 to 3.8 psi, 1.1 US quarts a minute"},
    {MARK_PUBLISHED, "Workshop manual: 15 inHg of suction at least"},
    SOURCE_END,
};

static bool test_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                     struct fail *f)
{
    static const double LEAST_VACUUM = 15 * 3386.38864;
    if (!in[0].set && !in[3].set && !in[6].set)
        return fail_set(f, FAIL_INPUT,
                        "pressure: nothing measured; give pressure, delivered or vacuum");
    if (in[1].si > in[2].si) return fail_set(f, FAIL_INPUT, "least: it is over the most allowed");
    const double flow = in[3].set ? in[3].si / in[4].si : 0;
    const char *found = "nothing";
    if (in[0].set && in[0].si < in[1].si * (1 - 1e-9))
        found = "pressure too low: diaphragm, spring or valves";
    if (in[0].set && in[0].si > in[2].si * (1 + 1e-9)) found = "pressure too high: it floods";
    if (in[3].set && flow < in[5].si * (1 - 1e-9))
        found = "gives too little: blocked line, filter, worn lever";
    if (in[6].set && in[6].si < LEAST_VACUUM * (1 - 1e-9))
        found = "sucks too little: inlet valve, diaphragm, a hose that draws air";
    if (in[3].set) out->out[0] = calc_number(flow);
    out->out[1] = calc_text(found);
    if (text_is(found, "nothing"))
        calc_verdict(a, out, VERDICT_GOOD, "It does; the pressure must stay for minutes after");
    else
        calc_verdict(a, out, VERDICT_BAD, "It does not: %s", found);
    return true;
}

/* ---- fuel-blend ---- */

static const struct calc_input blend_inputs[] = {
    IN_USUAL("ethanol", NUMBER, "%", "10 %", 0, 1, "by volume: 5, 10, 85"),
    IN_END,
};
static const struct calc_output blend_outputs[] = {
    OUT_NUMBER("energy", NUMBER, NULL, NULL, 4, "Btu a US gallon, lower heat value"),
    OUT_NUMBER("less-energy", NUMBER, "%", "%", 2, "than plain petrol"),
    OUT_NUMBER("air-fuel", NUMBER, NULL, NULL, 3, "ratio for complete burning, by mass"),
    OUT_NUMBER("density", NUMBER, NULL, NULL, 3, "kilogrammes a litre"),
    OUT_NUMBER("richer", NUMBER, "%", "%", 2, "more fuel by volume for the same air"),
    OUT_TEXT("burns-between", "petrol vapour in air"),
    OUT_NUMBER("flash-point", TEMPERATURE, "°C", "°F", 3, "of petrol"),
    OUT_NUMBER("self-ignition", TEMPERATURE, "°C", "°F", 3, "of petrol"),
    OUT_END,
};
static const struct calc_source blend_sources[] = {
    {MARK_PUBLISHED, "US Department of Energy property table: petrol 6.0 to 6.5 lb/US gal (6.25 "
                     "taken), 115 000 Btu; ethanol 6.61 lb, 76 000 Btu, 9.0; flash point -45 °F, "
                     "495 °F, 1.4 to 7.6 %"},
    {MARK_PRACTICE, "Petrol burns with 14.7 times its mass of air"},
    {MARK_MEMORY, "US EPA: 15 % ethanol is not approved for vehicles older than model year 2001"},
    SOURCE_END,
};

static bool blend_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                      struct fail *f)
{
    static const double PETROL = 6.25, ETHANOL = 6.61, POUNDS_A_GALLON = 0.45359237 / 3.785411784;
    const double e = in[0].si, petrol = (1 - e) * PETROL, ethanol = e * ETHANOL;
    const double energy = (1 - e) * 115000 + e * 76000, air = 14.7 * petrol + 9.0 * ethanol;
    (void)f;
    out->out[0] = calc_number(energy);
    out->out[1] = calc_number(1 - energy / 115000);
    out->out[2] = calc_number(air / (petrol + ethanol));
    out->out[3] = calc_number((petrol + ethanol) * POUNDS_A_GALLON);
    out->out[4] = calc_number(14.7 * PETROL / air - 1);
    out->out[5] = calc_text("1.4 to 7.6 %");
    out->out[6] = calc_number((-45 + 459.67) / 1.8);
    out->out[7] = calc_number((495 + 459.67) / 1.8);
    if (e > 0.1)
        calc_verdict(a, out, VERDICT_CARE,
                     "Old hoses, cork, shellac and zinc suffer; jets are lean");
    if (e > 0)
        calc_note(a, out,
                  "Ethanol takes up water and parts from the petrol as it stands: leave none "
                  "in the tank over winter. Hose: SAE J30 R9, R12 or R14.");
    return true;
}

const struct calc calc_fuel[] = {
    {.name = "carburettor-air",
     .question = "How much air, and which choke?",
     .inputs = air_inputs,
     .outputs = air_outputs,
     .formula = "air = displacement x turns / 2 x filling; choke = root of 4 air / (pi x chokes x "
                "speed)",
     .limits = "Four-stroke engines that breathe by themselves.",
     .sources = air_sources,
     .run = air_run},
    {.name = "fuel-need",
     .question = "How much fuel must the pump give?",
     .inputs = need_inputs,
     .outputs = need_outputs,
     .formula = "flow = power x consumption / density",
     .limits = "At full power.",
     .sources = need_sources,
     .cautions = fuel_cautions,
     .run = need_run},
    {.name = "fuel-line",
     .question = "What does the fuel line cost in pressure?",
     .inputs = line_inputs,
     .outputs = line_outputs,
     .formula =
         "loss = f (L/D) density v^2/2; f = 64/Re below 2300, else 1/root f = -2 log (e/(3.7 D) + "
         "2.51/(Re root f)); lift = density x g x height",
     .limits = "A straight, full pipe; between Re 2300 and 4000 it may be less.",
     .sources = line_sources,
     .cautions = fuel_cautions,
     .run = line_run},
    {.name = "fuel-pump",
     .question = "Does this pump feed the carburettor, and does it flood it?",
     .inputs = pump_inputs,
     .outputs = pump_outputs,
     .formula = "at the bowl = pump - lift (- line, when flowing); over what the needle holds: a "
                "regulator",
     .limits = "Pumps give less pressure as they flow more: the flowing figure is the most.",
     .sources = pump_sources,
     .cautions = fuel_cautions,
     .run = pump_run},
    {.name = "pump-test",
     .question = "Is this fuel pump sound?",
     .inputs = test_inputs,
     .outputs = test_outputs,
     .formula =
         "pressure between the maker's limits, flow = delivered / time over the least, suction "
         "of 15 inHg",
     .limits = "The maker's figures go before the usual ones.",
     .sources = test_sources,
     .cautions = fuel_cautions,
     .run = test_run},
    {.name = "fuel-blend",
     .question = "What does ethanol in the petrol change?",
     .inputs = blend_inputs,
     .outputs = blend_outputs,
     .formula = "energy and mass mixed by volume; air by mass",
     .limits = "Petrol differs from pump to pump.",
     .sources = blend_sources,
     .cautions = fuel_cautions,
     .run = blend_run},
    {.name = NULL},
};
