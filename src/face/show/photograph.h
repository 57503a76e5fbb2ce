/* photograph.h - a photograph taken in, and its smaller copies. */
#ifndef SHOW_PHOTOGRAPH_H
#define SHOW_PHOTOGRAPH_H

#include "garage/file.h"
#include "garage/garage.h"

/* Looks at a sealed file; if it is a picture, stores it and the record, which has its vehicle and
 * may have what it shows, in an act of its own. called: the file's name, for messages. Otherwise
 * FAIL_INPUT and nothing is stored. */
bool photograph_take(struct arena *a, struct garage *g, struct file_new *file, const char *called,
                     struct record *r, struct fail *f);
/* The same from a path on this machine. */
bool photograph_take_path(struct arena *a, struct garage *g, const char *path, struct record *r,
                          struct fail *f);

enum photograph_size { PHOTOGRAPH_COPY, PHOTOGRAPH_THUMBNAIL };

/* A copy of a stored one, JPEG, open for reading, to be closed by the caller: from the cache, or
 * made now. dir: the garage's folder. */
bool photograph_open(struct arena *a, const char *dir, const char *digest,
                     enum photograph_size size, int *fd, struct fail *f);

#endif
