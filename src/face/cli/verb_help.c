/* help, and the words for completion in a shell. */
#include "face/cli/context.h"
#include "face/cli/verbs.h"

#include <stdio.h>

static bool run_help(struct context *c, struct fail *f)
{
    struct text out = {.arena = c->arena};
    if (c->n_words == 0) {
        command_help_all(&out, c->style.width);
    } else {
        const struct command *command = command_find(c->words[0]);
        const char *near = command_nearest(c->words[0]);
        if (!command && near)
            return fail_set(f, FAIL_INPUT, "no verb '%s'; did you mean '%s'?", c->words[0], near);
        if (!command)
            return fail_set(f, FAIL_INPUT, "no verb '%s'; 'fettle help' lists them", c->words[0]);
        command_help(&out, command, c->style.width);
    }
    fputs(text_get(&out), stdout);
    return true;
}

static const struct example help_examples[] = {
    {"fettle help intake", "the same as fettle intake --help"},
    {NULL, NULL},
};
const struct command command_help_ = {
    .name = "help",
    .help = "say how a verb is used",
    .usage = "[VERB]",
    .examples = help_examples,
    .words = "VERB",
    .run = run_help,
};

/* ---- completion: the table of commands in the language of each shell ---- */

static void words_of(struct text *out, const char *words)
{
    if (text_is(words, "KIND")) {
        for (int i = 0; record_kinds[i]; i++)
            text_print(out, "%s%s", i ? " " : "", record_kinds[i]->name);
    } else if (text_is(words, "VERB")) {
        for (int i = 0; commands[i]; i++) text_print(out, "%s%s", i ? " " : "", commands[i]->name);
    } else if (words) {
        text_add(out, words);
    }
}

static void options_of(struct text *out, const struct option *list)
{
    for (; list && list->name; list++) text_print(out, " --%s", list->name);
}

static void cases(struct text *out, const char *indent)
{
    for (int i = 0; commands[i]; i++) {
        text_print(out, "%s%s) words=\"", indent, commands[i]->name);
        words_of(out, commands[i]->words);
        text_add(out, "\" options=\"");
        options_of(out, commands[i]->options);
        text_add(out, "\" ;;\n");
    }
}

static void complete_bash(struct text *out)
{
    text_add(out, "# bash completion of fettle; made by: fettle complete bash\n"
                  "_fettle()\n{\n"
                  "    local here=${COMP_WORDS[COMP_CWORD]} words= options=\n"
                  "    if [ \"$COMP_CWORD\" -eq 1 ]; then\n"
                  "        COMPREPLY=($(compgen -W \"");
    words_of(out, "VERB");
    text_add(out, "\" -- \"$here\"))\n        return\n    fi\n    case ${COMP_WORDS[1]} in\n");
    cases(out, "        ");
    text_add(out, "    esac\n    options=\"$options");
    options_of(out, global_options);
    text_add(out, "\"\n    [ \"$COMP_CWORD\" -gt 2 ] && words=\n"
                  "    case $here in -*) words=$options ;; esac\n"
                  "    COMPREPLY=($(compgen -W \"$words\" -- \"$here\"))\n"
                  "    [ ${#COMPREPLY[@]} -gt 0 ] || COMPREPLY=($(compgen -f -- \"$here\"))\n"
                  "}\ncomplete -F _fettle fettle\n");
}

static void complete_zsh(struct text *out)
{
    text_add(out, "#compdef fettle\n# zsh completion of fettle; made by: fettle complete zsh\n"
                  "_fettle()\n{\n    local verb=${words[2]} position=$CURRENT\n"
                  "    if (( position == 2 )); then\n        compadd -- ");
    words_of(out, "VERB");
    text_add(out, "\n        return\n    fi\n    case $verb in\n");
    for (int i = 0; commands[i]; i++) {
        text_print(out, "        %s) ", commands[i]->name);
        if (commands[i]->words) {
            text_add(out, "(( position == 3 )) && compadd -- ");
            words_of(out, commands[i]->words);
            text_add(out, "; ");
        }
        if (commands[i]->options) {
            text_add(out, "compadd --");
            options_of(out, commands[i]->options);
            text_add(out, "; ");
        }
        text_add(out, ";;\n");
    }
    text_add(out, "    esac\n    [[ ${words[CURRENT]} == -* ]] && compadd --");
    options_of(out, global_options);
    text_add(out, "\n    _files\n}\n_fettle \"$@\"\n");
}

static void complete_fish(struct text *out)
{
    text_add(out, "# fish completion of fettle; made by: fettle complete fish\n");
    for (int i = 0; commands[i]; i++)
        text_print(out, "complete -c fettle -n __fish_use_subcommand -a %s -d '%s'\n",
                   commands[i]->name, commands[i]->help);
    for (int i = 0; commands[i]; i++) {
        const char *name = commands[i]->name;
        if (commands[i]->words) {
            text_print(out, "complete -c fettle -n '__fish_seen_subcommand_from %s' -a '", name);
            words_of(out, commands[i]->words);
            text_add(out, "'\n");
        }
        for (const struct option *o = commands[i]->options; o && o->name; o++)
            text_print(out,
                       "complete -c fettle -n '__fish_seen_subcommand_from %s' -l %s%s -d '%s'\n",
                       name, o->name, o->argument ? " -r" : "", o->help);
    }
    for (const struct option *o = global_options; o->name; o++)
        text_print(out, "complete -c fettle -l %s%s -d '%s'\n", o->name, o->argument ? " -r" : "",
                   o->help);
}

static bool run_complete(struct context *c, struct fail *f)
{
    static const struct {
        const char *shell;
        void (*print)(struct text *);
    } shells[] = {{"bash", complete_bash}, {"zsh", complete_zsh}, {"fish", complete_fish}};
    for (size_t i = 0; i < sizeof shells / sizeof *shells; i++)
        if (c->n_words == 1 && text_is(c->words[0], shells[i].shell)) {
            struct text out = {.arena = c->arena};
            shells[i].print(&out);
            fputs(text_get(&out), stdout);
            return true;
        }
    return fail_set(f, FAIL_INPUT, "complete: say for which shell: bash, zsh or fish");
}

static const struct example complete_examples[] = {
    {"source <(fettle complete bash)", "in ~/.bashrc"},
    {"fettle complete fish > ~/.config/fish/completions/fettle.fish", "once"},
    {NULL, NULL},
};
const struct command command_complete = {
    .name = "complete",
    .help = "print completion for a shell",
    .usage = "bash|zsh|fish",
    .examples = complete_examples,
    .words = "bash zsh fish",
    .run = run_complete,
};
