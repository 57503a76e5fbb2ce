/* bench_fit.c - generated fit models to the proven optimum.
 *
 *   bench_fit [MODEL]            solves 20 models or one, a line each, then the total
 *   bench_fit --models [MODEL]   prints the same for highs_fit.py, that solves them by HiGHS
 *
 * A model: 150 needs of 3 options (a fifth of them woken by other options), 36 adapters, 10
 * suppliers, 360 parts of 2 to 5 offers (some with price breaks, waits, cores), chains of options
 * that require each other, joins that adapters close, conflicts, a limit of hours and a purse. All
 * figures are invented. Timed: from the model to the answer, in seconds of the
 * processor. */
#include "base/random.h"
#include "reckon/fit_rows.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

enum {
    SEEDS = 20,
    NEEDS = 150,
    CHOICES = 3,
    ADAPTERS = 36,
    OPTIONS = NEEDS * CHOICES + ADAPTERS,
    SHARED = 40, /* consumables, that many options take */
    PARTS = 360,
    SUPPLIERS = 10,
    RULES = 200,
    HOURS = 0,
    PURSE = 1,
};

static uint64_t dice_seed;
static uint32_t dice_next;

static double unit(void)
{
    struct philox w = random_words(dice_seed, 6, dice_next / 4, 0);
    return random_unit(w.word[dice_next++ % 4]);
}

static int between(int least, int most)
{
    return least + (int)(unit() * (most - least + 1));
}

static bool chance(double p)
{
    return unit() < p;
}

static int between_logs(int least, int most)
{
    double ratio = (double)most / least;
    return (int)(least * pow(ratio, unit()));
}

struct garage_model {
    struct fit_model m;
    struct fit_option options[OPTIONS];
    struct fit_need needs[NEEDS];
    struct fit_rule rules[RULES];
    struct fit_part parts[PARTS];
    struct fit_offer offers[PARTS * 5];
    struct fit_supplier suppliers[SUPPLIERS];
    struct fit_limit limits[2];
    int price[PARTS];
};

static void add_take(struct fit_take *takes, int *n, int part, int count)
{
    for (int i = 0; i < *n; i++)
        if (takes[i].part == part) return;
    takes[(*n)++] = (struct fit_take){part, count};
}

/* Of a need: refurbish (hours, small parts), like for like, upgrade (more parts, originality lost).
 */
static void add_options(struct arena *a, struct garage_model *g)
{
    for (int o = 0; o < OPTIONS; o++) {
        struct fit_option *t = &g->options[o];
        struct fit_take *takes = ARENA_ARRAY(a, struct fit_take, 6);
        struct fit_use *use = ARENA_ARRAY(a, struct fit_use, 1);
        bool adapter = o >= NEEDS * CHOICES;
        int kind = adapter ? -1 : o % CHOICES;
        int own_parts = adapter ? 1 : kind == 0 ? between(0, 1) : between(1, kind + 1);
        t->need = adapter ? -1 : o / CHOICES;
        for (int i = 0; i < own_parts; i++) {
            int part = between(SHARED, PARTS - 1);
            add_take(takes, &t->n_takes, part, chance(0.8) ? 1 : 2);
        }
        for (int i = 0; i < 2 && !adapter; i++) {
            if (!chance(0.4)) continue;
            int part = between(0, SHARED - 1);
            add_take(takes, &t->n_takes, part, between(1, 6));
        }
        t->takes = takes;
        t->money = kind == 0 ? between_logs(500, 20000) : chance(0.3) ? between(200, 3000) : 0;
        t->lost = kind <= 0 ? 0 : kind == 1 ? between(0, 3) : between(2, 12);
        t->irreversible = kind == 2 && chance(0.1);
        *use = (struct fit_use){HOURS, kind == 0 ? between(60, 600) : between(20, 240)};
        t->uses = use, t->n_uses = 1;
    }
}

static void add_offers(struct arena *a, struct garage_model *g)
{
    for (int p = 0; p < PARTS; p++) {
        bool shared = p < SHARED;
        int price = shared ? between_logs(100, 1500) : between_logs(500, 30000);
        int begin = between(0, SUPPLIERS - 1);
        int n = between(2, 5);
        g->parts[p].spare = shared && chance(0.5) ? 2 : 0;
        g->parts[p].whole = !shared && chance(0.05);
        for (int i = 0; i < n; i++) {
            struct fit_offer *t = &g->offers[g->m.n_offers++];
            struct fit_break *breaks = ARENA_ARRAY(a, struct fit_break, 2);
            t->part = p;
            t->supplier = (begin + 2 * i + between(0, 1)) % SUPPLIERS;
            breaks[0] = (struct fit_break){1, (int)(price * (0.85 + 0.3 * unit()))};
            t->n_breaks = shared && chance(0.4) ? 2 : 1;
            breaks[1] = (struct fit_break){between(5, 12), breaks[0].unit * 85 / 100};
            t->breaks = breaks;
            t->core = !shared && chance(0.05) ? price / 4 : 0;
            t->late = chance(0.1) ? between_logs(200, 5000) : 0;
            t->most = !shared && chance(0.05) ? 1 : 0;
        }
    }
    for (int s = 0; s < SUPPLIERS; s++) {
        g->suppliers[s].carriage = between(600, 6000);
        g->suppliers[s].least_order = s % 3 == 0 ? between(2000, 10000) : 0;
        g->suppliers[s].free_from = s % 2 == 0 ? between(15000, 90000) : 0;
    }
}

static int option_of(int need, int kind)
{
    return need * CHOICES + kind;
}

static const int *list(struct arena *a, int n, const int *of)
{
    int *out = ARENA_ARRAY(a, int, n);
    memcpy(out, of, (size_t)n * sizeof *out);
    return out;
}

/* One that is not the refurbishing of the old, for a need in a range. */
static const int *some_option(struct arena *a, int first, int last)
{
    int need = between(first, last);
    return list(a, 1, (int[]){option_of(need, between(1, 2))});
}

static void add_rules(struct arena *a, struct garage_model *g)
{
    for (int n = 5; n < NEEDS; n++)
        if (chance(0.2)) g->needs[n] = (struct fit_need){some_option(a, 0, n - 1), 1};
    int n = 0;
    while (n < 80) /* chains: an upgrade brings another with it, and that the next */
        for (int at = between(0, NEEDS - 40), k = between(2, 5); k > 0 && n < 80; k--) {
            const int *when = list(a, 1, (int[]){option_of(at, 2)});
            at += between(1, 8);
            g->rules[n] = (struct fit_rule){when, some_option(a, at, at), 1, 1, n};
            n++;
        }
    while (n < 140) { /* joins */
        int first = NEEDS * CHOICES + between(0, ADAPTERS - 3);
        int by[3] = {first, first + 1, first + 2};
        int count = between(1, 3);
        const int *when = some_option(a, 0, NEEDS - 1);
        g->rules[n] = (struct fit_rule){when, list(a, count, by), 1, count, n};
        n++;
    }
    while (n < RULES) { /* conflicts */
        int one = between(0, NEEDS - 2);
        int other = between(one + 1, NEEDS - 1);
        int both[2];
        both[0] = option_of(one, between(0, 2));
        both[1] = option_of(other, between(0, 2));
        g->rules[n] = (struct fit_rule){.when = list(a, 2, both), .n_when = 2, .tag = n};
        n++;
    }
}

static struct fit_model *generate(struct arena *a, uint64_t seed)
{
    struct garage_model *g = ARENA_NEW(a, struct garage_model);
    dice_seed = seed, dice_next = 0;
    add_options(a, g);
    add_offers(a, g);
    add_rules(a, g);
    g->limits[HOURS] = (struct fit_limit){.most = NEEDS * between(130, 170)};
    g->limits[PURSE] = (struct fit_limit){.most = NEEDS * between(6400, 7600), .purse = true};
    struct fit_model *m = &g->m;
    m->options = g->options, m->n_options = OPTIONS;
    m->needs = g->needs, m->n_needs = NEEDS;
    m->rules = g->rules, m->n_rules = RULES;
    m->parts = g->parts, m->n_parts = PARTS;
    m->offers = g->offers;
    m->suppliers = g->suppliers, m->n_suppliers = SUPPLIERS;
    m->limits = g->limits, m->n_limits = 2;
    m->weight = 600;
    return m;
}

static void print_number(int64_t v)
{
    if (v <= -PROGRAM_NO_END)
        printf(" -inf");
    else if (v >= PROGRAM_NO_END)
        printf(" inf");
    else
        printf(" %lld", (long long)v);
}

/* A program: "columns rows entries", per column cost low high, per row least most, entries as row
 * column value. */
static void print_program(const struct program *p)
{
    printf("%d %d %d\n", p->columns, p->rows, p->row_start[p->rows]);
    for (int j = 0; j < p->columns; j++)
        printf("%lld %lld %lld\n", (long long)p->cost[j], (long long)p->low[j],
               (long long)p->high[j]);
    for (int i = 0; i < p->rows; i++) {
        print_number(p->least[i]);
        print_number(p->most[i]);
        printf("\n");
    }
    for (int i = 0; i < p->rows; i++)
        for (int k = p->row_start[i]; k < p->row_start[i + 1]; k++)
            printf("%d %d %lld\n", i, p->of_row[k].at, (long long)p->of_row[k].value);
}

static double processor(void)
{
    struct timespec t;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &t);
    return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

int main(int argc, char **argv)
{
    static const char *const states[] = {"proven", "found", "nothing", "unknown"};
    struct arena arena = arena_open((size_t)1 << 30);
    bool models = argc > 1 && strcmp(argv[1], "--models") == 0;
    int only = argc > 1 && !models ? atoi(argv[1]) : argc > 2 ? atoi(argv[2]) : 0;
    int first = only ? only : 1, last = only ? only : SEEDS;
    double total = 0;
    for (int seed = first; seed <= last; seed++) {
        struct arena a = arena;
        struct fail f = {0};
        struct fit_model *m = generate(&a, (uint64_t)seed);
        if (!fit_valid(m, &f)) {
            fprintf(stderr, "bench_fit: model %d: %s\n", seed, f.text);
            return 3;
        }
        if (models) {
            struct fit_columns columns;
            struct program p = fit_program(&a, m, &(struct fit_ask){0}, &columns);
            print_program(&p);
            continue;
        }
        double begun = processor();
        struct fit_answer answer = fit_solve(&a, m, FIT_NODES);
        double taken = processor() - begun;
        if (!fit_check(m, &answer, a, &f)) {
            fprintf(stderr, "bench_fit: model %d: %s\n", seed, f.text);
            return 3;
        }
        printf(
            "{\"model\": %d, \"state\": \"%s\", \"total\": %lld, \"bound\": %lld, \"nodes\": %lld, "
            "\"orders\": %d, \"seconds\": %.4f}\n",
            seed, states[answer.state], (long long)answer.cost.total, (long long)answer.bound,
            (long long)answer.nodes, answer.n_baskets, taken);
        fflush(stdout);
        total += taken;
    }
    if (!models) printf("{\"program\": \"bench_fit\", \"seconds\": %.3f}\n", total);
    arena_close(&arena);
    return 0;
}
