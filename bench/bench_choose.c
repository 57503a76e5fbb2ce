/* bench_choose.c - the whole of choose on the demonstration vehicle: five directions on 10,000
 * shared runs, what would change the choice, and the list of looks.
 *
 *   bench_choose [GARAGE]    GARAGE is build/demo unless told: fettle demo DIR makes one
 *
 * Timed: everything from the records of the garage to the result, with one thread and with two;
 * not the reading of the trade data. The best of the repeats is given, for the machine may be busy;
 * seconds of the processor beside it, which a busy machine stretches less. */
#include "shop/choose.h"

#include "on_demo.h"

#include <math.h>

enum { RUNS = 10000, REPEATS = 5 };

static bool measure(struct arena a, struct garage *g, const struct trade *t, const char *vehicle,
                    struct fail *f)
{
    for (int threads = 1; threads <= 2; threads++) {
        double wall = INFINITY, processor = INFINITY;
        struct choose c;
        for (int repeat = 0; repeat < REPEATS; repeat++) {
            struct arena run = a;
            struct shop_ask ask = {.garage = g,
                                   .trade = t,
                                   .vehicle = vehicle,
                                   .direction = -1,
                                   .seed = SEED_USUAL,
                                   .runs = RUNS,
                                   .threads = threads};
            if (!day_parse("2026-11-25", &ask.today, f)) return false;
            double begun = seconds(CLOCK_MONOTONIC), worked = seconds(CLOCK_PROCESS_CPUTIME_ID);
            if (!choose_reckon(&run, &ask, &c, f)) return false;
            wall = fmin(wall, seconds(CLOCK_MONOTONIC) - begun);
            processor = fmin(processor, seconds(CLOCK_PROCESS_CPUTIME_ID) - worked);
        }
        printf("{\"program\": \"bench_choose\", \"directions\": %d, \"runs\": %d, \"looks\": %d, "
               "\"threads\": %d, \"seconds\": %.3f, \"processor_seconds\": %.3f}\n",
               c.n_directions, RUNS, c.n_looks, threads, wall, processor);
    }
    return true;
}

int main(int argc, char **argv)
{
    return on_demo("bench_choose", argc, argv, measure);
}
