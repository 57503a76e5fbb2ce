/* The pages of photographs as a browser without script uses them: forms with files through the same
 * path as over a socket, in pieces; what is stored, shown, named, and refused without a trace. */
#include "browse.h"

#include "../show/small_picture.h"
#include "face/web/once.h"
#include "face/web/page_photographs.h"
#include "garage/file.h"

#include <dirent.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

static struct {
    struct arena arena;
    struct site *site;
    struct browser *browser;
    const char *address; /* of the photographs */
} world;

static int begin(void **state)
{
    (void)state;
    world.arena = arena_open((size_t)1 << 30);
    world.site = browse_site(&world.arena);
    world.browser = browse_open(&world.arena, world.site);
    setenv("PATH", arena_print(&world.arena, PROGRAMS_DIR ":%s", getenv("PATH")), 1);
    const char *id = browse_add(&world.arena, world.site, "vehicle", "name=Wren", "kind=car", NULL);
    world.address = arena_print(&world.arena, "/vehicle/%s/photographs", id);
    return 0;
}

static int end(void **state)
{
    (void)state;
    browse_site_end(&world.arena, world.site);
    arena_close(&world.arena);
    return 0;
}

static int names_in(const char *folder)
{
    int n = 0;
    DIR *dir = opendir(arena_print(&world.arena, "%s/%s", world.site->dir, folder));
    for (const struct dirent *d; dir && (d = readdir(dir));)
        n += !text_is(d->d_name, ".") && !text_is(d->d_name, "..");
    if (dir) closedir(dir);
    return n;
}

/* ---- a form with files, as it is sent ---- */

struct sent {
    const char *head, *bytes; /* of the body; then `more` bytes of x, then the end */
    size_t n_head, n_bytes, more, n_end;
    const char *end;
};

static size_t piece_of(void *context, char *out, size_t n)
{
    struct sent *s = context;
    const char **part[] = {&s->head, &s->bytes, NULL, &s->end};
    size_t *left[] = {&s->n_head, &s->n_bytes, &s->more, &s->n_end};
    for (int i = 0; i < 4; i++) {
        if (*left[i] == 0) continue;
        if (n > *left[i]) n = *left[i];
        if (n > 9973 && i == 1) n = 9973; /* a prime: boundaries fall anywhere */
        if (part[i])
            memcpy(out, *part[i], n), *part[i] += n;
        else
            memset(out, 'x', n);
        *left[i] -= n;
        return n;
    }
    return 0;
}

static void add_file(struct text *t, const char *called, const char *bytes, size_t n)
{
    text_print(t,
               "--xYz\r\nContent-Disposition: form-data; name=\"gallery\"; filename=\"%s\"\r\n"
               "Content-Type: image/jpeg\r\n\r\n",
               called);
    text_add_n(t, bytes, n);
    text_add(t, "\r\n");
}

static void add_value(struct text *t, const char *name, const char *value)
{
    text_print(t, "--xYz\r\nContent-Disposition: form-data; name=\"%s\"\r\n\r\n%s\r\n", name,
               value);
}

static const char *token(void)
{
    static const char mark[] = "name=\"token\" value=\"";
    browse_go(world.browser, world.address);
    const char *at = strstr(world.browser->page.body, mark) + sizeof mark - 1;
    return arena_copy_n(&world.arena, at, strcspn(at, "\""));
}

/* body: without its end; more: bytes of x that its last file gets. */
static struct response send_form(const char *path, struct text body, size_t more)
{
    static const char last[] = "\r\n--xYz--\r\n";
    struct response out;
    bool head_only;
    if (body.length >= 2) body.length -= 2; /* the line end belongs to the last boundary */
    const char *head = arena_print(
        &world.arena,
        "POST %s HTTP/1.1\r\nHost: localhost\r\nCookie: %s\r\nContent-Type: multipart/form-data; "
        "boundary=xYz\r\nContent-Length: %zu\r\n\r\n",
        path, world.browser->cookie, body.length + more + sizeof last - 1);
    struct sent sent = {head, body.s, strlen(head), body.length, more, sizeof last - 1, last};
    once_answer(&world.arena, world.site, piece_of, &sent, &out, &head_only);
    return out;
}

static struct text form_with_token(void)
{
    struct text t = {.arena = &world.arena};
    add_value(&t, "token", token());
    return t;
}

static void says(const struct response *r, int status, const char *phrase)
{
    if (r->status != status || !strstr(r->body, phrase))
        fail_msg("status %d, and not '%s' in: %s", r->status, phrase, r->body);
}

static struct response get(const char *path, const char *header)
{
    struct response out;
    bool head_only;
    const char *bytes =
        arena_print(&world.arena, "GET %s HTTP/1.1\r\nHost: localhost\r\n%s\r\n", path, header);
    once_answer_bytes(&world.arena, world.site, bytes, strlen(bytes), &out, &head_only);
    return out;
}

static const char *header_of(const struct response *r, const char *name)
{
    for (int i = 0; i < r->n_headers; i++)
        if (text_is(r->headers[i].name, name)) return r->headers[i].value;
    return "";
}

/* ---- tests ---- */

static void without_any_it_says_how_to_begin(void **state)
{
    (void)state;
    browse_go(world.browser, world.address);
    browse_expect(world.browser, "None yet");
    browse_expect(world.browser, "enctype=\"multipart/form-data\"");
    browse_expect(world.browser, "capture=\"environment\"");
    browse_expect(world.browser, "never go under a vehicle");
}

/* Nothing of a refused one stays: no file, no copy, no record. */
static void bad_uploads_leave_nothing(void **state)
{
    (void)state;
    static const struct {
        const char *called, *bytes;
        size_t n;
        const char *phrase;
    } bad[] = {
        {"page.jpg", "<html><script>alert(1)</script>", 31, "page.jpg is not taken: its bytes"},
        {"empty.jpg", "", 0, "empty.jpg is not taken: it is empty"},
        {"cut.jpg", SMALL_JPEG, sizeof SMALL_JPEG - 100, "cut.jpg is not taken: it is a broken"},
        {"cut.png", SMALL_PNG, sizeof SMALL_PNG - 20, "cut.png is not taken: it is a broken"},
        {"<b>.jpg", "x", 1, "&lt;b&gt;.jpg is not taken"},
    };
    for (size_t i = 0; i < sizeof bad / sizeof *bad; i++) {
        struct text t = form_with_token();
        add_file(&t, bad[i].called, bad[i].bytes, bad[i].n);
        struct response r = send_form(world.address, t, 0);
        says(&r, 422, bad[i].phrase);
    }
    struct text t = form_with_token();
    struct response r = send_form(world.address, t, 0);
    says(&r, 422, "No photograph was chosen");
    t = form_with_token();
    add_file(&t, "", "", 0); /* as an input in which none was chosen */
    r = send_form(world.address, t, 0);
    says(&r, 422, "No photograph was chosen");
    assert_int_equal(names_in("files"), 0);
    assert_int_equal(names_in("cache/photographs"), 0);
}

static void a_file_over_the_limit_is_413(void **state)
{
    (void)state;
    for (int over = 0; over < 2; over++) {
        struct text t = form_with_token();
        add_file(&t, "large.jpg", "x", 1);
        struct response r = send_form(world.address, t, FILE_BYTES_MOST - 1 + (size_t)over);
        if (over)
            says(&r, 413, "larger than 100 MB");
        else
            says(&r, 422, "no picture"); /* it came through, and was looked at */
    }
    assert_int_equal(names_in("files"), 0);
}

static void a_form_is_admitted_before_its_files(void **state)
{
    (void)state;
    struct text late = {.arena = &world.arena}, wrong = late, none = late;
    add_file(&late, "a.jpg", SMALL_JPEG, sizeof SMALL_JPEG - 1);
    add_value(&late, "token", token());
    add_value(&wrong, "token", "0123");
    add_file(&wrong, "a.jpg", SMALL_JPEG, sizeof SMALL_JPEG - 1);
    add_file(&none, "a.jpg", SMALL_JPEG, sizeof SMALL_JPEG - 1);
    const struct text all[] = {late, wrong, none};
    for (int i = 0; i < 3; i++) {
        struct response r = send_form(world.address, all[i], 0);
        says(&r, 403, "nothing was stored");
    }
    /* Elsewhere no files are taken, nor such a form at all. */
    struct text t = form_with_token();
    add_file(&t, "a.jpg", SMALL_JPEG, sizeof SMALL_JPEG - 1);
    struct response r = send_form("/intake", t, 0);
    says(&r, 415, "takes no files");
    r = send_form("/nowhere", t, 0);
    says(&r, 404, "no such page");
    assert_int_equal(names_in("files"), 0);
}

static void malformed_forms_are_one_line(void **state)
{
    (void)state;
    struct text t = form_with_token();
    add_value(&t, "token", "twice");
    struct response r = send_form(world.address, t, 0);
    says(&r, 400, "twice");
    t = form_with_token();
    add_file(&t, "a.jpg", SMALL_JPEG, sizeof SMALL_JPEG - 1);
    text_add(&t, "--xYz\r\nnot a head\r\n\r\n");
    r = send_form(world.address, t, 0);
    says(&r, 400, "Content-Disposition");
    t = form_with_token();
    for (int i = 0; i < 51; i++) add_file(&t, "a.jpg", "x", 1);
    r = send_form(world.address, t, 0);
    says(&r, 413, "fewer at a time");
    assert_int_equal(names_in("files"), 0);
}

static void photographs_are_taken_shown_and_named(void **state)
{
    (void)state;
    struct browser *b = world.browser;
    struct text t = form_with_token();
    add_file(&t, "one.jpg", SMALL_JPEG, sizeof SMALL_JPEG - 1);
    add_file(&t, "bad.jpg", "x", 1);
    add_file(&t, "two.png", SMALL_PNG, sizeof SMALL_PNG - 1);
    struct response r = send_form(world.address, t, 0);
    says(&r, 422, "bad.jpg is not taken"); /* and the others are */
    assert_int_equal(names_in("files"), 2);
    browse_go(b, world.address);
    browse_expect(b, "Not named yet: 2");
    browse_expect(b, "alt=\"not named yet\"");
    browse_expect(b, "Tue 24 Nov 2026");

    /* The newest first; naming it leads on to the other. */
    browse_follow(b, browse_link(b, arena_print(&world.arena, "%s/", world.address)));
    browse_choose(b, "component", "radiator");
    browse_type(b, "note", "weeps <b>here</b>");
    browse_press(b, "", "");
    browse_expect(b, "1 stored");
    browse_expect(b, "what does it show?");
    browse_choose(b, "place", "under-bonnet");
    browse_press(b, "", "");
    browse_expect(b, "Named: 2");
    browse_expect(b, "aria-hidden=\"true\">under the bonnet<"); /* the name, not the id */
    browse_expect(b, "radiator, weeps &lt;b&gt;here&lt;/b&gt;");

    /* What cannot be understood comes back with its line. */
    browse_follow(b, browse_link(b, arena_print(&world.arena, "%s/", world.address)));
    browse_type(b, "taken", "yesterday");
    browse_press(b, "", "");
    assert_int_equal(b->page.status, 422);
    browse_expect(b, "photograph.taken");
    browse_expect(b, "value=\"yesterday\"");
    const char *one = b->path;

    /* Somebody else was there first. */
    browse_go(b, one);
    struct browser *other = browse_open(&world.arena, world.site);
    browse_go(other, one);
    browse_type(other, "note", "theirs");
    browse_press(other, "", "");
    browse_type(b, "note", "mine");
    browse_press(b, "", "");
    assert_int_equal(b->page.status, 409);
    browse_expect(b, "theirs");
    browse_expect(b, "value=\"mine\"");
}

static void pictures_are_served_by_digest(void **state)
{
    (void)state;
    struct browser *b = world.browser;
    browse_go(b, world.address);
    const char *src = strstr(b->page.body, "/photograph/");
    const char *digest = arena_copy_n(&world.arena, src + strlen("/photograph/"), FILE_DIGITS);
    static const char *const sizes[] = {"", "/copy", "/thumbnail"};
    for (int i = 0; i < 3; i++) {
        const char *path = arena_print(&world.arena, "/photograph/%s%s", digest, sizes[i]);
        unsigned char first[3];
        struct response r = get(path, "");
        assert_int_equal(r.status, 200);
        assert_true(r.file > 0);
        assert_int_equal(read(r.file, first, 3), 3);
        close(r.file);
        assert_true(memcmp(first, "\xff\xd8\xff", 3) == 0 || memcmp(first, "\x89PN", 3) == 0);
        assert_true(text_is(r.type, memcmp(first, "\x89PN", 3) == 0 ? "image/png" : "image/jpeg"));
        assert_string_equal(header_of(&r, "X-Content-Type-Options"), "nosniff");
        assert_non_null(strstr(header_of(&r, "Cache-Control"), "immutable"));
        r = get(path, arena_print(&world.arena, "If-None-Match: %s\r\n", header_of(&r, "ETag")));
        assert_int_equal(r.status, 304);
        assert_int_equal(r.file, 0);
    }
    static const char *const none[] = {
        "/photograph/x", "/photograph/..%5c..%5cgarage.db",
        "/photograph/0000000000000000000000000000000000000000000000000000000000000000",
        "/photograph/0000000000000000000000000000000000000000000000000000000000000000/copy"};
    for (size_t i = 0; i < sizeof none / sizeof *none; i++) {
        struct response r = get(none[i], "");
        assert_true(r.status == 404 || r.status == 400);
    }
    struct response r = get(arena_print(&world.arena, "/photograph/%s/large", digest), "");
    assert_int_equal(r.status, 404);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(without_any_it_says_how_to_begin),
        cmocka_unit_test(bad_uploads_leave_nothing),
        cmocka_unit_test(a_file_over_the_limit_is_413),
        cmocka_unit_test(a_form_is_admitted_before_its_files),
        cmocka_unit_test(malformed_forms_are_one_line),
        cmocka_unit_test(photographs_are_taken_shown_and_named),
        cmocka_unit_test(pictures_are_served_by_digest),
    };
    return cmocka_run_group_tests(tests, begin, end);
}
