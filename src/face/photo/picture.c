/* picture.c - what kind of picture it is, by its bytes; and the turning of it. */
#include "face/photo/picture.h"

#include <stdlib.h>
#include <string.h>

bool picture_measure(unsigned long width, unsigned long height, struct fail *f)
{
    if (width == 0 || height == 0) return fail_set(f, FAIL_INPUT, "it has no pixels");
    if (width > PICTURE_SIDE_MOST || height > PICTURE_SIDE_MOST ||
        width * height > PICTURE_PIXELS_MOST)
        return fail_set(f, FAIL_INPUT,
                        "it is %lu by %lu pixels; at most 100 megapixels and 30,000 on a side are "
                        "taken",
                        width, height);
    return true;
}

/* What people try to give, so that the line can say what to do. */
static const struct {
    size_t at;
    const char *bytes, *says;
} others[] = {
    {4, "ftyphei", "is a HEIC picture; set the camera to JPEG, or save it as JPEG"},
    {4, "ftypmif1", "is a HEIF picture; set the camera to JPEG, or save it as JPEG"},
    {4, "ftypavif", "is an AVIF picture; save it as JPEG"},
    {4, "ftyp", "is a film; take a photograph of what it shows"},
    {8, "WEBP", "is a WebP picture; save it as JPEG"},
    {0, "GIF8", "is a GIF picture; save it as PNG"},
    {0, "BM", "is a BMP picture; save it as PNG"},
    {0, "II*", "is a TIFF or raw picture; save it as JPEG"},
    {0, "MM", "is a TIFF or raw picture; save it as JPEG"},
    {0, "%PDF", "is a PDF; save its page as PNG"},
};

static bool begins(const unsigned char *bytes, size_t n, size_t at, const char *with, size_t length)
{
    return n >= at + length && memcmp(bytes + at, with, length) == 0;
}

/* Turns it in place of its buffer. Source: the eight orientations of Exif, tag 0x0112. */
static bool turn(struct picture *p, int orientation, struct fail *f)
{
    if (orientation <= 1 || orientation > 8) return true;
    const bool side = orientation >= 5;
    struct picture to = {side ? p->height : p->width, side ? p->width : p->height, NULL};
    to.rgb = malloc((size_t)to.width * to.height * 3);
    if (!to.rgb) return fail_set(f, FAIL_INPUT, "it takes more memory than there is");
    for (unsigned y = 0; y < to.height; y++)
        for (unsigned x = 0; x < to.width; x++) {
            unsigned from_x = side ? y : x, from_y = side ? x : y;
            if (orientation == 2 || orientation == 3 || orientation == 7 || orientation == 8)
                from_x = p->width - 1 - from_x;
            if (orientation == 3 || orientation == 4 || orientation == 6 || orientation == 7)
                from_y = p->height - 1 - from_y;
            memcpy(to.rgb + 3 * ((size_t)y * to.width + x),
                   p->rgb + 3 * ((size_t)from_y * p->width + from_x), 3);
        }
    free(p->rgb);
    *p = to;
    return true;
}

bool picture_read(const unsigned char *bytes, size_t n, unsigned side, struct picture_facts *facts,
                  struct picture *out, struct fail *f)
{
    *facts = (struct picture_facts){.orientation = 1};
    *out = (struct picture){0};
    bool ok;
    if (n == 0) return fail_set(f, FAIL_INPUT, "it is empty");
    if (begins(bytes, n, 0, "\xff\xd8\xff", 3)) {
        ok = picture_read_jpeg(bytes, n, side, facts, out, f);
    } else if (begins(bytes, n, 0, "\x89PNG\r\n\x1a\n", 8)) {
        ok = picture_read_png(bytes, n, side, facts, out, f);
    } else {
        for (size_t i = 0; i < sizeof others / sizeof *others; i++)
            if (begins(bytes, n, others[i].at, others[i].bytes, strlen(others[i].bytes)))
                return fail_set(f, FAIL_INPUT, "it %s", others[i].says);
        return fail_set(f, FAIL_INPUT,
                        "its bytes are no picture, whatever its name; JPEG and PNG are taken");
    }
    if (!ok || !turn(out, facts->orientation, f)) return false;
    if (facts->orientation >= 5) {
        const unsigned width = facts->width;
        facts->width = facts->height;
        facts->height = width;
    }
    return true;
}

bool picture_shrink(const struct picture *in, unsigned side, struct picture *out, struct fail *f)
{
    struct shrinker s;
    bool ok = shrinker_begin(&s, in->width, in->height, side, out, f);
    for (unsigned y = 0; ok && y < in->height; y++)
        shrinker_row(&s, in->rgb + 3 * (size_t)y * in->width);
    shrinker_end(&s);
    return ok;
}
