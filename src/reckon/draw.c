#include "reckon/draw.h"

#include "base/random.h"
#include "base/random_many.h"

#include <assert.h>
#include <math.h>
#include <string.h>

/* Streams of the factors that all entries share; 0 .. 15 are kept for them. */
enum { STREAM_FACTORS = 1, STREAM_SESSIONS = 2, STREAM_LAYOFFS = 3, STREAM_MILES = 4 };
/* A month for the chance of a lay-off: 365.25 / 12 days. */
static const double MONTH_MINUTES = 43830;

struct spread spread_of(struct points p, double scale)
{
    const double z90 = 1.2815515655446004; /* the 90 % point of the standard normal */
    assert(points_valid(p));
    if (p.middle <= 0) return (struct spread){0};
    return (struct spread){p.middle * scale, log(p.middle / p.low) / z90,
                           log(p.high / p.middle) / z90};
}

/* To the nearest, and at least one. */
static int32_t whole_minutes(double minutes)
{
    const int32_t whole = (int32_t)(minutes + 0.5);
    return whole > 1 ? whole : 1;
}

static bool is_exact(const struct spread *s)
{
    return s->below + s->above == 0;
}

double spread_draw(const struct spread *s, double z)
{
    if (is_exact(s)) return s->middle;
    return s->middle * exp(z * (z < 0 ? s->below : s->above));
}

/* From a word of its own; most waits are none, and then no quantile is reckoned. */
static double draw_own(const struct spread *s, uint32_t word)
{
    return is_exact(s) ? s->middle : spread_draw(s, random_normal(word));
}

/* Streams in the order in which a run asks for them, and room for their words: most draws of a run
 * are made many at a time. */
struct draw_desk {
    uint64_t *job, *part, *fire; /* by job; by part; by setback and component: see fire_at */
    int *fire_at, n_fire;        /* by setback: where its own begin */
    uint32_t *first, *second;    /* words, as long as the longest */
    double *own;                 /* normals by job */
    double *work_own, *work;     /* by kind of work: normals, and factors */
    double *component;           /* by unseen component */
    uint32_t *wait_word, *lead_word, *price_word, *fire_word;
};

static struct draw_desk *desk_of(struct arena *a, const struct project *p)
{
    struct draw_desk *k = ARENA_NEW(a, struct draw_desk);
    k->job = ARENA_ARRAY(a, uint64_t, p->n_jobs);
    k->part = ARENA_ARRAY(a, uint64_t, p->n_parts);
    k->fire_at = ARENA_ARRAY(a, int, p->n_setbacks);
    for (int j = 0; j < p->n_jobs; j++) k->job[j] = p->jobs[j].stream;
    for (int i = 0; i < p->n_parts; i++) k->part[i] = p->parts[i].stream;
    for (int i = 0; i < p->n_setbacks; i++) {
        const struct project_setback *s = &p->setbacks[i];
        k->fire_at[i] = k->n_fire;
        k->n_fire += s->each && s->needs.count > 0 ? s->needs.count : 1;
    }
    k->fire = ARENA_ARRAY(a, uint64_t, k->n_fire);
    for (int i = 0; i < p->n_setbacks; i++) {
        const struct project_setback *s = &p->setbacks[i];
        uint64_t *to = k->fire + k->fire_at[i];
        *to = s->stream;
        for (int n = 0; s->each && n < s->needs.count; n++)
            to[n] = s->stream ^ p->components[p->needs[s->needs.first + n]].stream;
    }
    k->component = ARENA_ARRAY(a, double, p->n_components);
    k->own = ARENA_ARRAY(a, double, p->n_jobs);
    k->work_own = ARENA_ARRAY(a, double, p->n_works);
    k->work = ARENA_ARRAY(a, double, p->n_works);
    k->wait_word = ARENA_ARRAY(a, uint32_t, p->n_jobs);
    k->lead_word = ARENA_ARRAY(a, uint32_t, p->n_parts);
    k->price_word = ARENA_ARRAY(a, uint32_t, p->n_parts);
    k->fire_word = ARENA_ARRAY(a, uint32_t, k->n_fire);
    int most = p->n_components;
    if (p->n_jobs > most) most = p->n_jobs;
    if (k->n_fire > most) most = k->n_fire;
    if (p->n_works > most) most = p->n_works;
    k->first = ARENA_ARRAY(a, uint32_t, most);
    k->second = ARENA_ARRAY(a, uint32_t, most);
    return k;
}

struct drawn drawn_new(struct arena *a, const struct project *p)
{
    return (struct drawn){
        .desk = desk_of(a, p),
        .condition = ARENA_ARRAY(a, uint8_t, p->n_components),
        .applies = ARENA_ARRAY(a, uint8_t, p->n_jobs),
        .minutes = ARENA_ARRAY(a, int32_t, p->n_jobs),
        .wait = ARENA_ARRAY(a, int32_t, p->n_jobs),
        .again_minutes = ARENA_ARRAY(a, int32_t, p->n_jobs),
        .again_wait = ARENA_ARRAY(a, int32_t, p->n_jobs),
        .lead = ARENA_ARRAY(a, int32_t, p->n_jobs),
        .again_lead = ARENA_ARRAY(a, int32_t, p->n_jobs),
        .price = ARENA_ARRAY(a, double, p->n_jobs),
        .again_price = ARENA_ARRAY(a, double, p->n_jobs),
        .kept = ARENA_ARRAY(a, uint8_t, p->n_sessions + 7),
        .n_kept = p->n_sessions,
        .buy_lead = ARENA_ARRAY(a, int32_t, p->n_buys),
        .fired = ARENA_ARRAY(a, uint8_t, p->n_setbacks),
    };
}

static int condition_of(const double cut[COND_COUNT - 1], double z)
{
    int c = 0; /* cuts rise; counting them all costs less than guessing where to stop */
    for (int k = 0; k < COND_COUNT - 1; k++) c += z > cut[k];
    return c;
}

int draw_miles(const struct project *p, uint64_t seed, uint32_t run)
{
    if (p->n_doublings == 0) return -1;
    return (int)(random_unit(random_words(seed, STREAM_MILES, run, 0).word[0]) * p->n_doublings);
}

static void draw_conditions(const struct project *p, const struct belief *b, uint64_t seed,
                            uint32_t run, struct drawn *out)
{
    struct draw_desk *k = out->desk;
    int kind = -1;
    double kind_factor = 0;
    for (int i = 0; i < p->n_components; i++)
        if (p->components[i].known >= 0) out->condition[i] = (uint8_t)p->components[i].known;
    const int miles = draw_miles(p, seed, run);
    const double doublings = miles < 0 ? 0 : p->doublings[miles];
    random_words_many(seed, b->unseen_stream, b->n_unseen, run, k->first, k->second);
    random_normal_many(k->first, b->n_unseen, k->component);
    for (int i = 0; i < b->n_unseen; i++) {
        const struct belief_unseen *unseen = &b->unseen[i];
        const struct project_component *pc = &p->components[unseen->component];
        if (!unseen->alone && pc->kind != kind) { /* components of a kind stand together */
            kind = pc->kind;
            struct philox w = random_words(seed, p->kind_stream[kind], run, 0);
            kind_factor = belief_kind(b, kind, out->state, random_unit(w.word[0]));
        }
        double z = unseen->state * out->state + unseen->kind * kind_factor +
                   unseen->own * k->component[i] + pc->wear * doublings;
        out->condition[unseen->component] = (uint8_t)condition_of(pc->cut, z);
    }
}

/* How a job's hours, and waits and prices, follow the shared factors. */
struct shares {
    double pace, state, work, own;
};

/* z of a job, or of a step of a setback in it. */
static double shared(const struct shares *s, const struct project *p, int job,
                     const struct drawn *d, double own)
{
    const double work = s->work > 0 ? s->work * d->desk->work[p->jobs[job].work] : 0;
    return s->pace * d->pace + s->state * d->state + work + s->own * own;
}

static void draw_works(const struct project *p, uint64_t seed, uint32_t run, double pace_own,
                       struct draw_desk *k)
{
    if (p->n_works == 0) return;
    random_words_many(seed, p->work_stream, p->n_works, run, k->first, k->second);
    random_normal_many(k->first, p->n_works, k->work_own);
    for (int i = 0; i < p->n_works; i++) {
        const double *row = p->work_root + i * (p->n_works + 1);
        double sum = p->work_mean[i] + row[0] * pace_own;
        for (int n = 0; n <= i; n++) sum += row[1 + n] * k->work_own[n];
        k->work[i] = sum;
    }
}

/* Whole pieces of those that are wanted; less than one is a part of a bottle, or of the cases in
 * which it is wanted. */
static double pieces(double count, double share)
{
    if (count < 1) return count;
    const int32_t down = (int32_t)(count * share - 1e-9); /* ceil() would be a call */
    return down < 1 ? 1 : down + (down < count * share - 1e-9);
}

/* Leads and prices of a list of parts: the longest lead, and the sum. A job's (stream 0) use the
 * part's own words, so that two jobs that want the same part find the same market; a setback comes
 * at another time. */
static void draw_buys(const struct project *p, struct range buys, double share, uint64_t seed,
                      uint32_t run, uint64_t stream, struct drawn *out, int32_t *lead,
                      double *price)
{
    for (int i = buys.first; i < buys.first + buys.count; i++) {
        const struct project_buy *buy = &p->buys[i];
        const struct project_part *part = &p->parts[buy->part];
        uint32_t lead_word = out->desk->lead_word[buy->part],
                 price_word = out->desk->price_word[buy->part];
        if (stream) {
            struct philox w = random_words(seed, part->stream ^ stream, run, 0);
            lead_word = w.word[0], price_word = w.word[1];
        }
        int32_t days = (int32_t)draw_own(&part->lead, lead_word);
        double each = draw_own(&part->price, price_word);
        out->buy_lead[i] = days;
        if (days > *lead) *lead = days;
        *price += each * pieces(buy->count, share);
    }
}

static double affected_share(const struct project *p, const struct project_job *job,
                             const uint8_t *condition)
{
    if (job->needs.count == 0) return 1;
    int affected = 0;
    for (int i = 0; i < job->needs.count; i++)
        affected += (job->conditions >> condition[p->needs[job->needs.first + i]] & 1u) != 0;
    return (double)affected / job->needs.count;
}

static void draw_jobs(const struct project *p, uint64_t seed, uint32_t run,
                      const struct shares *shares, struct drawn *out)
{
    struct draw_desk *k = out->desk;
    random_words_many(seed, k->job, p->n_jobs, run, k->first, k->wait_word);
    random_normal_many(k->first, p->n_jobs, k->own);
    random_words_many(seed, k->part, p->n_parts, run, k->lead_word, k->price_word);
    for (int i = 0; i < p->n_buys; i++) out->buy_lead[i] = -1;
    for (int j = 0; j < p->n_jobs; j++) {
        const struct project_job *job = &p->jobs[j];
        double share = job->finished ? 0 : affected_share(p, job, out->condition);
        out->applies[j] = share > 0;
        out->minutes[j] = out->wait[j] = out->again_minutes[j] = out->again_wait[j] = 0;
        out->lead[j] = out->again_lead[j] = -1;
        out->price[j] = out->again_price[j] = 0;
        if (job->away) out->wait[j] = (int32_t)draw_own(&job->wait, k->wait_word[j]);
        if (share <= 0) continue;
        if (!job->by_share) share = 1;
        double minutes = spread_draw(&job->minutes, shared(shares, p, j, out, k->own[j])) * share;
        out->minutes[j] = whole_minutes(minutes);
        out->wait[j] = (int32_t)draw_own(&job->wait, k->wait_word[j]);
        if (!job->parts_here)
            draw_buys(p, job->buys, share, seed, run, 0, out, &out->lead[j], &out->price[j]);
    }
}

/* Climbs the ladder until a step cures. */
static void draw_ladder(const struct project *p, const struct project_setback *setback,
                        uint64_t stream, uint64_t seed, uint32_t run, const struct shares *shares,
                        struct drawn *out)
{
    int j = setback->job;
    for (int i = 0; i < setback->steps.count; i++) {
        const struct project_step *step = &p->steps[setback->steps.first + i];
        struct philox w = random_words(seed, stream, run, (uint32_t)i + 1);
        out->again_minutes[j] += (int32_t)spread_draw(
            &step->minutes, shared(shares, p, j, out, random_normal(w.word[0])));
        out->again_wait[j] += (int32_t)draw_own(&step->wait, w.word[1]);
        draw_buys(p, step->buys, 1, seed, run, stream, out, &out->again_lead[j],
                  &out->again_price[j]);
        if (random_unit(w.word[2]) < step->works) break;
    }
}

static void draw_setback(const struct project *p, int index, uint64_t seed, uint32_t run,
                         const struct shares *shares, struct drawn *out)
{
    const struct project_setback *setback = &p->setbacks[index];
    const uint32_t *words = out->desk->fire_word + out->desk->fire_at[index];
    int worst = -1;
    for (int i = 0; i < setback->needs.count; i++) {
        int component = p->needs[setback->needs.first + i];
        int c = out->condition[component];
        if (c > worst) worst = c;
        if (!setback->each || setback->chance[c] <= 0) continue;
        if (random_unit(words[i]) >= setback->chance[c]) continue;
        out->fired[index]++;
        draw_ladder(p, setback, setback->stream ^ p->components[component].stream, seed, run,
                    shares, out);
    }
    if (setback->each && setback->needs.count > 0) return;
    double chance = setback->chance[worst < 0 ? 0 : worst];
    if (chance <= 0) return;
    if (random_unit(words[0]) >= chance) return;
    out->fired[index] = 1;
    draw_ladder(p, setback, setback->stream, seed, run, shares, out);
}

void draw_sessions(const struct project *p, uint64_t seed, uint32_t run, struct drawn *out)
{
    const int n = out->n_kept;
    /* There are more sessions than anything else to draw, and 16 bits say well enough whether one
     * is kept. */
    const uint32_t kept = (uint32_t)(p->kept * 65536 + 0.5);
    for (int s = 0; s < n; s += 8) {
        struct philox w = random_words(seed, STREAM_SESSIONS, run, (uint32_t)s / 8);
        for (int i = 0; i < 4; i++) { /* drawn_new left room for the last */
            out->kept[s + 2 * i] = (w.word[i] & 0xffff) < kept;
            out->kept[s + 2 * i + 1] = w.word[i] >> 16 < kept;
        }
    }
    if (p->layoff_a_month <= 0 || n == 0) return;
    /* A lay-off of weeks begins in a month with a fixed chance, on any day of it. */
    int s = 0;
    double end = p->sessions[n - 1].end;
    for (uint32_t month = 0; month * MONTH_MINUTES < end; month++) {
        struct philox m = random_words(seed, STREAM_LAYOFFS, run, month);
        if (random_unit(m.word[0]) >= p->layoff_a_month) continue;
        double from = (month + random_unit(m.word[1])) * MONTH_MINUTES;
        double to = from + draw_own(&p->layoff, m.word[2]);
        while (s < n && p->sessions[s].start < from) s++;
        for (int i = s; i < n && p->sessions[i].start < to; i++) out->kept[i] = 0;
    }
}

double draw_run(const struct project *p, const struct belief *b, uint64_t seed, uint32_t run,
                int without, struct drawn *out, double *work)
{
    struct philox w = random_words(seed, STREAM_FACTORS, run, 0);
    out->state = belief_state(b, random_unit(w.word[0]));
    const double pace_own = random_normal(w.word[1]);
    out->pace = p->pace_mean + p->pace_sd * pace_own;
    draw_works(p, seed, run, pace_own, out->desk);
    if (!out->given) draw_conditions(p, b, seed, run, out);
    const struct shares shares = {
        sqrt(p->pace_share), sqrt(p->state_share), sqrt(p->work_share),
        sqrt(fmax(0, 1 - p->pace_share - p->state_share - p->work_share))};
    draw_jobs(p, seed, run, &shares, out);
    memset(out->fired, 0, (size_t)p->n_setbacks);
    random_words_many(seed, out->desk->fire, out->desk->n_fire, run, out->desk->fire_word,
                      out->desk->second);
    for (int i = 0; i < p->n_setbacks; i++)
        if (i != without && out->applies[p->setbacks[i].job])
            draw_setback(p, i, seed, run, &shares, out);
    draw_sessions(p, seed, run, out);
    double money = 0;
    *work = 0;
    for (int j = 0; j < p->n_jobs; j++) {
        money += out->price[j] + out->again_price[j];
        *work += out->minutes[j] + out->again_minutes[j];
    }
    return money;
}

void draw_typical(const struct project *p, const uint8_t *applies, struct drawn *out)
{
    memset(out->condition, 0, (size_t)p->n_components);
    memset(out->fired, 0, (size_t)p->n_setbacks);
    memset(out->kept, 1, (size_t)p->n_sessions);
    out->n_kept = p->n_sessions;
    out->state = out->pace = 0;
    for (int i = 0; i < p->n_buys; i++) out->buy_lead[i] = -1;
    for (int j = 0; j < p->n_jobs; j++) {
        const struct project_job *job = &p->jobs[j];
        bool on = applies[j] && !job->finished;
        out->applies[j] = on;
        out->minutes[j] = on ? whole_minutes(job->minutes.middle) : 0;
        out->wait[j] = on || job->away ? (int32_t)job->wait.middle : 0;
        out->again_minutes[j] = out->again_wait[j] = 0;
        out->lead[j] = out->again_lead[j] = -1;
        out->price[j] = out->again_price[j] = 0;
        if (!on || job->parts_here) continue;
        for (int i = 0; i < job->buys.count; i++) {
            const struct project_buy *buy = &p->buys[job->buys.first + i];
            const struct project_part *part = &p->parts[buy->part];
            int32_t lead = (int32_t)part->lead.middle;
            out->buy_lead[job->buys.first + i] = lead;
            if (lead > out->lead[j]) out->lead[j] = lead;
            out->price[j] += part->price.middle * buy->count;
        }
    }
}
