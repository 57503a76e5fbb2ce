/* test_originality.c - the page without script: a mark and a component told by its forms, and what
 * was wrong beside its field. */
#include "web/browse.h"

#include <string.h>

static struct arena arena;
static struct site *site;

static int begin(void **state)
{
    (void)state;
    arena = arena_open((size_t)512 << 20);
    site = browse_site(&arena);
    return 0;
}

static int end(void **state)
{
    (void)state;
    browse_site_end(&arena, site);
    arena_close(&arena);
    return 0;
}

static struct browser *at_the_page(const char *name)
{
    struct browser *b = browse_open(&arena, site);
    struct record *r = record_new(&b->arena, record_kind_find("vehicle"));
    struct garage *g;
    struct fail f = {0};
    assert_true(record_set(&b->arena, r, "name", name, NULL, &f) &&
                record_set(&b->arena, r, "maker", "Ostrand", NULL, &f) &&
                record_set(&b->arena, r, "year", "1959", NULL, &f));
    assert_true(garage_open(&b->arena, site->dir, GARAGE_WRITE, NULL, &g, &f));
    assert_true(garage_begin(g, &f) && garage_add(g, r, &f) && garage_commit(g, &f));
    garage_close(g);
    browse_go(b, arena_print(&b->arena, "/vehicle/%s/originality", r->id));
    return b;
}

/* The first text field of that name after the hidden one that names the record's kind. */
static void type_into(struct browser *b, const char *kind, const char *name, const char *text)
{
    bool mine = false;
    for (int i = 0; i < b->n_controls; i++) {
        struct control *c = &b->controls[i];
        if (strcmp(c->name, "kind") == 0) mine = strcmp(c->value, kind) == 0;
        if (!mine || c->kind != CONTROL_TEXT || strcmp(c->name, name) != 0) continue;
        c->value = text;
        return;
    }
    fail_msg("no field %s of %s", name, kind);
}

/* Presses the button of the form that asks for that kind: the second form's is reached by giving
 * the first another name of its own. */
static void send(struct browser *b, const char *kind)
{
    int form = -1;
    for (int i = 0; i < b->n_controls; i++)
        if (strcmp(b->controls[i].name, "kind") == 0 && strcmp(b->controls[i].value, kind) == 0)
            form = b->controls[i].form;
    for (int i = 0; i < b->n_controls; i++)
        if (b->controls[i].kind == CONTROL_BUTTON && b->controls[i].form != form)
            b->controls[i].value = "not this one";
    browse_press(b, "", "");
}

static void told_by_forms(void **state)
{
    (void)state;
    struct browser *b = at_the_page("Linnet <i>");
    browse_expect(b, "None was told yet");
    type_into(b, "mark", "text", "LNE JR 04817 F");
    type_into(b, "mark", "component", "");
    send(b, "mark");
    browse_expect(b, "check digit fits");
    type_into(b, "originality", "component", "Gearbox");
    send(b, "originality");
    browse_expect(b, "1 original to this vehicle");
}

static void wrong_beside_its_field(void **state)
{
    (void)state;
    struct browser *b = at_the_page("Other");
    send(b, "mark"); /* no text */
    assert_int_equal(b->page.status, 422);
    browse_expect(b, "mark.text: missing");
    type_into(b, "mark", "text", "<script>alert(1)</script>");
    type_into(b, "mark", "component", "gearbxo");
    send(b, "mark");
    assert_int_equal(b->page.status, 422);
    browse_expect(b, "did you mean");
    browse_expect(b, "&lt;script&gt;alert(1)&lt;/script&gt;"); /* what was typed comes back */
    type_into(b, "mark", "component", "gearbox");
    send(b, "mark");
    browse_expect(b, "&lt;script&gt;alert(1)&lt;/script&gt;");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(told_by_forms),
        cmocka_unit_test(wrong_beside_its_field),
    };
    return cmocka_run_group_tests(tests, begin, end);
}
