/* threads.c - thread forms and sizes. */
#include "bench/systems.h"

static const double PI = 3.14159265358979323846;

/* ---- metric-thread: basic sizes of an ISO metric thread ---- */

static const struct calc_input metric_inputs[] = {
    {.name = "diameter",
     .help = "nominal diameter, the 8 of M8x1.25",
     .quantity = QUANTITY_LENGTH,
     .bare = "mm",
     .low = 1e-3,
     .high = 0.3},
    {.name = "pitch",
     .help = "pitch, the 1.25 of M8x1.25",
     .quantity = QUANTITY_LENGTH,
     .bare = "mm",
     .low = 0.2e-3,
     .high = 8e-3},
    {.name = NULL},
};
static const struct calc_output metric_outputs[] = {
    {.name = "pitch-diameter",
     .help = "basic pitch diameter",
     .quantity = QUANTITY_LENGTH,
     .metric = "mm",
     .imperial = "in",
     .figures = 4},
    {.name = "minor-diameter",
     .help = "basic minor diameter of the hole",
     .quantity = QUANTITY_LENGTH,
     .metric = "mm",
     .imperial = "in",
     .figures = 4},
    {.name = "stress-area",
     .help = "tensile stress area of the screw",
     .quantity = QUANTITY_AREA,
     .metric = "mm2",
     .imperial = "in2"},
    {.name = "tap-drill",
     .help = "usual drill for tapping, about three quarters of the thread",
     .quantity = QUANTITY_LENGTH,
     .metric = "mm",
     .imperial = "in"},
    {.name = NULL},
};
static const struct calc_source metric_sources[] = {
    {MARK_PUBLISHED, "ISO 68-1 and ISO 724: basic profile and basic dimensions"},
    {MARK_PUBLISHED, "ISO 898-1: stress area from pitch and root diameter"},
    {MARK_NONE, NULL},
};

static bool metric_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                       struct fail *f)
{
    const double d = in[0].si, p = in[1].si;
    (void)a;
    if (p > 0.35 * d)
        return fail_set(f, FAIL_INPUT, "pitch: too coarse for this diameter; measure both again");
    out->out[0] = calc_number(d - 0.6495191 * p);
    out->out[1] = calc_number(d - 1.0825318 * p);
    out->out[2] = calc_number(PI / 4 * (d - 0.9381942 * p) * (d - 0.9381942 * p));
    out->out[3] = calc_number(d - p);
    return true;
}

const struct calc calc_threads[] = {
    {.name = "metric-thread",
     .question = "What are the basic sizes of this metric thread?",
     .inputs = metric_inputs,
     .outputs = metric_outputs,
     .formula = "pitch diameter = d - 0.6495 P; minor = d - 1.0825 P; stress area = pi/4 (d - "
                "0.9382 P)^2; drill = d - P",
     .limits = "Basic sizes, without the play of the tolerance classes.",
     .sources = metric_sources,
     .run = metric_run},
    {.name = NULL},
};
