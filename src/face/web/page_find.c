/* /find?words=...: full-text search over everything; each hit leads to where it stands. */
#include "face/show/show_find.h"
#include "face/web/form.h"
#include "face/web/page_frame.h"

/* The page that shows records of a kind; of others the survey is where to begin. */
static const char *page_for(const char *kind)
{
    static const char *const pages[][2] = {
        {"work", "log"},
        {"timer", "log"},
        {"setback", "setback"},
        {"left-off", "session"},
        {"care-done", "session"},
        {"gate-opened", "safe"},
        {"gate-override", "safe"},
        {"witnessed", "safe"},
        {"measurement", "safe"},
        {"session-check", "safe"},
        {"circuit", "loom"},
        {"mark", "originality"},
        {"originality", "originality"},
        {"clue-reading", "identify"},
        {"clock", "identify"},
        {"dated-mileage", "identify"},
        {"decision", "plan"},
        {"adopted-plan", "plan"},
        {"choice", "fit"},
        {"measured", "fit"},
        {"photograph", "photographs"},
    };
    for (size_t i = 0; i < sizeof pages / sizeof *pages; i++)
        if (text_is(kind, pages[i][0])) return pages[i][1];
    return "survey";
}

static const char *address_of(struct arena *a, const struct trade *t, const struct found *x)
{
    if (!x->record)
        return arena_print(a, "/trade/%s/%s", subject_name(x->subject),
                           trade_entry(t, x->subject, x->index)->id);
    const struct record *r = x->record;
    if (text_is(x->name, "vehicle")) return arena_print(a, "/vehicle/%s/survey", r->id);
    if (text_is(x->name, "order") || text_is(x->name, "sent") || text_is(x->name, "quote") ||
        text_is(x->name, "person") || text_is(x->name, "promise") || text_is(x->name, "supplier"))
        return "/buying";
    if (r->kind->of_garage || !r->values[0].set) return "/";
    if (text_is(x->name, "bag")) return arena_print(a, "/bag/%s", record_text(r, "code", ""));
    if (text_is(x->name, "bag-item")) return arena_print(a, "/bag/%s", record_text(r, "bag", ""));
    if (text_is(x->name, "photograph"))
        return arena_print(a, "/vehicle/%s/photographs/%s", r->values[0].text, r->id);
    return arena_print(a, "/vehicle/%s/%s", r->values[0].text, page_for(x->name));
}

static void write_hits(struct visit *v, const struct trade *t, const struct find *x)
{
    struct html *h = &v->html;
    html_leaf(h, "p", NULL, find_headline(v->arena, x));
    if (x->count == 0) return;
    html_open(h, "ul");
    html_attr(h, "class", "stops");
    for (int i = 0; i < x->count; i++) {
        const struct found *f = &x->hits[i];
        html_open(h, "li");
        html_open(h, "a");
        html_url(h, "href", address_of(v->arena, t, f));
        html_open(h, "span");
        html_leaf(h, "b", NULL, f->name);
        html_print(h, " %s", f->words);
        html_close(h, "span");
        html_leaf(h, "span", "quiet", f->record ? f->vehicle : subject_name(f->subject));
        html_close(h, "a");
        html_close(h, "li");
    }
    html_close(h, "ul");
}

bool page_find(struct visit *v, struct fail *f)
{
    const char *words = pairs_get(&v->request->query, "words");
    const struct trade *t;
    struct find x;
    struct fail why = {0};
    if (!visit_garage(v, GARAGE_READ, f) || !visit_trade(v, &t, f)) return false;
    struct html *h = page_begin(v, "Find", NULL, "find");
    html_leaf(h, "h1", NULL, "Find");
    form_search(h, "/find", "In notes, bags, records, photographs and the trade data", "Find",
                words ? words : "");
    if (words && *words) {
        if (find_everything(v->arena, v->garage, t, words, &x, &why))
            write_hits(v, t, &x);
        else if (why.kind == FAIL_INPUT)
            html_leaf(h, "p", "wrong", why.text);
        else
            return *f = why, false;
    }
    return page_end(v);
}
