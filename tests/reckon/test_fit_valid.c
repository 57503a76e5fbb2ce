/* test_fit_valid.c - what is wrong with a model is told in one line with its index. */
#include "reckon/fit.h"

#include "reckon/near.h"

#include <string.h>

/* A whole model, small; each case spoils one figure of it. */
static struct fit_take takes[2];
static struct fit_use uses[2];
static struct fit_option options[2];
static int woken_by[2], when[2], one_of[1];
static struct fit_need needs[1];
static struct fit_rule rules[1];
static struct fit_part parts[2];
static struct fit_break breaks[2];
static struct fit_offer offers[1];
static struct fit_supplier suppliers[1];
static struct fit_limit limits[2];
static struct fit_model model;

static void make(void)
{
    takes[0] = (struct fit_take){0, 1}, takes[1] = (struct fit_take){1, 2};
    uses[0] = (struct fit_use){0, 5}, uses[1] = (struct fit_use){1, -5};
    options[0] = (struct fit_option){
        .need = 0, .money = 5, .takes = takes, .n_takes = 2, .uses = uses, .n_uses = 2};
    options[1] = (struct fit_option){.need = -1, .money = -5};
    woken_by[0] = 0, woken_by[1] = 1;
    needs[0] = (struct fit_need){woken_by, 2};
    when[0] = 0, when[1] = 0, one_of[0] = 1;
    rules[0] = (struct fit_rule){when, one_of, 1, 1, 7};
    memset(parts, 0, sizeof parts);
    breaks[0] = (struct fit_break){1, 100}, breaks[1] = (struct fit_break){5, 90};
    offers[0] = (struct fit_offer){.breaks = breaks, .n_breaks = 2};
    suppliers[0] = (struct fit_supplier){500, 0, 9000};
    limits[0] = (struct fit_limit){10, false}, limits[1] = (struct fit_limit){10, true};
    model = (struct fit_model){options, needs, rules, parts, offers, suppliers, limits, 2,
                               1,       1,     2,     1,     1,      2,         10,     false};
}

static const struct {
    void *figure;
    size_t size;
    int64_t to;
    const char *fault; /* NULL: none */
} cases[] = {
#define CASE(figure, to, fault)                                                                    \
    {                                                                                              \
        &(figure), sizeof(figure), to, fault                                                       \
    }
    CASE(options[0].need, 0, NULL),
    CASE(options[0].need, 1, "option 0: no need 1"),
    CASE(options[1].need, -2, "option 1: no need -2"),
    CASE(options[0].money, FIT_MOST_MONEY + 1, "option 0: its money is out of bounds"),
    CASE(options[0].lost, -FIT_MOST_MONEY - 1, "option 0: its originality is out of bounds"),
    CASE(takes[0].part, 2, "option 0: no part 2"),
    CASE(takes[0].part, 1, "option 0: takes part 1 twice"),
    CASE(takes[1].count, 0, "option 0: a count of part 1 from 1"),
    CASE(uses[0].limit, 2, "option 0: no limit 2"),
    CASE(uses[0].limit, 1, "option 0: uses limit 1 twice"),
    CASE(uses[0].amount, FIT_MOST_MONEY + 1, "option 0: a use is out of bounds"),
    CASE(woken_by[0], 2, "need 0: no option 2"),
    CASE(woken_by[0], 1, "need 0: names option 1 twice"),
    CASE(when[0], -1, "rule 0: no option -1"),
    CASE(rules[0].n_when, 2, "rule 0: names option 0 twice"),
    CASE(one_of[0], 5, "rule 0: no option 5"),
    CASE(one_of[0], 0, "rule 0: option 0 is asked for by itself"),
    CASE(parts[1].spare, -1, "part 1: spare ones from 0"),
    CASE(offers[0].part, 9, "offer 0: no part 9"),
    CASE(offers[0].supplier, 1, "offer 0: no supplier 1"),
    CASE(offers[0].n_breaks, 0, "offer 0: has no price"),
    CASE(breaks[0].from, -1, "offer 0: a break from 0"),
    CASE(breaks[0].from, 5, "offer 0: its breaks must rise"),
    CASE(breaks[1].unit, -1, "offer 0: its price is out of bounds"),
    CASE(offers[0].most, -1, "offer 0: fewer than none can be had"),
    CASE(offers[0].core, -1, "offer 0: core or lateness is out of bounds"),
    CASE(offers[0].late, -1, "offer 0: core or lateness is out of bounds"),
    CASE(suppliers[0].carriage, -1, "supplier 0: carriage or order is out of bounds"),
    CASE(suppliers[0].least_order, -1, "supplier 0: carriage or order is out of bounds"),
    CASE(limits[1].most, FIT_MOST_MONEY + 1, "limit 1: is out of bounds"),
    CASE(model.weight, -1, "the weight of originality is out of bounds"),
};

static void faults_name_what_is_wrong(void **state)
{
    (void)state;
    for (size_t k = 0; k < sizeof cases / sizeof cases[0]; k++) {
        struct fail f = {0};
        make();
        int small = (int)cases[k].to;
        memcpy(cases[k].figure,
               cases[k].size == sizeof small ? (void *)&small : (void *)&cases[k].to,
               cases[k].size);
        bool valid = fit_valid(&model, &f);
        assert_int_equal(valid, cases[k].fault == NULL);
        if (!valid && !strstr(f.text, cases[k].fault))
            fail_msg("'%s' instead of '%s'", f.text, cases[k].fault);
    }
}

static void sums_stay_exact(void **state)
{
    (void)state;
    struct fail f = {0};
    make();
    breaks[0].unit = breaks[1].unit = FIT_MOST_MONEY;
    takes[0].count = takes[1].count = 10000;
    assert_false(fit_valid(&model, &f));
    assert_non_null(strstr(f.text, "beyond what is reckoned with"));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(faults_name_what_is_wrong),
        cmocka_unit_test(sums_stay_exact),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
