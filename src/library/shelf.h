/* shelf.h - trade data kept parsed, for a program that answers many questions: read again only when
 * a file of the garage's own changed. Any thread may take a copy; it stays as it is until it is put
 * back. */
#ifndef LIBRARY_SHELF_H
#define LIBRARY_SHELF_H

#include "library/trade.h"

struct shelf;

struct shelf_copy {
    struct trade trade;
    char digest[65];         /* as trade_digest gives it */
    unsigned char stamp[32]; /* of the own folder when it was read: see sources_stamp */
    int users;               /* the shelf's own hold counts */
    struct arena arena;      /* holds all of it */
};

/* Memory of its own; own_dir as for trade_load, copied. */
struct shelf *shelf_open(const char *own_dir);
/* Nothing may be out any more. */
void shelf_close(struct shelf *s);

/* What trade_load would read now. Each take wants its shelf_put_back. */
bool shelf_take(struct shelf *s, const struct shelf_copy **out, struct fail *f);
void shelf_put_back(struct shelf *s, const struct shelf_copy *copy);

#endif
