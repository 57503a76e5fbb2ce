#include "reckon/serial.h"

#include <assert.h>
#include <limits.h>

/* What is in use over time, as steps: from at[k] until at[k + 1] row k of `used` holds. The last
 * step lasts for ever and is empty. Placing a job adds at most two steps. */
struct profile {
    int steps, resources;
    int *at;   /* [2 jobs + 1] rising, at[0] = 0 */
    int *used; /* [2 jobs + 1][resources] */
};

bool serial_valid(const struct serial_project *p, struct fail *f)
{
    long long sum = 0;
    for (int j = 0; j < p->network->jobs; j++) {
        assert(p->duration[j] >= 0);
        sum += p->duration[j];
        for (int r = 0; r < p->resources; r++) {
            int wanted = p->request[j * p->resources + r];
            assert(wanted >= 0);
            if (wanted > p->capacity[r]) {
                return fail_set(f, FAIL_INPUT,
                                "job %d asks for %d of resource %d, which has %d; lower the "
                                "request or raise the capacity",
                                j, wanted, r, p->capacity[r]);
            }
        }
    }
    if (sum > INT_MAX) {
        return fail_set(f, FAIL_INPUT,
                        "the durations sum to %lld periods, beyond %d; use longer periods", sum,
                        INT_MAX);
    }
    return true;
}

static bool fits(const struct serial_project *p, const struct profile *use, int job, int step)
{
    for (int r = 0; r < p->resources; r++) {
        int wanted = p->request[job * p->resources + r];
        if (use->used[step * p->resources + r] + wanted > p->capacity[r]) return false;
    }
    return true;
}

/* The soonest start at or after `from`. Only the end of a step that was in the way can be a later
 * start. */
static int soonest(const struct serial_project *p, const struct profile *use, int job, int from)
{
    int start = from, step = 0;
    if (p->duration[job] == 0) return from;
    while (step + 1 < use->steps && use->at[step + 1] <= from) step++;
    for (; step < use->steps; step++) {
        if (use->at[step] >= start + p->duration[job]) break;
        if (!fits(p, use, job, step)) {
            /* The last step is empty, and no job asks for more than there is. */
            assert(step + 1 < use->steps);
            start = use->at[step + 1];
        }
    }
    return start;
}

/* The step that begins at `time`, cut out of the one that covers it if need be. */
static int cut(struct profile *use, int time)
{
    int step = use->steps - 1;
    while (use->at[step] > time) step--;
    if (use->at[step] == time) return step;
    for (int k = use->steps; k > step + 1; k--) {
        use->at[k] = use->at[k - 1];
        for (int r = 0; r < use->resources; r++) {
            use->used[k * use->resources + r] = use->used[(k - 1) * use->resources + r];
        }
    }
    use->steps++;
    use->at[step + 1] = time;
    for (int r = 0; r < use->resources; r++) {
        use->used[(step + 1) * use->resources + r] = use->used[step * use->resources + r];
    }
    return step + 1;
}

static void occupy(const struct serial_project *p, struct profile *use, int job, int start)
{
    if (p->duration[job] == 0) return;
    int from = cut(use, start);
    int to = cut(use, start + p->duration[job]);
    for (int k = from; k < to; k++) {
        for (int r = 0; r < p->resources; r++) {
            use->used[k * p->resources + r] += p->request[job * p->resources + r];
        }
    }
}

int serial_by_list(const struct serial_project *p, const int *list, int *start,
                   struct arena scratch)
{
    const struct network *n = p->network;
    struct profile use = {
        .steps = 1,
        .resources = p->resources,
        .at = ARENA_ARRAY(&scratch, int, 2 * n->jobs + 1),
        .used = ARENA_ARRAY(&scratch, int, (size_t)(2 * n->jobs + 1) * (size_t)p->resources),
    };
    bool *placed = ARENA_ARRAY(&scratch, bool, n->jobs);
    int finish = 0;

    for (int k = 0; k < n->jobs; k++) {
        int j = list[k], from = 0;
        assert(j >= 0 && j < n->jobs && !placed[j]);
        for (int i = n->first_before[j]; i < n->first_before[j + 1]; i++) {
            int b = n->before[i];
            assert(placed[b]);
            if (start[b] + p->duration[b] > from) from = start[b] + p->duration[b];
        }
        start[j] = soonest(p, &use, j, from);
        occupy(p, &use, j, start[j]);
        placed[j] = true;
        if (start[j] + p->duration[j] > finish) finish = start[j] + p->duration[j];
    }
    return finish;
}

void serial_latest_finish_list(const struct serial_project *p, int *list, struct arena scratch)
{
    const struct network *n = p->network;
    /* Whole numbers of 32 bits: doubles are exact. */
    double *duration = ARENA_ARRAY(&scratch, double, n->jobs);
    double *late_start = ARENA_ARRAY(&scratch, double, n->jobs);
    double *late_finish = ARENA_ARRAY(&scratch, double, n->jobs);
    int *waiting =
        ARENA_ARRAY(&scratch, int, n->jobs); /* predecessors not yet listed; -1: listed */
    double horizon = 0;

    for (int j = 0; j < n->jobs; j++) {
        duration[j] = p->duration[j];
        horizon += duration[j];
        waiting[j] = n->first_before[j + 1] - n->first_before[j];
    }
    network_backward(n, duration, horizon, late_start, late_finish);
    for (int k = 0; k < n->jobs; k++) {
        int next = -1;
        for (int j = 0; j < n->jobs; j++) {
            if (waiting[j] == 0 && (next < 0 || late_finish[j] < late_finish[next])) next = j;
        }
        assert(next >= 0);
        list[k] = next;
        waiting[next] = -1;
        for (int i = n->first_after[next]; i < n->first_after[next + 1]; i++) {
            waiting[n->after[i]]--;
        }
    }
}
