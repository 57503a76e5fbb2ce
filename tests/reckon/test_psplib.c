/* test_psplib.c - the serial scheme with latest-finish priority on published instances, row by row.
 *
 * Instances: PSPLIB sets j30, j60, j120 (source in psplib.h). Reference: the makespans in
 * lft-serial-*.csv, computed by another program; optima and lower bounds in bestknown-*.csv,
 * published. */
#include "base/text.h"
#include "reckon/psplib.h"
#include "reckon/serial.h"

#include "reckon/near.h"

#include <stdio.h>
#include <string.h>

#define PSPLIB_DIR SHARED_DIR "/data/psplib"

static struct arena arena;

/* The whole file, or NULL if it cannot be read. */
static char *read_file(struct arena *a, const char *path)
{
    FILE *file = fopen(path, "rb");
    if (!file) return NULL;
    size_t room = 1 << 17;
    char *text = arena_take(a, room, 1);
    size_t n = fread(text, 1, room - 1, file);
    assert_true(n < room - 1); /* or the file was cut off */
    fclose(file);
    return text;
}

/* The makespan of the latest-finish list, and the length of the critical path. */
static int schedule(const struct psplib *p, double *critical_path, struct arena scratch)
{
    struct network network;
    struct network_cycle cycle;
    struct fail f = {0};
    struct network_link *links = ARENA_ARRAY(&scratch, struct network_link, p->links);
    double *duration = ARENA_ARRAY(&scratch, double, p->jobs);
    int *list = ARENA_ARRAY(&scratch, int, p->jobs), *start = ARENA_ARRAY(&scratch, int, p->jobs);
    int finish;

    for (int i = 0; i < p->links; i++) {
        links[i] = (struct network_link){p->before[i], p->after[i]};
    }
    for (int j = 0; j < p->jobs; j++) duration[j] = p->duration[j];
    assert_true(network_make(&scratch, p->jobs, links, p->links, &network, &cycle));
    *critical_path = network_times_of(&scratch, &network, duration).finish;

    struct serial_project project = {&network, p->duration, p->resources, p->request, p->capacity};
    assert_true(serial_valid(&project, &f));
    serial_latest_finish_list(&project, list, scratch);
    int makespan = serial_by_list(&project, list, start, scratch);
    if (!psplib_check(p, start, &finish, scratch, &f)) fail_msg("%s", f.text);
    assert_int_equal(finish, makespan);
    return makespan;
}

struct bounds {
    int least, best, critical_path;
};

static struct bounds bounds_of(const char *table, const char *instance)
{
    struct bounds b = {0};
    size_t n = strlen(instance);
    for (const char *at = table; at; at = strchr(at, '\n') ? strchr(at, '\n') + 1 : NULL) {
        if (strncmp(at, instance, n) == 0 && at[n] == ',') {
            assert_int_equal(sscanf(at + n, ",%d,%d,%d", &b.least, &b.best, &b.critical_path), 3);
            return b;
        }
    }
    fail_msg("no bounds for %s", instance);
    return b;
}

/* `above`: mean percent above the optimum, or above the critical path, over the whole set; known to
 * 2 decimals from another program. */
struct set {
    const char *name;
    int rows;
    bool above_optimum;
    double above;
};

static void row_by_row(void **state)
{
    const struct set *set = *state;
    struct arena scratch = arena;
    char path[300], instance[32];
    int rows = 0, expected;
    double above = 0;

    snprintf(path, sizeof path, PSPLIB_DIR "/lft-serial-%s.csv", set->name);
    char *reference = read_file(&scratch, path);
    snprintf(path, sizeof path, PSPLIB_DIR "/bestknown-%s.csv", set->name);
    char *bounds = read_file(&scratch, path);
    if (!reference || !bounds) {
        print_message("skipped: no published instances %s in " PSPLIB_DIR "\n", set->name);
        skip();
    }
    for (char *line = strchr(reference, '\n'); line && line[1]; line = strchr(line + 1, '\n')) {
        struct arena one = scratch;
        struct psplib p;
        struct fail f = {0};
        double critical_path;

        assert_int_equal(sscanf(line + 1, "%31[^,],%d", instance, &expected), 2);
        snprintf(path, sizeof path, PSPLIB_DIR "/%s/%s.sm", set->name, instance);
        char *text = read_file(&one, path);
        if (!text) fail_msg("%s is in the table but cannot be read", path);
        if (!psplib_parse(&one, path, text, &p, &f)) fail_msg("%s", f.text);
        int makespan = schedule(&p, &critical_path, one);
        if (makespan != expected) fail_msg("%s: %d, not %d", instance, makespan, expected);

        struct bounds b = bounds_of(bounds, instance);
        assert_true(makespan >= b.least);
        assert_near(critical_path, b.critical_path, 0);
        double base = set->above_optimum ? b.best : b.critical_path;
        above += 100 * (makespan - base) / base;
        rows++;
    }
    assert_int_equal(rows, set->rows);
    assert_near(above / rows, set->above, 0.005);
}

/* A whole instance, small. */
static const char *const lines[] = {
    "jobs (incl. supersource/sink ):  4",
    "  - renewable                 :  1   R",
    "PRECEDENCE RELATIONS:",
    "jobnr.    #modes  #successors   successors",
    "   1        1          2           2   3",
    "   2        1          1           4",
    "   3        1          1           4",
    "   4        1          0",
    "REQUESTS/DURATIONS:",
    "jobnr. mode duration  R 1",
    "-------------------------",
    "  1      1     0       0",
    "  2      1     3       2",
    "  3      1     2       1",
    "  4      1     0       0",
    "RESOURCEAVAILABILITIES:",
    "  R 1",
    "    2",
};
enum { LINES = sizeof lines / sizeof lines[0] };

/* With line `changed` (from 1; 0: none) replaced; NULL: the text ends before it. */
static char *instance_with(struct arena *a, int changed, const char *by)
{
    struct text t = {.arena = a};
    for (int i = 1; i <= LINES; i++) {
        if (i == changed && !by) break;
        text_print(&t, "%s\n", i == changed ? by : lines[i - 1]);
    }
    return arena_copy(a, text_get(&t));
}

static void faults_name_file_and_line(void **state)
{
    (void)state;
    static const struct {
        int line;
        const char *by, *fault; /* fault NULL: it is read */
    } cases[] = {
        {0, NULL, NULL},
        {1, "jobs (incl. supersource/sink ):  x", "a.sm:1: a whole number is missing"},
        {1, "jobs (incl. supersource/sink ):  1", "a.sm:1: the number is too small"},
        {1, "jobs (incl. supersource/sink ):  20000", "a.sm:2: the instance is too large"},
        {2, "nothing", "a.sm:18: the file ends before '- renewable'"},
        {5, "   1        2          2           2   3", "a.sm:5: a job of one mode"},
        {5, "   1        1          2           2", "a.sm:5: a whole number is missing"},
        {6, "   3        1          1           4", "a.sm:6: not the number of the job"},
        {6, "   2        1          1           5", "a.sm:6: there is no such successor"},
        {6, "   2        1          1           -4", "a.sm:6: a whole number is missing"},
        {8, NULL, "a.sm:7: the file ends here"},
        {13, "  2      1     3000000  2", "a.sm:13: the number is beyond a million"},
        {14, "  3      1     2", "a.sm:14: a whole number is missing"},
        {18, NULL, "a.sm:17: the capacities are missing"},
        {18, "    x", "a.sm:18: a whole number is missing"},
    };
    for (size_t k = 0; k < sizeof cases / sizeof cases[0]; k++) {
        struct arena scratch = arena;
        struct psplib p;
        struct fail f = {0};
        const char *text = instance_with(&scratch, cases[k].line, cases[k].by);
        bool read = psplib_parse(&scratch, "a.sm", text, &p, &f);
        if (cases[k].fault && !strstr(f.text, cases[k].fault)) {
            fail_msg("'%s' instead of '%s'", f.text, cases[k].fault);
        }
        assert_int_equal(read, cases[k].fault == NULL);
    }
}

static void checker_refuses(void **state)
{
    (void)state;
    static const struct {
        int start[4], finish;
        const char *fault; /* NULL: a schedule */
    } cases[] = {
        {{0, 0, 3, 5}, 5, NULL},
        {{0, 2, 0, 9}, 9, NULL},
        {{0, 0, 2, 4}, 0, "period 2: job 3 takes resource 1 beyond 2"},
        {{0, 0, 3, 4}, 0, "job 4 starts at 4, before job 3 ends at 5"},
        {{1, 0, 3, 5}, 0, "job 2 starts at 0, before job 1 ends at 1"},
        {{-1, 0, 3, 5}, 0, "job 1 starts at -1"},
    };
    struct psplib p;
    struct fail f = {0};
    struct arena scratch = arena;
    assert_true(psplib_parse(&scratch, "a.sm", instance_with(&scratch, 0, NULL), &p, &f));
    for (size_t k = 0; k < sizeof cases / sizeof cases[0]; k++) {
        int finish;
        f = (struct fail){0};
        bool good = psplib_check(&p, cases[k].start, &finish, scratch, &f);
        assert_int_equal(good, cases[k].fault == NULL);
        if (good) assert_int_equal(finish, cases[k].finish);
        if (cases[k].fault) assert_string_equal(f.text, cases[k].fault);
    }
}

static int open_arena(void **state)
{
    (void)state;
    arena = arena_open(8 << 20);
    return 0;
}

static int close_arena(void **state)
{
    (void)state;
    arena_close(&arena);
    return 0;
}

int main(void)
{
    static struct set sets[] = {
        {"j30", 480, true, 5.58}, {"j60", 480, false, 18.13}, {"j120", 600, false, 48.11}};
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(faults_name_file_and_line),
        cmocka_unit_test(checker_refuses),
        {"j30_row_by_row", row_by_row, NULL, NULL, &sets[0]},
        {"j60_row_by_row", row_by_row, NULL, NULL, &sets[1]},
        {"j120_row_by_row", row_by_row, NULL, NULL, &sets[2]},
    };
    return cmocka_run_group_tests(tests, open_arena, close_arena);
}
