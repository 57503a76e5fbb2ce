/* bench: the engineering sums. */
#include "face/cli/context.h"
#include "face/cli/verbs.h"
#include "face/show/show_bench.h"

#include <string.h>

static bool find_system(const struct context *c, enum unit_system *out, struct fail *f)
{
    static const char *const names[] = {"metric", "imperial", "US"};
    const char *word = context_option(c, "units");
    *out = UNITS_METRIC;
    for (int i = 0; word && i < 3; i++)
        if (text_same_word(word, names[i])) {
            *out = (enum unit_system)i;
            return true;
        }
    return !word ||
           fail_set(f, FAIL_INPUT, "--units: no system '%s'; use metric, imperial or US", word);
}

/* KEY=VALUE words. */
static bool split(struct context *c, struct bench_typed *typed, int *count, struct fail *f)
{
    *count = 0;
    for (int i = 1; i < c->n_words; i++) {
        const char *word = c->words[i], *is = strchr(word, '=');
        if (!is || is == word)
            return fail_set(f, FAIL_INPUT, "bench: '%s' is no input; say it as name=value", word);
        typed[(*count)++] =
            (struct bench_typed){arena_copy_n(c->arena, word, (size_t)(is - word)), is + 1};
    }
    return true;
}

static bool run(struct context *c, struct fail *f)
{
    const struct calc *calc;
    enum unit_system system;
    int count;
    if (c->n_words == 0 && c->json) return context_print_json(c, show_bench_list_json(), f);
    if (c->n_words == 0) {
        context_print_sheet(c, show_bench_list(c->arena));
        return true;
    }
    struct bench_typed *typed = ARENA_ARRAY(c->arena, struct bench_typed, c->n_words);
    struct bench_asked *asked = ARENA_NEW(c->arena, struct bench_asked);
    if (!bench_find(c->words[0], &calc, f) || !find_system(c, &system, f) ||
        !split(c, typed, &count, f))
        return false;
    if (count == 0 && calc->inputs[0].name && !calc->inputs[0].usual && !c->json) {
        context_print_sheet(c, show_bench_help(c->arena, calc));
        return true;
    }
    const struct trade *trade = NULL;
    if (calc->chooses && !context_trade(c, &trade, f)) return false;
    if (!bench_ask(c->arena, calc, trade, typed, count, system, asked, f)) return false;
    if (c->json) return context_print_json(c, show_bench_json(c->arena, asked), f);
    context_print_sheet(c, show_bench(c->arena, asked));
    return true;
}

static const struct option options[] = {
    {"units", "SYSTEM", "metric, imperial or US; metric if left out"},
    {NULL, NULL, NULL},
};
static const struct example examples[] = {
    {"fettle bench", "every sum, by system"},
    {"fettle bench metric-thread", "what it takes and where it comes from"},
    {"fettle bench metric-thread diameter=8 pitch=1.25", "any unit may be typed: 8 mm, 5/16 in"},
    {"fettle bench metric-thread diameter=? pitch=1.25 stress-area='30 mm2'",
     "backwards: which diameter gives it"},
    {NULL, NULL},
};
const struct command command_bench = {
    .name = "bench",
    .help = "the engineering sums: threads, wire, fuel, brakes, driveline, ...",
    .usage = "[SUM [name=value ...]]",
    .text = "Each sum names its formula, its sources and where it holds. Backwards: give one input "
            "as '?' and "
            "one result the value wanted of it.",
    .options = options,
    .examples = examples,
    .run = run,
};
