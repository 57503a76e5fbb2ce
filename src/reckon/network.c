#include "reckon/network.h"

#include <assert.h>
#include <math.h>

/* Buckets the far ends of links by their near end: a counting sort, so the order of links is kept.
 */
static void fill_rows(struct arena *a, int jobs, const struct network_link *links, int n_links,
                      bool by_after, const int **first_out, const int **far_out)
{
    int *first = ARENA_ARRAY(a, int, jobs + 1);
    int *far = ARENA_ARRAY(a, int, n_links);
    struct arena scratch = *a;
    int *next = ARENA_ARRAY(&scratch, int, jobs);

    for (int i = 0; i < n_links; i++) first[(by_after ? links[i].after : links[i].before) + 1]++;
    for (int j = 0; j < jobs; j++) {
        first[j + 1] += first[j];
        next[j] = first[j];
    }
    for (int i = 0; i < n_links; i++) {
        int near_end = by_after ? links[i].after : links[i].before;
        far[next[near_end]++] = by_after ? links[i].before : links[i].after;
    }
    *first_out = first;
    *far_out = far;
}

/* Every job that could not be ordered has a predecessor that could not either: walking back among
 * them must come to a job twice, and what lies between is a cycle. `waiting[j]` > 0 marks them. */
static void find_cycle(struct arena *a, const struct network *n, const int *waiting,
                       struct network_cycle *cycle)
{
    cycle->job = ARENA_ARRAY(a, int, n->jobs);
    struct arena scratch = *a;
    int *seen_at = ARENA_ARRAY(&scratch, int, n->jobs); /* 1 + step of the walk, 0: not seen */
    int *walk = ARENA_ARRAY(&scratch, int, n->jobs + 1);
    int job = 0, steps = 0;

    while (waiting[job] == 0) job++;
    while (seen_at[job] == 0) {
        walk[steps++] = job;
        seen_at[job] = steps;
        int i = n->first_before[job];
        while (waiting[n->before[i]] == 0) i++;
        assert(i < n->first_before[job + 1]);
        job = n->before[i];
    }
    for (int s = steps - 1; s >= seen_at[job] - 1; s--) cycle->job[cycle->count++] = walk[s];
}

bool network_make(struct arena *a, int jobs, const struct network_link *links, int n_links,
                  struct network *out, struct network_cycle *cycle)
{
    assert(jobs >= 0 && n_links >= 0);
    for (int i = 0; i < n_links; i++) {
        assert(links[i].before >= 0 && links[i].before < jobs);
        assert(links[i].after >= 0 && links[i].after < jobs);
    }
    *cycle = (struct network_cycle){0};
    *out = (struct network){.jobs = jobs};
    fill_rows(a, jobs, links, n_links, true, &out->first_before, &out->before);
    fill_rows(a, jobs, links, n_links, false, &out->first_after, &out->after);

    int *order = ARENA_ARRAY(a, int, jobs);
    int *waiting = ARENA_ARRAY(a, int, jobs); /* predecessors not yet ordered */
    int ordered = 0;
    for (int j = 0; j < jobs; j++) {
        waiting[j] = out->first_before[j + 1] - out->first_before[j];
        if (waiting[j] == 0) order[ordered++] = j;
    }
    for (int done = 0; done < ordered; done++) {
        int j = order[done];
        for (int i = out->first_after[j]; i < out->first_after[j + 1]; i++) {
            if (--waiting[out->after[i]] == 0) order[ordered++] = out->after[i];
        }
    }
    out->order = order;
    if (ordered == jobs) return true;
    find_cycle(a, out, waiting, cycle);
    return false;
}

double network_forward(const struct network *n, const double *duration, double *start,
                       double *finish)
{
    double last = 0;
    for (int k = 0; k < n->jobs; k++) {
        int j = n->order[k];
        double at = 0;
        for (int i = n->first_before[j]; i < n->first_before[j + 1]; i++) {
            at = fmax(at, finish[n->before[i]]);
        }
        start[j] = at;
        finish[j] = at + duration[j];
        last = fmax(last, finish[j]);
    }
    return last;
}

void network_backward(const struct network *n, const double *duration, double horizon,
                      double *late_start, double *late_finish)
{
    for (int k = n->jobs - 1; k >= 0; k--) {
        int j = n->order[k];
        double by = horizon;
        for (int i = n->first_after[j]; i < n->first_after[j + 1]; i++) {
            by = fmin(by, late_start[n->after[i]]);
        }
        late_finish[j] = by;
        late_start[j] = by - duration[j];
    }
}

struct network_times network_times_of(struct arena *a, const struct network *n,
                                      const double *duration)
{
    struct network_times t = {
        .early_start = ARENA_ARRAY(a, double, n->jobs),
        .early_finish = ARENA_ARRAY(a, double, n->jobs),
        .late_start = ARENA_ARRAY(a, double, n->jobs),
        .late_finish = ARENA_ARRAY(a, double, n->jobs),
        .total_float = ARENA_ARRAY(a, double, n->jobs),
        .free_float = ARENA_ARRAY(a, double, n->jobs),
    };
    t.finish = network_forward(n, duration, t.early_start, t.early_finish);
    network_backward(n, duration, t.finish, t.late_start, t.late_finish);
    for (int j = 0; j < n->jobs; j++) {
        double next = t.finish;
        for (int i = n->first_after[j]; i < n->first_after[j + 1]; i++) {
            next = fmin(next, t.early_start[n->after[i]]);
        }
        t.total_float[j] = t.late_start[j] - t.early_start[j];
        t.free_float[j] = next - t.early_finish[j];
    }
    return t;
}

/* The lowest-numbered predecessor that j waited for, or -1. */
static int binding_predecessor(const struct network *n, const double *early_start,
                               const double *early_finish, int j)
{
    int found = -1;
    for (int i = n->first_before[j]; i < n->first_before[j + 1]; i++) {
        int p = n->before[i];
        if (early_finish[p] >= early_start[j] && (found < 0 || p < found)) found = p;
    }
    return found;
}

int network_chain(const struct network *n, const double *early_start, const double *early_finish,
                  int *chain)
{
    int last = -1, count = 0;
    for (int j = 0; j < n->jobs; j++) {
        if (last < 0 || early_finish[j] > early_finish[last]) last = j;
    }
    for (int j = last; j >= 0; j = binding_predecessor(n, early_start, early_finish, j)) {
        chain[count++] = j;
    }
    for (int i = 0, k = count - 1; i < k; i++, k--) {
        int held = chain[i];
        chain[i] = chain[k];
        chain[k] = held;
    }
    return count;
}
