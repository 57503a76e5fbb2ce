#include "face/web/what_if_form.h"

#include "face/web/form.h"

static const char *day_text(struct arena *a, day d)
{
    struct text t = {.arena = a};
    day_print(&t, d);
    return text_get(&t);
}

/* A field, and beside it what its slider needs: the script makes it, for without the script nothing
 * would tell where it stands. */
static void write_slide(struct html *h, const struct what_if_now *now, day today,
                        enum what_if_key k, const struct form_field *field)
{
    struct what_if_slide slide;
    if (what_if_slide(now, today, k, &slide)) {
        html_attr(h, "data-kind", slide.kind);
        html_attr_print(h, "data-low", "%.0f", slide.low);
        html_attr_print(h, "data-high", "%.0f", slide.high);
        html_attr_print(h, "data-step", "%.0f", slide.step);
        html_attr(h, "data-currency", now->currency);
        html_attr(h, "data-from", day_text(h->out->arena, today));
    }
    form_write(h, field);
}

static void write_directions(struct html *h, const struct form_field *field)
{
    html_open(h, "fieldset");
    html_attr(h, "class", "field");
    html_leaf(h, "legend", NULL, field->label);
    html_open(h, "div");
    html_attr(h, "class", "tiles");
    for (const char *const *c = field->declared->choices; *c; c++) {
        html_open(h, "label");
        html_open(h, "input");
        html_attr(h, "type", "radio");
        html_attr(h, "name", field->name);
        html_attr(h, "value", *c);
        html_flag(h, "checked", text_same_word(*c, field->value));
        html_text(h, *c);
        html_close(h, "label");
    }
    html_close(h, "div");
    if (field->fault) html_leaf(h, "p", "wrong", field->fault);
    html_close(h, "fieldset");
}

void what_if_form_begin(struct html *h, const struct record *vehicle, const struct what_if_now *now,
                        day today, const char *direction, const struct what_if_typed *typed,
                        const char *headline)
{
    struct arena *a = h->out->arena;
    html_open(h, "div");
    html_attr(h, "class", "what-if");
    html_open(h, "form");
    html_attr(h, "method", "get");
    html_attr(h, "class", "said");
    html_url(h, "action", page_of_vehicle(a, vehicle, "what-if"));
    for (enum what_if_key k = 0; k < WHAT_IF_KEYS; k++) {
        const char *as_it_is =
            k == WHAT_IF_DIRECTION ? direction : what_if_now_text(a, now, NULL, k);
        const struct form_field field = {
            .name = what_if_name(k),
            .label = what_if_label(k),
            .declared = what_if_field(k),
            .value = typed && typed->text[k] ? typed->text[k] : as_it_is,
            .fault = typed ? typed->fault[k] : NULL,
        };
        html_open(h, "div");
        html_attr(h, "data-key", what_if_name(k));
        if (k == WHAT_IF_DIRECTION)
            write_directions(h, &field);
        else
            write_slide(h, now, today, k, &field);
        html_close(h, "div");
    }
    form_button(h, "See");
    html_close(h, "form");
    html_open(h, "p");
    html_attr(h, "id", "headline");
    html_attr(h, "role", "status");
    html_text(h, headline ? headline : "Nothing is said otherwise yet.");
    html_close(h, "p");
}

void what_if_answer_begin(struct html *h)
{
    html_open(h, "section");
    html_attr(h, "id", "answer");
    html_attr(h, "aria-label", "What it would do");
}

void what_if_answer_end(struct html *h)
{
    html_close(h, "section");
    html_close(h, "div");
}

extern const char embed_what_if[], embed_what_if_end[];

bool page_what_if_script(struct visit *v, struct fail *f)
{
    (void)f;
    return page_file(v, embed_what_if, embed_what_if_end, "text/javascript; charset=utf-8");
}
