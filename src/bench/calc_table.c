/* calc_table.c - the systems in the order in which they are shown. */
#include "bench/systems.h"

const struct calc_system calc_systems[] = {
    {"threads", "Threads and fasteners", calc_threads},
    {NULL, NULL, NULL},
};
