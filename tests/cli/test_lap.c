/* One lap: what is typed at it, and that every finding that was answered is in the store. */
#include "cli/run.h"

static struct place *place;

static int set_up(void **state)
{
    (void)state;
    place = place_open();
    run_good(place, "fettle new g && fettle intake --garage g name=Barge kind=car build=unitary "
                    "standing=20 hours=6");
    return 0;
}

static int tear_down(void **state)
{
    (void)state;
    place_close(place);
    return 0;
}

/* How many findings have that condition. */
static int count(const char *condition)
{
    return atoi(
        run_good(
            place,
            arena_print(&place->arena,
                        "fettle list finding --garage g --json | grep -c '\"condition\": \"%s\"' "
                        "|| true",
                        condition))
            ->out);
}

static void words_are_taken_by_their_beginning_in_any_case(void **state)
{
    (void)state;
    run_good(place, "printf 'Sound\\nw\\nMISS\\nq\\n' | fettle survey lap --garage g");
    assert_int_equal(count("sound"), 1);
    assert_int_equal(count("worn"), 1);
    assert_int_equal(count("missing"), 1);
}

static void a_broken_off_lap_keeps_what_was_answered(void **state)
{
    (void)state;
    const struct ran *r = run_good(place, "printf 'poor\\nfailed' | fettle survey lap --garage g");
    assert_non_null(strstr(r->out, "what was answered is stored"));
    assert_int_equal(count("poor"), 1);
    assert_int_equal(count("failed"), 1);
}

static void the_rest_of_a_place_leaves_other_findings_alone(void **state)
{
    (void)state;
    run_good(place, "printf 'poor\\nfailed\\nq\\n' | fettle survey lap --garage g");
    /* What nobody has seen is asked first, the keys; then the first of the others again. */
    run_good(place, "printf '\\n=sound\\nq\\n' | fettle survey lap --garage g");
    const char *lines = run_good(place, "fettle survey --garage g --json | grep -A3 "
                                        "'\"component\": \"\\(title\\|history\\)-papers\"'")
                            ->out;
    assert_non_null(strstr(lines, "\"condition\": \"sound\""));
    assert_non_null(strstr(lines, "\"condition\": \"failed\""));
}

static void several_are_told_by_one_word_or_each(void **state)
{
    (void)state;
    run_good(place,
             "printf '>\\n>\\nworn\\nsound,poor,?,failed\\nworn,worn\\nq\\n' | fettle survey "
             "lap --garage g");
    assert_int_equal(count("worn"), 4); /* two words for four are no answer */
    assert_int_equal(count("sound"), 1);
    assert_int_equal(count("poor"), 1);
    assert_int_equal(count("failed"), 1);
    /* The rest of the corners: all but the seven. */
    run_good(place, "printf '>\\n>\\n=bodged\\nq\\n' | fettle survey lap --garage g");
    assert_int_equal(count("worn"), 4);
    assert_true(count("bodged") > 60);
}

static void nonsense_is_told_and_asked_again(void **state)
{
    (void)state;
    const struct ran *r = run_good(
        place, "printf 'zzz\\n\\033[31mred\\n%0500d\\nb\\nq\\n' 7 | fettle survey lap --garage g");
    assert_null(strchr(r->out, '\033'));
    assert_non_null(strstr(r->out, "'zzz' is none of them"));
    assert_non_null(strstr(r->out, "Shorter, please"));
    assert_int_equal(count("bodged"), 1); /* the rest of the long line answered nothing */
    assert_int_equal(
        atoi(run_good(place, "fettle list finding --garage g --json | grep -c '\"condition\"'")
                 ->out),
        1);
}

static void acts_answer_in_json(void **state)
{
    (void)state;
    static const char *const lines[] = {
        "fettle survey add sill poor 'soft at the foot' --garage g --json",
        "fettle plan --adopt --runs 50 --garage g --json"};
    static const char *const kinds[] = {"\"kind\": \"finding\"", "\"kind\": \"adopted-plan\""};
    for (size_t i = 0; i < 2; i++) {
        const struct ran *r = run_good(place, lines[i]);
        assert_true(r->out[0] == '{');
        assert_non_null(strstr(r->out, "\"act\": \"added\""));
        assert_non_null(strstr(r->out, kinds[i]));
    }
}

#define TEST(name) cmocka_unit_test_setup_teardown(name, set_up, tear_down)

int main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(words_are_taken_by_their_beginning_in_any_case),
        TEST(a_broken_off_lap_keeps_what_was_answered),
        TEST(the_rest_of_a_place_leaves_other_findings_alone),
        TEST(several_are_told_by_one_word_or_each),
        TEST(nonsense_is_told_and_asked_again),
        TEST(acts_answer_in_json),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
