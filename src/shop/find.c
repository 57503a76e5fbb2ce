#include "shop/find.h"

#include "garage/search.h"
#include "shop/fold.h"

#include <string.h>

enum { LINE_BYTES = 160 };

struct pages {
    struct arena *a;
    struct search *search;
    struct found *all;
    int count;
    size_t capacity;
};

static bool add(struct pages *p, struct found page, struct fail *f)
{
    p->all = arena_grow(p->a, p->all, (size_t)p->count, &p->capacity, sizeof *p->all);
    p->all[p->count] = page;
    return search_add(p->search, p->count++, fold_text(p->a, page.name),
                      fold_text(p->a, page.words), f);
}

/* ---- records ---- */

static const char *vehicle_name(const struct record *vehicles, int n, const char *id)
{
    for (int i = 0; i < n; i++)
        if (text_is(vehicles[i].id, id)) return record_text(&vehicles[i], "name", "?");
    return "";
}

/* "brakes-open; 2 h; finished yes": what a person could have typed, but for ids. */
static const char *words_of(struct arena *a, const struct record *r)
{
    struct text t = {.arena = a};
    for (int i = 0; i < r->kind->n_fields; i++) {
        const struct field *d = &r->kind->fields[i];
        if (!r->values[i].set || d->type == FIELD_PARENT || d->type == FIELD_FILE) continue;
        const bool plain = d->type == FIELD_TEXT || d->type == FIELD_CHOICE;
        text_print(&t, "%s%s%s%s", t.length ? "; " : "", plain ? "" : d->name, plain ? "" : " ",
                   r->values[i].text);
    }
    return text_get(&t);
}

static bool add_records(struct pages *p, struct garage *g, struct fail *f)
{
    struct record *vehicles;
    int n_vehicles;
    if (!garage_list(g, p->a, record_kind_find("vehicle"), NULL, &vehicles, &n_vehicles, f))
        return false;
    for (const struct record_kind *const *k = record_kinds; *k; k++) {
        struct record *list;
        int n;
        if (!garage_list(g, p->a, *k, NULL, &list, &n, f)) return false;
        for (int i = n - 1; i >= 0; i--) { /* the latest first among equals */
            const char *of =
                (*k)->of_garage ? ""
                                : vehicle_name(vehicles, n_vehicles,
                                               list[i].values[0].set ? list[i].values[0].text : "");
            if (!add(p,
                     (struct found){.record = &list[i],
                                    .vehicle = of,
                                    .name = (*k)->name,
                                    .words = words_of(p->a, &list[i])},
                     f))
                return false;
        }
    }
    return true;
}

/* ---- trade data ---- */

static void add_texts(struct text *t, const char *const *texts, int n)
{
    for (int i = 0; i < n; i++) text_print(t, "; %s", texts[i]);
}

static const char *entry_words(struct arena *a, const struct trade *t, enum subject s, int i)
{
    const struct entry *e = trade_entry(t, s, i);
    struct text words = {.arena = a};
    text_add(&words, e->id);
    add_texts(&words, e->also, e->n_also);
    if (s == SUBJECT_JOBS) {
        add_texts(&words, t->jobs[i].steps, t->jobs[i].n_steps);
        if (t->jobs[i].accept) text_print(&words, "; %s", t->jobs[i].accept);
    }
    if (s == SUBJECT_CAUTIONS) text_print(&words, "; %s", t->cautions[i].text);
    if (s == SUBJECT_COMPONENTS && t->components[i].seen_by)
        text_print(&words, "; %s", t->components[i].seen_by);
    return text_get(&words);
}

static bool add_trade(struct pages *p, const struct trade *t, struct fail *f)
{
    for (int s = 0; s < SUBJECT_COUNT; s++)
        for (int i = 0; i < trade_count(t, (enum subject)s); i++) {
            const struct entry *e = trade_entry(t, (enum subject)s, i);
            if (!add(p,
                     (struct found){.vehicle = "",
                                    .subject = (enum subject)s,
                                    .index = i,
                                    .name = e->name ? e->name : e->id,
                                    .words = entry_words(p->a, t, (enum subject)s, i)},
                     f))
                return false;
        }
    return true;
}

/* ---- what has the words ---- */

/* So much of it as is read at a glance. */
static const char *line_of(struct arena *a, const char *words)
{
    const size_t n = strlen(words);
    if (n <= LINE_BYTES) return words;
    size_t end = LINE_BYTES;
    while (end > 0 && ((unsigned char)words[end] & 0xC0) == 0x80) end--; /* no half character */
    return arena_print(a, "%s...", arena_copy_n(a, words, end));
}

static bool ask(struct pages *p, const char *words, bool all, struct find *out, struct fail *f)
{
    int *numbers, n;
    if (!search_find(p->search, p->a, words, all, FIND_MOST + 1, &numbers, &n, f)) return false;
    out->more = n > FIND_MOST;
    if (out->more) n = FIND_MOST;
    out->hits = ARENA_ARRAY(p->a, struct found, n);
    out->all = all;
    out->count = 0;
    for (int records = 1; records >= 0; records--)
        for (int i = 0; i < n; i++) {
            struct found hit = p->all[numbers[i]];
            if ((hit.record != NULL) != records) continue;
            hit.words = line_of(p->a, hit.words);
            out->hits[out->count++] = hit;
        }
    return true;
}

bool find_everything(struct arena *a, struct garage *g, const struct trade *t, const char *words,
                     struct find *out, struct fail *f)
{
    struct pages p = {.a = a};
    const char *folded = fold_text(a, words);
    *out = (struct find){.all = true};
    if (!*folded) return fail_set(f, FAIL_INPUT, "find: say what, as: fettle find bonnet hinge");
    if (!search_open(a, &p.search, f)) return false;
    const bool good = (!g || add_records(&p, g, f)) && add_trade(&p, t, f) &&
                      ask(&p, folded, true, out, f) &&
                      (out->count > 0 || ask(&p, folded, false, out, f));
    search_close(p.search);
    return good;
}
