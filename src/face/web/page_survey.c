/* /vehicle/ID/survey: what was found; and buttons to tell what is seen, which come back to the same
 * place. */
#include "face/show/finding.h"
#include "face/web/form.h"
#include "face/web/page_frame.h"

#include <string.h>

static const char *const shown[] = {"component", "condition",
                                    "note"}; /* fields of a finding that are asked here */
enum { SHOWN = sizeof shown / sizeof *shown };

static const char *text_of(const json_t *object, const char *key)
{
    const char *s = json_string_value(json_object_get(object, key));
    return s ? s : "";
}

/* One component: its conditions as buttons. The name before the value says what, the value how. */
static void write_buttons(struct html *h, const json_t *line)
{
    const char *component = text_of(line, "component");
    html_open(h, "fieldset");
    html_leaf(h, "legend", NULL, text_of(line, "name"));
    html_open(h, "div");
    html_attr(h, "class", "actions");
    for (int c = 0; c < COND_UNSEEN; c++) {
        const char *condition = condition_name((enum condition)c);
        html_open(h, "button");
        html_attr(h, "name", "saw");
        html_attr_print(h, "value", "%s %s", component, condition);
        html_text(h, condition);
        html_close(h, "button");
    }
    html_close(h, "div");
    html_close(h, "fieldset");
}

static void write_place(struct visit *v, const char *place)
{
    html_open(&v->html, "h3");
    html_attr_print(&v->html, "id", "at-%s", place);
    html_text(&v->html, place);
    html_close(&v->html, "h3");
}

static bool has_place(const json_t *lines, const char *place)
{
    size_t i;
    json_t *line;
    json_array_foreach(lines, i, line) if (text_is(text_of(line, "place"), place)) return true;
    return false;
}

/* Lines lie in the order of the lap; a place that is left and entered again keeps its first heading
 * only. */
static void write_unseen(struct visit *v, const json_t *json)
{
    const json_t *unseen = json_object_get(json, "unseen"),
                 *findings = json_object_get(json, "findings");
    const char *last = "";
    size_t i, k;
    json_t *line, *other;
    page_form(v, NULL);
    json_array_foreach(unseen, i, line)
    {
        const char *place = text_of(line, "place");
        bool before = false;
        json_array_foreach(unseen, k, other)
        {
            if (k == i) break;
            before |= text_is(text_of(other, "place"), place);
        }
        if (before) continue;
        write_place(v, place);
        json_array_foreach(unseen, k, other) if (text_is(text_of(other, "place"), place))
            write_buttons(&v->html, other);
    }
    json_array_foreach(findings, i, line)
    {
        const char *place = text_of(line, "place");
        if (text_is(place, last) || has_place(unseen, place)) continue;
        bool before = false;
        for (k = 0; k < i; k++)
            before |= text_is(text_of(json_array_get(findings, k), "place"), place);
        if (before) continue;
        write_place(v, place);
        html_leaf(&v->html, "p", NULL, "All seen.");
        last = place;
    }
    html_close(&v->html, "form");
}

static void write_other(struct visit *v, const char *const typed[SHOWN],
                        const char *const fault[SHOWN])
{
    const struct record_kind *k = record_kind_find("finding");
    struct html *h = &v->html;
    html_leaf(h, "h3", NULL, "One by name");
    page_form(v, NULL);
    for (int i = 0; i < SHOWN; i++) {
        const struct field *declared = &k->fields[record_field(k, shown[i])];
        form_write(h, &(struct form_field){.name = shown[i],
                                           .label = shown[i],
                                           .declared = declared,
                                           .value = typed[i],
                                           .fault = fault[i]});
    }
    form_button(h, "Tell it");
    html_close(h, "form");
}

static bool write_page(struct visit *v, const char *const typed[SHOWN],
                       const char *const fault[SHOWN], const char *whole, struct fail *f)
{
    struct record *vehicle;
    struct told told;
    if (!visit_vehicle(v, &vehicle, f) || !visit_ask(v, QUESTION_SURVEY, vehicle->id, &told, f))
        return false;
    struct html *h = page_begin(v, told.sheet->title, vehicle, "survey");
    form_fault(h, whole);
    render_html_sheet(h, told.sheet, page_links_of(vehicle));
    html_open(h, "h2");
    html_attr(h, "id", "tell");
    html_text(h, "Tell what you see");
    html_close(h, "h2");
    write_unseen(v, told.json);
    write_other(v, typed, fault);
    json_decref(told.json);
    return page_end(v);
}

bool page_survey(struct visit *v, struct fail *f)
{
    static const char *const nothing[SHOWN] = {NULL};
    return write_page(v, nothing, nothing, NULL, f);
}

/* Comes from a button, as "COMPONENT CONDITION" in `saw`, or from the fields by name. */
bool page_survey_tell(struct visit *v, struct fail *f)
{
    const struct pairs *form = &v->request->form;
    const char *saw = pairs_get(form, "saw"), *typed[SHOWN], *fault[SHOWN] = {NULL};
    struct record *vehicle, *finding;
    const struct trade *t;
    for (int i = 0; i < SHOWN; i++) typed[i] = pairs_get(form, shown[i]);
    if (saw && strchr(saw, ' ')) {
        typed[0] = arena_copy_n(v->arena, saw, strcspn(saw, " "));
        typed[1] = strchr(saw, ' ') + 1;
    }
    for (int i = 0; i < SHOWN; i++)
        if (!typed[i]) typed[i] = "";
    if (!visit_garage(v, GARAGE_WRITE, f) || !visit_vehicle(v, &vehicle, f) ||
        !visit_trade(v, &t, f))
        return false;
    struct fail why = {0};
    if (finding_tell(v->arena, v->garage, t, vehicle->id, typed[0], typed[1], typed[2], v->today,
                     &finding, &why)) {
        const char *component = record_text(finding, "component", ""), *at = strchr(component, '@');
        struct text to = {.arena = v->arena};
        text_add(&to, page_of_vehicle(v->arena, vehicle, "survey"));
        text_add(&to, at ? "#at-" : "#tell");
        if (at) html_percent(&to, at + 1);
        return visit_go(v, text_get(&to));
    }
    if (why.kind != FAIL_INPUT) {
        *f = why;
        return false;
    }
    int wrong = text_starts(why.text, "finding.condition") ? 1
                : text_starts(why.text, "finding.note")    ? 2
                                                           : 0;
    fault[wrong] = why.text;
    v->response->status = 422;
    return write_page(v, typed, fault, "Nothing was stored: see the line beside the field below.",
                      f);
}
