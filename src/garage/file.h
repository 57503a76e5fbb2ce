/* file.h - the files of a garage (photographs, receipts): in files/, each named by the SHA-256 of
 * its bytes.
 *
 * A file is written under a temporary name as it comes in, so that it is never held in memory;
 * then synced, renamed and its folder synced; only then its record is added. What a crash leaves
 * between is an orphan, which garage_sweep removes: whoever stores a file holds a lock that
 * sweeping respects, from file_begin to file_close.
 *
 *     file_begin, file_write ..., file_seal, file_keep, (the record is added and committed),
 *     file_close
 */
#ifndef GARAGE_FILE_H
#define GARAGE_FILE_H

#include "base/fail.h"
#include "base/text.h"

enum {
    FILE_DIGITS = 64, /* of a digest in hex */
    FILE_BYTES_MOST = 100 * 1000 * 1000,
};

struct file_new;

/* dir: the garage's folder. FAIL_GARAGE if it cannot be written there. */
bool file_begin(struct arena *a, const char *dir, struct file_new **out, struct fail *f);
bool file_write(struct file_new *n, const void *bytes, size_t count, struct fail *f);
/* Nothing more comes: the digest is known and the bytes are on the disk, yet without their name. */
bool file_seal(struct file_new *n, struct fail *f);
/* Gives it its name; the same bytes that are there already are as good. */
bool file_keep(struct file_new *n, struct fail *f);
/* Lets go of it; what was not kept is removed. NULL is allowed. */
void file_close(struct file_new *n);

size_t file_size(const struct file_new *n);
const char *file_digest(const struct file_new *n); /* once it is sealed */
/* A descriptor of its own that reads the sealed file from its beginning, to be closed by the
 * caller; -1 if it cannot be had. */
int file_reader(const struct file_new *n);

bool file_is_digest(const char *word); /* 64 lower-case hex digits */
/* Where a file of that digest is, or would be. */
const char *file_path(struct arena *a, const char *dir, const char *digest);

#endif
