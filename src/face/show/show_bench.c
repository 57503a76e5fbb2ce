#include "face/show/show_bench.h"

#include <math.h>

static enum tone tone_of(enum verdict v)
{
    return v == VERDICT_GOOD   ? TONE_GOOD
           : v == VERDICT_CARE ? TONE_CARE
           : v == VERDICT_BAD  ? TONE_BAD
                               : TONE_PLAIN;
}

static const char *verdict_word(enum verdict v)
{
    static const char *const words[] = {"", "good", "care", "bad"};
    return words[v];
}

/* In the builder's system, and the other beside it where the unit is another one. */
static const char *told_both(struct arena *a, const struct calc_output *o,
                             const struct calc_value *v, enum unit_system system)
{
    const char *own = calc_told(a, o, v, system);
    if (o->kind == CALC_TEXT) return own;
    const char *other = calc_told(a, o, v, system == UNITS_METRIC ? UNITS_IMPERIAL : UNITS_METRIC);
    return text_is(own, other) ? own : arena_print(a, "%s (%s)", own, other);
}

/* "pitch-diameter" as people say it. */
static const char *spoken(struct arena *a, const char *name)
{
    char *s = arena_copy(a, name);
    for (char *c = s; *c; c++)
        if (*c == '-') *c = ' ';
    return s;
}

static const char *input_told(struct arena *a, const struct bench_asked *asked, int i)
{
    const struct calc_input *input = &asked->calc->inputs[i];
    const struct calc_value *v = &asked->in[i];
    if (!v->set) return "not given";
    if (v->text) return v->text;
    struct text t = {.arena = a};
    if (!input->bare || !unit_print_as(&t, v->si, input->quantity, input->bare, 4))
        unit_print(&t, v->si, input->quantity, asked->system, 4);
    return text_get(&t);
}

static void say_grounds(struct sheet *s, const struct calc *c, const struct bench_asked *asked)
{
    for (int i = 0; c->cautions && c->cautions[i].text; i++)
        sheet_caution(s, c->cautions[i].text, c->cautions[i].defer);
    if (c->limits) sheet_text(s, "%s", c->limits);
    struct sheet_why *why = sheet_why(s, "Where does it come from?", c->formula, MARK_NONE, "");
    for (int i = 0; asked && c->inputs[i].name; i++)
        sheet_why_input(s, why, c->inputs[i].name, "%s", input_told(s->arena, asked, i));
    for (int i = 0; c->sources[i].text; i++)
        sheet_note(s, c->sources[i].mark, c->sources[i].text, "");
}

static void chart(struct sheet *s, const struct bench_asked *asked)
{
    const struct calc *c = asked->calc;
    if (asked->n_curve < 2) return;
    const struct calc_output *o = &c->outputs[calc_output_index(c, c->plot_of)];
    const struct calc_input *x = &c->inputs[calc_input_index(c, c->plot_over)];
    enum { ROWS = 12 };
    double high = 0;
    for (int i = 0; i < asked->n_curve; i++) high = fmax(high, asked->y[i]);
    if (!(high > 0)) return;
    const struct calc_value top = calc_number(high);
    struct sheet_chart *ch =
        sheet_chart(s, CHART_BARS, arena_print(s->arena, "%s by %s", o->name, x->name), "", 0, "0",
                    high, calc_told(s->arena, o, &top, asked->system));
    const int rows = asked->n_curve < ROWS ? asked->n_curve : ROWS;
    for (int r = 0; r < rows; r++) {
        int i = r * (asked->n_curve - 1) / (rows - 1);
        struct text label = {.arena = s->arena};
        const struct calc_value y = calc_number(asked->y[i]);
        if (!x->bare || !unit_print_as(&label, asked->x[i], x->quantity, x->bare, 3))
            unit_print(&label, asked->x[i], x->quantity, asked->system, 3);
        sheet_chart_row(s, ch,
                        (struct chart_row){.label = text_get(&label),
                                           .text = calc_told(s->arena, o, &y, asked->system),
                                           .low = 0,
                                           .middle = fmax(0, asked->y[i]),
                                           .high = fmax(0, asked->y[i])});
    }
}

struct sheet *show_bench(struct arena *a, const struct bench_asked *asked)
{
    const struct calc *c = asked->calc;
    const struct calc_result *r = &asked->result;
    struct sheet *s = sheet_new(a, c->question);
    if (r->said) sheet_fact(s, tone_of(r->verdict), "Verdict", "%s", r->said);
    if (asked->solved >= 0)
        sheet_fact(s, TONE_PLAIN, spoken(a, c->inputs[asked->solved].name), "%s",
                   input_told(a, asked, asked->solved));
    for (int i = 0; c->outputs[i].name; i++)
        if (r->out[i].set)
            sheet_fact(s, TONE_PLAIN, spoken(a, c->outputs[i].name), "%s",
                       told_both(a, &c->outputs[i], &r->out[i], asked->system));
    for (int i = 0; i < r->n_notes; i++) sheet_item(s, "%s", r->notes[i]);
    chart(s, asked);
    say_grounds(s, c, asked);
    return s;
}

struct sheet *show_bench_help(struct arena *a, const struct calc *c)
{
    struct sheet *s = sheet_new(a, c->question);
    struct sheet_table *t = sheet_table(s, "It takes");
    sheet_column(s, t, "input", ALIGN_LEFT, 1);
    sheet_column(s, t, "what it is", ALIGN_LEFT, 1);
    sheet_column(s, t, "if left out", ALIGN_LEFT, 2);
    for (int i = 0; c->inputs[i].name; i++) {
        const struct calc_input *x = &c->inputs[i];
        sheet_cell(s, t, TONE_PLAIN, "%s", x->name);
        sheet_cell(s, t, TONE_PLAIN, "%s%s%s%s", x->help, x->bare ? " (" : "",
                   x->bare ? x->bare : "", x->bare ? ")" : "");
        sheet_cell(s, t, TONE_FAINT, "%s",
                   x->usual      ? x->usual
                   : x->may_lack ? "not needed"
                                 : "must be given");
    }
    struct sheet_table *o = sheet_table(s, "It tells");
    sheet_column(s, o, "result", ALIGN_LEFT, 1);
    sheet_column(s, o, "what it is", ALIGN_LEFT, 1);
    for (int i = 0; c->outputs[i].name; i++) {
        sheet_cell(s, o, TONE_PLAIN, "%s", c->outputs[i].name);
        sheet_cell(s, o, TONE_PLAIN, "%s", c->outputs[i].help);
    }
    say_grounds(s, c, NULL);
    return s;
}

struct sheet *show_bench_list(struct arena *a)
{
    struct sheet *s = sheet_new(a, "The sums of the trade");
    for (const struct calc_system *y = calc_systems; y->name; y++) {
        sheet_heading(s, 2, y->title);
        for (const struct calc *c = y->calcs; c->name; c++)
            sheet_link(s, c->question, arena_print(a, "bench %s", c->name));
    }
    return s;
}

json_t *show_bench_list_json(void)
{
    json_t *sums = json_array();
    for (const struct calc_system *y = calc_systems; y->name; y++)
        for (const struct calc *c = y->calcs; c->name; c++)
            json_array_append_new(sums, json_pack("{s:s, s:s, s:s}", "calc", c->name, "system",
                                                  y->name, "question", c->question));
    return json_pack("{s:o}", "sums", sums);
}

/* ---- JSON ---- */

/* A number in the unit that is told; without a fixed one in SI, and then no unit. */
static json_t *json_output(struct arena *a, const struct bench_asked *asked, int i)
{
    const struct calc_output *o = &asked->calc->outputs[i];
    const struct calc_value *v = &asked->result.out[i];
    if (o->kind == CALC_TEXT) return json_pack("{s:s, s:n}", "value", v->text, "unit");
    const char *unit = asked->system == UNITS_METRIC ? o->metric : o->imperial;
    return json_pack("{s:f, s:s?, s:s}", "value", unit ? unit_in(v->si, o->quantity, unit) : v->si,
                     "unit", unit, "told", calc_told(a, o, v, asked->system));
}

json_t *show_bench_json(struct arena *a, const struct bench_asked *asked)
{
    const struct calc *c = asked->calc;
    json_t *in = json_object(), *out = json_object(), *sources = json_array(),
           *cautions = json_array(), *notes = json_array();
    for (int i = 0; c->inputs[i].name; i++)
        json_object_set_new(in, c->inputs[i].name,
                            asked->in[i].set ? json_string(input_told(a, asked, i)) : json_null());
    for (int i = 0; c->outputs[i].name; i++)
        if (asked->result.out[i].set)
            json_object_set_new(out, c->outputs[i].name, json_output(a, asked, i));
    for (int i = 0; c->sources[i].text; i++)
        json_array_append_new(sources,
                              json_pack("{s:s, s:s}", "mark", mark_word(c->sources[i].mark),
                                        "source", c->sources[i].text));
    for (int i = 0; c->cautions && c->cautions[i].text; i++)
        json_array_append_new(cautions, json_pack("{s:s, s:s}", "text", c->cautions[i].text,
                                                  "defer", c->cautions[i].defer));
    for (int i = 0; i < asked->result.n_notes; i++)
        json_array_append_new(notes, json_string(asked->result.notes[i]));
    return json_pack("{s:s, s:o, s:o, s:s?, s:s?, s:o, s:o, s:o}", "calc", c->name, "in", in, "out",
                     out, "verdict",
                     asked->result.verdict ? verdict_word(asked->result.verdict) : NULL, "said",
                     asked->result.said, "notes", notes, "sources", sources, "cautions", cautions);
}
