#include "library/read.h"

#include "library/check.h"
#include "library/fill.h"

#include <string.h>

struct file {
    const struct source *source;
    const struct node *root;
    enum subject subject;
};

/* An entry as it stands in a file, before it is known which of one id holds. */
struct slot {
    const char *id;
    const struct node *node;
    const struct file *file;
    bool dropped;
};
struct slots {
    struct slot *at;
    int count;
    size_t capacity;
};

struct reading {
    struct arena *arena;
    struct faults faults;
    struct slots slots[SUBJECT_COUNT];
    struct ids ids[SUBJECT_COUNT];
};

/* ---- files
 * -----------------------------------------------------------------------------------------------
 */

static bool header_subject(struct faults *f, const char *file, const struct node *root,
                           enum subject *out)
{
    const struct node *n = node_get(root, "subject");
    if (!n || n->kind != NODE_SCALAR) {
        fault_add(f, file, root->line,
                  "no subject; the file must begin with subject: jobs or another");
        return false;
    }
    int s = word_find(word_subject, n->text);
    if (s >= 0) {
        *out = (enum subject)s;
        return true;
    }
    struct nearest near = nearest_to(n->text);
    for (int i = 0; word_subject(i); i++) nearest_try(&near, word_subject(i));
    if (near.best)
        fault_add(f, file, n->line, "subject: no '%s'; did you mean '%s'?", fault_word(f, n->text),
                  near.best);
    else
        fault_add(f, file, n->line, "subject: no '%s'; docs/trade-data.md lists them",
                  fault_word(f, n->text));
    return false;
}

static bool is_header_key(enum subject s, const char *name)
{
    if (strcmp(name, "subject") == 0 || strcmp(name, "entries") == 0) return true;
    const struct key *k = shape_key(&shape_of[s].shape, name);
    if (!k) k = shape_key(&shape_head, name);
    return k && k->header;
}

static bool file_read(struct faults *f, const struct source *source, struct file *out)
{
    const struct node *root = tree_read(f, source->file, source->bytes, source->size);
    if (!root) return false;
    if (root->kind != NODE_MAP) {
        fault_add(f, source->file, root->line, "%s where subject: and entries: belong",
                  node_kind_name(root));
        return false;
    }
    *out = (struct file){source, root, SUBJECT_COUNT};
    return header_subject(f, source->file, root, &out->subject);
}

static void file_index(struct reading *r, const struct file *file)
{
    const char *name = file->source->file;
    for (const struct node *n = file->root->first; n; n = n->next)
        if (!is_header_key(file->subject, n->key))
            fault_add(
                &r->faults, name, n->line,
                "unknown key '%s' in the header of %s; move it into the entries or leave it out",
                fault_word(&r->faults, n->key), subject_name(file->subject));
    const struct node *entries = node_get(file->root, "entries");
    if (!entries || entries->kind != NODE_LIST) {
        fault_add(&r->faults, name, entries ? entries->line : file->root->line,
                  "no list of entries; write entries: and below it '- id: ...'");
        return;
    }
    struct slots *slots = &r->slots[file->subject];
    for (const struct node *n = entries->first; n; n = n->next) {
        const struct node *id = node_get(n, "id");
        if (!id || id->kind != NODE_SCALAR) {
            fault_add(&r->faults, name, n->line, "missing key 'id'; add it");
            continue;
        }
        slots->at = arena_grow(r->arena, slots->at, (size_t)slots->count, &slots->capacity,
                               sizeof *slots->at);
        slots->at[slots->count++] = (struct slot){id->text, n, file, false};
    }
}

/* ---- ids
 * -------------------------------------------------------------------------------------------------
 */

/* Slots of one id: the first of each layer counts, and the own one stands where the carried one
 * stood. */
static void same_id(struct reading *r, struct slots *slots, const struct id_row *row, int n)
{
    struct slot *kept = &slots->at[row[0].index];
    for (int i = 1; i < n; i++) {
        struct slot *next = &slots->at[row[i].index];
        next->dropped = true;
        if (next->file->source->own != kept->file->source->own)
            *kept = (struct slot){kept->id, next->node, next->file, false};
        else
            fault_add(&r->faults, next->file->source->file, next->node->line,
                      "'%s' is already in %s:%d; give it another id or take one out",
                      fault_word(&r->faults, next->id), kept->file->source->file, kept->node->line);
    }
}

static void subject_index(struct reading *r, enum subject s)
{
    struct slots *slots = &r->slots[s];
    struct ids all = {0};
    for (int i = 0; i < slots->count; i++) ids_add(r->arena, &all, slots->at[i].id, i);
    ids_sort(&all);
    for (int i = 0, n; i < all.count; i += n) {
        for (n = 1; i + n < all.count && strcmp(all.row[i].id, all.row[i + n].id) == 0;) n++;
        same_id(r, slots, &all.row[i], n);
    }
    int kept = 0;
    for (int i = 0; i < slots->count; i++)
        if (!slots->at[i].dropped) slots->at[kept++] = slots->at[i];
    slots->count = kept;
    for (int i = 0; i < kept; i++) ids_add(r->arena, &r->ids[s], slots->at[i].id, i);
    ids_sort(&r->ids[s]);
}

/* ---- entries
 * --------------------------------------------------------------------------------------------- */

static void subject_fill(struct reading *r, struct fill *c, enum subject s, struct trade *out)
{
    const struct slots *slots = &r->slots[s];
    const struct subject_shape *subject = &shape_of[s];
    char *array = arena_take(r->arena, (size_t)slots->count, subject->shape.size);
    memcpy((char *)out + subject->array_at, &array, sizeof array);
    memcpy((char *)out + subject->count_at, &slots->count, sizeof slots->count);
    if (s == SUBJECT_PLACES) c->place_seen = ARENA_ARRAY(r->arena, int, slots->count);
    for (int i = 0; i < slots->count; i++) {
        const struct slot *slot = &slots->at[i];
        c->file = slot->file->source->file;
        fill_entry(c, s, slot->node, slot->file->root, slot->file->source->own,
                   array + (size_t)i * subject->shape.size);
    }
}

/* What follows from what was written. */
static void finish(struct trade *t)
{
    for (int i = 0; i < t->n_jobs; i++) {
        struct trade_job *job = &t->jobs[i];
        if (!job->accept || job->accept_mark != MARK_NONE) continue;
        job->accept_mark = job->head.mark;
        job->accept_source = job->head.source;
    }
    for (int i = 0; i < t->n_coverage; i++)
        for (int a = 0; a < ANSWER_COUNT; a++)
            if (t->coverage[i].fitted.values[a] != 0) t->coverage[i].conditional = true;
}

bool trade_read(struct arena *a, const struct sources *sources, struct trade *out,
                struct trade_faults *faults)
{
    struct reading r = {.arena = a, .faults = {.arena = a}};
    struct file *files = ARENA_ARRAY(a, struct file, sources->count);
    bool all_read = true;
    *out = (struct trade){0};
    for (int i = 0; i < sources->count; i++) {
        if (file_read(&r.faults, &sources->at[i], &files[i]))
            file_index(&r, &files[i]);
        else
            all_read = false;
    }
    /* With a file unread, every id that it holds would be told as unknown. */
    if (!all_read) {
        faults_tell(&r.faults, faults);
        return false;
    }
    for (int s = 0; s < SUBJECT_COUNT; s++) subject_index(&r, (enum subject)s);
    struct fill c = {.arena = a, .faults = &r.faults, .trade = out, .ids = r.ids};
    for (int s = 0; s < SUBJECT_COUNT; s++) subject_fill(&r, &c, (enum subject)s, out);
    finish(out);
    check_trade(&r.faults, out);
    faults_tell(&r.faults, faults);
    return faults->count == 0;
}

unsigned trade_subjects(struct arena *a, const struct sources *sources)
{
    struct faults ignored = {.arena = a};
    unsigned subjects = 0;
    for (int i = 0; i < sources->count; i++) {
        struct file file;
        if (file_read(&ignored, &sources->at[i], &file)) subjects |= 1U << file.subject;
    }
    return subjects;
}
