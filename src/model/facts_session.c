#include "model/facts_session.h"

#include "garage/kinds.h"
#include "model/facts_buy.h"

int tool_called(const struct trade *t, const char *word)
{
    for (int i = 0; i < t->n_tools; i++) {
        const struct entry *e = &t->tools[i].head;
        if (text_same_word(e->name, word) || text_same_word(e->id, word)) return i;
        for (int k = 0; k < e->n_also; k++)
            if (text_same_word(e->also[k], word)) return i;
    }
    return -1;
}

enum tool_have tool_on(const struct facts_session *x, int tool, day d)
{
    if (tool < 0) return TOOL_NOT_TOLD;
    enum tool_have have = x->tools[tool].have;
    bool gone =
        have == TOOL_BORROWED && x->tools[tool].back_by != DAY_NONE && d > x->tools[tool].back_by;
    return gone ? TOOL_NOT_TOLD : have;
}

struct reading {
    struct arena *a;
    const struct trade *t;
    struct facts_session *out;
};

static day day_of(const struct record *r, const char *field)
{
    const struct value *v = record_get(r, field);
    return v->set ? v->day : DAY_NONE;
}

static const char *words_of(struct reading *x, const struct record *r, const char *field)
{
    const char *s = record_text(r, field, NULL);
    return s ? arena_copy(x->a, s) : NULL;
}

static void take_tool(struct reading *x, const struct record *r)
{
    int tool = tool_called(x->t, record_text(r, "tool", ""));
    if (tool < 0) return;
    x->out->tools[tool].have = (enum tool_have)(record_integer(r, "have", -1) + 1);
    x->out->tools[tool].where = words_of(x, r, "where");
    x->out->tools[tool].back_by = day_of(r, "back-by");
}

static void take_work(struct reading *x, const struct record *r)
{
    const day d = day_of(r, "date");
    const char *name = record_text(r, "job", "");
    if (d != DAY_NONE && record_number(r, "hours", 0) > 0 && d > x->out->last_hours)
        x->out->last_hours = d;
    for (int j = 0; j < x->t->n_jobs; j++) {
        if (!text_same_word(name, x->t->jobs[j].head.id)) continue;
        x->out->jobs[j].begun = true;
        if (d > x->out->jobs[j].worked) x->out->jobs[j].worked = d;
        if (record_integer(r, "finished", 0)) x->out->jobs[j].finished = d;
    }
}

static void take_order(struct reading *x, const struct record *r)
{
    int part = part_called(x->t, record_text(r, "part", ""));
    const char *shelf = words_of(x, r, "shelf");
    if (part >= 0 && shelf) x->out->shelf[part] = shelf;
}

static void take_care(struct reading *x, const struct record *r)
{
    int care = trade_find(x->t, SUBJECT_CARES, record_text(r, "care", ""));
    const day d = day_of(r, "date");
    if (care >= 0 && d > x->out->cared[care]) x->out->cared[care] = d;
}

static void take_left_off(struct reading *x, const struct record *r)
{
    x->out->left_off = (struct fact_left_off){words_of(x, r, "note"), words_of(x, r, "where"),
                                              words_of(x, r, "photo"), day_of(r, "date")};
}

bool facts_session_read(struct garage *g, struct arena *a, const struct trade *t,
                        const char *vehicle, struct facts_session *out, struct fail *f)
{
    *out = (struct facts_session){.last_hours = DAY_NONE};
    out->tools = arena_take(a, (size_t)t->n_tools, sizeof *out->tools);
    out->jobs = arena_take(a, (size_t)t->n_jobs, sizeof *out->jobs);
    out->shelf = ARENA_ARRAY(a, const char *, t->n_parts);
    out->cared = ARENA_ARRAY(a, day, t->n_cares);
    for (int i = 0; i < t->n_tools; i++) out->tools[i].back_by = DAY_NONE;
    for (int i = 0; i < t->n_jobs; i++) out->jobs[i].worked = out->jobs[i].finished = DAY_NONE;
    for (int i = 0; i < t->n_cares; i++) out->cared[i] = DAY_NONE;
    struct reading x = {a, t, out};
    const struct {
        const struct record_kind *kind;
        void (*take)(struct reading *x, const struct record *r);
    } kinds[] = {{&kind_tool, take_tool},
                 {record_kind_find("work"), take_work},
                 {record_kind_find("order"), take_order},
                 {&kind_care_done, take_care},
                 {&kind_left_off, take_left_off}};
    for (size_t k = 0; k < sizeof kinds / sizeof *kinds; k++) {
        struct record *r;
        int n;
        if (!garage_list(g, a, kinds[k].kind, kinds[k].kind->of_garage ? NULL : vehicle, &r, &n, f))
            return false;
        for (int i = 0; i < n; i++) kinds[k].take(&x, &r[i]);
    }
    return true;
}
