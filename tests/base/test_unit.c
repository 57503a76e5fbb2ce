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
        {"1 US gal/min", QUANTITY_FLOW, 6.309020e-5},
        {"1 deg", QUANTITY_ANGLE, 1.745329e-2},
        {"1 arcmin", QUANTITY_ANGLE, 2.908882e-4},
        {"1 Ah", QUANTITY_CHARGE, 3.6e3},
        {"1 °F", QUANTITY_TEMPERATURE, (1 + 459.67) / 1.8},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        struct fail f = {0};
        double si = 0;
        if (!unit_parse(cases[i].s, cases[i].quantity, NULL, &si, &f)) fail_msg("%s", f.text);
        near(cases[i].s, si, cases[i].si, 5e-7);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(reads_factors_of_nist_sp_811),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
