#include "library/fill.h"

#include "base/money.h"
#include "base/text.h"

#include <math.h>
#include <stdint.h>
#include <string.h>

static void fill_map(struct fill *c, const struct shape *shape, const struct shape *head,
                     const struct node *map, void *out);

/* ---- what is said of a fault
 * ----------------------------------------------------------------------------- */

#define FAULT(c, node, ...) fault_add((c)->faults, (c)->file, (node)->line, __VA_ARGS__)

static const char *word_of(struct fill *c, const char *s)
{
    return fault_word(c->faults, s);
}

/* "'pettrol'; did you mean 'petrol'?" or "'x'; use one of ..." */
static void unknown_word(struct fill *c, const struct node *n, const char *what, word_list *words,
                         const char *word)
{
    struct nearest near = nearest_to(word);
    struct text all = {.arena = c->arena};
    for (int i = 0; words(i); i++) {
        if (words(i)[0] == '\0') continue;
        nearest_try(&near, words(i));
        text_print(&all, "%s%s", all.length ? ", " : "", words(i));
    }
    if (near.best)
        FAULT(c, n, "%s '%s'; did you mean '%s'?", what, word_of(c, word), near.best);
    else
        FAULT(c, n, "%s '%s'; use one of %s", what, word_of(c, word), text_get(&all));
}

static void unknown_key(struct fill *c, const struct node *n, const struct shape *shape,
                        const struct shape *head)
{
    if (n->kind == NODE_SCALAR && !n->quoted && n->text[0] == '\0') {
        FAULT(c, n, "'%s' has no value; a text with a comma within {} or [] needs quotes",
              word_of(c, n->key));
        return;
    }
    struct nearest near = nearest_to(n->key);
    struct text all = {.arena = c->arena};
    for (const struct shape *s = head ? head : shape; s; s = s == head ? shape : NULL)
        for (int i = 0; i < s->n_keys; i++) {
            nearest_try(&near, s->keys[i].name);
            text_print(&all, "%s%s", all.length ? ", " : "", s->keys[i].name);
        }
    if (near.best)
        FAULT(c, n, "unknown key '%s'; did you mean '%s'?", word_of(c, n->key), near.best);
    else
        FAULT(c, n, "unknown key '%s'; the keys here are %s", word_of(c, n->key), text_get(&all));
}

/* ---- values
 * ---------------------------------------------------------------------------------------------- */

static const char *text_in(struct fill *c, const char *what, const struct node *n)
{
    if (n->kind != NODE_SCALAR) {
        FAULT(c, n, "%s: %s where one value belongs; write just one", what, node_kind_name(n));
        return NULL;
    }
    if (n->text[strspn(n->text, " \t\n")] == '\0') {
        FAULT(c, n, "%s: empty; write it or leave the key out", what);
        return NULL;
    }
    return n->text;
}

static bool number_in(struct fill *c, const char *what, const struct node *n, double *out)
{
    const char *s = text_in(c, what, n);
    if (!s) return false;
    if (!n->quoted && text_to_double(s, out) && isfinite(*out)) return true;
    FAULT(c, n, "%s: not a number '%s'; write it like 2 or 0.5, without unit or quotes", what,
          word_of(c, s));
    return false;
}

static bool in_limits(struct fill *c, const struct key *k, const struct node *n, double value)
{
    if (value >= k->low && value <= k->high) return true;
    FAULT(c, n, "%s: %g is outside %g to %g; correct it", k->name, value, k->low, k->high);
    return false;
}

static bool is_list(struct fill *c, const struct key *k, const struct node *n)
{
    if (n->kind == NODE_LIST && n->count > 0) return true;
    if (n->kind == NODE_LIST)
        FAULT(c, n, "%s: an empty list; leave the key out or fill it", k->name);
    else
        FAULT(c, n, "%s: %s where a list belongs; write [..., ...]", k->name, node_kind_name(n));
    return false;
}

static bool is_map(struct fill *c, const char *what, const struct node *n)
{
    if (n->kind == NODE_MAP && n->count > 0) return true;
    FAULT(c, n, "%s: %s where a mapping belongs; write {key: value}", what,
          n->kind == NODE_MAP ? "nothing" : node_kind_name(n));
    return false;
}

static int word_in(struct fill *c, const struct key *k, const struct node *n)
{
    const char *s = text_in(c, k->name, n);
    if (!s) return -1;
    int i = word_find(k->words, s);
    if (i < 0) unknown_word(c, n, arena_print(c->arena, "%s: no", k->name), k->words, s);
    return i;
}

static int reference_in(struct fill *c, const struct key *k, const struct node *n)
{
    const char *s = text_in(c, k->name, n);
    if (!s) return -1;
    int i = ids_find(&c->ids[k->subject], s);
    if (i >= 0) return i;
    const char *near = ids_nearest(&c->ids[k->subject], s);
    if (near)
        FAULT(c, n, "%s: no '%s' in %s; did you mean '%s'?", k->name, word_of(c, s),
              subject_name(k->subject), near);
    else
        FAULT(c, n, "%s: no '%s' in %s; add it there or correct the id", k->name, word_of(c, s),
              subject_name(k->subject));
    return -1;
}

/* ---- one reader a kind: from the node to the field of the record `out`
 * -------------------------------------- */

static void *field(const struct key *k, void *out)
{
    return (char *)out + k->at;
}

static int *count_field(const struct key *k, void *out)
{
    return (int *)(void *)((char *)out + k->count_at);
}

typedef void key_reader(struct fill *c, const struct key *k, const struct node *n, void *out);

static void read_text(struct fill *c, const struct key *k, const struct node *n, void *out)
{
    *(const char **)field(k, out) = text_in(c, k->name, n);
}

static void read_id(struct fill *c, const struct key *k, const struct node *n, void *out)
{
    const char *s = text_in(c, k->name, n);
    if (s && !id_is_good(s))
        FAULT(c, n, "%s: '%s'; use lower-case words joined by '-'", k->name, word_of(c, s));
    *(const char **)field(k, out) = s;
}

static void read_currency(struct fill *c, const struct key *k, const struct node *n, void *out)
{
    int digits;
    const char *s = text_in(c, k->name, n);
    if (s && !currency_digits(s, &digits))
        FAULT(c, n, "%s: no currency '%s'; write an ISO 4217 code like GBP", k->name,
              word_of(c, s));
    *(const char **)field(k, out) = s;
}

static void read_source(struct fill *c, const struct key *k, const struct node *n, void *out)
{
    const struct key in_sources = {.name = k->name, .subject = SUBJECT_SOURCES};
    reference_in(c, &in_sources, n);
    *(const char **)field(k, out) = n->text; /* even an unknown one: that fault was told */
}

static void read_flag(struct fill *c, const struct key *k, const struct node *n, void *out)
{
    const char *s = text_in(c, k->name, n);
    if (!s) return;
    if (n->quoted || (strcmp(s, "true") != 0 && strcmp(s, "false") != 0))
        FAULT(c, n, "%s: '%s'; write true or false", k->name, word_of(c, s));
    *(bool *)field(k, out) = strcmp(s, "true") == 0;
}

static void read_whole(struct fill *c, const struct key *k, const struct node *n, void *out)
{
    double value;
    if (!number_in(c, k->name, n, &value) || !in_limits(c, k, n, value)) return;
    if (value != floor(value))
        FAULT(c, n, "%s: %g is not a whole number; round it", k->name, value);
    *(int *)field(k, out) = (int)value;
}

static void read_number(struct fill *c, const struct key *k, const struct node *n, void *out)
{
    double value;
    if (number_in(c, k->name, n, &value) && in_limits(c, k, n, value))
        *(double *)field(k, out) = value;
}

static bool points_in_order(struct fill *c, const struct key *k, const struct node *n,
                            const double v[3])
{
    if (v[0] > 0 && v[0] <= v[1] && v[1] <= v[2]) return true;
    FAULT(c, n, "%s: [%g, %g, %g] is out of order; it must be 0 < low <= middle <= high", k->name,
          v[0], v[1], v[2]);
    return false;
}

static void read_points(struct fill *c, const struct key *k, const struct node *n, void *out)
{
    double v[3] = {0};
    if (n->kind == NODE_LIST && n->count == 3) {
        int i = 0;
        for (const struct node *x = n->first; x; x = x->next)
            if (!number_in(c, k->name, x, &v[i++])) return;
    } else if (n->kind == NODE_SCALAR) {
        if (!number_in(c, k->name, n, &v[0])) return;
        v[1] = v[2] = v[0];
    } else {
        FAULT(c, n, "%s: write one number or [low, middle, high]", k->name);
        return;
    }
    if (points_in_order(c, k, n, v))
        *(struct points *)field(k, out) = (struct points){v[0], v[1], v[2]};
}

static void read_word(struct fill *c, const struct key *k, const struct node *n, void *out)
{
    int i = word_in(c, k, n);
    if (i >= 0)
        memcpy(field(k, out), &i,
               sizeof i); /* the field is one of several enums, all of int's size */
}

static void read_reference(struct fill *c, const struct key *k, const struct node *n, void *out)
{
    *(int *)field(k, out) = reference_in(c, k, n);
}

/* False after a fault. What is not named is 0. */
static bool by_word(struct fill *c, const struct key *k, const struct node *n, double *value)
{
    if (!is_map(c, k->name, n)) return false;
    for (int i = 0; k->words(i); i++) value[i] = 0;
    bool good = true;
    for (const struct node *x = n->first; x; x = x->next) {
        int i = word_find(k->words, x->key);
        double v;
        if (i < 0) unknown_word(c, x, arena_print(c->arena, "%s: no", k->name), k->words, x->key);
        if (i >= 0 && number_in(c, k->name, x, &v) && in_limits(c, k, x, v))
            value[i] = v;
        else
            good = false;
    }
    return good;
}

static void read_by_word(struct fill *c, const struct key *k, const struct node *n, void *out)
{
    by_word(c, k, n, field(k, out));
}

static void read_odds(struct fill *c, const struct key *k, const struct node *n, void *out)
{
    if (!by_word(c, k, n, field(k, out))) return;
    double sum = 0, *odds = field(k, out);
    for (int i = 0; k->words(i); i++) sum += odds[i];
    if (fabs(sum - 1) > 1e-6)
        FAULT(c, n, "%s: they sum to %.6g, not 1; correct one of them", k->name, sum);
}

static void read_chance(struct fill *c, const struct key *k, const struct node *n, void *out)
{
    double all, *chance = field(k, out);
    if (n->kind != NODE_SCALAR)
        by_word(c, k, n, chance);
    else if (number_in(c, k->name, n, &all) && in_limits(c, k, n, all))
        for (int i = 0; i < COND_COUNT; i++) chance[i] = all;
}

static void read_worse_than(struct fill *c, const struct key *k, const struct node *n, void *out)
{
    int i = word_in(c, k, n);
    if (i == COND_COUNT - 1)
        FAULT(c, n, "%s: nothing is worse than %s; write is: [%s]", k->name, k->words(i),
              k->words(i));
    for (i++; i > 0 && i < COND_COUNT; i++) *(unsigned *)field(k, out) |= 1U << i;
}

static void read_fitted(struct fill *c, const struct key *k, const struct node *n, void *out)
{
    struct fitted *f = field(k, out);
    if (!is_map(c, k->name, n)) return;
    for (const struct node *x = n->first; x; x = x->next) {
        const struct key inner = {.name =
                                      arena_print(c->arena, "%s.%s", k->name, word_of(c, x->key))};
        struct text all = {.arena = c->arena};
        int a = 0;
        while (a < ANSWER_COUNT && strcmp(answer_name((enum answer)a), x->key) != 0) {
            text_print(&all, "%s%s", a ? ", " : "", answer_name((enum answer)a));
            a++;
        }
        if (a == ANSWER_COUNT) {
            FAULT(c, x, "%s: no answer '%s'; use one of %s", k->name, word_of(c, x->key),
                  text_get(&all));
            continue;
        }
        if (!is_list(c, &inner, x)) continue;
        for (const struct node *v = x->first; v; v = v->next) {
            const char *s = text_in(c, inner.name, v);
            int i = 0;
            struct text values = {.arena = c->arena};
            const char *value;
            while (s && (value = answer_value((enum answer)a, i)) && strcmp(value, s) != 0)
                text_print(&values, "%s%s", i++ ? ", " : "", value);
            if (s && !answer_value((enum answer)a, i))
                FAULT(c, v, "%s: no value '%s'; use %s", inner.name, word_of(c, s),
                      text_get(&values));
            else if (s)
                f->values[a] |= (uint8_t)(1U << i);
        }
    }
}

static void read_record(struct fill *c, const struct key *k, const struct node *n, void *out)
{
    if (is_map(c, k->name, n)) fill_map(c, k->shape, NULL, n, field(k, out));
}

static void read_texts(struct fill *c, const struct key *k, const struct node *n, void *out)
{
    if (!is_list(c, k, n)) return;
    const char **list = ARENA_ARRAY(c->arena, const char *, n->count);
    *(const char ***)field(k, out) = list;
    for (const struct node *x = n->first; x; x = x->next)
        if ((list[*count_field(k, out)] = text_in(c, k->name, x))) ++*count_field(k, out);
}

static void read_values(struct fill *c, const struct key *k, const struct node *n, void *out)
{
    double *value = ARENA_ARRAY(c->arena, double, 12);
    *(double **)field(k, out) = value;
    if (n->kind == NODE_SCALAR) {
        if (number_in(c, k->name, n, value) && in_limits(c, k, n, *value)) *count_field(k, out) = 1;
        return;
    }
    if (n->kind != NODE_LIST || (n->count != 3 && n->count != 12)) {
        FAULT(c, n, "%s: write one number, [low, middle, high] or twelve months", k->name);
        return;
    }
    int have = 0;
    for (const struct node *x = n->first; x; x = x->next)
        if (number_in(c, k->name, x, &value[have]) && in_limits(c, k, x, value[have])) have++;
    if (have == n->count && (have == 12 || points_in_order(c, k, n, value)))
        *count_field(k, out) = have;
}

/* A list of ids as indices; what is unknown or stands twice is told and left out. */
static int references_in(struct fill *c, const struct key *k, const struct node *n, int **out)
{
    int count = 0;
    if (!is_list(c, k, n)) return 0;
    *out = ARENA_ARRAY(c->arena, int, n->count);
    for (const struct node *x = n->first; x; x = x->next) {
        int i = reference_in(c, k, x), j = 0;
        while (i >= 0 && j < count && (*out)[j] != i) j++;
        if (i >= 0 && j < count)
            FAULT(c, x, "%s: '%s' stands twice; keep one of them", k->name, word_of(c, x->text));
        else if (i >= 0)
            (*out)[count++] = i;
    }
    return count;
}

static void read_references(struct fill *c, const struct key *k, const struct node *n, void *out)
{
    *count_field(k, out) = references_in(c, k, n, field(k, out));
}

/* Takes a place onto the stack once a component, so that groups that hold each other end too. */
static int push_place(struct fill *c, int place, int *open, int n_open)
{
    if (c->place_seen[place] == c->places_read) return n_open;
    c->place_seen[place] = c->places_read;
    open[n_open] = place;
    return n_open + 1;
}

static void read_places(struct fill *c, const struct key *k, const struct node *n, void *out)
{
    int *listed = NULL, n_listed = references_in(c, k, n, &listed), n_places = c->trade->n_places;
    int *open = ARENA_ARRAY(c->arena, int, n_places);
    int *found = ARENA_ARRAY(c->arena, int, n_places), n_found = 0;
    c->places_read++;
    for (int i = 0; i < n_listed; i++) {
        int n_open = push_place(c, listed[i], open, 0);
        while (n_open > 0) {
            int p = open[--n_open];
            const struct trade_place *place = &c->trade->places[p];
            if (place->n_members == 0) found[n_found++] = p;
            for (int m = place->n_members - 1; m >= 0; m--)
                n_open = push_place(c, place->members[m], open, n_open);
        }
    }
    *(int **)field(k, out) = found;
    *count_field(k, out) = n_found;
}

static void read_bits(struct fill *c, const struct key *k, const struct node *n, void *out)
{
    int *listed = NULL, n_listed = references_in(c, k, n, &listed);
    for (int i = 0; i < n_listed; i++)
        if (listed[i] < DIRECTIONS_MAX) *(uint32_t *)field(k, out) |= UINT32_C(1) << listed[i];
}

static void read_conditions(struct fill *c, const struct key *k, const struct node *n, void *out)
{
    if (!is_list(c, k, n)) return;
    for (const struct node *x = n->first; x; x = x->next) {
        int i = word_in(c, k, x);
        if (i >= 0) *(unsigned *)field(k, out) |= 1U << i;
    }
}

static void read_records(struct fill *c, const struct key *k, const struct node *n, void *out)
{
    if (!is_list(c, k, n)) return;
    char *list = arena_take(c->arena, (size_t)n->count, k->shape->size);
    *(void **)field(k, out) = list;
    for (const struct node *x = n->first; x; x = x->next) {
        if (!is_map(c, k->name, x)) continue;
        void *record = list + (size_t)(*count_field(k, out))++ * k->shape->size;
        if (k->shape->blank) memcpy(record, k->shape->blank, k->shape->size);
        fill_map(c, k->shape, NULL, x, record);
    }
}

static void read_numbers(struct fill *c, const struct key *k, const struct node *n, void *out)
{
    if (!is_list(c, k, n)) return;
    double *list = ARENA_ARRAY(c->arena, double, n->count);
    *(double **)field(k, out) = list;
    for (const struct node *x = n->first; x; x = x->next) {
        double *to = &list[(*count_field(k, out))++];
        if (number_in(c, k->name, x, to)) in_limits(c, k, x, *to);
    }
}

static void read_words(struct fill *c, const struct key *k, const struct node *n, void *out)
{
    if (!is_list(c, k, n)) return;
    int *list = ARENA_ARRAY(c->arena, int, n->count), i;
    *(int **)field(k, out) = list;
    for (const struct node *x = n->first; x; x = x->next)
        if ((i = word_in(c, k, x)) >= 0) list[(*count_field(k, out))++] = i;
}

static void read_wholes(struct fill *c, const struct key *k, const struct node *n, void *out)
{
    if (!is_list(c, k, n)) return;
    int *list = ARENA_ARRAY(c->arena, int, n->count);
    *(int **)field(k, out) = list;
    for (const struct node *x = n->first; x; x = x->next) {
        const struct key one = {.name = k->name, .low = k->low, .high = k->high};
        read_whole(c, &one, x, &list[(*count_field(k, out))++]);
    }
}

static key_reader *const readers[KEY_KINDS] = {
    [KEY_TEXT] = read_text,         [KEY_ID] = read_id,
    [KEY_CURRENCY] = read_currency, [KEY_SOURCE] = read_source,
    [KEY_FLAG] = read_flag,         [KEY_WHOLE] = read_whole,
    [KEY_NUMBER] = read_number,     [KEY_POINTS] = read_points,
    [KEY_WORD] = read_word,         [KEY_REF] = read_reference,
    [KEY_BY_WORD] = read_by_word,   [KEY_ODDS] = read_odds,
    [KEY_CHANCE] = read_chance,     [KEY_WORSE_THAN] = read_worse_than,
    [KEY_FITTED] = read_fitted,     [KEY_RECORD] = read_record,
    [KEY_TEXTS] = read_texts,       [KEY_VALUES] = read_values,
    [KEY_REFS] = read_references,   [KEY_PLACES] = read_places,
    [KEY_BITS] = read_bits,         [KEY_CONDITIONS] = read_conditions,
    [KEY_NUMBERS] = read_numbers,   [KEY_RECORDS] = read_records,
    [KEY_WORDS] = read_words,       [KEY_WHOLES] = read_wholes,
};

/* ---- mappings
 * -------------------------------------------------------------------------------------------- */

static void fill_map(struct fill *c, const struct shape *shape, const struct shape *head,
                     const struct node *map, void *out)
{
    for (const struct node *n = map->first; n; n = n->next) {
        const struct key *k = shape_key(shape, n->key);
        if (!k && head) k = shape_key(head, n->key);
        if (k)
            readers[k->kind](c, k, n, out);
        else
            unknown_key(c, n, shape, head);
    }
    for (int i = 0; i < shape->n_keys; i++) {
        const struct key *k = &shape->keys[i];
        if (k->needed && !k->header && !node_get(map, k->name))
            FAULT(c, map, "missing key '%s'; add it", k->name);
    }
}

/* What the entry leaves to the file's header. */
static void fill_from_header(struct fill *c, const struct shape *shape, bool needed,
                             const struct node *map, const struct node *header, void *out)
{
    for (int i = 0; i < shape->n_keys; i++) {
        const struct key *k = &shape->keys[i];
        if (!k->header || node_get(map, k->name)) continue;
        const struct node *n = node_get(header, k->name);
        if (n)
            readers[k->kind](c, k, n, out);
        else if (needed)
            FAULT(c, map, "missing key '%s'; add it here or in the file's header", k->name);
    }
}

void fill_entry(struct fill *c, enum subject s, const struct node *map, const struct node *header,
                bool own, void *out)
{
    const struct subject_shape *subject = &shape_of[s];
    struct entry *head = out;
    if (subject->shape.blank) memcpy(out, subject->shape.blank, subject->shape.size);
    head->file = c->file;
    head->line = map->line;
    head->own = own;
    fill_map(c, &subject->shape, &shape_head, map, out);
    fill_from_header(c, &shape_head, subject->marked, map, header, out);
    fill_from_header(c, &subject->shape, true, map, header, out);
    if (subject->named && !node_get(map, "name")) FAULT(c, map, "missing key 'name'; add it");
    if (!head->name) head->name = head->id;
}
