/* source.h - the bytes of trade data, before anything is read into them: what the program carries,
 * and a folder's *.yaml files. */
#ifndef LIBRARY_SOURCE_H
#define LIBRARY_SOURCE_H

#include "base/arena.h"
#include "base/fail.h"

enum { SOURCE_MAX_BYTES = 4 << 20, SOURCES_MAX_BYTES = 16 << 20, SOURCES_MAX_DEPTH = 8 };

struct source {
    const char *file; /* as faults tell it */
    const char *path; /* below the folder: the order and the digest go by it */
    const char *bytes;
    size_t size;
    bool own; /* of the garage, not of the program */
};

struct sources {
    struct source *at;
    int count;
    size_t capacity;
};

/* What the program carries: the stream that tools/blob.sh makes. */
void sources_add_carried(struct arena *a, struct sources *s);
/* The *.yaml files below a folder, sorted by path; hidden ones and links are passed over. A folder
 * that does not exist fails unless may_lack. Refuses a file over SOURCE_MAX_BYTES, and
 * SOURCES_MAX_BYTES in all. */
bool sources_add_dir(struct arena *a, struct sources *s, const char *dir, bool own, bool may_lack,
                     struct fail *f);
/* A hash of names, sizes and times of the folder's *.yaml files, without reading them: another
 * stamp if one of them changed. NULL, or a folder that cannot be walked, has a stamp too. */
void sources_stamp(struct arena scratch, const char *dir, unsigned char stamp[32]);
/* SHA-256, hex, over layer, path, size and bytes of each. */
void sources_digest(const struct sources *s, char hex[65]);

#endif
