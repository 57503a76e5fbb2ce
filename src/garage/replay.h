/* replay.h - the journal as it is stored, and the rows that follow from it. For src/garage alone.
 */
#ifndef GARAGE_REPLAY_H
#define GARAGE_REPLAY_H

#include "garage/row.h"

struct replay_head {
    int64_t sequence; /* 0: the chain is empty */
    char hash[65];    /* zeros: the chain is empty */
};
bool replay_head(struct store *s, const char *chain, struct replay_head *out, struct fail *f);

/* A row of the journal. */
struct replay_row {
    struct journal_entry entry;
    const char *chain; /* as the columns say; the entry says it too */
    int64_t sequence;
    const char *unread; /* why the entry's bytes cannot be read (then it has number, bytes, hash
                           only), or NULL */
};
/* Gives each row in the order of writing; it and `scratch` last until `each` returns. Stops when
 * `each` says false. */
typedef bool replay_each(void *context, struct arena scratch, const struct replay_row *row,
                         struct fail *f);
bool replay_walk(struct store *s, struct arena scratch, replay_each *each, void *context,
                 struct fail *f);

/* Stores in `rows` what the entry says; `journal` is asked for the place of a record that comes
 * back. */
bool replay_entry(struct store *rows, struct store *journal, struct arena scratch,
                  const struct journal_entry *e, struct fail *f);

#endif
