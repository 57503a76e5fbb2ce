/* journal.c - the bytes of an entry. They are written here, not by a library, so that they are the
 * same for ever: keys in this order, no blanks, only '"', '\' and control characters escaped. */
#include "garage/journal.h"

#include <assert.h>
#include <jansson.h>
#include <sodium.h>
#include <string.h>

static const char *const act_names[] = {"add", "change", "remove", "undo"};

const char *journal_act_name(enum journal_act act)
{
    return act_names[act];
}

void journal_hex(char *out, const unsigned char *bytes, size_t n)
{
    sodium_bin2hex(out, 2 * n + 1, bytes, n);
}

/* ---- writing ---- */

static void add_string(struct text *t, const char *s)
{
    text_add(t, "\"");
    while (*s) {
        size_t plain = 0;
        while ((unsigned char)s[plain] >= 0x20 && s[plain] != '"' && s[plain] != '\\') plain++;
        text_add_n(t, s, plain);
        s += plain;
        if (!*s) break;
        if (*s == '"' || *s == '\\')
            text_print(t, "\\%c", *s);
        else
            text_print(t, "\\u%04x", (unsigned)(unsigned char)*s);
        s++;
    }
    text_add(t, "\"");
}

static void add_member(struct text *t, const char *key, const char *value)
{
    text_print(t, ",\"%s\":", key);
    add_string(t, value);
}

/* The fields that are known, public or private, as an object; returns how many. */
static int add_fields(struct text *t, const struct record *r, bool private_)
{
    int n = 0;
    text_add(t, "{");
    for (int i = 0; i < r->kind->n_fields; i++) {
        if (!r->values[i].set || r->kind->fields[i].private_ != private_) continue;
        if (n++) text_add(t, ",");
        add_string(t, r->kind->fields[i].name);
        text_add(t, ":");
        add_string(t, r->values[i].text);
    }
    text_add(t, "}");
    return n;
}

/* Public and once more: whoever verifies a history need not know which fields are files. */
static void add_files(struct text *t, const struct record *r)
{
    int n = 0;
    for (int i = 0; i < r->kind->n_fields; i++) {
        if (!r->values[i].set || r->kind->fields[i].type != FIELD_FILE) continue;
        if (n++) text_add(t, ",");
        add_string(t, r->values[i].text);
    }
}

static void digest_private(const struct journal_entry *e, char hex[65])
{
    crypto_hash_sha256_state state;
    unsigned char digest[JOURNAL_HASH_BYTES];
    crypto_hash_sha256_init(&state);
    crypto_hash_sha256_update(&state, e->salt, sizeof e->salt);
    crypto_hash_sha256_update(&state, (const unsigned char *)e->private_json,
                              strlen(e->private_json));
    crypto_hash_sha256_final(&state, digest);
    journal_hex(hex, digest, sizeof digest);
}

void journal_compose(struct arena *a, struct journal_entry *e)
{
    e->private_json = NULL;
    e->private_digest[0] = '\0';
    struct text secret = {.arena = a};
    if (e->record && add_fields(&secret, e->record, true)) {
        e->private_json = text_get(&secret);
        digest_private(e, e->private_digest);
    }
    struct text t = {.arena = a};
    text_print(&t, "{\"version\":%d,\"sequence\":%lld", JOURNAL_VERSION, (long long)e->sequence);
    add_member(&t, "previous", e->previous);
    add_member(&t, "chain", e->chain);
    add_member(&t, "time", e->at);
    add_member(&t, "who", e->who);
    add_member(&t, "act", act_names[e->act]);
    add_member(&t, "act_id", e->act_id);
    add_member(&t, "kind", e->kind->name);
    text_print(&t, ",\"kind_version\":%d", e->kind->version);
    add_member(&t, "id", e->id);
    text_print(&t, ",\"revision\":%d,\"fields\":", e->revision);
    if (e->record)
        add_fields(&t, e->record, false);
    else
        text_add(&t, "null");
    text_add(&t, ",\"files\":[");
    if (e->record) add_files(&t, e->record);
    text_add(&t, "],\"private\":");
    if (e->private_json)
        add_string(&t, e->private_digest);
    else
        text_add(&t, "null");
    text_add(&t, "}");
    e->bytes = text_get(&t);
    e->length = t.length;
    crypto_hash_sha256(e->hash, (const unsigned char *)e->bytes, e->length);
}

/* ---- reading ---- */

static bool read_fields(struct arena *a, const json_t *fields, struct record *r, struct fail *f)
{
    const char *key;
    json_t *value;
    json_object_foreach((json_t *)fields, key, value)
    {
        const char *s = json_string_value(value);
        if (!s) return fail_set(f, FAIL_GARAGE, "field '%s' is no text", key);
        if (!record_set(a, r, key, s, NULL, f)) return false;
    }
    return true;
}

static bool read_act(const char *name, enum journal_act *act)
{
    for (int i = 0; i < 4; i++)
        if (text_is(name, act_names[i])) {
            *act = (enum journal_act)i;
            return true;
        }
    return false;
}

/* Copies a text of at most size - 1 bytes. */
static bool read_short(char *out, size_t size, const char *s)
{
    size_t n = strlen(s);
    if (n >= size) return false;
    memcpy(out, s, n + 1);
    return true;
}

static bool read_root(struct arena *a, json_t *root, struct journal_entry *e, struct fail *f)
{
    const char *previous, *chain, *at, *who, *act, *act_id, *kind, *id;
    json_t *fields, *files, *private_;
    json_int_t sequence;
    int version, kind_version;
    json_error_t why;
    if (json_unpack_ex(root, &why, JSON_STRICT, "{si,sI,ss,ss,ss,ss,ss,ss,ss,si,ss,si,so,so,so}",
                       "version", &version, "sequence", &sequence, "previous", &previous, "chain",
                       &chain, "time", &at, "who", &who, "act", &act, "act_id", &act_id, "kind",
                       &kind, "kind_version", &kind_version, "id", &id, "revision", &e->revision,
                       "fields", &fields, "files", &files, "private", &private_))
        return fail_set(f, FAIL_GARAGE, "%s", why.text);
    e->kind = record_kind_find(kind);
    if (version != JOURNAL_VERSION || !e->kind || kind_version > e->kind->version)
        return fail_set(f, FAIL_GARAGE,
                        "is of a newer version of this program (%s %d); use that one", kind,
                        kind_version);
    const char *digest = json_is_null(private_) ? "" : json_string_value(private_);
    if (!read_act(act, &e->act) || !digest || !json_is_array(files) ||
        !read_short(e->previous, sizeof e->previous, previous) ||
        !read_short(e->at, sizeof e->at, at) || !read_short(e->act_id, sizeof e->act_id, act_id) ||
        !read_short(e->id, sizeof e->id, id) ||
        !read_short(e->private_digest, sizeof e->private_digest, digest) || sequence < 1 ||
        e->revision < 1)
        return fail_set(f, FAIL_GARAGE, "holds something of the wrong shape");
    e->sequence = sequence;
    e->chain = arena_copy(a, chain);
    e->who = arena_copy(a, who);
    e->record = NULL;
    if (json_is_null(fields)) return true;
    struct record *r = record_new(a, e->kind);
    memcpy(r->id, e->id, sizeof r->id);
    memcpy(r->at, e->at, sizeof r->at);
    r->revision = e->revision;
    e->record = r;
    return read_fields(a, fields, r, f);
}

static bool read_private(struct arena *a, struct journal_entry *e, struct fail *f)
{
    if (!e->private_json || !e->record) return true;
    json_error_t why;
    json_t *root = json_loads(e->private_json, JSON_REJECT_DUPLICATES, &why);
    if (!root) return fail_set(f, FAIL_GARAGE, "private fields are not JSON: %s", why.text);
    bool ok = read_fields(a, root, (struct record *)e->record, f);
    json_decref(root);
    return ok;
}

bool journal_read(struct arena *a, struct journal_entry *e, struct fail *f)
{
    json_error_t why;
    json_t *root = json_loadb(e->bytes, e->length, JSON_REJECT_DUPLICATES, &why);
    struct fail inner = {0};
    bool ok = root ? read_root(a, root, e, &inner) && read_private(a, e, &inner)
                   : fail_set(&inner, FAIL_GARAGE, "is not JSON: %s", why.text);
    json_decref(root);
    return ok ||
           fail_set(f, FAIL_GARAGE, "journal entry %lld: %s", (long long)e->number, inner.text);
}

bool journal_follows(const struct journal_entry *e, const char *previous, int64_t sequence,
                     struct fail *f)
{
    unsigned char hash[JOURNAL_HASH_BYTES];
    crypto_hash_sha256(hash, (const unsigned char *)e->bytes, e->length);
    if (memcmp(hash, e->hash, sizeof hash) != 0)
        return fail_set(f, FAIL_NO, "its bytes do not have its hash: it was altered");
    if (e->sequence != sequence)
        return fail_set(f, FAIL_NO, "is number %lld of its chain where %lld should stand",
                        (long long)e->sequence, (long long)sequence);
    if (!text_is(e->previous, previous))
        return fail_set(f, FAIL_NO,
                        "does not follow on the entry before: one was altered or left out");
    if (!e->private_json) return true;
    char digest[65];
    digest_private(e, digest);
    return text_is(digest, e->private_digest) ||
           fail_set(f, FAIL_NO, "its private fields do not have their digest: they were altered");
}
