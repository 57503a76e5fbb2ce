#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "base/random.h"
#include "base/unit.h"
#include "base/unit_table.h"

#include <math.h>
#include <string.h>

#define COUNT(array) (sizeof(array) / sizeof *(array))

static void near(const char *what, double got, double expected, double relative)
{
    if (fabs(got - expected) <= relative * fabs(expected)) return;
    fail_msg("%s: %.17g, expected %.17g", what, got, expected);
}

/* ---- reference values --------------------------------------------------------------------------
 */

struct reading {
    const char *s;
    enum quantity quantity;
    double si;
};

/* NIST SP 811 (2008), B.8, the printed factors (seven figures; exact ones in full), read for one
 * unit. */
static void reads_factors_of_nist_sp_811(void **state)
{
    (void)state;
    static const struct reading cases[] = {
        {"1 in", QUANTITY_LENGTH, 2.54e-2},
        {"1 mil", QUANTITY_LENGTH, 2.54e-5},
        {"1 ft", QUANTITY_LENGTH, 3.048e-1},
        {"1 yd", QUANTITY_LENGTH, 9.144e-1},
        {"1 mi", QUANTITY_DISTANCE, 1.609344e3},
        {"1 in2", QUANTITY_AREA, 6.4516e-4},
        {"1 ft2", QUANTITY_AREA, 9.290304e-2},
        {"1 in3", QUANTITY_VOLUME, 1.638706e-5},
        {"1 ft3", QUANTITY_VOLUME, 2.831685e-2},
        {"1 imp gal", QUANTITY_VOLUME, 4.54609e-3},
        {"1 US gal", QUANTITY_VOLUME, 3.785412e-3},
        {"1 US qt", QUANTITY_VOLUME, 9.463529e-4},
        {"1 US pt", QUANTITY_VOLUME, 4.731765e-4},
        {"1 imp fl oz", QUANTITY_VOLUME, 2.841306e-5},
        {"1 US fl oz", QUANTITY_VOLUME, 2.957353e-5},
        {"1 oz", QUANTITY_MASS, 2.834952e-2},
        {"1 lb", QUANTITY_MASS, 4.5359237e-1},
        {"1 long cwt", QUANTITY_MASS, 5.080235e1},
        {"1 short cwt", QUANTITY_MASS, 4.535924e1},
        {"1 long ton", QUANTITY_MASS, 1.016047e3},
        {"1 short ton", QUANTITY_MASS, 9.071847e2},
        {"1 km/h", QUANTITY_SPEED, 2.777778e-1},
        {"1 mph", QUANTITY_SPEED, 4.4704e-1},
        {"1 ft/min", QUANTITY_SPEED, 5.08e-3},
        {"1 rpm", QUANTITY_TURNING, 1.047198e-1},
        {"1 kgf", QUANTITY_FORCE, 9.80665},
        {"1 lbf", QUANTITY_FORCE, 4.4482216152605},
        {"1 kgf m", QUANTITY_TORQUE, 9.80665},
        {"1 lbf ft", QUANTITY_TORQUE, 1.355818},
        {"1 lbf in", QUANTITY_TORQUE, 1.129848e-1},
        {"1 psi", QUANTITY_PRESSURE, 6.894757e3},
        {"1 kgf/cm2", QUANTITY_PRESSURE, 9.80665e4},
        {"1 atm", QUANTITY_PRESSURE, 1.01325e5},
        {"1 mmHg", QUANTITY_PRESSURE, 1.333224e2},
        {"1 inHg", QUANTITY_PRESSURE, 3.386389e3},
        {"1 inH2O", QUANTITY_PRESSURE, 2.490889e2},
        {"1 hp", QUANTITY_POWER, 7.456999e2},
        {"1 metric hp", QUANTITY_POWER, 7.354988e2},
        {"1 BTU/h", QUANTITY_POWER, 2.930711e-1},
        {"1 cfm", QUANTITY_FLOW, 4.719474e-4},
        {"1 US qt/min", QUANTITY_FLOW, 1.577255e-5},
        {"3.6 m3/h", QUANTITY_FLOW, 1e-3},
        {"1 US gal/min", QUANTITY_FLOW, 6.309020e-5},
        {"1 deg", QUANTITY_ANGLE, 1.745329e-2},
        {"1 arcmin", QUANTITY_ANGLE, 2.908882e-4},
        {"1 Ah", QUANTITY_CHARGE, 3.6e3},
        {"1 lbf/in", QUANTITY_STIFFNESS, 1.751268e2},
        {"1 kgf/mm", QUANTITY_STIFFNESS, 9.80665e3},
        {"30 N/mm", QUANTITY_STIFFNESS, 30e3},
        {"79.3 GPa", QUANTITY_PRESSURE, 79.3e9},
        {"1.5 Hz", QUANTITY_TURNING, 9.424778},
        {"90 cycles/min", QUANTITY_TURNING, 9.424778},
        {"1 ft/s2", QUANTITY_ACCELERATION, 3.048e-1},
        {"1 g", QUANTITY_ACCELERATION, 9.80665},
        {"1 °F", QUANTITY_TEMPERATURE, (1 + 459.67) / 1.8},
    };
    for (size_t i = 0; i < COUNT(cases); i++) {
        struct fail f = {0};
        double si = 0;
        if (!unit_parse(cases[i].s, cases[i].quantity, NULL, &si, &f)) fail_msg("%s", f.text);
        near(cases[i].s, si, cases[i].si, 5e-7);
    }
}

/* One quantity in two units; the fourth column is what the second unit must show. Sources: NIST SP
 * 811 for 1 hp, 1 US gal, 1 psi; the others reckoned with a units program from the same exact
 * factors. */
static void converts_reference_cases(void **state)
{
    (void)state;
    static const struct {
        const char *given;
        enum quantity quantity;
        const char *unit;
        double expected, tolerance;
    } cases[] = {
        {"75 lbf ft", QUANTITY_TORQUE, "Nm", 101.686, 1e-5},
        {"120 Nm", QUANTITY_TORQUE, "lbf ft", 88.5075, 1e-5},
        {"32 psi", QUANTITY_PRESSURE, "kPa", 220.632, 1e-5},
        {"1 kgf/cm2", QUANTITY_PRESSURE, "psi", 14.2233, 1e-5},
        {"180 F", QUANTITY_TEMPERATURE, "C", 82.222, 1e-4},
        {"1 hp", QUANTITY_POWER, "kW", 0.745699872, 1e-6},
        {"1 US gal", QUANTITY_VOLUME, "L", 3.785411784, 1e-9},
        {"1 psi", QUANTITY_PRESSURE, "kPa", 6.894757293, 1e-8},
        {"1 imp gal", QUANTITY_VOLUME, "imp pt", 8, 1e-15},
        {"1 imp pt", QUANTITY_VOLUME, "imp fl oz", 20, 1e-15},
        {"1 US gal", QUANTITY_VOLUME, "US pt", 8, 1e-15},
        {"1 US pt", QUANTITY_VOLUME, "US fl oz", 16, 1e-15},
        {"1 US gal", QUANTITY_VOLUME, "cu in", 231, 1e-14},
        {"1 imp fl oz", QUANTITY_VOLUME, "mL", 28.4130625, 1e-14},
        {"1 US fl oz", QUANTITY_VOLUME, "mL", 29.5735295625, 1e-14},
        {"-40 F", QUANTITY_TEMPERATURE, "C", -40, 1e-13},
        {"212 F", QUANTITY_TEMPERATURE, "C", 100, 1e-13},
        {"0 K", QUANTITY_TEMPERATURE, "C", -273.15, 1e-15},
        {"1 UK cwt", QUANTITY_MASS, "lb", 112, 1e-15},
        {"1 atm", QUANTITY_PRESSURE, "mmHg", 760, 2e-7}, /* differ by design: 1 Torr is atm/760 */
    };
    for (size_t i = 0; i < COUNT(cases); i++) {
        struct fail f = {0};
        double si = 0;
        if (!unit_parse(cases[i].given, cases[i].quantity, NULL, &si, &f)) fail_msg("%s", f.text);
        const struct unit *u = unit_find(cases[i].unit, strlen(cases[i].unit), cases[i].quantity);
        assert_non_null(u);
        assert_int_equal(u->kind, cases[i].quantity);
        near(cases[i].given, (si - u->offset) / u->factor, cases[i].expected, cases[i].tolerance);
    }
}

/* ---- reading -----------------------------------------------------------------------------------
 */

static void reads_what_people_write(void **state)
{
    (void)state;
    static const struct reading cases[] = {
        {"3/8 in", QUANTITY_LENGTH, 0.009525},
        {"1 1/2in", QUANTITY_LENGTH, 0.0381},
        {"1-1/2 in", QUANTITY_LENGTH, 0.0381},
        {" 1 1/2\"", QUANTITY_LENGTH, 0.0381},
        {"12 thou", QUANTITY_LENGTH, 0.0003048},
        {".5 in", QUANTITY_LENGTH, 0.0127},
        {"5 ft 6 in", QUANTITY_LENGTH, 1.6764},
        {"5ft6in", QUANTITY_LENGTH, 1.6764},
        {"5' 6 1/2\"", QUANTITY_LENGTH, 1.6891},
        {"5 ft .5 in", QUANTITY_LENGTH, 1.5367},
        {"5'-6\"", QUANTITY_LENGTH, 1.6764}, /* as on drawings */
        {"-5 ft 6 in", QUANTITY_LENGTH, -1.6764},
        {"2.54 CM", QUANTITY_LENGTH, 0.0254},
        {"12,345 miles", QUANTITY_DISTANCE, 12345 * 1609.344},
        {"1,234.5 mi", QUANTITY_DISTANCE, 1234.5 * 1609.344},
        {"2.5 psi", QUANTITY_PRESSURE, 17236.893233},
        {"30 lbf/in²", QUANTITY_PRESSURE, 206842.7188},
        {"2.1 Bar", QUANTITY_PRESSURE, 210000},
        {"600 N/mm2", QUANTITY_PRESSURE, 6e8},
        {"55 Nm", QUANTITY_TORQUE, 55},
        {"55 N·m", QUANTITY_TORQUE, 55},
        {"40 ft-lb", QUANTITY_TORQUE, 54.2327179},
        {"40 lb.ft", QUANTITY_TORQUE, 54.2327179},
        {"40 ft lbs", QUANTITY_TORQUE, 54.2327179},
        {"1 h 30 min", QUANTITY_TIME, 5400},
        {"90 min", QUANTITY_TIME, 5400},
        {"1.5 h", QUANTITY_TIME, 5400},
        {"2 days 3 hours", QUANTITY_TIME, 183600},
        {"3 weeks", QUANTITY_TIME, 1814400},
        {"5 C", QUANTITY_TEMPERATURE, 278.15},
        {"5°C", QUANTITY_TEMPERATURE, 278.15},
        {"-40 F", QUANTITY_TEMPERATURE, 233.15},
        {"10°", QUANTITY_ANGLE, 0.174532925},
        {"1 deg 30 min", QUANTITY_ANGLE, 0.0261799388},
        {"950 r.p.m.", QUANTITY_TURNING, 99.4837674},
        {"1 lb 4 oz", QUANTITY_MASS, 0.566990463},
        {"1 UK cwt 14 lb", QUANTITY_MASS, 57.15263862},
        {"1,275 cc", QUANTITY_VOLUME, 0.001275},
        {"7.5 Imperial pints", QUANTITY_VOLUME, 7.5 * 4.54609e-3 / 8},
        {"12 L/h", QUANTITY_FLOW, 12e-3 / 3600},
        {"12.6 V", QUANTITY_VOLTAGE, 12.6},
        {"50 mA", QUANTITY_CURRENT, 0.05},
        {"1.5 Ω", QUANTITY_RESISTANCE, 1.5},
        {"10 kΩ", QUANTITY_RESISTANCE, 1e4},
        {"44 Ah", QUANTITY_CHARGE, 158400},
        {"35 %", QUANTITY_NUMBER, 0.35},
        {"0.35", QUANTITY_NUMBER, 0.35},
        {"3/4", QUANTITY_NUMBER, 0.75},
        {"-1e3", QUANTITY_NUMBER, -1000},
        {"100 lb", QUANTITY_FORCE, 444.82216},
        {"30 mph", QUANTITY_SPEED, 13.4112},
    };
    for (size_t i = 0; i < COUNT(cases); i++) {
        struct fail f = {0};
        double si = 0;
        if (!unit_parse(cases[i].s, cases[i].quantity, NULL, &si, &f)) fail_msg("%s", f.text);
        near(cases[i].s, si, cases[i].si, 4e-9); /* as many digits as are given above */
    }
    double si;
    struct fail f = {0};
    assert_true(unit_parse("12", QUANTITY_LENGTH, "mm", &si, &f) && si == 0.012);
    assert_true(unit_parse("12 in", QUANTITY_LENGTH, "mm", &si, &f));
    near("unit given beside bare", si, 0.3048, 1e-15);
    assert_true(unit_parse("20", QUANTITY_TEMPERATURE, "C", &si, &f));
    near("bare temperature", si, 293.15, 1e-15);
    assert_true(unit_parse("0", QUANTITY_TIME, "h", &si, &f) && si == 0);
}

static void refuses_and_says_why(void **state)
{
    (void)state;
    static const struct {
        const char *s;
        enum quantity quantity;
        const char *says;
    } cases[] = {
        {"12", QUANTITY_LENGTH, "a number without a unit; length is given in mm"},
        {"", QUANTITY_LENGTH, "no number"},
        {"mm", QUANTITY_LENGTH, "no number"},
        {"-", QUANTITY_LENGTH, "no number"},
        {"12 psi", QUANTITY_LENGTH, "'psi' is a unit of pressure; length is given in mm"},
        {"12 mm2", QUANTITY_LENGTH, "'mm2' is a unit of area"},
        {"12 mm", QUANTITY_PRESSURE, "'mm' is a unit of length; pressure is given in Pa"},
        {"12 furlongs", QUANTITY_LENGTH, "no unit 'furlongs'"},
        {"5 gal", QUANTITY_VOLUME, "'gal' has two sizes, imperial and US; say which"},
        {"5 pints", QUANTITY_VOLUME, "two sizes"},
        {"5 gal/h", QUANTITY_FLOW, "two sizes"},
        {"3 cwt", QUANTITY_MASS, "two sizes"},
        {"3 tons", QUANTITY_MASS, "two sizes"},
        {"6 in 5 ft", QUANTITY_LENGTH, "larger unit comes first"},
        {"6 in 5 in", QUANTITY_LENGTH, "larger unit comes first"},
        {"5 ft 6", QUANTITY_LENGTH, "a number without a unit"},
        {"1h30", QUANTITY_TIME, "a number without a unit"},
        {"3/0 in", QUANTITY_LENGTH, "no unit '/0 in'"},
        {"1 3/0 in", QUANTITY_LENGTH, "no unit"},
        {"1/2/3 in", QUANTITY_LENGTH, "no unit"},
        {"1.5/2 in", QUANTITY_LENGTH, "no unit"},
        {"1,25 mm", QUANTITY_LENGTH, "no unit ',25 mm'"},
        {"0x10 mm", QUANTITY_LENGTH, "no unit"},
        {"nan mm", QUANTITY_LENGTH, "no number"},
        {"inf mm", QUANTITY_LENGTH, "no number"},
        {"1e400 mm", QUANTITY_LENGTH, "too large"},
        {"-300 C", QUANTITY_TEMPERATURE, "colder than absolute zero"},
        {"5 mpa", QUANTITY_PRESSURE, "no unit 'mpa'"}, /* milli or mega: 10^9 apart */
        {"5 MV", QUANTITY_VOLTAGE, "no unit 'MV'"},
        {"5 C 3 F", QUANTITY_TEMPERATURE, "no unit"},
        {"--5 mm", QUANTITY_LENGTH, "no number"},
        {"5 m\n", QUANTITY_LENGTH, "no unit"},
    };
    for (size_t i = 0; i < COUNT(cases); i++) {
        struct fail f = {0};
        double si = 77;
        if (unit_parse(cases[i].s, cases[i].quantity, NULL, &si, &f))
            fail_msg("'%s' was taken, as %g", cases[i].s, si);
        assert_true(si == 77);
        assert_int_equal(f.kind, FAIL_INPUT);
        if (!strstr(f.text, cases[i].says)) fail_msg("'%s' says: %s", cases[i].s, f.text);
    }
}

/* Every name of every unit is found as that unit, by its own quantity; and the list of units that
 * would do fits in the line, for every quantity. */
static void names_are_found_and_clash_nowhere(void **state)
{
    (void)state;
    for (int i = 0; i < unit_table_count; i++) {
        const struct unit *u = &unit_table[i];
        for (const char *name = u->names; *name;) {
            const size_t n = strcspn(name, "|");
            const struct unit *found = unit_find(name, n, u->kind);
            if (found != u) fail_msg("'%.*s' of row %d", (int)n, name, i);
            name += n + (name[n] == '|');
        }
        if (u->kind == QUANTITY_LENGTH || u->kind == QUANTITY_TIME || u->kind == QUANTITY_MASS ||
            u->kind == QUANTITY_ANGLE)
            assert_int_equal(strcspn(u->names, "0123456789"), strlen(u->names));
    }
    for (int q = 0; q < QUANTITY_COUNT; q++) {
        struct fail f = {0};
        double si;
        enum quantity back = QUANTITY_NUMBER;
        assert_false(unit_parse("1 what", (enum quantity)q, NULL, &si, &f));
        assert_true(strlen(f.text) < sizeof f.text - 1);
        assert_true(quantity_parse(quantity_name((enum quantity)q), &back));
        assert_int_equal(back, q);
    }
    enum quantity q;
    assert_false(quantity_parse("colour", &q));
}

/* ---- writing -----------------------------------------------------------------------------------
 */

static void prints_in_the_usual_unit(void **state)
{
    (void)state;
    static const struct {
        double si;
        enum quantity quantity;
        int figures;
        const char *shown[3]; /* metric, imperial, US */
    } cases[] = {
        {0.009525, QUANTITY_LENGTH, 0, {"9.53 mm", "3/8 in", "3/8 in"}},
        {0.0381, QUANTITY_LENGTH, 0, {"38.1 mm", "1 1/2 in", "1 1/2 in"}},
        {0.010, QUANTITY_LENGTH, 0, {"10 mm", "0.394 in", "0.394 in"}},
        {0.0003, QUANTITY_LENGTH, 0, {"0.3 mm", "0.0118 in", "0.0118 in"}},
        {0.0254 * 3 / 64, QUANTITY_LENGTH, 0, {"1.19 mm", "0.0469 in", "0.0469 in"}},
        {2.032, QUANTITY_LENGTH, 4, {"2032 mm", "80 in", "80 in"}},
        {0.009525, QUANTITY_LENGTH, 5, {"9.525 mm", "0.375 in", "0.375 in"}},
        {-0.0254, QUANTITY_LENGTH, 0, {"-25.4 mm", "-1 in", "-1 in"}},
        {0, QUANTITY_LENGTH, 0, {"0 mm", "0 in", "0 in"}},
        {100e3, QUANTITY_DISTANCE, 0, {"100 km", "62.1 mi", "62.1 mi"}},
        {50, QUANTITY_DISTANCE, 0, {"50 m", "54.7 yd", "164 ft"}},
        {0.004, QUANTITY_VOLUME, 0, {"4 L", "7.04 imp pt", "1.06 US gal"}},
        {0.0005, QUANTITY_VOLUME, 0, {"500 mL", "17.6 imp fl oz", "16.9 US fl oz"}},
        {0.03, QUANTITY_VOLUME, 0, {"30 L", "6.6 imp gal", "7.93 US gal"}},
        {750, QUANTITY_MASS, 0, {"750 kg", "1650 lb", "1650 lb"}},
        {55, QUANTITY_TORQUE, 0, {"55 Nm", "40.6 lbf ft", "40.6 lbf ft"}},
        {9, QUANTITY_TORQUE, 0, {"9 Nm", "79.7 lbf in", "79.7 lbf in"}},
        {17236.893233, QUANTITY_PRESSURE, 0, {"17.2 kPa", "2.5 psi", "2.5 psi"}},
        {210e3, QUANTITY_PRESSURE, 0, {"2.1 bar", "30.5 psi", "30.5 psi"}},
        {6e8, QUANTITY_PRESSURE, 0, {"600 MPa", "87000 psi", "87000 psi"}},
        {5400, QUANTITY_TIME, 0, {"1 h 30 min", "1 h 30 min", "1 h 30 min"}},
        {3599.6, QUANTITY_TIME, 0, {"1 h", "1 h", "1 h"}},
        {90, QUANTITY_TIME, 0, {"1 min 30 s", "1 min 30 s", "1 min 30 s"}},
        {59.96, QUANTITY_TIME, 0, {"1 min", "1 min", "1 min"}},
        {0.35, QUANTITY_TIME, 0, {"0.35 s", "0.35 s", "0.35 s"}},
        {-7200, QUANTITY_TIME, 0, {"-2 h", "-2 h", "-2 h"}},
        {359990, QUANTITY_TIME, 0, {"100 h", "100 h", "100 h"}},
        {278.15, QUANTITY_TEMPERATURE, 0, {"5 °C", "41 °F", "41 °F"}},
        {0.17453292519943295, QUANTITY_ANGLE, 0, {"10°", "10°", "10°"}},
        {99.48376736367679, QUANTITY_TURNING, 0, {"950 rpm", "950 rpm", "950 rpm"}},
        {30e3, QUANTITY_POWER, 0, {"30 kW", "40.2 hp", "40.2 hp"}},
        {21, QUANTITY_POWER, 0, {"21 W", "21 W", "21 W"}},
        {12.63, QUANTITY_VOLTAGE, 4, {"12.63 V", "12.63 V", "12.63 V"}},
        {0.04, QUANTITY_CURRENT, 0, {"40 mA", "40 mA", "40 mA"}},
        {158400, QUANTITY_CHARGE, 0, {"44 Ah", "44 Ah", "44 Ah"}},
        {35025.37, QUANTITY_STIFFNESS, 0, {"35 N/mm", "200 lbf/in", "200 lbf/in"}},
        {6.43, QUANTITY_ACCELERATION, 0, {"6.43 m/s2", "21.1 ft/s2", "21.1 ft/s2"}},
        {0.35, QUANTITY_NUMBER, 0, {"0.35", "0.35", "0.35"}},
        {123456, QUANTITY_NUMBER, 0, {"123000", "123000", "123000"}},
        {9.996, QUANTITY_NUMBER, 0, {"10", "10", "10"}},
        {1e-7, QUANTITY_NUMBER, 0, {"0.0000001", "0.0000001", "0.0000001"}},
        {-0.0, QUANTITY_NUMBER, 0, {"0", "0", "0"}},
    };
    struct arena a = arena_open(1 << 20);
    for (size_t i = 0; i < COUNT(cases); i++)
        for (int system = 0; system < 3; system++) {
            struct text t = {.arena = &a};
            unit_print(&t, cases[i].si, cases[i].quantity, (enum unit_system)system,
                       cases[i].figures);
            if (!text_is(text_get(&t), cases[i].shown[system]))
                fail_msg("%g: '%s', expected '%s'", cases[i].si, text_get(&t),
                         cases[i].shown[system]);
        }
    struct text t = {.arena = &a};
    assert_true(unit_print_as(&t, 5400, QUANTITY_TIME, "h", 0));
    assert_true(unit_print_as(&t, 0.0003048, QUANTITY_LENGTH, "thou", 0));
    assert_true(unit_print_as(&t, 0.35, QUANTITY_NUMBER, "%", 0));
    assert_false(unit_print_as(&t, 1, QUANTITY_LENGTH, "psi", 0));
    assert_false(unit_print_as(&t, 1, QUANTITY_LENGTH, "what", 0));
    assert_string_equal(text_get(&t), "1.5 h12 thou35 %");
    arena_close(&a);
}

/* How far a printed quantity may lie from the true one. */
static double slack(double si, enum quantity q, int figures)
{
    double size = fabs(si), least = 0;
    if (q == QUANTITY_TEMPERATURE) /* the zeros of degrees Fahrenheit and Celsius */
        size = fmax(fabs(si - 459.67 / 1.8), fabs(si - 273.15));
    if (q == QUANTITY_LENGTH && figures <= 3) least = 1e-5; /* a 64th of an inch that fits */
    if (q == QUANTITY_TIME)
        least = size >= 359970 ? 1800 : size >= 3599 ? 30 : size >= 59 ? 0.5 : 0;
    return fmax(least, 0.5 * pow(10, 1 - figures) * size) * (1 + 1e-9);
}

/* Property: what is printed is read back as the same quantity, to the figures printed; with 17
 * figures and a named unit, to the rounding of two multiplications. Sizes from 1e-6 to 1e9 of the
 * SI unit, both signs. */
static void reads_back_what_it_prints(void **state)
{
    (void)state;
    struct arena a = arena_open(1 << 20);
    for (uint32_t i = 0; i < 40000; i++) {
        const struct philox p = random_words(11, 0, i, 0);
        const enum quantity q = (enum quantity)(p.word[0] % QUANTITY_COUNT);
        const enum unit_system system = (enum unit_system)(p.word[1] % 3);
        const int figures = 1 + (int)(p.word[1] / 3 % 9);
        double si = pow(10, -6 + 15 * random_unit(p.word[2]));
        if (q == QUANTITY_TEMPERATURE)
            si = 100 + 1000 * random_unit(p.word[2]);
        else if (p.word[3] % 4 == 0)
            si = -si;
        struct arena scratch = a;
        struct text t = {.arena = &scratch};
        struct fail f = {0};
        double back = NAN;
        unit_print(&t, si, q, system, figures);
        if (!unit_parse(text_get(&t), q, NULL, &back, &f)) fail_msg("%s", f.text);
        if (fabs(back - si) > slack(si, q, figures))
            fail_msg("%.12g: '%s' is %.12g", si, text_get(&t), back);
    }
    for (uint32_t i = 0; i < 20000; i++) {
        const struct philox p = random_words(12, 0, i, 0);
        const struct unit *u = &unit_table[p.word[0] % (uint32_t)unit_table_count];
        const double value = pow(10, -6 + 15 * random_unit(p.word[1]));
        const double si = value * u->factor + u->offset;
        struct arena scratch = a;
        struct text t = {.arena = &scratch};
        struct fail f = {0};
        char name[64];
        double back = NAN;
        memcpy(name, u->names, (size_t)unit_name_length(u));
        name[unit_name_length(u)] = '\0';
        assert_true(unit_print_as(&t, si, u->kind, name, 17));
        if (!unit_parse(text_get(&t), u->kind, NULL, &back, &f)) fail_msg("%s", f.text);
        if (fabs(back - si) > 1e-15 * (fabs(si) + fabs(u->offset)))
            fail_msg("%.17g: '%s' is %.17g", si, text_get(&t), back);
    }
    arena_close(&a);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(reads_factors_of_nist_sp_811),
        cmocka_unit_test(converts_reference_cases),
        cmocka_unit_test(reads_what_people_write),
        cmocka_unit_test(refuses_and_says_why),
        cmocka_unit_test(names_are_found_and_clash_nowhere),
        cmocka_unit_test(prints_in_the_usual_unit),
        cmocka_unit_test(reads_back_what_it_prints),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
