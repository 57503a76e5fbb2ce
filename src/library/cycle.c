#include "library/cycle.h"

struct cycles {
    const struct links *links;
    int count;
    int *waits; /* links of each that point at what is left; -1: taken away */
    int *first_user, *next_user, *user; /* who points at it */
    int *ready;
    int n_ready;
};

static void take_away(struct cycles *c, int i)
{
    c->waits[i] = -1;
    for (int e = c->first_user[i]; e >= 0; e = c->next_user[e])
        if (c->waits[c->user[e]] > 0 && --c->waits[c->user[e]] == 0)
            c->ready[c->n_ready++] = c->user[e];
}

static void take_ready(struct cycles *c)
{
    while (c->n_ready > 0) take_away(c, c->ready[--c->n_ready]);
}

/* Each that is left points at another that is left, so that following must come round. */
static int circle_from(struct cycles *c, int start, int *at_step, int *walk)
{
    int length = 0, i = start;
    while (at_step[i] == 0) {
        at_step[i] = length + 1;
        walk[length++] = i;
        int e = 0;
        while (c->waits[c->links[i].to[e]] < 0) e++;
        i = c->links[i].to[e];
    }
    int from = at_step[i] - 1;
    for (int k = 0; k < length; k++) at_step[walk[k]] = 0;
    for (int k = from; k < length; k++) walk[k - from] = walk[k];
    return length - from;
}

static void least_first(int *circle, int length, int *turned)
{
    int least = 0;
    for (int i = 1; i < length; i++)
        if (circle[i] < circle[least]) least = i;
    for (int i = 0; i < length; i++) turned[i] = circle[(least + i) % length];
}

void cycles_find(struct arena *a, const struct links *links, int count, cycle_tell *tell,
                 void *context)
{
    int total = 0, edge = 0;
    for (int i = 0; i < count; i++) total += links[i].count;
    struct cycles c = {links,
                       count,
                       ARENA_ARRAY(a, int, count),
                       ARENA_ARRAY(a, int, count),
                       ARENA_ARRAY(a, int, total),
                       ARENA_ARRAY(a, int, total),
                       ARENA_ARRAY(a, int, count),
                       0};
    int *at_step = ARENA_ARRAY(a, int, count), *walk = ARENA_ARRAY(a, int, count);
    int *turned = ARENA_ARRAY(a, int, count);
    for (int i = 0; i < count; i++) c.first_user[i] = -1;
    for (int i = 0; i < count; i++) {
        c.waits[i] = links[i].count;
        if (links[i].count == 0) c.ready[c.n_ready++] = i;
        for (int k = 0; k < links[i].count; k++, edge++) {
            int to = links[i].to[k];
            c.user[edge] = i;
            c.next_user[edge] = c.first_user[to];
            c.first_user[to] = edge;
        }
    }
    take_ready(&c);
    for (int i = 0; i < count; i++) {
        while (c.waits[i] > 0) {
            int length = circle_from(&c, i, at_step, walk);
            least_first(walk, length, turned);
            tell(context, turned, length);
            for (int k = 0; k < length; k++) take_away(&c, turned[k]);
            take_ready(&c);
        }
    }
}
