/* exif.c - what the camera wrote beside the picture. What cannot be read is not known: a broken
 * block is no reason to refuse a picture that is whole. */
#include "base/day.h"
#include "face/photo/picture.h"

#include <libexif/exif-data.h>
#include <string.h>

enum { YEAR_LEAST = 1990 }; /* a camera whose clock was never set says 1970 or 1980 */

/* "2026:11:25 19:00:00" */
static bool read_day(const ExifEntry *e, char out[11])
{
    int year, month, date;
    char text[11] = "";
    day d;
    struct fail ignored = {0};
    if (e->format != EXIF_FORMAT_ASCII || e->size < 10) return false;
    memcpy(text, e->data, 10);
    if (sscanf(text, "%4d:%2d:%2d", &year, &month, &date) != 3 || year < YEAR_LEAST ||
        year > 9999 || month < 1 || month > 12 || date < 1 || date > 31)
        return false;
    snprintf(out, 11, "%04d-%02d-%02d", year, month, date);
    if (day_parse(out, &d, &ignored)) return true;
    out[0] = '\0';
    return false;
}

void picture_exif(const unsigned char *block, size_t n, struct picture_facts *facts)
{
    static const ExifTag days[] = {EXIF_TAG_DATE_TIME_ORIGINAL, EXIF_TAG_DATE_TIME_DIGITIZED,
                                   EXIF_TAG_DATE_TIME};
    if (n > 65536) return;
    ExifData *data = exif_data_new();
    if (!data) return;
    exif_data_load_data(data, block, (unsigned)n);
    const ExifEntry *e = exif_data_get_entry(data, EXIF_TAG_ORIENTATION);
    if (e && e->format == EXIF_FORMAT_SHORT && e->size >= 2) {
        const int way = exif_get_short(e->data, exif_data_get_byte_order(data));
        if (way >= 1 && way <= 8) facts->orientation = way;
    }
    for (size_t i = 0; i < sizeof days / sizeof *days && !*facts->taken; i++)
        if ((e = exif_data_get_entry(data, days[i])) != NULL) read_day(e, facts->taken);
    exif_data_unref(data);
}
