#include "reckon/tool_cost.h"

#include <math.h>

/* The cost of covering spells first..last in one step; what is bought covers to the end. */
static double cost_of(const struct tool_way_cost *w, const struct tool_spell *spells, int n,
                      int first, int last)
{
    if (w->way == WAY_BUY) return last == n - 1 ? w->price : INFINITY;
    if (spells[last].to > w->until) return INFINITY;
    return w->price + w->a_day * (spells[last].to - spells[first].from + 1);
}

double tool_cost(struct arena scratch, const struct tool_way_cost *ways, int n_ways,
                 const struct tool_spell *spells, int n_spells, struct tool_step *steps,
                 int *n_steps)
{
    /* best[i]: least cost of spells i..n-1, and the step that begins it. */
    double *best = ARENA_ARRAY(&scratch, double, n_spells + 1);
    struct tool_step *step = ARENA_ARRAY(&scratch, struct tool_step, n_spells + 1);
    *n_steps = 0;
    best[n_spells] = 0;
    for (int i = n_spells - 1; i >= 0; i--) {
        best[i] = INFINITY;
        for (int w = 0; w < n_ways; w++)
            for (int last = i; last < n_spells; last++) {
                const double cost = cost_of(&ways[w], spells, n_spells, i, last);
                if (!(cost + best[last + 1] < best[i])) continue;
                best[i] = cost + best[last + 1];
                step[i] = (struct tool_step){w, i, last, cost};
            }
    }
    if (n_spells > 0 && isinf(best[0])) return INFINITY;
    for (int i = 0; i < n_spells; i = step[i].last + 1) steps[(*n_steps)++] = step[i];
    return best[0];
}
