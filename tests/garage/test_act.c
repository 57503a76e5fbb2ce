/* Acts: what was added is listed, what is stale is refused, what was taken back is as before, and
 * all of it is in a journal that verifies. */
#include "world.h"

#include "garage/file.h"

#include <fcntl.h>
#include <sys/stat.h>
#include <time.h>

static struct record *pickup(struct world *w)
{
    return world_add(w, world_record(w, "vehicle", "name=Old pickup", "kind=pickup", "year=1952",
                                     "clock=48210 miles", "turns=yes", "standing=25", NULL));
}

static void verify(struct world *w)
{
    const char *report;
    int faults = world_faults(w, &report);
    if (faults) fail_msg("%s", report);
}

static struct record *only(struct world *w, const char *kind)
{
    struct record *list;
    int n;
    assert_true(
        garage_list(w->garage, &w->arena, record_kind_find(kind), NULL, &list, &n, &w->fail));
    assert_int_equal(n, 1);
    return list;
}

static void same_record(const struct record *a, const struct record *b)
{
    assert_string_equal(a->id, b->id);
    assert_int_equal(a->revision, b->revision);
    assert_string_equal(a->at, b->at);
    for (int i = 0; i < a->kind->n_fields; i++) {
        const struct value *x = &a->values[i], *y = &b->values[i];
        assert_int_equal(x->set, y->set);
        if (!x->set) continue;
        assert_string_equal(x->text, y->text);
        if (x->number != y->number || x->integer != y->integer || x->day != y->day ||
            x->money.minor != y->money.minor ||
            memcmp(&x->points, &y->points, sizeof x->points) != 0)
            fail_msg("%s.%s: '%s' differs", a->kind->name, a->kind->fields[i].name, x->text);
        assert_string_equal(x->money.currency, y->money.currency);
    }
}

static const char *stored_file(struct world *w)
{
    struct file_new *n;
    assert_true(file_begin(&w->arena, w->dir, &n, &w->fail) && file_write(n, "abc", 3, &w->fail) &&
                file_seal(n, &w->fail) && file_keep(n, &w->fail));
    file_close(n);
    return arena_print(&w->arena, "file=%s", file_digest(n));
}

static void every_kind_is_stored_and_read_back(void **state)
{
    struct world *w = *state;
    struct record *v = pickup(w);
    struct record *all[] = {
        world_record(w, "workshop", "hours-a-week=8", "hands=1", "sessions-kept=70 %", "heated=no",
                     "bays=1", "own-rate=0", "price-level=1.1", "currency=GBP", "units=imperial",
                     "start=2026-11-25", NULL),
        world_record(w, "slot", "weekday=tue", "from=19:00", "to=21:30", "hands=1", NULL),
        world_record(w, "helper-day", "date=2026-12-05", "from=09:00", "to=17:00", "hands=1",
                     "who=a friend", NULL),
        world_record(w, "away", "from=2026-12-20", "to=2027-01-03", "why=holidays", NULL),
        world_record(w, "purse", "a-month=250", "ceiling=6000", "reserve=500", "in-hand=800", NULL),
        world_record(w, "rate", "currency=EUR", "per=GBP", "rate=0.853", "date=2026-11-25", NULL),
        world_record(w, "finding", "vehicle=old-pickup", "component=brake-drum@front-left",
                     "condition=not fitted", "how=seen", "date=2026-11-25",
                     "note=\"quoted\" \\ and\ttab", NULL),
        world_record(w, "worth", "vehicle=Old pickup", "of=now", "worth=800/1200/2000",
                     "why=a guess", NULL),
        world_record(w, "decision", "vehicle=Old pickup", "direction=drive", "packages=mechanical",
                     "figures={\"cost\":1}", NULL),
        world_record(w, "adopted-plan", "vehicle=Old pickup", "direction=drive", "as-of=2026-11-25",
                     "order=brakes-open brake-cylinders", NULL),
        world_record(w, "order", "vehicle=Old pickup", "part=wheel-cylinder-kit", "count=4",
                     "price=48", "ordered=2026-11-26", "supplier=by post", NULL),
        world_record(w, "work", "vehicle=Old pickup", "job=brakes-open", "hours=2 h 30 min",
                     "finished=yes", "from=19:00", "to=21:30", "setback=brake-cylinder-seized",
                     NULL),
        world_record(w, "setback", "vehicle=Old pickup", "setback=snapped-stud",
                     "job=manifold-joint", "component=manifold-stud", "is=flush", "in=iron",
                     "hole=blind", "drill=yes", "thread=M8x1.25", "tried=heat,weld!", "state=open",
                     "date=2026-11-25", "note=third from the front", NULL),
        world_record(w, "timer", "vehicle=Old pickup", "job=brakes-open", "date=2026-11-25",
                     "from=19:00", NULL),
        world_record(w, "measurement", "vehicle=Old pickup", "what=compression", "where=cylinder 3",
                     "value=72", "unit=%", "tool=gauge", "low=75", "high=100",
                     "source=manual, page 41", "job=engine-first-tests", "date=2026-11-25",
                     "retest=2026-12-25", "by=a friend", "note=oil in it", NULL),
        world_record(w, "gate-opened", "vehicle=Old pickup", "gate=before-fuel", "date=2026-11-25",
                     "retest=2026-12-25", "proved=tank-tight", "note=cold", NULL),
        world_record(w, "gate-override", "vehicle=Old pickup", "gate=before-fuel",
                     "reason=to empty the pit", "date=2026-11-25", "missing=tank-tight", NULL),
        world_record(w, "session-check", "vehicle=Old pickup", "check=going-under",
                     "date=2026-11-25", "by=a friend", "note=she knows", NULL),
        world_record(w, "witnessed", "vehicle=Old pickup", "what=brakes-witnessed", "holds=yes",
                     "by=Hale", "worker=me", "fit=brake inspector", "date=2026-11-25", "note=dry",
                     NULL),
        world_record(w, "photograph", "vehicle=Old pickup", "component=radiator", "place=front",
                     "note=weeps", "taken=2026-11-25", stored_file(w), "type=jpeg", "width=4032",
                     "height=3024", NULL),
        world_record(w, "advert", "vehicle=Old pickup", "asked=900 GBP", "distance=140 miles",
                     "seller=heir", "odds=70 %", "remains=100/250/400 GBP", NULL),
        world_record(w, "sign", "vehicle=Old pickup", "sign=flood-line", "met=no", NULL),
        world_record(w, "comparable", "vehicle=Old pickup", "price=4000 GBP", "how=sold",
                     "date=2026-06-01", "grade=3", NULL),
        world_record(w, "grade", "vehicle=Old pickup", "of=drive", "grade=3", NULL),
        world_record(w, "weights", "vehicle=Old pickup", "month=50 GBP", NULL),
        world_record(w, "tripwire", "vehicle=Old pickup", "spent=3000 GBP", NULL),
        world_record(w, "instead", "vehicle=Old pickup", "what=a worse one",
                     "price=500/800/1200 GBP", "bill=900/1500/2500 GBP", "worth=4000/6000/8000 GBP",
                     "hours=300", "months=12", NULL),
        world_record(w, "mark", "vehicle=Old pickup", "what=vehicle", "where=plate", "text=AB 12",
                     "again=AB 12", "by=me", "how=seen", NULL),
        world_record(w, "originality", "vehicle=Old pickup", "component=gearbox", "class=period",
                     "evidence=its tag", "how=inferred", NULL),
        world_record(w, "circuit", "vehicle=Old pickup", "name=headlamps", "power=90 W",
                     "length=3 m", "wire=2.5 mm2", NULL),
        world_record(w, "clue-reading", "vehicle=Old pickup", "clue=bore-ridge", "outcome=deep",
                     "value=0.2 mm", "how=seen", NULL),
        world_record(w, "clock", "vehicle=Old pickup", "reading=34567", "digits=5", "unit=miles",
                     "working=no", NULL),
        world_record(w, "dated-mileage", "vehicle=Old pickup", "written=1964-05-04",
                     "reading=21300", "paper=garage bill", NULL),
        world_record(w, "supplier", "name=Northgate", "carriage=7.50", "carriage-free=80",
                     "minimum=15", "promised-days=2", "note=closed on Mondays", NULL),
        world_record(w, "quote", "supplier=northgate", "part=wheel-cylinder-kit", "price=11.40 EUR",
                     "from-count=4", "lead=2/4/10", "core=5 EUR", "return-days=14",
                     "date=2026-11-25", "note=their no. 17", NULL),
        world_record(w, "choice", "vehicle=Old pickup", "need=charging",
                     "option=generator-refurbish", "why=it is the first one", NULL),
        world_record(w, "measured", "vehicle=Old pickup", "of=fitting-ammeter",
                     "join=charge-current", "end=takes", "most=30", "how=its scale", NULL),
        world_record(w, "sent", "vehicle=Old pickup", "supplier=Northgate", "what=head", "count=1",
                     "job=head-overhaul", "sent=2026-11-25", "promised=2026-12-20",
                     "chase=2026-12-10", "deposit=40", "tolerances=no more than 0.1 mm off",
                     "returned=2026-12-22", "count-returned=1", "measured=0.04 mm", NULL),
        world_record(w, "seller", "vehicle=Old pickup", "supplier=Northgate", "part=voltmeter",
                     "date=2026-11-25", NULL),
        world_record(w, "tool", "tool=axle stands", "have=borrowed", "back-by=2026-12-20",
                     "where=by the door", "note=a neighbour's", NULL),
        world_record(w, "left-off", "vehicle=Old pickup", "note=left cylinder still in",
                     "where=screws in the blue tray", "date=2026-11-25", NULL),
        world_record(w, "tool-offer", "tool=bore gauge", "way=hire", "price=5 GBP", "a-day=3 GBP",
                     "until=2026-12-31", "whose=the club", "note=ask on Fridays", NULL),
        world_record(w, "person", "name=Ann", "knows=carburettors", "lends=engine crane",
                     "reach=the yard by the mill", "note=not on Sundays", NULL),
        world_record(w, "promise", "who=Ann", "what=bring the crane", "by-day=2026-12-05",
                     "kept=2026-12-06", "note=with the trailer", NULL),
        world_record(w, "bag", "vehicle=Old pickup", "code=B7", "what=front left drum",
                     "component=brake-drum@front-left", "job=brakes-open", "shelf=A2",
                     "date=2026-11-25", "emptied=2026-12-25", "note=outer race stays", NULL),
        world_record(w, "bag-item", "vehicle=Old pickup", "bag=b7", "name=hub nut", "count=1",
                     "thread=M20x1.5", "length=12 mm", "grade=8", "torque=120 lbf ft",
                     "source=page 42", "renew=yes", "back=1", "note=left-hand thread", NULL),
        world_record(w, "care-done", "vehicle=Old pickup", "care=mice", "date=2026-11-25",
                     "note=none", NULL),
    };
    same_record(v, only(w, "vehicle"));
    for (size_t i = 0; i < sizeof all / sizeof *all; i++) {
        world_add(w, all[i]);
        assert_int_equal(all[i]->revision, 1);
        assert_int_equal(strlen(all[i]->id), 32);
        same_record(all[i], only(w, all[i]->kind->name));
        if (!all[i]->kind->of_garage) assert_string_equal(all[i]->values[0].text, v->id);
    }
    /* The table above holds one of every kind that kinds.c declares. */
    for (const struct record_kind *const *k = record_kinds; *k; k++) only(w, (*k)->name);
    verify(w);
    /* And the same after closing, and after rebuilding. */
    garage_close(w->garage);
    world_garage(w);
    for (int rebuilt = 0; rebuilt < 2; rebuilt++) {
        int entries;
        for (size_t i = 0; i < sizeof all / sizeof *all; i++)
            same_record(all[i], only(w, all[i]->kind->name));
        assert_true(garage_rebuild(w->garage, &entries, &w->fail));
        assert_int_equal(entries, 1 + (int)(sizeof all / sizeof *all));
        verify(w);
    }
}

static void a_change_needs_the_latest_revision(void **state)
{
    struct world *w = *state;
    struct record *v = pickup(w), *stale = only(w, "vehicle");
    assert_true(record_set(&w->arena, v, "year", "1953", NULL, &w->fail));
    assert_true(garage_begin(w->garage, &w->fail) && garage_change(w->garage, v, &w->fail) &&
                garage_commit(w->garage, &w->fail));
    assert_int_equal(v->revision, 2);
    same_record(v, only(w, "vehicle"));

    struct fail f = {0};
    assert_true(garage_begin(w->garage, &w->fail));
    assert_false(garage_change(w->garage, stale, &f));
    assert_int_equal(f.kind, FAIL_INPUT);
    assert_non_null(strstr(f.text, "changed meanwhile"));
    struct fail g = {0};
    assert_false(garage_commit(w->garage, &g)); /* a failed step makes the act impossible */
    same_record(v, only(w, "vehicle"));
    verify(w);
}

static void a_refused_step_undoes_the_act(void **state)
{
    struct world *w = *state;
    struct record *v = pickup(w);
    struct {
        struct record *r;
        const char *says;
    } refused[] = {
        {world_record(w, "finding", "vehicle=Other", "component=x", "condition=worn", NULL),
         "no vehicle 'Other'"},
        {world_record(w, "finding", "component=x", "condition=worn", NULL),
         "finding.vehicle: missing"},
        {world_record(w, "finding", "vehicle=Old pickup", "component=x", NULL),
         "finding.condition: missing"},
    };
    for (size_t i = 0; i < sizeof refused / sizeof *refused; i++) {
        struct fail f = {0}, g = {0};
        assert_true(garage_begin(w->garage, &f));
        assert_true(garage_add(
            w->garage,
            world_record(w, "finding", "vehicle=Old pickup", "component=y", "condition=worn", NULL),
            &f));
        assert_int_equal(world_count(w, "finding", v->id), 1); /* reads see the act's writes */
        assert_false(garage_add(w->garage, refused[i].r, &f));
        if (!strstr(f.text, refused[i].says))
            fail_msg("'%s' does not say '%s'", f.text, refused[i].says);
        assert_false(garage_commit(w->garage, &g));
        garage_rollback(w->garage);
        assert_int_equal(world_count(w, "finding", NULL), 0);
    }
    verify(w);
}

static void removing_needs_an_empty_vehicle(void **state)
{
    struct world *w = *state;
    struct record *v = pickup(w);
    struct record *d = world_add(
        w, world_record(w, "finding", "vehicle=Old pickup", "component=y", "condition=worn", NULL));
    struct fail f = {0};
    assert_true(garage_begin(w->garage, &f));
    assert_false(garage_remove(w->garage, v->kind, v->id, &f));
    assert_int_equal(f.kind, FAIL_INPUT);
    assert_non_null(strstr(f.text, "other records belong to it"));
    garage_rollback(w->garage);
    assert_true(
        garage_begin(w->garage, &w->fail) && garage_remove(w->garage, d->kind, d->id, &w->fail) &&
        garage_remove(w->garage, v->kind, v->id, &w->fail) && garage_commit(w->garage, &w->fail));
    assert_int_equal(world_count(w, "vehicle", NULL), 0);
    f = (struct fail){0};
    assert_true(garage_begin(w->garage, &w->fail));
    assert_false(garage_remove(w->garage, v->kind, v->id, &f));
    assert_non_null(strstr(f.text, "is not there"));
    garage_rollback(w->garage);
    /* Both come back together, and go again. */
    const char *what;
    for (int i = 0; i < 3; i++) {
        if (!garage_undo(w->garage, &w->arena, v->id, &what, &w->fail))
            fail_msg("%s", w->fail.text);
        assert_int_equal(world_count(w, "vehicle", NULL), i % 2 == 0);
        assert_int_equal(world_count(w, "finding", NULL), i % 2 == 0);
    }
    verify(w);
    int entries;
    assert_true(garage_rebuild(w->garage, &entries, &w->fail));
    verify(w);
}

static void undo_takes_back_the_last_act_and_redoes_it(void **state)
{
    struct world *w = *state;
    struct record *v = pickup(w);
    const char *what;
    struct fail f = {0};
    assert_false(garage_undo(w->garage, &w->arena, NULL, &what, &f));
    assert_non_null(strstr(f.text, "nothing to undo"));
    struct record *slot =
        world_add(w, world_record(w, "slot", "weekday=mon", "from=19:00", "to=21:00", NULL));

    /* One act that writes three records on two chains: only the vehicle's two are taken back. */
    struct record *purse = world_record(w, "purse", "a-month=100", NULL);
    struct record *a =
        world_record(w, "finding", "vehicle=Old pickup", "component=a", "condition=worn", NULL);
    assert_true(record_set(&w->arena, v, "year", "1960", NULL, &w->fail));
    assert_true(garage_begin(w->garage, &w->fail) && garage_add(w->garage, a, &w->fail) &&
                garage_add(w->garage, purse, &w->fail) && garage_change(w->garage, v, &w->fail) &&
                garage_commit(w->garage, &w->fail));
    assert_true(garage_undo(w->garage, &w->arena, v->id, &what, &w->fail));
    assert_string_equal(what, "change vehicle Old pickup; add finding a");
    assert_int_equal(record_integer(only(w, "vehicle"), "year", 0), 1952);
    assert_int_equal(only(w, "vehicle")->revision, 3);
    assert_int_equal(world_count(w, "finding", NULL), 0);
    assert_int_equal(world_count(w, "purse", NULL), 1);
    assert_string_equal(only(w, "slot")->id, slot->id);

    assert_true(garage_undo(w->garage, &w->arena, v->id, &what, &w->fail));
    assert_int_equal(record_integer(only(w, "vehicle"), "year", 0), 1960);
    assert_string_equal(only(w, "finding")->id, a->id);

    assert_true(garage_undo(w->garage, &w->arena, NULL, &what, &w->fail));
    assert_string_equal(what, "add purse");
    assert_int_equal(world_count(w, "purse", NULL), 0);
    verify(w);
}

static void order_outlives_removal_and_undo(void **state)
{
    struct world *w = *state;
    struct record *v = pickup(w), *list;
    struct record *first = NULL;
    const char *what;
    int n;
    for (int i = 0; i < 3; i++) {
        char component[32];
        snprintf(component, sizeof component, "component=c%d", i);
        struct record *r = world_add(
            w, world_record(w, "finding", "vehicle=Old pickup", component, "condition=worn", NULL));
        if (!i) first = r;
    }
    assert_true(garage_begin(w->garage, &w->fail) &&
                garage_remove(w->garage, first->kind, first->id, &w->fail) &&
                garage_commit(w->garage, &w->fail));
    assert_true(garage_undo(w->garage, &w->arena, v->id, &what, &w->fail));
    for (int rebuilt = 0; rebuilt < 2; rebuilt++) {
        assert_true(garage_list(w->garage, &w->arena, first->kind, v->id, &list, &n, &w->fail));
        assert_int_equal(n, 3);
        for (int i = 0; i < 3; i++)
            assert_int_equal(record_text(&list[i], "component", "")[1], '0' + i);
        assert_true(garage_rebuild(w->garage, &n, &w->fail));
    }
    verify(w);
}

static void a_word_finds_one_record_or_says_why_not(void **state)
{
    struct world *w = *state;
    struct record *v = pickup(w), *found;
    const struct record_kind *k = v->kind;
    world_add(w, world_record(w, "vehicle", "name=Saloon", NULL));
    char beginning[7];
    memcpy(beginning, v->id, 6);
    beginning[6] = '\0';
    const char *const words[] = {"Old pickup", "old_PICKUP", v->id, beginning};
    for (int i = 0; i < 4; i++) {
        assert_true(garage_find(w->garage, &w->arena, k, words[i], &found, &w->fail));
        assert_string_equal(found->id, v->id);
    }
    beginning[3] = '\0'; /* too short */
    struct {
        const char *word, *says;
    } bad[] = {{"Salon", "did you mean 'Saloon'?"},
               {"tractor", "there are 'Old pickup', 'Saloon'"},
               {beginning, "no vehicle"}};
    for (int i = 0; i < 3; i++) {
        struct fail f = {0};
        assert_false(garage_find(w->garage, &w->arena, k, bad[i].word, &found, &f));
        if (!strstr(f.text, bad[i].says)) fail_msg("'%s' does not say '%s'", f.text, bad[i].says);
    }
    world_add(w, world_record(w, "vehicle", "name=saloon", NULL));
    struct fail f = {0};
    assert_false(garage_find(w->garage, &w->arena, k, "Saloon", &found, &f));
    assert_non_null(strstr(f.text, "2 of them"));
}

static void the_basis_follows_the_facts(void **state)
{
    struct world *w = *state;
    char before[65], after[65], again[65];
    struct record *v = pickup(w);
    assert_true(garage_basis(w->garage, before, &w->fail));
    assert_true(garage_begin(w->garage, &w->fail) &&
                garage_add(w->garage,
                           world_record(w, "slot", "weekday=mon", "from=19:00", "to=21:00", NULL),
                           &w->fail));
    garage_rollback(w->garage);
    assert_true(garage_basis(w->garage, again, &w->fail));
    assert_string_equal(before, again);
    world_add(
        w, world_record(w, "finding", "vehicle=Old pickup", "component=a", "condition=worn", NULL));
    assert_true(garage_basis(w->garage, after, &w->fail));
    assert_string_not_equal(before, after);
    (void)v;
    assert_string_equal(garage_time_zone(w->garage), "Europe/London");
}

/* The same clock, chance and acts give the same bytes, and those are the ones that
 * docs/data-format.md shows. */
static void an_entry_has_the_bytes_that_the_manual_shows(void **state)
{
    struct world *w = *state;
    struct journal_entry *chain;
    int n;
    struct record *v =
        world_add(w, world_record(w, "vehicle", "name=Old \"pickup\"", "year=1952", NULL));
    struct record *d = world_add(w, world_record(w, "worth", "vehicle=old \"pickup\"", "of=now",
                                                 "worth=800/1200/2000", NULL));
    assert_true(garage_journal(w->garage, &w->arena, v->id, &chain, &n, &w->fail));
    assert_int_equal(n, 2);
    char first[65];
    journal_hex(first, chain[0].hash, 32);
    const char *expected =
        arena_print(&w->arena,
                    "{\"version\":1,\"sequence\":2,\"previous\":\"%s\",\"chain\":\"%s\",\"time\":"
                    "\"2026-11-25T19:00:01Z\","
                    "\"who\":\"demo\",\"act\":\"add\",\"act_id\":\"%s\",\"kind\":\"worth\",\"kind_"
                    "version\":1,\"id\":\"%s\","
                    "\"revision\":1,\"fields\":{\"vehicle\":\"%s\",\"of\":\"now\"},\"files\":[],"
                    "\"private\":\"%s\"}",
                    first, v->id, chain[1].act_id, d->id, v->id, chain[1].private_digest);
    assert_string_equal(chain[1].bytes, expected);
    assert_string_equal(chain[1].private_json,
                        "{\"worth\":\"800.00 GBP/1,200.00 GBP/2,000.00 GBP\"}");
    assert_non_null(
        strstr(chain[0].bytes, "\"fields\":{\"name\":\"Old \\\"pickup\\\"\",\"year\":\"1952\"}"));
    assert_null(strstr(chain[1].bytes, "1,200")); /* what is private is not in the bytes */
    assert_true(journal_follows(&chain[1], first, 2, &w->fail));
}

static void a_cache_gives_back_or_gives_nothing(void **state)
{
    struct world *w = *state;
    char *data, path[200];
    size_t n;
    assert_false(garage_cache_get(w->garage, &w->arena, "00ff", &data, &n));
    garage_cache_put(w->garage, "00ff", "some\0bytes", 10);
    assert_true(garage_cache_get(w->garage, &w->arena, "00ff", &data, &n));
    assert_int_equal(n, 10);
    assert_memory_equal(data, "some\0bytes", 10);
    garage_cache_put(w->garage, "00ff", "", 0);
    assert_true(garage_cache_get(w->garage, &w->arena, "00ff", &data, &n));
    assert_int_equal(n, 0);
    snprintf(path, sizeof path, "%s/cache/00ff", w->dir);
    assert_int_equal(truncate(path, 20), 0);
    assert_false(garage_cache_get(w->garage, &w->arena, "00ff", &data, &n));
    snprintf(path, sizeof path, "rm -r %s/cache", w->dir);
    int64_t stamp, then;
    const struct timespec hour_ago[2] = {{time(NULL) - 3600, 1}, {time(NULL) - 3600, 1}},
                          ahead[2] = {{time(NULL) + 3600, 1}, {time(NULL) + 3600, 1}};
    const char *folder = arena_print(&w->arena, "%s/cache", w->dir);
    assert_int_equal(utimensat(AT_FDCWD, folder, hour_ago, 0), 0);
    assert_true(garage_cache_stamp(w->garage, w->arena, &then));
    garage_cache_put(w->garage, "00ee", "x", 1);
    garage_cache_stamp(w->garage, w->arena, &stamp);
    assert_true(stamp > then);
    assert_int_equal(utimensat(AT_FDCWD, folder, ahead, 0), 0);
    assert_false(garage_cache_stamp(w->garage, w->arena, &stamp)); /* not to be trusted yet */
    assert_int_equal(system(path), 0);
    assert_true(garage_cache_stamp(w->garage, w->arena, &stamp) && stamp == 0);
    garage_cache_put(w->garage, "00ff", "x", 1); /* safe to delete: the folder comes back */
    assert_true(garage_cache_get(w->garage, &w->arena, "00ff", &data, &n));
    snprintf(path, sizeof path, "rm -r %s/cache && touch %s/cache", w->dir, w->dir);
    assert_int_equal(system(path), 0);
    garage_cache_put(w->garage, "00ff", "x", 1); /* no folder can be had: no cache, no failure */
    assert_false(garage_cache_get(w->garage, &w->arena, "00ff", &data, &n));
}

static int set_up(void **state)
{
    struct world *w = world_open();
    world_garage(w);
    *state = w;
    return 0;
}

static int tear_down(void **state)
{
    world_close(*state);
    return 0;
}

#define IN_A_GARAGE(test) cmocka_unit_test_setup_teardown(test, set_up, tear_down)

int main(void)
{
    const struct CMUnitTest tests[] = {
        IN_A_GARAGE(every_kind_is_stored_and_read_back),
        IN_A_GARAGE(a_change_needs_the_latest_revision),
        IN_A_GARAGE(a_refused_step_undoes_the_act),
        IN_A_GARAGE(removing_needs_an_empty_vehicle),
        IN_A_GARAGE(undo_takes_back_the_last_act_and_redoes_it),
        IN_A_GARAGE(order_outlives_removal_and_undo),
        IN_A_GARAGE(a_word_finds_one_record_or_says_why_not),
        IN_A_GARAGE(the_basis_follows_the_facts),
        IN_A_GARAGE(an_entry_has_the_bytes_that_the_manual_shows),
        IN_A_GARAGE(a_cache_gives_back_or_gives_nothing),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
