/* /bench: the engineering sums; /bench/NAME: one, asked by its address, so that an answer can be
 * shared. */
#include "face/show/show_bench.h"
#include "face/web/form.h"
#include "face/web/page_frame.h"

#include <string.h>

bool page_bench(struct visit *v, struct fail *f)
{
    (void)f;
    struct html *h = page_begin(v, "The sums of the trade", NULL, "bench");
    html_leaf(h, "h1", NULL, "The sums of the trade");
    for (const struct calc_system *y = calc_systems; y->name; y++) {
        html_leaf(h, "h2", NULL, y->title);
        html_open(h, "ul");
        for (const struct calc *c = y->calcs; c->name; c++) {
            html_open(h, "li");
            html_open(h, "a");
            html_url(h, "href", arena_print(v->arena, "/bench/%s", c->name));
            html_text(h, c->question);
            html_close(h, "a");
            html_close(h, "li");
        }
        html_close(h, "ul");
    }
    return page_end(v);
}

/* The builder's own system of units, by the garage's latest word on it. */
static enum unit_system system_of(struct visit *v)
{
    struct record *workshops;
    int count = 0;
    struct fail ignored = {0};
    if (!visit_garage(v, GARAGE_READ, &ignored) ||
        !garage_list(v->garage, v->arena, record_kind_find("workshop"), NULL, &workshops, &count,
                     &ignored) ||
        count == 0)
        return UNITS_METRIC;
    const char *word = record_text(&workshops[count - 1], "units", "metric");
    return text_is(word, "imperial") ? UNITS_IMPERIAL
           : text_is(word, "US")     ? UNITS_US
                                     : UNITS_METRIC;
}

static void write_input(struct html *h, const struct calc_input *x, const char *typed,
                        const char *fault)
{
    const struct field as_field = {
        .name = x->name,
        .type = x->kind == CALC_CHOICE ? FIELD_CHOICE : FIELD_TEXT,
        .required = !x->may_lack,
        .choices = x->choices,
        .help = x->bare ? arena_print(h->out->arena, "%s; in %s unless said", x->help, x->bare)
                        : x->help};
    form_write(h, &(struct form_field){.name = x->name,
                                       .label = x->name,
                                       .declared = &as_field,
                                       .value = typed ? typed : x->usual,
                                       .fault = fault});
}

static void write_form(struct visit *v, const struct calc *c, const char *const *typed,
                       const char *fault)
{
    struct html *h = &v->html;
    html_open(h, "form");
    html_attr(h, "method", "get");
    html_attr(h, "class", "said live");
    html_url(h, "action", arena_print(v->arena, "/bench/%s", c->name));
    for (int i = 0; c->inputs[i].name; i++) {
        const char *mark = arena_print(v->arena, "%s: ", c->inputs[i].name);
        write_input(h, &c->inputs[i], typed[i], fault && text_starts(fault, mark) ? fault : NULL);
    }
    form_button(h, "Reckon");
    html_close(h, "form");
}

bool page_bench_sum(struct visit *v, struct fail *f)
{
    const struct calc *c = calc_find(v->piece[0]);
    if (!c) return visit_fail(v, 404, f, "there is no such sum; /bench lists them");
    const struct pairs *query = &v->request->query;
    const char *typed[CALC_INPUTS] = {NULL};
    struct bench_typed *given = ARENA_ARRAY(v->arena, struct bench_typed, query->count);
    struct bench_asked *asked = ARENA_NEW(v->arena, struct bench_asked);
    struct fail why = {0};
    int count = 0;
    for (int i = 0; i < query->count; i++) {
        int input = calc_input_index(c, query->items[i].name);
        if (input >= 0) typed[input] = query->items[i].value;
        if (*query->items[i].value)
            given[count++] = (struct bench_typed){query->items[i].name, query->items[i].value};
    }
    bool ready = count > 0 || !c->inputs[0].name || c->inputs[0].usual;
    const struct trade *trade = NULL;
    if (ready && c->chooses && !visit_trade(v, &trade, f)) return false;
    bool good = ready && bench_ask(v->arena, c, trade, given, count, system_of(v), asked, &why);
    struct html *h = page_begin(v, c->question, NULL, "bench");
    html_open(h, "div");
    html_attr(h, "class", "what-if");
    write_form(v, c, typed, ready && !good ? why.text : NULL);
    html_open(h, "section");
    html_attr(h, "id", "answer");
    html_attr(h, "aria-live", "polite");
    if (ready && !good) html_leaf(h, "p", "wrong", why.text);
    render_html_sheet(h, good ? show_bench(v->arena, asked) : show_bench_help(v->arena, c),
                      page_links_of(NULL));
    html_close(h, "section");
    html_close(h, "div");
    page_script_tag(h, "/live.js");
    return page_end(v);
}

extern const char embed_live[], embed_live_end[];

bool page_live_script(struct visit *v, struct fail *f)
{
    (void)f;
    return page_file(v, embed_live, embed_live_end, "text/javascript; charset=utf-8");
}
