#include "face/show/identity_tell.h"

#include "model/facts.h"

#include <assert.h>

/* The full id of a component as typed; *id stays NULL where none was told. */
static bool component_id(struct arena *a, const struct trade *t, const char *typed, const char **id,
                         struct fail *f)
{
    int kind, place;
    if (!component_parse(t, typed, &kind, &place, f)) return false;
    const char *name = t->components[kind].head.id;
    *id = place < 0 ? name : arena_print(a, "%s@%s", name, t->places[place].head.id);
    return true;
}

bool identity_tell(struct arena *a, struct garage *g, const struct trade *t, const char *kind,
                   const char *vehicle, const struct told_field *fields, int count, day today,
                   struct record **out, struct fail *f)
{
    const struct record_kind *k = record_kind_find(kind);
    struct text day_text = {.arena = a};
    assert(k);
    struct record *r = *out = record_new(a, k);
    day_print(&day_text, today);
    if (!record_set(a, r, "vehicle", vehicle, NULL, f) ||
        !record_set(a, r, "date", text_get(&day_text), NULL, f))
        return false;
    for (int i = 0; i < count; i++) {
        const char *value = fields[i].value;
        if (!value || !*value) continue;
        if (text_is(fields[i].name, "component") && !component_id(a, t, value, &value, f))
            return false;
        if (!record_set(a, r, fields[i].name, value, NULL, f)) return false;
    }
    if (!record_valid(r, f) || !garage_begin(g, f)) return false;
    if (garage_add(g, r, f) && garage_commit(g, f)) return true;
    garage_rollback(g);
    return false;
}
