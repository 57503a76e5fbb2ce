#include "bench/wire_table.h"

#include <ctype.h>
#include <math.h>
#include <stddef.h>
#include <stdio.h>
#include <string.h>

static const double PI = 3.14159265358979323846;
static const double COPPER = 1.7241e-8; /* ohm m at 20 C, 100 % IACS; ASTM B258 */
static const double INCH = 0.0254;

/* Published: IEC 60228 class 5, most milliohm a metre at 20 C. */
static const struct {
    double mm2, milliohm;
} flexible[] = {{0.5, 39.0}, {0.75, 26.0}, {1, 19.5},  {1.5, 13.3}, {2.5, 7.98}, {4, 4.95},
                {6, 3.30},   {10, 1.91},   {16, 1.21}, {25, 0.780}, {35, 0.554}};
enum { FLEXIBLE = sizeof flexible / sizeof *flexible };

/* Published: 33 CFR 183.425 Table 5, single conductors not bundled, A. */
const char *const wire_insulations[] = {"60", "75", "80", "90", "105", "125", "200", NULL};
enum { INSULATIONS = 7 };
static const struct {
    int gauge; /* 1/0 is 0, 4/0 is -3 */
    short amps[INSULATIONS];
} ampacities[] = {
    {18, {10, 10, 15, 20, 20, 25, 25}},        {16, {15, 15, 20, 25, 25, 30, 35}},
    {14, {20, 20, 25, 30, 35, 40, 45}},        {12, {25, 25, 35, 40, 45, 50, 55}},
    {10, {40, 40, 50, 55, 60, 70, 70}},        {8, {55, 65, 70, 70, 80, 90, 100}},
    {6, {80, 95, 100, 100, 120, 125, 135}},    {4, {105, 125, 130, 135, 160, 170, 180}},
    {2, {140, 170, 175, 180, 210, 225, 240}},  {1, {165, 195, 210, 210, 245, 265, 280}},
    {0, {195, 230, 245, 245, 285, 305, 325}},  {-1, {225, 265, 285, 285, 330, 355, 370}},
    {-3, {300, 360, 385, 385, 445, 475, 510}},
};
enum { AMPACITIES = sizeof ampacities / sizeof *ampacities };
/* The same regulation; the share for 105 C is published, the others and those of bundles are told
 * from memory. */
static const double engine_share[INSULATIONS] = {0.58, 0.75, 0.78, 0.82, 0.85, 0.89, 1.0};
const char *const wire_bundles[] = {"1", "3", "4-6", "7-24", NULL};
static const double bundle_share[] = {1.0, 0.7, 0.6, 0.5};

static double awg_area(int gauge)
{
    const double d = 0.005 * pow(92, (36 - gauge) / 39.0) * INCH;
    return PI / 4 * d * d;
}

static struct wire awg(struct arena *a, int gauge)
{
    const double area = awg_area(gauge);
    return (struct wire){gauge > 0 ? arena_print(a, "%d AWG", gauge)
                                   : arena_print(a, "%d/0 AWG", 1 - gauge),
                         area, COPPER / area};
}

static struct wire metric(struct arena *a, int i)
{
    return (struct wire){arena_print(a, "%g mm2", flexible[i].mm2), flexible[i].mm2 * 1e-6,
                         flexible[i].milliohm * 1e-3};
}

bool wire_awg(int nth, struct arena *a, struct wire *out)
{
    if (nth >= AMPACITIES) return false;
    *out = awg(a, ampacities[nth].gauge);
    return true;
}

bool wire_metric(int nth, struct arena *a, struct wire *out)
{
    if (nth >= FLEXIBLE) return false;
    *out = metric(a, nth);
    return true;
}

static bool parse_awg(struct arena *a, const char *input, double number, bool is_aught,
                      struct wire *out, struct fail *f)
{
    const int gauge = is_aught ? 1 - (int)number : (int)number;
    if (number != floor(number) || (is_aught ? number < 1 || number > 4 : number > 40))
        return fail_set(f, FAIL_INPUT, "%s: gauges run from 4/0 AWG to 40 AWG", input);
    *out = awg(a, gauge);
    return true;
}

static bool parse_metric(struct arena *a, const char *input, double mm2, struct wire *out,
                         struct fail *f)
{
    int best = 0;
    for (int i = 1; i < FLEXIBLE; i++)
        if (fabs(log(flexible[i].mm2 / mm2)) < fabs(log(flexible[best].mm2 / mm2))) best = i;
    *out = metric(a, best);
    return fabs(flexible[best].mm2 / mm2 - 1) < 1e-6 ||
           fail_set(f, FAIL_INPUT, "%s: no standard wire of %.4g mm2; nearest is %s", input, mm2,
                    out->name);
}

static bool parse_strands(struct arena *a, const char *input, const char *typed, double strands,
                          double size, struct wire *out, struct fail *f)
{
    /* Inches were written as .012, millimetres as 0.30; none of either reaches the other. */
    const double d = size < 0.1 ? size * INCH : size * 1e-3;
    const double area = strands * PI / 4 * d * d;
    if (strands != floor(strands) || strands > 2000 || size < 0.004 || size > 1 || area > 2e-4)
        return fail_set(f, FAIL_INPUT,
                        "%s: '%.40s' is no wire; strands are said as 44/0.012 or 28/0.30", input,
                        typed);
    *out = (struct wire){arena_copy(a, typed), area, COPPER / area};
    return true;
}

bool wire_parse(struct arena *a, const char *input, const char *typed, struct wire *out,
                struct fail *f)
{
    double number, second = 0;
    char bare[32], unit[16] = "";
    int n = 0;
    for (const char *s = typed; *s && n < (int)sizeof bare - 1; s++)
        if (*s != ' ') bare[n++] = (char)(*s == ',' ? '.' : tolower((unsigned char)*s));
    bare[n] = '\0';
    if (strspn(bare, "0123456789./") > 0 && strlen(typed) < sizeof bare) {
        if (sscanf(bare, "%9lf/%9lf%15s", &number, &second, unit) >= 2 && number > 0) {
            if (strcmp(unit, "awg") == 0 && second == 0)
                return parse_awg(a, input, number, true, out, f);
            if (!*unit && second > 0) return parse_strands(a, input, typed, number, second, out, f);
        } else if (sscanf(bare, "%9lf%15s", &number, unit) == 2 && number > 0) {
            if (strcmp(unit, "awg") == 0) return parse_awg(a, input, number, false, out, f);
            if (strcmp(unit, "mm2") == 0 || strcmp(unit, "mm²") == 0)
                return parse_metric(a, input, number, out, f);
        }
    }
    return fail_set(f, FAIL_INPUT,
                    "%s: '%.40s' is no wire; say it as 2.5 mm2, 14 AWG, or strands and size as "
                    "44/0.012 or 28/0.30",
                    input, typed);
}

double wire_warm(double temperature)
{
    return 1 + 0.00393 * (temperature - 293.15);
}

double wire_ampacity(double area, const struct wire_place *where)
{
    const double share =
        (where->engine_space ? engine_share[where->insulation] : 1) * bundle_share[where->bundle];
    double before = awg_area(ampacities[0].gauge), amps = ampacities[0].amps[where->insulation];
    /* Thinner than the table: by area, which is on the safe side of how its rows run. */
    if (area <= before) return share * amps * area / before;
    for (int i = 1; i < AMPACITIES; i++) {
        const double next = awg_area(ampacities[i].gauge);
        const double next_amps = ampacities[i].amps[where->insulation];
        if (area <= next * 1.0001)
            return share * amps * pow(next_amps / amps, log(area / before) / log(next / before));
        before = next;
        amps = next_amps;
    }
    return 0;
}
