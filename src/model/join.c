#include "model/join.h"

#include "base/text.h"

#include <assert.h>
#include <math.h>

/* Common practice: what runs within a tenth of its limit leaves nothing for the next change. */
static const double NEAR_LIMIT = 0.1;

const char *join_verdict_name(enum join_verdict v)
{
    static const char *const names[JOIN_VERDICTS] = {"fits", "marginal", "does not fit",
                                                     "not known"};
    return names[v];
}

static struct join_result unknown(bool giver, bool taker)
{
    return (struct join_result){JOIN_UNKNOWN, NAN, NAN, giver, taker};
}

static struct join_result judge_words(const struct trade_end *giver, const struct trade_end *taker)
{
    if (!giver->is || !taker->is) return unknown(!giver->is, !taker->is);
    return (struct join_result){.verdict =
                                    text_same_word(giver->is, taker->is) ? JOIN_FITS : JOIN_MISFIT,
                                .value = NAN,
                                .limit = NAN};
}

static struct join_result judge_near(const struct trade_join *j, const struct trade_end *giver,
                                     const struct trade_end *taker)
{
    if (isnan(giver->least) || isnan(taker->least))
        return unknown(isnan(giver->least), isnan(taker->least));
    const double apart = fmax(0, fmax(giver->least - taker->most, taker->least - giver->most));
    struct join_result r = {.verdict = JOIN_FITS, .value = apart, .limit = j->within};
    if (apart > j->within)
        r.verdict = JOIN_MISFIT;
    else if (apart > j->within / 2)
        r.verdict = JOIN_MARGINAL;
    return r;
}

static struct join_result judge_inside(const struct trade_end *giver, const struct trade_end *taker)
{
    const bool above = !isnan(taker->most), below = !isnan(taker->least);
    if (!above && !below) return unknown(isnan(giver->least) && isnan(giver->most), true);
    /* What is surely wrong is wrong, whatever else is open. */
    if (above && giver->most > taker->most)
        return (struct join_result){
            .verdict = JOIN_MISFIT, .value = giver->most, .limit = taker->most};
    if (above && giver->least > taker->most)
        return (struct join_result){
            .verdict = JOIN_MISFIT, .value = giver->least, .limit = taker->most};
    if (below && giver->least < taker->least)
        return (struct join_result){
            .verdict = JOIN_MISFIT, .value = giver->least, .limit = taker->least};
    if (below && giver->most < taker->least)
        return (struct join_result){
            .verdict = JOIN_MISFIT, .value = giver->most, .limit = taker->least};
    if ((above && isnan(giver->most)) || (below && isnan(giver->least)))
        return unknown(true, false);
    struct join_result r = {.verdict = JOIN_FITS,
                            .value = above ? giver->most : giver->least,
                            .limit = above ? taker->most : taker->least};
    if (above && taker->most > 0 && giver->most > taker->most * (1 - NEAR_LIMIT))
        r.verdict = JOIN_MARGINAL;
    return r;
}

struct join_result join_judge(const struct trade_join *j, const struct trade_end *giver,
                              const struct trade_end *taker)
{
    switch (j->rule) {
    case JOIN_SAME:
        return judge_words(giver, taker);
    case JOIN_NEAR:
        return judge_near(j, giver, taker);
    case JOIN_INSIDE:
    case JOIN_RULES:
        break;
    }
    assert(j->rule == JOIN_INSIDE);
    return judge_inside(giver, taker);
}

/* Two ranges, each open where a side is not said, have something in common. */
static bool overlap(double a_least, double a_most, double b_least, double b_most)
{
    return !(a_most < b_least) && !(b_most < a_least);
}

static bool open(const struct trade_end *e)
{
    return !e->is && isnan(e->least) && isnan(e->most);
}

bool join_bridges(const struct trade_join *j, const struct trade_adapts *by,
                  const struct trade_end *giver, const struct trade_end *taker)
{
    if (join_judge(j, giver, taker).verdict == JOIN_UNKNOWN) return false;
    if (open(&by->in) && open(&by->out)) return true; /* made to measure */
    if (j->rule == JOIN_SAME)
        return by->in.is && by->out.is && text_same_word(by->in.is, giver->is) &&
               text_same_word(by->out.is, taker->is);
    if (giver->most > by->in.most || giver->least < by->in.least) return false;
    const double slack = j->rule == JOIN_NEAR ? j->within : 0;
    return overlap(by->out.least - slack, by->out.most + slack, taker->least, taker->most);
}
