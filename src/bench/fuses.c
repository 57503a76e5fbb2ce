#include "bench/fuses.h"

/* Blade and strip fuses; the quarter is trade practice. */
static const double fuses[] = {1, 2, 3, 4, 5, 7.5, 10, 15, 20, 25, 30, 40, 50, 60, 80, 100};

double fuse_for(double amps)
{
    for (int i = 0; i < (int)(sizeof fuses / sizeof *fuses); i++)
        if (fuses[i] >= 1.25 * amps * (1 - 1e-9)) return fuses[i];
    return 0;
}
