#include "face/show/bag_act.h"

#include "face/show/words.h"
#include "garage/kinds.h"
#include "shop/bags.h"

static bool set_typed(struct arena *a, struct record *r, const struct bag_typed *typed,
                      struct fail *f)
{
    for (; typed && typed->name; typed++)
        if (typed->value && *typed->value && !record_set(a, r, typed->name, typed->value, NULL, f))
            return false;
    return true;
}

static const char *text_of_day(struct arena *a, day d)
{
    struct text t = {.arena = a};
    day_print(&t, d);
    return text_get(&t);
}

static bool ended(struct garage *g, bool good, struct fail *f)
{
    if (good && garage_commit(g, f)) return true;
    garage_rollback(g);
    return false;
}

static bool add_new(struct arena *a, struct garage *g, const char *vehicle,
                    const struct bag_typed *typed, day today, struct record *r, struct fail *f)
{
    struct record *bags;
    const char *code;
    int n;
    if (!set_typed(a, r, typed, f) || !record_set(a, r, "vehicle", vehicle, NULL, f)) return false;
    if (!record_get(r, "date")->set && !record_set(a, r, "date", text_of_day(a, today), NULL, f))
        return false;
    if (!record_get(r, "code")->set &&
        (!bags_next_code(a, g, &code, f) || !record_set(a, r, "code", code, NULL, f)))
        return false;
    if (!record_valid(r, f) || !garage_list(g, a, &kind_bag, NULL, &bags, &n, f)) return false;
    for (int i = 0; i < n; i++)
        if (text_same_word(record_text(&bags[i], "code", ""), record_text(r, "code", "")))
            return fail_set(f, FAIL_INPUT,
                            "bag.code: %s is in use: %.80s; leave it out for the next",
                            record_text(r, "code", ""), record_text(&bags[i], "what", ""));
    return garage_add(g, r, f);
}

bool bag_new(struct arena *a, struct garage *g, const char *vehicle, const struct bag_typed *typed,
             day today, struct record **out, struct fail *f)
{
    *out = record_new(a, &kind_bag);
    return garage_begin(g, f) && ended(g, add_new(a, g, vehicle, typed, today, *out, f), f);
}

/* A bag by its code, within an act. full: refused where it was emptied. */
static bool find(struct arena *a, struct garage *g, const char *code, bool full,
                 struct record **out, struct fail *f)
{
    if (!garage_find(g, a, &kind_bag, code, out, f)) return false;
    const struct value *emptied = record_get(*out, "emptied");
    if (!full || !emptied->set) return true;
    return fail_set(f, FAIL_INPUT, "bag %s: it was emptied on %s; nothing is changed",
                    record_text(*out, "code", code), words_day(a, emptied->day));
}

static bool add_piece(struct arena *a, struct garage *g, const char *code,
                      const struct bag_typed *typed, struct fail *f)
{
    struct record *bag, *r = record_new(a, &kind_bag_item);
    return find(a, g, code, true, &bag, f) && set_typed(a, r, typed, f) &&
           record_set(a, r, "vehicle", record_text(bag, "vehicle", ""), NULL, f) &&
           record_set(a, r, "bag", bag->id, NULL, f) && record_valid(r, f) && garage_add(g, r, f);
}

bool bag_put(struct arena *a, struct garage *g, const char *code, const struct bag_typed *typed,
             struct fail *f)
{
    return garage_begin(g, f) && ended(g, add_piece(a, g, code, typed, f), f);
}

static bool change(struct arena *a, struct garage *g, struct record *r, const char *field,
                   const char *value, struct fail *f)
{
    return record_set(a, r, field, value, NULL, f) && record_valid(r, f) && garage_change(g, r, f);
}

bool bag_move(struct arena *a, struct garage *g, const char *code, const char *shelf,
              struct fail *f)
{
    struct record *bag;
    return garage_begin(g, f) &&
           ended(g, find(a, g, code, false, &bag, f) && change(a, g, bag, "shelf", shelf, f), f);
}

/* Those of one bag. */
static bool pieces_of(struct arena *a, struct garage *g, const struct record *bag,
                      struct record ***out, int *count, struct fail *f)
{
    struct record *all;
    int n;
    if (!garage_list(g, a, &kind_bag_item, record_text(bag, "vehicle", ""), &all, &n, f))
        return false;
    *out = ARENA_ARRAY(a, struct record *, n);
    *count = 0;
    for (int i = 0; i < n; i++)
        if (text_is(record_text(&all[i], "bag", ""), bag->id)) (*out)[(*count)++] = &all[i];
    return true;
}

static bool set_count(struct arena *a, struct garage *g, const char *code, const char *piece,
                      const char *count, struct fail *f)
{
    struct record *bag, **pieces;
    int n;
    if (!find(a, g, code, false, &bag, f) || !pieces_of(a, g, bag, &pieces, &n, f)) return false;
    for (int i = 0; i < n; i++) {
        if (!text_is(pieces[i]->id, piece) &&
            !text_same_word(record_text(pieces[i], "name", ""), piece))
            continue;
        int64_t many;
        const int64_t out = record_integer(pieces[i], "count", 0);
        if (count && text_to_int(count, &many) && many > out)
            return fail_set(f, FAIL_INPUT,
                            "bag %s: %d x %.60s came off, so %d cannot go back; mend the count "
                            "first",
                            record_text(bag, "code", code), (int)out,
                            record_text(pieces[i], "name", ""), (int)many);
        return change(a, g, pieces[i], "back", count ? count : "", f);
    }
    return fail_set(f, FAIL_INPUT, "bag %s: there is no '%.60s' in it",
                    record_text(bag, "code", code), piece);
}

bool bag_count(struct arena *a, struct garage *g, const char *code, const char *piece,
               const char *count, struct fail *f)
{
    return garage_begin(g, f) && ended(g, set_count(a, g, code, piece, count, f), f);
}

static bool set_empty(struct arena *a, struct garage *g, const char *code, day today,
                      const char **said, struct fail *f)
{
    struct record *bag, **pieces;
    struct text lost = {.arena = a};
    int n;
    if (!find(a, g, code, true, &bag, f) || !pieces_of(a, g, bag, &pieces, &n, f)) return false;
    for (int i = 0; i < n; i++) {
        const int64_t out = record_integer(pieces[i], "count", 0),
                      back = record_integer(pieces[i], "back", -1);
        if (back >= 0 && back < out)
            text_print(&lost, "%s%d of %d x %s", lost.length ? "; " : "", (int)(out - back),
                       (int)out, record_text(pieces[i], "name", ""));
        if (back < 0 && !change(a, g, pieces[i], "back", arena_print(a, "%d", (int)out), f))
            return false;
    }
    *said = lost.length ? arena_print(a, "%s is empty; short: %s", record_text(bag, "code", code),
                                      text_get(&lost))
                        : arena_print(a, "%s is empty, nothing is left over.",
                                      record_text(bag, "code", code));
    return change(a, g, bag, "emptied", text_of_day(a, today), f);
}

bool bag_empty(struct arena *a, struct garage *g, const char *code, day today, const char **said,
               struct fail *f)
{
    return garage_begin(g, f) && ended(g, set_empty(a, g, code, today, said, f), f);
}
