/* Every case of cases_*.c, and what holds for every sum: that its row is whole, that round trips
 * come back, and that rubbish is refused in one line. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "bench/solve.h"
#include "cases.h"
#include "seals.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static const struct bench_case *const tables[] = {
    cases_threads, cases_fasteners,   cases_electrical, cases_charging, cases_fuel,
    cases_seals,   cases_suspension,  cases_towing,     cases_engine,   cases_cooling,
    cases_brakes,  cases_measurement, cases_driveline,
};
enum { TABLES = sizeof tables / sizeof *tables };

static struct arena arena;

/* "a=1; b=2" into the inputs. False with the line if one is refused. */
static bool read_given(const struct calc *c, const char *given, struct calc_value *in,
                       struct fail *f)
{
    const char *typed[CALC_VALUES] = {NULL};
    while (*given) {
        size_t n = strcspn(given, ";"), name = strcspn(given, "=");
        if (name >= n) fail_msg("%s: '%s' is no name=value", c->name, given);
        int i = calc_input_index(c, arena_copy_n(&arena, given, name));
        if (i < 0) fail_msg("%s: no input in '%s'", c->name, given);
        typed[i] = arena_copy_n(&arena, given + name + 1, n - name - 1);
        given += n;
        given += strspn(given, "; ");
    }
    for (int i = 0; c->inputs[i].name; i++)
        if (!calc_read(&arena, &c->inputs[i], typed[i], &in[i], f)) return false;
    if (c->chooses) in[CALC_ROWS] = (struct calc_value){.rows = seals, .n_rows = N_SEALS};
    return true;
}

static bool is_near(const struct bench_case *k, const struct calc_output *o, double got)
{
    struct fail f = {0};
    double expected, within;
    if (!unit_parse(k->expected, o->quantity, NULL, &expected, &f)) fail_msg("%s", f.text);
    if (strchr(k->within, '%')) {
        if (!unit_parse(k->within, QUANTITY_NUMBER, NULL, &within, &f)) fail_msg("%s", f.text);
        within *= fabs(expected);
    } else if (o->quantity == QUANTITY_TEMPERATURE) { /* a difference, not a temperature */
        char *end;
        within = strtod(k->within, &end);
        if (strcmp(end, " F") == 0) within *= 5.0 / 9;
    } else if (!unit_parse(k->within, o->quantity, NULL, &within, &f)) {
        fail_msg("%s", f.text);
    }
    return fabs(got - expected) <= within * (1 + 1e-9);
}

static void check(const struct bench_case *k)
{
    static const char *const verdicts[] = {"none", "good", "care", "bad"};
    const struct calc *c = calc_find(k->calc);
    struct calc_value in[CALC_VALUES] = {{0}};
    struct calc_result result;
    struct fail f = {0};
    if (!c) fail_msg("case %s: no sum '%s'", k->id, k->calc);
    bool good = read_given(c, k->given, in, &f) && calc_run(&arena, c, in, &result, &f);
    if (strcmp(k->output, "refused") == 0) {
        if (good || !text_starts(f.text, k->expected))
            fail_msg("case %s: '%s', wanted a refusal '%s'", k->id, f.text, k->expected);
        return;
    }
    if (!good) fail_msg("case %s: %s", k->id, f.text);
    if (strcmp(k->output, "verdict") == 0) {
        if (strcmp(verdicts[result.verdict], k->expected) != 0)
            fail_msg("case %s: %s, wanted %s", k->id, verdicts[result.verdict], k->expected);
        return;
    }
    if (strcmp(k->output, "note") == 0) {
        for (int n = 0; n < result.n_notes; n++)
            if (text_starts(result.notes[n], k->expected)) return;
        fail_msg("case %s: no note '%s'", k->id, k->expected);
    }
    int i = calc_output_index(c, k->output);
    if (i < 0) fail_msg("case %s: no output '%s'", k->id, k->output);
    const struct calc_value *v = &result.out[i];
    if (!v->set) fail_msg("case %s: %s is not told", k->id, k->output);
    const struct calc_output *o = &c->outputs[i];
    if (o->kind == CALC_TEXT ? !text_starts(v->text, k->expected) : !is_near(k, o, v->si))
        fail_msg("case %s %s(%s): %s is %s, wanted %s within %s", k->id, c->name, k->given,
                 k->output, calc_told(&arena, o, v, UNITS_METRIC), k->expected,
                 k->within ? k->within : "the letter");
}

static void cases_come_out(void **state)
{
    (void)state;
    int count = 0;
    for (int t = 0; t < TABLES; t++)
        for (const struct bench_case *k = tables[t]; k->calc; k++, count++) check(k);
    print_message("%d cases\n", count);
}

/* How many numbered cases each part of the collection has, as docs/bench.md lists them, and those
 * that are no row here: words, or held by another test. */
static const int collected[] = {32, 23, 20, 19, 22, 20, 13, 21, 8, 13, 8, 9, 4, 6, 18};
static const char *const no_row[] = {"10.", "11.04", "11.05", "11.06", "14.06", NULL};

static void every_numbered_case_stands(void **state)
{
    (void)state;
    int stand = 0, left = 0;
    for (size_t part = 0; part < sizeof collected / sizeof *collected; part++)
        for (int i = 1; i <= collected[part]; i++) {
            const char *id = arena_print(&arena, "%zu.%02d", part + 1, i);
            bool is_row = false, is_left = false;
            for (int t = 0; t < TABLES; t++)
                for (const struct bench_case *k = tables[t]; k->calc; k++)
                    is_row |= strcmp(k->id, id) == 0;
            for (int k = 0; no_row[k]; k++) is_left |= text_starts(id, no_row[k]);
            if (is_row == is_left)
                fail_msg("case %s: %s", id, is_row ? "listed as left" : "no row");
            stand += is_row;
            left += is_left;
        }
    print_message("%d of the numbered cases are rows, %d are not\n", stand, left);
}

static bool is_name(const char *s)
{
    return *s && strspn(s, "abcdefghijklmnopqrstuvwxyz0123456789-") == strlen(s);
}

static void rows_are_whole(void **state)
{
    (void)state;
    for (const struct calc_system *y = calc_systems; y->name; y++)
        for (const struct calc *c = y->calcs; c->name; c++) {
            int inputs = 0, outputs = 0, cases = 0;
            struct fail f = {0};
            if (calc_find(c->name) != c) fail_msg("%s: a name twice", c->name);
            assert_true(is_name(c->name) && *c->question && *c->formula && c->sources[0].text);
            for (int i = 0; c->sources[i].text; i++) assert_true(c->sources[i].mark != MARK_NONE);
            for (int i = 0; c->cautions && c->cautions[i].text; i++)
                if (!*c->cautions[i].defer) fail_msg("%s: a caution defers to nobody", c->name);
            for (; c->inputs[inputs].name; inputs++) {
                const struct calc_input *x = &c->inputs[inputs];
                struct calc_value usual;
                if (!is_name(x->name) || !*x->help || calc_input_index(c, x->name) != inputs ||
                    calc_output_index(c, x->name) >= 0)
                    fail_msg("%s: input '%s'", c->name, x->name);
                if (x->kind == CALC_QUANTITY && !(x->low < x->high))
                    fail_msg("%s.%s: no range", c->name, x->name);
                if (x->kind == CALC_CHOICE) assert_non_null(x->choices[0]);
                if (x->usual && !calc_read(&arena, x, NULL, &usual, &f))
                    fail_msg("%s: %s", c->name, f.text);
            }
            for (; c->outputs[outputs].name; outputs++) {
                const struct calc_output *o = &c->outputs[outputs];
                if (!is_name(o->name) || !*o->help || calc_output_index(c, o->name) != outputs)
                    fail_msg("%s: output '%s'", c->name, o->name);
                if (o->metric) unit_in(1, o->quantity, o->metric); /* asserts that it is one */
                if (o->imperial) unit_in(1, o->quantity, o->imperial);
            }
            if (inputs > CALC_INPUTS || outputs > CALC_OUTPUTS || outputs == 0)
                fail_msg("%s: %d inputs, %d outputs", c->name, inputs, outputs);
            if (c->plot_over)
                assert_true(calc_input_index(c, c->plot_over) >= 0 &&
                            calc_output_index(c, c->plot_of) >= 0);
            for (int t = 0; t < TABLES; t++)
                for (const struct bench_case *k = tables[t]; k->calc; k++)
                    cases += strcmp(k->calc, c->name) == 0;
            if (cases == 0) fail_msg("%s: no case", c->name);
        }
}

/* From each case: any number that came out, asked backwards for any input, gives an input that
 * gives it again. */
static void backwards_and_forth(void **state)
{
    (void)state;
    int tried = 0;
    for (int t = 0; t < TABLES; t++)
        for (const struct bench_case *k = tables[t]; k->calc; k++) {
            const struct calc *c = calc_find(k->calc);
            struct calc_value in[CALC_VALUES] = {{0}};
            struct calc_result result, again;
            struct fail f = {0};
            int o = calc_output_index(c, k->output);
            if (o < 0 || c->outputs[o].kind != CALC_QUANTITY) continue;
            if (!read_given(c, k->given, in, &f) || !calc_run(&arena, c, in, &result, &f)) continue;
            for (int i = 0; c->inputs[i].name; i++) {
                struct calc_value back[CALC_VALUES];
                if (c->inputs[i].kind != CALC_QUANTITY || !in[i].set) continue;
                memcpy(back, in, sizeof back);
                struct arena scratch = arena;
                /* Steps in an output (a standard size) may jump over the wanted value: told then.
                 */
                if (!calc_solve(&scratch, c, back, i, o, result.out[o].si, &again, &f)) continue;
                double off = fabs(again.out[o].si - result.out[o].si);
                assert_true(back[i].si >= c->inputs[i].low && back[i].si <= c->inputs[i].high);
                if (off <= 1e-4 * fabs(result.out[o].si) + 1e-12) tried++;
            }
        }
    assert_true(tried > 0);
}

/* One input anew: an end of its range, between them, any choice, left out, or as the case has it.
 */
static void draw(const struct calc_input *x, const struct calc_value *of_a_case, uint64_t random,
                 struct calc_value *out)
{
    const double end[] = {x->low, x->high, x->low + (x->high - x->low) * 0.37};
    int choices = 0;
    while (x->kind == CALC_CHOICE && x->choices[choices]) choices++;
    *out = *of_a_case;
    if (x->may_lack && random % 5 == 4)
        *out = (struct calc_value){0};
    else if (x->kind == CALC_CHOICE && choices > 0)
        out->choice = (int)(random % (unsigned)choices), out->text = x->choices[out->choice];
    else if (x->kind == CALC_QUANTITY && random % 5 < 3)
        *out = (struct calc_value){.set = true, .si = end[random % 5], .text = "drawn"};
}

/* Whatever the ranges allow together is answered with numbers (calc_run asserts that) or refused
 * with a line. */
static void ends_of_the_ranges_are_answered(void **state)
{
    (void)state;
    enum { DRAWN = 25 };
    uint64_t random = 88172645463325252u; /* xorshift */
    int answered = 0;
    for (int t = 0; t < TABLES; t++)
        for (const struct bench_case *k = tables[t]; k->calc; k++) {
            const struct calc *c = calc_find(k->calc);
            struct calc_value of_a_case[CALC_VALUES] = {{0}}, in[CALC_VALUES];
            struct fail f = {0};
            if (!read_given(c, k->given, of_a_case, &f)) continue;
            for (int n = 0; n < DRAWN; n++) {
                struct arena scratch = arena;
                struct calc_result result;
                for (int i = 0; c->inputs[i].name; i++) {
                    random ^= random << 13, random ^= random >> 7, random ^= random << 17;
                    draw(&c->inputs[i], &of_a_case[i], random >> 20, &in[i]);
                }
                in[CALC_ROWS] = of_a_case[CALC_ROWS];
                f = (struct fail){0};
                if (calc_run(&scratch, c, in, &result, &f))
                    answered++;
                else if (!*f.text || strchr(f.text, '\n'))
                    fail_msg("%s: refused without a line", c->name);
            }
        }
    assert_true(answered > 0);
}

static void rubbish_is_refused(void **state)
{
    (void)state;
    static const char *const rubbish[] = {"x",
                                          "-",
                                          "1e999",
                                          "nan",
                                          "inf",
                                          "-1 mm",
                                          "0",
                                          "5 psi psi",
                                          "\xff\xfe",
                                          "\xf0\x9f\x94\xa7",
                                          "99999999999999999999999999",
                                          "1;2",
                                          "<b>",
                                          "' or 1=1",
                                          "1/0",
                                          "--",
                                          "=?",
                                          "?"};
    for (const struct calc_system *y = calc_systems; y->name; y++)
        for (const struct calc *c = y->calcs; c->name; c++)
            for (size_t r = 0; r < sizeof rubbish / sizeof *rubbish; r++) {
                struct calc_value in[CALC_VALUES] = {{0}};
                struct calc_result result;
                struct fail f = {0};
                bool good = true;
                for (int i = 0; good && c->inputs[i].name; i++)
                    good = calc_read(&arena, &c->inputs[i], rubbish[r], &in[i], &f);
                if (good && c->inputs[0].name) good = calc_run(&arena, c, in, &result, &f);
                if (!good && (!*f.text || strchr(f.text, '\n')))
                    fail_msg("%s: '%s' is refused without a line", c->name, rubbish[r]);
            }
}

static int set_up(void **state)
{
    (void)state;
    arena = arena_open((size_t)1 << 30);
    return 0;
}

static int tear_down(void **state)
{
    (void)state;
    arena_close(&arena);
    return 0;
}

int main(void)
{
#define T(f) cmocka_unit_test_setup_teardown(f, set_up, tear_down)
    const struct CMUnitTest tests[] = {
        T(cases_come_out),      T(every_numbered_case_stands),      T(rows_are_whole),
        T(backwards_and_forth), T(ends_of_the_ranges_are_answered), T(rubbish_is_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
