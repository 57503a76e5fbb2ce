/* A supplier's list taken in: all of it or none, and what is wrong line by line. */
#include "cli/run.h"

static struct place *place;

static int set_up(void **state)
{
    (void)state;
    place = place_open();
    run_good(place, "fettle new g && export FETTLE_GARAGE=g && fettle add supplier name=Northgate");
    return 0;
}

static int tear_down(void **state)
{
    (void)state;
    place_close(place);
    return 0;
}

static const struct ran *import(const char *bytes, const char *how)
{
    return run_line(place,
                    arena_print(&place->arena,
                                "export FETTLE_GARAGE=g; printf '%s' > list.csv; fettle quote "
                                "import list.csv %s",
                                bytes, how));
}

static const char *quotes(void)
{
    return run_good(place, "export FETTLE_GARAGE=g; fettle list quotes --json")->out;
}

static void a_list_is_taken_whole_in_one_act(void **state)
{
    (void)state;
    const struct ran *r = import("\\357\\273\\277Currency,PART,price,From count,lead,core,supplier,"
                                 "note\\r\\n"
                                 "GBP,fan belt,9.40,,2/4/9,,,\"4\"\" wide, ribbed\"\\r\\n"
                                 "GBP,wheel-cylinder-kit,9.50,4,,,northgate,\\r\\n\\r\\n"
                                 ",generator-exchange,85 EUR,,,20 EUR,,\\r\\n",
                                 "supplier=northgate");
    assert_string_equal(r->out, "added 3 quotes; taken back together by: fettle undo garage\n");
    const char *all = quotes();
    assert_non_null(strstr(all, "\"part\": \"fan-belt\""));
    assert_non_null(strstr(all, "\"note\": \"4\\\" wide, ribbed\""));
    assert_non_null(strstr(all, "\"from-count\": 4"));
    assert_non_null(strstr(all, "\"amount\": 8500"));
    assert_non_null(strstr(all, "\"amount\": 2000"));
    run_good(place, "export FETTLE_GARAGE=g; fettle undo garage");
    assert_non_null(strstr(quotes(), "\"records\": []"));
}

static const struct {
    const char *bytes, *how, *says[4];
} wrong[] = {
    {"part;price;lead\\nfan-belt;9 GBP;\\nfan-bel;9 GBP;1\\nfan-belt;9;1\\nfan-belt;9 GBP;-1\\n",
     "supplier=Northgate",
     {"line 3: quote.part: nothing is called 'fan-bel'; did you mean 'fan-belt'?\n",
      "line 4: quote.price: '9': no currency; add its code",
      "line 5: quote.lead: '-1': the three must rise"}},
    {"part,price\\nfan-belt,9 GBP\\nfan-belt,9 GBP,14\\n",
     "supplier=Northgate",
     {"line 3: 3 cells, but the first line names 2 columns"}},
    {"part,price\\nfan-belt,\"9 GBP\\n\\n",
     "supplier=Northgate",
     {"line 2: a double quote opens and none closes it"}},
    {"part,prise\\nfan-belt,9 GBP\\n",
     "supplier=Northgate",
     {"line 1: no column 'prise'; did you mean 'price'?", "line 1: no column 'price'"}},
    {"part,price\\nfan-belt,9 GBP\\n",
     "",
     {"line 1: no column 'supplier'; add it, or say supplier"}},
    {"part,price,supplier\\nfan-belt,9 GBP,Southgate\\n",
     "",
     {"line 2: no supplier 'Southgate'; did you mean 'Northgate'?"}},
    {"part,price,currency\\nfan-belt,9 GBP,EUR\\n",
     "supplier=Northgate",
     {"line 2: quote.price: '9 GBP' is in GBP, but the column currency says 'EUR'"}},
    {"part,price,Price\\nfan-belt,9 GBP,9 GBP\\n",
     "supplier=Northgate",
     {"line 1: column 'Price' is there twice"}},
    {"", "supplier=Northgate", {"line 1: a first line that names the columns"}},
    {"part,price\\nfan-belt,9 GBP\\377\\n", "supplier=Northgate", {"line 2: is not UTF-8"}},
};

static void what_is_wrong_is_told_by_line_and_nothing_is_taken(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof wrong / sizeof *wrong; i++) {
        const struct ran *r = import(wrong[i].bytes, wrong[i].how);
        assert_int_equal(r->status, 2);
        assert_non_null(strstr(r->err, "nothing was taken"));
        for (int k = 0; k < 4 && wrong[i].says[k]; k++)
            if (!strstr(r->out, wrong[i].says[k]))
                fail_msg("'%s' does not say '%s'", r->out, wrong[i].says[k]);
        assert_non_null(strstr(quotes(), "\"records\": []"));
    }
    assert_int_equal(import("part,price\\n", "supplier=Nobody")->status, 2);
    const struct ran *r = run_line(place, "export FETTLE_GARAGE=g; fettle quote import none.csv");
    assert_int_equal(r->status, 2);
    assert_non_null(strstr(r->err, "none.csv: No such file"));
}

static void what_is_due_is_told_and_done(void **state)
{
    (void)state;
    run_good(place, "export FETTLE_GARAGE=g; fettle add vehicle name=Wren && fettle add order "
                    "part=fan-belt supplier=Northgate due=2026-11-20");
    const char *out =
        run_good(place, "export FETTLE_GARAGE=g; COLUMNS=120 fettle buying --date 2026-11-25")->out;
    assert_non_null(strstr(out, "One thing wants doing now."));
    assert_non_null(strstr(out, "Ask where it is"));
    assert_non_null(strstr(out, "fettle change order"));
    out = run_good(place, "export FETTLE_GARAGE=g; fettle buying --json --date 2026-11-25")->out;
    assert_non_null(strstr(out, "\"due\": \"late\""));
    assert_non_null(strstr(out, "\"unplanned\": [\n    \"Wren\"\n  ]"));
    const struct ran *r =
        run_line(place, "export FETTLE_GARAGE=g; fettle remove supplier Northgate");
    assert_int_equal(r->status, 2);
    assert_non_null(strstr(r->err, "supplier Northgate: cannot go while 1 open order,"));
    r = run_line(place, "export FETTLE_GARAGE=g; fettle buying now");
    assert_int_equal(r->status, 2);
    assert_non_null(strstr(r->err, "takes no word 'now'"));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(a_list_is_taken_whole_in_one_act, set_up, tear_down),
        cmocka_unit_test_setup_teardown(what_is_wrong_is_told_by_line_and_nothing_is_taken, set_up,
                                        tear_down),
        cmocka_unit_test_setup_teardown(what_is_due_is_told_and_done, set_up, tear_down),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
