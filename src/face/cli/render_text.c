#include "face/cli/render_text.h"

#include "face/cli/wrap.h"

#include <assert.h>

const char *render_toned(struct arena *a, const char *text, enum tone tone)
{
    static const char *const sign[TONE_COUNT] = {"", "✓ ", "! ", "✗ ", ""};
    const char *clean = wrap_clean(a, text, false);
    return *sign[tone] && *clean ? arena_print(a, "%s%s", sign[tone], clean) : clean;
}

/* SGR codes of ECMA-48: 1 bold, 2 faint, 31 red, 32 green, 33 yellow. */
void render_colour(struct text *out, const char *s, enum tone tone, struct render_style style)
{
    static const char *const code[TONE_COUNT] = {"", "32", "33", "31", "2"};
    if (style.colour && *code[tone] && *s)
        text_print(out, "\033[%sm%s\033[0m", code[tone], s);
    else
        text_add(out, s);
}

void render_strong(struct text *out, const char *s, struct render_style style)
{
    if (style.colour && *s)
        text_print(out, "\033[1m%s\033[0m", s);
    else
        text_add(out, s);
}

void render_caption(struct text *out, const char *s, struct render_style style)
{
    struct lines l = wrap_lines(out->arena, wrap_clean(out->arena, s, false), style.width);
    for (int i = 0; *s && i < l.count; i++) {
        render_strong(out, l.line[i], style);
        text_add(out, "\n");
    }
}

/* Lines of clean text, the first after `first`, the others after `rest`, both of the same width. */
static void paragraph(struct text *out, const char *first, const char *rest, const char *text,
                      enum tone tone, struct render_style style)
{
    struct lines l = wrap_lines(out->arena, text, style.width - text_width(first));
    for (int i = 0; i < l.count; i++) {
        text_add(out, i == 0 ? first : rest);
        render_colour(out, l.line[i], tone, style);
        text_add(out, "\n");
    }
}

static void plain(struct text *out, const char *first, const char *rest, const char *text,
                  struct render_style style)
{
    paragraph(out, first, rest, wrap_clean(out->arena, text, true), TONE_PLAIN, style);
}

static void underlined(struct text *out, const char *text, const char *mark,
                       struct render_style style)
{
    struct lines l = wrap_lines(out->arena, wrap_clean(out->arena, text, false), style.width);
    int wide = 0;
    for (int i = 0; i < l.count; i++) {
        int w = text_width(l.line[i]);
        if (w > wide) wide = w;
        render_strong(out, l.line[i], style);
        text_add(out, "\n");
    }
    wrap_repeat(out, mark, wide);
    if (*mark) text_add(out, "\n");
}

static void pairs(struct text *out, const struct sheet_pairs *p, const char *indent,
                  struct render_style style)
{
    struct arena *a = out->arena;
    int wide = 0;
    for (int i = 0; i < p->count; i++) {
        int w = text_width(wrap_clean(a, p->items[i].name, false));
        if (w > wide) wide = w;
    }
    bool beside = text_width(indent) + wide + 2 <= style.width * 3 / 5;
    for (int i = 0; i < p->count; i++) {
        const char *name = wrap_clean(a, p->items[i].name, false);
        const char *value = render_toned(a, p->items[i].value, p->items[i].tone);
        struct text first = {.arena = a}, rest = {.arena = a};
        text_add(&first, indent);
        if (beside) {
            text_add(&first, name);
            wrap_repeat(&first, " ", wide + 2 - text_width(name));
            wrap_repeat(&rest, " ", text_width(text_get(&first)));
        } else {
            paragraph(out, indent, indent, name, TONE_PLAIN, style);
            text_add(&first, "  ");
            text_print(&rest, "%s  ", indent);
        }
        paragraph(out, text_get(&first), text_get(&rest), value, p->items[i].tone, style);
    }
}

static void mark_line(struct text *out, const char *indent, enum mark mark, const char *text,
                      const char *source, struct render_style style)
{
    struct text line = {.arena = out->arena};
    if (mark != MARK_NONE) text_print(&line, "[%s]", mark_word(mark));
    if (*text) text_print(&line, "%s%s", line.length ? " " : "", text);
    if (*source) text_print(&line, "%sSource: %s", line.length ? " " : "", source);
    const char *clean = wrap_clean(out->arena, text_get(&line), true);
    if (*clean) paragraph(out, indent, indent, clean, TONE_FAINT, style);
}

static void caution(struct text *out, const char *text, const char *defer,
                    struct render_style style)
{
    plain(out, "┃ ", "┃ ", arena_print(out->arena, "CAUTION: %s", text), style);
    if (*defer) plain(out, "┃ ", "┃ ", arena_print(out->arena, "Defer to: %s", defer), style);
}

static void why(struct text *out, const struct sheet_why *w, struct render_style style)
{
    plain(out, "? ", "  ", w->question, style);
    pairs(out, &w->inputs, "    ", style);
    if (*w->formula) plain(out, "  = ", "    ", w->formula, style);
    mark_line(out, "    ", w->mark, "", w->source, style);
}

static void node(struct text *out, const struct sheet_node *n, struct render_style style)
{
    static const char *const under[] = {"", "─", "", ""};
    switch (n->kind) {
    case SHEET_HEADING:
        underlined(out, n->as.heading.text, under[n->as.heading.level], style);
        break;
    case SHEET_TEXT:
        plain(out, "", "", n->as.text, style);
        break;
    case SHEET_FACTS:
        pairs(out, &n->as.facts, "", style);
        break;
    case SHEET_TABLE:
        render_table(out, &n->as.table, style);
        break;
    case SHEET_CHART:
        render_chart(out, &n->as.chart, style);
        break;
    case SHEET_CAUTION:
        caution(out, n->as.caution.text, n->as.caution.defer, style);
        break;
    case SHEET_LINK:
        plain(out, "→ ", "  ",
              arena_print(out->arena, "%s: fettle %s", n->as.link.text, n->as.link.command), style);
        break;
    case SHEET_LIST:
        for (int i = 0; i < n->as.list.count; i++)
            plain(out, "• ", "  ", n->as.list.items[i], style);
        break;
    case SHEET_NOTE:
        mark_line(out, "", n->as.note.mark, n->as.note.text, n->as.note.source, style);
        break;
    case SHEET_WHY:
        why(out, &n->as.why, style);
        break;
    case SHEET_KINDS:
        assert(false);
    }
}

/* Nodes stand apart by an empty line, save what belongs to the node before: a note, a link after a
 * link, what follows a heading. */
static bool stands_apart(const struct sheet_node *before, const struct sheet_node *n)
{
    if (before->kind == SHEET_HEADING) return false;
    return n->kind != SHEET_NOTE && !(n->kind == SHEET_LINK && before->kind == SHEET_LINK);
}

void render_text(struct text *out, const struct sheet *s, struct render_style style)
{
    assert(style.width > 0);
    if (style.width < 20) style.width = 20;
    if (*s->title) underlined(out, s->title, "━", style);
    for (const struct sheet_node *n = s->first, *before = NULL; n; before = n, n = n->next) {
        if (before ? stands_apart(before, n) : *s->title) text_add(out, "\n");
        node(out, n, style);
    }
}
