/* test_session.c - what is offered this evening, held against rules written down here anew: all
 * before it finished, parts here, hands, bay and warmth enough, and it fits. */
#include "shop/scene.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "shop/session.h"

#include <math.h>
#include <string.h>

static void linnet(struct scene *s)
{
    scene_open(s);
    scene_add(s, "vehicle", "name=Linnet", "year=1959", "build=unitary", "kind=car", "fuel=petrol",
              "gearbox=manual", "driven=rear", "brakes=drum", "voltage=12", NULL);
    scene_add(s, "workshop", "hours-a-week=6", "currency=GBP", "bays=1", NULL);
}

static struct session asked(struct scene *s, struct session_ask evening)
{
    struct session x;
    struct fail f = {0};
    const struct shop_ask ask = {.garage = s->garage,
                                 .trade = &s->trade,
                                 .vehicle = s->vehicle,
                                 .today = day_from_civil(2026, 11, 28),
                                 .direction = trade_find_direction(&s->trade, "drive"),
                                 .seed = 1,
                                 .runs = 40};
    if (!session_reckon(&s->arena, &ask, &evening, &x, &f)) fail_msg("%s", f.text);
    return x;
}

static void finish(struct scene *s, const char *job)
{
    scene_add(s, "work", arena_print(&s->arena, "job=%s", job), "hours=1 h", "finished=yes",
              "date=2026-11-20", NULL);
}

static bool is_finished(const struct session *x, int j)
{
    return x->model->project.jobs[j].finished;
}

/* What must be finished before: through jobs that are surely not needed, whatever is before them.
 */
static void check_before(const struct session *x, int j, int depth)
{
    const struct project *p = &x->model->project;
    assert_true(depth < p->n_jobs);
    for (int i = 0; i < p->jobs[j].after.count; i++) {
        int k = p->after[p->jobs[j].after.first + i];
        if (is_finished(x, k)) continue;
        if (p->jobs[k].chance > 0.005)
            fail_msg("%s is offered before %s", p->jobs[j].id, p->jobs[k].id);
        check_before(x, k, depth + 1);
    }
}

static const char *let_through; /* the one gate that was overridden, or NULL */

static void check_gates(const struct session *x, const struct trade_job *job)
{
    for (int g = 0; g < x->trade->n_gates; g++)
        for (int i = 0; i < x->trade->gates[g].n_opens; i++)
            if (&x->trade->jobs[x->trade->gates[g].opens[i]] == job &&
                !(let_through && strcmp(let_through, x->trade->gates[g].head.id) == 0))
                fail_msg("%s is offered, and %s is shut", job->head.id, x->trade->gates[g].head.id);
}

static int begun_only; /* offered to be begun, with no hope to finish */

static void check_offered(const struct session *x)
{
    const struct facts *facts = x->model->facts;
    double left = x->minutes;
    int musts = 0, mores = 0;
    for (int i = 0; i < x->n_jobs; i++) {
        const struct session_job *s = &x->jobs[i];
        const struct trade_job *job = s->job;
        const struct project_job *p = &x->model->project.jobs[s->index];
        assert_string_equal(p->id, job->head.id);
        assert_false(p->finished);
        check_before(x, s->index, 0);
        check_gates(x, job);
        for (int k = 0; k < job->n_parts; k++) {
            bool here = false;
            for (int o = 0; o < facts->n_orders; o++)
                here = here || (facts->orders[o].part == job->parts[k].part &&
                                facts->orders[o].arrived && facts->orders[o].returned == DAY_NONE);
            assert_true(here);
        }
        for (int k = 0; k < job->n_tools; k++)
            for (int t = 0; t < x->trade->n_tools; t++)
                if (strcmp(x->trade->tools[t].head.name, job->tools[k]) == 0)
                    assert_int_not_equal(x->told.tools[t].have, TOOL_MISSING);
        assert_true(job->hands <= x->hands);
        assert_true(x->bay || !job->bay);
        assert_true(job->warm <= x->degrees);
        const double high = p->minutes.middle * exp(1.28155 * p->minutes.above);
        if (job->unbroken) assert_true(high <= x->minutes + 0.1);
        musts += s->role == SESSION_MUST;
        mores += s->role == SESSION_IF_TIME;
        if (s->role == SESSION_MUST) {
            assert_true(high <= left + 0.1);
            left -= s->middle;
        }
        if (s->role == SESSION_IF_TIME && job->unbroken) assert_true(high <= left + 0.1);
        if (s->role == SESSION_IF_TIME) {
            /* Half an hour is worth beginning; what cannot be put down wants all of its time. */
            const double room = job->unbroken ? high : fmin(high, 30);
            assert_true(fabs(s->room - room) < 0.1);
            assert_true(room <= left + 0.1);
            assert_int_equal(s->finishes, high <= left);
            begun_only += !s->finishes;
        }
        for (int b = 0; b < x->n_blocked; b++) assert_int_not_equal(x->blocked[b].index, s->index);
    }
    assert_true(musts <= 1 && mores <= 1);
}

static const struct session_blocked *blocked(const struct session *x, const char *job)
{
    for (int i = 0; i < x->n_blocked; i++)
        if (strcmp(x->blocked[i].job->head.id, job) == 0) return &x->blocked[i];
    return NULL;
}

static bool is_offered(const struct session *x, const char *job)
{
    for (int i = 0; i < x->n_jobs; i++)
        if (strcmp(x->jobs[i].job->head.id, job) == 0) return true;
    return false;
}

static void nothing_is_offered_that_lacks_something(void **state)
{
    (void)state;
    struct scene s;
    int offered = 0, musts = 0, why[BLOCKS] = {0};
    uint8_t came[4096] = {0};
    linnet(&s);
    assert_true(s.trade.n_parts < (int)sizeof came);
    /* The jobs of the direction are finished as they are offered, and every part that is wanted
     * comes: what is offered holds on the whole way, cold or warm, alone or with a helper. */
    for (int step = 0; step < 40; step++) {
        const struct session_ask evening = {
            .hours = 2 + step % 4 * 2.5, .hands = 1 + step / 2 % 2, .degrees = step % 3 * 9.0};
        const struct session x = asked(&s, evening);
        check_offered(&x);
        offered += x.n_jobs;
        musts += x.n_jobs > 0 && x.jobs[0].role == SESSION_MUST;
        for (int i = 0; i < x.n_jobs; i++) finish(&s, x.jobs[i].job->head.id);
        for (int i = 0; i < x.n_blocked; i++) {
            const struct session_blocked *b = &x.blocked[i];
            why[b->why]++;
            if (b->why != BLOCK_PART || came[b->part - s.trade.parts]) continue;
            came[b->part - s.trade.parts] = 1;
            scene_add(&s, "order", arena_print(&s.arena, "part=%s", b->part->head.id),
                      "arrived=2026-11-20", NULL);
        }
    }
    assert_true(offered > 40);
    assert_true(musts > 8);
    assert_true(begun_only > 0);
    /* The way led past every one of these. */
    static const enum session_block met[] = {BLOCK_GATE, BLOCK_BEFORE, BLOCK_PART, BLOCK_HANDS};
    for (size_t i = 0; i < sizeof met / sizeof *met; i++)
        if (why[met[i]] == 0) fail_msg("nothing was blocked by %s", session_block_name(met[i]));
    scene_close(&s);
}

/* One job alone is left, its parts are here: it is held by the one thing that the evening lacks,
 * and offered once that is there. */
static void an_evening_lacks_one_thing(void **state)
{
    (void)state;
    static const struct {
        const char *job;
        struct session_ask lacks;
        enum session_block why;
        struct session_ask enough;
    } cases[] = {
        {"tank-clean", {9, 1, 9}, BLOCK_COLD, {9, 1, 10}},
        {"brake-bleed-hold", {9, 1, 20}, BLOCK_HANDS, {9, 2, 20}},
        {"hand-turn", {2.2, 2, 20}, BLOCK_LONG, {2.3, 2, 20}},
    };
    for (size_t c = 0; c < sizeof cases / sizeof *cases; c++) {
        struct scene s;
        linnet(&s);
        const int left = trade_find_job(&s.trade, cases[c].job);
        assert_true(left >= 0);
        for (int i = 0; i < s.trade.n_jobs; i++)
            if (i != left)
                scene_add(&s, "work", arena_print(&s.arena, "job=%s", s.trade.jobs[i].head.id),
                          "finished=yes", "date=2026-01-10", NULL);
        const struct trade_job *job = &s.trade.jobs[left];
        for (int i = 0; i < job->n_when; i++)
            scene_add(&s, "finding",
                      arena_print(&s.arena, "component=%s",
                                  s.trade.components[job->when_components[i]].head.id),
                      "condition=poor", NULL);
        for (int i = 0; i < job->n_parts; i++)
            scene_add(&s, "order",
                      arena_print(&s.arena, "part=%s", s.trade.parts[job->parts[i].part].head.id),
                      "arrived=2026-11-20", NULL);
        struct session x = asked(&s, cases[c].lacks);
        check_offered(&x);
        assert_false(is_offered(&x, cases[c].job));
        assert_non_null(blocked(&x, cases[c].job));
        assert_int_equal(blocked(&x, cases[c].job)->why, cases[c].why);
        x = asked(&s, cases[c].enough);
        check_offered(&x);
        assert_true(is_offered(&x, cases[c].job));
        scene_close(&s);
    }
}

/* All before it is finished, but its gate is shut; an override lets it through, and is shown. */
static void a_shut_gate_holds_its_job_back(void **state)
{
    (void)state;
    struct scene s;
    linnet(&s);
    for (int i = 0; i < s.trade.n_jobs; i++)
        if (strcmp(s.trade.jobs[i].head.id, "first-power") != 0)
            scene_add(&s, "work", arena_print(&s.arena, "job=%s", s.trade.jobs[i].head.id),
                      "finished=yes", "date=2026-01-10", NULL);
    const struct session_ask long_day = {.hours = 9, .hands = 2, .degrees = 20};
    struct session x = asked(&s, long_day);
    check_offered(&x);
    const struct session_blocked *b = blocked(&x, "first-power");
    assert_non_null(b);
    assert_int_equal(b->why, BLOCK_SAFE);
    assert_string_equal(b->gate->gate->head.id, "before-battery");
    scene_add(&s, "gate-override", "gate=before-battery", "reason=bench supply, fused at 5 A",
              "missing=loom-dead-test isolator-works no-fuel-near", "date=2026-11-27", NULL);
    x = asked(&s, long_day);
    let_through = "before-battery";
    check_offered(&x);
    let_through = NULL;
    b = blocked(&x, "first-power");
    assert_true(is_offered(&x, "first-power") || (b && b->why == BLOCK_PART));
    scene_close(&s);
}

static void each_want_is_named(void **state)
{
    (void)state;
    struct scene s;
    linnet(&s);
    const struct session_ask long_day = {.hours = 9, .hands = 1, .degrees = 20};
    struct session x = asked(&s, long_day);
    assert_int_equal(blocked(&x, "make-bay-safe")->why, BLOCK_PART);
    assert_false(blocked(&x, "make-bay-safe")->coming);
    const struct session_blocked *brakes = blocked(&x, "brakes-open");
    assert_true(brakes && (brakes->why == BLOCK_GATE || brakes->why == BLOCK_BEFORE));
    const struct trade_job *bay = &s.trade.jobs[trade_find_job(&s.trade, "make-bay-safe")];
    for (int i = 0; i < bay->n_parts; i++)
        scene_add(&s, "order",
                  arena_print(&s.arena, "part=%s", s.trade.parts[bay->parts[i].part].head.id),
                  "arrived=2026-11-20", "shelf=B3", NULL);
    x = asked(&s, long_day);
    assert_true(is_offered(&x, "make-bay-safe") ||
                blocked(&x, "make-bay-safe")->why == BLOCK_HANDS ||
                blocked(&x, "make-bay-safe")->why == BLOCK_BEFORE);
    scene_close(&s);
}

static void a_missing_tool_blocks_and_an_unknown_one_is_asked(void **state)
{
    (void)state;
    struct scene s;
    linnet(&s);
    struct session x = asked(&s, (struct session_ask){9, 2, 20});
    for (int step = 0; step < 12 && x.n_unknown_tools == 0; step++) {
        for (int i = 0; i < x.n_blocked; i++)
            if (x.blocked[i].why == BLOCK_PART)
                scene_add(&s, "order", arena_print(&s.arena, "part=%s", x.blocked[i].part->head.id),
                          "arrived=2026-11-20", NULL);
        if (x.n_jobs > 0) finish(&s, x.jobs[0].job->head.id);
        x = asked(&s, (struct session_ask){9, 2, 20});
    }
    assert_true(x.n_unknown_tools > 0);
    const int tool = x.unknown_tools[0];
    const struct trade_job *with = NULL;
    for (int i = 0; i < x.n_jobs; i++)
        for (int k = 0; k < x.jobs[i].job->n_tools; k++)
            if (tool_called(&s.trade, x.jobs[i].job->tools[k]) == tool) with = x.jobs[i].job;
    assert_non_null(with);
    scene_add(&s, "tool", arena_print(&s.arena, "tool=%s", s.trade.tools[tool].head.name),
              "have=missing", NULL);
    x = asked(&s, (struct session_ask){9, 2, 20});
    assert_false(is_offered(&x, with->head.id));
    assert_int_equal(blocked(&x, with->head.id)->why, BLOCK_TOOL);
    scene_add(&s, "tool", arena_print(&s.arena, "tool=%s", s.trade.tools[tool].head.name),
              "have=borrowed", "back-by=2026-11-27", NULL); /* gone again since yesterday */
    x = asked(&s, (struct session_ask){9, 2, 20});
    assert_true(is_offered(&x, with->head.id));
    assert_int_equal(tool_on(&x.told, tool, x.as_of), TOOL_NOT_TOLD);
    scene_close(&s);
}

static void six_weeks_and_four_systems_stall(void **state)
{
    (void)state;
    struct scene s;
    linnet(&s);
    scene_add(&s, "work", "job=record-as-found", "hours=2 h", "date=2026-10-18", NULL);
    struct session x = asked(&s, session_as_usual());
    assert_false(x.stall.idle); /* 41 days */
    scene_close(&s);
    linnet(&s);
    scene_add(&s, "work", "job=record-as-found", "hours=2 h", "date=2026-10-17", NULL);
    x = asked(&s, session_as_usual());
    assert_true(x.stall.idle && session_stalls(&x));
    assert_false(x.stall.frayed);
    static const char *const begun[] = {"job=brakes-open", "job=fuel-drain", "job=cooling-flush"};
    for (int i = 0; i < 3; i++)
        scene_add(&s, "work", begun[i], "hours=1 h", "date=2026-11-25", NULL);
    x = asked(&s, session_as_usual());
    assert_false(x.stall.idle);
    assert_int_equal(x.stall.n_open, 3);
    assert_false(x.stall.frayed);
    scene_add(&s, "work", "job=wheel-bearings", "hours=1 h", "date=2026-11-25", NULL);
    x = asked(&s, session_as_usual());
    assert_int_equal(x.stall.n_open, 4);
    assert_true(x.stall.frayed);
    scene_close(&s);
}

static const struct care_due *care(const struct session *x, const char *id)
{
    for (int i = 0; i < x->n_care; i++)
        if (strcmp(x->care[i].care->head.id, id) == 0) return &x->care[i];
    return NULL;
}

static void care_comes_again_and_goes_with_its_reason(void **state)
{
    (void)state;
    struct scene s;
    linnet(&s);
    struct session x = asked(&s, session_as_usual());
    assert_true(care(&x, "care-mice")->due <= x.as_of);
    assert_null(care(&x, "care-bare-metal"));
    scene_add(&s, "care-done", "care=care-mice", "date=2026-11-27", NULL);
    scene_add(&s, "work", "job=strip-metal", "hours=2 h", "date=2026-11-20", NULL);
    x = asked(&s, session_as_usual());
    assert_int_equal(care(&x, "care-mice")->due, day_from_civil(2026, 12, 11));
    assert_int_equal(care(&x, "care-bare-metal")->due, day_from_civil(2026, 11, 27));
    finish(&s, "epoxy-coat");
    x = asked(&s, session_as_usual());
    assert_null(care(&x, "care-bare-metal"));
    scene_close(&s);
}

static void the_last_note_comes_first(void **state)
{
    (void)state;
    struct scene s;
    linnet(&s);
    scene_add(&s, "left-off", "note=one", "date=2026-11-20", NULL);
    scene_add(&s, "left-off", "note=two", "where=tray", "date=2026-11-21", NULL);
    const struct session x = asked(&s, session_as_usual());
    assert_string_equal(x.told.left_off.note, "two");
    assert_string_equal(x.told.left_off.where, "tray");
    scene_close(&s);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(nothing_is_offered_that_lacks_something),
        cmocka_unit_test(an_evening_lacks_one_thing),
        cmocka_unit_test(a_shut_gate_holds_its_job_back),
        cmocka_unit_test(each_want_is_named),
        cmocka_unit_test(a_missing_tool_blocks_and_an_unknown_one_is_asked),
        cmocka_unit_test(six_weeks_and_four_systems_stall),
        cmocka_unit_test(care_comes_again_and_goes_with_its_reason),
        cmocka_unit_test(the_last_note_comes_first),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
