/* /buying: what is due on orders and pieces sent away, each with the buttons that tell that it was
 * done; then what to order together. */
#include "face/show/buying_act.h"
#include "face/show/show_buying.h"
#include "face/web/form.h"
#include "face/web/page_frame.h"

static bool plan_kept(void *context, const char *vehicle, struct told *out, bool *current)
{
    return visit_kept(context, QUESTION_PLAN, vehicle, out, current);
}

/* A form each, so that Enter in a line of text sends what belongs to it. */
static void write_act(struct visit *v, const struct buying_act *act, const char *id)
{
    struct html *h = &v->html;
    page_form(v, NULL);
    form_hidden(h, "id", id);
    if (act->asks) {
        const int field = html_id(h);
        html_open(h, "label");
        html_attr_print(h, "for", "t%d", field);
        html_text(h, act->asks);
        html_close(h, "label");
        html_open(h, "input");
        html_attr_print(h, "id", "t%d", field);
        html_attr(h, "name", "text");
        html_attr(h, "type", "text");
        html_attr(h, "autocomplete", "off");
        html_flag(h, "required", true);
    }
    html_open(h, "button");
    html_attr(h, "name", "act");
    html_attr(h, "value", act->name);
    html_text(h, act->button);
    html_close(h, "button");
    html_close(h, "form");
}

static void write_due(struct visit *v, const struct buying *x, const struct due *d)
{
    struct html *h = &v->html;
    html_open(h, "fieldset");
    html_leaf(h, "legend", NULL, buying_thing(x, d));
    html_open(h, "p");
    render_html_toned(h, buying_day(v->arena, x, d), buying_tone(d->press));
    html_close(h, "p");
    html_leaf(h, "p", NULL, arena_print(v->arena, "%s.", buying_words(v->arena, x, d)));
    if (d->supplier || x->n_vehicles > 1)
        html_leaf(h, "p", "help",
                  arena_print(v->arena, "%s%s%s", d->supplier ? d->supplier : "",
                              d->supplier && x->n_vehicles > 1 ? ", for " : "",
                              x->n_vehicles > 1 ? d->vehicle : ""));
    html_open(h, "div");
    html_attr(h, "class", "actions");
    for (const struct buying_act *act = buying_acts; act->name; act++)
        if (act->kind == d->kind) write_act(v, act, d->sent ? d->sent->id : d->order->id);
    html_close(h, "div");
    html_close(h, "fieldset");
    html_text(h, "\n");
}

static bool write_page(struct visit *v, const char *whole, struct fail *f)
{
    const struct trade *t;
    struct buying x;
    if (!v->garage && !visit_garage(v, GARAGE_READ, f)) return false;
    if (!visit_trade(v, &t, f) ||
        !buying_of_garage(v->arena, v->garage, t, (struct buying_plans){plan_kept, v}, v->today, &x,
                          f))
        return false;
    struct sheet *s = sheet_new(v->arena, "");
    struct html *h = page_begin(v, "Buying", NULL, "buying");
    html_leaf(h, "h1", NULL, "Buying");
    form_fault(h, whole);
    html_leaf(h, "p", NULL, buying_headline(v->arena, &x));
    html_open(h, "div");
    html_attr(h, "class", "clue due");
    for (int i = 0; i < x.n_due; i++) write_due(v, &x, &x.due[i]);
    html_close(h, "div");
    show_buying_baskets(s, &x);
    show_buying_spares(s, &x);
    render_html_sheet(h, s, page_links_of(NULL));
    return page_end(v);
}

bool page_buying(struct visit *v, struct fail *f)
{
    return write_page(v, NULL, f);
}

bool page_buying_tell(struct visit *v, struct fail *f)
{
    const struct pairs *form = &v->request->form;
    struct fail why = {0};
    if (!visit_garage(v, GARAGE_WRITE, f)) return false;
    if (buying_act_do(v->arena, v->garage, pairs_get(form, "act"), pairs_get(form, "id"),
                      pairs_get(form, "text"), v->today, &why))
        return visit_go(v, "/buying");
    if (why.kind != FAIL_INPUT) {
        *f = why;
        return false;
    }
    v->response->status = 422;
    return write_page(v, why.text, f);
}
