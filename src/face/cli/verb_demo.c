/* demo: makes the demonstration garage from its list of facts, through the same door as any other
 * facts. */
#include "base/random.h"
#include "face/cli/context.h"
#include "face/cli/demo.h"
#include "face/cli/entry.h"
#include "face/cli/verbs.h"

#include <assert.h>
#include <string.h>

/* Clock and chance of the demonstration: the same for everyone, so that its facts are the same
 * bytes. */
struct demo_source {
    int64_t second;
    uint32_t draws;
};

enum { DEMO_SEED = 1959, SECONDS_BETWEEN = 240 };

static int64_t demo_now(void *context)
{
    return ((struct demo_source *)context)->second;
}

static void demo_random(void *context, void *out, size_t n)
{
    struct demo_source *s = context;
    for (size_t done = 0; done < n;) {
        struct philox p = random_words(DEMO_SEED, text_hash("demo"), s->draws++, 0);
        size_t take = n - done < sizeof p.word ? n - done : sizeof p.word;
        for (size_t i = 0; i < take; i++) /* byte by byte, the same on a big-endian machine */
            ((unsigned char *)out)[done + i] = (unsigned char)(p.word[i / 4] >> (8 * (i % 4)));
        done += take;
    }
}

static bool put(struct context *c, struct garage *g, const struct demo_fact *d, struct fail *f)
{
    const struct record_kind *k = record_kind_find(d->kind);
    assert(k);
    struct record *r = record_new(c->arena, k);
    for (int i = 0; d->fields[i]; i++) {
        const char *key, *value;
        if (!entry_split(c->arena, d->fields[i], &key, &value, f) ||
            !record_set(c->arena, r, key, value, NULL, f))
            return false;
    }
    if (!record_valid(r, f) || !garage_begin(g, f)) return false;
    if (garage_add(g, r, f) && garage_commit(g, f)) return true;
    garage_rollback(g);
    return false;
}

static bool run(struct context *c, struct fail *f)
{
    struct demo_source now = {0};
    const struct garage_source source = {demo_now, demo_random, &now, "demo"};
    if (c->n_words != 1)
        return fail_set(f, FAIL_INPUT,
                        "demo: say where, one folder that does not exist yet: fettle demo DIR");
    const char *dir = c->words[0];
    int count = 0;
    for (; demo_facts[count].kind; count++) {
        const struct demo_fact *d = &demo_facts[count];
        day on;
        bool known = day_parse(d->day, &on, f);
        assert(known);
        int64_t evening = (int64_t)on * 86400 + 20 * 3600;
        now.second = evening > now.second ? evening : now.second + SECONDS_BETWEEN;
        if (count == 0 && (!garage_create(dir, "Europe/London", &source, f) ||
                           !garage_open(c->arena, dir, GARAGE_WRITE, &source, &c->garage, f)))
            return false;
        if (!put(c, c->garage, d, f)) {
            struct fail why = *f;
            *f = (struct fail){0};
            return fail_set(f, why.kind, "%s; %s is not complete: remove it and try again",
                            why.text, dir);
        }
    }
    if (c->json)
        return context_print_json(c, json_pack("{s: s, s: i}", "garage", dir, "facts", count), f);
    context_say(c,
                "The demonstration garage is in %s: %d invented facts about a car that never was.",
                dir, count);
    context_say(c, "Next: fettle plan --garage %s", dir);
    return true;
}

static const struct example examples[] = {
    {"fettle demo ~/linnet", "an invented 1959 estate, found after 27 years in a cart shed"},
    {"fettle list findings --garage ~/linnet", "what was seen of it"},
    {NULL, NULL},
};
const struct command command_demo = {
    .name = "demo",
    .help = "make the demonstration garage",
    .usage = "DIR",
    .text = "The same version makes the same facts, to the byte. Everything in it is invented.",
    .examples = examples,
    .run = run,
};
