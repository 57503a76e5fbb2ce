/* garage.h - the store: a folder with garage.db (SQLite), files/ (by digest), cache/ and trade/.
 *
 * The only door to SQLite. Facts are permanent: each act is one transaction that writes journal
 * entries and the rows that follow from them. A chain a vehicle and one for the garage; see
 * docs/data-format.md. Two processes may use a garage at a time: a writer waits for the other. */
#ifndef GARAGE_GARAGE_H
#define GARAGE_GARAGE_H

#include "garage/journal.h"
#include "garage/record.h"

struct garage;

/* Where time and chance come from; the demonstration garage has its own, so that its facts are the
 * same bytes. */
struct garage_source {
    int64_t (*now)(void *context); /* seconds since 1970, UTC */
    void (*random)(void *context, void *out, size_t n);
    void *context;
    const char *who; /* who acts: a login name or "demo"; lives as long as the garage */
};

enum garage_mode { GARAGE_READ, GARAGE_WRITE };

/* Makes the folder (which must not exist, or be empty) and its database. Nothing is left behind if
 * it fails. source NULL: the system's clock and random numbers. */
bool garage_create(const char *dir, const char *time_zone, const struct garage_source *source,
                   struct fail *f);
/* Missing, read-only, truncated, from a newer version, on a network folder: one line each,
 * FAIL_GARAGE. The handle lives in the arena; the garage works in memory of its own. A folder that
 * cannot be written can still be read. A garage is used by one thread at a time, and never across a
 * fork; others open their own. */
bool garage_open(struct arena *a, const char *dir, enum garage_mode mode,
                 const struct garage_source *source, struct garage **out, struct fail *f);
void garage_close(struct garage *g);
const char *garage_dir(const struct garage *g);
/* IANA name of the zone in which days and clock times are meant; stamps are UTC. */
const char *garage_time_zone(const struct garage *g);

/* One act: begin, any number of add, change and remove, commit. Anything that fails makes commit
 * impossible; rollback is always safe. Reads inside the act see its writes. With GARAGE_READ an act
 * only gives its reads one state of the garage. Between begin and commit no other process writes,
 * so what was read still holds. */
bool garage_begin(struct garage *g, struct fail *f);
bool garage_commit(struct garage *g, struct fail *f);
void garage_rollback(struct garage *g);

/* Stores a new record; fills r->id, revision, at, and the parent's id in place of a name. */
bool garage_add(struct garage *g, struct record *r, struct fail *f);
/* Stores r's values over those of the record r->id; FAIL_INPUT if its revision is no longer
 * r->revision: another hand changed it since it was read. A record stays with its vehicle. */
bool garage_change(struct garage *g, struct record *r, struct fail *f);
/* Refused while other records belong to it. */
bool garage_remove(struct garage *g, const struct record_kind *k, const char *id, struct fail *f);
/* Takes back the last act on the chain of `vehicle` (an id; NULL: the garage's own), all that it
 * wrote to that chain, as an act of its own with new entries; says what in *what. The act that it
 * takes back may itself be an undo: undo twice is redo. FAIL_INPUT if nothing was ever written. Not
 * inside another act. */
bool garage_undo(struct garage *g, struct arena *a, const char *vehicle, const char **what,
                 struct fail *f);

/* The entries of a chain (`vehicle`: its id, NULL: the garage's own), oldest first, to be shown or
 * exported. */
bool garage_journal(struct garage *g, struct arena *a, const char *vehicle,
                    struct journal_entry **out, int *count, struct fail *f);

/* Records of a kind, oldest first; of one vehicle (id) or all (NULL). */
bool garage_list(struct garage *g, struct arena *a, const struct record_kind *k,
                 const char *vehicle, struct record **out, int *count, struct fail *f);
/* Of every vehicle the record that was added last, where it has one. */
bool garage_latest(struct garage *g, struct arena *a, const struct record_kind *k,
                   struct record **out, int *count, struct fail *f);
/* By id, by label, or by an unambiguous beginning of an id of at least four digits. */
bool garage_find(struct garage *g, struct arena *a, const struct record_kind *k, const char *word,
                 struct record **out, struct fail *f);

/* Digest of all facts: SHA-256 over the heads of all chains, in hex. */
bool garage_basis(struct garage *g, char hex[65], struct fail *f);

/* Checks database, chains, rows against journal, each file's digest, and that none is missing.
 * Faults as lines in *report; false only if it could not be checked at all. Private fields that
 * were left out are no fault. */
bool garage_check(struct garage *g, struct text *report, int *entries, int *faults, struct fail *f);
/* Throws all rows away and makes them again from the journal; refused if the journal itself was
 * altered. */
bool garage_rebuild(struct garage *g, int *entries, struct fail *f);

/* Removes files that no entry speaks of (see file.h), unless somebody is storing one: then another
 * time does. Not inside an act. */
bool garage_sweep(struct garage *g, int *swept, struct fail *f);

/* A reckoning kept for next time, by name (a digest in hex); safe to delete. get: false if there is
 * none. */
bool garage_cache_get(struct garage *g, struct arena *a, const char *name, char **data, size_t *n);
bool garage_cache_has(struct garage *g, struct arena scratch,
                      const char *name); /* it may still turn out to be spoiled */
/* When something was last kept there or thrown away; 0: never. False: so lately that what comes
 * next might have the same stamp. */
bool garage_cache_stamp(struct garage *g, struct arena scratch, int64_t *out);
void garage_cache_put(struct garage *g, const char *name, const char *data, size_t n);

#endif
