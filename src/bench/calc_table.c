/* calc_table.c - the systems in the order in which they are shown. */
#include "bench/systems.h"

const struct calc_system calc_systems[] = {
    {"threads", "Threads", calc_threads},
    {"fasteners", "Strength of fasteners", calc_fasteners},
    {"rescue", "Spoilt threads", calc_rescue},
    {"electrical", "Wires, fuses, lamps", calc_electrical},
    {"charging", "Battery, generator, starter", calc_charging},
    {"ignition", "Coil, dwell, volts and earth", calc_ignition},
    {"fuel", "Carburettor and fuel pump", calc_fuel},
    {"tank", "Tank and range", calc_tank},
    {"springs", "Springs", calc_springs},
    {"ride", "Springs at the wheel", calc_ride},
    {"weighing", "Weighing and lifting", calc_weighing},
    {"steering", "Toe, camber, castor", calc_steering},
    {"engine", "Engine: size, compression, power", calc_engine},
    {"engine-test", "Engine: gauges and tests", calc_engine_test},
    {"engine-wear", "Engine: wear and timing", calc_engine_wear},
    {"towing", "Loads, trailers, tie-downs", calc_towing},
    {"cooling", "Cooling", calc_cooling},
    {"brakes", "Brakes, from pedal to wheel", calc_brakes},
    {"stopping", "Stopping: balance, distance, rules", calc_stopping},
    {"seals", "Seals and gaskets", calc_seals},
    {"measurement", "What a reading says", calc_measurement},
    {"acceptance", "After long standing", calc_acceptance},
    {"units", "Units", calc_convert},
    {NULL, NULL, NULL},
};
