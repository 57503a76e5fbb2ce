#include "face/show/buying_act.h"

#include "face/show/show_records.h"

enum { SETS_MOST = 2 };

/* The values that are not the same every time. */
static const char TODAY[] = "DAY", TYPED[] = "WORDS", COUNT[] = "COUNT";

static const struct set {
    const char *field, *value;
} sets[][SETS_MOST] = {
    {{"checked", "yes"}},
    {{"checked", "yes"}, {"wrong", TYPED}},
    {{"returned", TODAY}},
    {{"arrived", TODAY}},
    {{"returned", TODAY}, {"count-returned", COUNT}},
    {{"count-returned", COUNT}},
    {{"measured", TYPED}},
    {{"core", "?"}},
    {{"fitted", TODAY}},
};

const struct buying_act buying_acts[] = {
    {DUE_CHECK, "right", "It is right", NULL},
    {DUE_CHECK, "wrong", "It is wrong", "What is wrong with it"},
    {DUE_RETURN, "returned", "Sent back today", NULL},
    {DUE_LATE, "arrived", "It came today", NULL},
    {DUE_PIECES, "back", "All came back today", NULL},
    {DUE_SHORT, "rest", "The rest came", NULL},
    {DUE_MEASURE, "measured", "Measured", "What was measured"},
    {DUE_CORE, "core", "It was paid back", NULL},
    {DUE_WARRANTY, "fitted", "Fitted today", NULL},
    {DUE_KINDS, NULL, NULL, NULL},
};
_Static_assert(sizeof sets / sizeof *sets == sizeof buying_acts / sizeof *buying_acts - 1,
               "an act each");

static bool of_sent(enum due_kind k)
{
    return k == DUE_PIECES || k == DUE_SHORT || k == DUE_MEASURE;
}

const char *buying_act_line(struct arena *a, const struct buying_act *act, const struct due *due)
{
    struct text t = {.arena = a};
    text_print(&t, "fettle change %s %.*s", due->sent ? "sent" : "order", RECORD_ID_SHOWN,
               due->sent ? due->sent->id : due->order->id);
    for (int i = 0; i < SETS_MOST && sets[act - buying_acts][i].field; i++) {
        const struct set *s = &sets[act - buying_acts][i];
        text_print(&t, " %s=", s->field);
        if (s->value == COUNT)
            text_print(&t, "%d", due->sent->count);
        else
            text_add(&t, s->value);
    }
    return text_get(&t);
}

static bool apply(struct arena *a, const struct buying_act *act, struct record *r, const char *text,
                  day today, struct fail *f)
{
    struct text date = {.arena = a};
    day_print(&date, today);
    if (act->asks && (!text || !*text))
        return fail_set(f, FAIL_INPUT, "%s: nothing was typed; type it, then press the button",
                        act->asks);
    for (int i = 0; i < SETS_MOST && sets[act - buying_acts][i].field; i++) {
        const struct set *s = &sets[act - buying_acts][i];
        const char *value = s->value == TODAY   ? text_get(&date)
                            : s->value == TYPED ? text
                            : s->value == COUNT ? record_text(r, "count", "1")
                                                : s->value;
        if (!record_set(a, r, s->field, value, NULL, f)) return false;
    }
    return record_valid(r, f);
}

bool buying_act_do(struct arena *a, struct garage *g, const char *name, const char *id,
                   const char *text, day today, struct fail *f)
{
    const struct buying_act *act = buying_acts;
    struct record *r;
    while (act->name && !text_is(act->name, name)) act++;
    if (!act->name || !id)
        return fail_set(f, FAIL_INPUT,
                        "buying: what was done is not said; go back and press a "
                        "button of the page");
    if (!garage_find(g, a, record_kind_find(of_sent(act->kind) ? "sent" : "order"), id, &r, f) ||
        !apply(a, act, r, text, today, f) || !garage_begin(g, f))
        return false;
    if (garage_change(g, r, f) && garage_commit(g, f)) return true;
    garage_rollback(g);
    return false;
}
