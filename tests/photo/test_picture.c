/* Pictures read, turned and made smaller; and what is no picture, or a broken one, refused with a
 * line. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "face/photo/picture.h"
#include "make_picture.h"

#include <stdlib.h>
#include <string.h>

static struct arena arena;

static int begin(void **state)
{
    (void)state;
    arena = arena_open((size_t)1 << 30);
    return 0;
}

static int end(void **state)
{
    (void)state;
    arena_close(&arena);
    return 0;
}

/* From the heap, so that reading beyond it is seen. */
static bool read_bytes(const char *bytes, size_t n, unsigned side, struct picture_facts *facts,
                       struct picture *p, struct fail *f)
{
    unsigned char *copy = malloc(n + !n);
    memcpy(copy, bytes, n);
    bool ok = picture_read(copy, n, side, facts, p, f);
    free(copy);
    return ok;
}

static void read_well(struct text bytes, unsigned side, struct picture_facts *facts,
                      struct picture *p)
{
    struct fail f = {0};
    if (!read_bytes(bytes.s, bytes.length, side, facts, p, &f)) fail_msg("%s", f.text);
}

static void refuse(const char *bytes, size_t n, const char *says)
{
    struct picture_facts facts;
    struct picture p;
    struct fail f = {0};
    bool ok = read_bytes(bytes, n, 40, &facts, &p, &f);
    free(p.rgb);
    if (ok) fail_msg("taken: should say '%s'", says);
    assert_int_equal(f.kind, FAIL_INPUT);
    assert_null(strchr(f.text, '\n'));
    if (!strstr(f.text, says)) fail_msg("'%s' does not say '%s'", f.text, says);
}

/* R, G, B, W or ?: the colour of a pixel, where JPEG blurs a little. */
static char colour_at(const struct picture *p, unsigned x, unsigned y)
{
    const unsigned char *c = p->rgb + 3 * ((size_t)y * p->width + x);
    const bool on[3] = {c[0] > 200, c[1] > 200, c[2] > 200};
    for (int i = 0; i < 3; i++)
        if (c[i] > 60 && !on[i]) return '?';
    return on[0] && on[1] && on[2] ? 'W' : on[0] && !on[1] ? 'R' : on[1] ? 'G' : on[2] ? 'B' : '?';
}

static void corners(const struct picture *p, char out[5])
{
    const unsigned x = p->width / 8, y = p->height / 8, xx = p->width - 1 - x,
                   yy = p->height - 1 - y;
    const unsigned at[4][2] = {{x, y}, {xx, y}, {x, yy}, {xx, yy}};
    for (int i = 0; i < 4; i++) out[i] = colour_at(p, at[i][0], at[i][1]);
    out[4] = '\0';
}

/* As painted: RG above BW. Source of what each orientation means: Exif, tag 0x0112, which says
 * where the stored row 0 and column 0 belong. */
static void each_orientation_is_made_upright(void **state)
{
    (void)state;
    static const char *const upright[] = {"RGBW", "RGBW", "GRWB", "WBGR", "BWRG",
                                          "RBGW", "BRWG", "WGBR", "GWRB"};
    for (int way = 0; way <= 8; way++) {
        struct picture_facts facts;
        struct picture p;
        char seen[5];
        read_well(make_jpeg(&arena, 96, 64, way, NULL), 2000, &facts, &p);
        corners(&p, seen);
        if (strcmp(seen, upright[way]) != 0)
            fail_msg("orientation %d: %s, not %s", way, seen, upright[way]);
        assert_int_equal(p.width, way >= 5 ? 64 : 96);
        assert_int_equal(facts.width, p.width);
        assert_int_equal(facts.height, p.height);
        free(p.rgb);
    }
}

static void copies_have_the_size_that_fits(void **state)
{
    (void)state;
    static const unsigned table[][5] = {/* width, height, side, width and height of the copy */
                                        {2400, 1800, 1200, 1200, 900},
                                        {1800, 2400, 1200, 900, 1200},
                                        {2001, 100, 2000, 2000, 100},
                                        {500, 500, 500, 500, 500},
                                        {640, 480, 320, 320, 240},
                                        {10, 8, 320, 10, 8},
                                        {1, 1, 320, 1, 1},
                                        {5000, 2, 320, 320, 1},
                                        {321, 320, 320, 320, 319}};
    for (size_t i = 0; i < sizeof table / sizeof *table; i++)
        for (int png = 0; png < 2; png++) {
            struct picture_facts facts;
            struct picture p;
            const unsigned *t = table[i];
            read_well(png ? make_png(&arena, t[0], t[1], false, false)
                          : make_jpeg(&arena, t[0], t[1], 0, NULL),
                      t[2], &facts, &p);
            assert_int_equal(facts.width, t[0]);
            assert_int_equal(facts.height, t[1]);
            assert_string_equal(facts.type, png ? "png" : "jpeg");
            assert_int_equal(p.width, t[3]);
            assert_int_equal(p.height, t[4]);
            if (t[1] > 8) {
                char seen[5];
                corners(&p, seen);
                assert_string_equal(seen, "RGBW");
            }
            free(p.rgb);
        }
}

/* A mean over areas: of black and white columns, three to two. */
static void shrinking_is_the_mean_of_areas(void **state)
{
    (void)state;
    unsigned char pixels[3 * 9];
    struct picture in = {3, 3, pixels}, out;
    struct fail f = {0};
    for (int i = 0; i < 9; i++) memset(pixels + 3 * i, i % 3 == 1 ? 255 : 30, 3);
    assert_true(picture_shrink(&in, 2, &out, &f));
    assert_int_equal(out.width, 2);
    for (int i = 0; i < 4; i++) /* a whole pixel of 30, half a one of 255 */
        assert_int_equal(out.rgb[3 * i], (30 + 255 / 2.0) / 1.5 + 0.5);
    free(out.rgb);
}

static void png_of_each_kind(void **state)
{
    (void)state;
    for (int kind = 0; kind < 4; kind++) {
        struct picture_facts facts;
        struct picture p;
        read_well(make_png(&arena, 60, 40, kind & 1, kind & 2), 2000, &facts, &p);
        const unsigned char *first = p.rgb;
        assert_int_equal(first[0], 255);
        assert_int_equal(first[1], kind & 2 ? 127 : 0); /* half see-through red, on white */
        free(p.rgb);
    }
}

static void the_day_is_read_and_nothing_goes_into_copies(void **state)
{
    (void)state;
    static const char *const days[][2] = {{"2026:11:25 19:00:00", "2026-11-25"},
                                          {"2024:02:29 00:00:00", "2024-02-29"},
                                          {"2026:02:30 19:00:00", ""},
                                          {"0000:00:00 00:00:00", ""},
                                          {"1970:01:01 00:00:00", ""},
                                          {"yesterday evening..", ""},
                                          {"2026", ""},
                                          {"", ""},
                                          {"2026-11-25 19:00:00", ""}};
    for (size_t i = 0; i < sizeof days / sizeof *days; i++) {
        struct picture_facts facts;
        struct picture p;
        read_well(make_jpeg(&arena, 16, 16, 1, days[i][0]), 2000, &facts, &p);
        assert_string_equal(facts.taken, days[i][1]);
        if (i == 0) {
            struct fail f = {0};
            char *bytes = NULL;
            size_t n = 0;
            FILE *to = open_memstream(&bytes, &n);
            assert_true(picture_write(&p, 80, to, &f));
            fclose(to);
            struct picture again;
            assert_true(read_bytes(bytes, n, 2000, &facts, &again, &f));
            assert_string_equal(facts.taken, "");
            for (size_t k = 0; k + 4 <= n; k++) assert_memory_not_equal(bytes + k, "Exif", 4);
            free(again.rgb);
            free(bytes);
        }
        free(p.rgb);
    }
}

/* A picture that is whole is taken, whatever stands in its block of Exif. */
static void broken_exif_is_not_known(void **state)
{
    (void)state;
    struct text whole = make_jpeg(&arena, 16, 16, 6, "2026:11:25 19:00:00");
    const char *exif = memchr(whole.s, 'E', whole.length);
    const size_t at = (size_t)(exif - whole.s) + 6;
    for (size_t i = at; i < at + 80; i++) {
        struct picture_facts facts;
        struct picture p;
        char *broken = arena_copy_n(&arena, whole.s, whole.length);
        broken[i] = (char)(broken[i] ^ 0xff);
        struct fail f = {0};
        if (!read_bytes(broken, whole.length, 40, &facts, &p, &f))
            fail_msg("byte %zu: %s", i, f.text);
        free(p.rgb);
    }
}

static void a_picture_that_is_cut_short_is_refused(void **state)
{
    (void)state;
    const struct text all[] = {make_jpeg(&arena, 40, 30, 1, NULL),
                               make_png(&arena, 40, 30, false, false),
                               make_png(&arena, 40, 30, true, true)};
    for (size_t i = 0; i < 3; i++)
        for (size_t n = 0; n < all[i].length; n++) refuse(all[i].s, n, "it");
}

static void a_huge_one_is_refused_by_its_header(void **state)
{
    (void)state;
    struct text png = make_png(&arena, 8, 8, false, false), jpeg = make_jpeg(&arena, 8, 8, 0, NULL);
    /* Width and height in IHDR, whose check sum libpng holds against it: so the sum too. */
    static const unsigned char bomb[] = "\x00\x00\xea\x60\x00\x00\xea\x60\x08\x02\x00\x00";
    unsigned crc = 0xffffffffu;
    unsigned char ihdr[21];
    memcpy(ihdr, "IHDR", 4);
    memcpy(ihdr + 4, bomb, 13);
    for (int i = 0; i < 17; i++) { /* CRC-32 as PNG defines it */
        crc ^= ihdr[i];
        for (int k = 0; k < 8; k++) crc = crc & 1 ? 0xedb88320u ^ (crc >> 1) : crc >> 1;
    }
    crc ^= 0xffffffffu;
    for (int i = 0; i < 4; i++) ihdr[17 + i] = (unsigned char)(crc >> (24 - 8 * i));
    memcpy(png.s + 12, ihdr, sizeof ihdr);
    refuse(png.s, png.length, "60000 by 60000 pixels; at most 100 megapixels");

    /* The frame header: FF C0, length, precision, height, width. */
    for (size_t i = 0; i + 9 < jpeg.length; i++)
        if ((unsigned char)jpeg.s[i] == 0xff && (unsigned char)jpeg.s[i + 1] == 0xc0)
            memcpy(jpeg.s + i + 5, "\xff\x00\xff\x00", 4);
    refuse(jpeg.s, jpeg.length, "65280 by 65280 pixels");
}

static void what_is_no_picture_says_what_it_is(void **state)
{
    (void)state;
    static const struct {
        const char *bytes;
        size_t n;
        const char *says;
    } table[] = {
        {"", 0, "empty"},
        {"<!doctype html><script>", 23, "no picture"},
        {"\xff\xd8\xff", 3, "broken JPEG"},
        {"\xff\xd8\xff\xd9", 4, "broken JPEG"},
        {"\x89PNG\r\n\x1a\n", 8, "broken PNG"},
        {"\0\0\0\x18"
         "ftypheic",
         12, "HEIC"},
        {"\0\0\0\x18"
         "ftypmp42",
         12, "film"},
        {"RIFF1234WEBP", 12, "WebP"},
        {"GIF89a", 6, "GIF"},
        {"II*\0", 4, "raw"},
        {"%PDF-1.7", 8, "PDF"},
        {"\xff", 1, "no picture"},
    };
    for (size_t i = 0; i < sizeof table / sizeof *table; i++)
        refuse(table[i].bytes, table[i].n, table[i].says);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(each_orientation_is_made_upright),
        cmocka_unit_test(copies_have_the_size_that_fits),
        cmocka_unit_test(shrinking_is_the_mean_of_areas),
        cmocka_unit_test(png_of_each_kind),
        cmocka_unit_test(the_day_is_read_and_nothing_goes_into_copies),
        cmocka_unit_test(broken_exif_is_not_known),
        cmocka_unit_test(a_picture_that_is_cut_short_is_refused),
        cmocka_unit_test(a_huge_one_is_refused_by_its_header),
        cmocka_unit_test(what_is_no_picture_says_what_it_is),
    };
    return cmocka_run_group_tests(tests, begin, end);
}
