/* intake: a vehicle is taken in with what is known of it. */
#include "face/cli/entry.h"
#include "face/cli/intake_ask.h"
#include "face/cli/verbs.h"
#include "face/show/show_records.h"

/* Keys are set in the table's order, save the currency, in which the sums are understood. */
static bool take_words(struct context *c, struct intake *in, struct fail *f)
{
    const char *known[64];
    int count = 0;
    for (const struct intake_key *k = intake_keys; k->key; k++) known[count++] = k->key;
    const char **given = ARENA_ARRAY(c->arena, const char *, count);
    for (int i = 0; i < c->n_words; i++) {
        const char *key, *value;
        if (!entry_split(c->arena, c->words[i], &key, &value, f)) return false;
        const struct intake_key *k = intake_find(key);
        const char *near = nearest_word(key, known, count);
        if (!k && near)
            return fail_set(f, FAIL_INPUT, "intake: no question '%s'; did you mean '%s'?", key,
                            near);
        if (!k)
            return fail_set(f, FAIL_INPUT,
                            "intake: no question '%s'; 'fettle help intake' lists the keys", key);
        if (given[k - intake_keys])
            return fail_set(f, FAIL_INPUT, "intake: %s is given twice; give it once", k->key);
        given[k - intake_keys] = value;
    }
    const struct intake_key *currency = intake_find("currency");
    if (given[currency - intake_keys] &&
        !intake_set(in, currency, given[currency - intake_keys], f))
        return false;
    for (int i = 0; i < count; i++)
        if (given[i] && !intake_set(in, &intake_keys[i], given[i], f)) return false;
    return true;
}

static void print_understood(const struct context *c, const struct intake *in)
{
    struct text unknown = {.arena = c->arena};
    struct sheet *s = sheet_new(c->arena, record_text(in->vehicle, "name", ""));
    sheet_text(s, "Taken in. This is what was understood:");
    for (const struct intake_key *k = intake_keys; k->key; k++) {
        const char *answer = intake_answer(in, k);
        if (answer && k->question > 0)
            sheet_fact(s, TONE_PLAIN, k->key, "%s", answer);
        else if (!answer && k->ask)
            text_print(&unknown, "%s%s", unknown.length ? ", " : "", k->key);
    }
    if (unknown.length)
        sheet_text(s, "Not known, so reckoned with the usual and its spread: %s.",
                   text_get(&unknown));
    context_print_sheet(c, s);
}

static bool print_understood_json(struct context *c, const struct intake *in, struct fail *f)
{
    json_t *unknown = json_array();
    for (const struct intake_key *k = intake_keys; k->key; k++)
        if (k->ask && !intake_answer(in, k)) json_array_append_new(unknown, json_string(k->key));
    return context_print_json(
        c, json_pack("{s: o, s: o}", "vehicle", record_to_json(in->vehicle), "unknown", unknown),
        f);
}

static bool run(struct context *c, struct fail *f)
{
    struct intake in;
    struct garage *g;
    if (!context_garage(c, GARAGE_WRITE, &g, f) || !intake_begin(c->arena, g, &in, f) ||
        !(c->n_words ? take_words(c, &in, f) : intake_ask(c, &in, f)) || !intake_store(&in, f))
        return false;
    if (c->json) return print_understood_json(c, &in, f);
    print_understood(c, &in);
    struct fail why = {0};
    context_say(c, "%s", "");
    if (!intake_forecast(c, in.vehicle, &why)) /* the vehicle is stored all the same */
        context_say(c, "No first forecast: %s", why.text);
    return true;
}

static const struct example examples[] = {
    {"fettle intake", "asks twelve questions"},
    {"fettle intake name=Linnet kind=car year=1959 build=unitary brakes=drum standing=27 "
     "storage=dry turns=yes",
     "what is left out is not known"},
    {"fettle intake name=Barge kind=pickup build=frame cylinders=8 hours=6 hands=1 a-month='300 "
     "GBP' ceiling='9000 GBP'",
     "with what time and money there is"},
    {NULL, NULL},
};
const struct command command_intake = {
    .name = "intake",
    .help = "take a vehicle in: twelve questions, then a first plan",
    .usage = "[key=value...]",
    .text = "Every answer may be '?', not known. Keys: name, kind (car, pickup, van, "
            "four-wheel-drive), year, build "
            "(unitary, frame), cylinders (4, 6, 8), fuel (petrol, diesel, lpg), gearbox (manual, "
            "automatic), driven "
            "(rear, front, four), brakes (drum, mixed, disc), voltage (12, 6), earth (negative, "
            "positive), state "
            "(whole, part-stripped, boxed), turns, rolls, stops (yes, no), papers (full, some, "
            "none), standing (years), "
            "storage (dry, heated, damp, outdoors), hours (a week), hands, a-month, ceiling "
            "(sums), currency.",
    .examples = examples,
    .run = run,
};
