/* unit.h - quantities: SI doubles inside, units only at the edges.
 *
 * Published: conversion factors from NIST SP 811 (2008), Appendix B; imperial measures of capacity
 * from the UK Weights and Measures Act 1985. The units known: unit_table.c. */
#ifndef BASE_UNIT_H
#define BASE_UNIT_H

#include "base/fail.h"
#include "base/text.h"

enum quantity {
    QUANTITY_NUMBER,      /* no unit, or % */
    QUANTITY_LENGTH,      /* m */
    QUANTITY_DISTANCE,    /* m, shown as km or miles */
    QUANTITY_AREA,        /* m2 */
    QUANTITY_VOLUME,      /* m3 */
    QUANTITY_MASS,        /* kg */
    QUANTITY_TIME,        /* s; "1 h 30 min", "90 min", "1.5 h" */
    QUANTITY_SPEED,       /* m/s */
    QUANTITY_TURNING,     /* rad/s, shown as rpm */
    QUANTITY_FORCE,       /* N */
    QUANTITY_TORQUE,      /* N m */
    QUANTITY_PRESSURE,    /* Pa */
    QUANTITY_POWER,       /* W */
    QUANTITY_FLOW,        /* m3/s */
    QUANTITY_TEMPERATURE, /* K; "5 C" is 278.15 */
    QUANTITY_ANGLE,       /* rad */
    QUANTITY_VOLTAGE,     /* V */
    QUANTITY_CURRENT,     /* A */
    QUANTITY_RESISTANCE,  /* ohm */
    QUANTITY_CHARGE,      /* C, shown as Ah */
    QUANTITY_STIFFNESS,   /* N/m, shown as N/mm */
    /* m/s2, or shares of g */
    QUANTITY_ACCELERATION,
    QUANTITY_COUNT
};

enum unit_system { UNITS_METRIC, UNITS_IMPERIAL, UNITS_US };

/* "3/8 in", "1 1/2in", "2.5 psi", "55 Nm", "1 h 30 min", "5 ft 6 in", "12 thou", "-40 F". A bare
 * number is refused unless the quantity is NUMBER or `bare` names the unit to take (a known one:
 * asserted). A unit of another kind of quantity is refused by name, with the units that would do.
 * Gallons, pints, quarts, hundredweights and tons have two sizes: "imp gal" or "US gal", "gal"
 * alone is refused. Names are read in any case, but for SI prefixes (mPa is not MPa). "lb" is taken
 * as a force where a force is wanted. */
bool unit_parse(const char *s, enum quantity q, const char *bare, double *si, struct fail *f);

/* In the system's usual unit for the size: "9.53 mm", "3/8 in" where a 64th fits within 0.01 mm
 * (from 1/16 in up, at three figures or fewer) else "0.394 in". `figures` significant figures (0:
 * three). Time is shown as "1 h 30 min" in whole seconds, minutes or hours by its size. What is
 * printed can be parsed. si is finite. */
void unit_print(struct text *t, double si, enum quantity q, enum unit_system system, int figures);
/* In a named unit. Returns false if the unit is unknown or of another kind. */
bool unit_print_as(struct text *t, double si, enum quantity q, const char *unit, int figures);
/* The number in a named unit of q (asserted). */
double unit_in(double si, enum quantity q, const char *unit);
const char *quantity_name(enum quantity q);
bool quantity_parse(const char *s, enum quantity *out);

#endif
