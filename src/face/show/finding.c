#include "face/show/finding.h"

#include "model/facts.h"

bool finding_make(struct arena *a, const char *vehicle, const char *component,
                  const char *condition, const char *note, day today, struct record **out,
                  struct fail *f)
{
    struct text day_text = {.arena = a};
    day_print(&day_text, today);
    struct record *r = record_new(a, record_kind_find("finding"));
    *out = r;
    return record_set(a, r, "vehicle", vehicle, NULL, f) &&
           record_set(a, r, "component", component, NULL, f) &&
           record_set(a, r, "condition", condition, NULL, f) &&
           record_set(a, r, "how", "seen", NULL, f) &&
           record_set(a, r, "date", text_get(&day_text), NULL, f) &&
           (!note || !*note || record_set(a, r, "note", note, NULL, f)) && record_valid(r, f);
}

bool finding_tell(struct arena *a, struct garage *g, const struct trade *t, const char *vehicle,
                  const char *component, const char *condition, const char *note, day today,
                  struct record **out, struct fail *f)
{
    int kind, place;
    enum condition found;
    if (!component_parse(t, component, &kind, &place, f)) return false;
    if (!condition_parse(condition, &found))
        return fail_set(
            f, FAIL_INPUT,
            "finding.condition: no condition '%s'; use sound, worn, poor, bodged, failed, missing, "
            "'not fitted' or unseen",
            condition);
    const char *name = t->components[kind].head.id;
    const char *id = place < 0 ? name : arena_print(a, "%s@%s", name, t->places[place].head.id);
    if (!finding_make(a, vehicle, id, condition_name(found), note, today, out, f) ||
        !garage_begin(g, f))
        return false;
    if (garage_add(g, *out, f) && garage_commit(g, f)) return true;
    garage_rollback(g);
    return false;
}
