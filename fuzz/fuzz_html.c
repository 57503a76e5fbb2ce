/* Sheets made of any bytes, as HTML. Input: two bytes a node (kind and tone; length of its text),
 * then the text. Held: what is written is UTF-8 without controls, every '<' begins a tag of the
 * writer's, and all is closed. */
#include "face/web/render_html.h"

#include <assert.h>
#include <string.h>

int LLVMFuzzerTestOneInput(const unsigned char *data, size_t size);

static const char *as_it_stands(const void *context, struct arena *a, const char *command)
{
    (void)context;
    return arena_copy(a, command);
}

static void add_chart(struct sheet *s, unsigned char how, const char *t)
{
    /* On the axis, at its ends, far off it on both sides. */
    static const double at[] = {0, 1, -1e308, 1e308, 1.0 / 3, 5, 4, -0.0};
    struct sheet_chart *c = sheet_chart(s, how & 1 ? CHART_BARS : CHART_RANGES, t, t, 0, t, 4, t);
    struct chart_row row = {t, t, at[how % 8], at[how / 8 % 8], at[how / 32], how % TONE_COUNT};
    sheet_chart_row(s, c, row);
    sheet_chart_limit(s, c, at[how / 4 % 8], t);
}

static void add_node(struct sheet *s, unsigned char how, const char *t)
{
    enum tone tone = how / SHEET_KINDS % TONE_COUNT;
    struct sheet_table *table;
    struct sheet_why *w;
    switch ((enum sheet_kind)(how % SHEET_KINDS)) {
    case SHEET_HEADING:
        sheet_heading(s, 1 + how / SHEET_KINDS % 3, t);
        break;
    case SHEET_TEXT:
        sheet_text(s, "%s", t);
        break;
    case SHEET_FACTS:
        sheet_fact(s, tone, t, "%s", t);
        break;
    case SHEET_TABLE:
        table = sheet_table(s, t);
        sheet_column(s, table, t, how & 1 ? ALIGN_LEFT : ALIGN_RIGHT, 1 + how % 5);
        sheet_cell(s, table, tone, "%s", t);
        break;
    case SHEET_CHART:
        add_chart(s, how, t);
        break;
    case SHEET_CAUTION:
        sheet_caution(s, t, t);
        break;
    case SHEET_LINK:
        sheet_link(s, t, t);
        break;
    case SHEET_LIST:
        sheet_item(s, "%s", t);
        break;
    case SHEET_NOTE:
        sheet_note(s, MARK_DEMO, t, t);
        break;
    case SHEET_WHY:
    case SHEET_KINDS:
        w = sheet_why(s, t, t, MARK_PRACTICE, t);
        sheet_why_input(s, w, t, "%s", t);
    }
}

/* Every start tag but <br> and the like has its end; the renderer writes no void element. */
static void check(const char *s, size_t n)
{
    assert(text_is_utf8(s, n));
    int depth = 0;
    for (; *s; s++) {
        assert((unsigned char)*s >= 0x20 || strchr("\t\n\f\r", *s));
        assert(*s != 0x7F && *s != '>');
        if (*s != '<') continue;
        depth += s[1] == '/' ? -1 : 1;
        assert(depth >= 0);
        for (s++; *s != '>'; s++) {
            assert(*s && *s != '<');
            if (*s == '"') s += 1 + strcspn(s + 1, "\"<>");
            assert(*s);
        }
    }
    assert(depth == 0);
}

int LLVMFuzzerTestOneInput(const unsigned char *data, size_t size)
{
    if (memchr(data, 0, size)) return 0;
    struct arena a = arena_open(64 << 20);
    struct sheet *s = sheet_new(&a, "fuzz");
    while (size >= 2) {
        size_t n = data[1] < size - 2 ? data[1] : size - 2;
        add_node(s, data[0], arena_copy_n(&a, (const char *)data + 2, n));
        data += 2 + n;
        size -= 2 + n;
    }
    struct text out = {.arena = &a};
    struct html h = html_begin(&out);
    render_html_sheet(&h, s, (struct page_links){.address = as_it_stands});
    html_end(&h);
    check(text_get(&out), out.length);
    arena_close(&a);
    return 0;
}
