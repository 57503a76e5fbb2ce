/* log: one line at the end of the session, and the clock that runs for a job. */
#include "face/cli/answer.h"
#include "face/cli/entry.h"
#include "face/cli/verbs.h"
#include "face/show/log_keep.h"
#include "face/show/measured_keep.h"
#include "face/show/show_log.h"

#include <stdio.h>
#include <string.h>
#include <unistd.h>

static const char *rest_of(struct context *c, int from)
{
    struct text t = {.arena = c->arena};
    for (int i = from; i < c->n_words; i++)
        text_print(&t, "%s%s", i > from ? " " : "", c->words[i]);
    return text_get(&t);
}

/* A person at a terminal answers in place of --yes. */
static bool agreed(void)
{
    char line[20] = "";
    if (!isatty(STDIN_FILENO) || !isatty(STDOUT_FILENO)) return false;
    printf("Store this? [yes, no] ");
    fflush(stdout);
    if (!fgets(line, sizeof line, stdin)) return false;
    line[strcspn(line, "\r\n")] = '\0';
    return text_same_word(line, "yes") || text_same_word(line, "y");
}

static bool told(struct context *c, const struct log_reading *r, bool stored, struct fail *f)
{
    if (c->json) return context_print_json(c, show_log_json(r, stored), f);
    context_print_sheet(c, show_log(c->arena, r, stored));
    return true;
}

static bool line(struct context *c, struct log_ask *ask, struct fail *f)
{
    struct log_reading r;
    bool stored = false;
    const bool yes = context_option(c, "yes") != NULL, sure = context_option(c, "sure") != NULL;
    if (yes || sure) {
        if (!log_tell(c->arena, ask, sure, &r, &stored, f) || !told(c, &r, stored, f)) return false;
    } else {
        if (!log_read(c->arena, ask, &r, f) || !told(c, &r, false, f)) return false;
        if (c->json || r.n_open > 0) return true;
        if (agreed()) {
            if (!log_tell(c->arena, ask, true, &r, &stored, f)) return false;
            context_say(c, "Stored.");
        } else if (r.n_questions == 0)
            context_say(c, "Store it: the same with --yes.");
        else
            context_say(c, "If that is so, store it: the same with --sure.");
        return true;
    }
    if (stored) return true;
    if (r.n_open > 0)
        return fail_set(f, FAIL_INPUT,
                        "log: nothing was stored: '%.60s' may be %d jobs; write the id",
                        r.open[0].words, r.open[0].jobs.count);
    return fail_set(f, FAIL_INPUT, "log: nothing was stored: %s Say yes with --sure",
                    r.questions[0]);
}

static bool begin(struct context *c, struct log_ask *ask, struct fail *f)
{
    struct record *timer;
    if (c->n_words < 2)
        return fail_set(f, FAIL_INPUT,
                        "log start: for which job? As: fettle log start brakes-open");
    if (!timer_start(c->arena, ask, rest_of(c, 1), &timer, f)) return false;
    if (c->json)
        return context_print_json(
            c, json_pack("{s:s, s:s}", "act", "started", "job", record_text(timer, "job", "")), f);
    context_say(c, "The clock runs for %s since %s. Stop it: fettle log stop",
                record_text(timer, "job", ""), record_text(timer, "from", ""));
    return true;
}

static bool end(struct context *c, struct log_ask *ask, struct fail *f)
{
    const char *said;
    const bool finished = c->n_words == 2 && (text_same_word(c->words[1], "finished") ||
                                              text_same_word(c->words[1], "done"));
    if (c->n_words > 1 && !finished)
        return fail_set(f, FAIL_INPUT, "log stop: takes no word but 'finished'");
    if (!timer_stop(c->arena, ask, context_option(c, "hours"), finished,
                    context_option(c, "drop") != NULL, &said, f))
        return false;
    if (c->json)
        return context_print_json(c, json_pack("{s:s, s:s}", "act", "stopped", "said", said), f);
    context_say(c, "%s", said);
    return true;
}

static bool measure(struct context *c, const struct log_ask *log, struct fail *f)
{
    struct measured_ask ask = {
        .garage = log->garage, .trade = log->trade, .vehicle = log->vehicle, .today = log->today};
    const char *tool = NULL, *source = NULL;
    const struct {
        const char *name, **to;
    } keys[] = {{"where", &ask.where},
                {"low", &ask.low},
                {"high", &ask.high},
                {"tool", &tool},
                {"source", &source}};
    const bool yes = context_option(c, "yes") != NULL, sure = context_option(c, "sure") != NULL;
    struct measured_reading x;
    bool stored = false;
    if (c->n_words < 3)
        return fail_set(
            f, FAIL_INPUT,
            "log measure: say what and how much, as: fettle log measure battery '12.4 V'");
    ask.what = c->words[1];
    ask.value = c->words[2];
    for (int i = 3; i < c->n_words; i++) {
        const char *key, *value;
        size_t k = 0;
        if (!entry_split(c->arena, c->words[i], &key, &value, f)) return false;
        while (k < sizeof keys / sizeof *keys && !text_is(keys[k].name, key)) k++;
        if (k == sizeof keys / sizeof *keys)
            return fail_set(f, FAIL_INPUT,
                            "log measure: it has no '%.40s'; say where, low, high, tool or source",
                            key);
        *keys[k].to = value;
    }
    if (yes || sure ? !measured_tell(c->arena, &ask, tool, source, sure, &x, &stored, f)
                    : !measured_read(c->arena, &ask, &x, f))
        return false;
    if (c->json) {
        if (!context_print_json(c, show_measured_json(&x, stored), f)) return false;
    } else
        context_print_sheet(c, show_measured(c->arena, ask.trade, &x, stored));
    if (stored || c->json) return true;
    if (yes)
        return fail_set(f, FAIL_INPUT, "log: nothing was stored: %s Say yes with --sure",
                        x.questions[0]);
    context_say(c, x.n_questions ? "If that is so, store it: the same with --sure."
                                 : "Store it: the same with --yes.");
    return true;
}

static bool run(struct context *c, struct fail *f)
{
    const struct log_now now = log_now();
    const bool stops = c->n_words > 0 && text_is(c->words[0], "stop"),
               starts = c->n_words > 0 && text_is(c->words[0], "start");
    const bool stores = stops || starts || context_option(c, "yes") || context_option(c, "sure") ||
                        (!c->json && isatty(STDIN_FILENO) && isatty(STDOUT_FILENO));
    const struct record *vehicle;
    struct log_ask ask = {.today = c->today, .minute = now.minute, .now = now.stamp};
    if (c->n_words == 0)
        return fail_set(f, FAIL_INPUT,
                        "log: say what was done, as: fettle log '4 h, front brakes, left cylinder "
                        "stuck'");
    if (!context_garage(c, stores ? GARAGE_WRITE : GARAGE_READ, &ask.garage, f) ||
        !context_vehicle(c, &vehicle, f) || !context_trade(c, &ask.trade, f))
        return false;
    ask.vehicle = vehicle->id;
    if (starts) return begin(c, &ask, f);
    if (stops) return end(c, &ask, f);
    if (text_is(c->words[0], "measure")) return measure(c, &ask, f);
    ask.line = rest_of(c, 0);
    return line(c, &ask, f);
}

static const struct option options[] = {
    {"yes", NULL, "store it; what is open is refused and said"},
    {"sure", NULL, "store it; yes to what is asked about"},
    {"hours", "HOURS", "with stop: how long it really was"},
    {"drop", NULL, "with stop: count nothing"},
    {NULL, NULL, NULL},
};
static const struct example examples[] = {
    {"fettle log '4 h, front brakes, left cylinder stuck'", "shows what was understood"},
    {"fettle log '4 h, brake-cylinders, left cylinder stuck' --yes", "and stores it"},
    {"fettle log '3 h, radiator and hoses, done, yesterday' --yes", "shared over both, finished"},
    {"fettle log start brakes-open", "the clock runs"},
    {"fettle log measure battery '12.4 V' --yes", "judged against its limit, and stored"},
    {"fettle log stop finished", "and stops; a forgotten one is asked about"},
    {NULL, NULL},
};
const struct command command_log = {
    .name = "log",
    .help = "log the session in one line, or by a clock",
    .usage = "LINE [--yes | --sure]\n"
             "start JOB\n"
             "stop [finished] [--hours HOURS | --drop]\n"
             "measure WHAT VALUE [where=...] [low=...] [high=...] [--yes | --sure]",
    .text = "One line is read into jobs, hours and a setback, and shown. Nothing is guessed: what "
            "may be one of several jobs is asked, what was not understood is said, and all of it "
            "stays in the note. Hours to come, hours that overlap and the same work logged twice "
            "are asked about.",
    .options = options,
    .examples = examples,
    .words = "start stop measure",
    .run = run,
};
