#include "reckon/mdp.h"

#include <assert.h>
#include <math.h>

static double worth(const struct mdp_action *x, double discount, const double *value)
{
    double sum = x->reward;
    for (int i = 0; i < x->n_arcs; i++) sum += discount * x->arcs[i].chance * value[x->arcs[i].to];
    return sum;
}

/* Gauss with the largest pivot, in place: row i of `m` has n figures and its right side. */
static void solve(double *m, int n, double *x)
{
    const int wide = n + 1;
    for (int c = 0; c < n; c++) {
        int best = c;
        for (int r = c + 1; r < n; r++)
            if (fabs(m[r * wide + c]) > fabs(m[best * wide + c])) best = r;
        assert(m[best * wide + c] != 0);
        for (int k = 0; k < wide; k++) {
            const double swap = m[c * wide + k];
            m[c * wide + k] = m[best * wide + k];
            m[best * wide + k] = swap;
        }
        for (int r = c + 1; r < n; r++) {
            const double by = m[r * wide + c] / m[c * wide + c];
            for (int k = c; k < wide; k++) m[r * wide + k] -= by * m[c * wide + k];
        }
    }
    for (int r = n - 1; r >= 0; r--) {
        x[r] = m[r * wide + n];
        for (int k = r + 1; k < n; k++) x[r] -= m[r * wide + k] * x[k];
        x[r] /= m[r * wide + r];
    }
}

/* gain + v(i) = reward + sum of chance v(j), v of the last state 0: its place holds the gain. */
static double value_policy(struct arena scratch, const struct mdp *m, const int *policy,
                           double *value)
{
    const int n = m->n_states, wide = n + 1;
    double *rows = ARENA_ARRAY(&scratch, double, n *wide);
    for (int i = 0; i < n; i++) {
        const struct mdp_action *x = &m->actions[policy[i]];
        double *row = rows + i * wide;
        for (int k = 0; k < wide; k++) row[k] = 0;
        if (i < n - 1) row[i] += 1;
        for (int k = 0; k < x->n_arcs; k++)
            if (x->arcs[k].to < n - 1) row[x->arcs[k].to] -= x->arcs[k].chance;
        row[n - 1] = 1;
        row[n] = x->reward;
    }
    solve(rows, n, value);
    const double gain = value[n - 1];
    value[n - 1] = 0;
    return gain;
}

double mdp_average(struct arena scratch, const struct mdp *m, int rounds, int *policy,
                   double *value)
{
    enum { BETTER = 1000000000 }; /* by less than one part in so many is a tie: the policy stays */
    double gain = value_policy(scratch, m, policy, value);
    for (bool changed = true; changed && rounds > 0; rounds--) {
        changed = false;
        for (int i = 0; i < m->n_actions; i++) {
            const struct mdp_action *x = &m->actions[i], *now = &m->actions[policy[x->state]];
            const double here = worth(now, 1, value);
            if (worth(x, 1, value) <= here + (1 + fabs(here)) / BETTER) continue;
            policy[x->state] = i;
            changed = true;
        }
        if (changed) gain = value_policy(scratch, m, policy, value);
    }
    return gain;
}

int mdp_total(const struct mdp *m, double discount, double tolerance, int most, int *policy,
              double *value)
{
    for (int i = 0; i < m->n_states; i++) value[i] = 0;
    for (int sweep = 1; sweep <= most; sweep++) {
        double moved = 0;
        for (int i = 0; i < m->n_actions;) {
            const int state = m->actions[i].state;
            double best = -(double)INFINITY;
            for (; i < m->n_actions && m->actions[i].state == state; i++) {
                const double here = worth(&m->actions[i], discount, value);
                if (here <= best) continue;
                best = here;
                policy[state] = i;
            }
            moved = fmax(moved, fabs(best - value[state]));
            value[state] = best;
        }
        if (moved <= tolerance) return sweep;
    }
    return -1;
}
