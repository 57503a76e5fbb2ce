/* garage: is the store sound, and what is in it. */
#include "face/cli/context.h"
#include "face/cli/verbs.h"

static bool check(struct context *c, struct garage *g, struct fail *f)
{
    struct text report = {.arena = c->arena};
    int entries, faults, swept = 0;
    if (!garage_check(g, &report, &entries, &faults, f) ||
        (faults == 0 && !garage_sweep(g, &swept, f)))
        return false;
    if (c->json) {
        json_t *out =
            json_pack("{s: b, s: i, s: i, s: s, s: i}", "sound", faults == 0, "entries", entries,
                      "faults", faults, "report", text_get(&report), "swept", swept);
        if (!context_print_json(c, out, f)) return false;
    } else {
        if (report.length) context_say(c, "%s", text_get(&report));
        if (faults == 0)
            context_say(c, "%s is sound: %d journal entries verified", garage_dir(g), entries);
        if (swept > 0)
            context_say(c, "%d file%s without a record, left behind by a crash: removed", swept,
                        swept == 1 ? "" : "s");
    }
    if (faults == 0) return true;
    return fail_set(
        f, FAIL_NO,
        "%s: %d fault%s in %d journal entries; if only rows differ, 'fettle garage rebuild' "
        "makes them again from the journal; else go back to a copy",
        garage_dir(g), faults, faults == 1 ? "" : "s", entries);
}

static bool rebuild(struct context *c, struct garage *g, struct fail *f)
{
    int entries;
    if (!garage_rebuild(g, &entries, f)) return false;
    if (c->json) return context_print_json(c, json_pack("{s: i}", "entries", entries), f);
    context_say(c, "made the records again from %d journal entries", entries);
    return true;
}

static bool info(struct context *c, struct garage *g, struct fail *f)
{
    struct sheet *s = sheet_new(c->arena, garage_dir(g));
    json_t *counts = json_object();
    for (int i = 0; record_kinds[i]; i++) {
        struct record *records;
        int count;
        if (!garage_list(g, c->arena, record_kinds[i], NULL, &records, &count, f)) {
            json_decref(counts);
            return false;
        }
        json_object_set_new(counts, record_kinds[i]->name, json_integer(count));
        if (count) sheet_fact(s, TONE_PLAIN, record_kinds[i]->plural, "%d", count);
    }
    if (c->json)
        return context_print_json(
            c, json_pack("{s: s, s: o}", "garage", garage_dir(g), "records", counts), f);
    json_decref(counts);
    if (!s->first) sheet_text(s, "Nothing in it yet; 'fettle intake' takes a vehicle in.");
    context_print_sheet(c, s);
    return true;
}

static bool run(struct context *c, struct fail *f)
{
    static const struct {
        const char *name;
        enum garage_mode mode;
        bool (*run)(struct context *, struct garage *, struct fail *);
    } acts[] = {{"info", GARAGE_READ, info},
                {"check", GARAGE_READ, check},
                {"rebuild", GARAGE_WRITE, rebuild}};
    const char *word = c->n_words ? c->words[0] : "info";
    for (size_t i = 0; c->n_words <= 1 && i < sizeof acts / sizeof *acts; i++)
        if (text_is(word, acts[i].name)) {
            struct garage *g;
            return context_garage(c, acts[i].mode, &g, f) && acts[i].run(c, g, f);
        }
    return fail_set(f, FAIL_INPUT, "garage: say info, check or rebuild, and nothing more; not '%s'",
                    c->words[c->n_words - 1]);
}

static const struct example examples[] = {
    {"fettle garage", "where it is and what it holds"},
    {"fettle garage check",
     "every entry of the journal, every record and file; exit status 1 if one is wrong"},
    {"fettle garage rebuild", "throw the records away and make them again from the journal"},
    {NULL, NULL},
};
const struct command command_garage = {
    .name = "garage",
    .help = "what the garage holds; check it against its journal",
    .usage = "[info|check|rebuild]",
    .examples = examples,
    .words = "info check rebuild",
    .run = run,
};
