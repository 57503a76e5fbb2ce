/* yard: every vehicle at a glance, from facts alone. */
#include "face/cli/context.h"
#include "face/cli/verbs.h"
#include "face/show/show_session.h"
#include "face/show/words.h"
#include "garage/kinds.h"

static json_t *lines_json(const char *const *line)
{
    json_t *a = json_array();
    for (; *line; line++) json_array_append_new(a, json_string(*line));
    return a;
}

static bool run(struct context *c, struct fail *f)
{
    struct garage *g;
    const struct trade *t;
    struct record *vehicles;
    int n;
    if (c->n_words > 0)
        return fail_set(f, FAIL_INPUT, "yard: takes no word '%.60s'; it is about all vehicles",
                        c->words[0]);
    if (!context_garage(c, GARAGE_READ, &g, f) || !context_trade(c, &t, f) ||
        !garage_list(g, c->arena, record_kind_find("vehicle"), NULL, &vehicles, &n, f))
        return false;
    struct sheet *s = sheet_new(c->arena, "The yard");
    json_t *list = json_array();
    bool good = true;
    if (n == 0) sheet_text(s, "No vehicle in the garage yet: fettle intake");
    for (int i = 0; i < n && good; i++) {
        struct stall stall;
        struct fact_left_off left;
        const char *name = record_text(&vehicles[i], "name", "?");
        if (vehicle_owned(&vehicles[i]) != OWNED_YES) continue;
        good = stall_read(c->arena, g, t, vehicles[i].id, c->today, &stall, &left, f);
        if (!good) break;
        const char **lines = stall_words(c->arena, t, &stall, c->today);
        json_array_append_new(list, json_pack("{s:s, s:s?, s:o}", "vehicle", name, "left_off",
                                              left.note, "stalls", lines_json(lines)));
        sheet_heading(s, 2, name);
        sheet_fact(s, TONE_PLAIN, "left off", "%s%s", left.note ? left.note : "no note yet",
                   left.note && left.date != DAY_NONE
                       ? arena_print(c->arena, "; %s", words_day(c->arena, left.date))
                       : "");
        for (const char **line = lines; *line; line++)
            sheet_fact(s, TONE_CARE, "it stalls", "%s", *line);
    }
    if (!good || !c->json) json_decref(list);
    if (good && c->json) return context_print_json(c, json_pack("{s:o}", "vehicles", list), f);
    if (good) context_print_sheet(c, s);
    return good;
}

static const struct option options[] = {{NULL, NULL, NULL}};
static const struct example examples[] = {
    {"fettle yard", "how each was left off, and which stalls"},
    {NULL, NULL},
};
const struct command command_yard = {
    .name = "yard",
    .help = "every vehicle at a glance: how it was left off, and whether the work stalls",
    .usage = "",
    .text = "Six weeks without hours, or work begun in more than three systems at once: then the "
            "work stalls. Nothing is reckoned for it.",
    .options = options,
    .examples = examples,
    .run = run,
};
