/* originality: which one it is, and how much of it is its own. */
#include "face/cli/answer.h"
#include "face/cli/verbs.h"
#include "face/show/identity_tell.h"
#include "face/show/show_originality.h"
#include "face/show/show_records.h"

/* "originality add COMPONENT CLASS [evidence]" */
static bool add(struct context *c, struct fail *f)
{
    struct garage *g;
    const struct record *vehicle;
    const struct trade *t;
    struct record *r;
    struct text evidence = {.arena = c->arena};
    if (c->n_words < 3)
        return fail_set(f, FAIL_INPUT,
                        "originality add: needs a component and a class, as: fettle originality "
                        "add gearbox period 'tag of another year'");
    for (int i = 3; i < c->n_words; i++)
        text_print(&evidence, "%s%s", i > 3 ? " " : "", c->words[i]);
    const struct told_field fields[] = {{"component", c->words[1]},
                                        {"class", c->words[2]},
                                        {"evidence", text_get(&evidence)},
                                        {"how", "seen"}};
    if (!context_garage(c, GARAGE_WRITE, &g, f) || !context_vehicle(c, &vehicle, f) ||
        !context_trade(c, &t, f) ||
        !identity_tell(c->arena, g, t, "originality", vehicle->id, fields,
                       sizeof fields / sizeof *fields, c->today, &r, f))
        return false;
    if (c->json)
        return context_print_json(c,
                                  json_pack("{s:s, s:s, s:o}", "act", "added", "kind",
                                            "originality", "record", record_to_json(r)),
                                  f);
    context_say(c, "%s: %s", record_text(r, "component", ""), record_text(r, "class", ""));
    return true;
}

/* "originality read CODE [--book BOOK]": stores nothing. What does not fit is bad input. */
static bool read_one(struct context *c, struct fail *f)
{
    const struct trade *t;
    struct mark_read m;
    struct text code = {.arena = c->arena};
    if (c->n_words < 2)
        return fail_set(f, FAIL_INPUT,
                        "originality read: needs a number or a date, as: fettle originality read "
                        "1M8GDM9AXKP042788");
    for (int i = 1; i < c->n_words; i++) text_print(&code, "%s%s", i > 1 ? " " : "", c->words[i]);
    const char *text = text_get(&code);
    if (!context_trade(c, &t, f) ||
        !originality_read(c->arena, t, text, context_option(c, "book"), c->today, &m, f))
        return false;
    if (m.n_misfits > 0)
        return fail_set(f, FAIL_INPUT, "code: '%.60s' %s%s", text, m.misfits[0],
                        m.n_misfits > 1 ? arena_print(c->arena, " (and %d more)", m.n_misfits - 1)
                                        : "");
    if (c->json) return context_print_json(c, show_mark_read_json(&m), f);
    context_print_sheet(c, show_mark_read(c->arena, text, &m));
    return true;
}

static bool run(struct context *c, struct fail *f)
{
    if (c->n_words == 0) return answer_tell(c, QUESTION_ORIGINALITY, f);
    if (text_is(c->words[0], "add")) return add(c, f);
    if (text_is(c->words[0], "read")) return read_one(c, f);
    return fail_set(f, FAIL_INPUT,
                    "originality: no '%s' here; use 'originality', 'originality add COMPONENT "
                    "CLASS [evidence]' or 'originality read CODE'",
                    c->words[0]);
}

static const struct option options[] = {
    {"book", "ID", "which code book reads the code; the one that suits if left out"},
    {NULL, NULL, NULL},
};
static const struct example examples[] = {
    {"fettle originality",
     "numbers and dates, what is its own, and what each direction does to it"},
    {"fettle originality add gearbox period 'tag of another year'", "tell of one component"},
    {"fettle add mark what=casting component=cylinder-block text='C 14 9' how=seen",
     "a date that stands on a part"},
    {"fettle originality read 1M8GDM9AXKP042788", "read one number, storing nothing"},
    {NULL, NULL},
};
const struct command command_originality = {
    .name = "originality",
    .help = "which vehicle it is by its numbers and dates, and how much of it is its own",
    .usage = "\nadd COMPONENT CLASS [evidence]\nread CODE [--book ID]",
    .text = "Classes: original (to this vehicle), period (of its time, but another's), "
            "reproduction, modern, unknown. Numbers and dates are told with 'fettle add mark'. "
            "They are evidence, not proof: leave plates and stampings alone, and ask the "
            "authority. Nothing here is legal advice.",
    .options = options,
    .examples = examples,
    .words = "add read",
    .run = run,
};
