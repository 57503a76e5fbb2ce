#include "reckon/fit_rows.h"

#include <assert.h>
#include <string.h>

static bool found(const struct fit_answer *answer)
{
    return answer->state == FIT_PROVEN || answer->state == FIT_FOUND;
}

int fit_next(struct arena *a, const struct fit_model *m, const struct fit_answer *best,
             int64_t most_nodes, struct fit_answer *out, int most)
{
    struct fit_answer *unlike = ARENA_ARRAY(a, struct fit_answer, most + 1);
    unlike[0] = *best;
    for (int n = 0; n < most; n++) {
        struct fit_ask ask = {.unlike = unlike, .n_unlike = n + 1};
        out[n] = fit_asked(a, m, &ask, most_nodes);
        if (!found(&out[n])) return n;
        unlike[n + 1] = out[n];
    }
    return most;
}

/* The model with one option held and at another price. */
struct variant {
    struct fit_model m;
    struct fit_option *option;
    int64_t nodes;
    bool proven; /* so far */
};

static struct variant vary(struct arena *a, const struct fit_model *m, int option, int64_t nodes)
{
    struct fit_option *options = ARENA_ARRAY(a, struct fit_option, m->n_options);
    memcpy(options, m->options, (size_t)m->n_options * sizeof *options);
    struct variant v = {*m, options + option, nodes, true};
    v.m.options = options;
    return v;
}

/* The least total so; false: nothing fits, or the work ended before anything was found. */
static bool least(struct variant *v, enum fit_held held, int64_t money, int64_t *total,
                  struct arena scratch)
{
    v->option->held = held;
    v->option->money = money;
    struct fit_answer answer = fit_asked(&scratch, &v->m, &(struct fit_ask){0}, v->nodes);
    if (answer.state == FIT_FOUND || answer.state == FIT_UNKNOWN) v->proven = false;
    *total = answer.cost.total;
    return found(&answer);
}

static bool has_purse(const struct fit_model *m)
{
    for (int l = 0; l < m->n_limits; l++)
        if (m->limits[l].purse) return true;
    return false;
}

/* Taken at a price, the option's total is the price and the rest; the rest costs least where the
 * price is so low that no purse is short of it. The price at which that total equals the one
 * without the option is the answer, unless a purse is short there: then it lies lower, and is found
 * by halving, for the total never falls as the price rises. */
struct fit_flip fit_flip_of(struct arena *a, const struct fit_model *m,
                            const struct fit_answer *best, int option, int64_t most_nodes)
{
    assert(found(best) && option >= 0 && option < m->n_options);
    struct arena scratch = *a;
    struct variant v = vary(&scratch, m, option, most_nodes);
    int64_t without = best->cost.total, total, money = v.option->money;
    if (best->chosen[option] && !least(&v, FIT_BARRED, money, &without, scratch))
        return (struct fit_flip){.proven = v.proven && best->state == FIT_PROVEN};
    int64_t low = has_purse(m) ? -FIT_MOST_MONEY : money;
    if (!least(&v, FIT_TAKEN, low, &total, scratch))
        return (struct fit_flip){.proven = v.proven && best->state == FIT_PROVEN};
    int64_t high = without - (total - low);
    bool short_there =
        has_purse(m) && (!least(&v, FIT_TAKEN, high, &total, scratch) || total > without);
    while (short_there && high - low > 1) {
        int64_t middle = low + (high - low) / 2;
        bool flips = least(&v, FIT_TAKEN, middle, &total, scratch) && total <= without;
        if (flips)
            low = middle;
        else
            high = middle;
    }
    return (struct fit_flip){.flips = true,
                             .proven = v.proven && best->state == FIT_PROVEN,
                             .money = short_there ? low : high};
}
