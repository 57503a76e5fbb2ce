/* trade: look into the trade data, and check it. */
#include "face/cli/context.h"
#include "face/cli/verbs.h"
#include "face/show/show_trade.h"

static bool check(struct context *c, struct fail *f)
{
    const char *dir = c->n_words > 1 ? c->words[1] : NULL;
    struct trade t = {0};
    struct trade_faults faults = {0};
    bool good;
    if (dir) {
        good = trade_check_dir(c->arena, dir, &t, &faults, f);
    } else {
        const char *garage, *own = NULL;
        struct fail ignored = {0};
        if (context_garage_dir(c, &garage, &ignored))
            own = arena_print(c->arena, "%s/trade", garage);
        good = trade_load(c->arena, own, &t, &faults, f);
    }
    if (!good && faults.count == 0) return false; /* the folder itself; f says it */
    if (c->json) {
        json_t *lines = json_array(), *counts = json_object();
        for (int i = 0; i < faults.count; i++)
            json_array_append_new(lines, json_string(faults.line[i]));
        for (int s = 0; good && s < SUBJECT_COUNT; s++)
            json_object_set_new(counts, subject_name((enum subject)s),
                                json_integer(trade_count(&t, (enum subject)s)));
        if (!context_print_json(c, json_pack("{s: o, s: o}", "faults", lines, "counts", counts), f))
            return false;
    } else if (!good) {
        for (int i = 0; i < faults.count; i++) context_say(c, "%s", faults.line[i]);
    } else {
        struct text line = {.arena = c->arena};
        for (int s = 0; s < SUBJECT_COUNT; s++)
            if (trade_count(&t, (enum subject)s) > 0)
                text_print(&line, "%s%d %s", line.length ? ", " : "",
                           trade_count(&t, (enum subject)s), subject_name((enum subject)s));
        context_say(c, "trade data ok: %s", text_get(&line));
    }
    if (good) return true;
    *f = (struct fail){0};
    return fail_set(f, FAIL_INPUT,
                    "%s: %d fault%s in the trade data, listed above; mend the lines named",
                    dir ? dir : "trade", faults.count, faults.count == 1 ? "" : "s");
}

static bool find_subject(const char *name, enum subject *out, struct fail *f)
{
    const char *known[SUBJECT_COUNT];
    for (int s = 0; s < SUBJECT_COUNT; s++) {
        known[s] = subject_name((enum subject)s);
        if (text_same_word(name, known[s])) {
            *out = (enum subject)s;
            return true;
        }
    }
    const char *near = nearest_word(name, known, SUBJECT_COUNT);
    if (near)
        return fail_set(f, FAIL_INPUT, "trade list: no subject '%s'; did you mean '%s'?", name,
                        near);
    return fail_set(f, FAIL_INPUT,
                    "trade list: no subject '%s'; use places, systems, ageing, components, jobs, "
                    "setbacks, parts, directions, cautions, coverage, tools, sources or defaults",
                    name);
}

static bool print_hits(struct context *c, const struct trade *t, const char *title,
                       const struct trade_hit *hits, int count, struct fail *f)
{
    if (!c->json) {
        context_print_sheet(c, show_trade_hits(c->arena, t, title, hits, count));
        return true;
    }
    json_t *entries = json_array();
    for (int i = 0; i < count; i++)
        json_array_append_new(entries, trade_entry_to_json(t, hits[i].subject, hits[i].index));
    return context_print_json(c, json_pack("{s: o}", "entries", entries), f);
}

static bool list(struct context *c, const struct trade *t, struct fail *f)
{
    enum subject s = SUBJECT_COMPONENTS; /* set by find_subject */
    if (!find_subject(c->words[1], &s, f)) return false;
    int count = trade_count(t, s);
    struct trade_hit *hits = ARENA_ARRAY(c->arena, struct trade_hit, count);
    for (int i = 0; i < count; i++) hits[i] = (struct trade_hit){s, i};
    return print_hits(c, t, arena_print(c->arena, "%s: %d", subject_name(s), count), hits, count,
                      f);
}

/* An id is unique within a subject only: a component and a part may share one, and then both are
 * shown. */
static bool show(struct context *c, const struct trade *t, struct fail *f)
{
    const char *id = c->words[1], *near = NULL;
    struct trade_hit hits[SUBJECT_COUNT];
    int count = 0, best = 0;
    for (int s = 0; s < SUBJECT_COUNT; s++) {
        int index = trade_find(t, (enum subject)s, id);
        if (index >= 0) hits[count++] = (struct trade_hit){(enum subject)s, index};
        const char *word = trade_nearest(t, (enum subject)s, id);
        if (word && (!near || text_distance(id, word) < best)) {
            near = word;
            best = text_distance(id, word);
        }
    }
    if (count == 0 && near)
        return fail_set(f, FAIL_INPUT, "trade show: no entry '%s'; did you mean '%s'?", id, near);
    if (count == 0)
        return fail_set(f, FAIL_INPUT,
                        "trade show: no entry '%s'; 'fettle trade search WORDS' finds one", id);
    if (c->json) return print_hits(c, t, "", hits, count, f);
    for (int i = 0; i < count; i++) {
        if (i > 0) context_say(c, "%s", "");
        context_print_sheet(c, show_trade_entry(c->arena, t, hits[i].subject, hits[i].index));
    }
    return true;
}

static bool find(struct context *c, const struct trade *t, struct fail *f)
{
    struct text words = {.arena = c->arena};
    struct trade_hit *hits;
    for (int i = 1; i < c->n_words; i++) text_print(&words, "%s%s", i > 1 ? " " : "", c->words[i]);
    int count = trade_search(c->arena, t, text_get(&words), &hits);
    if (count == 0 && !c->json)
        return fail_set(f, FAIL_NO,
                        "trade search: nothing has '%s' in its name, id or other words; try fewer "
                        "or shorter words",
                        text_get(&words));
    return print_hits(c, t, arena_print(c->arena, "%s: %d found", text_get(&words), count), hits,
                      count, f);
}

static bool run(struct context *c, struct fail *f)
{
    static const struct {
        const char *name;
        int words; /* at least, with the name */
        bool (*run)(struct context *, const struct trade *, struct fail *);
    } acts[] = {{"list", 2, list}, {"show", 2, show}, {"search", 2, find}};
    const char *word = c->n_words ? c->words[0] : "";
    if (text_is(word, "check")) {
        if (c->n_words > 2)
            return fail_set(f, FAIL_INPUT, "trade check: one folder, not %d", c->n_words - 1);
        return check(c, f);
    }
    for (size_t i = 0; i < sizeof acts / sizeof *acts; i++)
        if (text_is(word, acts[i].name)) {
            const struct trade *t;
            if (c->n_words < acts[i].words)
                return fail_set(f, FAIL_INPUT, "trade %s: of what? 'fettle help trade' shows how",
                                word);
            return context_trade(c, &t, f) && acts[i].run(c, t, f);
        }
    return fail_set(f, FAIL_INPUT, "trade: say check, list, show or search%s%s",
                    *word ? ", not " : "; as in: fettle trade search brake drum", word);
}

static const struct example examples[] = {
    {"fettle trade search brake drum", "every entry with both words; hood finds the bonnet"},
    {"fettle trade show wheel-cylinder", "all that is known of one, with marks and sources"},
    {"fettle trade list jobs --json", "for another program"},
    {"fettle trade check ~/garage/trade", "every fault of your own additions, by file and line"},
    {NULL, NULL},
};
const struct command command_trade = {
    .name = "trade",
    .help = "look into the trade data: components, jobs, parts, setbacks; check your own",
    .usage = "check [DIR]\nlist SUBJECT\nshow ID\nsearch WORDS",
    .text = "A garage may have trade data of its own in its folder trade/; an entry with the id of "
            "a shipped one "
            "takes its place. docs/trade-data.md tells every key.",
    .examples = examples,
    .words = "check list show search",
    .run = run,
};
