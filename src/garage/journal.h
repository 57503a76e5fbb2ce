/* journal.h - the entries of a chain: how their bytes are made, read and checked. Pure: no
 * database, no clock.
 *
 * What is hashed is the entry's bytes as stored, so that a verifier needs nothing but SHA-256. The
 * shape of an entry is told in docs/data-format.md. An entry carries the whole of its record as it
 * stands after the act, so that replaying is storing, and taking back is storing the state before.
 *
 * Published: SHA-256, FIPS 180-4 (libsodium). */
#ifndef GARAGE_JOURNAL_H
#define GARAGE_JOURNAL_H

#include "garage/record.h"

enum { JOURNAL_VERSION = 1, JOURNAL_HASH_BYTES = 32, JOURNAL_SALT_BYTES = 16 };

enum journal_act { JOURNAL_ADD, JOURNAL_CHANGE, JOURNAL_REMOVE, JOURNAL_UNDO };

struct journal_entry {
    int64_t number;    /* place over all chains of a garage, from 1; not part of the bytes */
    const char *bytes; /* UTF-8 JSON */
    size_t length;
    unsigned char hash[JOURNAL_HASH_BYTES]; /* as stored beside the bytes */
    const char *private_json;               /* NULL: none, or left out */
    unsigned char salt[JOURNAL_SALT_BYTES]; /* if private_json */

    /* What the bytes say: */
    const char *chain; /* id of a vehicle, or "garage" */
    int64_t sequence;  /* from 1 */
    char previous[65]; /* hash of the entry before in hex; zeros for the first */
    char at[25];       /* "2026-11-25T19:00:00Z" */
    const char *who;
    enum journal_act act;
    char act_id[33]; /* the same for all entries of one transaction */
    const struct record_kind *kind;
    char id[33];
    int revision;
    const struct record *record; /* as it stands after the act; NULL: it is no more */
    char private_digest[65];     /* "": the entry had no private fields */
};

const char *journal_act_name(enum journal_act act); /* "add", "change", "remove", "undo" */

/* Makes bytes, hash and private_json from what e says (salt is used if there is something private).
 */
void journal_compose(struct arena *a, struct journal_entry *e);
/* Reads what the bytes and private_json say; FAIL_GARAGE for what this program cannot understand.
 */
bool journal_read(struct arena *a, struct journal_entry *e, struct fail *f);
/* Do the bytes have their hash, the private fields their digest, and does the entry follow on the
 * one before? Private fields that were left out are no fault. FAIL_NO and a line if not. */
bool journal_follows(const struct journal_entry *e, const char *previous, int64_t sequence,
                     struct fail *f);

void journal_hex(char *out, const unsigned char *bytes, size_t n); /* 2 n digits and a NUL */

#endif
