#include "bench/coolant.h"

#include <math.h>

/* Every 5 %: freezing in °C, heat at 20 and 90 °C in J/(kg K), density at 20 and 90 °C in kg/m3.
 * Published: a fit of the ASHRAE Handbook of 2001, evaluated; water from steam tables. Between
 * rows, and between the two temperatures, straight. */
static const struct {
    double freezes, cold_heat, hot_heat, cold_density, hot_density;
} mixes[] = {
    {0.0, 4184, 4205, 998.2, 965.3},     {-1.6, 4080, 4150, 1005.6, 972.2},
    {-3.6, 3972, 4094, 1013.3, 979.2},   {-6.2, 3896, 4037, 1021.6, 986.4},
    {-9.0, 3815, 3976, 1029.7, 993.6},   {-12.1, 3731, 3911, 1037.6, 1000.5},
    {-15.7, 3645, 3844, 1045.2, 1007.1}, {-19.9, 3558, 3775, 1052.6, 1013.4},
    {-24.8, 3468, 3703, 1059.7, 1019.4}, {-30.5, 3376, 3628, 1066.6, 1025.3},
    {-37.1, 3281, 3551, 1073.3, 1031.0}, {-44.4, 3183, 3471, 1079.9, 1036.4},
    {-52.0, 3084, 3389, 1086.3, 1041.6},
};
enum { MIXES = sizeof mixes / sizeof *mixes };

static int row_of(double share, double *along)
{
    const double at = fmin(fmax(share / 0.05, 0), MIXES - 1);
    const int i = (int)fmin(at, MIXES - 2);
    *along = at - i;
    return i;
}

static double between(double a, double b, double along)
{
    return a + (b - a) * along;
}

double coolant_freezes(double share)
{
    double along;
    const int i = row_of(share, &along);
    return 273.15 + between(mixes[i].freezes, mixes[i + 1].freezes, along);
}

double coolant_gravity(double share, double kelvin)
{
    double along;
    const int i = row_of(share, &along);
    return between(between(mixes[i].cold_density, mixes[i + 1].cold_density, along),
                   between(mixes[i].hot_density, mixes[i + 1].hot_density, along),
                   (kelvin - 293.15) / 70);
}

double coolant_heat(double share, double kelvin)
{
    double along;
    const int i = row_of(share, &along);
    return between(between(mixes[i].cold_heat, mixes[i + 1].cold_heat, along),
                   between(mixes[i].hot_heat, mixes[i + 1].hot_heat, along),
                   (kelvin - 293.15) / 70);
}

/* Published: IAPWS-IF97, the backward equation of region 4. */
static double water_boils(double pressure)
{
    const double b = pow(pressure * 1e-6, 0.25);
    const double e = b * b - 0.17073846940092e2 * b + 0.14915108613530e2;
    const double f = 0.11670521452767e4 * b * b + 0.12020824702470e5 * b - 0.48232657361591e4;
    const double g = -0.72421316703206e6 * b * b - 0.32325550322333e7 * b + 0.40511340542057e6;
    const double d = 2 * g / (-f - sqrt(f * f - 4 * e * g));
    const double sum = 0.65017534844798e3 + d;
    return (sum - sqrt(sum * sum - 4 * (-0.23855557567849 + 0.65017534844798e3 * d))) / 2;
}

double coolant_boils(double share, double pressure)
{
    /* Raoult: glycol gives next to no vapour, so the water in it must push harder. */
    const double water = (1 - share) * 998.2 / 18.015, glycol = share * 1113 / 62.07;
    return water_boils(pressure * (water + glycol) / water);
}

double air_pressure(double altitude)
{
    return 101325 * pow(1 - 2.25577e-5 * altitude, 5.25588);
}
