/* add, change, remove, list, undo, kinds: the same few verbs for every kind of record. */
#include "face/cli/entry.h"
#include "face/cli/verbs.h"
#include "face/show/photograph.h"
#include "face/show/show_records.h"
#include "model/facts_buy.h"

#include <string.h>

static bool need_words(const struct context *c, int least, int most, struct fail *f)
{
    if (c->n_words >= least && c->n_words <= most) return true;
    return fail_set(f, FAIL_INPUT, "%s: %s; as in: fettle %s %s", c->command->name,
                    c->n_words < least ? "too little said" : "too much said", c->command->name,
                    c->command->usage);
}

/* A record that hangs on a vehicle gets the one that is meant; a field "date" the day it is. */
static bool fill_in(struct context *c, struct record *r, struct fail *f)
{
    int vehicle = record_field(r->kind, "vehicle"), date = record_field(r->kind, "date");
    if (!r->kind->of_garage && vehicle >= 0 && !r->values[vehicle].set) {
        const struct record *v;
        if (!context_vehicle(c, &v, f) || !record_set(c->arena, r, "vehicle", v->id, NULL, f))
            return false;
    }
    if (date >= 0 && !r->values[date].set) {
        struct text today = {.arena = c->arena};
        day_print(&today, c->today);
        return record_set(c->arena, r, "date", text_get(&today), NULL, f);
    }
    return true;
}

/* What names something of the trade data must name what is there. */
static bool settle(struct context *c, struct record *r, struct fail *f)
{
    const struct trade *t;
    return !facts_buy_settles(r->kind) ||
           (context_trade(c, &t, f) && facts_buy_settle(c->arena, t, r, f));
}

static bool answer(struct context *c, const char *act, const struct record *r, struct fail *f)
{
    if (c->json)
        return context_print_json(c,
                                  json_pack("{s: s, s: s, s: o}", "act", act, "kind", r->kind->name,
                                            "record", record_to_json(r)),
                                  f);
    context_say(c, "%s %s", act, entry_tell(c->arena, r));
    return true;
}

static bool commit(struct garage *g, bool done, struct fail *f)
{
    if (done && garage_commit(g, f)) return true;
    garage_rollback(g);
    return false;
}

/* file= is a path here; what the picture says of itself need not be told. */
static bool add_photograph(struct context *c, struct garage *g, struct record *r, struct fail *f)
{
    const char *path = NULL;
    int kept = 1;
    for (int i = 1; i < c->n_words; i++)
        if (text_starts(c->words[i], "file=") && !path)
            path = c->words[i] + strlen("file=");
        else
            c->words[kept++] = c->words[i];
    c->n_words = kept;
    if (!path || !*path)
        return fail_set(f, FAIL_INPUT, "photograph.file: missing; give its path: file=IMG_1.jpg");
    return entry_fill(c, r, 1, f) && fill_in(c, r, f) &&
           photograph_take_path(c->arena, g, path, r, f) && answer(c, "added", r, f);
}

static bool run_add(struct context *c, struct fail *f)
{
    const struct record_kind *k;
    struct garage *g;
    if (!need_words(c, 1, 1000, f) || !entry_kind(c->words[0], &k, f) ||
        !context_garage(c, GARAGE_WRITE, &g, f))
        return false;
    struct record *r = record_new(c->arena, k);
    if (record_field(k, "file") >= 0) return add_photograph(c, g, r, f);
    if (!entry_fill(c, r, 1, f) || !fill_in(c, r, f) || !record_valid(r, f) || !settle(c, r, f) ||
        !garage_begin(g, f))
        return false;
    return commit(g, garage_add(g, r, f), f) && answer(c, "added", r, f);
}

static bool run_change(struct context *c, struct fail *f)
{
    const struct record_kind *k;
    struct garage *g;
    struct record *r;
    if (!need_words(c, 3, 1000, f) || !entry_kind(c->words[0], &k, f) ||
        !context_garage(c, GARAGE_WRITE, &g, f) ||
        !garage_find(g, c->arena, k, c->words[1], &r, f) || !entry_fill(c, r, 2, f) ||
        !record_valid(r, f) || !settle(c, r, f) || !garage_begin(g, f))
        return false;
    return commit(g, garage_change(g, r, f), f) && answer(c, "changed", r, f);
}

static bool run_remove(struct context *c, struct fail *f)
{
    const struct record_kind *k;
    struct garage *g;
    struct record *r;
    if (!need_words(c, 2, 2, f) || !entry_kind(c->words[0], &k, f) ||
        !context_garage(c, GARAGE_WRITE, &g, f) ||
        !garage_find(g, c->arena, k, c->words[1], &r, f) || !garage_begin(g, f))
        return false;
    return commit(g, garage_remove(g, k, r->id, f), f) && answer(c, "removed", r, f);
}

/* What other records hang on and people call by a name. */
static bool list_parents(struct context *c, struct record **out, int *count, struct fail *f)
{
    static const char *const kinds[] = {"vehicle", "supplier"};
    struct record *list[2];
    int n[2];
    for (int i = 0; i < 2; i++)
        if (!garage_list(c->garage, c->arena, record_kind_find(kinds[i]), NULL, &list[i], &n[i], f))
            return false;
    *count = n[0] + n[1];
    *out = ARENA_ARRAY(c->arena, struct record, *count);
    for (int i = 0; i < *count; i++) (*out)[i] = i < n[0] ? list[0][i] : list[1][i - n[0]];
    return true;
}

static bool run_list(struct context *c, struct fail *f)
{
    const struct record_kind *k;
    struct record *records, *parents;
    int count, n_parents;
    if (!need_words(c, 1, 1, f) || !entry_kind(c->words[0], &k, f) ||
        !entry_list(c, k, &records, &count, f))
        return false;
    if (c->json) {
        json_t *all = json_array();
        for (int i = 0; i < count; i++) json_array_append_new(all, record_to_json(&records[i]));
        return context_print_json(c, json_pack("{s: s, s: o}", "kind", k->name, "records", all), f);
    }
    if (!list_parents(c, &parents, &n_parents, f)) return false;
    context_print_sheet(c, show_records(c->arena, k, records, count, parents, n_parents));
    return true;
}

static bool run_undo(struct context *c, struct fail *f)
{
    struct garage *g;
    const struct record *v;
    const char *chain = NULL, *what;
    if (!need_words(c, 0, 1, f)) return false;
    if (c->n_words == 1 && !text_is(c->words[0], "garage"))
        return fail_set(f, FAIL_INPUT,
                        "undo: '%s' is no chain; say nothing for the vehicle's, or 'garage'",
                        c->words[0]);
    if (!context_garage(c, GARAGE_WRITE, &g, f)) return false;
    if (c->n_words == 0) {
        if (!context_vehicle(c, &v, f)) return false;
        chain = v->id;
    }
    if (!garage_undo(g, c->arena, chain, &what, f)) return false;
    if (c->json) return context_print_json(c, json_pack("{s: s}", "undone", what), f);
    context_say(c, "undone: %s", what);
    return true;
}

static bool run_kinds(struct context *c, struct fail *f)
{
    const struct record_kind *k = NULL;
    if (!need_words(c, 0, 1, f) || (c->n_words == 1 && !entry_kind(c->words[0], &k, f)))
        return false;
    if (!c->json) {
        context_print_sheet(c, k ? show_kind(c->arena, k) : show_kinds(c->arena));
        return true;
    }
    json_t *all = json_array();
    for (int i = 0; record_kinds[i]; i++)
        if (!k || k == record_kinds[i])
            json_array_append_new(all, kind_to_json(c->arena, record_kinds[i]));
    return context_print_json(c, json_pack("{s: o}", "kinds", all), f);
}

static const struct example add_examples[] = {
    {"fettle add finding component=radiator condition=poor note='weeps at the bottom tank'",
     "what a look showed, today"},
    {"fettle add slot weekday=tue from=19:00 to=22:00", "a time of the week for the work"},
    {"fettle add work job=brakes-open hours='2 h 30 min'", "time spent"},
    {"fettle add photograph file=IMG_1.jpg component=radiator",
     "a photograph, kept as it is; size and day are read from it"},
    {NULL, NULL},
};
const struct command command_add = {
    .name = "add",
    .help = "add a fact of any kind",
    .usage = "KIND key=value...",
    .text = "Adds one record. A field that is left out, or given as '?', is not known. 'fettle "
            "kinds' lists the "
            "kinds, 'fettle kinds KIND' the fields of one.",
    .examples = add_examples,
    .words = "KIND",
    .run = run_add,
};

static const struct example change_examples[] = {
    {"fettle change vehicle Linnet standing=27", "by the name that people call it"},
    {"fettle change finding 3fa2 condition=failed",
     "by the beginning of its id, which 'list' shows"},
    {NULL, NULL},
};
const struct command command_change = {
    .name = "change",
    .help = "correct a fact; what it was stays in the journal",
    .usage = "KIND WORD key=value...",
    .text = "WORD names the record: its label, or at least four digits of its id.",
    .examples = change_examples,
    .words = "KIND",
    .run = run_change,
};

static const struct example remove_examples[] = {
    {"fettle remove finding 3fa2", "take one finding away"},
    {NULL, NULL},
};
const struct command command_remove = {
    .name = "remove",
    .help = "take a fact away; the journal keeps it",
    .usage = "KIND WORD",
    .examples = remove_examples,
    .words = "KIND",
    .run = run_remove,
};

static const struct example list_examples[] = {
    {"fettle list findings", "all findings of all vehicles"},
    {"fettle list finding --vehicle Linnet --json", "those of one, for another program"},
    {NULL, NULL},
};
const struct command command_list = {
    .name = "list",
    .help = "list the facts of a kind",
    .usage = "KIND",
    .examples = list_examples,
    .words = "KIND",
    .run = run_list,
};

static const struct example undo_examples[] = {
    {"fettle undo", "take back the last act on the vehicle"},
    {"fettle undo garage", "take back the last act on the garage's own facts: slots, purse, ..."},
    {NULL, NULL},
};
const struct command command_undo = {
    .name = "undo",
    .help = "take back the last act",
    .usage = "[garage]",
    .text = "Nothing is lost: taking back is an entry of the journal too.",
    .examples = undo_examples,
    .words = "garage",
    .run = run_undo,
};

static const struct example kinds_examples[] = {
    {"fettle kinds", "what can be recorded"},
    {"fettle kinds finding", "the fields of one kind, and what they take"},
    {NULL, NULL},
};
const struct command command_kinds = {
    .name = "kinds",
    .help = "list the kinds of fact and their fields",
    .usage = "[KIND]",
    .examples = kinds_examples,
    .words = "KIND",
    .run = run_kinds,
};
