/* Every entry of the shipped trade data as a sheet: it goes through JSON and back, fits a narrow
 * terminal, and shows its mark and every caution that its job or step names. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "face/cli/render_text.h"
#include "face/show/sheet_json.h"
#include "face/show/show_trade.h"

#include <string.h>

static bool has_caution(const struct sheet *s, const char *text)
{
    for (const struct sheet_node *n = s->first; n; n = n->next)
        if (n->kind == SHEET_CAUTION && strcmp(n->as.caution.text, text) == 0) return true;
    return false;
}

static void want_cautions(const struct trade *t, const struct sheet *s, const int *cautions,
                          int count)
{
    for (int i = 0; i < count; i++)
        if (!has_caution(s, t->cautions[cautions[i]].text))
            fail_msg("%s: no caution %s", s->title, t->cautions[cautions[i]].head.id);
}

static void check_entry(struct arena scratch, const struct trade *t, enum subject subject,
                        int index)
{
    struct fail f = {0};
    struct sheet *s = show_trade_entry(&scratch, t, subject, index), *back;
    const struct entry *e = trade_entry(t, subject, index);
    json_t *once = sheet_to_json(s);
    if (!sheet_from_json(&scratch, once, &back, &f)) fail_msg("%s: %s", e->id, f.text);
    json_t *twice = sheet_to_json(back);
    assert_true(json_equal(once, twice));
    json_decref(once);
    json_decref(twice);
    json_t *j = trade_entry_to_json(t, subject, index);
    assert_string_equal(json_string_value(json_object_get(j, "id")), e->id);
    json_decref(j);

    struct text out = {.arena = &scratch};
    render_text(&out, s, (struct render_style){40, false});
    for (const char *line = text_get(&out); *line;) {
        size_t n = strcspn(line, "\n");
        if (text_width(arena_copy_n(&scratch, line, n)) > 40)
            fail_msg("%s: too wide: %.*s", e->id, (int)n, line);
        line += n + (line[n] == '\n');
    }
    if (e->mark != MARK_NONE)
        assert_non_null(strstr(text_get(&out), arena_print(&scratch, "[%s]", mark_word(e->mark))));

    if (subject == SUBJECT_JOBS)
        want_cautions(t, s, t->jobs[index].cautions, t->jobs[index].n_cautions);
    for (int i = 0; subject == SUBJECT_SETBACKS && i < t->setbacks[index].n_ladder; i++)
        want_cautions(t, s, t->setbacks[index].ladder[i].cautions,
                      t->setbacks[index].ladder[i].n_cautions);
}

static void test_every_entry(void **state)
{
    (void)state;
    struct arena a = arena_open((size_t)1 << 30);
    struct trade t;
    struct trade_faults faults = {0};
    struct fail f = {0};
    int checked = 0;
    if (!trade_load_dir(&a, TRADE_DIR, &t, &faults, &f)) fail_msg("%s", f.text);
    for (int s = 0; s < SUBJECT_COUNT; s++)
        for (int i = 0; i < trade_count(&t, (enum subject)s); i++, checked++)
            check_entry(a, &t, (enum subject)s, i);
    assert_true(checked > 500);
    arena_close(&a);
}

static void test_search_sheet(void **state)
{
    (void)state;
    struct arena a = arena_open((size_t)1 << 30);
    struct trade t;
    struct trade_faults faults = {0};
    struct fail f = {0};
    struct trade_hit *hits;
    if (!trade_load_dir(&a, TRADE_DIR, &t, &faults, &f)) fail_msg("%s", f.text);
    int count = trade_search(&a, &t, "hood", &hits); /* the American word finds the bonnet */
    struct sheet *s = show_trade_hits(&a, &t, "hood", hits, count);
    assert_int_equal(s->first->kind, SHEET_TABLE);
    assert_int_equal(sheet_table_rows(&s->first->as.table), count);
    bool bonnet = false;
    for (int i = 0; i < s->first->as.table.n_cells; i++)
        bonnet = bonnet || strcmp(s->first->as.table.cells[i].text, "bonnet") == 0;
    assert_true(bonnet);
    arena_close(&a);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_every_entry),
        cmocka_unit_test(test_search_sheet),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
