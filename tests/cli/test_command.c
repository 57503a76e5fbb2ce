/* The command line: what is refused, how, and that nothing was changed by it. */
#include "cli/run.h"

struct bad {
    const char *line;
    int status;
    const char *says; /* somewhere in the one line */
};

static const struct bad no_garage_needed[] = {
    {"fettle", 2, "no verb given"},
    {"fettle frobnicate", 2, "no verb 'frobnicate'"},
    {"fettle intaek", 2, "did you mean 'intake'?"},
    {"fettle help lst", 2, "did you mean 'list'?"},
    {"fettle list --jsno finding", 2, "did you mean --json?"},
    {"fettle list -x finding", 2, "no option -x"},
    {"fettle list finding --vehicle", 2, "--vehicle needs a value"},
    {"fettle list finding --vehicle=", 2, "--vehicle is empty"},
    {"fettle list finding --json=yes", 2, "--json takes no value"},
    {"fettle list finding --date 2026-02-31", 2, "--date: '2026-02-31'"},
    {"fettle list finding --date yesterday", 2, "--date: 'yesterday'"},
    {"fettle \"$(printf 'li\\377st')\"", 2, "not UTF-8"},
    {"fettle list", 2, "too little said"},
    {"fettle list findnig", 2, "did you mean 'finding'?"},
    {"fettle list song", 2, "'fettle kinds' lists them"},
    {"fettle kinds song", 2, "no kind of record 'song'"},
    {"fettle trade", 2, "say check, list, show or search"},
    {"fettle trade list", 2, "of what?"},
    {"fettle trade list jbos", 2, "did you mean 'jobs'?"},
    {"fettle trade show radiatr", 2, "did you mean 'radiator'?"},
    {"fettle trade search zzzzqqq", 1, "nothing has 'zzzzqqq'"},
    {"fettle trade check nowhere", 2, "nowhere"},
    {"fettle garage sing", 2, "not 'sing'"},
    {"fettle complete ksh", 2, "bash, zsh or fish"},
    {"fettle demo", 2, "say where"},
    {"fettle new a b", 2, "one folder, not 2"},
    {"fettle list finding", 3, "fettle new"},
    {"fettle intake name=x", 3, "fettle new"},
    {"fettle list finding --garage nowhere", 3, "nowhere"},
    {"mkdir empty && fettle list finding --garage empty", 3, "empty"},
    {"mkdir junk && echo junk >junk/garage.db && fettle list finding --garage junk", 3, "junk"},
    {"mkdir full && echo x >full/x && fettle new full", 3, "full"},
    {"echo x >file && fettle new file", 3, "file"},
};

static const struct bad in_a_garage[] = {
    {"fettle intake nmae=x", 2, "did you mean 'name'?"},
    {"fettle intake name=x colour=red", 2, "no question 'colour'"},
    {"fettle intake name", 2, "not key=value"},
    {"fettle intake name=x year=1066", 2, "vehicle.year"},
    {"fettle intake name=x year=MCMLIX", 2, "vehicle.year"},
    {"fettle intake name=x brakes=band", 2, "vehicle.brakes: no choice 'band'"},
    {"fettle intake name=x hours=-3", 2, "workshop.hours-a-week"},
    {"fettle intake name=x hours=nan", 2, "workshop.hours-a-week"},
    {"fettle intake name=x hands=7", 2, "workshop.hands"},
    {"fettle intake name=x a-month=-5", 2, "purse.a-month"},
    {"fettle intake name=x a-month='5 XXQ'", 2, "purse.a-month"},
    {"fettle intake name=x a-month='5 GBP' ceiling='900 EUR'", 2, "use one currency"},
    {"fettle intake name=x currency=PEN99", 2, "workshop.currency"},
    {"fettle intake name=x name=y", 2, "given twice"},
    {"fettle intake name=Old", 2, "there is a vehicle 'Old' already"},
    {"fettle intake name='?'", 2, "a name is needed"},
    {"fettle intake </dev/null", 2, "broken off"},
    {"printf 'Barge\\ncar\\n' | fettle intake", 2, "broken off"},
    {"fettle add", 2, "too little said"},
    {"fettle add finding", 2, "finding.component: missing"},
    {"fettle add finding component=radiator", 2, "finding.condition: missing"},
    {"fettle add finding component=radiator condition=rotten", 2, "no choice 'rotten'"},
    {"fettle add finding component=radiator condition=poor date=2026-02-31", 2, "finding.date"},
    {"fettle add finding component=radiator condition=poor nonsense=1", 2, "no field 'nonsense'"},
    {"fettle add finding component=radiator condition=poor vehicle=Nobody", 2, "Nobody"},
    {"fettle add finding component=radiator condition=poor --vehicle Nobody", 2, "Nobody"},
    {"fettle add slot weekday=tue from=22:00 to=19:00", 2, "slot.to"},
    {"fettle add slot weekday=tue from=25:00 to=26:00", 2, "slot.from"},
    {"fettle add slot weekday=someday from=19:00 to=20:00", 2, "slot.weekday"},
    {"fettle add work job=x hours='2 furlongs'", 2, "work.hours"},
    {"fettle add work job=x hours=-2", 2, "work.hours"},
    {"fettle add away from=2026-05-02 to=2026-05-01", 2, "away.to"},
    {"fettle add worth of=now worth=3/2/1", 2, "worth.worth"},
    {"fettle change vehicle Nobody year=1950", 2, "Nobody"},
    {"fettle change vehicle Old", 2, "too little said"},
    {"fettle change vehicle Old year=3000", 2, "vehicle.year"},
    {"fettle remove vehicle Nobody", 2, "Nobody"},
    {"fettle undo sideways", 2, "no chain"},
};

static void check(struct place *p, const struct bad *b)
{
    const struct ran *r = run_line(p, b->line);
    const char *end = strchr(r->err, '\n');
    if (r->status != b->status)
        fail_msg("%s: exit status %d, not %d: %s", b->line, r->status, b->status, r->err);
    if (!end || end[1]) fail_msg("%s: not one line on standard error: %s", b->line, r->err);
    if (strncmp(r->err, "fettle: ", 8) != 0) fail_msg("%s: who says it? %s", b->line, r->err);
    if (!strstr(r->err, b->says)) fail_msg("%s: no '%s' in: %s", b->line, b->says, r->err);
}

static void test_bad_without_garage(void **state)
{
    (void)state;
    struct place *p = place_open();
    for (size_t i = 0; i < sizeof no_garage_needed / sizeof *no_garage_needed; i++)
        check(p, &no_garage_needed[i]);
    run_good(p, "! test -e .local"); /* nobody made a garage by asking */
    place_close(p);
}

static void test_bad_changes_nothing(void **state)
{
    (void)state;
    struct place *p = place_open();
    run_good(p, "fettle new && fettle intake name=Old standing=30 hours=6 a-month=200 && fettle "
                "add slot weekday=tue "
                "from=19:00 to=22:00");
    const char *basis =
        arena_copy(&p->arena, run_good(p, "fettle garage info --json --date 2026-11-25")->out);
    assert_non_null(strstr(basis, "\"basis\": \""));
    for (size_t i = 0; i < sizeof in_a_garage / sizeof *in_a_garage; i++) {
        check(p, &in_a_garage[i]);
        const char *now = run_good(p, "fettle garage info --json --date 2026-11-25")->out;
        if (strcmp(now, basis) != 0) fail_msg("%s: changed the garage", in_a_garage[i].line);
    }
    run_good(p, "fettle garage check");
    place_close(p);
}

/* Another person's folder: as root the program is run as nobody, because root may write anywhere.
 */
static void test_read_only_garage(void **state)
{
    (void)state;
    struct place *p = place_open();
    run_good(
        p,
        "fettle new g && fettle intake name=Old --garage g && chmod -R a+rX . && chmod -R a-w g");
    const char *as = geteuid() == 0 ? "setpriv --reuid 65534 --regid 65534 --clear-groups " : "";
    const char *line = arena_print(&p->arena, "%s'%s' --version", as, p->program);
    if (run_line(p, line)->status != 0) {
        place_close(p);
        print_message("skipped: the program cannot be run as another user here\n");
        skip();
    }
    line = arena_print(&p->arena, "%s'%s' add slot weekday=tue from=19:00 to=22:00 --garage g", as,
                       p->program);
    check(p, &(struct bad){line, 3, "g"});
    run_good(p, "chmod -R u+w g && fettle garage check --garage g && ! fettle list slots --garage "
                "g | grep tue");
    place_close(p);
}

static void test_full_disk_is_told(void **state)
{
    (void)state;
    struct place *p = place_open();
    if (access("/dev/full", W_OK) != 0) {
        place_close(p);
        print_message("skipped: no /dev/full here\n");
        skip();
    }
    check(p, &(struct bad){"fettle --help >/dev/full", 3, "could not be written"});
    check(p, &(struct bad){"fettle trade list jobs --json >/dev/full", 3, "could not be written"});
    place_close(p);
}

static void test_options_stand_anywhere(void **state)
{
    (void)state;
    struct place *p = place_open();
    run_good(
        p,
        "fettle new g && fettle --garage g intake name=Old && fettle intake --garage=g name=Young");
    static const char *const lines[] = {
        "fettle list vehicle --garage g --json",
        "fettle list --garage g --json vehicle",
        "fettle --garage g --json list vehicle",
        "fettle --json list --garage=g vehicle",
        "fettle --garage g --json -- list vehicle",
        "FETTLE_GARAGE=g fettle list --json vehicle",
        "export XDG_DATA_HOME=$PWD/x; mkdir x; ln -s ../g x/fettle; fettle list vehicle --json",
    };
    for (size_t i = 0; i < sizeof lines / sizeof *lines; i++) {
        const struct ran *r = run_good(p, lines[i]);
        assert_non_null(strstr(r->out, "\"Old\""));
        assert_non_null(strstr(r->out, "\"Young\""));
    }
    check(p, &(struct bad){"fettle add finding component=radiator condition=poor --garage g", 2,
                           "one of: Old, Young"});
    run_good(p, "fettle add finding component=radiator condition=poor --garage g --vehicle Young");
    place_close(p);
}

static void test_help_of_every_verb(void **state)
{
    (void)state;
    struct place *p = place_open();
    run_good(p, "fettle --help | grep -q Verbs: && fettle -h | grep -q Verbs: && fettle --version "
                "| grep -q '^fettle '");
    run_good(p, "for v in $(fettle help | sed -n '/^Verbs:/,/^$/s/^  \\([a-z]*\\) .*/\\1/p'); do "
                "fettle $v --help >h || exit 1; grep -q '^Usage:' h || exit 1; grep -q "
                "'^Examples:' h || exit 1; "
                "fettle help $v | cmp - h || exit 1; done; test -s h");
    place_close(p);
}

static void test_completion(void **state)
{
    (void)state;
    static const struct {
        const char *typed, *position, *offered;
    } cases[] = {
        {"fettle inta", "1", "intake"},
        {"fettle add findi", "2", "finding"},
        {"fettle trade se", "2", "search"},
        {"fettle list --js", "2", "--json"},
    };
    struct place *p = place_open();
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        const char *line =
            arena_print(&p->arena,
                        "fettle complete bash >c; test \"$(bash -c 'source c; COMP_WORDS=(%s); "
                        "COMP_CWORD=%s; _fettle; "
                        "echo ${COMPREPLY[@]}')\" = '%s'",
                        cases[i].typed, cases[i].position, cases[i].offered);
        run_good(p, line);
    }
    run_good(p, "fettle complete zsh | grep -q '^#compdef fettle' && fettle complete fish | grep "
                "-q -- '-l json'");
    place_close(p);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_bad_without_garage),
        cmocka_unit_test(test_bad_changes_nothing),
        cmocka_unit_test(test_read_only_garage),
        cmocka_unit_test(test_full_disk_is_told),
        cmocka_unit_test(test_options_stand_anywhere),
        cmocka_unit_test(test_help_of_every_verb),
        cmocka_unit_test(test_completion),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
