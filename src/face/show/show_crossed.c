#include "face/show/show_crossed.h"

#include "face/show/words.h"

static const char *words_of(struct arena *a, const struct crossed *x, const char *currency)
{
    if (x->limit > 0)
        return arena_print(a, "%s is spent; you meant to stop and think at %s",
                           words_money(a, x->spent, currency), words_money(a, x->limit, currency));
    if (x->finding)
        return arena_print(a, "%s was found %s", x->finding->component,
                           condition_name(x->finding->condition));
    return arena_print(a, "%s has passed", words_day(a, x->passed));
}

void show_crossed(struct sheet *s, const struct crossed *crossed, int n, const char *currency)
{
    if (n == 0) return;
    sheet_heading(s, 2, "The choice is open again");
    for (int i = 0; i < n; i++)
        sheet_item(s, "%s%s%s%s.", words_of(s->arena, &crossed[i], currency),
                   crossed[i].why ? " (you wrote: " : "", crossed[i].why ? crossed[i].why : "",
                   crossed[i].why ? ")" : "");
    sheet_text(s, "You set this tripwire yourself, with a cool head. Compare the directions anew "
                  "(fettle choose), as if nothing were spent yet, and decide again.");
}

json_t *show_crossed_json(const struct crossed *crossed, int n, const char *currency)
{
    json_t *all = json_array();
    for (int i = 0; i < n; i++) {
        const struct crossed *x = &crossed[i];
        json_t *o = json_object();
        if (x->limit > 0) {
            json_object_set_new(o, "limit", words_json_money(x->limit, currency));
            json_object_set_new(o, "spent", words_json_money(x->spent, currency));
        } else if (x->finding) {
            json_object_set_new(o, "component", json_string(x->finding->component));
            json_object_set_new(o, "condition", json_string(condition_name(x->finding->condition)));
        } else {
            json_object_set_new(o, "passed", words_json_moment(x->passed, 0));
        }
        json_array_append_new(all, o);
    }
    return all;
}
