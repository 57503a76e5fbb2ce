#include "face/show/bench_ask.h"

#include "bench/seal_profile.h"
#include "bench/solve.h"
#include "face/show/sheet.h"

#include <assert.h>

bool bench_find(const char *name, const struct calc **out, struct fail *f)
{
    *out = calc_find(name);
    const char *near = *out ? NULL : calc_nearest(name);
    if (*out) return true;
    if (near) return fail_set(f, FAIL_INPUT, "bench: no sum '%s'; did you mean '%s'?", name, near);
    return fail_set(f, FAIL_INPUT, "bench: no sum '%s'; 'fettle bench' lists them", name);
}

/* What was typed, sorted to inputs and outputs. */
struct sorted {
    const char *input[CALC_INPUTS];
    int unknown;        /* the input that is "?", or -1 */
    int output;         /* the output that is wanted, or -1 */
    const char *wanted; /* and how much of it */
};

static bool sort_output(const struct calc *c, int output, const char *value, struct sorted *s,
                        struct fail *f)
{
    const char *name = c->outputs[output].name;
    if (c->outputs[output].kind != CALC_QUANTITY)
        return fail_set(f, FAIL_INPUT, "%s: a sum is asked backwards by a number only", name);
    if (s->output >= 0)
        return fail_set(f, FAIL_INPUT, "%s: one wanted result at a time; take '%s' away", name,
                        c->outputs[s->output].name);
    s->output = output;
    s->wanted = value;
    return true;
}

static bool sort_input(const struct calc *c, int input, const char *value, struct sorted *s,
                       struct fail *f)
{
    const char *name = c->inputs[input].name;
    if (s->input[input]) return fail_set(f, FAIL_INPUT, "%s: given twice; say it once", name);
    s->input[input] = value;
    if (!text_is(value, "?")) return true;
    if (c->inputs[input].kind != CALC_QUANTITY)
        return fail_set(f, FAIL_INPUT, "%s: only a number can be looked for", name);
    if (s->unknown >= 0)
        return fail_set(f, FAIL_INPUT, "%s: one '?' at a time; say what '%s' is", name,
                        c->inputs[s->unknown].name);
    s->unknown = input;
    return true;
}

static bool sort(struct arena *a, const struct calc *c, const struct bench_typed *typed, int count,
                 struct sorted *s, struct fail *f)
{
    *s = (struct sorted){.unknown = -1, .output = -1};
    for (int i = 0; i < count; i++) {
        int input = calc_input_index(c, typed[i].name);
        int output = calc_output_index(c, typed[i].name);
        if (input < 0 && output < 0) {
            struct text known = {.arena = a};
            for (int k = 0; c->inputs[k].name; k++)
                text_print(&known, "%s%s", k ? ", " : "", c->inputs[k].name);
            return fail_set(f, FAIL_INPUT, "%s: '%s' is no input of it; it takes %s", c->name,
                            typed[i].name, text_get(&known));
        }
        if (!(input >= 0 ? sort_input(c, input, typed[i].value, s, f)
                         : sort_output(c, output, typed[i].value, s, f)))
            return false;
    }
    if (s->unknown >= 0 && s->output < 0)
        return fail_set(f, FAIL_INPUT, "%s: to look for it, say what is wanted of a result",
                        c->inputs[s->unknown].name);
    if (s->output >= 0 && s->unknown < 0)
        return fail_set(f, FAIL_INPUT, "%s: a result; to ask backwards, give one input as '?'",
                        c->outputs[s->output].name);
    return true;
}

static bool answer(struct arena *a, const struct sorted *s, struct bench_asked *out, struct fail *f)
{
    const struct calc *c = out->calc;
    double wanted;
    struct fail why = {0};
    if (s->unknown < 0) return calc_run(a, c, out->in, &out->result, f);
    const struct calc_output *o = &c->outputs[s->output];
    const char *bare = out->system == UNITS_METRIC ? o->metric : o->imperial;
    if (!unit_parse(s->wanted, o->quantity, bare, &wanted, &why))
        return fail_set(f, FAIL_INPUT, "%s: %s", o->name, why.text);
    out->solved = s->unknown;
    return calc_solve(a, c, out->in, s->unknown, s->output, wanted, &out->result, f);
}

/* The entries of trade data that the sum chooses among, each with its mark. */
static void take_rows(struct arena *a, const struct calc *c, const struct trade *t,
                      struct calc_value *out)
{
    static const double MM = 1e-3;
    assert(text_is(c->chooses, subject_name(SUBJECT_SEALS)) && t);
    struct seal_profile *rows = ARENA_ARRAY(a, struct seal_profile, t->n_seals);
    for (int i = 0; i < t->n_seals; i++) {
        const struct trade_seal *s = &t->seals[i];
        rows[i] = (struct seal_profile){
            .name = s->head.id,
            .text = arena_print(a, "%s [%s]", s->head.name, mark_word(s->head.mark)),
            .kind = s->kind,
            .hold = s->hold,
            .low = s->from * MM,
            .high = s->to * MM,
            .free = s->height * MM,
            .bulb = s->breadth * MM,
            .force = s->force};
    }
    *out = (struct calc_value){.set = true, .rows = rows, .n_rows = t->n_seals};
}

bool bench_ask(struct arena *a, const struct calc *c, const struct trade *t,
               const struct bench_typed *typed, int count, enum unit_system system,
               struct bench_asked *out, struct fail *f)
{
    struct sorted s;
    *out = (struct bench_asked){.calc = c, .solved = -1, .system = system};
    if (!sort(a, c, typed, count, &s, f)) return false;
    for (int i = 0; c->inputs[i].name; i++)
        if (i != s.unknown && !calc_read(a, &c->inputs[i], s.input[i], &out->in[i], f))
            return false;
    if (c->chooses) take_rows(a, c, t, &out->in[CALC_ROWS]);
    if (!answer(a, &s, out, f)) return false;
    if (c->plot_over)
        out->n_curve = calc_curve(a, c, out->in, calc_input_index(c, c->plot_over),
                                  calc_output_index(c, c->plot_of), BENCH_CURVE, out->x, out->y);
    return true;
}
