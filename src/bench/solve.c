#include "bench/solve.h"

#include <assert.h>
#include <string.h>

/* Even steps in the logarithm where the range spans decades, else even steps. */
static double at(const struct calc_input *input, double share)
{
    if (input->low > 0 && input->high / input->low > 50)
        return input->low * pow(input->high / input->low, share);
    return input->low + (input->high - input->low) * share;
}

/* NAN where there is no answer. */
static double value_at(struct arena scratch, const struct calc *c, const struct calc_value *in,
                       int input, int output, double x)
{
    struct calc_value trial[CALC_VALUES];
    struct calc_result result;
    struct fail ignored = {0};
    memcpy(trial, in, sizeof trial);
    trial[input] = calc_number(x);
    if (!calc_run(&scratch, c, trial, &result, &ignored) || !result.out[output].set) return NAN;
    return result.out[output].si;
}

static const char *told_at(struct arena *a, const struct calc_output *o, double y)
{
    if (isnan(y)) return "no answer";
    const struct calc_value v = calc_number(y);
    return calc_told(a, o, &v, UNITS_METRIC);
}

bool calc_solve(struct arena *a, const struct calc *c, struct calc_value *in, int input, int output,
                double wanted, struct calc_result *out, struct fail *f)
{
    const struct calc_input *x = &c->inputs[input];
    const struct calc_output *y = &c->outputs[output];
    assert(x->kind == CALC_QUANTITY && y->kind == CALC_QUANTITY);
    double left = at(x, 0), before = value_at(*a, c, in, input, output, left), first = before;
    for (int i = 1; i <= SOLVE_STEPS; i++) {
        double right = at(x, (double)i / SOLVE_STEPS);
        double now = value_at(*a, c, in, input, output, right);
        if ((before - wanted) * (now - wanted) <= 0) {
            const bool rising = now >= before;
            for (int k = 0; k < 60 && right - left > 1e-9 * fabs(right); k++) {
                double middle = 0.5 * (left + right);
                double v = value_at(*a, c, in, input, output, middle);
                if (isnan(v)) break;
                if ((v < wanted) == rising)
                    left = middle;
                else
                    right = middle;
            }
            in[input] = calc_number(before == wanted ? left : right);
            return calc_run(a, c, in, out, f);
        }
        left = right;
        before = now;
    }
    return fail_set(f, FAIL_NO, "%s: none in its range gives that %s; at its ends it is %s and %s",
                    x->name, y->name, told_at(a, y, first), told_at(a, y, before));
}

int calc_curve(struct arena *a, const struct calc *c, const struct calc_value *in, int input,
               int output, int count, double *x, double *y)
{
    const struct calc_input *walked = &c->inputs[input];
    const bool whole = c->plot_whole && text_is(c->plot_over, walked->name);
    int n = 0;
    if (whole) count = (int)fmin(count, walked->high - walked->low + 1);
    for (int i = 0; i < count; i++) {
        x[n] = whole ? walked->low + i : at(walked, (double)i / (count - 1));
        y[n] = value_at(*a, c, in, input, output, x[n]);
        if (!isnan(y[n])) n++;
    }
    return n;
}
