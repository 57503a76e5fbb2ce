/* act.c - what an act may do: add, change, remove, and take the last act back. */
#include "garage/replay.h"

#include <assert.h>
#include <string.h>
#include <time.h>

static void stamp(const struct garage *g, char at[25])
{
    time_t now = (time_t)g->source.now(g->source.context);
    struct tm utc;
    gmtime_r(&now, &utc);
    strftime(at, 25, "%Y-%m-%dT%H:%M:%SZ", &utc);
}

static bool broken(struct garage *g)
{
    g->broken = true;
    return false;
}

static bool is_vehicle(const struct record_kind *k)
{
    return text_is(k->name, "vehicle");
}

static const char *chain_of(const struct record *r)
{
    if (r->kind->of_garage) return "garage";
    return is_vehicle(r->kind) ? r->id : r->values[0].text;
}

/* Writes one entry at the end of its chain and lets the rows follow. */
static bool write_entry(struct garage *g, struct journal_entry *e, struct fail *f)
{
    struct arena scratch = g->arena;
    struct store *s = &g->store;
    struct replay_head head;
    if (!replay_head(s, e->chain, &head, f) ||
        !store_ask(s, "SELECT max(number) FROM journal", NULL, NULL, 0, &e->number, f))
        return false;
    e->number++;
    e->sequence = head.sequence + 1;
    memcpy(e->previous, head.hash, sizeof e->previous);
    memcpy(e->act_id, g->act_id, sizeof e->act_id);
    e->who = g->source.who;
    g->source.random(g->source.context, e->salt, sizeof e->salt);
    journal_compose(&scratch, e);
    sqlite3_stmt *q;
    bool row;
    if (!store_prepare(s, "INSERT INTO journal VALUES (?, ?, ?, ?, ?, ?, ?)", &q, f)) return false;
    sqlite3_bind_int64(q, 1, e->number);
    sqlite3_bind_text(q, 2, e->chain, -1, SQLITE_STATIC);
    sqlite3_bind_int64(q, 3, e->sequence);
    sqlite3_bind_blob64(q, 4, e->bytes, e->length, SQLITE_STATIC);
    sqlite3_bind_blob(q, 5, e->hash, sizeof e->hash, SQLITE_STATIC);
    if (e->private_json) {
        sqlite3_bind_blob(q, 6, e->salt, sizeof e->salt, SQLITE_STATIC);
        sqlite3_bind_text(q, 7, e->private_json, -1, SQLITE_STATIC);
    }
    bool ok = store_step(s, q, &row, f);
    sqlite3_finalize(q);
    return ok && replay_entry(s, s, scratch, e, f);
}

/* Names of parents become ids; then the record must be whole. */
static bool settle(struct garage *g, struct record *r, struct fail *f)
{
    int n = 0;
    for (int i = 0; i < r->kind->n_fields; i++) {
        const struct field *d = &r->kind->fields[i];
        struct value *v = &r->values[i];
        struct arena scratch = g->arena;
        struct record *parent;
        if (d->type != FIELD_PARENT || !v->set) continue;
        if (!garage_find(g, &scratch, record_kind_find(d->parent_kind), v->text, &parent, f))
            return false;
        assert(n < RECORD_PARENTS);
        v->text = memcpy(r->parents[n++], parent->id, sizeof parent->id);
    }
    return record_valid(r, f);
}

static bool write_record(struct garage *g, enum journal_act act, struct record *r, struct fail *f)
{
    struct journal_entry e = {.act = act, .chain = chain_of(r), .kind = r->kind, .record = r};
    stamp(g, r->at);
    r->revision++;
    memcpy(e.at, r->at, sizeof e.at);
    memcpy(e.id, r->id, sizeof e.id);
    e.revision = r->revision;
    return write_entry(g, &e, f);
}

bool garage_add(struct garage *g, struct record *r, struct fail *f)
{
    assert(g->in_act && g->mode == GARAGE_WRITE);
    unsigned char bits[16];
    if (!settle(g, r, f)) return broken(g);
    g->source.random(g->source.context, bits, sizeof bits);
    journal_hex(r->id, bits, sizeof bits);
    r->revision = 0;
    return write_record(g, JOURNAL_ADD, r, f) || broken(g);
}

static bool find_id(struct garage *g, struct arena *a, const struct record_kind *k, const char *id,
                    struct record **out, struct fail *f)
{
    int n;
    if (!row_list(&g->store, a, k, "id = ?", id, out, &n, f)) return false;
    return n == 1 || fail_set(f, FAIL_INPUT,
                              "%s %s: is not there, or was removed; list them with: fettle "
                              "list %s",
                              k->name, id, k->name);
}

bool garage_change(struct garage *g, struct record *r, struct fail *f)
{
    assert(g->in_act && g->mode == GARAGE_WRITE);
    struct record *now;
    if (!settle(g, r, f)) return broken(g);
    struct arena scratch = g->arena;
    if (!find_id(g, &scratch, r->kind, r->id, &now, f)) return broken(g);
    if (now->revision != r->revision) {
        fail_set(f, FAIL_INPUT,
                 "%s %s: was changed meanwhile (revision %d, you have %d); look at it again, then "
                 "change it",
                 r->kind->name, r->id, now->revision, r->revision);
        return broken(g);
    }
    if (!text_is(chain_of(now), chain_of(r))) {
        fail_set(f, FAIL_INPUT,
                 "%s %s: stays with its vehicle; remove it here and add it to the other",
                 r->kind->name, r->id);
        return broken(g);
    }
    return write_record(g, JOURNAL_CHANGE, r, f) || broken(g);
}

/* A record as it stands before an entry that takes it away. */
static bool write_removal(struct garage *g, enum journal_act act, const struct record *r,
                          struct fail *f)
{
    struct journal_entry e = {
        .act = act, .chain = chain_of(r), .kind = r->kind, .revision = r->revision + 1};
    stamp(g, e.at);
    memcpy(e.id, r->id, sizeof e.id);
    return write_entry(g, &e, f);
}

bool garage_remove(struct garage *g, const struct record_kind *k, const char *id, struct fail *f)
{
    assert(g->in_act && g->mode == GARAGE_WRITE);
    struct arena keep = g->arena;
    struct record *r;
    bool ok = find_id(g, &g->arena, k, id, &r, f) && (!k->keep || k->keep(g, r, f)) &&
              write_removal(g, JOURNAL_REMOVE, r, f);
    g->arena = keep;
    return ok || broken(g);
}

/* ---- undo ---- */

/* What people would call the record: its label, or the first thing that it says in public. */
static const char *called(const struct record *r)
{
    if (!r) return "";
    for (int i = 0; i < r->kind->n_fields; i++)
        if (r->values[i].set && !r->kind->fields[i].private_ &&
            r->kind->fields[i].type != FIELD_PARENT)
            return r->values[i].text;
    return "";
}

/* Gives the record of entry `last` the state that it had before that act. */
static bool take_back(struct garage *g, const struct journal_entry *chain, int first, int last,
                      struct fail *f)
{
    const struct journal_entry *e = &chain[last], *before = NULL;
    for (int i = first - 1; i >= 0 && !before; i--)
        if (text_is(chain[i].id, e->id)) before = &chain[i];
    if (before && before->record) {
        struct record back = *before->record;
        back.revision = e->revision;
        return write_record(g, JOURNAL_UNDO, &back, f);
    }
    struct record gone = {.kind = e->kind, .revision = e->revision};
    memcpy(gone.id, e->id, sizeof gone.id);
    /* What was neither there before nor after the act needs nothing. */
    if (!e->record) return true;
    gone.values = e->record->values; /* names the chain */
    return write_removal(g, JOURNAL_UNDO, &gone, f);
}

static bool undo_last(struct garage *g, struct arena *a, const char *vehicle, const char **what,
                      struct fail *f)
{
    struct journal_entry *chain;
    int n;
    if (!garage_journal(g, a, vehicle, &chain, &n, f)) return false;
    if (!n)
        return fail_set(f, FAIL_INPUT, "%s: nothing was written yet, so there is nothing to undo",
                        vehicle ? vehicle : "garage");
    int first = n - 1;
    while (first > 0 && text_is(chain[first - 1].act_id, chain[n - 1].act_id)) first--;
    enum { NAMED_MOST = 12 };
    struct text t = {.arena = a};
    int taken = 0;
    for (int i = n - 1; i >= first; i--) {
        bool later =
            false; /* an act may write a record more than once; its last entry stands for it */
        for (int j = i + 1; j < n; j++) later = later || text_is(chain[j].id, chain[i].id);
        if (later) continue;
        if (!take_back(g, chain, first, i, f)) return false;
        if (++taken > NAMED_MOST) continue;
        const struct journal_entry *e = &chain[i];
        const char *name = called(e->record);
        for (int j = i - 1; j >= 0 && !*name; j--)
            if (text_is(chain[j].id, e->id)) name = called(chain[j].record);
        text_print(&t, "%s%s %s%s%.60s", t.length ? "; " : "", journal_act_name(e->act),
                   e->kind->name, *name ? " " : "", name);
    }
    if (taken > NAMED_MOST) text_print(&t, "; and %d more", taken - NAMED_MOST);
    *what = text_get(&t);
    return true;
}

bool garage_undo(struct garage *g, struct arena *a, const char *vehicle, const char **what,
                 struct fail *f)
{
    if (!garage_begin(g, f)) return false;
    /* What belongs together comes and goes together, in whatever order. */
    if (store_run(&g->store, "PRAGMA defer_foreign_keys = ON", f) &&
        undo_last(g, a, vehicle, what, f))
        return garage_commit(g, f);
    garage_rollback(g);
    return false;
}
