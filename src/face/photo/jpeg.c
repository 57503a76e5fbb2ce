/* jpeg.c - JPEG in and out. The decoder scales while it decodes, so that a large picture costs
 * little more than the copy that is made of it. */
#include "face/photo/picture.h"

#include <setjmp.h>
#include <stdlib.h>
#include <string.h>

#include <jpeglib.h>

#include <jerror.h>

enum {
    SCANS_MOST = 100, /* a progressive picture has about ten; thousands only burn time */
    MEMORY_MOST = 400 * 1000 * 1000,
};

/* The library's own manager first: it hands that back to us. */
struct manager {
    struct jpeg_error_mgr base;
    jmp_buf out;
    struct fail *f;
};

static void on_error(j_common_ptr c)
{
    struct manager *m = (struct manager *)c->err;
    char why[JMSG_LENGTH_MAX];
    c->err->format_message(c, why);
    if (c->err->msg_code == JERR_OUT_OF_MEMORY || c->err->msg_code == JERR_NO_BACKING_STORE)
        fail_set(m->f, FAIL_INPUT, "it takes more memory than a picture may; save it smaller");
    else
        fail_set(m->f, FAIL_INPUT, "it is a broken JPEG: %s", why);
    longjmp(m->out, 1);
}

/* Damage after which the decoder goes on with grey. Others (bytes between markers) are harmless. */
static void on_message(j_common_ptr c, int level)
{
    const int code = c->err->msg_code;
    if (level < 0 && (code == JWRN_JPEG_EOF || code == JWRN_HIT_MARKER ||
                      code == JWRN_HUFF_BAD_CODE || code == JWRN_MUST_RESYNC))
        on_error(c);
}

static void on_progress(j_common_ptr c)
{
    if (((j_decompress_ptr)c)->input_scan_number <= SCANS_MOST) return;
    fail_set(((struct manager *)c->err)->f, FAIL_INPUT,
             "it is drawn in more than %d passes; save it anew", SCANS_MOST);
    longjmp(((struct manager *)c->err)->out, 1);
}

static struct jpeg_error_mgr *manage(struct manager *m, struct fail *f)
{
    m->f = f;
    jpeg_std_error(&m->base);
    m->base.error_exit = on_error;
    m->base.emit_message = on_message;
    return &m->base;
}

/* Told by the header alone. */
static bool measure(struct jpeg_decompress_struct *d, struct picture_facts *facts, struct fail *f)
{
    facts->type = "jpeg";
    facts->width = d->image_width;
    facts->height = d->image_height;
    if (!picture_measure(facts->width, facts->height, f)) return false;
    if (d->num_components != 1 && d->num_components != 3)
        return fail_set(f, FAIL_INPUT, "it is a JPEG for print (CMYK); save it as RGB");
    for (jpeg_saved_marker_ptr m = d->marker_list; m; m = m->next)
        if (m->marker == JPEG_APP0 + 1 && m->data_length > 6 && memcmp(m->data, "Exif\0", 6) == 0)
            picture_exif(m->data, m->data_length, facts);
    return true;
}

/* What must be given back whatever happens. */
struct reading {
    struct jpeg_decompress_struct d;
    struct jpeg_progress_mgr progress;
    struct manager manager;
    struct shrinker shrinker;
    unsigned char *row;
};

static bool decode(struct reading *r, const unsigned char *bytes, size_t n, unsigned side,
                   struct picture_facts *facts, struct picture *out, struct fail *f)
{
    struct jpeg_decompress_struct *d = &r->d;
    if (setjmp(r->manager.out)) return false;
    jpeg_create_decompress(d);
    d->mem->max_memory_to_use = MEMORY_MOST;
    r->progress.progress_monitor = on_progress;
    d->progress = &r->progress;
    jpeg_mem_src(d, bytes, n);
    jpeg_save_markers(d, JPEG_APP0 + 1, 0xffff);
    jpeg_read_header(d, TRUE);
    if (!measure(d, facts, f)) return false;
    const unsigned longer = facts->width > facts->height ? facts->width : facts->height;
    d->out_color_space = JCS_RGB;
    d->scale_denom = 8;
    for (d->scale_num = 1; d->scale_num < 8; d->scale_num++)
        if ((unsigned long)longer * d->scale_num / 8 >= side) break;
    jpeg_start_decompress(d);
    r->row = malloc((size_t)d->output_width * 3);
    if (!r->row) return fail_set(f, FAIL_INPUT, "it takes more memory than there is");
    if (!shrinker_begin(&r->shrinker, d->output_width, d->output_height, side, out, f))
        return false;
    while (d->output_scanline < d->output_height) {
        jpeg_read_scanlines(d, &r->row, 1);
        shrinker_row(&r->shrinker, r->row);
    }
    jpeg_finish_decompress(d);
    return true;
}

bool picture_read_jpeg(const unsigned char *bytes, size_t n, unsigned side,
                       struct picture_facts *facts, struct picture *out, struct fail *f)
{
    struct reading *r = calloc(1, sizeof *r);
    if (!r) return fail_set(f, FAIL_INPUT, "it takes more memory than there is");
    r->d.err = manage(&r->manager, f);
    bool ok = decode(r, bytes, n, side, facts, out, f);
    jpeg_destroy_decompress(&r->d);
    shrinker_end(&r->shrinker);
    free(r->row);
    free(r);
    return ok;
}

static bool encode(struct jpeg_compress_struct *c, struct manager *m, const struct picture *p,
                   int quality, FILE *to)
{
    if (setjmp(m->out)) return false;
    jpeg_create_compress(c);
    jpeg_stdio_dest(c, to);
    c->image_width = p->width;
    c->image_height = p->height;
    c->input_components = 3;
    c->in_color_space = JCS_RGB;
    jpeg_set_defaults(c);
    jpeg_set_quality(c, quality, TRUE);
    c->optimize_coding = TRUE;
    jpeg_start_compress(c, TRUE);
    while (c->next_scanline < c->image_height) {
        JSAMPROW row = p->rgb + 3 * (size_t)c->next_scanline * p->width;
        jpeg_write_scanlines(c, &row, 1);
    }
    jpeg_finish_compress(c);
    return true;
}

bool picture_write(const struct picture *p, int quality, FILE *to, struct fail *f)
{
    struct jpeg_compress_struct c = {0};
    struct manager m;
    struct fail why = {0};
    c.err = manage(&m, &why);
    bool ok = encode(&c, &m, p, quality, to);
    jpeg_destroy_compress(&c);
    return (ok && fflush(to) == 0) ||
           fail_set(f, FAIL_GARAGE, "its copy cannot be written; free some space and try again");
}
