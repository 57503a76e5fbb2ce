#include "face/cli/entry.h"

#include <assert.h>
#include <string.h>

bool entry_split(struct arena *a, const char *word, const char **key, const char **value,
                 struct fail *f)
{
    const char *equals = strchr(word, '=');
    if (!equals || equals == word)
        return fail_set(f, FAIL_INPUT,
                        "'%s' is not key=value; put quotes round a value with blanks", word);
    *key = arena_copy_n(a, word, (size_t)(equals - word));
    *value = equals + 1;
    return true;
}

bool entry_fill(struct context *c, struct record *r, int from, struct fail *f)
{
    const char *currency = context_currency(c);
    bool *seen = ARENA_ARRAY(c->arena, bool, r->kind->n_fields);
    for (int i = from; i < c->n_words; i++) {
        const char *key, *value;
        if (!entry_split(c->arena, c->words[i], &key, &value, f) ||
            !record_set(c->arena, r, key, value, currency, f))
            return false;
        int field = record_field(r->kind, key);
        if (seen[field])
            return fail_set(f, FAIL_INPUT, "%s.%s: given twice; give it once", r->kind->name, key);
        seen[field] = true;
    }
    return true;
}

bool entry_kind(const char *name, const struct record_kind **out, struct fail *f)
{
    if ((*out = record_kind_find(name))) return true;
    const char *names[64];
    int count = 0;
    for (; record_kinds[count]; count++) {
        assert(count < 64);
        names[count] = record_kinds[count]->name;
    }
    const char *near = nearest_word(name, names, count);
    if (near)
        return fail_set(f, FAIL_INPUT,
                        "no kind of record '%s'; did you mean '%s'? 'fettle kinds' lists them",
                        name, near);
    return fail_set(f, FAIL_INPUT, "no kind of record '%s'; 'fettle kinds' lists them", name);
}

bool entry_list(struct context *c, const struct record_kind *k, struct record **out, int *count,
                struct fail *f)
{
    struct garage *g;
    const char *vehicle = NULL;
    if (!context_garage(c, GARAGE_READ, &g, f)) return false;
    if (context_option(c, "vehicle")) {
        const struct record *v;
        if (!context_vehicle(c, &v, f)) return false;
        if (!k->of_garage) vehicle = v->id;
    }
    return garage_list(g, c->arena, k, vehicle, out, count, f);
}

const char *entry_tell(struct arena *a, const struct record *r)
{
    struct text t = {.arena = a};
    text_add(&t, r->kind->name);
    if (r->kind->label_field) {
        text_print(&t, " %s", record_text(r, r->kind->label_field, ""));
    } else {
        int told = 0;
        for (int i = 0; i < r->kind->n_fields && told < 3; i++) {
            const enum field_type type = r->kind->fields[i].type;
            if (!r->values[i].set || type == FIELD_PARENT || type == FIELD_FILE) continue;
            text_print(&t, "%s%s %s", told++ ? ", " : " ", r->kind->fields[i].name,
                       r->values[i].text);
        }
    }
    text_print(&t, " (%.8s)", r->id);
    return text_get(&t);
}
