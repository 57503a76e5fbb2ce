/* The command line into a struct context. */
#include "face/cli/context.h"

#include <string.h>

/* An option of any verb: needed to find the verb when options stand before it. */
static const struct option *option_of_any(const char *name)
{
    const struct option *o = option_find(global_options, name);
    for (int i = 0; !o && commands[i]; i++) o = option_find(commands[i]->options, name);
    return o;
}

static const char *find_verb(int argc, char *const argv[], struct arena *a)
{
    for (int i = 1; i < argc; i++) {
        if (text_is(argv[i], "--")) return i + 1 < argc ? argv[i + 1] : NULL;
        if (argv[i][0] != '-' || argv[i][1] == '\0') return argv[i];
        const char *name = argv[i] + strspn(argv[i], "-");
        size_t n = strcspn(name, "=");
        const struct option *o = option_of_any(arena_copy_n(a, name, n));
        if (o && o->argument && name[n] != '=') i++;
    }
    return NULL;
}

static bool unknown_option(const struct context *c, const char *name, struct fail *f)
{
    const char *known[OPTIONS_MAX];
    int count = 0;
    for (const struct option *o = global_options; o->name; o++) known[count++] = o->name;
    for (const struct option *o = c->command ? c->command->options : NULL;
         o && o->name && count < OPTIONS_MAX; o++)
        known[count++] = o->name;
    const char *near = nearest_word(name, known, count);
    const char *verb = c->command ? c->command->name : "VERB";
    if (near) return fail_set(f, FAIL_INPUT, "no option --%s here; did you mean --%s?", name, near);
    return fail_set(f, FAIL_INPUT, "no option --%s here; 'fettle help %s' lists them", name, verb);
}

static bool take_option(struct context *c, int argc, char *const argv[], int *i, struct fail *f)
{
    const char *word = argv[*i];
    if (text_is(word, "-h")) word = "--help";
    if (!text_starts(word, "--"))
        return fail_set(f, FAIL_INPUT, "no option %s; options begin with two dashes, as in --help",
                        word);
    size_t n = strcspn(word, "=");
    const char *name = arena_copy_n(c->arena, word + 2, n - 2);
    const char *value = word[n] == '=' ? word + n + 1 : NULL;
    const struct option *o = option_find(global_options, name);
    if (!o && c->command) o = option_find(c->command->options, name);
    if (!o) return unknown_option(c, name, f);
    if (o->argument && !value) {
        if (*i + 1 >= argc || text_starts(argv[*i + 1], "--"))
            return fail_set(f, FAIL_INPUT, "--%s needs a value: --%s %s", name, name, o->argument);
        value = argv[++*i];
    }
    if (!o->argument && value)
        return fail_set(f, FAIL_INPUT, "--%s takes no value; leave out '=%s'", name, value);
    if (o->argument && !*value)
        return fail_set(f, FAIL_INPUT, "--%s is empty: --%s %s", name, name, o->argument);
    if (c->n_given == OPTIONS_MAX)
        return fail_set(f, FAIL_INPUT, "more than %d options; give each once", OPTIONS_MAX);
    c->given[c->n_given].name = o->name;
    c->given[c->n_given++].value = o->argument ? value : "";
    return true;
}

bool context_parse(struct context *c, int argc, char *const argv[], struct fail *f)
{
    for (int i = 1; i < argc; i++)
        if (!text_is_utf8(argv[i], strlen(argv[i])))
            return fail_set(f, FAIL_INPUT,
                            "word %d of the command line is not UTF-8; type it again", i);
    const char *verb = find_verb(argc, argv, c->arena);
    c->command = verb ? command_find(verb) : NULL;
    if (verb && !c->command) {
        const char *near = command_nearest(verb);
        if (near)
            return fail_set(f, FAIL_INPUT,
                            "no verb '%s'; did you mean '%s'? 'fettle --help' lists them all", verb,
                            near);
        return fail_set(f, FAIL_INPUT, "no verb '%s'; 'fettle --help' lists them all", verb);
    }
    c->words = ARENA_ARRAY(c->arena, const char *, argc);
    bool options = true, verb_seen = false;
    for (int i = 1; i < argc; i++) {
        if (options && text_is(argv[i], "--")) {
            options = false;
        } else if (options && argv[i][0] == '-' && argv[i][1]) {
            if (!take_option(c, argc, argv, &i, f)) return false;
        } else if (!verb_seen) {
            verb_seen = true;
        } else {
            c->words[c->n_words++] = argv[i];
        }
    }
    c->json = context_option(c, "json") != NULL;
    const char *date = context_option(c, "date");
    if (date) {
        struct fail why = {0};
        if (!day_parse(date, &c->today, &why))
            return fail_set(f, FAIL_INPUT, "--date: %s", why.text);
    }
    return true;
}

const char *context_option(const struct context *c, const char *name)
{
    const char *value = NULL;
    for (int i = 0; i < c->n_given; i++)
        if (text_is(c->given[i].name, name)) value = c->given[i].value; /* the last one counts */
    return value;
}

bool context_whole(const struct context *c, const char *name, int64_t low, int64_t high,
                   int64_t fallback, int64_t *out, struct fail *f)
{
    const char *value = context_option(c, name);
    *out = fallback;
    if (!value) return true;
    if (!text_to_int(value, out) || *out < low || *out > high)
        return fail_set(f, FAIL_INPUT, "--%s: '%s' is not a whole number from %lld to %lld", name,
                        value, (long long)low, (long long)high);
    return true;
}
