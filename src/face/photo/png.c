/* png.c - PNG in, row by row; what is see-through becomes white. */
#include "face/photo/picture.h"

#include <setjmp.h>
#include <stdlib.h>
#include <string.h>

#include <png.h>

enum { CHUNK_MOST = 8000000, CHUNKS_MOST = 200 };

struct reading {
    const unsigned char *at;
    size_t left;
    struct fail *f;
    png_structp png;
    png_infop info;
    struct shrinker shrinker;
    unsigned char *pixels; /* one row of RGBA; all of them of one that is interlaced */
    unsigned char **rows;  /* of those */
    unsigned char *rgb;    /* one row */
};

static void on_error(png_structp png, png_const_charp why)
{
    struct reading *r = png_get_error_ptr(png);
    fail_set(r->f, FAIL_INPUT, "it is a broken PNG: %s", why);
    png_longjmp(png, 1);
}

static void on_warning(png_structp png, png_const_charp why)
{
    (void)png;
    (void)why;
}

static void give(png_structp png, png_bytep out, size_t n)
{
    struct reading *r = png_get_io_ptr(png);
    if (n > r->left) png_error(png, "it is cut short");
    memcpy(out, r->at, n);
    r->at += n;
    r->left -= n;
}

static void take_row(struct reading *r, const unsigned char *rgba, unsigned width)
{
    unsigned char *to = r->rgb;
    for (unsigned x = 0; x < width; x++, rgba += 4)
        for (int c = 0; c < 3; c++)
            *to++ = (unsigned char)((rgba[c] * rgba[3] + 255 * (255 - rgba[3]) + 127) / 255);
    shrinker_row(&r->shrinker, r->rgb);
}

static void read_exif(struct reading *r, struct picture_facts *facts)
{
    png_bytep tiff;
    png_uint_32 n;
    if (png_get_eXIf_1(r->png, r->info, &n, &tiff) == 0 || n > 65530) return;
    unsigned char *block = malloc(6 + n);
    if (!block) return;
    memcpy(block, "Exif\0", 6);
    memcpy(block + 6, tiff, n);
    picture_exif(block, 6 + n, facts);
    free(block);
}

static bool decode(struct reading *r, unsigned side, struct picture_facts *facts,
                   struct picture *out, struct fail *f)
{
    if (setjmp(png_jmpbuf(r->png))) return false;
    png_set_read_fn(r->png, r, give);
    png_set_user_limits(r->png, 0x7fffffff, 0x7fffffff); /* ours are told in a line of our own */
    png_set_chunk_malloc_max(r->png, CHUNK_MOST);
    png_set_chunk_cache_max(r->png, CHUNKS_MOST);
    png_read_info(r->png, r->info);
    const unsigned width = png_get_image_width(r->png, r->info),
                   height = png_get_image_height(r->png, r->info);
    const bool interlaced = png_get_interlace_type(r->png, r->info) != PNG_INTERLACE_NONE;
    facts->type = "png";
    facts->width = width;
    facts->height = height;
    if (!picture_measure(width, height, f)) return false;
    if (interlaced && (unsigned long)width * height > PICTURE_INTERLACED_MOST)
        return fail_set(f, FAIL_INPUT,
                        "it is interlaced and larger than 25 megapixels; save it without that");
    png_set_expand(r->png);
    png_set_scale_16(r->png);
    png_set_gray_to_rgb(r->png);
    png_set_add_alpha(r->png, 0xff, PNG_FILLER_AFTER);
    if (interlaced) png_set_interlace_handling(r->png);
    png_read_update_info(r->png, r->info);
    const size_t stride = (size_t)width * 4;
    if (png_get_rowbytes(r->png, r->info) != stride) png_error(r->png, "odd kind of pixels");
    r->rgb = malloc((size_t)width * 3);
    r->pixels = malloc(stride * (interlaced ? height : 1));
    r->rows = malloc(height * sizeof *r->rows);
    if (!r->rgb || !r->pixels || !r->rows)
        return fail_set(f, FAIL_INPUT, "it takes more memory than there is");
    if (!shrinker_begin(&r->shrinker, width, height, side, out, f)) return false;
    for (unsigned y = 0; y < height; y++) r->rows[y] = r->pixels + (interlaced ? y * stride : 0);
    if (interlaced) png_read_image(r->png, r->rows);
    for (unsigned y = 0; y < height; y++) {
        if (!interlaced) png_read_row(r->png, r->pixels, NULL);
        take_row(r, r->rows[y], width);
    }
    png_read_end(r->png, r->info);
    read_exif(r, facts);
    return true;
}

bool picture_read_png(const unsigned char *bytes, size_t n, unsigned side,
                      struct picture_facts *facts, struct picture *out, struct fail *f)
{
    struct reading *r = calloc(1, sizeof *r);
    if (!r) return fail_set(f, FAIL_INPUT, "it takes more memory than there is");
    r->at = bytes;
    r->left = n;
    r->f = f;
    r->png = png_create_read_struct(PNG_LIBPNG_VER_STRING, r, on_error, on_warning);
    r->info = r->png ? png_create_info_struct(r->png) : NULL;
    bool ok = r->info ? decode(r, side, facts, out, f)
                      : fail_set(f, FAIL_INPUT, "it takes more memory than there is");
    png_destroy_read_struct(&r->png, &r->info, NULL);
    shrinker_end(&r->shrinker);
    free(r->pixels);
    free(r->rows);
    free(r->rgb);
    free(r);
    return ok;
}
