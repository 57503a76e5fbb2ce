/* test_fit.c - what an alternator brings on a vehicle of our own, which numbers decide it, what
 * clashes, and what a slower, cheaper seller does to the plan. Trade data is what the program
 * carries. */
#include "shop/scene.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "shop/fit.h"

#include <stdio.h>
#include <string.h>
#include <sys/stat.h>

static void linnet(struct scene *s, const char *earth)
{
    scene_open(s);
    scene_add(s, "vehicle", "name=Linnet", "year=1959", "build=unitary", "kind=car", "fuel=petrol",
              "gearbox=manual", "driven=rear", "brakes=drum", "voltage=12", earth, NULL);
    scene_add(s, "workshop", "hours-a-week=6", "currency=GBP", NULL);
}

static struct shop_ask ask_of(struct scene *s)
{
    return (struct shop_ask){.garage = s->garage,
                             .trade = &s->trade,
                             .vehicle = s->vehicle,
                             .today = day_from_civil(2026, 11, 25),
                             .direction = -1,
                             .seed = 1,
                             .runs = 100};
}

static struct fit fit_of(struct scene *s, const struct fit_wish *wish)
{
    struct fit x;
    struct fail f = {0};
    const struct shop_ask ask = ask_of(s);
    if (!fit_reckon(&s->arena, &ask, wish, &x, &f)) fail_msg("%s", f.text);
    if (x.fits && !fit_check(&x.problem.model, &x.answer, s->arena, &f)) fail_msg("%s", f.text);
    return x;
}

static struct fit with_alternator(struct scene *s)
{
    struct fit_wish wish = fit_no_wish();
    wish.wanted = trade_find(&s->trade, SUBJECT_OPTIONS, "alternator-for-dynamo");
    return fit_of(s, &wish);
}

static bool has(const struct fit *x, const char *option)
{
    const int i = trade_find(x->trade, SUBJECT_OPTIONS, option);
    assert_true(i >= 0);
    return x->problem.option_of[i] >= 0 && x->answer.chosen[x->problem.option_of[i]];
}

/* The verdict of the live check at a join with that fitting or option as the taker. */
static enum join_verdict verdict_at(const struct fit *x, const char *join, const char *taker)
{
    for (int i = 0; i < x->n_live; i++) {
        const struct fit_pair *p = &x->problem.pairs[x->live[i]];
        const struct entry *e = p->taker.option >= 0 ? &x->trade->options[p->taker.option].head
                                                     : &x->trade->fittings[p->taker.fitting].head;
        if (strcmp(x->trade->joins[p->join].head.id, join) == 0 && strcmp(e->id, taker) == 0)
            return p->result.verdict;
    }
    return JOIN_VERDICTS;
}

static void an_alternator_brings_four_others(void **state)
{
    (void)state;
    struct scene s;
    linnet(&s, "earth=negative");
    const struct fit x = with_alternator(&s);
    assert_int_equal(x.answer.state, FIT_PROVEN);
    static const char *const needs[] = {"alternator-mounting", "alternator-pulley", "charge-cable",
                                        "charge-showing"};
    for (int k = 0; k < 4; k++) {
        int brought = 0;
        for (int i = 0; i < x.n_chain; i++)
            brought +=
                x.chain[i].depth == 1 &&
                strcmp(x.trade->needs[x.problem.need[x.chain[i].need]].head.id, needs[k]) == 0;
        assert_int_equal(brought, 1);
    }
    assert_int_equal(verdict_at(&x, "earth-polarity", "alternator-for-dynamo"), JOIN_FITS);
    assert_false(has(&x, "negative-earth"));
    /* Nobody has measured: nothing is assumed to fit. */
    assert_int_equal(verdict_at(&x, "charge-current", "fitting-ammeter"), JOIN_UNKNOWN);
    scene_close(&s);
}

static void polarity_is_closed_by_turning_it(void **state)
{
    (void)state;
    struct scene s;
    linnet(&s, "earth=positive");
    const struct fit x = with_alternator(&s);
    assert_true(has(&x, "negative-earth"));
    assert_int_equal(verdict_at(&x, "earth-polarity", "alternator-for-dynamo"), JOIN_MISFIT);
    scene_close(&s);
}

static void the_range_of_the_ammeter_decides_what_shows_the_charge(void **state)
{
    (void)state;
    static const struct {
        const char *most;
        bool kept;
        enum join_verdict verdict;
    } rows[] = {
        {"most=30", false, JOIN_VERDICTS}, /* its fitting counts no more */
        {"most=48", true, JOIN_MARGINAL},
        {"most=60", true, JOIN_FITS},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct scene s;
        linnet(&s, "earth=negative");
        scene_add(&s, "measured", "of=fitting-ammeter", "join=charge-current", "end=takes",
                  rows[i].most, NULL);
        const struct fit x = with_alternator(&s);
        assert_int_equal(has(&x, "charge-ammeter-kept"), rows[i].kept);
        assert_int_equal(verdict_at(&x, "charge-current", "fitting-ammeter"), rows[i].verdict);
        scene_close(&s);
    }
}

static void a_shorter_body_wants_spacers_or_another_bracket(void **state)
{
    (void)state;
    struct scene s;
    linnet(&s, "earth=negative");
    scene_add(&s, "measured", "of=alternator-bracket-kept", "join=mount-length", "end=takes",
              "is=155", NULL);
    struct fit x = with_alternator(&s);
    assert_true(has(&x, "mount-spacer-set") || !has(&x, "alternator-bracket-kept"));
    /* Longer than spacers can make it: the old bracket is out. */
    scene_add(&s, "measured", "of=alternator-bracket-kept", "join=mount-length", "end=takes",
              "is=170", NULL);
    x = with_alternator(&s);
    assert_false(has(&x, "alternator-bracket-kept"));
    scene_close(&s);
}

static void too_small_a_purse_is_named(void **state)
{
    (void)state;
    struct scene s;
    linnet(&s, "earth=negative");
    struct fit_wish wish = fit_no_wish();
    wish.budget = 1000;
    strcpy(wish.currency, "GBP");
    struct fit x = fit_of(&s, &wish);
    assert_false(x.fits);
    assert_int_equal(x.answer.state, FIT_NOTHING);
    bool limit = false;
    for (int i = 0; i < x.clash.n; i++) limit |= x.clash.members[i].kind == FIT_LIMIT;
    assert_true(limit);
    scene_close(&s);
}

/* A wish that cannot be undone, and the wish that all can be: those two, and nothing else. */
static void a_clash_is_no_larger_than_it_must_be(void **state)
{
    (void)state;
    struct scene s;
    linnet(&s, "earth=negative");
    scene_add(&s, "finding", "component=brake-drum", "condition=poor", NULL);
    struct fit_wish wish = fit_no_wish();
    wish.wanted = trade_find(&s.trade, SUBJECT_OPTIONS, "drums-turned");
    wish.reversible = true;
    const struct fit x = fit_of(&s, &wish);
    assert_int_equal(x.answer.state, FIT_NOTHING);
    assert_int_equal(x.clash.n, 2);
    for (int i = 0; i < 2; i++)
        assert_true(x.clash.members[i].kind == FIT_HELD ||
                    x.clash.members[i].kind == FIT_IRREVERSIBLE);
    assert_true(x.clash.members[0].kind != x.clash.members[1].kind && x.clash.helps_most >= 0);
    scene_close(&s);
}

static void what_is_wanted_costs_no_less_and_flips_at_its_price(void **state)
{
    (void)state;
    struct scene s;
    linnet(&s, "earth=negative");
    scene_add(&s, "finding", "component=generator", "condition=failed", NULL);
    struct fit_wish wish = fit_no_wish();
    const struct fit best = fit_of(&s, &wish);
    const struct fit forced = with_alternator(&s);
    assert_true(forced.answer.cost.total >= best.answer.cost.total);
    assert_true(best.n_next == 0 || best.next[0].cost.total >= best.answer.cost.total);
    wish.prefer = trade_find(&s.trade, SUBJECT_OPTIONS, "alternator-for-dynamo");
    const struct fit asked = fit_of(&s, &wish);
    assert_int_equal(asked.n_preferences, 1);
    const struct fit_preference *p = &asked.preferences[0];
    assert_true(p->flip.flips);
    /* It must become cheaper by what the set with it costs more. */
    assert_int_equal(asked.problem.model.options[p->option].money - p->flip.money,
                     forced.answer.cost.total - best.answer.cost.total);
    scene_close(&s);
}

/* Adopted choices are facts that the plan reads. */
static void an_adopted_upgrade_is_in_the_plan(void **state)
{
    (void)state;
    struct scene s;
    struct fail f = {0};
    linnet(&s, "earth=negative");
    scene_add(&s, "choice", "need=charging", "option=alternator-for-dynamo", NULL);
    scene_add(&s, "choice", "need=charge-showing", "option=charge-voltmeter", NULL);
    struct facts facts;
    struct model m;
    assert_true(facts_read(s.garage, &s.arena, &s.trade, s.vehicle, &facts, &f));
    const struct model_ask ask = {.today = day_from_civil(2026, 11, 25),
                                  .direction = trade_find_direction(&s.trade, "drive")};
    if (!model_make(&s.arena, &s.trade, &facts, &ask, &m, &f)) fail_msg("%s", f.text);
    int found = 0;
    for (int j = 0; j < m.project.n_jobs; j++) {
        if (strcmp(m.project.jobs[j].id, "generator-overhaul") != 0) continue;
        assert_int_equal(m.project.jobs[j].needs.count, 0); /* whatever the dynamo is like */
        for (int i = 0; i < m.project.jobs[j].buys.count; i++) {
            const char *part =
                m.project.parts[m.project.buys[m.project.jobs[j].buys.first + i].part].id;
            found += strcmp(part, "alternator-45") == 0 || strcmp(part, "voltmeter") == 0;
            assert_string_not_equal(part, "generator-brush-kit");
        }
    }
    assert_int_equal(found, 2);
    scene_close(&s);
}

static struct quantiles quantiles_with(struct scene *s, struct quantiles *cost)
{
    struct facts facts;
    struct reckoned r;
    struct fail f = {0};
    const struct shop_ask ask = ask_of(s);
    if (!facts_read(s->garage, &s->arena, &s->trade, s->vehicle, &facts, &f) ||
        !reckoning_run(&s->arena, &ask, &facts, NULL, reckoning_direction(&facts, &s->trade), NULL,
                       true, &r, &f))
        fail_msg("%s", f.text);
    *cost = quantiles_of(r.forecast.cost, (size_t)r.forecast.runs, s->arena);
    return quantiles_of(reckoning_finishes(&s->arena, &r.forecast), (size_t)r.forecast.runs,
                        s->arena);
}

static void a_slower_cheaper_seller_moves_date_and_money(void **state)
{
    (void)state;
    struct scene s;
    struct quantiles cost, cheap;
    linnet(&s, "earth=negative");
    scene_add(&s, "supplier", "name=Northgate", NULL);
    scene_add(&s, "quote", "supplier=Northgate", "part=wheel-cylinder-kit", "price=1 GBP",
              "lead=700/720/740", NULL);
    const struct quantiles before = quantiles_with(&s, &cost);
    scene_add(&s, "seller", "supplier=Northgate", "part=wheel-cylinder-kit", NULL);
    const struct quantiles after = quantiles_with(&s, &cheap);
    assert_true(after.p50 > before.p50);
    assert_true(cheap.p50 < cost.p50);
    scene_close(&s);
}

/* ---- an option of the builder's own ---- */

/* The lines of the example in docs/trade-data.md, without their margin. */
static const char *documented_option(struct arena *a)
{
    char line[400];
    struct text t = {.arena = a};
    bool begun = false;
    FILE *doc = fopen("docs/trade-data.md", "r");
    assert_non_null(doc);
    while (fgets(line, sizeof line, doc)) {
        if (strncmp(line, "One small file is enough", 24) == 0)
            begun = true;
        else if (begun && line[0] == '#')
            break;
        else if (begun && strncmp(line, "    ", 4) == 0)
            text_add(&t, line + 4);
    }
    fclose(doc);
    return text_get(&t);
}

/* As it stands in the document, in the garage's folder trade/. */
static void one_small_file_adds_an_option(void **state)
{
    (void)state;
    struct scene s;
    struct trade_faults faults = {0};
    struct fail f = {0};
    linnet(&s, "earth=negative");
    const char *dir = arena_print(&s.arena, "%s/trade", s.dir);
    mkdir(dir, 0700);
    FILE *own = fopen(arena_print(&s.arena, "%s/mine.yaml", dir), "w");
    assert_true(own && fputs(documented_option(&s.arena), own) > 0);
    assert_int_equal(fclose(own), 0);
    struct trade carried = s.trade;
    if (!trade_load(&s.arena, dir, &s.trade, &faults, &f)) fail_msg("%s", f.text);
    assert_int_equal(s.trade.n_options, carried.n_options + 1);
    const int mine = trade_find(&s.trade, SUBJECT_OPTIONS, "my-voltmeter");
    assert_true(mine >= 0 && s.trade.options[mine].head.own);
    struct fit_wish wish = fit_no_wish();
    wish.wanted = trade_find(&s.trade, SUBJECT_OPTIONS, "alternator-for-dynamo");
    /* It meets what an alternator brings as the carried voltmeter does, for the same parts. */
    scene_add(&s, "choice", "need=charge-showing", "option=my-voltmeter", NULL);
    const struct fit x = fit_of(&s, &wish);
    assert_true(x.fits && has(&x, "my-voltmeter") && !has(&x, "charge-voltmeter"));
    scene_close(&s);
}

/* ---- what was ordered, and what is away ---- */

static struct model model_of(struct scene *s, struct facts *facts)
{
    struct model m = {0};
    struct fail f = {0};
    const struct model_ask ask = {.today = day_from_civil(2026, 11, 25),
                                  .direction = trade_find_direction(&s->trade, "drive")};
    if (!facts_read(s->garage, &s->arena, &s->trade, s->vehicle, facts, &f) ||
        !model_make(&s->arena, &s->trade, facts, &ask, &m, &f))
        fail_msg("%s", f.text);
    return m;
}

static int job_of(const struct model *m, const char *id)
{
    for (int j = 0; j < m->project.n_jobs; j++)
        if (strcmp(m->project.jobs[j].id, id) == 0) return j;
    fail_msg("no job %s", id);
    return -1;
}

struct wanted {
    double to_order, coming, days; /* days: until what is coming comes */
    double price;                  /* of that */
};

static struct wanted wanted_in(const struct model *m, const char *job, const char *part)
{
    const struct project *p = &m->project;
    const struct range buys = p->jobs[job_of(m, job)].buys;
    struct wanted w = {0};
    for (int i = 0; i < buys.count; i++) {
        const struct project_buy *b = &p->buys[buys.first + i];
        if (strcmp(p->parts[b->part].id, part) != 0) continue;
        *(m->part_ordered[b->part] ? &w.coming : &w.to_order) += b->count;
        if (!m->part_ordered[b->part]) continue;
        w.days = p->parts[b->part].lead.middle / MINUTES_A_DAY;
        w.price = p->parts[b->part].price.middle;
    }
    return w;
}

/* Four wheel cylinder kits are wanted; each row adds an order. */
static void so_many_as_were_ordered_count(void **state)
{
    (void)state;
    static const struct {
        const char *words[3];
        struct wanted wanted;
    } rows[] = {
        {{NULL}, {4, 0, 0, 0}},
        {{"count=1", "arrived=2026-11-20"}, {3, 0, 0, 0}},
        {{"count=1", "arrived=2026-11-20", "returned=2026-11-22"}, {3, 0, 0, 0}},
        {{"count=2", "due=2026-12-05"}, {1, 2, 10, 0}},
        {{"due=2026-12-15"}, {0, 3, 20, 0}}, /* how many was not told: what is still wanted */
        {{"arrived=2026-11-24"}, {0, 0, 0, 0}},
    };
    struct scene s;
    linnet(&s, "earth=negative");
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct facts facts;
        const char *const *w = rows[i].words;
        if (i > 0) scene_add(&s, "order", "part=wheel-cylinder-kit", w[0], w[1], w[2], NULL);
        const struct model m = model_of(&s, &facts);
        const struct wanted got = wanted_in(&m, "brake-cylinders", "wheel-cylinder-kit");
        if (got.to_order != rows[i].wanted.to_order || got.coming != rows[i].wanted.coming ||
            got.days != rows[i].wanted.days || got.price != 0)
            fail_msg("row %zu: %g to order, %g coming in %g days", i, got.to_order, got.coming,
                     got.days);
    }
    scene_close(&s);
}

static void change_sent(struct scene *s, const char *field, const char *value)
{
    struct record *r;
    struct fail f = {0};
    int n;
    if (!garage_list(s->garage, &s->arena, record_kind_find("sent"), s->vehicle, &r, &n, &f) ||
        n != 1 || !record_set(&s->arena, r, field, value, NULL, &f) || !record_valid(r, &f) ||
        !garage_begin(s->garage, &f) || !garage_change(s->garage, r, &f) ||
        !garage_commit(s->garage, &f))
        fail_msg("%s", f.text);
}

/* A rebuild of the distributor has a wait of its own: it ends on the promised day. A radiator is a
 * job without: its specialist's work comes with it. */
static void pieces_that_are_away_come_as_promised(void **state)
{
    (void)state;
    static const struct {
        const char *promised, *returned;
        int distributor, radiator, notes; /* days from today; -1: not away any more */
    } rows[] = {
        {"2027-03-01", NULL, 96, 96, 0},
        {"2026-11-22", NULL, 7, 7, 1},   /* late by three days: a week at least */
        {"2026-10-26", NULL, 30, 30, 1}, /* by thirty: as long again */
        {"2026-10-26", "2026-11-20", -1, -1, 0},
    };
    static const char *const jobs[] = {"distributor-rebush", "radiator-recore"};
    for (int k = 0; k < 2; k++) {
        struct scene s;
        linnet(&s, "earth=negative");
        scene_add(&s, "supplier", "name=Hale", NULL);
        scene_add(&s, "sent", "supplier=Hale", "what=it", "sent=2026-10-20", "deposit=10",
                  arena_print(&s.arena, "job=%s", jobs[k]), NULL);
        for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
            struct facts facts;
            change_sent(&s, "promised", rows[i].promised);
            if (rows[i].returned) change_sent(&s, "returned", rows[i].returned);
            const struct model m = model_of(&s, &facts);
            const struct project_job *j = &m.project.jobs[job_of(&m, jobs[k])];
            const int days = k == 0 ? rows[i].distributor : rows[i].radiator;
            int notes = 0;
            for (int n = 0; n < m.n_notes; n++) notes += strstr(m.notes[n], "Late and away") != 0;
            assert_int_equal(notes, rows[i].notes);
            assert_int_equal(j->needs.count, 0); /* surely done */
            assert_true(j->away == (days >= 0) && j->wait.middle == 0);
            if (days >= 0) assert_int_equal(j->away_from, days * MINUTES_A_DAY);
            if (k == 0) {
                const struct wanted w = wanted_in(&m, jobs[k], "distributor-rebuild");
                const double usual =
                    100 *
                    s.trade.parts[trade_find_part(&s.trade, "distributor-rebuild")].price.middle;
                assert_true(w.to_order == 0 && w.coming == (days >= 0) && w.days == 0);
                assert_true(days < 0 || (w.price > 0 && w.price == usual - 1000));
                continue;
            }
            const struct wanted w = wanted_in(&m, jobs[k], "radiator-recore");
            assert_true(w.to_order == 0 && w.coming == (days >= 0 ? 0.6 : 0) &&
                        w.days == (days >= 0 ? days : 0));
        }
        scene_close(&s);
    }
}

static void the_finish_follows_the_promised_day(void **state)
{
    (void)state;
    struct scene s;
    struct quantiles cost;
    linnet(&s, "earth=negative");
    scene_add(&s, "supplier", "name=Hale", NULL);
    scene_add(&s, "sent", "supplier=Hale", "what=distributor", "sent=2026-11-20",
              "job=distributor-rebush", "promised=2026-12-20", NULL);
    const struct quantiles soon = quantiles_with(&s, &cost);
    change_sent(&s, "promised", "2029-12-20");
    const struct quantiles far = quantiles_with(&s, &cost);
    change_sent(&s, "returned", "2026-11-24");
    const struct quantiles back = quantiles_with(&s, &cost);
    const double promised =
        (day_from_civil(2029, 12, 20) - day_from_civil(2026, 11, 25)) * (double)MINUTES_A_DAY;
    assert_true(soon.p50 < promised && far.p10 > promised);
    assert_true(back.p50 <= soon.p50);
    scene_close(&s);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(an_alternator_brings_four_others),
        cmocka_unit_test(polarity_is_closed_by_turning_it),
        cmocka_unit_test(the_range_of_the_ammeter_decides_what_shows_the_charge),
        cmocka_unit_test(a_shorter_body_wants_spacers_or_another_bracket),
        cmocka_unit_test(too_small_a_purse_is_named),
        cmocka_unit_test(a_clash_is_no_larger_than_it_must_be),
        cmocka_unit_test(what_is_wanted_costs_no_less_and_flips_at_its_price),
        cmocka_unit_test(an_adopted_upgrade_is_in_the_plan),
        cmocka_unit_test(a_slower_cheaper_seller_moves_date_and_money),
        cmocka_unit_test(one_small_file_adds_an_option),
        cmocka_unit_test(so_many_as_were_ordered_count),
        cmocka_unit_test(pieces_that_are_away_come_as_promised),
        cmocka_unit_test(the_finish_follows_the_promised_day),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
