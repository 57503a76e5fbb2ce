/* view: what is wrong with an advert is one line, and the answer says what it should. */
#include "cli/run.h"

#include <jansson.h>

static const char begin[] =
    "fettle new >/dev/null && fettle intake name=Mine kind=car year=1959 >/dev/null && "
    "fettle add workshop currency=GBP >/dev/null";

static void bad_input_is_one_line(void **state)
{
    (void)state;
    static const struct {
        const char *line, *says;
    } rows[] = {
        {"fettle view", "nothing to be viewed"},
        {"fettle view --vehicle Mine", "is yours already"},
        {"fettle view --vehicle Nix", "no vehicle 'Nix'"},
        {"fettle add advert vehicle=Nix asked='5 GBP'", "no vehicle 'Nix'"},
        {"fettle add advert vehicle=Mine asked='0 GBP'", "advert.asked: is nothing"},
        {"fettle add advert vehicle=Mine asked='-20 GBP'", "advert.asked: is less than nothing"},
        {"fettle add advert vehicle=Mine carriage='-1 GBP'", "advert.carriage: is less than"},
        {"fettle add advert vehicle=Mine distance='90000 miles'", "advert.distance:"},
        {"fettle add advert vehicle=Mine distance=far", "advert.distance:"},
        {"fettle add advert vehicle=Mine odds=1.2", "advert.odds:"},
        {"fettle add advert vehicle=Mine minutes=0", "advert.minutes:"},
        {"fettle add sign vehicle=Mine sign=fire met=perhaps", "sign.met:"},
        {"fettle change vehicle Mine owned=maybe", "vehicle.owned:"},
    };
    struct place *p = place_open();
    run_good(p, begin);
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        const struct ran *r = run_line(p, rows[i].line);
        if (r->status != 2 || !strstr(r->err, rows[i].says) ||
            strchr(r->err, '\n') != strrchr(r->err, '\n'))
            fail_msg("%s: status %d: %s", rows[i].line, r->status, r->err);
    }
    place_close(p);
}

static json_t *json_of(struct place *p, const char *line)
{
    json_t *j = json_loads(run_good(p, line)->out, 0, NULL);
    assert_non_null(j);
    return j;
}

static void it_is_told(void **state)
{
    (void)state;
    struct place *p = place_open();
    run_good(p, begin);
    run_good(p, "fettle intake name=Heron kind=car year=1961 owned=no rolls=no >/dev/null && "
                "fettle add worth vehicle=Heron of=now worth='800/1200/2000 GBP' && "
                "fettle add worth vehicle=Heron of=drive worth='30000/50000/70000 GBP' && "
                "fettle add advert vehicle=Heron asked='900 GBP' carriage='120 GBP'");
    json_t *j = json_of(p, "fettle view --runs 200 --json --date 2026-11-25");
    static const char *const keys[] = {"vehicle", "asked",    "carriage", "odds", "best",
                                       "highest", "prices",   "moved",    "walk", "walk_away",
                                       "minutes", "left_out", "parts_car"};
    for (size_t i = 0; i < sizeof keys / sizeof *keys; i++)
        if (!json_object_get(j, keys[i])) fail_msg("no %s", keys[i]);
    assert_string_equal(json_string_value(json_object_get(j, "best")), "drive");
    assert_true(json_is_null(json_object_get(j, "moved")));
    assert_int_equal(json_array_size(json_object_get(j, "walk_away")), 0);
    json_decref(j);
    /* The only one that is owned is still the one that is meant, and plans alone. */
    const struct ran *r = run_good(p, "fettle plan --runs 60 --date 2026-11-25");
    assert_non_null(strstr(r->out, "Mine"));
    assert_null(strstr(r->out, "Heron"));
    run_good(p, "fettle survey add --vehicle Heron front-pillar bodged && "
                "fettle add sign vehicle=Heron sign=flood-line met=yes");
    r = run_good(p, "fettle view --runs 200 --date 2026-11-25");
    assert_non_null(strstr(r->out, "Walk away: a tide mark"));
    assert_non_null(strstr(r->out, "Walk away: cut and joined"));
    assert_non_null(strstr(r->out, "wheels that do not turn")); /* it does not roll */
    assert_non_null(strstr(r->out, "Nobody goes under it"));
    assert_true(strstr(r->out, "Walk away") < strstr(r->out, "pay at most"));
    run_good(p, "fettle change vehicle Heron owned=yes");
    assert_int_equal(run_line(p, "fettle view --vehicle Heron")->status, 2);
    run_good(p, "fettle garage check && fettle garage rebuild && fettle garage check");
    place_close(p);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(bad_input_is_one_line),
        cmocka_unit_test(it_is_told),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
