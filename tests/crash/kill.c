/* kill.c - kill KILLS SEED: a process adds facts and reports each on a pipe once garage_commit has
 * said that it is done; it is killed (SIGKILL) at a random moment, KILLS times, always on the same
 * garage. After each kill the garage must open, verify, and hold every fact that was reported, and
 * at most the one more that was on its way. Ends with a line of figures; exit status 0 only if all
 * held. */
#include "garage/garage.h"

#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

enum { LONGEST_MS = 60 };

static _Noreturn void give_up(const char *what)
{
    fprintf(stderr, "kill: %s\n", what);
    exit(1);
}

static bool add(struct garage *g, struct arena a, int n, struct fail *f)
{
    char basis[65];
    struct record *r = record_new(&a, record_kind_find("finding"));
    return garage_begin(g, f) && garage_basis(g, basis, f) &&
           record_set(&a, r, "vehicle", "A", NULL, f) &&
           record_set(&a, r, "condition", "worn", NULL, f) &&
           record_set(&a, r, "component", arena_print(&a, "c%d", n), NULL, f) &&
           garage_add(g, r, f) && garage_commit(g, f);
}

/* Until killed. Opens and closes now and then, so that kills fall into these too. */
static _Noreturn void add_for_ever(const char *dir, int out)
{
    struct arena a = arena_open((size_t)1 << 26);
    struct fail f = {0};
    for (int n = 1;;) {
        struct arena scratch = a;
        struct garage *g;
        if (!garage_open(&scratch, dir, GARAGE_WRITE, NULL, &g, &f)) give_up(f.text);
        for (int i = 0; i < 40; i++, n++) {
            if (!add(g, scratch, n, &f)) give_up(f.text);
            if (write(out, &n, sizeof n) != sizeof n) give_up("the pipe is shut");
        }
        garage_close(g);
    }
}

/* How many findings there are, once everything was checked. */
static int look(const char *dir)
{
    struct arena a = arena_open((size_t)1 << 28);
    struct fail f = {0};
    struct garage *g;
    struct record *list;
    struct text report = {.arena = &a};
    int entries, faults, n;
    if (!garage_open(&a, dir, GARAGE_WRITE, NULL, &g, &f) ||
        !garage_check(g, &report, &entries, &faults, &f) ||
        !garage_list(g, &a, record_kind_find("finding"), NULL, &list, &n, &f))
        give_up(f.text);
    if (faults) give_up(text_get(&report));
    garage_close(g);
    arena_close(&a);
    return n;
}

static void make(const char *dir)
{
    struct arena a = arena_open(1 << 20);
    struct fail f = {0};
    struct garage *g;
    struct record *r = record_new(&a, record_kind_find("vehicle"));
    if (!garage_create(dir, NULL, NULL, &f) || !garage_open(&a, dir, GARAGE_WRITE, NULL, &g, &f) ||
        !record_set(&a, r, "name", "A", NULL, &f) || !garage_begin(g, &f) ||
        !garage_add(g, r, &f) || !garage_commit(g, &f))
        give_up(f.text);
    garage_close(g);
    arena_close(&a);
}

int main(int argc, char **argv)
{
    if (argc != 3) give_up("use: kill KILLS SEED");
    int kills = atoi(argv[1]), there = 0, reported_all = 0, on_the_way = 0, idle = 0;
    srandom((unsigned)atoi(argv[2]));
    char root[] = "/tmp/fettle-kill-XXXXXX", dir[64];
    if (!mkdtemp(root)) give_up("no temporary folder");
    snprintf(dir, sizeof dir, "%s/garage", root);
    make(dir);
    for (int i = 0; i < kills; i++) {
        int ends[2], last = 0, n;
        if (pipe(ends) != 0) give_up("no pipe");
        pid_t child = fork();
        if (child < 0) give_up("no process");
        if (child == 0) {
            close(ends[0]);
            add_for_ever(dir, ends[1]);
        }
        close(ends[1]);
        long us = random() % (LONGEST_MS * 1000);
        nanosleep(&(struct timespec){0, us * 1000}, NULL);
        kill(child, SIGKILL);
        int status;
        waitpid(child, &status, 0);
        if (!WIFSIGNALED(status)) give_up("the writer ended by itself");
        while (read(ends[0], &n, sizeof n) == sizeof n) last = n;
        close(ends[0]);
        int now = look(dir);
        if (now < there + last) give_up("a fact that was reported done is gone");
        if (now > there + last + 1) give_up("there are facts that nobody added");
        reported_all += last;
        on_the_way += now - there - last;
        idle += last == 0;
        there = now;
    }
    char command[80];
    snprintf(command, sizeof command, "rm -r %s", root);
    if (system(command) != 0) give_up("cannot clear up");
    printf("%d kills: %d facts reported done, all there; %d more were done but not yet reported; "
           "%d kills before "
           "the first\n",
           kills, reported_all, on_the_way, idle);
    return 0;
}
