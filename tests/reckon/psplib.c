#include "reckon/psplib.h"

#include <ctype.h>
#include <limits.h>
#include <stdlib.h>
#include <string.h>

struct reader {
    const char *name, *at; /* at: the rest of the text, from the line being read */
    int line;
    struct fail *fail;
};

static bool wrong(struct reader *r, const char *what)
{
    return fail_set(r->fail, FAIL_INPUT, "%s:%d: %s", r->name, r->line, what);
}

static bool next_line(struct reader *r)
{
    const char *end = strchr(r->at, '\n');
    if (!end || end[1] == '\0') return false;
    r->at = end + 1;
    r->line++;
    return true;
}

static bool line_has(const struct reader *r, const char *word)
{
    const char *end = strchr(r->at, '\n'), *found = strstr(r->at, word);
    return found && (!end || found < end);
}

/* Goes on to the next line that has `word`. */
static bool seek(struct reader *r, const char *word)
{
    while (!line_has(r, word)) {
        if (!next_line(r)) {
            return fail_set(r->fail, FAIL_INPUT, "%s:%d: the file ends before '%s'", r->name,
                            r->line, word);
        }
    }
    return true;
}

/* A whole number from 0 to a million at *at, on this line; *at moves behind it. */
static bool number(struct reader *r, const char **at, int *out)
{
    char *end;
    while (**at == ' ' || **at == '\t') (*at)++;
    if (!isdigit((unsigned char)**at)) return wrong(r, "a whole number is missing");
    long value = strtol(*at, &end, 10);
    if (value > 1000000) return wrong(r, "the number is beyond a million");
    *at = end;
    *out = (int)value;
    return true;
}

/* The number behind the colon of the line that has `word`. */
static bool header(struct reader *r, const char *word, int least, int *out)
{
    if (!seek(r, word)) return false;
    const char *colon = strchr(r->at, ':');
    if (!colon) return wrong(r, "a colon is missing");
    colon++;
    if (!number(r, &colon, out)) return false;
    return *out >= least || wrong(r, "the number is too small");
}

/* The line of job j of a section: its own number first. */
static bool job_line(struct reader *r, int j, const char **at)
{
    int job;
    if (!next_line(r)) return wrong(r, "the file ends here");
    *at = r->at;
    if (!number(r, at, &job)) return false;
    return job == j + 1 || wrong(r, "not the number of the job that is due here");
}

static bool read_links(struct reader *r, struct arena *a, struct psplib *p)
{
    size_t room_before = 0, room_after = 0;
    if (!seek(r, "PRECEDENCE RELATIONS") || !seek(r, "jobnr.")) return false;
    for (int j = 0; j < p->jobs; j++) {
        const char *at;
        int modes, count, successor;
        if (!job_line(r, j, &at) || !number(r, &at, &modes)) return false;
        if (modes != 1) return wrong(r, "a job of one mode is expected");
        if (!number(r, &at, &count)) return false;
        for (int k = 0; k < count; k++) {
            if (!number(r, &at, &successor)) return false;
            if (successor < 1 || successor > p->jobs) return wrong(r, "there is no such successor");
            size_t n = (size_t)p->links++;
            p->before = arena_grow(a, p->before, n, &room_before, sizeof *p->before);
            p->after = arena_grow(a, p->after, n, &room_after, sizeof *p->after);
            p->before[n] = j;
            p->after[n] = successor - 1;
        }
    }
    return true;
}

static bool read_requests(struct reader *r, struct psplib *p)
{
    if (!seek(r, "REQUESTS/DURATIONS") || !seek(r, "-----")) return false;
    for (int j = 0; j < p->jobs; j++) {
        const char *at;
        int mode;
        if (!job_line(r, j, &at) || !number(r, &at, &mode)) return false;
        if (!number(r, &at, &p->duration[j])) return false;
        for (int k = 0; k < p->resources; k++) {
            if (!number(r, &at, &p->request[j * p->resources + k])) return false;
        }
    }
    return true;
}

bool psplib_parse(struct arena *a, const char *name, const char *text, struct psplib *out,
                  struct fail *f)
{
    struct reader r = {.name = name, .at = text, .line = 1, .fail = f};
    *out = (struct psplib){0};
    if (!header(&r, "jobs (incl.", 2, &out->jobs)) return false;
    if (!header(&r, "- renewable", 1, &out->resources)) return false;
    if (out->jobs > 10000 || out->resources > 100) return wrong(&r, "the instance is too large");
    out->duration = ARENA_ARRAY(a, int, out->jobs);
    out->request = ARENA_ARRAY(a, int, out->jobs * out->resources);
    out->capacity = ARENA_ARRAY(a, int, out->resources);
    if (!read_links(&r, a, out) || !read_requests(&r, out)) return false;
    if (!seek(&r, "RESOURCEAVAILABILITIES")) return false;
    if (!next_line(&r) || !next_line(&r)) return wrong(&r, "the capacities are missing");
    const char *at = r.at;
    for (int k = 0; k < out->resources; k++) {
        if (!number(&r, &at, &out->capacity[k])) return false;
    }
    return true;
}

bool psplib_check(const struct psplib *p, const int *start, int *finish, struct arena scratch,
                  struct fail *f)
{
    *finish = 0;
    for (int j = 0; j < p->jobs; j++) {
        if (start[j] < 0 || start[j] > INT_MAX - p->duration[j]) {
            return fail_set(f, FAIL_NO, "job %d starts at %d", j + 1, start[j]);
        }
        if (start[j] + p->duration[j] > *finish) *finish = start[j] + p->duration[j];
    }
    for (int i = 0; i < p->links; i++) {
        int b = p->before[i], c = p->after[i];
        if (start[c] < start[b] + p->duration[b]) {
            return fail_set(f, FAIL_NO, "job %d starts at %d, before job %d ends at %d", c + 1,
                            start[c], b + 1, start[b] + p->duration[b]);
        }
    }
    int *used = ARENA_ARRAY(&scratch, int, *finish + 1);
    for (int k = 0; k < p->resources; k++) {
        memset(used, 0, (size_t)(*finish + 1) * sizeof *used);
        for (int j = 0; j < p->jobs; j++) {
            for (int t = start[j]; t < start[j] + p->duration[j]; t++) {
                used[t] += p->request[j * p->resources + k];
                if (used[t] > p->capacity[k]) {
                    return fail_set(f, FAIL_NO, "period %d: job %d takes resource %d beyond %d", t,
                                    j + 1, k + 1, p->capacity[k]);
                }
            }
        }
    }
    return true;
}
