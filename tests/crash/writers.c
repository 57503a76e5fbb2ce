/* writers.c - writers PROCESSES ACTS: several processes each count up the same number, ACTS times,
 * by an act that reads it and writes it back. No act may fail or be lost: at the end the number,
 * its revision and the journal say PROCESSES x ACTS. Ends with a line of figures; exit status 0
 * only if all held. */
#include "garage/garage.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

static _Noreturn void give_up(const char *what)
{
    fprintf(stderr, "writers: %s\n", what);
    exit(1);
}

static bool read_number(struct garage *g, struct arena *a, struct record **r, int64_t *n,
                        struct fail *f)
{
    return garage_find(g, a, record_kind_find("vehicle"), "A", r, f) &&
           text_to_int(record_text(*r, "note", "0"), n);
}

static bool count_up(struct garage *g, struct arena a, struct fail *f)
{
    struct record *r;
    int64_t n;
    return garage_begin(g, f) && read_number(g, &a, &r, &n, f) &&
           record_set(&a, r, "note", arena_print(&a, "%lld", (long long)n + 1), NULL, f) &&
           garage_change(g, r, f) && garage_commit(g, f);
}

static struct garage *open_garage(struct arena *a, const char *dir)
{
    struct fail f = {0};
    struct garage *g;
    if (!garage_open(a, dir, GARAGE_WRITE, NULL, &g, &f)) give_up(f.text);
    return g;
}

static _Noreturn void write_acts(const char *dir, int acts)
{
    struct arena a = arena_open((size_t)1 << 26);
    struct garage *g = open_garage(&a, dir);
    struct fail f = {0};
    for (int i = 0; i < acts; i++)
        if (!count_up(g, a, &f)) give_up(f.text);
    garage_close(g);
    exit(0);
}

int main(int argc, char **argv)
{
    if (argc != 3) give_up("use: writers PROCESSES ACTS");
    int processes = atoi(argv[1]), acts = atoi(argv[2]), status, entries, faults;
    char root[] = "/tmp/fettle-writers-XXXXXX", dir[64], command[80];
    struct arena a = arena_open((size_t)1 << 28);
    struct fail f = {0};
    if (!mkdtemp(root)) give_up("no temporary folder");
    snprintf(dir, sizeof dir, "%s/garage", root);
    if (!garage_create(dir, NULL, NULL, &f)) give_up(f.text);
    struct garage *g = open_garage(&a, dir);
    struct record *r = record_new(&a, record_kind_find("vehicle"));
    if (!record_set(&a, r, "name", "A", NULL, &f) || !garage_begin(g, &f) ||
        !garage_add(g, r, &f) || !garage_commit(g, &f))
        give_up(f.text);
    garage_close(g); /* SQLite must not be carried over a fork */
    for (int i = 0; i < processes; i++) {
        pid_t child = fork();
        if (child < 0) give_up("no process");
        if (child == 0) write_acts(dir, acts);
    }
    while (wait(&status) > 0)
        if (status != 0) give_up("a writer failed");
    g = open_garage(&a, dir);
    struct text report = {.arena = &a};
    int64_t n;
    if (!garage_check(g, &report, &entries, &faults, &f) || !read_number(g, &a, &r, &n, &f))
        give_up(f.text);
    if (faults) give_up(text_get(&report));
    if (n != processes * acts || r->revision != 1 + processes * acts ||
        entries != 1 + processes * acts)
        give_up("an act was lost");
    garage_close(g);
    snprintf(command, sizeof command, "rm -r %s", root);
    if (system(command) != 0) give_up("cannot clear up");
    printf("%d writers x %d read-then-write acts: %lld counted, none failed, none lost\n",
           processes, acts, (long long)n);
    return 0;
}
