/* coolant.h - water and ethylene glycol: freezing, boiling, what they weigh and carry.
 *
 * share: ethylene glycol by volume, 0 to 0.6 but for boiling. Kelvin and Pa. */
#ifndef BENCH_COOLANT_H
#define BENCH_COOLANT_H

static const double COOLANT_MOST = 0.6; /* as far as the tables go */

double coolant_freezes(double share);
double coolant_gravity(double share, double kelvin); /* kg/m3 */
double coolant_heat(double share, double kelvin);    /* J/(kg K) */
double coolant_boils(double share, double pressure); /* absolute, 1 kPa to 10 MPa; to 0.7 */
double air_pressure(double altitude);                /* standard atmosphere, to 11 km */

#endif
