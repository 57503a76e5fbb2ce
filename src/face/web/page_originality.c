/* /vehicle/ID/originality: the answer as its sheet, and two forms: a number or a date that was
 * read, and whether a component is the vehicle's own. */
#include "face/show/identity_tell.h"
#include "face/show/show_originality.h"
#include "face/web/form.h"
#include "face/web/page_frame.h"

#include <string.h>

enum { ASKED_MOST = 10 };

static const struct tell_form {
    const char *kind, *title, *button;
    const char *asked[ASKED_MOST + 1]; /* fields of the record, in the order of the form */
} forms[] = {
    {"mark",
     "Tell a number or a date",
     "Tell it",
     {"what", "where", "component", "text", "again", "book", "how", "photo", "note", NULL}},
    {"originality",
     "Tell of a component",
     "Tell it",
     {"component", "class", "evidence", "how", NULL}},
};
enum { FORMS = sizeof forms / sizeof *forms };

/* What was typed into one of the forms, and what was wrong with it. */
struct typed {
    int form; /* -1: nothing was sent */
    const char *value[ASKED_MOST], *fault[ASKED_MOST];
    const char *whole;
};

static void write_form(struct visit *v, const struct tell_form *form, const struct typed *typed)
{
    const struct record_kind *k = record_kind_find(form->kind);
    struct html *h = &v->html;
    html_open(h, "h2");
    html_attr_print(h, "id", "tell-%s", form->kind);
    html_text(h, form->title);
    html_close(h, "h2");
    if (typed) form_fault(h, typed->whole);
    page_form(v, NULL);
    form_hidden(h, "kind", form->kind);
    for (int i = 0; form->asked[i]; i++) {
        const char *name = form->asked[i];
        form_write(h, &(struct form_field){.name = name,
                                           .label = name,
                                           .declared = &k->fields[record_field(k, name)],
                                           .value = typed ? typed->value[i] : NULL,
                                           .fault = typed ? typed->fault[i] : NULL});
    }
    form_button(h, form->button);
    html_close(h, "form");
}

static void write_ways(struct visit *v)
{
    struct html *h = &v->html;
    html_open(h, "p");
    html_attr(h, "class", "onward");
    for (int i = 0; i < FORMS; i++) {
        if (i > 0) html_text(h, " ");
        html_open(h, "a");
        html_url(h, "href", arena_print(v->arena, "#tell-%s", forms[i].kind));
        html_text(h, forms[i].title);
        html_close(h, "a");
    }
    html_close(h, "p");
}

static bool write_page(struct visit *v, const struct typed *typed, struct fail *f)
{
    struct record *vehicle;
    struct told told;
    if (!visit_vehicle(v, &vehicle, f) ||
        !visit_ask(v, QUESTION_ORIGINALITY, vehicle->id, &told, f))
        return false;
    struct html *h = page_begin(v, told.sheet->title, vehicle, "originality");
    if (typed->form >= 0) write_form(v, &forms[typed->form], typed);
    if (typed->form < 0) write_ways(v);
    render_html_sheet(h, told.sheet, page_links_of(vehicle));
    json_decref(told.json);
    for (int i = 0; i < FORMS; i++)
        if (i != typed->form) write_form(v, &forms[i], NULL);
    return page_end(v);
}

bool page_originality(struct visit *v, struct fail *f)
{
    return write_page(v, &(struct typed){.form = -1}, f);
}

/* Beside the field that the line names; else above them all. */
static void place_fault(struct typed *typed, const char *line)
{
    const struct tell_form *form = &forms[typed->form];
    typed->whole = "Nothing was stored: see the line beside the field.";
    for (int i = 0; form->asked[i]; i++) {
        const char *name = form->asked[i];
        const size_t kind = strlen(form->kind), n = strlen(name);
        const bool named = text_starts(line, form->kind) && line[kind] == '.' &&
                           text_starts(line + kind + 1, name) && line[kind + 1 + n] == ':';
        if (!named && !(text_starts(line, name) && line[n] == ':')) continue;
        typed->fault[i] = line;
        return;
    }
    typed->whole = line;
}

bool page_originality_tell(struct visit *v, struct fail *f)
{
    struct record *vehicle, *record;
    struct told_field fields[ASKED_MOST];
    struct typed typed = {.form = -1};
    const struct trade *t;
    struct fail why = {0};
    int count = 0;
    const char *kind = pairs_get(&v->request->form, "kind");
    for (int i = 0; i < FORMS; i++)
        if (text_is(forms[i].kind, kind)) typed.form = i;
    if (typed.form < 0)
        return visit_fail(v, 422, f, "the form names no kind of record; go back and send it again");
    for (; forms[typed.form].asked[count]; count++) {
        const char *name = forms[typed.form].asked[count];
        const char *value = pairs_get(&v->request->form, name);
        typed.value[count] = value ? value : "";
        fields[count] = (struct told_field){name, typed.value[count]};
    }
    if (!visit_garage(v, GARAGE_WRITE, f) || !visit_vehicle(v, &vehicle, f) ||
        !visit_trade(v, &t, f))
        return false;
    if (identity_tell(v->arena, v->garage, t, kind, vehicle->id, fields, count, v->today, &record,
                      &why))
        return visit_go(v, page_of_vehicle(v->arena, vehicle, "originality"));
    if (why.kind != FAIL_INPUT) {
        *f = why;
        return false;
    }
    place_fault(&typed, why.text);
    v->response->status = 422;
    return write_page(v, &typed, f);
}
