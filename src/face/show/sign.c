#include "face/show/sign.h"

#include "garage/kinds.h"

static bool add(struct arena *a, struct garage *g, const char *vehicle, const char *date,
                const struct sign_told *told, struct fail *f)
{
    struct record *r = record_new(a, &kind_sign);
    return record_set(a, r, "vehicle", vehicle, NULL, f) &&
           record_set(a, r, "sign", told->sign, NULL, f) &&
           record_set(a, r, "met", told->met ? "yes" : "no", NULL, f) &&
           record_set(a, r, "date", date, NULL, f) && garage_add(g, r, f);
}

bool sign_tell_all(struct arena *a, struct garage *g, const char *vehicle, day today,
                   const struct sign_told *told, int count, struct fail *f)
{
    struct text date = {.arena = a};
    day_print(&date, today);
    if (count == 0) return true;
    if (!garage_begin(g, f)) return false;
    bool good = true;
    for (int i = 0; good && i < count; i++) good = add(a, g, vehicle, text_get(&date), &told[i], f);
    if (good && garage_commit(g, f)) return true;
    garage_rollback(g);
    return false;
}
