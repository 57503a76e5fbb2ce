#include "make_picture.h"

#include <libexif/exif-data.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <jpeglib.h>
#include <png.h>

static void paint(unsigned char *row, unsigned y, unsigned width, unsigned height, int channels)
{
    static const unsigned char colour[4][3] = {
        {255, 0, 0}, {0, 255, 0}, {0, 0, 255}, {255, 255, 255}};
    for (unsigned x = 0; x < width; x++, row += channels) {
        memcpy(row, colour[2 * (y >= height / 2) + (x >= width / 2)], 3);
        if (channels == 4) row[3] = 128;
    }
}

static void put_entry(ExifData *d, ExifIfd ifd, ExifTag tag, const void *bytes, unsigned n,
                      ExifFormat format, unsigned components)
{
    ExifEntry *e = exif_entry_new();
    e->tag = tag;
    e->format = format;
    e->components = components;
    e->size = n;
    e->data = malloc(n); /* given back by the library, with free */
    memcpy(e->data, bytes, n);
    exif_content_add_entry(d->ifd[ifd], e);
    exif_entry_unref(e);
}

static void put_exif(struct jpeg_compress_struct *c, int orientation, const char *day)
{
    unsigned char *block, way[2];
    unsigned n;
    ExifData *d = exif_data_new();
    exif_data_set_byte_order(d, EXIF_BYTE_ORDER_INTEL);
    exif_set_short(way, EXIF_BYTE_ORDER_INTEL, (ExifShort)orientation);
    put_entry(d, EXIF_IFD_0, EXIF_TAG_ORIENTATION, way, 2, EXIF_FORMAT_SHORT, 1);
    put_entry(d, EXIF_IFD_GPS, (ExifTag)EXIF_TAG_GPS_LATITUDE_REF, "N", 2, EXIF_FORMAT_ASCII, 2);
    if (day)
        put_entry(d, EXIF_IFD_EXIF, EXIF_TAG_DATE_TIME_ORIGINAL, day, (unsigned)strlen(day) + 1,
                  EXIF_FORMAT_ASCII, (unsigned)strlen(day) + 1);
    exif_data_save_data(d, &block, &n);
    jpeg_write_marker(c, JPEG_APP0 + 1, block, n);
    free(block);
    exif_data_unref(d);
}

struct text make_jpeg(struct arena *a, unsigned width, unsigned height, int orientation,
                      const char *day)
{
    struct jpeg_compress_struct c;
    struct jpeg_error_mgr errors;
    unsigned char *bytes = NULL, *row = arena_take(a, width, 3);
    unsigned long n = 0;
    struct text out = {.arena = a};
    c.err = jpeg_std_error(&errors);
    jpeg_create_compress(&c);
    jpeg_mem_dest(&c, &bytes, &n);
    c.image_width = width;
    c.image_height = height;
    c.input_components = 3;
    c.in_color_space = JCS_RGB;
    jpeg_set_defaults(&c);
    jpeg_start_compress(&c, TRUE);
    if (orientation) put_exif(&c, orientation, day);
    while (c.next_scanline < height) {
        paint(row, c.next_scanline, width, height, 3);
        jpeg_write_scanlines(&c, &row, 1);
    }
    jpeg_finish_compress(&c);
    jpeg_destroy_compress(&c);
    text_add_n(&out, (const char *)bytes, n);
    free(bytes);
    return out;
}

static void add_bytes(png_structp png, png_bytep bytes, size_t n)
{
    text_add_n(png_get_io_ptr(png), (const char *)bytes, n);
}

struct text make_png(struct arena *a, unsigned width, unsigned height, bool interlaced, bool alpha)
{
    const int channels = alpha ? 4 : 3;
    struct text *out = ARENA_NEW(a, struct text);
    unsigned char *row = arena_take(a, width, (size_t)channels);
    out->arena = a;
    png_structp png = png_create_write_struct(PNG_LIBPNG_VER_STRING, NULL, NULL, NULL);
    png_infop info = png_create_info_struct(png);
    png_set_write_fn(png, out, add_bytes, NULL);
    png_set_IHDR(png, info, width, height, 8, alpha ? PNG_COLOR_TYPE_RGBA : PNG_COLOR_TYPE_RGB,
                 interlaced ? PNG_INTERLACE_ADAM7 : PNG_INTERLACE_NONE, PNG_COMPRESSION_TYPE_BASE,
                 PNG_FILTER_TYPE_BASE);
    png_write_info(png, info);
    for (int pass = png_set_interlace_handling(png); pass > 0; pass--)
        for (unsigned y = 0; y < height; y++) {
            paint(row, y, width, height, channels);
            png_write_row(png, row);
        }
    png_write_end(png, info);
    png_destroy_write_struct(&png, &info);
    return *out;
}
