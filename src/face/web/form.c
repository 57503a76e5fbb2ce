#include "face/web/form.h"

#include "face/web/render_html.h"

static void write_option(struct html *h, const char *value, const char *text, const char *chosen)
{
    html_open(h, "option");
    html_attr(h, "value", value);
    html_flag(h, "selected", text_same_word(value, chosen));
    html_text(h, text);
    html_close(h, "option");
}

static void write_choices(struct html *h, const struct form_field *field, const char *chosen)
{
    bool known = !*chosen;
    write_option(h, "", "don't know", chosen);
    for (const struct form_choice *c = field->choices; c->value; c++) {
        const bool first = c == field->choices || !text_is(c->group, c[-1].group);
        if (c->group && first) {
            html_open(h, "optgroup");
            html_attr(h, "label", c->group);
        }
        write_option(h, c->value, c->text, chosen);
        if (c->group && !text_is(c->group, c[1].value ? c[1].group : NULL))
            html_close(h, "optgroup");
        known |= text_same_word(c->value, chosen);
    }
    if (!known) write_option(h, chosen, chosen, chosen);
}

static void write_select(struct html *h, const struct form_field *field, const char *chosen)
{
    static const char *const yes_no[] = {"yes", "no", NULL};
    const char *const *choices =
        field->declared->type == FIELD_YES ? yes_no : field->declared->choices;
    bool known = !*chosen;
    if (!field->declared->required) write_option(h, "", "don't know", chosen);
    for (; *choices; choices++) {
        write_option(h, *choices, *choices, chosen);
        known |= text_same_word(*choices, chosen);
    }
    if (!known)
        write_option(h, chosen, chosen,
                     chosen); /* what was sent comes back, though it is none of them */
}

void form_write(struct html *h, const struct form_field *field)
{
    const struct field *d = field->declared;
    const int id = html_id(h);
    const char *value = field->value ? field->value : "";
    const bool choice = d->type == FIELD_CHOICE || d->type == FIELD_YES || field->choices;
    html_open(h, "div");
    html_attr(h, "class", "field");
    if (field->caution) render_html_caution(h, field->caution, "");
    html_open(h, "label");
    html_attr_print(h, "for", "f%d", id);
    html_text(h, field->label);
    html_close(h, "label");
    html_open(h, choice ? "select" : "input");
    html_attr_print(h, "id", "f%d", id);
    html_attr(h, "name", field->name);
    html_attr_print(h, "aria-describedby", field->fault ? "h%d w%d" : "h%d", id, id);
    if (field->fault) html_attr(h, "aria-invalid", "true");
    if (choice) {
        if (field->choices)
            write_choices(h, field, value);
        else
            write_select(h, field, value);
        html_close(h, "select");
    } else {
        html_attr(h, "type", "text");
        html_attr(h, "value", value);
        html_attr(h, "autocomplete", "off");
        if (d->type == FIELD_INTEGER) html_attr(h, "inputmode", "numeric");
    }
    html_open(h, "p");
    html_attr(h, "class", "help");
    html_attr_print(h, "id", "h%d", id);
    html_text(h, d->help ? d->help : "");
    html_close(h, "p");
    if (field->fault) {
        html_open(h, "p");
        html_attr(h, "class", "wrong");
        html_attr_print(h, "id", "w%d", id);
        html_text(h, field->fault);
        html_close(h, "p");
    }
    html_close(h, "div");
}

void form_hidden(struct html *h, const char *name, const char *value)
{
    html_open(h, "input");
    html_attr(h, "type", "hidden");
    html_attr(h, "name", name);
    html_attr(h, "value", value);
}

void form_button(struct html *h, const char *text)
{
    html_open(h, "p");
    html_attr(h, "class", "actions");
    html_open(h, "button");
    html_attr(h, "class", "main");
    html_text(h, text);
    html_close(h, "button");
    html_close(h, "p");
}

void form_act(struct html *h, const char *act, const char *text, const char *class_name)
{
    html_open(h, "button");
    html_attr(h, "name", "act");
    html_attr(h, "value", act);
    html_attr(h, "class", class_name);
    html_text(h, text);
    html_close(h, "button");
}

void form_search(struct html *h, const char *address, const char *label, const char *button,
                 const char *words)
{
    html_open(h, "form");
    html_attr(h, "method", "get");
    html_url(h, "action", address);
    html_open(h, "div");
    html_attr(h, "class", "field");
    html_open(h, "label");
    html_attr(h, "for", "words");
    html_text(h, label);
    html_close(h, "label");
    html_open(h, "input");
    html_attr(h, "id", "words");
    html_attr(h, "name", "words");
    html_attr(h, "type", "search");
    html_attr(h, "value", words);
    html_close(h, "div");
    form_button(h, button);
    html_close(h, "form");
}

void form_camera(struct html *h, const char *name, const char *label)
{
    const int id = html_id(h);
    html_open(h, "div");
    html_attr(h, "class", "field");
    html_open(h, "label");
    html_attr_print(h, "for", "p%d", id);
    html_text(h, label);
    html_close(h, "label");
    html_open(h, "input");
    html_attr_print(h, "id", "p%d", id);
    html_attr(h, "type", "file");
    html_attr(h, "name", name);
    html_attr(h, "accept", "image/jpeg,image/png");
    html_attr(h, "capture", "environment");
    html_close(h, "div");
}

void form_fault(struct html *h, const char *fault)
{
    if (!fault) return;
    html_open(h, "p");
    html_attr(h, "class", "wrong");
    html_attr(h, "role", "alert");
    html_text(h, fault);
    html_close(h, "p");
}
