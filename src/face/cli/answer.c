#include "face/cli/answer.h"

#include <stdio.h>
#include <unistd.h>

enum { THREADS_MOST = 256 };

static void show_progress(void *context, double share)
{
    (void)context;
    fprintf(stderr, "\rreckoning %3.0f %%", 100 * share);
}

void answer_reckoned(const struct shop_ask *ask)
{
    if (ask->progress) fprintf(stderr, "\r%*s\r", 16, "");
}

/* All but trade data and direction, which a cached answer does not need. */
static bool ask_garage(struct context *c, enum question q, struct shop_ask *ask, struct fail *f)
{
    const struct record *vehicle = NULL;
    int64_t runs, seed, threads;
    *ask = (struct shop_ask){.today = c->today, .direction = -1};
    if (!context_whole(c, "runs", ANSWER_RUNS_LEAST, ANSWER_RUNS_MOST, RUNS_USUAL, &runs, f) ||
        !context_whole(c, "seed", 0, INT64_MAX, SEED_USUAL, &seed, f) ||
        !context_whole(c, "threads", 1, THREADS_MOST, 0, &threads, f) ||
        !context_garage(c, GARAGE_READ, &ask->garage, f) ||
        (q < QUESTIONS_OF_VEHICLE && !context_vehicle(c, &vehicle, f)))
        return false;
    ask->vehicle = vehicle ? vehicle->id : "";
    ask->runs = (int)runs;
    ask->seed = (uint64_t)seed;
    ask->threads = (int)threads;
    if (isatty(STDERR_FILENO)) ask->progress = show_progress;
    return true;
}

bool answer_ask(struct context *c, struct shop_ask *ask, struct fail *f)
{
    return ask_garage(c, QUESTION_PLAN, ask, f) && context_trade(c, &ask->trade, f) &&
           answer_direction(ask->trade, context_option(c, "direction"), &ask->direction, f);
}

static bool load_trade(void *context, const struct trade **out, struct fail *f)
{
    return context_trade(context, out, f);
}

static bool digest_trade(void *context, char hex[65], struct fail *f)
{
    const struct context *c = context;
    const char *dir;
    return context_garage_dir(context, &dir, f) &&
           trade_digest(c->arena, arena_print(c->arena, "%s/trade", dir), hex, f);
}

struct answer_trade answer_trade_of(struct context *c)
{
    return (struct answer_trade){digest_trade, load_trade, c};
}

bool answer_tell(struct context *c, enum question q, struct fail *f)
{
    struct shop_ask ask;
    struct told answer = {0};
    const struct answer_trade trade = answer_trade_of(c);
    if (!ask_garage(c, q, &ask, f) ||
        !answer_get(c->arena, q, &ask, context_option(c, "direction"), trade, &answer, f))
        return false;
    answer_reckoned(&ask);
    if (c->json) return context_print_json(c, answer.json, f);
    context_print_sheet(c, answer.sheet);
    json_decref(answer.json);
    return true;
}
