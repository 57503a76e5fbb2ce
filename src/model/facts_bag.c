#include "model/facts_bag.h"

#include "garage/kinds.h"

#include <ctype.h>
#include <math.h>
#include <string.h>

/* Do the words stand in the text, whole, in any case? */
static bool has_words(const char *text, const char *words)
{
    const size_t n = strlen(words);
    for (const char *at = text; *at; at++) {
        if (at != text && isalnum((unsigned char)at[-1])) continue;
        size_t i = 0;
        while (i < n && tolower((unsigned char)at[i]) == tolower((unsigned char)words[i])) i++;
        if (i == n && !isalnum((unsigned char)at[n])) return true;
    }
    return false;
}

/* The longest name wins: a copper washer is no plain washer. */
static int fastener_in(const struct trade *t, const char *name)
{
    int best = -1;
    size_t longest = 0;
    for (int i = 0; i < t->n_fasteners; i++) {
        const struct entry *e = &t->fasteners[i].head;
        for (int k = -1; k < e->n_also; k++) {
            const char *word = k < 0 ? e->name : e->also[k];
            if (strlen(word) <= longest || !has_words(name, word)) continue;
            longest = strlen(word);
            best = i;
        }
    }
    return best;
}

static day day_of(const struct record *r, const char *field)
{
    const struct value *v = record_get(r, field);
    return v->set ? v->day : DAY_NONE;
}

static struct fact_piece piece_of(const struct trade *t, const struct record *r)
{
    const struct value *renew = record_get(r, "renew");
    return (struct fact_piece){.id = r->id,
                               .name = record_text(r, "name", ""),
                               .thread = record_text(r, "thread", NULL),
                               .grade = record_text(r, "grade", NULL),
                               .source = record_text(r, "source", NULL),
                               .note = record_text(r, "note", NULL),
                               .length = record_text(r, "length", NULL),
                               .torque = record_text(r, "torque", NULL),
                               .length_m = record_number(r, "length", NAN),
                               .torque_nm = record_number(r, "torque", NAN),
                               .count = (int)record_integer(r, "count", 1),
                               .back = (int)record_integer(r, "back", -1),
                               .renew = renew->set ? (int)renew->integer : -1,
                               .fastener = fastener_in(t, record_text(r, "name", ""))};
}

bool facts_bags_read(struct garage *g, struct arena *a, const struct trade *t, const char *vehicle,
                     struct fact_bag **out, int *count, struct fail *f)
{
    struct record *bags, *pieces, *photographs;
    int n_pieces, n_photographs;
    if (!garage_list(g, a, &kind_bag, vehicle, &bags, count, f) ||
        !garage_list(g, a, &kind_bag_item, vehicle, &pieces, &n_pieces, f) ||
        !garage_list(g, a, record_kind_find("photograph"), vehicle, &photographs, &n_photographs,
                     f))
        return false;
    *out = ARENA_ARRAY(a, struct fact_bag, *count);
    for (int i = 0; i < *count; i++) {
        const struct record *r = &bags[i];
        const char *job = record_text(r, "job", NULL);
        struct fact_bag *b = &(*out)[i];
        *b = (struct fact_bag){.id = r->id,
                               .vehicle = record_text(r, "vehicle", ""),
                               .code = record_text(r, "code", ""),
                               .what = record_text(r, "what", ""),
                               .component = record_text(r, "component", NULL),
                               .job = job,
                               .shelf = record_text(r, "shelf", NULL),
                               .note = record_text(r, "note", NULL),
                               .trade_job = job ? trade_find_job(t, job) : -1,
                               .date = day_of(r, "date"),
                               .emptied = day_of(r, "emptied"),
                               .pieces = ARENA_ARRAY(a, struct fact_piece, n_pieces),
                               .photographs = ARENA_ARRAY(a, const struct record *, n_photographs)};
        for (int k = 0; k < n_pieces; k++)
            if (text_is(record_text(&pieces[k], "bag", ""), r->id))
                b->pieces[b->n_pieces++] = piece_of(t, &pieces[k]);
        for (int k = 0; k < n_photographs; k++)
            if (text_is(record_text(&photographs[k], "bag", ""), r->id))
                b->photographs[b->n_photographs++] = &photographs[k];
    }
    return true;
}
