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

static bool tell(struct arena *a, struct garage *g, const struct trade *t, const char *vehicle,
                 const struct facts *facts, day today, struct finding_told *told, int *stored,
                 int *crossed, struct fail *f)
{
    int kind, place;
    struct record *r;
    if (!component_parse(t, told->component, &kind, &place, f)) return false;
    if (place < 0) place = t->components[kind].places[0]; /* named without one: it has only one */
    const struct fact_finding *last = facts_finding(facts, kind, place);
    told->now = last ? last->condition : COND_UNSEEN;
    told->crossed = told->now != told->was && told->now != told->said;
    *crossed += told->crossed;
    if (told->crossed || told->now == told->said) return true;
    *stored += 1;
    return finding_make(a, vehicle, told->component, condition_name(told->said), NULL, today, &r,
                        f) &&
           garage_add(g, r, f);
}

bool finding_tell_all(struct arena *a, struct garage *g, const struct trade *t, const char *vehicle,
                      day today, struct finding_told *told, int count, int *stored, int *crossed,
                      struct fail *f)
{
    struct facts facts;
    *stored = *crossed = 0;
    if (!garage_begin(g, f)) return false;
    bool done = facts_read(g, a, t, vehicle, &facts, f);
    for (int i = 0; done && i < count; i++)
        done = tell(a, g, t, vehicle, &facts, today, &told[i], stored, crossed, f);
    if (done && *stored > 0 && garage_commit(g, f)) return true;
    garage_rollback(g);
    return done && *stored == 0;
}
