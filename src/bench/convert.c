/* convert.c - a measure in another unit. */
#include "bench/row.h"
#include "bench/systems.h"

static const struct calc_input convert_inputs[] = {
    IN_TEXT("value", "with its unit: 75 lbf ft, 3/8 in, 180 F"),
    IN_TEXT("to", "the unit wanted: Nm, mm, C"),
    IN_USUAL("figures", NUMBER, NULL, "6", 1, 12, "significant figures"),
    IN_END,
};
static const struct calc_output convert_outputs[] = {
    OUT_TEXT("is", "the same in that unit"),
    OUT_TEXT("quantity", "what it is a measure of"),
    OUT_END,
};
static const struct calc_source convert_sources[] = {
    {MARK_PUBLISHED,
     "NIST SP 811, Appendix B; UK Weights and Measures Act 1985: imperial capacity"},
    SOURCE_END,
};

static bool convert_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                        struct fail *f)
{
    struct fail why = {0};
    bool is_known = false;
    for (int q = 0; q < QUANTITY_COUNT; q++) {
        double si;
        struct fail ignored = {0};
        struct text t = {.arena = a};
        if (!unit_print_as(&t, 1, (enum quantity)q, in[1].text, 3)) continue;
        is_known = true;
        if (!unit_parse(in[0].text, (enum quantity)q, NULL, &si, why.text[0] ? &ignored : &why))
            continue;
        t = (struct text){.arena = a};
        unit_print_as(&t, si, (enum quantity)q, in[1].text, (int)in[2].si);
        out->out[0] = calc_text(text_get(&t));
        out->out[1] = calc_text(quantity_name((enum quantity)q));
        return true;
    }
    if (!is_known) return fail_set(f, FAIL_INPUT, "to: no unit '%.40s'", in[1].text);
    return fail_set(f, FAIL_INPUT, "value: %s", why.text);
}

const struct calc calc_convert[] = {
    {.name = "convert",
     .question = "What is that in another unit?",
     .inputs = convert_inputs,
     .outputs = convert_outputs,
     .formula = "value x size of its unit / size of the other",
     .limits = "Pound-feet are a torque here; gallons, pints and tons have two sizes: say which.",
     .sources = convert_sources,
     .run = convert_run},
    {.name = NULL},
};
