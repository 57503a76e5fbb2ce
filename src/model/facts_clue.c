#include "model/facts_clue.h"

#include "base/text.h"
#include "garage/kinds.h"

#include <stdlib.h>
#include <string.h>

static const double METRES_A_MILE = 1609.344; /* published: NIST SP 811 */

bool clue_parse(const struct trade *t, const char *word, int *clue, struct fail *f)
{
    for (int i = 0; i < t->n_clues; i++) {
        const struct entry *e = &t->clues[i].head;
        bool is = text_same_word(e->id, word) || text_same_word(e->name, word);
        for (int k = 0; k < e->n_also; k++) is |= text_same_word(e->also[k], word);
        if (is) {
            *clue = i;
            return true;
        }
    }
    const char *near = trade_nearest(t, SUBJECT_CLUES, word);
    return fail_set(f, FAIL_INPUT, "clue: nothing is called '%.60s'; %s%s%s", word,
                    near ? "did you mean '" : "see fettle trade list clues", near ? near : "",
                    near ? "'?" : "");
}

bool clue_outcome_parse(const struct trade *t, int clue, const char *word, int *outcome,
                        struct fail *f)
{
    const struct trade_clue *c = &t->clues[clue];
    char line[200] = "";
    size_t n = 0;
    for (int i = 0; i < c->n_outcomes; i++) {
        if (text_same_word(c->outcomes[i].id, word) || text_same_word(c->outcomes[i].text, word)) {
            *outcome = i;
            return true;
        }
        for (const char *s = i > 0 ? ", " : ""; *s && n + 1 < sizeof line; s++) line[n++] = *s;
        for (const char *s = c->outcomes[i].id; *s && n + 1 < sizeof line; s++) line[n++] = *s;
    }
    return fail_set(f, FAIL_INPUT, "clue: '%s' never shows '%.60s'; use one of %s", c->head.id,
                    word, line);
}

static void read_clock(const struct record *r, struct fact_clock *out)
{
    const struct value *working = record_get(r, "working"), *unit = record_get(r, "unit");
    *out = (struct fact_clock){
        .told = true,
        .reading = (double)record_integer(r, "reading", 0),
        .digits = (int)record_integer(r, "digits", 0),
        .km = unit->set && unit->integer == 1,
        .working = working->set ? working->integer != 0 : -1,
    };
}

/* The one number told of the vehicle at its taking in, where no clock was told by itself. */
static void read_vehicle(const struct record *r, struct facts_clue *out)
{
    const struct value *clock = record_get(r, "clock");
    for (int i = 0; i < 4 && r->at[i]; i++) out->told_year = out->told_year * 10 + (r->at[i] - '0');
    if (!clock->set) return;
    bool km = clock->text && (strstr(clock->text, "km") || strstr(clock->text, "kilo"));
    double miles = clock->number / METRES_A_MILE;
    out->clock = (struct fact_clock){
        .told = true, .reading = km ? miles / MILES_A_KM : miles, .km = km, .working = -1};
}

static int by_date(const void *a, const void *b)
{
    const struct fact_paper *x = a, *y = b;
    if (x->date != y->date) return x->date < y->date ? -1 : 1;
    return (x->miles > y->miles) - (x->miles < y->miles);
}

static void read_clue(struct arena *a, const struct trade *t, const struct record *r,
                      struct facts_clue *out)
{
    struct fail ignored = {0};
    const struct value *how = record_get(r, "how"), *date = record_get(r, "date");
    const char *value = record_text(r, "value", NULL), *note = record_text(r, "note", NULL);
    struct fact_clue x = {
        .name = arena_copy(a, record_text(r, "clue", "")),
        .outcome_name = arena_copy(a, record_text(r, "outcome", "")),
        .value = value ? arena_copy(a, value) : NULL,
        .note = note ? arena_copy(a, note) : NULL,
        .date = date->set ? date->day : DAY_NONE,
        .how = how->set ? (int)how->integer : -1,
    };
    if (!clue_parse(t, x.name, &x.clue, &ignored) ||
        !clue_outcome_parse(t, x.clue, x.outcome_name, &x.outcome, &ignored))
        x.clue = -1;
    for (int i = 0; i < out->n_clues && x.clue >= 0; i++) {
        if (out->clues[i].clue != x.clue) continue;
        x.before = out->clues[i].before + 1;
        for (int k = i + 1; k < out->n_clues; k++) out->clues[k - 1] = out->clues[k];
        out->n_clues--;
    }
    out->clues[out->n_clues++] = x;
}

bool facts_clue_read(struct garage *g, struct arena *a, const struct trade *t, const char *vehicle,
                     struct facts_clue *out, struct fail *f)
{
    struct record *r;
    int n;
    *out = (struct facts_clue){.clock = {.working = -1}};
    if (!garage_find(g, a, record_kind_find("vehicle"), vehicle, &r, f)) return false;
    read_vehicle(r, out);
    if (!garage_list(g, a, &kind_clock, vehicle, &r, &n, f)) return false;
    if (n > 0) read_clock(&r[n - 1], &out->clock);
    if (!garage_list(g, a, &kind_dated_mileage, vehicle, &r, &n, f)) return false;
    out->papers = ARENA_ARRAY(a, struct fact_paper, n);
    for (int i = 0; i < n; i++) {
        const struct value *unit = record_get(&r[i], "unit");
        const char *what = record_text(&r[i], "paper", NULL);
        bool km = unit->set ? unit->integer == 1 : out->clock.km;
        out->papers[out->n_papers++] = (struct fact_paper){
            .date = record_get(&r[i], "written")->day,
            .miles = (double)record_integer(&r[i], "reading", 0) * (km ? MILES_A_KM : 1),
            .km = km,
            .what = what ? arena_copy(a, what) : NULL};
    }
    qsort(out->papers, (size_t)out->n_papers, sizeof *out->papers, by_date);
    if (!garage_list(g, a, &kind_clue_reading, vehicle, &r, &n, f)) return false;
    out->clues = ARENA_ARRAY(a, struct fact_clue, n);
    for (int i = 0; i < n; i++) read_clue(a, t, &r[i], out);
    return true;
}
