#include "face/web/pair.h"

#include "garage/place.h"

#include <assert.h>
#include <errno.h>
#include <fcntl.h>
#include <jansson.h>
#include <sodium.h>
#include <string.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

/* ---- the code ---- */

/* Without I, L, O and U: easily mistaken for 1, 1, 0 and V. */
static const char letters[] = "0123456789ABCDEFGHJKMNPQRSTVWXYZ";

void pairing_begin(struct pairing *p)
{
    *p = (struct pairing){.state = CODE_NONE};
    pthread_mutex_init(&p->lock, NULL);
}

void pairing_end(struct pairing *p)
{
    sodium_memzero(p->code, sizeof p->code);
    pthread_mutex_destroy(&p->lock);
}

void pairing_renew(struct pairing *p, int64_t now)
{
    pthread_mutex_lock(&p->lock);
    for (int i = 0; i < PAIR_CODE_LETTERS; i++)
        p->code[i] = letters[randombytes_uniform(sizeof letters - 1)];
    p->state = CODE_OPEN;
    p->since = now;
    p->wrong = 0; /* but wrong_at stays: a new code gives no quicker tries */
    pthread_mutex_unlock(&p->lock);
}

/* With the lock. A clock that was set back ends it as well. */
static enum code_state state_at(struct pairing *p, int64_t now)
{
    if (p->state == CODE_OPEN && (now < p->since || now - p->since >= PAIR_CODE_SECONDS))
        p->state = CODE_ENDED;
    return p->state;
}

enum code_state pairing_state(struct pairing *p, int64_t now, char *code, int64_t *seconds_left)
{
    pthread_mutex_lock(&p->lock);
    enum code_state state = state_at(p, now);
    if (state == CODE_OPEN) {
        memcpy(code, p->code, sizeof p->code);
        *seconds_left = p->since + PAIR_CODE_SECONDS - now;
    }
    pthread_mutex_unlock(&p->lock);
    return state;
}

/* The letters alone, as the code has them; what is too long or holds something else comes out as
 * another code. */
static void read_code(const char *typed, char out[PAIR_CODE_LETTERS + 1])
{
    size_t n = 0;
    memset(out, '?', PAIR_CODE_LETTERS);
    out[PAIR_CODE_LETTERS] = '\0';
    for (const char *c = typed; *c; c++) {
        if (*c == ' ' || *c == '-') continue;
        char upper = *c >= 'a' && *c <= 'z' ? (char)(*c - 'a' + 'A') : *c;
        if (upper == 'O') upper = '0';
        if (upper == 'I' || upper == 'L') upper = '1';
        if (n < PAIR_CODE_LETTERS)
            out[n] = upper;
        else
            out[0] = '?';
        n++;
    }
}

bool pairing_try(struct pairing *p, const char *typed, int64_t now, int *status, struct fail *f)
{
    char code[PAIR_CODE_LETTERS + 1];
    read_code(typed, code);
    pthread_mutex_lock(&p->lock);
    enum code_state state = state_at(p, now);
    const char *why = NULL;
    *status = 403;
    if (state == CODE_NONE || state == CODE_ENDED)
        why = "the code has ended: it lasts ten minutes; have a new one shown and use that";
    else if (state == CODE_USED)
        why = "the code was used already: it is good for one phone; have a new one shown";
    else if (state == CODE_TRIED_OUT)
        why = "too many wrong codes were tried, so this one has ended; have a new one shown";
    else if (p->wrong_at && now >= p->wrong_at && now - p->wrong_at < PAIR_WAIT_SECONDS)
        *status = 429, why = "too soon after a wrong code; wait a moment and send it again";
    else if (sodium_memcmp(code, p->code, PAIR_CODE_LETTERS) != 0) {
        p->wrong_at = now;
        if (++p->wrong == PAIR_TRIES) p->state = CODE_TRIED_OUT;
        why = "that is not the code; look at the screen and type it again";
    } else {
        p->state = CODE_USED;
    }
    pthread_mutex_unlock(&p->lock);
    return !why || fail_set(f, FAIL_INPUT, "%s", why);
}

/* ---- the devices ---- */

static const char *path_of(struct arena *a, const char *garage)
{
    return arena_print(a, "%s/share/devices.json", garage);
}

static bool is_hex(const char *s, size_t digits)
{
    return s && strlen(s) == digits && strspn(s, "0123456789abcdef") == digits;
}

/* Within the days that can be told: up to the year 2399. */
static bool is_time(const json_t *j)
{
    return json_is_integer(j) && json_integer_value(j) >= 0 && json_integer_value(j) < 13569465600;
}

static bool read_device(struct arena *a, const json_t *from, struct device *out)
{
    const char *id = json_string_value(json_object_get(from, "id")),
               *name = json_string_value(json_object_get(from, "name")),
               *digest = json_string_value(json_object_get(from, "token_sha256"));
    const json_t *paired = json_object_get(from, "paired"), *seen = json_object_get(from, "seen");
    if (!is_hex(id, DEVICE_ID_DIGITS) || !is_hex(digest, DEVICE_TOKEN_DIGITS) || !name ||
        !is_time(paired) || !is_time(seen))
        return false;
    *out = (struct device){arena_copy(a, id), arena_copy(a, name), arena_copy(a, digest),
                           json_integer_value(paired), json_integer_value(seen)};
    return true;
}

bool devices_read(struct arena *a, const char *garage, int64_t now, struct devices *out,
                  struct fail *f)
{
    const char *path = path_of(a, garage);
    *out = (struct devices){0};
    if (access(path, R_OK) != 0 && errno == ENOENT) return true;
    json_t *root = json_load_file(path, JSON_REJECT_DUPLICATES, NULL);
    const json_t *list = json_object_get(root, "devices");
    bool good = json_is_array(list) && json_array_size(list) <= DEVICES_MOST;
    for (size_t i = 0; good && i < json_array_size(list); i++) {
        struct device *d = &out->items[out->count];
        good = read_device(a, json_array_get(list, i), d);
        if (good && now - d->seen < DEVICE_SECONDS) out->count++;
    }
    json_decref(root);
    return good || fail_set(f, FAIL_GARAGE,
                            "%s: cannot be read as the list of paired devices; delete it and pair "
                            "them again",
                            path);
}

static bool write_devices(struct arena *a, const char *garage, const struct devices *d,
                          struct fail *f)
{
    json_t *list = json_array();
    for (int i = 0; i < d->count; i++) {
        const struct device *one = &d->items[i];
        json_array_append_new(list,
                              json_pack("{s:s, s:s, s:s, s:I, s:I}", "id", one->id, "name",
                                        one->name, "token_sha256", one->digest, "paired",
                                        (json_int_t)one->paired, "seen", (json_int_t)one->seen));
    }
    json_t *root = json_pack("{s:o}", "devices", list);
    char *text = json_dumps(root, JSON_INDENT(1));
    json_decref(root);
    assert(text);
    bool ok = place_write_file(*a, path_of(a, garage), text, strlen(text));
    free(text);
    return ok || fail_set(f, FAIL_GARAGE, "%s: cannot be written: %s", path_of(a, garage),
                          strerror(errno));
}

/* One at a time, among threads and processes. -1: not to be had. */
static int lock_devices(struct arena *a, const char *garage, struct fail *f)
{
    const char *folder = arena_print(a, "%s/share", garage);
    int fd = -1;
    if (mkdir(folder, 0700) == 0 || errno == EEXIST)
        fd = open(folder, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    if (fd >= 0 && flock(fd, LOCK_EX) == 0) return fd;
    fail_set(f, FAIL_GARAGE, "%s: cannot be used: %s", folder, strerror(errno));
    if (fd >= 0) close(fd);
    return -1;
}

static const char *digest_of(struct arena *a, const char *token)
{
    unsigned char hash[crypto_hash_sha256_BYTES];
    char *hex = ARENA_ARRAY(a, char, 2 * sizeof hash + 1);
    crypto_hash_sha256(hash, (const unsigned char *)token, strlen(token));
    return sodium_bin2hex(hex, 2 * sizeof hash + 1, hash, sizeof hash);
}

static const char *random_hex(struct arena *a, size_t digits)
{
    unsigned char *bytes = ARENA_ARRAY(a, unsigned char, digits / 2);
    char *hex = ARENA_ARRAY(a, char, digits + 1);
    randombytes_buf(bytes, digits / 2);
    return sodium_bin2hex(hex, digits + 1, bytes, digits / 2);
}

bool devices_add(struct arena *a, const char *garage, const char *name, int64_t now,
                 const char **token, struct fail *f)
{
    struct devices d;
    int lock = lock_devices(a, garage, f);
    if (lock < 0) return false;
    bool ok = devices_read(a, garage, now, &d, f);
    if (ok && d.count == DEVICES_MOST)
        ok = fail_set(f, FAIL_INPUT,
                      "%d devices are paired already; end one with 'fettle serve --forget ID'",
                      DEVICES_MOST);
    if (ok) {
        *token = random_hex(a, DEVICE_TOKEN_DIGITS);
        d.items[d.count++] =
            (struct device){random_hex(a, DEVICE_ID_DIGITS), *name ? name : "phone",
                            digest_of(a, *token), now, now};
        ok = write_devices(a, garage, &d, f);
    }
    close(lock);
    return ok;
}

bool devices_forget(struct arena *a, const char *garage, const char *id, int64_t now,
                    struct fail *f)
{
    struct devices d;
    int lock = lock_devices(a, garage, f), kept = 0;
    if (lock < 0) return false;
    bool ok = devices_read(a, garage, now, &d, f);
    for (int i = 0; ok && i < d.count; i++)
        if (!text_is(d.items[i].id, id)) d.items[kept++] = d.items[i];
    if (ok && kept == d.count)
        ok = fail_set(f, FAIL_INPUT, "no paired device '%s'; 'fettle serve --devices' lists them",
                      id);
    d.count = kept;
    ok = ok && write_devices(a, garage, &d, f);
    close(lock);
    return ok;
}

static struct device *find_token(struct arena *a, struct devices *d, const char *token)
{
    const char *digest = digest_of(a, token);
    struct device *found = NULL;
    for (int i = 0; i < d->count; i++)
        if (sodium_memcmp(d->items[i].digest, digest, DEVICE_TOKEN_DIGITS) == 0)
            found = &d->items[i];
    return found;
}

bool devices_admit(struct arena *a, const char *garage, const char *token, int64_t now,
                   const struct device **out, bool *renewed, struct fail *f)
{
    enum { DAY = 24 * 3600 };
    struct devices *d = ARENA_NEW(a, struct devices);
    struct device *found;
    *out = NULL;
    *renewed = false;
    if (!is_hex(token, DEVICE_TOKEN_DIGITS)) return true;
    if (!devices_read(a, garage, now, d, f)) return false;
    *out = found = find_token(a, d, token);
    if (!found || found->seen / DAY == now / DAY) return true;
    /* Once more with the lock: it may have been ended since. */
    int lock = lock_devices(a, garage, f);
    if (lock < 0) return false;
    bool ok = devices_read(a, garage, now, d, f);
    *out = found = ok ? find_token(a, d, token) : NULL;
    if (found) {
        found->seen = now;
        *renewed = true;
        ok = write_devices(a, garage, d, f);
    }
    close(lock);
    return ok;
}
