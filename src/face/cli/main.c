/* fettle: the command line. Exit status 0 done, 1 the answer is no, 2 wrong use or bad input, 3 the
 * garage cannot be used; a failure is one line on standard error. */
#include "face/cli/context.h"
#include "face/cli/wrap.h"

#include <assert.h>
#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/ioctl.h>
#include <time.h>
#include <unistd.h>

enum { NARROWEST = 20, WIDEST = 400, WIDTH_PIPED = 80 };

static int output_width(void)
{
    int64_t columns;
    struct winsize size;
    const char *variable = getenv("COLUMNS");
    if (!variable || !text_to_int(variable, &columns)) {
        columns = WIDTH_PIPED;
        if (isatty(STDOUT_FILENO) && ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) == 0 &&
            size.ws_col > 0)
            columns = size.ws_col;
    }
    return columns < NARROWEST ? NARROWEST : columns > WIDEST ? WIDEST : (int)columns;
}

static day machine_day(void)
{
    time_t now = time(NULL);
    struct tm local;
    if (!localtime_r(&now, &local)) return 0;
    return day_from_civil(local.tm_year + 1900, local.tm_mon + 1, local.tm_mday);
}

static bool act(struct context *c, int argc, char *const argv[], struct fail *f)
{
    if (!context_parse(c, argc, argv, f)) return false;
    const char *no_color = getenv("NO_COLOR");
    if (context_option(c, "no-color") || (no_color && *no_color)) c->style.colour = false;
    struct text out = {.arena = c->arena};
    if (context_option(c, "version"))
        text_print(&out, "fettle %s\n", FETTLE_VERSION);
    else if (context_option(c, "help") && c->command)
        command_help(&out, c->command, c->style.width);
    else if (context_option(c, "help"))
        command_help_all(&out, c->style.width);
    if (out.length) {
        fputs(text_get(&out), stdout);
        return true;
    }
    if (!c->command)
        return fail_set(f, FAIL_INPUT,
                        "no verb given; 'fettle --help' lists them, 'fettle new DIR' begins");
    return c->command->run(c, f);
}

int main(int argc, char *argv[])
{
    static const int status[] = {
        [FAIL_NONE] = 0, [FAIL_NO] = 1, [FAIL_INPUT] = 2, [FAIL_GARAGE] = 3};
    struct arena arena = arena_open((size_t)4 << 30); /* address space only; touched pages count */
    struct context c = {.arena = &arena, .today = machine_day()};
    c.style.width = output_width();
    c.style.colour = isatty(STDOUT_FILENO);
    struct fail f = {0};
    bool done = act(&c, argc, argv, &f);
    context_close(&c);
    errno = 0;
    if (done && (fflush(stdout) != 0 || ferror(stdout)))
        done = fail_set(&f, FAIL_GARAGE,
                        "the answer could not be written: %s; make room and ask again",
                        errno ? strerror(errno) : "write error");
    if (!done) {
        assert(f.kind != FAIL_NONE); /* whoever says no says why */
        fflush(stdout);
        fprintf(stderr, "fettle: %s\n", wrap_clean(&arena, f.text, false));
    }
    arena_close(&arena);
    return status[done ? FAIL_NONE : f.kind];
}
