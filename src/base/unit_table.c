#include "base/unit_table.h"

#include <math.h>
#include <string.h>

/* Published: NIST SP 811 (2008), Appendix B, and its footnotes for what is exact. The imperial
 * measures are those of the UK Weights and Measures Act 1985: gallon 4.54609 dm3 of 8 pints of 20
 * fluid ounces; the US gallon is 231 in3 of 4 quarts, 8 pints, 128 fluid ounces. Conventional
 * columns of mercury and water: 13595.1 and 1000 kg/m3 under standard gravity. All factors below
 * are exact by definition, BTU (International Table) included. */
#define INCH            0.0254
#define FOOT            0.3048
#define MILE            1609.344
#define POUND           0.45359237
#define GRAVITY         9.80665
#define POUND_FORCE     (POUND * GRAVITY)
#define US_GALLON       3.785411784e-3
#define IMPERIAL_GALLON 4.54609e-3
#define BTU             1055.05585262
#define MINUTE          60.0
#define HOUR            3600.0

const struct unit unit_table[] = {
    {QUANTITY_NUMBER, "%|percent|per cent|pct", 0.01, 0, false},

    {QUANTITY_LENGTH, "mm|millimetre|millimetres|millimeter|millimeters", 1e-3, 0, true},
    {QUANTITY_LENGTH, "cm", 1e-2, 0, false},
    {QUANTITY_LENGTH, "m|metre|metres|meter|meters", 1, 0, true},
    {QUANTITY_LENGTH, "km", 1e3, 0, false},
    {QUANTITY_LENGTH, "um|µm|μm|micron|microns", 1e-6, 0, true},
    {QUANTITY_LENGTH, "in|inch|inches|\"|″", INCH, 0, false},
    {QUANTITY_LENGTH, "thou|mil", INCH * 1e-3, 0, false},
    {QUANTITY_LENGTH, "ft|foot|feet|'|′", FOOT, 0, false},
    {QUANTITY_LENGTH, "yd|yard|yards", FOOT * 3, 0, false},
    {QUANTITY_LENGTH, "mi|mile|miles", MILE, 0, false},

    {QUANTITY_AREA, "mm2|mm²|sq mm", 1e-6, 0, true},
    {QUANTITY_AREA, "cm2|cm²|sq cm", 1e-4, 0, false},
    {QUANTITY_AREA, "m2|m²|sq m", 1, 0, true},
    {QUANTITY_AREA, "in2|in²|sq in", INCH *INCH, 0, false},
    {QUANTITY_AREA, "ft2|ft²|sq ft", FOOT *FOOT, 0, false},

    {QUANTITY_VOLUME, "mL", 1e-6, 0, true},
    {QUANTITY_VOLUME, "cm3|cm³|cc|ml|ccm", 1e-6, 0, true},
    {QUANTITY_VOLUME, "L|litre|litres|liter|liters", 1e-3, 0, false},
    {QUANTITY_VOLUME, "m3|m³", 1, 0, true},
    {QUANTITY_VOLUME, "in3|in³|cu in", INCH *INCH *INCH, 0, false},
    {QUANTITY_VOLUME, "ft3|ft³|cu ft", FOOT *FOOT *FOOT, 0, false},
    {QUANTITY_VOLUME, "imp fl oz|imperial fl oz|UK fl oz", IMPERIAL_GALLON / 160, 0, false},
    {QUANTITY_VOLUME,
     "imp pt|imp pint|imp pints|imperial pint|imperial pints|UK pt|UK pint|UK pints",
     IMPERIAL_GALLON / 8, 0, false},
    {QUANTITY_VOLUME, "imp qt|imperial quart|imperial quarts|UK qt", IMPERIAL_GALLON / 4, 0, false},
    {QUANTITY_VOLUME,
     "imp gal|imp gallon|imp gallons|imperial gallon|imperial gallons|UK gal|UK gallon|UK gallons",
     IMPERIAL_GALLON, 0, false},
    {QUANTITY_VOLUME, "US fl oz", US_GALLON / 128, 0, false},
    {QUANTITY_VOLUME, "US pt|US pint|US pints", US_GALLON / 8, 0, false},
    {QUANTITY_VOLUME, "US qt|US quart|US quarts", US_GALLON / 4, 0, false},
    {QUANTITY_VOLUME, "US gal|US gallon|US gallons", US_GALLON, 0, false},

    {QUANTITY_MASS, "g|gram|grams|gramme|grammes", 1e-3, 0, false},
    {QUANTITY_MASS, "kg|kilo|kilos", 1, 0, false},
    {QUANTITY_MASS, "t|tonne|tonnes", 1e3, 0, false},
    {QUANTITY_MASS, "oz|ounce|ounces", POUND / 16, 0, false},
    {QUANTITY_MASS, "lb|lbs|pound|pounds|lbm", POUND, 0, false},
    {QUANTITY_MASS, "UK cwt|imp cwt|long cwt", POUND * 112, 0, false},
    {QUANTITY_MASS, "US cwt|short cwt", POUND * 100, 0, false},
    {QUANTITY_MASS, "UK ton|imp ton|long ton|UK tons|imp tons|long tons", POUND * 2240, 0, false},
    {QUANTITY_MASS, "US ton|short ton|US tons|short tons", POUND * 2000, 0, false},

    {QUANTITY_TIME, "ms|millisecond|milliseconds", 1e-3, 0, true},
    {QUANTITY_TIME, "s|sec|secs|second|seconds", 1, 0, false},
    {QUANTITY_TIME, "min|mins|minute|minutes", MINUTE, 0, false},
    {QUANTITY_TIME, "h|hr|hrs|hour|hours", HOUR, 0, false},
    {QUANTITY_TIME, "d|day|days", HOUR * 24, 0, false},
    {QUANTITY_TIME, "wk|week|weeks", HOUR * 168, 0, false},

    {QUANTITY_SPEED, "m/s", 1, 0, true},
    {QUANTITY_SPEED, "km/h|kph|kmh|kmph", 1 / 3.6, 0, false},
    {QUANTITY_SPEED, "mph|mi/h|miles/h", MILE / HOUR, 0, false},
    {QUANTITY_SPEED, "ft/s", FOOT, 0, false},
    {QUANTITY_SPEED, "ft/min", FOOT / MINUTE, 0, false},

    {QUANTITY_TURNING, "rpm|r/min|rev/min|revs/min|1/min", M_PI / 30, 0, false},
    {QUANTITY_TURNING, "rad/s", 1, 0, false},
    {QUANTITY_TURNING, "Hz", 2 * M_PI, 0, true},
    {QUANTITY_TURNING, "cycles/min|cpm", M_PI / 30, 0, false},

    {QUANTITY_FORCE, "N|newton|newtons", 1, 0, false},
    {QUANTITY_FORCE, "kN", 1e3, 0, false},
    {QUANTITY_FORCE, "kgf|kp", GRAVITY, 0, false},
    {QUANTITY_FORCE, "lbf|lb|lbs|pound|pounds", POUND_FORCE, 0, false},

    {QUANTITY_TORQUE, "Nm|N*m", 1, 0, false},
    {QUANTITY_TORQUE, "kgf m|kg m|m kg|mkp|kpm", GRAVITY, 0, false},
    {QUANTITY_TORQUE, "kgf cm|kg cm", GRAVITY * 0.01, 0, false},
    {QUANTITY_TORQUE, "lbf ft|ft lbf|lb ft|ft lb|ft lbs|lbs ft", POUND_FORCE *FOOT, 0, false},
    {QUANTITY_TORQUE, "lbf in|in lbf|lb in|in lb|in lbs|lbs in", POUND_FORCE *INCH, 0, false},

    {QUANTITY_PRESSURE, "Pa", 1, 0, false},
    {QUANTITY_PRESSURE, "kPa", 1e3, 0, false},
    {QUANTITY_PRESSURE, "MPa|N/mm2|N/mm²", 1e6, 0, true},
    {QUANTITY_PRESSURE, "GPa", 1e9, 0, true},
    {QUANTITY_PRESSURE, "mbar|hPa", 1e2, 0, true},
    {QUANTITY_PRESSURE, "bar|bars", 1e5, 0, false},
    {QUANTITY_PRESSURE, "psi|psig|lbf/in2|lbf/in²|lb/in2|lb/sq in", POUND_FORCE / (INCH * INCH), 0,
     false},
    {QUANTITY_PRESSURE, "kgf/cm2|kgf/cm²|kg/cm2|kg/cm²", GRAVITY * 1e4, 0, false},
    {QUANTITY_PRESSURE, "atm", 101325, 0, false},
    {QUANTITY_PRESSURE, "mmHg", 13.5951 * GRAVITY, 0, true},
    {QUANTITY_PRESSURE, "inHg", 13595.1 * GRAVITY *INCH, 0, false},
    {QUANTITY_PRESSURE, "inH2O|in water", 1000 * GRAVITY *INCH, 0, false},

    {QUANTITY_POWER, "W|watt|watts", 1, 0, false},
    {QUANTITY_POWER, "kW", 1e3, 0, false},
    {QUANTITY_POWER, "hp|bhp|horsepower", 550 * FOOT *POUND_FORCE, 0, false},
    {QUANTITY_POWER, "PS|metric hp|cv|ch|pk", 75 * GRAVITY, 0, false},
    {QUANTITY_POWER, "BTU/h|BTU/hr", BTU / HOUR, 0, false},

    {QUANTITY_FLOW, "m3/s|m³/s", 1, 0, true},
    {QUANTITY_FLOW, "m3/h|m³/h", 1 / HOUR, 0, true},
    {QUANTITY_FLOW, "L/s", 1e-3, 0, false},
    {QUANTITY_FLOW, "L/min", 1e-3 / MINUTE, 0, false},
    {QUANTITY_FLOW, "L/h|L/hr|lph", 1e-3 / HOUR, 0, false},
    {QUANTITY_FLOW, "mL/min|ml/min|cc/min|cm3/min|cm³/min", 1e-6 / MINUTE, 0, true},
    {QUANTITY_FLOW, "imp gal/min|UK gal/min|imp gpm", IMPERIAL_GALLON / MINUTE, 0, false},
    {QUANTITY_FLOW, "imp gal/h|UK gal/h|imp gph", IMPERIAL_GALLON / HOUR, 0, false},
    {QUANTITY_FLOW, "US qt/min", US_GALLON / 4 / MINUTE, 0, false},
    {QUANTITY_FLOW, "US gal/min|US gpm", US_GALLON / MINUTE, 0, false},
    {QUANTITY_FLOW, "US gal/h|US gph", US_GALLON / HOUR, 0, false},
    {QUANTITY_FLOW, "ft3/min|ft³/min|cfm|cu ft/min", FOOT *FOOT *FOOT / MINUTE, 0, false},

    {QUANTITY_TEMPERATURE, "°C|C|deg C|celsius", 1, 273.15, false},
    {QUANTITY_TEMPERATURE, "°F|F|deg F|fahrenheit", 1 / 1.8, 459.67 / 1.8, false},
    {QUANTITY_TEMPERATURE, "K|kelvin", 1, 0, false},

    {QUANTITY_ANGLE, "°|deg|degree|degrees", M_PI / 180, 0, false},
    {QUANTITY_ANGLE, "arcmin|'|′|min|minutes", M_PI / 10800, 0, false},
    {QUANTITY_ANGLE, "arcsec|\"|″|sec|seconds", M_PI / 648000, 0, false},
    {QUANTITY_ANGLE, "rad|radian|radians", 1, 0, false},
    {QUANTITY_ANGLE, "turn|turns|rev|revs", 2 * M_PI, 0, false},

    {QUANTITY_VOLTAGE, "V|volt|volts", 1, 0, false},
    {QUANTITY_VOLTAGE, "mV", 1e-3, 0, true},
    {QUANTITY_VOLTAGE, "kV", 1e3, 0, false},
    {QUANTITY_CURRENT, "A|amp|amps|ampere|amperes", 1, 0, false},
    {QUANTITY_CURRENT, "mA", 1e-3, 0, true},
    {QUANTITY_RESISTANCE, "ohm|ohms|Ω|Ω", 1, 0, false},
    {QUANTITY_RESISTANCE, "mohm|mΩ|mΩ|milliohm|milliohms", 1e-3, 0, true},
    {QUANTITY_RESISTANCE, "kohm|kohms|kΩ|kΩ", 1e3, 0, false},
    {QUANTITY_RESISTANCE, "Mohm|MΩ|MΩ|megohm|megohms", 1e6, 0, true},
    {QUANTITY_CHARGE, "Ah|A h", HOUR, 0, false},
    {QUANTITY_CHARGE, "mAh", 1e-3 * HOUR, 0, true},
    {QUANTITY_CHARGE, "C|coulomb|coulombs", 1, 0, false},

    {QUANTITY_STIFFNESS, "N/mm|kN/m", 1e3, 0, false},
    {QUANTITY_STIFFNESS, "N/m", 1, 0, false},
    {QUANTITY_STIFFNESS, "kgf/mm|kg/mm", GRAVITY * 1e3, 0, false},
    {QUANTITY_STIFFNESS, "kgf/cm|kg/cm", GRAVITY * 1e2, 0, false},
    {QUANTITY_STIFFNESS, "lbf/in|lb/in|lbs/in", POUND_FORCE / INCH, 0, false},
    {QUANTITY_ACCELERATION, "m/s2|m/s²", 1, 0, true},
    {QUANTITY_ACCELERATION, "ft/s2|ft/s²", FOOT, 0, false},
    {QUANTITY_ACCELERATION, "g|gee", GRAVITY, 0, false},
};
const int unit_table_count = (int)(sizeof unit_table / sizeof *unit_table);

enum quantity unit_kind(enum quantity q)
{
    return q == QUANTITY_DISTANCE ? QUANTITY_LENGTH : q;
}

int unit_name_length(const struct unit *u)
{
    return (int)strcspn(u->names, "|");
}

/* Past what people put between the parts of a unit, or leave out: "lbf·ft", "ft-lb", "sq. in." */
static const char *skip_separators(const char *s, const char *end)
{
    for (;;) {
        if (s < end && (*s == ' ' || *s == '-' || *s == '.' || *s == '\t'))
            s++;
        else if (end - s >= 2 && memcmp(s, "·", 2) == 0)
            s += 2;
        else
            return s;
    }
}

static char lower(char c)
{
    return c >= 'A' && c <= 'Z' ? (char)(c - 'A' + 'a') : c;
}

static bool same_unit(const char *a, const char *a_end, const char *b, const char *b_end,
                      bool exact)
{
    for (;; a++, b++) {
        a = skip_separators(a, a_end);
        b = skip_separators(b, b_end);
        if (a == a_end || b == b_end) return a == a_end && b == b_end;
        if (exact ? *a != *b : lower(*a) != lower(*b)) return false;
    }
}

static bool is_called(const struct unit *u, const char *s, size_t n)
{
    for (const char *name = u->names;; name++) {
        const size_t length = strcspn(name, "|");
        if (same_unit(s, s + n, name, name + length, u->exact_case)) return true;
        name += length;
        if (!*name) return false;
    }
}

const struct unit *unit_find(const char *s, size_t n, enum quantity q)
{
    const struct unit *other = NULL;
    for (int i = 0; i < unit_table_count; i++) {
        const struct unit *u = &unit_table[i];
        if (u->kind != unit_kind(q) && other) continue;
        if (!is_called(u, s, n)) continue;
        if (u->kind == unit_kind(q)) return u;
        other = u;
    }
    return other;
}
