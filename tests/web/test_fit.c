/* test_fit.c - the page of parts that work together, without script: a wish in the address, what is
 * wrong with it beside its field, and a set adopted. */
#include "web/browse.h"

#include <string.h>

static struct arena arena;
static struct site *site;

static int begin(void **state)
{
    (void)state;
    arena = arena_open((size_t)1 << 30);
    site = browse_site(&arena);
    site->runs = 50; /* nothing is asked of the odds */
    return 0;
}

static int end(void **state)
{
    (void)state;
    browse_site_end(&arena, site);
    arena_close(&arena);
    return 0;
}

static const char *put_vehicle(struct browser *b)
{
    const char *id =
        browse_add(&b->arena, site, "vehicle", "name=Linnet <i>", "year=1959", "build=unitary",
                   "brakes=drum", "voltage=12", "earth=positive", NULL);
    return arena_print(&b->arena, "/vehicle/%s", id);
}

static void wishes_and_adopts(void **state)
{
    (void)state;
    struct browser *b = browse_open(&arena, site);
    const char *page = put_vehicle(b);
    browse_go(b, arena_print(&b->arena, "%s/fit?with=alternator-for-dynamo", page));
    browse_expect(b, "a bracket that holds the alternator");
    browse_expect(b, "closed by");
    browse_expect(b, "Linnet &lt;i&gt;");
    browse_choose(b, "end", "fitting-ammeter charge-current takes");
    browse_type(b, "value", "thirty");
    browse_press(b, "", "");
    browse_expect(b, "not a number");
    browse_choose(b, "end", "fitting-ammeter charge-current takes");
    browse_type(b, "value", "30");
    browse_press(b, "", "");
    browse_go(b, arena_print(&b->arena, "%s/fit?with=alternator-for-dynamo", page));
    browse_expect(b, "a voltmeter, the ammeter bridged");
    int other = -1; /* the form of the measured number stands first */
    for (int i = 0; i < b->n_controls; i++)
        if (strcmp(b->controls[i].name, "end") == 0) other = b->controls[i].form;
    for (int i = 0; i < b->n_controls; i++)
        if (b->controls[i].kind == CONTROL_BUTTON && b->controls[i].form == other)
            b->controls[i].value = "not this one";
    browse_press(b, "", ""); /* adopted: on to the plan */
    assert_non_null(strstr(b->path, "/plan"));
    browse_go(b, arena_print(&b->arena, "%s/fit?budget=heaps", page));
    browse_expect(b, "write it as 900 GBP");
    browse_go(b, arena_print(&b->arena, "%s/fit?with=%%3Cscript%%3E", page));
    browse_expect(b, "there is no option");
    browse_go(b, arena_print(&b->arena, "%s/fit?budget=1+GBP", page));
    browse_expect(b, "Nothing fits");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(wishes_and_adopts, begin, end),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
