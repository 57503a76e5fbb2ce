/* calendar: days that matter as an iCalendar stream. */
#include "face/cli/answer.h"
#include "face/cli/verbs.h"
#include "face/cli/wrap.h"
#include "face/show/ical.h"

#include <stdio.h>

static bool run(struct context *c, struct fail *f)
{
    struct shop_ask ask = {
        .today = c->today, .direction = -1, .seed = SEED_USUAL, .runs = RUNS_USUAL, .vehicle = ""};
    struct feed feed;
    const char *without;
    if (c->n_words > 0)
        return fail_set(f, FAIL_INPUT, "calendar: takes no word; as: fettle calendar > garage.ics");
    if (!context_garage(c, GARAGE_READ, &ask.garage, f) || !context_trade(c, &ask.trade, f) ||
        !feed_read(c->arena, &ask, &feed, f) ||
        !ical_add_order_by(c->arena, &ask, answer_trade_of(c), &feed, &without, f))
        return false;
    if (c->json) return context_print_json(c, ical_json(&feed, without), f);
    fputs(ical_write(c->arena, &feed, c->today), stdout);
    if (without)
        fprintf(stderr,
                "fettle: order-by dates are those of an older plan, or none, for: %s; "
                "reckon it with fettle plan\n",
                wrap_clean(c->arena, without, false));
    return true;
}

static const struct option options[] = {{NULL, NULL, NULL}};
static const struct example examples[] = {
    {"fettle calendar > garage.ics",
     "sessions, deliveries, order-by dates, last days to send back"},
    {NULL, NULL},
};
const struct command command_calendar = {
    .name = "calendar",
    .help = "days that matter, for the calendar of a phone",
    .usage = "",
    .text = "An iCalendar stream of the whole garage on standard output. Where the pages are "
            "served, it is at /garage.ics.",
    .options = options,
    .examples = examples,
    .run = run,
};
