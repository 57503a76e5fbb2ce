#include "reckon/clue.h"

#include <assert.h>
#include <math.h>
#include <string.h>

static int rows_of(const struct clue_problem *p, int cluster)
{
    return p->axes[p->clusters[cluster].axis].n_rows;
}

/* How far apart a clue's strengths are over the rows, as a logarithm. */
static double reach(const struct clue_problem *p, const struct clue *c)
{
    double low = INFINITY, high = 0;
    for (int r = 0; r < rows_of(p, c->cluster); r++) {
        double s = c->strength[r * c->n_outcomes + c->seen];
        if (s < low) low = s;
        if (s > high) high = s;
    }
    return log(high / low);
}

/* The likelihood of a cluster's clues by row. `without`: a clue left out, or -1; `with`: a clue
 * taken to have shown `outcome`, or -1. */
static void cluster_likelihood(const struct clue_problem *p, int cluster, int without, int with,
                               int outcome, double *like)
{
    const struct clue_cluster *k = &p->clusters[cluster];
    const int n_rows = rows_of(p, cluster), n_causes = k->n_causes;
    int strongest = -1;
    double most = -1;
    for (int i = 0; i < p->n_clues; i++) {
        const struct clue *c = &p->clues[i];
        if (c->cluster != cluster || c->table || c->seen < 0 || i == without) continue;
        double far = reach(p, c);
        if (far > most) most = far, strongest = i;
    }
    for (int r = 0; r < n_rows; r++) {
        double by_cause[CLUE_CAUSES_MOST], strength = 1;
        for (int s = 0; s < n_causes; s++) by_cause[s] = k->chance[s];
        for (int i = 0; i < p->n_clues; i++) {
            const struct clue *c = &p->clues[i];
            int seen = i == with ? outcome : c->seen;
            if (c->cluster != cluster || seen < 0 || i == without) continue;
            if (c->table) {
                const double *row = c->table + r * n_causes * c->n_outcomes + seen;
                for (int s = 0; s < n_causes; s++) by_cause[s] *= row[s * c->n_outcomes];
            } else {
                double ratio = c->strength[r * c->n_outcomes + seen];
                strength *= i == strongest ? ratio : sqrt(ratio);
            }
        }
        like[r] = 0;
        for (int s = 0; s < n_causes; s++) like[r] += by_cause[s];
        like[r] *= strength;
    }
}

static void scale_to_one(double *x, int n)
{
    double most = 0;
    for (int i = 0; i < n; i++) most = x[i] > most ? x[i] : most;
    for (int i = 0; i < n && most > 0; i++) x[i] /= most;
}

void clue_weigh(struct arena *a, const struct clue_problem *p, struct clue_weighed *out)
{
    const int n = p->n_hypotheses;
    *out = (struct clue_weighed){.problem = p};
    out->cluster = ARENA_ARRAY(a, double *, p->n_clusters);
    out->rest = ARENA_ARRAY(a, double *, p->n_clusters);
    out->posterior = ARENA_ARRAY(a, double, n);
    memcpy(out->posterior, p->prior, (size_t)n * sizeof *p->prior);
    for (int k = 0; k < p->n_clusters; k++) {
        assert(p->clusters[k].n_causes >= 1 && p->clusters[k].n_causes <= CLUE_CAUSES_MOST);
        out->cluster[k] = ARENA_ARRAY(a, double, rows_of(p, k));
        cluster_likelihood(p, k, -1, -1, 0, out->cluster[k]);
        scale_to_one(out->cluster[k], rows_of(p, k));
        /* what stands before it now, what comes after it on the way back */
        out->rest[k] = ARENA_ARRAY(a, double, n);
        memcpy(out->rest[k], out->posterior, (size_t)n * sizeof(double));
        const int *row = p->axes[p->clusters[k].axis].row_of;
        for (int h = 0; h < n; h++) out->posterior[h] *= out->cluster[k][row[h]];
        scale_to_one(out->posterior, n);
    }
    double *after = ARENA_ARRAY(a, double, n);
    for (int h = 0; h < n; h++) after[h] = 1;
    for (int k = p->n_clusters - 1; k >= 0; k--) {
        const int *row = p->axes[p->clusters[k].axis].row_of;
        for (int h = 0; h < n; h++) {
            out->rest[k][h] *= after[h];
            after[h] *= out->cluster[k][row[h]];
        }
        scale_to_one(after, n);
    }
    double total = 0;
    for (int h = 0; h < n; h++) total += out->posterior[h];
    out->impossible = !(total > 0);
    for (int h = 0; h < n; h++)
        out->posterior[h] = out->impossible ? p->prior[h] : out->posterior[h] / total;
}

double clue_share(const struct clue_weighed *w, const bool *claim)
{
    double share = 0;
    for (int h = 0; h < w->problem->n_hypotheses; h++)
        if (claim[h]) share += w->posterior[h];
    return share;
}

double decibans_of(double probability)
{
    return 10 * log10(probability / (1 - probability));
}

/* The claim's decibans with this likelihood for a cluster and the rest as it is. */
static double decibans_with(const struct clue_weighed *w, int cluster, const double *like,
                            const bool *claim)
{
    const struct clue_problem *p = w->problem;
    const int *row = p->axes[p->clusters[cluster].axis].row_of;
    double yes = 0, no = 0;
    for (int h = 0; h < p->n_hypotheses; h++)
        *(claim[h] ? &yes : &no) += w->rest[cluster][h] * like[row[h]];
    return 10 * (log10(yes) - log10(no));
}

double clue_push(const struct clue_weighed *w, struct arena scratch, int clue, const bool *claim)
{
    const struct clue_problem *p = w->problem;
    const int k = p->clues[clue].cluster;
    if (p->clues[clue].seen < 0) return 0;
    double *without = ARENA_ARRAY(&scratch, double, rows_of(p, k));
    cluster_likelihood(p, k, clue, -1, 0, without);
    double push = decibans_with(w, k, w->cluster[k], claim) - decibans_with(w, k, without, claim);
    return isfinite(push) ? push : 0; /* nothing is left to push where a side is empty */
}

/* P(these clues alone), under the prior: `other` may be -1. */
static double chance_of(const struct clue_problem *p, int cluster, int one, int other)
{
    const struct clue_cluster *k = &p->clusters[cluster];
    const struct clue *a = &p->clues[one], *b = other >= 0 ? &p->clues[other] : NULL;
    const int *row = p->axes[k->axis].row_of;
    double total = 0;
    for (int h = 0; h < p->n_hypotheses; h++) {
        double like = 0;
        for (int s = 0; s < k->n_causes; s++) {
            int at = row[h] * k->n_causes + s;
            like += k->chance[s] * a->table[at * a->n_outcomes + a->seen] *
                    (b ? b->table[at * b->n_outcomes + b->seen] : 1);
        }
        total += p->prior[h] * like;
    }
    return total;
}

static double alone(const struct clue_problem *p, int clue, int row)
{
    const struct clue *c = &p->clues[clue];
    const struct clue_cluster *k = &p->clusters[c->cluster];
    double like = 0;
    for (int s = 0; s < k->n_causes; s++)
        like += k->chance[s] * c->table[(row * k->n_causes + s) * c->n_outcomes + c->seen];
    return like;
}

double clue_conflict(const struct clue_problem *p, int one, int other)
{
    const struct clue *a = &p->clues[one], *b = &p->clues[other];
    if (!a->table || !b->table || a->seen < 0 || b->seen < 0) return 0;
    double both = 0;
    if (a->cluster == b->cluster) {
        both = chance_of(p, a->cluster, one, other);
    } else {
        const int *row_a = p->axes[p->clusters[a->cluster].axis].row_of;
        const int *row_b = p->axes[p->clusters[b->cluster].axis].row_of;
        for (int h = 0; h < p->n_hypotheses; h++)
            both += p->prior[h] * alone(p, one, row_a[h]) * alone(p, other, row_b[h]);
    }
    double apart = chance_of(p, a->cluster, one, -1) * chance_of(p, b->cluster, other, -1);
    return apart > 0 ? 10 * (log10(apart) - log10(fmax(both, 1e-300))) : 0;
}

double clue_surprise(const struct clue_weighed *w, struct arena scratch, int clue)
{
    const struct clue_problem *p = w->problem;
    const struct clue *c = &p->clues[clue];
    if (!c->table || c->seen < 0) return 0;
    const int k = c->cluster, *row = p->axes[p->clusters[k].axis].row_of;
    double *with = ARENA_ARRAY(&scratch, double, rows_of(p, k)), so = 0;
    double *without = ARENA_ARRAY(&scratch, double, rows_of(p, k)), all = 0;
    cluster_likelihood(p, k, -1, -1, 0, with);
    cluster_likelihood(p, k, clue, -1, 0, without);
    for (int h = 0; h < p->n_hypotheses; h++) {
        so += w->rest[k][h] * with[row[h]];
        all += w->rest[k][h] * without[row[h]];
    }
    double alone_chance = chance_of(p, k, clue, -1);
    if (!(all > 0) || !(alone_chance > 0)) return 0;
    return 10 * (log10(alone_chance) - log10(fmax(so / all, 1e-300)));
}

double clue_best_chance(const struct clue_weighed *w, int cluster)
{
    const struct clue_problem *p = w->problem;
    const struct clue_cluster *k = &p->clusters[cluster];
    int seen = 0;
    double best = 0;
    for (int i = 0; i < p->n_clues; i++)
        seen += p->clues[i].cluster == cluster && p->clues[i].seen >= 0 && p->clues[i].table;
    if (seen == 0) return 1;
    for (int r = 0; r < rows_of(p, cluster); r++) {
        double like = 0;
        for (int s = 0; s < k->n_causes; s++) {
            double x = k->chance[s];
            for (int i = 0; i < p->n_clues; i++) {
                const struct clue *c = &p->clues[i];
                if (c->cluster == cluster && c->seen >= 0 && c->table)
                    x *= c->table[(r * k->n_causes + s) * c->n_outcomes + c->seen];
            }
            like += x;
        }
        best = fmax(best, like);
    }
    return pow(best, 1.0 / seen);
}

void clue_signs(const struct clue_weighed *w, struct arena scratch, int clue, double *show)
{
    const struct clue_problem *p = w->problem;
    const struct clue *c = &p->clues[clue];
    const int n_rows = rows_of(p, c->cluster), n = c->n_outcomes;
    double *like = ARENA_ARRAY(&scratch, double, n_rows);
    for (int o = 0; o < n; o++) {
        cluster_likelihood(p, c->cluster, -1, clue, o, like);
        for (int r = 0; r < n_rows; r++) show[r * n + o] = like[r];
    }
    for (int r = 0; r < n_rows; r++) {
        double sum = 0;
        for (int o = 0; o < n; o++) sum += show[r * n + o];
        for (int o = 0; o < n && sum > 0; o++) show[r * n + o] /= sum;
    }
}

double clue_promise(const struct clue_weighed *w, struct arena scratch, int clue, const bool *claim,
                    double *chance, double *claim_after)
{
    const struct clue_problem *p = w->problem;
    const struct clue *c = &p->clues[clue];
    const int n_rows = rows_of(p, c->cluster), n = c->n_outcomes;
    const int *row = p->axes[p->clusters[c->cluster].axis].row_of;
    double *show = ARENA_ARRAY(&scratch, double, n_rows *n); /* P(outcome | row, what was seen) */
    double *all = ARENA_ARRAY(&scratch, double, n_rows),
           *of = ARENA_ARRAY(&scratch, double, n_rows);
    clue_signs(w, scratch, clue, show);
    for (int h = 0; h < p->n_hypotheses; h++) {
        all[row[h]] += w->posterior[h];
        if (claim[h]) of[row[h]] += w->posterior[h];
    }
    memset(chance, 0, (size_t)n * sizeof *chance);
    memset(claim_after, 0, (size_t)n * sizeof *claim_after);
    for (int r = 0; r < n_rows; r++) {
        for (int o = 0; o < n; o++) {
            chance[o] += all[r] * show[r * n + o];
            claim_after[o] += of[r] * show[r * n + o];
        }
    }
    double bits = 0;
    for (int r = 0; r < n_rows; r++)
        for (int o = 0; o < n; o++) {
            double q = show[r * n + o];
            if (q > 0 && all[r] > 0) bits += all[r] * q * log2(q / chance[o]);
        }
    for (int o = 0; o < n; o++) claim_after[o] = chance[o] > 0 ? claim_after[o] / chance[o] : 0;
    return fmax(bits, 0);
}
