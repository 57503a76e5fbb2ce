/* pool.h - garages kept open for reading, for a program that answers many questions: to open one
 * costs more than most questions do. Any thread may take one; it is that thread's alone until it is
 * put back.
 *
 * What is taken reads the garage as it is then: acts of others are seen, as any reader sees them,
 * and a database that was put in the old one's place, written over or taken away is noticed when
 * the next garage is taken. */
#ifndef GARAGE_POOL_H
#define GARAGE_POOL_H

#include "garage/garage.h"

struct garage_pool;

/* Memory of its own; dir is copied. Nothing is opened yet. */
struct garage_pool *garage_pool_open(const char *dir);
void garage_pool_close(struct garage_pool *p); /* nothing may be out any more */

/* As garage_open; only readers are kept. Each take wants its garage_pool_put_back. */
bool garage_pool_take(struct garage_pool *p, enum garage_mode mode, struct garage **out,
                      struct fail *f);
void garage_pool_put_back(struct garage_pool *p, struct garage *g);

#endif
