/* /buying/KIND: those there are and a form for one more; /buying/KIND/RECORD: one of them, to be
 * changed or removed. Forms follow from the table of the kind. */
#include "face/show/intake.h"
#include "face/show/words.h"
#include "face/web/form.h"
#include "face/web/page_frame.h"
#include "model/facts_buy.h"

#include <string.h>

static const struct paper {
    const char *kind, *title, *one; /* one: what a button adds */
} papers[] = {
    {"order", "Orders", "the order"},
    {"supplier", "Suppliers", "the supplier"},
    {"quote", "Quotes", "the quote"},
    {"sent", "Pieces sent away", "what was sent"},
    {"tool", "Tools", "the tool"},
    {"tool-offer", "Ways to have a tool", "the way"},
    {"person", "People", "the person"},
    {"promise", "Promises", "the promise"},
    {NULL, NULL, NULL},
};

struct record_form {
    struct visit *v;
    const struct paper *paper;
    const struct record_kind *kind;
    struct record *record; /* as it is stored, or NULL: a new one */
    const char **typed, **fault;
    const char *whole; /* what is wrong with all of it, or NULL */
};

void page_record_links(struct visit *v)
{
    struct html *h = &v->html;
    html_leaf(h, "h2", NULL, "Tell more");
    html_open(h, "ul");
    html_attr(h, "class", "stops");
    for (const struct paper *p = papers; p->kind; p++) {
        html_open(h, "li");
        html_open(h, "a");
        html_url(h, "href", arena_print(v->arena, "/buying/%s", p->kind));
        html_leaf(h, "b", NULL, p->title);
        html_leaf(h, "span", NULL, record_kind_find(p->kind)->help);
        html_close(h, "a");
        html_close(h, "li");
    }
    html_close(h, "ul");
}

/* ---- what stands in a field ---- */

/* What tells one record from another: its label, or its first three values. */
static const char *label_of(struct arena *a, const struct record *r)
{
    struct text t = {.arena = a};
    int told = 0;
    if (r->kind->label_field) return record_text(r, r->kind->label_field, r->id);
    for (int i = 0; i < r->kind->n_fields && told < 3; i++) {
        const enum field_type type = r->kind->fields[i].type;
        if (!r->values[i].set || type == FIELD_PARENT || type == FIELD_FILE) continue;
        text_print(&t, "%s%s", told++ ? ", " : "", r->values[i].text);
    }
    return told > 0 ? text_get(&t) : r->id;
}

/* The records that a field may name; NULL: it takes what is typed. */
static bool choices_of(struct record_form *x, const struct field *d, const struct form_choice **out,
                       struct fail *f)
{
    struct visit *v = x->v;
    const char *kind = d->type == FIELD_PARENT     ? d->parent_kind
                       : text_is(d->name, "photo") ? "photograph"
                                                   : NULL;
    struct record *all;
    int n;
    *out = NULL;
    if (!kind) return true;
    if (!garage_list(v->garage, v->arena, record_kind_find(kind), NULL, &all, &n, f)) return false;
    struct form_choice *choices = ARENA_ARRAY(v->arena, struct form_choice, n + 1);
    for (int i = 0; i < n; i++)
        choices[i] = (struct form_choice){all[i].id, label_of(v->arena, &all[i]), NULL};
    *out = choices;
    return true;
}

/* A new one hangs on the only vehicle, and is of today. */
static bool usual_value(struct record_form *x, int field, struct fail *f)
{
    struct visit *v = x->v;
    const struct field *d = &x->kind->fields[field];
    if (text_is(d->name, "vehicle")) {
        struct record *all;
        int n;
        if (!garage_list(v->garage, v->arena, record_kind_find("vehicle"), NULL, &all, &n, f))
            return false;
        if (n == 1) x->typed[field] = all[0].id;
    }
    if (text_is(d->name, "date") || text_is(d->name, "ordered") || text_is(d->name, "sent")) {
        struct text today = {.arena = v->arena};
        day_print(&today, v->today);
        x->typed[field] = text_get(&today);
    }
    return true;
}

/* ---- the page ---- */

static bool write_form(struct record_form *x, struct fail *f)
{
    struct visit *v = x->v;
    struct html *h = &v->html;
    page_form(v, NULL);
    if (x->record) form_hidden(h, "revision", arena_print(v->arena, "%d", x->record->revision));
    for (int i = 0; i < x->kind->n_fields; i++) {
        const struct field *d = &x->kind->fields[i];
        const struct form_choice *choices;
        if (!choices_of(x, d, &choices, f)) return false;
        form_write(h,
                   &(struct form_field){.name = d->name,
                                        .label = arena_print(v->arena, "%s%s", d->name,
                                                             d->required ? " (must be given)" : ""),
                                        .declared = d,
                                        .choices = choices,
                                        .value = x->typed[i],
                                        .fault = x->fault[i]});
    }
    html_open(h, "p");
    html_attr(h, "class", "actions");
    form_act(h, "keep", arena_print(v->arena, "%s %s", x->record ? "Change" : "Add", x->paper->one),
             "main");
    if (x->record) form_act(h, "remove", "Remove it", NULL);
    html_close(h, "p");
    html_close(h, "form");
    return true;
}

static void write_onward(struct html *h, const char *address, const char *text)
{
    html_open(h, "p");
    html_attr(h, "class", "onward");
    html_open(h, "a");
    html_url(h, "href", address);
    html_text(h, text);
    html_close(h, "a");
    html_close(h, "p");
}

static void write_list(struct record_form *x, const struct record *all, int n)
{
    enum { AT_SIGHT = 3 };
    struct visit *v = x->v;
    struct html *h = &v->html;
    if (n == 0) html_leaf(h, "p", NULL, "None is told yet.");
    if (n > AT_SIGHT) write_onward(h, "#more", "Add one more");
    html_open(h, "ul");
    html_attr(h, "class", "stops");
    for (int i = n - 1; i >= 0; i--) { /* the latest first */
        html_open(h, "li");
        html_open(h, "a");
        html_url(h, "href", arena_print(v->arena, "/buying/%s/%s", x->kind->name, all[i].id));
        html_leaf(h, "b", NULL, label_of(v->arena, &all[i]));
        html_close(h, "a");
        html_close(h, "li");
    }
    html_close(h, "ul");
}

static bool write_page(struct record_form *x, struct fail *f)
{
    struct visit *v = x->v;
    struct record *all = NULL;
    int n = 0;
    if (!x->record && !garage_list(v->garage, v->arena, x->kind, NULL, &all, &n, f)) return false;
    const char *title = x->record ? label_of(v->arena, x->record) : x->paper->title;
    struct html *h = page_begin(v, title, NULL, "buying");
    html_leaf(h, "h1", NULL, title);
    form_fault(h, x->whole);
    html_leaf(h, "p", NULL, arena_print(v->arena, "%s.", x->kind->help));
    if (!x->record) {
        write_list(x, all, n);
        html_open(h, "h2");
        html_attr(h, "id", "more");
        html_text(h, "One more");
        html_close(h, "h2");
    }
    if (!write_form(x, f)) return false;
    if (x->record)
        write_onward(h, arena_print(v->arena, "/buying/%s", x->kind->name), x->paper->title);
    else
        write_onward(h, "/buying", "Buying");
    return page_end(v);
}

/* ---- which ---- */

static bool begin(struct visit *v, enum garage_mode mode, struct record_form *x, struct fail *f)
{
    const struct paper *p = papers;
    while (p->kind && !text_is(p->kind, v->piece[0])) p++;
    if (!p->kind) return visit_fail(v, 404, f, "there is no such page; begin at Buying");
    *x = (struct record_form){.v = v, .paper = p, .kind = record_kind_find(p->kind)};
    x->typed = ARENA_ARRAY(v->arena, const char *, x->kind->n_fields);
    x->fault = ARENA_ARRAY(v->arena, const char *, x->kind->n_fields);
    if (!visit_garage(v, mode, f)) return false;
    if (!v->piece[1]) return true;
    if (garage_find(v->garage, v->arena, x->kind, v->piece[1], &x->record, f)) return true;
    if (f->kind == FAIL_INPUT) v->response->status = 404;
    return false;
}

bool page_record(struct visit *v, struct fail *f)
{
    struct record_form x;
    if (!begin(v, GARAGE_READ, &x, f)) return false;
    for (int i = 0; i < x.kind->n_fields; i++)
        if (x.record)
            x.typed[i] = x.record->values[i].set ? x.record->values[i].text : NULL;
        else if (!usual_value(&x, i, f))
            return false;
    return write_page(&x, f);
}

/* ---- taking it ---- */

/* The line goes beside the field that it names ("order.due: ..."), or stands above all. */
static void place_fault(struct record_form *x, const char *line)
{
    const char *dot = strchr(line, '.'), *colon = strchr(line, ':');
    if (dot && colon && dot < colon) {
        const int i =
            record_field(x->kind, arena_copy_n(x->v->arena, dot + 1, (size_t)(colon - dot - 1)));
        if (i >= 0) {
            x->fault[i] = line;
            x->whole = "Nothing was stored: see the line beside the field.";
            return;
        }
    }
    x->whole = line;
}

/* The form is of what was stored then: what stands there now is shown beside what was typed. */
static bool is_stale(struct record_form *x)
{
    const struct record *r = x->record;
    if (!r || text_is(pairs_get(&x->v->request->form, "revision"),
                      arena_print(x->v->arena, "%d", r->revision)))
        return false;
    for (int i = 0; i < x->kind->n_fields; i++) {
        const char *now = r->values[i].set ? r->values[i].text : "";
        if (!text_is(now, x->typed[i]))
            x->fault[i] =
                arena_print(x->v->arena, "as it stands now: %s", *now ? now : "not known");
    }
    x->whole = "It was changed elsewhere since this form was loaded; nothing was stored. Both are "
               "shown: look them over and send it again.";
    x->v->response->status = 409;
    return true;
}

/* False where a value cannot be understood; each has its line. */
static bool fill(struct record_form *x, struct record *r)
{
    bool good = true;
    for (int i = 0; i < x->kind->n_fields; i++) {
        struct fail why = {0};
        if (record_set(x->v->arena, r, x->kind->fields[i].name, x->typed[i],
                       currency_usual(x->v->arena, x->v->garage), &why))
            continue;
        place_fault(x, arena_copy(x->v->arena, why.text));
        good = false;
    }
    return good;
}

static bool store(struct record_form *x, struct record *r, struct fail *f)
{
    struct garage *g = x->v->garage;
    const bool removes = text_is(pairs_get(&x->v->request->form, "act"), "remove");
    if (!garage_begin(g, f)) return false;
    const bool done = removes && x->record ? garage_remove(g, x->kind, r->id, f)
                      : x->record          ? garage_change(g, r, f)
                                           : garage_add(g, r, f);
    if (done && garage_commit(g, f)) return true;
    garage_rollback(g);
    return false;
}

static bool keep(struct record_form *x, struct fail *f)
{
    struct visit *v = x->v;
    const struct trade *t;
    struct record *r = record_new(v->arena, x->kind);
    if (x->record) {
        *r = *x->record;
        r->values = ARENA_ARRAY(v->arena, struct value, x->kind->n_fields);
        memcpy(r->values, x->record->values, (size_t)x->kind->n_fields * sizeof *r->values);
    }
    if (text_is(pairs_get(&v->request->form, "act"), "remove")) return store(x, r, f);
    return fill(x, r) && record_valid(r, f) &&
           (!facts_buy_settles(x->kind) ||
            (visit_trade(v, &t, f) && facts_buy_settle(v->arena, t, r, f))) &&
           store(x, r, f);
}

bool page_record_take(struct visit *v, struct fail *f)
{
    struct record_form x;
    struct fail why = {0};
    if (!begin(v, GARAGE_WRITE, &x, f)) return false;
    for (int i = 0; i < x.kind->n_fields; i++) {
        const char *sent = pairs_get(&v->request->form, x.kind->fields[i].name);
        x.typed[i] = sent ? sent : "";
    }
    if (is_stale(&x)) return write_page(&x, f);
    if (keep(&x, &why)) return visit_go(v, arena_print(v->arena, "/buying/%s", x.kind->name));
    if (why.text[0] && why.kind != FAIL_INPUT) {
        *f = why;
        return false;
    }
    if (why.text[0]) place_fault(&x, arena_copy(v->arena, why.text));
    v->response->status = 422;
    return write_page(&x, f);
}
