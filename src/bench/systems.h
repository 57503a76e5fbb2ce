/* systems.h - the tables of the systems, each ended by a NULL name; for calc_table.c. */
#ifndef BENCH_SYSTEMS_H
#define BENCH_SYSTEMS_H

#include "bench/calc.h"

extern const struct calc calc_threads[];
extern const struct calc calc_fasteners[];
extern const struct calc calc_rescue[];
extern const struct calc calc_electrical[];
extern const struct calc calc_charging[];
extern const struct calc calc_ignition[];
extern const struct calc calc_fuel[];
extern const struct calc calc_tank[];
extern const struct calc calc_springs[];
extern const struct calc calc_ride[];
extern const struct calc calc_weighing[];
extern const struct calc calc_steering[];
extern const struct calc calc_tyres[];
extern const struct calc calc_engine[];
extern const struct calc calc_engine_test[];
extern const struct calc calc_engine_wear[];
extern const struct calc calc_towing[];
extern const struct calc calc_cooling[];
extern const struct calc calc_brakes[];
extern const struct calc calc_stopping[];
extern const struct calc calc_measurement[];
extern const struct calc calc_acceptance[];
extern const struct calc calc_gearing[];
extern const struct calc calc_driveline[];
extern const struct calc calc_seals[];
extern const struct calc calc_convert[];

#endif
