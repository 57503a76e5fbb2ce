#include "face/cli/answer.h"

#include "face/show/sheet_json.h"

#include <sodium.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

enum { RUNS_LEAST = 50, RUNS_MOST = 1000000, THREADS_MOST = 256 };

static void show_progress(void *context, double share)
{
    (void)context;
    fprintf(stderr, "\rreckoning %3.0f %%", 100 * share);
}

void answer_reckoned(const struct shop_ask *ask)
{
    if (ask->progress) fprintf(stderr, "\r%*s\r", 16, "");
}

bool answer_ask(struct context *c, struct shop_ask *ask, struct fail *f)
{
    const struct record *vehicle;
    int64_t runs, seed, threads;
    *ask = (struct shop_ask){.today = c->today, .direction = -1};
    if (!context_whole(c, "runs", RUNS_LEAST, RUNS_MOST, RUNS_USUAL, &runs, f) ||
        !context_whole(c, "seed", 0, INT64_MAX, SEED_USUAL, &seed, f) ||
        !context_whole(c, "threads", 1, THREADS_MOST, 0, &threads, f) ||
        !context_garage(c, GARAGE_READ, &ask->garage, f) || !context_vehicle(c, &vehicle, f) ||
        !context_trade(c, &ask->trade, f))
        return false;
    ask->vehicle = vehicle->id;
    ask->runs = (int)runs;
    ask->seed = (uint64_t)seed;
    ask->threads = (int)threads;
    if (isatty(STDERR_FILENO)) ask->progress = show_progress;
    const char *direction = context_option(c, "direction");
    if (!direction) return true;
    ask->direction = trade_find_direction(ask->trade, direction);
    return ask->direction >= 0 ||
           fail_set(f, FAIL_INPUT,
                    "--direction: there is no '%s'; use preserve, drive, restore, modify or sell",
                    direction);
}

/* What the answer rests on, hashed. Nothing of the trade data is parsed for it. */
static bool name_answer(struct context *c, struct garage *g, const char *vehicle, char name[65],
                        struct fail *f)
{
    char basis[65], trade[65];
    const char *own = arena_print(c->arena, "%s/trade", garage_dir(g));
    if (!garage_basis(g, basis, f) || !trade_digest(c->arena, own, trade, f)) return false;
    struct text t = {.arena = c->arena};
    text_print(&t, "%s %s %s %s %d %s", c->command->name, FETTLE_VERSION, basis, trade,
               (int)c->today, vehicle);
    static const char *const given[] = {"runs", "seed", "direction"};
    for (size_t i = 0; i < sizeof given / sizeof given[0]; i++) {
        const char *value = context_option(c, given[i]);
        text_print(&t, " %s=%s", given[i], value ? value : "");
    }
    unsigned char hash[crypto_hash_sha256_BYTES];
    crypto_hash_sha256(hash, (const unsigned char *)t.s, t.length);
    sodium_bin2hex(name, 65, hash, sizeof hash);
    return true;
}

static bool tell(struct context *c, struct told *answer, struct fail *f)
{
    if (c->json) {
        json_t *o = answer->json;
        answer->json = NULL;
        return context_print_json(c, o, f);
    }
    context_print_sheet(c, answer->sheet);
    return true;
}

static bool read_kept(struct context *c, struct garage *g, const char *name, struct told *out)
{
    char *data;
    size_t n;
    struct fail ignored = {0};
    if (!garage_cache_get(g, c->arena, name, &data, &n)) return false;
    json_t *kept = json_loadb(data, n, 0, NULL);
    bool good = kept &&
                sheet_from_json(c->arena, json_object_get(kept, "sheet"), &out->sheet, &ignored) &&
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

static bool answer_from(struct context *c, struct garage *g, answer_reckon *reckon,
                        struct told *answer, struct fail *f)
{
    const struct record *vehicle;
    struct shop_ask ask;
    char name[65];
    if (!context_vehicle(c, &vehicle, f) || !name_answer(c, g, vehicle->id, name, f)) return false;
    if (read_kept(c, g, name, answer)) return true;
    if (!answer_ask(c, &ask, f) || !reckon(c, &ask, answer, f)) return false;
    answer_reckoned(&ask);
    keep(g, name, answer);
    return true;
}

bool answer_tell(struct context *c, answer_reckon *reckon, struct fail *f)
{
    struct garage *g;
    struct told answer = {0};
    /* One state of the garage for the name of the answer and for all that it is reckoned from. */
    if (!context_garage(c, GARAGE_READ, &g, f) || !garage_begin(g, f)) return false;
    bool done = answer_from(c, g, reckon, &answer, f);
    garage_rollback(g);
    done = done && tell(c, &answer, f);
    json_decref(answer.json);
    return done;
}
