#include "face/show/answer.h"

#include "face/show/sheet_json.h"
#include "face/show/show_choose.h"
#include "face/show/show_fit.h"
#include "face/show/show_household.h"
#include "face/show/show_identify.h"
#include "face/show/show_originality.h"
#include "face/show/show_plan.h"
#include "face/show/show_survey.h"
#include "face/show/show_view.h"

#include <inttypes.h>
#include <sodium.h>
#include <stdlib.h>
#include <string.h>

static bool reckon_survey(struct arena *a, const struct shop_ask *ask, struct told *out,
                          struct fail *f)
{
    struct survey *v = ARENA_NEW(a, struct survey);
    if (!survey_reckon(a, ask, v, f)) return false;
    *out = (struct told){show_survey(a, v), show_survey_json(v)};
    return true;
}

static bool reckon_originality(struct arena *a, const struct shop_ask *ask, struct told *out,
                               struct fail *f)
{
    struct originality_answer *o = ARENA_NEW(a, struct originality_answer);
    if (!originality_reckon(a, ask, o, f)) return false;
    *out = (struct told){show_originality(a, o), show_originality_json(o)};
    return true;
}

static bool reckon_identify(struct arena *a, const struct shop_ask *ask, struct told *out,
                            struct fail *f)
{
    struct identify *x = ARENA_NEW(a, struct identify);
    if (!identify_reckon(a, ask, x, f)) return false;
    *out = (struct told){show_identify(a, x), show_identify_json(a, x)};
    return true;
}

static bool reckon_choose(struct arena *a, const struct shop_ask *ask, struct told *out,
                          struct fail *f)
{
    struct choose *x = ARENA_NEW(a, struct choose);
    if (!choose_reckon(a, ask, x, f)) return false;
    *out = (struct told){show_choose(a, x), show_choose_json(x)};
    return true;
}

static bool reckon_plan(struct arena *a, const struct shop_ask *ask, struct told *out,
                        struct fail *f)
{
    struct plan *p = ARENA_NEW(a, struct plan);
    if (!plan_reckon(a, ask, p, f)) return false;
    *out = (struct told){show_plan(a, p), show_plan_json(a, p)};
    return true;
}

static bool reckon_fit(struct arena *a, const struct shop_ask *ask, struct told *out,
                       struct fail *f)
{
    struct fit *x = ARENA_NEW(a, struct fit);
    const struct fit_wish wish = fit_no_wish();
    if (!fit_reckon(a, ask, &wish, x, f)) return false;
    *out = (struct told){show_fit(a, x), show_fit_json(a, x)};
    return true;
}

static bool reckon_household(struct arena *a, const struct shop_ask *ask, struct told *out,
                             struct fail *f)
{
    struct household *x = ARENA_NEW(a, struct household);
    if (!household_reckon(a, ask, x, f)) return false;
    *out = (struct told){show_household(a, x), show_household_json(x)};
    return true;
}

static bool reckon_view(struct arena *a, const struct shop_ask *ask, struct told *out,
                        struct fail *f)
{
    struct candidate *c = ARENA_NEW(a, struct candidate);
    if (!candidate_reckon(a, ask, c, f)) return false;
    *out = (struct told){show_view(a, ask->trade, c), show_view_json(a, ask->trade, c)};
    return true;
}

enum { BRIEF_KEYS = 6 };

static const struct {
    const char *name;
    bool (*reckon)(struct arena *a, const struct shop_ask *ask, struct told *out, struct fail *f);
    const char *brief[BRIEF_KEYS]; /* what is also kept in brief; of an array the first */
} questions[QUESTION_COUNT] = {
    [QUESTION_SURVEY] = {"survey", reckon_survey, {NULL}},
    [QUESTION_ORIGINALITY] = {"originality", reckon_originality, {NULL}},
    [QUESTION_IDENTIFY] = {"identify", reckon_identify, {NULL}},
    [QUESTION_CHOOSE] = {"choose", reckon_choose, {NULL}},
    [QUESTION_PLAN] = {"plan",
                       reckon_plan,
                       {"direction", "finish", "hangs_on", "order_by", "milestones"}},
    [QUESTION_FIT] = {"fit", reckon_fit, {NULL}},
    [QUESTION_VIEW] = {"view", reckon_view, {"best", "highest", "walk_away"}},
    [QUESTION_HOUSEHOLD] = {"household", reckon_household, {NULL}},
};

const char *question_name(enum question q)
{
    return questions[q].name;
}

bool answer_direction(const struct trade *t, const char *id, int *out, struct fail *f)
{
    *out = id ? trade_find_direction(t, id) : -1;
    return !id || *out >= 0 ||
           fail_set(f, FAIL_INPUT,
                    "direction: there is no '%s'; use preserve, drive, restore, modify or sell",
                    id);
}

static void hash_name(const struct text *t, char name[65])
{
    unsigned char hash[crypto_hash_sha256_BYTES];
    crypto_hash_sha256(hash, (const unsigned char *)t->s, t->length);
    sodium_bin2hex(name, 65, hash, sizeof hash);
}

/* Where it is kept which answer to this question was the last, whatever it rested on. */
static void name_last(struct arena *a, enum question q, const struct shop_ask *ask,
                      const char *direction, char name[65])
{
    struct text t = {.arena = a};
    text_print(&t, "last %s %s %s %d %" PRIu64 " %s", questions[q].name, FETTLE_VERSION,
               ask->vehicle, ask->runs, ask->seed, direction ? direction : "");
    hash_name(&t, name);
}

/* What the answer rests on, hashed. Nothing of the trade data is parsed for it. */
static bool name_answer(struct arena *a, const char *question, const struct shop_ask *ask,
                        const char *direction, struct answer_trade trade, char name[65],
                        struct fail *f)
{
    char basis[65], digest[65];
    if (!garage_basis(ask->garage, basis, f) || !trade.digest(trade.context, digest, f))
        return false;
    struct text t = {.arena = a};
    text_print(&t, "%s %s %s %s %d %s %d %" PRIu64 " %s", question, FETTLE_VERSION, basis, digest,
               (int)ask->today, ask->vehicle, ask->runs, ask->seed, direction ? direction : "");
    hash_name(&t, name);
    return true;
}

bool answer_key(struct arena *a, enum question q, const struct shop_ask *ask, const char *direction,
                struct answer_trade trade, char name[65], struct fail *f)
{
    return name_answer(a, questions[q].name, ask, direction, trade, name, f);
}

static bool read_kept(struct arena *a, struct garage *g, const char *name, struct told *out)
{
    char *data;
    size_t n;
    struct fail ignored = {0};
    if (!garage_cache_get(g, a, name, &data, &n)) return false;
    json_t *kept = json_loadb(data, n, 0, NULL);
    bool good = kept && sheet_from_json(a, json_object_get(kept, "sheet"), &out->sheet, &ignored) &&
                json_is_object(json_object_get(kept, "json"));
    if (good) out->json = json_incref(json_object_get(kept, "json"));
    json_decref(kept);
    return good;
}

static void keep(struct garage *g, const char *name, const struct told *answer)
{
    json_t *kept =
        json_pack("{s:o, s:O}", "sheet", sheet_to_json(answer->sheet), "json", answer->json);
    char *text = kept ? json_dumps(kept, JSON_COMPACT | JSON_REAL_PRECISION(15)) : NULL;
    if (text) garage_cache_put(g, name, text, strlen(text));
    free(text);
    json_decref(kept);
}

/* What the last answer was, and of when: {"answer", "as_of", "brief"}. */
static void keep_last(struct arena *a, enum question q, const struct shop_ask *ask,
                      const char *direction, const char *name, const json_t *json)
{
    char last[65];
    json_t *brief = json_object();
    for (int i = 0; questions[q].brief[i]; i++) {
        json_t *value = json_object_get(json, questions[q].brief[i]);
        if (json_is_array(value)) value = json_array_get(value, 0);
        if (value) json_object_set(brief, questions[q].brief[i], value);
    }
    json_t *o =
        json_pack("{s:s, s:i, s:o}", "answer", name, "as_of", (int)ask->today, "brief", brief);
    char *text = o ? json_dumps(o, JSON_COMPACT | JSON_REAL_PRECISION(15)) : NULL;
    name_last(a, q, ask, direction, last);
    if (text) garage_cache_put(ask->garage, last, text, strlen(text));
    free(text);
    json_decref(o);
}

/* What a cache holds may be anything that has its digest: NULL unless it can be used. */
static json_t *read_last(struct arena *a, enum question q, const struct shop_ask *ask,
                         const char *direction)
{
    char last[65], *data;
    size_t n;
    name_last(a, q, ask, direction, last);
    if (!garage_cache_get(ask->garage, a, last, &data, &n)) return NULL;
    json_t *o = json_loadb(data, n, 0, NULL);
    const char *name = json_string_value(json_object_get(o, "answer"));
    if (name && strlen(name) == 64 && strspn(name, "0123456789abcdef") == 64 &&
        json_is_integer(json_object_get(o, "as_of")) && json_is_object(json_object_get(o, "brief")))
        return o;
    json_decref(o);
    return NULL;
}

static bool find(struct arena *a, enum question q, struct shop_ask ask, const char *direction,
                 struct answer_trade trade, struct told *out, struct fail *f)
{
    char name[65];
    if (!answer_key(a, q, &ask, direction, trade, name, f)) return false;
    if (read_kept(a, ask.garage, name, out)) return true;
    if (!trade.load(trade.context, &ask.trade, f) ||
        !answer_direction(ask.trade, direction, &ask.direction, f) ||
        !questions[q].reckon(a, &ask, out, f))
        return false;
    keep(ask.garage, name, out);
    keep_last(a, q, &ask, direction, name, out->json);
    return true;
}

bool answer_kept(struct arena *a, enum question q, const struct shop_ask *ask,
                 const char *direction, struct answer_trade trade, struct told *out, bool *current)
{
    char name[65];
    struct fail ignored = {0};
    bool now = answer_key(a, q, ask, direction, trade, name, &ignored) &&
               read_kept(a, ask->garage, name, out);
    if (current) *current = now;
    if (now) return true;
    json_t *last = read_last(a, q, ask, direction);
    const char *former = json_string_value(json_object_get(last, "answer"));
    bool found = former && read_kept(a, ask->garage, former, out);
    json_decref(last);
    return found;
}

bool answer_brief(struct arena *a, enum question q, const struct shop_ask *ask,
                  const char *direction, struct answer_trade trade, struct answer_brief *out)
{
    char name[65];
    struct fail ignored = {0};
    json_t *last = read_last(a, q, ask, direction);
    if (!last) return false;
    *out = (struct answer_brief){
        .json = json_incref(json_object_get(last, "brief")),
        .as_of = (day)json_integer_value(json_object_get(last, "as_of")),
        .current = answer_key(a, q, ask, direction, trade, name, &ignored) &&
                   text_is(name, json_string_value(json_object_get(last, "answer"))),
    };
    json_decref(last);
    return true;
}

bool answer_get(struct arena *a, enum question q, const struct shop_ask *ask, const char *direction,
                struct answer_trade trade, struct told *out, struct fail *f)
{
    if (!garage_begin(ask->garage, f)) return false;
    bool done = find(a, q, *ask, direction, trade, out, f);
    garage_rollback(ask->garage);
    return done;
}

bool answer_as_is(struct arena *a, const struct shop_ask *ask, struct answer_trade trade,
                  struct what_if_side *out, struct fail *f)
{
    char name[65], *data;
    size_t n;
    const char *direction =
        ask->direction >= 0 ? ask->trade->directions[ask->direction].head.id : NULL;
    if (!name_answer(a, "as-is", ask, direction, trade, name, f)) return false;
    const int runs = ask->runs < WHAT_IF_RUNS ? ask->runs : WHAT_IF_RUNS;
    if (garage_cache_get(ask->garage, a, name, &data, &n) && what_if_unpack(a, data, n, out) &&
        out->runs == runs)
        return true;
    if (!what_if_as_is(a, ask, out, f)) return false;
    what_if_pack(a, out, &data, &n);
    garage_cache_put(ask->garage, name, data, n);
    return true;
}
