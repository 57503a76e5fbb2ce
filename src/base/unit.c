#include "base/unit.h"

#include "base/unit_table.h"

#include <assert.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const char *const quantity_names[QUANTITY_COUNT] = {
    [QUANTITY_NUMBER] = "number",
    [QUANTITY_LENGTH] = "length",
    [QUANTITY_DISTANCE] = "distance",
    [QUANTITY_AREA] = "area",
    [QUANTITY_VOLUME] = "volume",
    [QUANTITY_MASS] = "mass",
    [QUANTITY_TIME] = "time",
    [QUANTITY_SPEED] = "speed",
    [QUANTITY_TURNING] = "turning",
    [QUANTITY_FORCE] = "force",
    [QUANTITY_TORQUE] = "torque",
    [QUANTITY_PRESSURE] = "pressure",
    [QUANTITY_POWER] = "power",
    [QUANTITY_FLOW] = "flow",
    [QUANTITY_TEMPERATURE] = "temperature",
    [QUANTITY_ANGLE] = "angle",
    [QUANTITY_VOLTAGE] = "voltage",
    [QUANTITY_CURRENT] = "current",
    [QUANTITY_RESISTANCE] = "resistance",
    [QUANTITY_CHARGE] = "charge",
    [QUANTITY_STIFFNESS] = "stiffness",
    [QUANTITY_ACCELERATION] = "acceleration",
};

const char *quantity_name(enum quantity q)
{
    assert((unsigned)q < QUANTITY_COUNT);
    return quantity_names[q];
}

bool quantity_parse(const char *s, enum quantity *out)
{
    for (int q = 0; q < QUANTITY_COUNT; q++) {
        if (!text_same_word(s, quantity_names[q])) continue;
        *out = (enum quantity)q;
        return true;
    }
    return false;
}

/* ---- reading ----------------------------------------------------------------------------------
 */

static bool is_digit(char c)
{
    return c >= '0' && c <= '9';
}

static const char *skip_blanks(const char *s)
{
    while (*s == ' ' || *s == '\t') s++;
    return s;
}

/* Digits, or "12,345" in threes. NULL if there are none. */
static const char *read_whole(const char *s, double *out)
{
    if (!is_digit(*s)) return NULL;
    const char *start = s;
    *out = 0.0;
    while (is_digit(*s)) *out = *out * 10.0 + (*s++ - '0');
    if (s - start > 3) return s;
    while (s[0] == ',' && is_digit(s[1]) && is_digit(s[2]) && is_digit(s[3]) && !is_digit(s[4])) {
        for (s++; is_digit(*s); s++) *out = *out * 10.0 + (*s - '0');
    }
    return s;
}

/* "/8" after a numerator. NULL if there is none, or if it divides by 0. */
static const char *read_divisor(const char *s, double *out)
{
    if (*s != '/') return NULL;
    s = read_whole(s + 1, out);
    return s && *out > 0.0 ? s : NULL;
}

/* "3/8", "1 1/2", "1-1/2", "2.5", ".5", "1,250", "1e3" without a sign. NULL if there is no number.
 */
static const char *read_number(const char *s, double *out)
{
    double whole = 0.0, numerator, divisor;
    const char *end = read_whole(s, &whole);
    if (end) {
        *out = whole;
        const char *fraction = read_divisor(end, &divisor);
        if (fraction) {
            *out = whole / divisor;
            return fraction;
        }
        const char *next = *end == '-' ? end + 1 : skip_blanks(end);
        fraction = next > end ? read_whole(next, &numerator) : NULL;
        fraction = fraction ? read_divisor(fraction, &divisor) : NULL;
        if (fraction) {
            *out = whole + numerator / divisor;
            return fraction;
        }
        if (memchr(s, ',', (size_t)(end - s))) {
            if (*end != '.') return end;
            double decimals = 0.0, scale = 1.0;
            for (end++; is_digit(*end); end++) {
                decimals = decimals * 10.0 + (*end - '0');
                scale *= 10.0;
            }
            *out = whole + decimals / scale;
            return end;
        }
    } else if (s[0] != '.' || !is_digit(s[1])) {
        return NULL;
    }
    /* strtod would also take "0x10", as a hexadecimal number. */
    if (s[0] == '0' && (s[1] == 'x' || s[1] == 'X')) return s + 1;
    char *stop;
    *out = strtod(s, &stop);
    return stop;
}

/* Kinds whose units may follow one another, "5 ft 6 in". None of their names holds a digit. */
static bool may_be_compound(enum quantity kind)
{
    return kind == QUANTITY_LENGTH || kind == QUANTITY_TIME || kind == QUANTITY_MASS ||
           kind == QUANTITY_ANGLE;
}

static bool fail_unit(const char *s, enum quantity q, const char *what, struct fail *f)
{
    char would_do[400] = "";
    size_t n = 0;
    for (int i = 0; i < unit_table_count; i++) {
        const struct unit *u = &unit_table[i];
        if (u->kind != unit_kind(q)) continue;
        n += (size_t)snprintf(would_do + n, sizeof would_do - n, "%s%.*s", n ? ", " : "",
                              unit_name_length(u), u->names);
        assert(n < sizeof would_do);
    }
    return fail_set(f, FAIL_INPUT, "'%s': %s; %s is given in %s", s, what, quantity_name(q),
                    would_do);
}

/* Measures that have two sizes under one name. */
static bool is_ambiguous(const char *s)
{
    static const char *const names[] = {"gal", "gallon", "gallons", "pt",    "pint",  "pints",
                                        "qt",  "quart",  "quarts",  "fl oz", "gal/h", "gal/min",
                                        "gph", "gpm",    "cwt",     "ton",   "tons"};
    for (size_t i = 0; i < sizeof names / sizeof *names; i++)
        if (text_same_word(s, names[i])) return true;
    return false;
}

static bool fail_unknown_unit(const char *s, const char *unit, enum quantity q, struct fail *f)
{
    const struct unit *other = unit_find(unit, strlen(unit), q);
    char what[160];
    if (is_ambiguous(unit))
        snprintf(what, sizeof what, "'%.40s' has two sizes, imperial and US; say which", unit);
    else if (other)
        snprintf(what, sizeof what, "'%.40s' is a unit of %s", unit, quantity_name(other->kind));
    else
        snprintf(what, sizeof what, "no unit '%.40s'", unit);
    return fail_unit(s, q, what, f);
}

static const struct unit *find_own(const char *s, size_t n, enum quantity q)
{
    const struct unit *u = unit_find(s, n, q);
    return u && u->kind == unit_kind(q) ? u : NULL;
}

bool unit_parse(const char *s, enum quantity q, const char *bare, double *si, struct fail *f)
{
    const char *at = skip_blanks(s);
    const double sign = *at == '-' ? -1.0 : 1.0;
    if (*at == '-' || *at == '+') at = skip_blanks(at + 1);
    double sum = 0.0, last_factor = INFINITY;
    do {
        double value;
        const char *rest = read_number(at, &value);
        if (!rest) return fail_unit(s, q, "no number there", f);
        rest = skip_blanks(rest);
        size_t n = strlen(rest);
        const struct unit *u = find_own(rest, n, q);
        if (!u && may_be_compound(unit_kind(q)) && !unit_find(rest, n, q)) {
            n = strcspn(rest, "0123456789");
            if (n > 0 && rest[n] && rest[n - 1] == '.') n--; /* "1 ft .5 in" */
            u = find_own(rest, n, q);
        }
        if (*rest == '\0') {
            const bool alone = last_factor == INFINITY;
            u = alone && bare ? find_own(bare, strlen(bare), q) : NULL;
            assert(u || !bare || !alone);
            if (!u && !(alone && q == QUANTITY_NUMBER))
                return fail_unit(s, q, "a number without a unit", f);
        } else if (!u) {
            return fail_unknown_unit(s, rest, q, f);
        }
        const double factor = u ? u->factor : 1.0;
        if (factor >= last_factor) return fail_unit(s, q, "the larger unit comes first", f);
        last_factor = factor;
        const double part = value * factor;
        sum += q == QUANTITY_TEMPERATURE && u ? sign * part + u->offset : sign * part;
        at = rest + n;
    } while (*at);
    if (!isfinite(sum)) return fail_unit(s, q, "too large to reckon with", f);
    if (q == QUANTITY_TEMPERATURE && sum < -1e-9)
        return fail_unit(s, q, "colder than absolute zero", f);
    *si = sum;
    return true;
}

/* ---- writing ----------------------------------------------------------------------------------
 */

/* Rounded to significant figures, plain decimals, no idle zeros after the point. */
static void print_figures(struct text *t, double value, int figures)
{
    if (figures <= 0) figures = 3;
    if (figures > 17) figures = 17;
    char scientific[40], plain[400];
    snprintf(scientific, sizeof scientific, "%.*e", figures - 1, value);
    const double rounded = strtod(scientific, NULL);
    const int exponent = rounded == 0.0 ? 0 : atoi(strchr(scientific, 'e') + 1);
    const int decimals = figures - 1 - exponent;
    snprintf(plain, sizeof plain, "%.*f", decimals > 0 ? decimals : 0, rounded);
    if (strchr(plain, '.')) {
        size_t n = strlen(plain);
        while (plain[n - 1] == '0') n--;
        if (plain[n - 1] == '.') n--;
        plain[n] = '\0';
    }
    text_add(t, rounded == 0.0 ? "0" : plain);
}

static void print_in(struct text *t, double si, const struct unit *u, int figures)
{
    print_figures(t, (si - u->offset) / u->factor, figures);
    /* SI brochure, 5.4.3: a blank before every unit but those of plane angle. */
    if (strncmp(u->names, "°|", 3) != 0) text_add(t, " ");
    text_add_n(t, u->names, (size_t)unit_name_length(u));
}

double unit_in(double si, enum quantity q, const char *unit)
{
    const struct unit *u = unit_find(unit, strlen(unit), q);
    assert(u && u->kind == unit_kind(q));
    return (si - u->offset) / u->factor;
}

bool unit_print_as(struct text *t, double si, enum quantity q, const char *unit, int figures)
{
    assert(isfinite(si));
    const struct unit *u = find_own(unit, strlen(unit), q);
    if (!u) return false;
    print_in(t, si, u, figures);
    return true;
}

/* "1 h 30 min": whole seconds under an hour, whole minutes under 100 hours, then whole hours. */
static void print_time(struct text *t, double seconds, int figures)
{
    if (seconds < 0.0) text_add(t, "-");
    seconds = fabs(seconds);
    const double hours = round(seconds / 3600.0), minutes = round(seconds / 60.0);
    const double whole = round(seconds);
    if (minutes >= 6000.0) {
        text_print(t, "%.0f h", hours);
    } else if (whole >= 3600.0) {
        text_print(t, "%.0f h", floor(minutes / 60.0));
        if (fmod(minutes, 60.0) > 0.0) text_print(t, " %.0f min", fmod(minutes, 60.0));
    } else if (whole >= 60.0) {
        text_print(t, "%.0f min", floor(whole / 60.0));
        if (fmod(whole, 60.0) > 0.0) text_print(t, " %.0f s", fmod(whole, 60.0));
    } else {
        print_figures(t, seconds, figures);
        text_add(t, " s");
    }
}

/* Rulers and spanners are marked in fractions; below a sixteenth people measure in decimals.
 * Returns false where no 64th is within 0.01 mm. */
static bool print_fraction(struct text *t, double metres)
{
    const double sixty_fourths = round(fabs(metres) / (0.0254 / 64.0));
    if (sixty_fourths < 4.0 || fabs(fabs(metres) - sixty_fourths * (0.0254 / 64.0)) > 1e-5)
        return false;
    int whole = (int)sixty_fourths / 64, part = (int)sixty_fourths % 64, divisor = 64;
    while (part && part % 2 == 0) part /= 2, divisor /= 2;
    if (metres < 0.0) text_add(t, "-");
    if (whole || !part) text_print(t, "%d", whole);
    if (part) text_print(t, "%s%d/%d", whole ? " " : "", part, divisor);
    text_add(t, " in");
    return true;
}

/* Which unit a size is shown in: the first row of the quantity whose `below` (SI) is above it.
 * Practice: what workshop manuals of each system use. */
static const struct habit {
    enum quantity quantity;
    double below[3];
    const char *unit[3]; /* metric, imperial, US */
} habits[] = {
    {QUANTITY_LENGTH, {10, 3.048, 3.048}, {"mm", "in", "in"}},
    {QUANTITY_LENGTH, {INFINITY, INFINITY, INFINITY}, {"m", "ft", "ft"}},
    {QUANTITY_DISTANCE, {1e3, 160.9344, 160.9344}, {"m", "yd", "ft"}},
    {QUANTITY_DISTANCE, {INFINITY, INFINITY, INFINITY}, {"km", "mi", "mi"}},
    {QUANTITY_AREA, {0.01, 0.09290304, 0.09290304}, {"mm2", "in2", "in2"}},
    {QUANTITY_AREA, {INFINITY, INFINITY, INFINITY}, {"m2", "ft2", "ft2"}},
    {QUANTITY_VOLUME, {1e-3, 4.54609e-3 / 8, 3.785411784e-3 / 4}, {"mL", "imp fl oz", "US fl oz"}},
    {QUANTITY_VOLUME, {INFINITY, 4.54609e-3, 3.785411784e-3}, {"L", "imp pt", "US qt"}},
    {QUANTITY_VOLUME, {INFINITY, INFINITY, INFINITY}, {"L", "imp gal", "US gal"}},
    {QUANTITY_MASS, {1, 0.45359237, 0.45359237}, {"g", "oz", "oz"}},
    {QUANTITY_MASS, {INFINITY, INFINITY, INFINITY}, {"kg", "lb", "lb"}},
    {QUANTITY_SPEED, {INFINITY, INFINITY, INFINITY}, {"km/h", "mph", "mph"}},
    {QUANTITY_TURNING, {INFINITY, INFINITY, INFINITY}, {"rpm", "rpm", "rpm"}},
    {QUANTITY_FORCE, {1e4, INFINITY, INFINITY}, {"N", "lbf", "lbf"}},
    {QUANTITY_FORCE, {INFINITY, INFINITY, INFINITY}, {"kN", "lbf", "lbf"}},
    {QUANTITY_TORQUE, {INFINITY, 13.5, 13.5}, {"Nm", "lbf in", "lbf in"}},
    {QUANTITY_TORQUE, {INFINITY, INFINITY, INFINITY}, {"Nm", "lbf ft", "lbf ft"}},
    {QUANTITY_PRESSURE, {1e5, INFINITY, INFINITY}, {"kPa", "psi", "psi"}},
    {QUANTITY_PRESSURE, {5e7, INFINITY, INFINITY}, {"bar", "psi", "psi"}},
    {QUANTITY_PRESSURE, {INFINITY, INFINITY, INFINITY}, {"MPa", "psi", "psi"}},
    {QUANTITY_POWER, {1e3, 370, 370}, {"W", "W", "W"}},
    {QUANTITY_POWER, {INFINITY, INFINITY, INFINITY}, {"kW", "hp", "hp"}},
    {QUANTITY_FLOW,
     {1e-3 / 60, 4.54609e-3 / 60, 3.785411784e-3 / 60},
     {"mL/min", "imp gal/h", "US gal/h"}},
    {QUANTITY_FLOW, {INFINITY, INFINITY, INFINITY}, {"L/min", "imp gal/min", "US gal/min"}},
    {QUANTITY_TEMPERATURE, {INFINITY, INFINITY, INFINITY}, {"°C", "°F", "°F"}},
    {QUANTITY_ANGLE, {INFINITY, INFINITY, INFINITY}, {"°", "°", "°"}},
    {QUANTITY_VOLTAGE, {0.1, 0.1, 0.1}, {"mV", "mV", "mV"}},
    {QUANTITY_VOLTAGE, {1e3, 1e3, 1e3}, {"V", "V", "V"}},
    {QUANTITY_VOLTAGE, {INFINITY, INFINITY, INFINITY}, {"kV", "kV", "kV"}},
    {QUANTITY_CURRENT, {1, 1, 1}, {"mA", "mA", "mA"}},
    {QUANTITY_CURRENT, {INFINITY, INFINITY, INFINITY}, {"A", "A", "A"}},
    {QUANTITY_RESISTANCE, {0.1, 0.1, 0.1}, {"mohm", "mohm", "mohm"}},
    {QUANTITY_RESISTANCE, {1e3, 1e3, 1e3}, {"ohm", "ohm", "ohm"}},
    {QUANTITY_RESISTANCE, {1e6, 1e6, 1e6}, {"kohm", "kohm", "kohm"}},
    {QUANTITY_RESISTANCE, {INFINITY, INFINITY, INFINITY}, {"Mohm", "Mohm", "Mohm"}},
    {QUANTITY_CHARGE, {INFINITY, INFINITY, INFINITY}, {"Ah", "Ah", "Ah"}},
    {QUANTITY_STIFFNESS, {INFINITY, INFINITY, INFINITY}, {"N/mm", "lbf/in", "lbf/in"}},
    {QUANTITY_ACCELERATION, {INFINITY, INFINITY, INFINITY}, {"m/s2", "ft/s2", "ft/s2"}},
};

void unit_print(struct text *t, double si, enum quantity q, enum unit_system system, int figures)
{
    assert(isfinite(si));
    if (q == QUANTITY_NUMBER) {
        print_figures(t, si, figures);
        return;
    }
    if (q == QUANTITY_TIME) {
        print_time(t, si, figures);
        return;
    }
    const struct habit *h = habits;
    while (h->quantity != q || !(fabs(si) < h->below[system])) h++;
    if (q == QUANTITY_LENGTH && figures <= 3 && text_is(h->unit[system], "in") &&
        print_fraction(t, si))
        return;
    const bool known = unit_print_as(t, si, q, h->unit[system], figures);
    assert(known);
}
