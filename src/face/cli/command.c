#include "face/cli/command.h"

#include "face/cli/verbs.h"
#include "face/cli/wrap.h"

#include <string.h>

/* clang-format off */
const struct command *const commands[] = {
    &command_new,
    &command_intake,
    &command_survey,
    &command_identify,
    &command_originality,
    &command_choose,
    &command_plan,
    &command_session,
    &command_bag,
    &command_tools,
    &command_log,
    &command_pace,
    &command_fit,
    &command_buying,
    &command_view,
    &command_loom,
    &command_safe,
    &command_setback,
    &command_quote,
    &command_yard,
    &command_household,
    &command_calendar,
    &command_find_,
    &command_add,
    &command_change,
    &command_remove,
    &command_list,
    &command_undo,
    &command_kinds,
    &command_bench,
    &command_serve,
    &command_trade,
    &command_garage,
    &command_demo,
    &command_help_,
    &command_complete,
    NULL,
};
/* clang-format on */

const struct option global_options[] = {
    {"vehicle", "NAME", "which vehicle; the only one if left out"},
    {"date", "DAY", "the day it is, as 2026-11-25; today if left out"},
    {"garage", "DIR", "the garage's folder; else FETTLE_GARAGE, else the XDG data folder"},
    {"json", NULL, "print JSON"},
    {"no-color", NULL, "no colour; so do NO_COLOR and a pipe"},
    {"help", NULL, "say how a verb is used"},
    {"version", NULL, "print the version"},
    {NULL, NULL, NULL},
};

const struct command *command_find(const char *name)
{
    for (int i = 0; commands[i]; i++)
        if (text_is(commands[i]->name, name)) return commands[i];
    return NULL;
}

const struct option *option_find(const struct option *list, const char *name)
{
    for (; list && list->name; list++)
        if (text_is(list->name, name)) return list;
    return NULL;
}

const char *nearest_word(const char *word, const char *const *words, int count)
{
    const char *nearest = NULL;
    int best = 1 + (int)strlen(word) / 3; /* a third of the letters may be wrong */
    for (int i = 0; i < count; i++) {
        int distance = text_distance(word, words[i]);
        if (distance <= best && (!nearest || distance < best)) {
            nearest = words[i];
            best = distance;
        }
    }
    return nearest;
}

const char *command_nearest(const char *word)
{
    const char *names[sizeof commands / sizeof *commands];
    int count = 0;
    for (; commands[count]; count++) names[count] = commands[count]->name;
    return nearest_word(word, names, count);
}

/* A name, then its meaning from the given column on. */
static void definition(struct text *out, const char *name, const char *meaning, int column,
                       int width)
{
    struct lines l = wrap_lines(out->arena, meaning, width - column > 20 ? width - column : 20);
    text_print(out, "  %s", name);
    int used = 2 + text_width(name);
    for (int i = 0; i < l.count; i++) {
        if (i > 0 || used + 1 > column) {
            if (i > 0 || used > 0) text_add(out, "\n");
            used = 0;
        }
        wrap_repeat(out, " ", column - used);
        text_add(out, l.line[i]);
        used = column;
    }
    text_add(out, "\n");
}

static void paragraph(struct text *out, const char *s, int width)
{
    struct lines l = wrap_lines(out->arena, s, width);
    for (int i = 0; i < l.count; i++) text_print(out, "%s\n", l.line[i]);
}

static void list_options(struct text *out, const struct option *list, int width)
{
    for (; list && list->name; list++) {
        const char *name = list->argument
                               ? arena_print(out->arena, "--%s %s", list->name, list->argument)
                               : arena_print(out->arena, "--%s", list->name);
        definition(out, name, list->help, 20, width);
    }
}

void command_help_all(struct text *out, int width)
{
    text_add(out, "fettle: bring a long-stored old vehicle back to life\n\n");
    text_add(out, "Usage: fettle VERB [words] [options]\n\nVerbs:\n");
    for (int i = 0; commands[i]; i++)
        definition(out, commands[i]->name, commands[i]->help, 13, width);
    text_add(out, "\nOptions, anywhere on the line:\n");
    list_options(out, global_options, width);
    text_add(out, "\nBegin with:\n  fettle new ~/garage\n  fettle intake --garage ~/garage\n\n");
    paragraph(out,
              "'fettle help VERB' says how a verb is used. Exit status: 0 done; 1 the answer is "
              "no; 2 wrong "
              "use or bad input; 3 the garage cannot be used.",
              width);
}

void command_help(struct text *out, const struct command *c, int width)
{
    paragraph(out, arena_print(out->arena, "fettle %s: %s", c->name, c->help), width);
    text_add(out, "\nUsage:\n");
    for (const char *line = c->usage; line;) {
        size_t n = strcspn(line, "\n");
        text_print(out, "  fettle %s%s%s\n", c->name, n ? " " : "",
                   arena_copy_n(out->arena, line, n));
        line = line[n] ? line + n + 1 : NULL;
    }
    if (c->text) {
        text_add(out, "\n");
        paragraph(out, c->text, width);
    }
    if (c->options) {
        text_add(out, "\nOptions:\n");
        list_options(out, c->options, width);
    }
    if (c->examples) {
        text_add(out, "\nExamples:\n");
        for (const struct example *e = c->examples; e->line; e++)
            text_print(out, "  %s\n      %s\n", e->line, e->what);
    }
    text_add(out, "\n");
    paragraph(
        out,
        "Options of every verb: --vehicle, --date, --garage, --json, --no-color ('fettle --help').",
        width);
}
