/* read.c - facts read back: lists, one record found by what people call it, the digest of all. */
#include "garage/row.h"

#include <assert.h>
#include <sodium.h>
#include <string.h>

bool garage_list(struct garage *g, struct arena *a, const struct record_kind *k,
                 const char *vehicle, struct record **out, int *count, struct fail *f)
{
    const char *where = NULL;
    if (vehicle && !k->of_garage)
        where = k->fields[0].type == FIELD_PARENT ? "vehicle = ?" : "id = ?";
    return row_list(&g->store, a, k, where, vehicle, out, count, f);
}

bool garage_latest(struct garage *g, struct arena *a, const struct record_kind *k,
                   struct record **out, int *count, struct fail *f)
{
    assert(!k->of_garage && k->fields[0].type == FIELD_PARENT);
    const char *where = arena_print(a,
                                    "number IN (SELECT (SELECT max(number) FROM %s WHERE vehicle = "
                                    "v.id) FROM vehicle v) AND ? IS NULL",
                                    row_table(a, k));
    return row_list(&g->store, a, k, where, NULL, out, count, f);
}

static bool is_hex(const char *s)
{
    return strspn(s, "0123456789abcdef") == strlen(s);
}

static const char *label(const struct record *r)
{
    return r->kind->label_field ? record_text(r, r->kind->label_field, r->id) : r->id;
}

/* "no vehicle 'x'; there are ...": the labels, the nearest first if one is near. */
static bool fail_not_found(struct arena *a, const struct record_kind *k, const char *word,
                           const struct record *all, int n, struct fail *f)
{
    struct text t = {.arena = a};
    if (!n)
        return fail_set(f, FAIL_INPUT, "no %s '%s': there is none yet; add one with: fettle add %s",
                        k->name, word, k->name);
    for (int i = 0; i < n; i++)
        if (k->label_field && text_distance(word, label(&all[i])) <= 2)
            return fail_set(f, FAIL_INPUT, "no %s '%s'; did you mean '%s'?", k->name, word,
                            label(&all[i]));
    for (int i = 0; i < n && i < 5; i++) text_print(&t, "%s'%s'", i ? ", " : "", label(&all[i]));
    return fail_set(f, FAIL_INPUT, "no %s '%s'; there %s %s%s", k->name, word, n > 1 ? "are" : "is",
                    text_get(&t), n > 5 ? ", ..." : "");
}

/* How well a word names a record: its id, its label, or the beginning of its id. */
static int match(const struct record *r, const char *word)
{
    if (text_is(r->id, word)) return 3;
    if (r->kind->label_field && text_same_word(label(r), word)) return 2;
    return strlen(word) >= 4 && is_hex(word) && text_starts(r->id, word) ? 1 : 0;
}

bool garage_find(struct garage *g, struct arena *a, const struct record_kind *k, const char *word,
                 struct record **out, struct fail *f)
{
    struct record *all;
    int n, best = 0, found = 0;
    if (!row_list(&g->store, a, k, NULL, NULL, &all, &n, f)) return false;
    for (int i = 0; i < n; i++) {
        int m = match(&all[i], word);
        if (!m || m < best) continue;
        found = m > best ? 1 : found + 1;
        if (m > best) *out = &all[i];
        best = m;
    }
    if (found == 1) return true;
    if (!found) return fail_not_found(a, k, word, all, n, f);
    return fail_set(f, FAIL_INPUT, "%s '%s': %d of them; use more of the id: fettle list %s",
                    k->name, word, found, k->name);
}

static bool reckon_basis(struct garage *g, char hex[65], struct fail *f)
{
    /* From chain to chain by the index: a journal has many entries and few chains. */
    static const char heads[] =
        "WITH RECURSIVE chains(chain) AS (SELECT min(chain) FROM journal UNION ALL SELECT "
        "(SELECT min(chain) FROM journal WHERE chain > chains.chain) FROM chains WHERE "
        "chains.chain IS NOT NULL) SELECT chain, (SELECT hash FROM journal WHERE journal.chain = "
        "chains.chain ORDER BY sequence DESC LIMIT 1) FROM chains WHERE chain IS NOT NULL";
    crypto_hash_sha256_state state;
    unsigned char digest[crypto_hash_sha256_BYTES];
    sqlite3_stmt *q;
    bool row, ok;
    if (!store_prepare(&g->store, heads, &q, f)) return false;
    crypto_hash_sha256_init(&state);
    while ((ok = store_step(&g->store, q, &row, f)) && row)
        for (int i = 0; i < 2; i++) {
            const void *bytes =
                i ? sqlite3_column_blob(q, i) : (const void *)sqlite3_column_text(q, i);
            crypto_hash_sha256_update(&state, bytes,
                                      (unsigned long long)sqlite3_column_bytes(q, i));
        }
    crypto_hash_sha256_final(&state, digest);
    journal_hex(hex, digest, sizeof digest);
    sqlite3_finalize(q);
    return ok;
}

/* Changes whenever another has written since this garage last looked; it does not tell of what this
 * one writes. */
static bool version_of(struct garage *g, int64_t *out, struct fail *f)
{
    sqlite3_stmt **q = &g->basis.version_query;
    bool row;
    if (!*q && !store_prepare(&g->store, "PRAGMA data_version", q, f)) return false;
    const bool ok = store_step(&g->store, *q, &row, f);
    if (ok) *out = sqlite3_column_int64(*q, 0);
    sqlite3_reset(*q);
    return ok;
}

bool garage_basis(struct garage *g, char hex[65], struct fail *f)
{
    int64_t now;
    if (g->mode == GARAGE_WRITE) return reckon_basis(g, hex, f);
    if (!version_of(g, &now, f)) return false;
    if (!*g->basis.hex || g->basis.version != now) {
        /* The version from before: what is written in between makes it be reckoned again. */
        *g->basis.hex = '\0';
        if (!reckon_basis(g, hex, f)) return false;
        memcpy(g->basis.hex, hex, sizeof g->basis.hex);
        g->basis.version = now;
    }
    memcpy(hex, g->basis.hex, sizeof g->basis.hex);
    return true;
}
