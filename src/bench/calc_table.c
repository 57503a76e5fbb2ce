/* calc_table.c - the systems in the order in which they are shown. */
#include "bench/systems.h"

const struct calc_system calc_systems[] = {
    {"threads", "Threads", calc_threads},
    {"fasteners", "Strength of fasteners", calc_fasteners},
    {"rescue", "Spoilt threads", calc_rescue},
    {NULL, NULL, NULL},
};
