#include "face/web/body.h"

#include "garage/file.h"

static bool refuse(struct refusal *no, int status, const char *what)
{
    no->status = status;
    return fail_set(&no->why, FAIL_INPUT, "%s", what);
}

/* ---- parts of a form with files ---- */

static bool begin_file(struct body *b, const char *name, const char *called, struct refusal *no)
{
    struct request *r = b->request;
    if (r->n_files == BODY_FILES_MOST)
        return refuse(no, 413, "more than 50 files at once; send fewer at a time");
    if (r->n_files == 0 && !site_admits(b->arena, b->site, r, &b->page)) return false;
    if (!file_begin(b->arena, b->site->dir, &b->file, &no->why)) {
        no->status = 503;
        return false;
    }
    b->files[r->n_files] =
        (struct request_file){arena_copy(b->arena, name), arena_copy(b->arena, called), b->file};
    r->files = b->files;
    r->n_files++;
    return true;
}

static bool begin_part(void *context, const char *name, const char *filename, struct refusal *no)
{
    struct body *b = context;
    b->bytes = (struct text){.arena = b->arena};
    b->name = arena_copy(b->arena, name);
    /* An input of files in which none was chosen sends a file without a name: kept as a field. */
    if (filename && *filename) return begin_file(b, name, filename, no);
    return b->request->form.count < REQUEST_PAIRS_MOST ||
           refuse(no, 413, "more fields than a form of ours has; send fewer");
}

static bool take_part(void *context, const char *bytes, size_t n, struct refusal *no)
{
    struct body *b = context;
    if (b->file) {
        if (file_size(b->file) + n > FILE_BYTES_MOST)
            return refuse(no, 413, "a file is larger than 100 MB; nothing was stored");
        if (file_write(b->file, bytes, n, &no->why)) return true;
        no->status = 503;
        return false;
    }
    b->kept += n;
    if (b->kept > REQUEST_BODY_MOST)
        return refuse(no, 413, "the fields are too large; send less than 64 kB");
    text_add_n(&b->bytes, bytes, n);
    return true;
}

static bool end_part(void *context, struct refusal *no)
{
    struct body *b = context;
    struct pairs *form = &b->request->form;
    if (b->file) {
        struct file_new *file = b->file;
        b->file = NULL;
        if (file_seal(file, &no->why)) return true;
        no->status = 503;
        return false;
    }
    if (!text_is_utf8(text_get(&b->bytes), b->bytes.length))
        return refuse(no, 400, "a field is not UTF-8; send it so");
    /* Of two inputs of files with one name both may be empty. */
    if (pairs_get(form, b->name))
        return b->bytes.length == 0 || refuse(no, 400, "a field is there twice; send it once");
    form->items[form->count++] = (struct pair){b->name, text_get(&b->bytes)};
    return true;
}

/* ---- all of it ---- */

void body_begin(struct body *b, struct arena *a, const struct site *site, struct request *r)
{
    *b = (struct body){.arena = a, .site = site, .request = r, .bytes = {.arena = a}};
    const struct multipart_taker taker = {b, begin_part, take_part, end_part};
    r->multipart = r->method == METHOD_POST && multipart_is(r->content_type);
    if (r->multipart) multipart_begin(&b->parts, r->content_type, taker, &b->no);
}

static bool is_refused(const struct body *b)
{
    return b->no.status || b->page.status;
}

void body_take(struct body *b, const char *bytes, size_t n)
{
    if (is_refused(b)) return;
    if (!b->request->multipart)
        text_add_n(&b->bytes, bytes, n);
    else if (!multipart_take(&b->parts, bytes, n, &b->no))
        body_close(b);
}

void body_answer(struct body *b, struct response *out)
{
    if (!is_refused(b)) {
        if (b->request->multipart)
            multipart_end(&b->parts, &b->no);
        else
            request_body(b->arena, text_get(&b->bytes), b->bytes.length, b->request, &b->no);
    }
    if (b->page.status)
        *out = b->page;
    else if (b->no.status)
        site_refuse(b->arena, &b->no, out);
    else
        site_answer(b->arena, b->site, b->request, out);
    body_close(b);
}

void body_close(struct body *b)
{
    if (!b->request) return;
    for (int i = 0; i < b->request->n_files; i++) file_close(b->files[i].file);
    b->file = NULL;
}
