#include "model/facts_identity.h"

#include "garage/kinds.h"

#include <assert.h>

static const char *kept(struct arena *a, const struct record *r, const char *field)
{
    const char *s = record_text(r, field, NULL);
    return s ? arena_copy(a, s) : NULL;
}

static day day_of(const struct record *r)
{
    const struct value *v = record_get(r, "date");
    return v->set ? v->day : DAY_NONE;
}

/* What the trade data does not know is a fact all the same: kind -1. */
static void locate(const struct trade *t, const char *component, int *kind, int *place)
{
    struct fail ignored = {0};
    *kind = *place = -1;
    if (!component || !component_parse(t, component, kind, place, &ignored)) *kind = *place = -1;
}

static void take_mark(struct arena *a, const struct trade *t, const struct record *r,
                      struct fact_mark *out)
{
    *out = (struct fact_mark){.what = (enum mark_of)record_integer(r, "what", MARK_OF_OTHER),
                              .where = kept(a, r, "where"),
                              .component = kept(a, r, "component"),
                              .text = arena_copy(a, record_text(r, "text", "")),
                              .again = kept(a, r, "again"),
                              .book = kept(a, r, "book"),
                              .how = kept(a, r, "how"),
                              .photo = kept(a, r, "photo"),
                              .date = day_of(r)};
    locate(t, out->component, &out->kind, &out->place);
}

static void take_original(struct arena *a, const struct trade *t, const struct record *r,
                          struct facts_identity *out)
{
    struct fact_original x = {.component = arena_copy(a, record_text(r, "component", "")),
                              .class_ =
                                  (enum originality)record_integer(r, "class", ORIGINAL_UNKNOWN),
                              .evidence = kept(a, r, "evidence"),
                              .how = kept(a, r, "how"),
                              .date = day_of(r)};
    locate(t, x.component, &x.kind, &x.place);
    int same = 0;
    while (same < out->n_originals) {
        const struct fact_original *o = &out->originals[same];
        if (x.kind < 0 ? o->kind < 0 && text_same_word(o->component, x.component)
                       : o->kind == x.kind && (o->place == x.place || x.place < 0))
            break;
        same++;
    }
    out->originals[same] = x;
    if (same == out->n_originals) out->n_originals++;
}

bool facts_read_identity(struct garage *g, struct arena *a, const struct trade *t,
                         const char *vehicle, struct facts_identity *out, struct fail *f)
{
    struct record *r, *v;
    int n;
    *out = (struct facts_identity){0};
    if (!garage_find(g, a, record_kind_find("vehicle"), vehicle, &v, f) ||
        !garage_list(g, a, &kind_mark, vehicle, &r, &out->n_marks, f))
        return false;
    out->maker = kept(a, v, "maker");
    out->marks = ARENA_ARRAY(a, struct fact_mark, out->n_marks);
    for (int i = 0; i < out->n_marks; i++) take_mark(a, t, &r[i], &out->marks[i]);
    if (!garage_list(g, a, &kind_originality, vehicle, &r, &n, f)) return false;
    out->originals = ARENA_ARRAY(a, struct fact_original, n);
    for (int i = 0; i < n; i++) take_original(a, t, &r[i], out);
    return true;
}
