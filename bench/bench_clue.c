/* bench_clue.c - the posterior over a few hundred hypotheses from 40 clues in 12 clusters of four
 * causes, and with the push of every clue; made-up tables. And the stories of a clock with papers.
 * The best of the repeats is given, for the machine may be busy. */
#include "base/random.h"
#include "reckon/clue.h"
#include "reckon/mileage.h"

#include <stdio.h>
#include <time.h>

enum { CLUES = 40, CLUSTERS = 12, CAUSES = 4, OUTCOMES = 3, ROWS = 32, REPEATS = 200 };

static double now(void)
{
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return (double)t.tv_sec * 1e3 + (double)t.tv_nsec / 1e6;
}

static double unit(uint32_t *at)
{
    return random_unit(random_words(1, 2, 3, (*at)++).word[0]);
}

int main(void)
{
    struct arena a = arena_open(64 << 20);
    uint32_t at = 0;
    static const struct mileage_paper papers[] = {{3, 15100}, {7, 42900}, {12, 81400}, {17, 9200}};
    const struct mileage_ask ask = {.years = 20,
                                    .a_year = 6000,
                                    .a_year_spread = 0.5,
                                    .clock = true,
                                    .reading = 34567,
                                    .turn = 100000,
                                    .changed = 0.08,
                                    .stood = 0.08,
                                    .steady = 8,
                                    .wrong = 0.03,
                                    .papers = papers,
                                    .n_papers = 4};
    struct mileage m;
    double stories = 1e9, posterior = 1e9, pushes = 1e9;
    for (int i = 0; i < REPEATS / 10; i++) {
        struct arena scratch = a;
        double from = now();
        mileage_weigh(&scratch, &ask, &m);
        if (now() - from < stories) stories = now() - from;
    }
    mileage_weigh(&a, &ask, &m);

    int *row = ARENA_ARRAY(&a, int, m.n_points);
    bool *claim = ARENA_ARRAY(&a, bool, m.n_points);
    for (int h = 0; h < m.n_points; h++) {
        row[h] = (int)(m.points[h].miles / MILEAGE_MOST * (ROWS - 1));
        claim[h] = m.points[h].story == STORY_TRUE;
    }
    const struct clue_axis axis = {ROWS, row};
    static const double chance[] = {0.4, 0.2, 0.2, 0.2};
    struct clue_cluster cluster[CLUSTERS];
    struct clue clue[CLUES];
    for (int k = 0; k < CLUSTERS; k++) cluster[k] = (struct clue_cluster){0, chance, CAUSES};
    for (int i = 0; i < CLUES; i++) {
        double *table = ARENA_ARRAY(&a, double, ROWS *CAUSES *OUTCOMES);
        for (int c = 0; c < ROWS * CAUSES; c++) {
            double sum = 0;
            for (int o = 0; o < OUTCOMES; o++) sum += table[c * OUTCOMES + o] = 0.05 + unit(&at);
            for (int o = 0; o < OUTCOMES; o++) table[c * OUTCOMES + o] /= sum;
        }
        clue[i] = (struct clue){i % CLUSTERS, OUTCOMES, table, NULL, i % OUTCOMES};
    }
    const struct clue_problem p = {m.chance, m.n_points, &axis, 1, cluster, CLUSTERS, clue, CLUES};
    double sum = 0;
    for (int i = 0; i < REPEATS; i++) {
        struct arena scratch = a;
        struct clue_weighed w;
        double from = now();
        clue_weigh(&scratch, &p, &w);
        double weighed = now();
        for (int k = 0; k < CLUES; k++) sum += clue_push(&w, scratch, k, claim);
        if (weighed - from < posterior) posterior = weighed - from;
        if (now() - from < pushes) pushes = now() - from;
    }
    printf("%d clues in %d clusters of %d causes, %d hypotheses\n", CLUES, CLUSTERS, CAUSES,
           m.n_points);
    printf("posterior               %.3f ms\nposterior and pushes    %.3f ms (sum %.3f)\n",
           posterior, pushes, sum / REPEATS);
    printf("stories of a clock, %d papers  %.3f ms\n", ask.n_papers, stories);
    arena_close(&a);
    return 0;
}
