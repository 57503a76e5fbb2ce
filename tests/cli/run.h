/* run.h - runs the built program in a folder of its own, as a person would from a shell.
 *
 * The program is $FETTLE, else build/fettle; tests are skipped where there is none. HOME, TMPDIR
 * and the garage are inside the folder, so that nothing outside is read or written. */
#ifndef TESTS_CLI_RUN_H
#define TESTS_CLI_RUN_H

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "base/arena.h"

#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

struct ran {
    int status; /* exit status, or -1 if it was killed */
    char out[1 << 18], err[1 << 12];
};

struct place {
    struct arena arena;
    const char *program, *dir;
};

static inline void read_whole(FILE *in, char *to, size_t room)
{
    size_t n = fread(to, 1, room - 1, in);
    to[n] = '\0';
    while (fgetc(in) != EOF) {
    }
}

/* A shell command line in the folder; `fettle` in it is the program. The answer holds until the
 * next one. */
static inline const struct ran *run_line(struct place *p, const char *line)
{
    static struct ran ran;
    const char *command =
        arena_print(&p->arena,
                    "cd '%s' && export HOME='%s' XDG_DATA_HOME= FETTLE_GARAGE= COLUMNS= NO_COLOR= "
                    "LC_ALL=en_GB.UTF-8 && fettle() { '%s' \"$@\"; } && { %s\n} 2>err",
                    p->dir, p->dir, p->program, line);
    FILE *out = popen(command, "r");
    assert_non_null(out);
    read_whole(out, ran.out, sizeof ran.out);
    int status = pclose(out);
    ran.status = WIFEXITED(status) ? WEXITSTATUS(status) : -1;
    FILE *err = fopen(arena_print(&p->arena, "%s/err", p->dir), "r");
    assert_non_null(err);
    read_whole(err, ran.err, sizeof ran.err);
    fclose(err);
    return &ran;
}

/* As run_line, and the exit status must be 0. */
static inline const struct ran *run_good(struct place *p, const char *line)
{
    const struct ran *r = run_line(p, line);
    if (r->status != 0) fail_msg("%s: exit status %d: %s", line, r->status, r->err);
    return r;
}

static inline struct place *place_open(void)
{
    static struct place p;
    const char *program = getenv("FETTLE"), *temporary = getenv("TMPDIR");
    if (!program) program = "build/fettle";
    p.arena = arena_open((size_t)64 << 20);
    char *whole = realpath(program, NULL);
    if (!whole || access(whole, X_OK) != 0) {
        print_message("skipped: no program %s\n", program);
        skip();
    }
    p.program = arena_copy(&p.arena, whole);
    free(whole);
    char *dir = arena_print(&p.arena, "%s/fettle-test-XXXXXX",
                            temporary && *temporary ? temporary : P_tmpdir);
    p.dir = mkdtemp(dir);
    assert_non_null(p.dir);
    return &p;
}

/* A garage with one car in it, of which little is known. */
static inline struct place *place_with_car(void)
{
    struct place *p = place_open();
    run_good(p, "fettle new");
    run_good(p, "fettle add vehicle name=Linnet year=1959 build=unitary brakes=drum voltage=12");
    return p;
}

static inline void place_close(struct place *p)
{
    const char *command =
        arena_print(&p->arena, "chmod -R u+w '%s' && rm -rf '%s'", p->dir, p->dir);
    assert_int_equal(system(command), 0);
    arena_close(&p->arena);
}

/* Does a text hold these words? Lines are wrapped: a blank may be a line's end. */
__attribute__((unused)) static bool holds(const char *text, const char *words)
{
    for (; *text; text++) {
        const char *t = text, *w = words;
        while (*w && (*t == *w || (*w == ' ' && *t == '\n'))) t++, w++;
        if (!*w) return true;
    }
    return false;
}

/* A line, the status that it ends with, and words that it says: on stderr if the status is not 0,
 * and then in one line that moves no terminal. */
struct told_line {
    const char *line;
    int status;
    const char *says;
};

__attribute__((unused)) static void run_told(struct place *p, const struct told_line *lines,
                                             size_t count)
{
    for (size_t i = 0; i < count; i++) {
        const struct ran *r = run_line(p, lines[i].line);
        const char *said = r->status == 0 ? r->out : r->err;
        if (r->status != lines[i].status || !holds(said, lines[i].says))
            fail_msg("%s: exit status %d: %s%s", lines[i].line, r->status, r->out, r->err);
        const char *end = strchr(r->err, '\n');
        if (r->status != 0 && (!end || end[1] || strchr(r->err, '\033')))
            fail_msg("%s: not one harmless line: %s", lines[i].line, r->err);
    }
}

#endif
