/* loom: the circuits of a vehicle against the rules of wire, fuse and switch. */
#include "face/cli/context.h"
#include "face/cli/verbs.h"
#include "face/show/show_loom.h"

static bool run(struct context *c, struct fail *f)
{
    struct garage *g;
    const struct record *vehicle;
    struct loom_told told;
    if (c->n_words > 0)
        return fail_set(f, FAIL_INPUT,
                        "loom: takes no word '%s'; 'fettle add circuit' tells it a circuit",
                        c->words[0]);
    if (!context_garage(c, GARAGE_READ, &g, f) || !context_vehicle(c, &vehicle, f) ||
        !loom_of_vehicle(c->arena, g, vehicle, &told, f))
        return false;
    if (c->json) return context_print_json(c, show_loom_json(&told), f);
    context_print_sheet(c, show_loom(c->arena, &told));
    return true;
}

static const struct example examples[] = {
    {"fettle loom", "every undersized wire, unfused run and overloaded switch"},
    {"fettle add circuit name=horn use=motor power=60 length=2 wire='1.5 mm2' fuse=10",
     "a circuit"},
    {NULL, NULL},
};
const struct command command_loom = {
    .name = "loom",
    .help = "the circuits: wires too thin, runs without a fuse, switches overloaded",
    .usage = "",
    .text = "Checks the records of kind circuit: what each wire loses and bears, its fuse and its "
            "switch.",
    .examples = examples,
    .run = run,
};
