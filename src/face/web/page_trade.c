/* /trade: the trade data, to be browsed and searched; each entry with its mark and source. */
#include "face/show/show_trade.h"
#include "face/web/form.h"
#include "face/web/page_frame.h"

static const char *address_of(struct arena *a, enum subject s, const char *id)
{
    struct text to = {.arena = a};
    text_print(&to, "/trade/%s", subject_name(s));
    if (id) {
        text_add(&to, "/");
        html_percent(&to, id);
    }
    return text_get(&to);
}

static void write_hit(struct visit *v, const struct trade *t, struct trade_hit hit)
{
    const struct entry *e = trade_entry(t, hit.subject, hit.index);
    struct html *h = &v->html;
    html_open(h, "li");
    html_open(h, "a");
    html_url(h, "href", address_of(v->arena, hit.subject, e->id));
    html_text(h, e->name);
    html_close(h, "a");
    html_print(h, " (%s) ", subject_name(hit.subject));
    render_html_mark(h, e->mark);
    html_close(h, "li");
}

static void write_search(struct visit *v, const struct trade *t, const char *words)
{
    struct html *h = &v->html;
    form_search(h, "/trade", "Search", "Search", words);
    if (!*words) return;
    struct trade_hit *hits;
    int count = trade_search(v->arena, t, words, &hits);
    html_leaf(h, "h2", NULL, arena_print(v->arena, "%s: %d", words, count));
    html_open(h, "ul");
    for (int i = 0; i < count; i++) write_hit(v, t, hits[i]);
    html_close(h, "ul");
}

bool page_trade(struct visit *v, struct fail *f)
{
    const struct trade *t;
    const char *words = pairs_get(&v->request->query, "words");
    if (!visit_trade(v, &t, f)) return false;
    struct html *h = page_begin(v, "What the trade knows", NULL, "trade");
    html_leaf(h, "h1", NULL, "What the trade knows");
    write_search(v, t, words ? words : "");
    html_leaf(h, "h2", NULL, "By subject");
    html_open(h, "ul");
    for (int s = 0; s < SUBJECT_COUNT; s++) {
        html_open(h, "li");
        html_open(h, "a");
        html_url(h, "href", address_of(v->arena, (enum subject)s, NULL));
        html_text(h, subject_name((enum subject)s));
        html_close(h, "a");
        html_print(h, ": %d", trade_count(t, (enum subject)s));
        html_close(h, "li");
    }
    html_close(h, "ul");
    return page_end(v);
}

static bool find_subject(struct visit *v, enum subject *out, struct fail *f)
{
    for (int s = 0; s < SUBJECT_COUNT; s++)
        if (text_is(v->piece[0], subject_name((enum subject)s))) {
            *out = (enum subject)s;
            return true;
        }
    return visit_fail(v, 404, f, "the trade data has no such subject; /trade lists them");
}

bool page_trade_subject(struct visit *v, struct fail *f)
{
    const struct trade *t;
    enum subject s = SUBJECT_COUNT; /* set by find_subject */
    if (!find_subject(v, &s, f) || !visit_trade(v, &t, f)) return false;
    struct html *h = page_begin(v, subject_name(s), NULL, "trade");
    html_leaf(h, "h1", NULL, subject_name(s));
    html_open(h, "ul");
    for (int i = 0; i < trade_count(t, s); i++) write_hit(v, t, (struct trade_hit){s, i});
    html_close(h, "ul");
    return page_end(v);
}

bool page_trade_entry(struct visit *v, struct fail *f)
{
    const struct trade *t;
    enum subject s = SUBJECT_COUNT; /* set by find_subject */
    if (!find_subject(v, &s, f) || !visit_trade(v, &t, f)) return false;
    int index = trade_find(t, s, v->piece[1]);
    if (index < 0)
        return visit_fail(v, 404, f, "the trade data has no such entry; search for it at /trade");
    struct html *h = page_begin(v, trade_entry(t, s, index)->name, NULL, "trade");
    render_html_sheet(h, show_trade_entry(v->arena, t, s, index), page_links_of(NULL));
    return page_end(v);
}
