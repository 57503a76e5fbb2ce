/* The command line taken apart: options anywhere, both spellings, "--" ends them. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "face/cli/context.h"

#include <string.h>

struct parsed {
    const char *line;  /* words, '|' between */
    const char *verb;  /* NULL: none */
    const char *words; /* '|' between */
    const char *vehicle, *garage;
    bool json;
};

static const struct parsed good[] = {
    {"", NULL, "", NULL, NULL, false},
    {"--version", NULL, "", NULL, NULL, false},
    {"list|finding", "list", "finding", NULL, NULL, false},
    {"list|--json|finding", "list", "finding", NULL, NULL, true},
    {"--vehicle|list|list|finding", "list", "finding", "list", NULL, false},
    {"--vehicle=Old|list|finding", "list", "finding", "Old", NULL, false},
    {"--vehicle=a=b|list", "list", "", "a=b", NULL, false},
    {"add|finding|note=--json", "add", "finding|note=--json", NULL, NULL, false},
    {"add|--|--json|-x", "add", "--json|-x", NULL, NULL, false},
    {"--json|--|add|--", "add", "--", NULL, NULL, true},
    {"add|-", "add", "-", NULL, NULL, false},
    {"add|", "add", "", NULL, NULL, false},
    {"list|--garage|a|--garage=b", "list", "", NULL, "b", false},
    {"list|--vehicle|-5", "list", "", "-5", NULL, false},
    {"list|--garage|g h", "list", "", NULL, "g h", false},
};

static const struct {
    const char *line, *says;
} bad[] = {
    {"lst", "did you mean 'list'"},
    {"zzzzzz", "lists them all"},
    {"--nothing", "no option --nothing"},
    {"list|--vehicel|x", "did you mean --vehicle"},
    {"list|-j", "two dashes"},
    {"list|--garage", "needs a value"},
    {"list|--garage|--json", "needs a value"},
    {"list|--garage=", "is empty"},
    {"list|--json=1", "takes no value"},
    {"list|--date|2026-13-01", "--date"},
    {"list|--date|2026-02-29", "--date"},
    {"li\xff", "not UTF-8"},
};

static bool parse(struct arena *a, struct context *c, const char *line, struct fail *f)
{
    char *argv[64] = {"fettle"}, *words = arena_copy(a, line);
    int argc = 1;
    for (char *word = *words ? words : NULL; word; argc++) {
        char *bar = strchr(word, '|');
        if (bar) *bar = '\0';
        argv[argc] = word;
        word = bar ? bar + 1 : NULL;
    }
    *c = (struct context){.arena = a};
    return context_parse(c, argc, argv, f);
}

static void same(const char *line, const char *got, const char *wanted)
{
    if (got ? !wanted || strcmp(got, wanted) != 0 : wanted != NULL)
        fail_msg("%s: %s, not %s", line, got ? got : "nothing", wanted ? wanted : "nothing");
}

static void test_good(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof good / sizeof *good; i++) {
        struct arena a = arena_open(1 << 20);
        struct context c;
        struct fail f = {0};
        if (!parse(&a, &c, good[i].line, &f)) fail_msg("%s: %s", good[i].line, f.text);
        struct text words = {.arena = &a};
        for (int k = 0; k < c.n_words; k++) text_print(&words, "%s%s", k ? "|" : "", c.words[k]);
        same(good[i].line, c.command ? c.command->name : NULL, good[i].verb);
        same(good[i].line, text_get(&words), good[i].words);
        same(good[i].line, context_option(&c, "vehicle"), good[i].vehicle);
        same(good[i].line, context_option(&c, "garage"), good[i].garage);
        assert_true(c.json == good[i].json);
        arena_close(&a);
    }
}

static void test_bad(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof bad / sizeof *bad; i++) {
        struct arena a = arena_open(1 << 20);
        struct context c;
        struct fail f = {0};
        if (parse(&a, &c, bad[i].line, &f)) fail_msg("%s: taken", bad[i].line);
        assert_int_equal(f.kind, FAIL_INPUT);
        if (!strstr(f.text, bad[i].says)) fail_msg("%s: %s", bad[i].line, f.text);
        arena_close(&a);
    }
}

/* What every table promises: a help, a usage, examples that begin with the program, no quote that
 * would end a word of the fish completion, options not among those of all verbs. */
static void test_commands(void **state)
{
    (void)state;
    for (int i = 0; commands[i]; i++) {
        const struct command *c = commands[i];
        assert_non_null(c->help);
        assert_non_null(c->usage);
        assert_non_null(c->run);
        assert_non_null(c->examples);
        assert_null(strchr(c->help, '\''));
        for (const struct example *e = c->examples; e->line; e++)
            assert_non_null(strstr(e->line, "fettle "));
        for (const struct option *o = c->options; o && o->name; o++) {
            assert_null(option_find(global_options, o->name));
            assert_null(strchr(o->help, '\''));
        }
        assert_ptr_equal(command_find(c->name), c);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_good),
        cmocka_unit_test(test_bad),
        cmocka_unit_test(test_commands),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
