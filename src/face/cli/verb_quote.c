/* quote: a supplier's list of prices. */
#include "face/cli/context.h"
#include "face/cli/verbs.h"
#include "face/show/quote_import.h"

static bool tell_faults(struct context *c, const struct quote_import *x, struct fail *f)
{
    enum { TOLD = 30 };
    if (c->json) {
        json_t *lines = json_array();
        for (int i = 0; i < x->n_faults; i++)
            json_array_append_new(lines, json_string(x->faults[i]));
        return context_print_json(c, json_pack("{s:i, s:o}", "added", 0, "faults", lines), f);
    }
    for (int i = 0; i < x->n_faults && i < TOLD; i++) context_say(c, "%s", x->faults[i]);
    if (x->n_faults > TOLD) context_say(c, "and %d more", x->n_faults - TOLD);
    return true;
}

static bool import(struct context *c, struct fail *f)
{
    struct garage *g;
    const struct trade *t;
    const char *path = NULL, *supplier = NULL;
    struct quote_import x;
    for (int i = 1; i < c->n_words; i++) {
        const char **to = text_starts(c->words[i], "supplier=") ? &supplier : &path;
        if (*to)
            return fail_set(f, FAIL_INPUT, "quote import: '%s' is too much; give one file",
                            c->words[i]);
        *to = to == &supplier ? c->words[i] + sizeof "supplier=" - 1 : c->words[i];
    }
    if (!path)
        return fail_set(f, FAIL_INPUT,
                        "quote import: no file; as in: fettle quote import list.csv "
                        "supplier=Northgate");
    if (!context_garage(c, GARAGE_WRITE, &g, f) || !context_trade(c, &t, f)) return false;
    if (!quote_import_path(c->arena, g, t, supplier, path, c->today, &x, f)) {
        struct fail ignored = {0};
        tell_faults(c, &x, &ignored);
        return false;
    }
    if (c->json)
        return context_print_json(
            c, json_pack("{s:i, s:o}", "added", x.added, "faults", json_array()), f);
    context_say(c, "added %d quote%s; taken back together by: fettle undo garage", x.added,
                x.added == 1 ? "" : "s");
    return true;
}

static bool run(struct context *c, struct fail *f)
{
    if (c->n_words > 0 && text_is(c->words[0], "import")) return import(c, f);
    return fail_set(f, FAIL_INPUT,
                    "quote: %s; use 'quote import FILE', 'add quote ...' or 'list quotes'",
                    c->n_words ? "no such word here" : "too little said");
}

static const struct example examples[] = {
    {"fettle add supplier name=Northgate carriage='7.50 GBP' carriage-free='80 GBP'",
     "who sells, and what an order costs to send"},
    {"fettle add quote supplier=Northgate part='fan belt' price='9 GBP' lead=2/4/9",
     "one price; the currency must be said"},
    {"fettle quote import list.csv supplier=Northgate", "a whole list of theirs"},
    {NULL, NULL},
};
const struct command command_quote = {
    .name = "quote",
    .help = "take in the list of prices of a supplier",
    .usage = "import FILE.csv [supplier=NAME]",
    .text =
        "The first line of the file names the columns, in any order: part and price, and as wanted "
        "currency, from-count, lead (low/middle/high in days), core, return-days, date, note, "
        "supplier. 'fettle kinds quote' tells what each takes. Parts are those of the trade data, "
        "by id or name. The file is taken whole or not at all; what is wrong is told line by line.",
    .examples = examples,
    .words = "import",
    .run = run,
};
