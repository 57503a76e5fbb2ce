/* /buying: what is due on orders and pieces sent away, each with the buttons that tell that it was
 * done; then what to order together. */
#include "face/show/buying_act.h"
#include "face/show/quote_import.h"
#include "face/show/show_buying.h"
#include "face/web/form.h"
#include "face/web/page_frame.h"

#include <string.h>

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
    if (d->sent && d->sent->photo) {
        html_open(h, "p");
        html_open(h, "a");
        html_url(
            h, "href",
            arena_print(v->arena, "/vehicle/%s/photographs/%s", d->vehicle_id, d->sent->photo));
        html_text(h, "How it looked when it went");
        html_close(h, "a");
        html_close(h, "p");
    }
    html_open(h, "div");
    html_attr(h, "class", "actions");
    for (const struct buying_act *act = buying_acts; act->name; act++)
        if (act->kind == d->kind) write_act(v, act, d->sent ? d->sent->id : d->order->id);
    html_open(h, "a");
    html_attr(h, "class", "button");
    html_url(h, "href",
             arena_print(v->arena, "/buying/%s/%s", d->sent ? "sent" : "order",
                         d->sent ? d->sent->id : d->order->id));
    html_text(h, "All of it");
    html_close(h, "a");
    html_close(h, "div");
    html_close(h, "fieldset");
    html_text(h, "\n");
}

/* A list of prices, pasted. What was sent comes back. */
static bool write_import(struct visit *v, const char *list, const char *supplier, struct fail *f)
{
    static const struct field declared = {
        .name = "supplier", .type = FIELD_TEXT, .required = true, .help = "Whose prices they are"};
    struct html *h = &v->html;
    struct record *suppliers;
    int n;
    if (!garage_list(v->garage, v->arena, record_kind_find("supplier"), NULL, &suppliers, &n, f))
        return false;
    html_open(h, "h2");
    html_attr(h, "id", "import");
    html_text(h, "A supplier's list of prices");
    html_close(h, "h2");
    if (n == 0) {
        html_leaf(h, "p", NULL, "Tell first who sells, under Suppliers.");
        return true;
    }
    struct form_choice *choices = ARENA_ARRAY(v->arena, struct form_choice, n + 1);
    for (int i = 0; i < n; i++)
        choices[i].value = choices[i].text = record_text(&suppliers[i], "name", suppliers[i].id);
    page_form(v, NULL);
    form_write(h, &(struct form_field){.name = "supplier",
                                       .label = "supplier",
                                       .declared = &declared,
                                       .choices = choices,
                                       .value = supplier});
    const int id = html_id(h);
    html_open(h, "div");
    html_attr(h, "class", "field");
    html_open(h, "label");
    html_attr_print(h, "for", "t%d", id);
    html_text(h, "the list, as CSV");
    html_close(h, "label");
    html_open(h, "textarea");
    html_attr_print(h, "id", "t%d", id);
    html_attr_print(h, "aria-describedby", "h%d", id);
    html_attr(h, "name", "list");
    html_attr(h, "rows", "6");
    html_text(h, list ? list : "");
    html_close(h, "textarea");
    html_open(h, "p");
    html_attr(h, "class", "help");
    html_attr_print(h, "id", "h%d", id);
    html_text(h, "The first line names the columns, in any order: part, price, and as wanted "
                 "currency, from-count, lead, core, return-days, note. All of it is taken, or "
                 "nothing.");
    html_close(h, "p");
    html_close(h, "div");
    html_open(h, "button");
    html_attr(h, "name", "act");
    html_attr(h, "value", "import");
    html_text(h, "Take it in");
    html_close(h, "button");
    html_close(h, "form");
    return true;
}

static void write_faults(struct html *h, const struct quote_import *x)
{
    enum { TOLD = 30 };
    if (!x || x->n_faults == 0) return;
    html_open(h, "ul");
    for (int i = 0; i < x->n_faults && i < TOLD; i++) html_leaf(h, "li", NULL, x->faults[i]);
    html_close(h, "ul");
}

static bool write_page(struct visit *v, const char *whole, const struct quote_import *import,
                       struct fail *f)
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
    write_faults(h, import);
    html_leaf(h, "p", NULL, buying_headline(v->arena, &x));
    html_open(h, "div");
    html_attr(h, "class", "clue due");
    for (int i = 0; i < x.n_due; i++) write_due(v, &x, &x.due[i]);
    html_close(h, "div");
    show_buying_baskets(s, &x);
    show_buying_spares(s, &x);
    render_html_sheet(h, s, page_links_of(NULL));
    page_record_links(v);
    const struct pairs *form = &v->request->form;
    return write_import(v, pairs_get(form, "list"), pairs_get(form, "supplier"), f) && page_end(v);
}

bool page_buying(struct visit *v, struct fail *f)
{
    return write_page(v, NULL, NULL, f);
}

static bool take_list(struct visit *v, struct quote_import *out, struct fail *f)
{
    const struct pairs *form = &v->request->form;
    const struct trade *t;
    const char *list = pairs_get(form, "list"), *supplier = pairs_get(form, "supplier");
    if (!list || !supplier || !*supplier)
        return fail_set(f, FAIL_INPUT, "quote: say whose prices they are, and paste their list");
    return visit_trade(v, &t, f) &&
           quote_import(v->arena, v->garage, t, supplier, list, strlen(list), v->today, out, f);
}

bool page_buying_tell(struct visit *v, struct fail *f)
{
    const struct pairs *form = &v->request->form;
    struct fail why = {0};
    struct quote_import import = {0};
    if (!visit_garage(v, GARAGE_WRITE, f)) return false;
    if (text_is(pairs_get(form, "act"), "import")
            ? take_list(v, &import, &why)
            : buying_act_do(v->arena, v->garage, pairs_get(form, "act"), pairs_get(form, "id"),
                            pairs_get(form, "text"), v->today, &why))
        return visit_go(v, "/buying");
    if (why.kind != FAIL_INPUT) {
        *f = why;
        return false;
    }
    v->response->status = 422;
    return write_page(v, why.text, &import, f);
}
