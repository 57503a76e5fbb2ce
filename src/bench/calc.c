#include "bench/calc.h"

#include <assert.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

const struct calc *calc_find(const char *name)
{
    for (const struct calc_system *s = calc_systems; s->name; s++)
        for (const struct calc *c = s->calcs; c->name; c++)
            if (text_same_word(c->name, name)) return c;
    return NULL;
}

const char *calc_nearest(const char *name)
{
    const char *best = NULL;
    int distance = 4; /* further off it is another word */
    for (const struct calc_system *s = calc_systems; s->name; s++)
        for (const struct calc *c = s->calcs; c->name; c++) {
            int d = text_distance(name, c->name);
            if (d < distance) distance = d, best = c->name;
        }
    return best;
}

int calc_input_index(const struct calc *c, const char *name)
{
    for (int i = 0; c->inputs[i].name; i++)
        if (text_same_word(c->inputs[i].name, name)) return i;
    return -1;
}

int calc_output_index(const struct calc *c, const char *name)
{
    for (int i = 0; c->outputs[i].name; i++)
        if (text_same_word(c->outputs[i].name, name)) return i;
    return -1;
}

static const char *choices_of(struct arena *a, const char *const *choices)
{
    struct text t = {.arena = a};
    for (int i = 0; choices[i]; i++) text_print(&t, "%s%s", i ? ", " : "", choices[i]);
    return text_get(&t);
}

static bool read_choice(struct arena *a, const struct calc_input *input, const char *typed,
                        struct calc_value *out, struct fail *f)
{
    for (int i = 0; input->choices[i]; i++)
        if (text_same_word(input->choices[i], typed)) {
            *out = (struct calc_value){.set = true, .choice = i, .text = input->choices[i]};
            return true;
        }
    return fail_set(f, FAIL_INPUT, "%s: no choice '%s'; use one of %s", input->name, typed,
                    choices_of(a, input->choices));
}

/* An end of the range, in the unit in which it was asked where that is known. */
static const char *end_told(struct arena *a, const struct calc_input *input, double si)
{
    struct text t = {.arena = a};
    if (!input->bare || !unit_print_as(&t, si, input->quantity, input->bare, 4))
        unit_print(&t, si, input->quantity, UNITS_METRIC, 4);
    return text_get(&t);
}

static bool read_quantity(struct arena *a, const struct calc_input *input, const char *typed,
                          struct calc_value *out, struct fail *f)
{
    struct fail why = {0};
    double si;
    if (!unit_parse(typed, input->quantity, input->bare, &si, &why))
        return fail_set(f, FAIL_INPUT, "%s: %s", input->name, why.text);
    if (!(si >= input->low && si <= input->high))
        return fail_set(f, FAIL_INPUT, "%s: %s is outside the range in which this holds, %s to %s",
                        input->name, typed, end_told(a, input, input->low),
                        end_told(a, input, input->high));
    *out = (struct calc_value){.set = true, .si = si, .text = arena_copy(a, typed)};
    return true;
}

bool calc_read(struct arena *a, const struct calc_input *input, const char *typed,
               struct calc_value *out, struct fail *f)
{
    enum { TEXT_MOST = 200 };
    *out = (struct calc_value){0};
    if (!typed || !*typed) typed = input->usual;
    if (!typed && input->may_lack) return true;
    if (!typed) return fail_set(f, FAIL_INPUT, "%s: not given; %s", input->name, input->help);
    if (strlen(typed) > TEXT_MOST || !text_is_utf8(typed, strlen(typed)))
        return fail_set(f, FAIL_INPUT, "%s: that is no value; %s", input->name, input->help);
    if (input->kind == CALC_CHOICE) return read_choice(a, input, typed, out, f);
    if (input->kind == CALC_QUANTITY) return read_quantity(a, input, typed, out, f);
    *out = calc_text(arena_copy(a, typed));
    return true;
}

bool calc_run(struct arena *a, const struct calc *c, const struct calc_value *in,
              struct calc_result *out, struct fail *f)
{
    *out = (struct calc_result){0};
    if (!c->run(a, in, out, f)) return false;
    for (int i = 0; c->outputs[i].name; i++) {
        const struct calc_value *v = &out->out[i];
        assert(!v->set || (c->outputs[i].kind == CALC_TEXT ? v->text != NULL : isfinite(v->si)));
    }
    return true;
}

const char *calc_told(struct arena *a, const struct calc_output *o, const struct calc_value *v,
                      enum unit_system system)
{
    if (o->kind == CALC_TEXT) return v->text;
    struct text t = {.arena = a};
    const char *unit = system == UNITS_METRIC ? o->metric : o->imperial;
    if (!unit || !unit_print_as(&t, v->si, o->quantity, unit, o->figures))
        unit_print(&t, v->si, o->quantity, system, o->figures);
    return text_get(&t);
}

static const char *print(struct arena *a, const char *format, va_list args)
{
    char line[512];
    vsnprintf(line, sizeof line, format, args);
    return arena_copy(a, line);
}

void calc_note(struct arena *a, struct calc_result *out, const char *format, ...)
{
    va_list args;
    assert(out->n_notes < (int)(sizeof out->notes / sizeof *out->notes));
    va_start(args, format);
    out->notes[out->n_notes++] = print(a, format, args);
    va_end(args);
}

void calc_verdict(struct arena *a, struct calc_result *out, enum verdict v, const char *format, ...)
{
    va_list args;
    va_start(args, format);
    out->verdict = v;
    out->said = print(a, format, args);
    va_end(args);
}
