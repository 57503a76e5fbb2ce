/* test_safe.c - every gate of the trade data tried with one thing missing: it is shut, and names
 * it. The table is the trade data itself, so that no gate can be forgotten. */
#include "shop/scene.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "bench/calc.h"
#include "shop/safe.h"

#include <math.h>
#include <string.h>

static struct safe reckon(struct scene *s)
{
    struct safe x;
    struct fail f = {0};
    const struct shop_ask ask = {.garage = s->garage,
                                 .trade = &s->trade,
                                 .vehicle = s->vehicle,
                                 .today = day_from_civil(2026, 11, 25),
                                 .direction = trade_find_direction(&s->trade, "drive")};
    if (!safe_reckon(&s->arena, &ask, &x, &f)) fail_msg("%s", f.text);
    return x;
}

static void everything_holds(struct scene *s)
{
    scene_open(s);
    struct arena *a = &s->arena;
    scene_add(s, "vehicle", "name=Linnet", "year=1959", NULL);
    for (int i = 0; i < s->trade.n_jobs; i++)
        scene_add(s, "work", arena_print(a, "job=%s", s->trade.jobs[i].head.id), "finished=yes",
                  "date=2026-11-20", NULL);
    for (int i = 0; i < s->trade.n_proofs; i++) {
        const struct trade_proof *p = &s->trade.proofs[i];
        const char *what = arena_print(a, "what=%s", p->head.id);
        if (!p->unit)
            scene_add(s, "witnessed", what, "holds=yes", "by=Hale", "worker=Marsh",
                      "date=2026-11-25", NULL);
        else
            scene_add(s, "measurement", what, arena_print(a, "unit=%s", p->unit),
                      arena_print(a, "value=%g",
                                  p->book               ? 1
                                  : isnan(p->pass_from) ? p->pass_to
                                                        : p->pass_from),
                      p->book ? "low=0.5" : "note=x", p->book ? "high=2" : "note=x",
                      "date=2026-11-25", NULL);
    }
    for (int i = 0; i < s->trade.n_gates; i++)
        scene_add(s, "gate-opened", arena_print(a, "gate=%s", s->trade.gates[i].head.id),
                  "date=2026-11-22", NULL);
}

static void one_thing_missing(void **state)
{
    (void)state;
    struct scene s;
    everything_holds(&s);
    const struct safe whole = reckon(&s);
    for (int g = 0; g < whole.n_gates; g++)
        if (whole.gates[g].state != GATE_OPEN)
            fail_msg("%s: %s, missing: %s", whole.gates[g].gate->head.id,
                     gate_state_name(whole.gates[g].state),
                     safe_ids(&s.arena, &whole.gates[g], false));
    static const char *const kinds[][2] = {
        {"work", "job"}, {"measurement", "what"}, {"witnessed", "what"}};
    int tried = 0, needs = 0;
    for (int g = 0; g < whole.n_gates; g++)
        needs += whole.gates[g].n_needs - whole.gates[g].gate->n_after;
    for (int k = 0; k < 3; k++) {
        struct record *r;
        struct fail f = {0};
        int n;
        assert_true(
            garage_list(s.garage, &s.arena, record_kind_find(kinds[k][0]), s.vehicle, &r, &n, &f));
        for (int i = 0; i < n; i++) {
            const char *id = record_text(&r[i], kinds[k][1], "");
            assert_true(garage_begin(s.garage, &f));
            assert_true(garage_remove(s.garage, r[i].kind, r[i].id, &f));
            const struct safe x = reckon(&s);
            for (int g = 0; g < x.n_gates; g++)
                for (int m = 0; m < x.gates[g].n_needs; m++) {
                    const struct safe_need *need = &x.gates[g].needs[m];
                    if (!text_is(need->id, id)) continue;
                    tried++;
                    if (need->holds || x.gates[g].state != GATE_SHUT)
                        fail_msg("%s without %s: %s", x.gates[g].gate->head.id, id,
                                 gate_state_name(x.gates[g].state));
                }
            garage_rollback(s.garage);
        }
    }
    assert_int_equal(tried, needs);
    scene_close(&s);
}

static void drift_and_override(void **state)
{
    (void)state;
    struct scene s;
    everything_holds(&s);
    const int g = trade_find(&s.trade, SUBJECT_GATES, "before-road");
    scene_add(&s, "measurement", "what=steering-lash", "value=3", "unit=in", "date=2026-11-25",
              NULL);
    assert_int_equal(reckon(&s).gates[g].state, GATE_SHUT);
    assert_true(reckon(&s).gates[g].shut_again);
    scene_add(&s, "gate-override", "gate=before-road", "reason=to the test lane", "date=2026-11-25",
              "missing=steering-lash", NULL);
    assert_int_equal(reckon(&s).gates[g].state, GATE_OVERRIDDEN);
    scene_add(&s, "witnessed", "what=lamps-work", "holds=no", "date=2026-11-25", NULL);
    assert_int_equal(reckon(&s).gates[g].state, GATE_SHUT);
    scene_close(&s);
}

static const char *span(struct arena *a, double low, double high, const char *unit, bool outside)
{
    if (isfinite(low) && isfinite(high))
        return outside ? arena_print(a, "under %.4g or over %.4g %s", low, high, unit)
                       : arena_print(a, "%.4g to %.4g %s", low, high, unit);
    return isfinite(low) ? arena_print(a, "%s %.4g %s", outside ? "under" : "from", low, unit)
                         : arena_print(a, "%s %.4g %s", outside ? "over" : "up to", high, unit);
}

/* A limit stands in the trade data and in the sum "acceptance": they are one, with one mark. */
static void limits_are_those_of_the_bench(void **state)
{
    static const char *const marks[] = {"", "published", "practice", "memory", "demo"};
    const struct calc *sum = calc_find("acceptance");
    struct scene s;
    int both = 0;
    (void)state;
    scene_open(&s);
    for (int i = 0; i < s.trade.n_proofs; i++) {
        const struct trade_proof *p = &s.trade.proofs[i];
        struct calc_value in[CALC_INPUTS] = {{0}};
        struct calc_result out = {0};
        struct fail f = {0};
        if (!calc_read(&s.arena, &sum->inputs[0], p->head.id, &in[0], &f)) continue;
        assert_true(calc_run(&s.arena, sum, in, &out, &f));
        const char *mark = marks[p->head.mark];
        if (strncmp(out.out[3].text, mark, strlen(mark)) != 0)
            fail_msg("%s: %s, not %s", p->head.id, mark, out.out[3].text);
        both++;
        if (!p->unit || p->book) continue;
        const char *pass = span(&s.arena, p->pass_from, p->pass_to, p->unit, false),
                   *stop = span(&s.arena, p->stop_under, p->stop_over, p->unit, true);
        /* The sum tells a plain number where years are meant. */
        if (!text_starts(pass, out.out[0].text) || !text_starts(stop, out.out[1].text))
            fail_msg("%s: %s, %s; not %s, %s", p->head.id, pass, stop, out.out[0].text,
                     out.out[1].text);
    }
    assert_true(both >= 10);
    scene_close(&s);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(one_thing_missing),
                                       cmocka_unit_test(drift_and_override),
                                       cmocka_unit_test(limits_are_those_of_the_bench)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
