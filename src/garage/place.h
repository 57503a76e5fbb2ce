/* place.h - the folder of a garage on the disk: made whole or not at all, on a disk that can be
 * trusted. */
#ifndef GARAGE_PLACE_H
#define GARAGE_PLACE_H

#include "base/fail.h"
#include "base/text.h"

/* Is a file system of this kind shared over a network? `magic` is statfs f_type; `type` is its name
 * in /proc/self/mountinfo (needed for those in user space; NULL: not known). The name of the kind,
 * or NULL. */
const char *place_network(long magic, const char *type);
/* Refuses a folder on a network: two machines would not see each other's locks, and facts would be
 * lost. */
bool place_is_local(const char *dir, struct fail *f);

/* A new folder beside `dir` with files/, cache/ and trade/ in it, to be filled and then moved into
 * place. */
bool place_begin(struct arena *a, const char *dir, char **temporary, struct fail *f);
/* Makes it durable and gives it the name `dir`, which must not exist or be an empty folder. */
bool place_finish(struct arena *a, const char *temporary, const char *dir, struct fail *f);
void place_abandon(struct arena *a, const char *temporary);

/* Writes a file as temporary, fsync, rename, fsync of the folder. Returns false without a line: the
 * caller knows whether it matters. */
bool place_write_file(struct arena scratch, const char *path, const char *data, size_t n);

/* The names in a folder, on the disk for good. */
bool place_sync(const char *dir);

#endif
