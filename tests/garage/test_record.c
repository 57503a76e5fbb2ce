/* Fields read from text: what is taken, in which normal form, and what is refused in which words.
 */
#include "world.h"

#include "base/condition.h"

static const struct {
    const char *kind, *field, *text, *normal; /* normal NULL: refused */
    const char *says;                         /* part of the line */
} cases[] = {
    {"vehicle", "name", "  Old pickup ", "Old pickup", NULL},
    {"vehicle", "name", "Zo\xc3\xab", "Zo\xc3\xab", NULL},
    {"vehicle", "name", "bad \xff bytes", NULL, "UTF-8"},
    {"vehicle", "name", "bell\a", NULL, "control character 0x07"},
    {"vehicle", "note", "two\r\nlines", "two\nlines", NULL},
    {"vehicle", "year", "1952", "1952", NULL},
    {"vehicle", "year", "1884", NULL, "1885 to 2030"},
    {"vehicle", "year", "2031", NULL, "1885 to 2030"},
    {"vehicle", "year", "1952.5", NULL, "not a whole number"},
    {"vehicle", "year", "MCMLII", NULL, "not a whole number"},
    {"vehicle", "kind", "Four Wheel Drive", "four-wheel-drive", NULL},
    {"vehicle", "kind", "boat", NULL, "use one of car, pickup, van, four-wheel-drive"},
    {"vehicle", "cylinders", "6", "6", NULL},
    {"vehicle", "cylinders", "5", NULL, "use one of 4, 6, 8"},
    {"vehicle", "turns", "Y", "yes", NULL},
    {"vehicle", "turns", "no", "no", NULL},
    {"vehicle", "turns", "perhaps", NULL, "neither yes nor no"},
    {"vehicle", "standing", "25", "25", NULL},
    {"vehicle", "standing", "-1", NULL, "0 to 120"},
    {"vehicle", "clock", "48210 miles", "48210 miles", NULL},
    {"vehicle", "clock", "48210", NULL, "vehicle.clock: "},
    {"vehicle", "clock", "48210 psi", NULL, "psi"},
    {"workshop", "sessions-kept", "70 %", "0.7", NULL},
    {"workshop", "sessions-kept", "0.7", "0.7", NULL},
    {"workshop", "sessions-kept", "1.2", NULL, "0 to 1"},
    {"workshop", "hours-a-week", "0.1", NULL, "0.5 to 100"},
    {"workshop", "hours-a-week", "nan", NULL, "not a number"},
    {"workshop", "hours-a-week", "6,5", NULL, "not a number"},
    {"workshop", "own-rate", "12.50", "12.50 GBP", NULL},
    {"workshop", "own-rate", "EUR 1250", "1,250.00 EUR", NULL},
    {"workshop", "own-rate", "12.505 GBP", NULL, "workshop.own-rate: "},
    {"workshop", "start", "2026-02-28", "2026-02-28", NULL},
    {"workshop", "start", "2026-02-31", NULL, "workshop.start: "},
    {"slot", "from", "19:00", "19:00", NULL},
    {"slot", "from", "7pm", NULL, "slot.from: "},
    {"slot", "weekday", "Tue", "tue", NULL},
    {"finding", "condition", "not_fitted", "not fitted", NULL},
    {"finding", "condition", "rotten", NULL, "no choice 'rotten'; use one of sound, worn"},
    {"worth", "worth", "800/1200/2000 GBP", "800.00 GBP/1,200.00 GBP/2,000.00 GBP", NULL},
    {"worth", "worth", "EUR 800 / 1200 / 2000", "800.00 EUR/1,200.00 EUR/2,000.00 EUR", NULL},
    {"worth", "worth", "900", "900.00 GBP/900.00 GBP/900.00 GBP", NULL},
    {"worth", "worth", "900/800/1000", NULL, "not in order"},
    {"worth", "worth", "800/1000", NULL, "two sums"},
    {"worth", "worth", "1/2/3/4", NULL, "more than three"},
    {"worth", "worth", "800 EUR/900 GBP/1000 GBP", NULL, "mixes"},
    {"work", "hours", "2 h 30 min", "2 h 30 min", NULL},
    {"work", "hours", "2.5", "2.5 h", NULL},
    {"work", "hours", "3 m", NULL, "work.hours: "},
    {"rate", "rate", "0", NULL, "beyond"},
};

static void texts_become_values_or_lines(void **state)
{
    struct world *w = *state;
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        struct record *r = record_new(&w->arena, record_kind_find(cases[i].kind));
        struct fail f = {0};
        bool ok = record_set(&w->arena, r, cases[i].field, cases[i].text, "GBP", &f);
        const char *normal = record_text(r, cases[i].field, NULL);
        if (ok != (cases[i].normal != NULL) || (ok && !text_is(normal, cases[i].normal)))
            fail_msg("%s '%s': got '%s' %s", cases[i].field, cases[i].text, normal ? normal : "",
                     f.text);
        if (ok) {
            /* The normal form reads back as the same value: what the journal rests on. */
            struct record *again = record_new(&w->arena, r->kind);
            assert_true(record_set(&w->arena, again, cases[i].field, normal, NULL, &f));
            const struct value *a = record_get(r, cases[i].field),
                               *b = record_get(again, cases[i].field);
            assert_string_equal(a->text, b->text);
            assert_true(a->number == b->number && a->integer == b->integer && a->day == b->day);
            assert_true(a->money.minor == b->money.minor && a->points.low == b->points.low &&
                        a->points.middle == b->points.middle && a->points.high == b->points.high);
            assert_string_equal(a->money.currency, b->money.currency);
        } else {
            assert_int_equal(f.kind, FAIL_INPUT);
            if (!strstr(f.text, cases[i].says))
                fail_msg("'%s' does not say '%s'", f.text, cases[i].says);
            assert_null(normal);
        }
    }
}

static void values_are_in_si(void **state)
{
    struct world *w = *state;
    struct record *r = world_record(w, "work", "hours=2 h 30 min", "vehicle=x", NULL);
    assert_true(record_number(r, "hours", 0) == 9000.0);
    r = world_record(w, "vehicle", "clock=100 miles", NULL);
    /* NIST SP 811, B.8: a mile is 1609.344 m exactly. */
    assert_true(record_number(r, "clock", 0) > 160934.39 &&
                record_number(r, "clock", 0) < 160934.41);
    r = world_record(w, "slot", "from=19:30", NULL);
    assert_int_equal(record_integer(r, "from", 0), 19 * 60 + 30);
    r = world_record(w, "purse", "a-month=KWD 1.234", NULL);
    assert_int_equal(record_get(r, "a-month")->money.minor, 1234);
}

static void unknown_unsets(void **state)
{
    struct world *w = *state;
    static const char *const words[] = {"",           "  ",        "?",
                                        "don't know", "Dont Know", "don\xe2\x80\x99t know"};
    for (size_t i = 0; i < sizeof words / sizeof *words; i++) {
        struct record *r = world_record(w, "vehicle", "year=1952", NULL);
        assert_true(record_set(&w->arena, r, "year", words[i], NULL, &w->fail));
        assert_int_equal(record_integer(r, "year", -1), -1);
    }
}

static void a_refused_text_leaves_the_value(void **state)
{
    struct world *w = *state;
    struct record *r = world_record(w, "vehicle", "year=1952", NULL);
    struct fail f = {0};
    assert_false(record_set(&w->arena, r, "year", "soon", NULL, &f));
    assert_int_equal(record_integer(r, "year", -1), 1952);
    f = (struct fail){0};
    assert_false(record_set(&w->arena, r, "yaer", "1952", NULL, &f));
    assert_non_null(strstr(f.text, "did you mean 'year'?"));
}

/* Whole records: the field that is wanting or the two that disagree. */
static const struct {
    const char *kind, *words[4], *says; /* says NULL: valid */
} wholes[] = {
    {"vehicle", {"year=1952"}, "vehicle.name: missing"},
    {"vehicle", {"name=A"}, NULL},
    {"slot", {"weekday=mon", "from=19:00", "to=19:15"}, NULL},
    {"slot", {"weekday=mon", "from=19:00", "to=19:14"}, "slot.to"},
    {"slot", {"weekday=mon", "from=22:00", "to=01:00"}, "slot.to"},
    {"slot", {"weekday=mon", "from=22:00", "to=24:00"}, NULL},
    {"helper-day", {"date=2026-12-05", "from=17:00", "to=09:00", "hands=1"}, "helper-day.to"},
    {"away", {"from=2026-12-05", "to=2026-12-05"}, NULL},
    {"away", {"from=2026-12-05", "to=2026-12-04"}, "away.to"},
    {"purse", {"a-month=100", "reserve=0"}, NULL},
    {"purse", {"a-month=100", "reserve=EUR 5"}, "one currency"},
    {"purse", {"a-month=-5"}, "purse.a-month"},
    {"workshop", {"currency=GBP"}, NULL},
    {"workshop", {"currency=QQQ"}, "no currency 'QQQ'"},
    {"rate", {"currency=EUR", "per=GBP", "rate=0.85", "date=2026-11-25"}, NULL},
    {"rate", {"currency=EUR", "per=QQQ", "rate=0.85", "date=2026-11-25"}, "rate.per"},
};

static void whole_records_are_checked(void **state)
{
    struct world *w = *state;
    for (size_t i = 0; i < sizeof wholes / sizeof *wholes; i++) {
        struct record *r = record_new(&w->arena, record_kind_find(wholes[i].kind));
        for (int j = 0; j < 4 && wholes[i].words[j]; j++) {
            const char *equals = strchr(wholes[i].words[j], '=');
            char *field =
                arena_copy_n(&w->arena, wholes[i].words[j], (size_t)(equals - wholes[i].words[j]));
            struct fail f = {0};
            if (!record_set(&w->arena, r, field, equals + 1, "GBP", &f)) fail_msg("%s", f.text);
        }
        struct fail f = {0};
        bool ok = record_valid(r, &f);
        if (ok != !wholes[i].says || (!ok && !strstr(f.text, wholes[i].says)))
            fail_msg("whole %zu: %d '%s'", i, ok, f.text);
    }
}

static void declarations_are_sound(void **state)
{
    (void)state;
    for (const struct record_kind *const *k = record_kinds; *k; k++) {
        assert_ptr_equal(record_kind_find((*k)->name), *k);
        assert_ptr_equal(record_kind_find((*k)->plural), *k);
        assert_true((*k)->version >= 1 && (*k)->help && *(*k)->help);
        if ((*k)->label_field) assert_true(record_field(*k, (*k)->label_field) >= 0);
        int parents = 0;
        for (int i = 0; i < (*k)->n_fields; i++) {
            const struct field *d = &(*k)->fields[i];
            assert_int_equal(record_field(*k, d->name), i); /* no name twice */
            assert_true(d->help && *d->help);
            assert_true((d->type == FIELD_CHOICE) == (d->choices != NULL));
            assert_true((d->type == FIELD_PARENT) == (d->parent_kind != NULL));
            assert_true(d->low <= d->high);
            parents += d->type == FIELD_PARENT;
            if (d->type == FIELD_MONEY || d->type == FIELD_MONEY_POINTS) assert_true(d->private_);
        }
        assert_true(parents <= RECORD_PARENTS); /* a record has room for so many ids */
        if (!(*k)->of_garage && !text_is((*k)->name, "vehicle"))
            assert_string_equal((*k)->fields[0].name, "vehicle");
    }
    const struct record_kind *finding = record_kind_find("finding");
    const struct field *condition = &finding->fields[record_field(finding, "condition")];
    for (int c = 0; c < COND_ANSWERS; c++)
        assert_string_equal(condition->choices[c], condition_name((enum condition)c));
    assert_null(condition->choices[COND_ANSWERS]);
}

static int set_up(void **state)
{
    *state = world_open();
    return 0;
}

static int tear_down(void **state)
{
    world_close(*state);
    return 0;
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(texts_become_values_or_lines),
        cmocka_unit_test(values_are_in_si),
        cmocka_unit_test(unknown_unsets),
        cmocka_unit_test(a_refused_text_leaves_the_value),
        cmocka_unit_test(whole_records_are_checked),
        cmocka_unit_test(declarations_are_sound),
    };
    return cmocka_run_group_tests(tests, set_up, tear_down);
}
