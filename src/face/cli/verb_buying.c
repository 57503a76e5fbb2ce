/* buying: what is due on orders and pieces sent, and what to order together. */
#include "face/cli/answer.h"
#include "face/cli/verbs.h"
#include "face/show/show_buying.h"

struct kept {
    struct context *context;
    struct shop_ask ask;
};

static bool plan_kept(void *context, const char *vehicle, struct told *out, bool *current)
{
    struct kept *k = context;
    k->ask.vehicle = vehicle;
    return answer_kept(k->context->arena, QUESTION_PLAN, &k->ask, NULL, answer_trade_of(k->context),
                       out, current);
}

static bool run(struct context *c, struct fail *f)
{
    struct kept k = {c,
                     {.today = c->today, .direction = -1, .seed = SEED_USUAL, .runs = RUNS_USUAL}};
    const struct trade *t;
    struct buying x;
    if (c->n_words > 0)
        return fail_set(f, FAIL_INPUT,
                        "buying: takes no word '%s'; orders, quotes and pieces sent are told by "
                        "'fettle add'",
                        c->words[0]);
    if (!context_garage(c, GARAGE_READ, &k.ask.garage, f) || !context_trade(c, &t, f) ||
        !buying_of_garage(c->arena, k.ask.garage, t, (struct buying_plans){plan_kept, &k}, c->today,
                          &x, f))
        return false;
    if (c->json) return context_print_json(c, show_buying_json(&x), f);
    context_print_sheet(c, show_buying(c->arena, &x));
    return true;
}

static const struct example examples[] = {
    {"fettle buying", "what to check, send back and chase, and what to order together"},
    {"fettle add order part=fan-belt quote=3fa2 price='9 GBP' ordered=2026-11-25 due=2026-12-01",
     "what was ordered, on which quote"},
    {"fettle change order 5b1c arrived=2026-12-02 warranty=2027-12-02", "it came"},
    {"fettle add sent supplier=Hale what='cylinder head' count=1 sent=2026-11-25 "
     "promised=2026-12-20 chase=2026-12-12 tolerances='no more than 0.1 mm off'",
     "a piece that went to a specialist"},
    {NULL, NULL},
};
const struct command command_buying = {
    .name = "buying",
    .help = "what is due on orders and pieces sent away, and what to order together",
    .usage = "",
    .text = "Arrivals to be checked before they can no longer go back, parts to be sent back, late "
            "orders and pieces to be chased, warranties that run while a part lies unfitted. Then "
            "a basket a supplier, of what the last plans want within a month: the least of goods, "
            "carriage and waiting, and what to order along because it earns the carriage.",
    .examples = examples,
    .run = run,
};
