/* picture.h - pictures that strangers made: measured before they are decoded, then read, turned the
 * right way up and made smaller.
 *
 * Only fettle-photo is linked with it, a program of its own that holds no garage: whatever a broken
 * picture does to a decoder stays there.
 *
 * Published: JPEG (ITU-T T.81) by libjpeg-turbo, PNG (W3C, third edition) by libpng, Exif (CIPA
 * DC-008) by libexif. */
#ifndef PHOTO_PICTURE_H
#define PHOTO_PICTURE_H

#include "base/fail.h"

#include <stddef.h>
#include <stdio.h>

enum {
    PICTURE_PIXELS_MOST = 100 * 1000 * 1000,
    PICTURE_SIDE_MOST = 30000,
    PICTURE_INTERLACED_MOST = 25 * 1000 * 1000, /* pixels of a PNG that cannot be read row by row */
    PICTURE_COPY_SIDE = 2000,
    PICTURE_THUMBNAIL_SIDE = 320,
};

/* What the file says of it. */
struct picture_facts {
    const char *type; /* "jpeg" or "png", by its bytes */
    unsigned width, height;
    int orientation; /* of Exif: 1 is upright, 5 to 8 lie on their side */
    char taken[11];  /* "2026-11-25", or "" */
};

struct picture {
    unsigned width, height;
    unsigned char *rgb; /* rows from the top, 3 bytes a pixel; by malloc */
};

/* Reads a picture of any allowed size and makes it upright, at most `side` pixels on the longer
 * side. FAIL_INPUT: what is wrong with it, without its name. The caller frees out->rgb, also after
 * a failure. */
bool picture_read(const unsigned char *bytes, size_t n, unsigned side, struct picture_facts *facts,
                  struct picture *out, struct fail *f);
/* The same, smaller. */
bool picture_shrink(const struct picture *in, unsigned side, struct picture *out, struct fail *f);
/* As JPEG, with nothing but the pixels. */
bool picture_write(const struct picture *p, int quality, FILE *to, struct fail *f);

/* ---- for the readers of the two types ---- */

/* Rows go in as they are decoded; what comes out is their mean over each pixel of the result. */
struct shrinker {
    unsigned in_width, in_height, row; /* row: the next that comes */
    struct picture *out;
    float *across, *sum; /* one row, made narrower; the row of the result at hand */
};
bool shrinker_begin(struct shrinker *s, unsigned width, unsigned height, unsigned side,
                    struct picture *out, struct fail *f);
void shrinker_row(struct shrinker *s, const unsigned char *rgb);
void shrinker_end(struct shrinker *s); /* frees what is its own; at any time */

/* Within the limits? */
bool picture_measure(unsigned long width, unsigned long height, struct fail *f);
/* Orientation and day, where the block of Exif ("Exif", two NULs and TIFF) tells them. */
void picture_exif(const unsigned char *block, size_t n, struct picture_facts *facts);

bool picture_read_jpeg(const unsigned char *bytes, size_t n, unsigned side,
                       struct picture_facts *facts, struct picture *out, struct fail *f);
bool picture_read_png(const unsigned char *bytes, size_t n, unsigned side,
                      struct picture_facts *facts, struct picture *out, struct fail *f);

#endif
