/* /vehicle/ID/fit: which parts work together, the wishes that can be held against it, and the set
 * adopted. Wishes stand in the address. */
#include "face/show/fit_ask.h"
#include "face/show/fit_keep.h"
#include "face/show/show_fit.h"
#include "face/web/form.h"
#include "face/web/page_frame.h"

#include <string.h>

static struct fit_typed typed_of(const struct pairs *pairs)
{
    return (struct fit_typed){pairs_get(pairs, "with"), pairs_get(pairs, "prefer"),
                              pairs_get(pairs, "budget"), pairs_get(pairs, "reversible")};
}

static bool is_asked(const struct fit_typed *t)
{
    return (t->with && *t->with) || (t->prefer && *t->prefer) || (t->budget && *t->budget) ||
           (t->reversible && *t->reversible);
}

/* What is worth wishing for: options that bring others; the rest the set has, or it has not. */
static const struct form_choice *wishes_of(struct visit *v, const struct trade *t)
{
    struct form_choice *all = ARENA_ARRAY(v->arena, struct form_choice, t->n_options + 1);
    int n = 0;
    for (int i = 0; i < t->n_options; i++)
        if (t->options[i].need >= 0 && t->options[i].way != WAY_KEEP &&
            t->needs[t->options[i].need].n_jobs > 0)
            all[n++] = (struct form_choice){t->options[i].head.id, t->options[i].head.name,
                                            t->needs[t->options[i].need].head.name};
    return all;
}

static void write_wishes(struct visit *v, const struct record *vehicle, const struct trade *t,
                         const struct fit_typed *typed, const char *fault)
{
    static const char *const yes[] = {"yes", NULL};
    static const struct field with = {.name = "with",
                                      .type = FIELD_TEXT,
                                      .help = "a set that has this, whatever it costs"},
                              prefer = {.name = "prefer",
                                        .type = FIELD_TEXT,
                                        .help = "by how much this must become cheaper to be taken"},
                              budget = {.name = "budget",
                                        .type = FIELD_TEXT,
                                        .help =
                                            "no more than this for parts and carriage: 900 GBP"},
                              reversible = {.name = "reversible",
                                            .type = FIELD_CHOICE,
                                            .choices = yes,
                                            .help = "nothing that cannot be undone"};
    struct html *h = &v->html;
    html_open(h, "h2");
    html_attr(h, "id", "wishes");
    html_text(h, "Wish it otherwise");
    html_close(h, "h2");
    html_open(h, "form");
    html_attr(h, "method", "get");
    html_url(h, "action", page_of_vehicle(v->arena, vehicle, "fit"));
    const struct form_field fields[] = {
        {.name = "with",
         .label = "with",
         .declared = &with,
         .value = typed->with,
         .choices = wishes_of(v, t)},
        {.name = "prefer",
         .label = "prefer",
         .declared = &prefer,
         .value = typed->prefer,
         .choices = wishes_of(v, t)},
        {.name = "budget", .label = "budget", .declared = &budget, .value = typed->budget},
        {.name = "reversible",
         .label = "reversible",
         .declared = &reversible,
         .value = typed->reversible},
    };
    for (size_t i = 0; i < sizeof fields / sizeof *fields; i++) {
        struct form_field field = fields[i];
        if (fault && text_starts(fault, arena_print(v->arena, "%s:", field.name)))
            field.fault = fault;
        form_write(h, &field);
    }
    form_button(h, "Reckon with it");
    html_close(h, "form");
}

static void write_adopt(struct visit *v, const struct fit_typed *typed)
{
    struct html *h = &v->html;
    html_leaf(h, "h2", NULL, "Adopt this set");
    html_leaf(h, "p", NULL,
              "The plan then reckons with these options, their hours and their prices.");
    page_form(v, NULL);
    if (typed->with) form_hidden(h, "with", typed->with);
    if (typed->budget) form_hidden(h, "budget", typed->budget);
    if (typed->reversible) form_hidden(h, "reversible", typed->reversible);
    form_button(h, "Adopt it");
    html_close(h, "form");
}

/* The ends of the vehicle's own components, each as "fitting join end". */
static const struct form_choice *ends_of(struct visit *v, const struct trade *t)
{
    int most = 1, n = 0;
    for (int i = 0; i < t->n_fittings; i++) most += t->fittings[i].n_gives + t->fittings[i].n_takes;
    struct form_choice *all = ARENA_ARRAY(v->arena, struct form_choice, most);
    for (int i = 0; i < t->n_fittings; i++) {
        const struct trade_fitting *x = &t->fittings[i];
        for (int k = 0; k < x->n_gives + x->n_takes; k++) {
            const bool gives = k < x->n_gives;
            const struct trade_join *j =
                &t->joins[gives ? x->gives[k].join : x->takes[k - x->n_gives].join];
            all[n++] = (struct form_choice){
                arena_print(v->arena, "%s %s %s", x->head.id, j->head.id,
                            gives ? "gives" : "takes"),
                arena_print(v->arena, "%s: %s%s%s", j->head.name, gives ? j->gives : j->takes,
                            j->unit ? ", in " : "", j->unit ? j->unit : ""),
                t->components[x->component].head.name};
        }
    }
    return all;
}

static void write_measure(struct visit *v, const struct trade *t, const char *end,
                          const char *value, const char *fault)
{
    static const struct field of = {.name = "end",
                                    .type = FIELD_TEXT,
                                    .required = true,
                                    .help = "what was measured on this vehicle"},
                              figure = {.name = "value",
                                        .type = FIELD_TEXT,
                                        .required = true,
                                        .help = "the figure in its unit, 2 to 4, or the word"};
    struct html *h = &v->html;
    html_open(h, "h2");
    html_attr(h, "id", "measured");
    html_text(h, "Tell a number that was measured");
    html_close(h, "h2");
    page_form(v, NULL);
    form_write(
        h,
        &(struct form_field){
            .name = "end", .label = "of", .declared = &of, .value = end, .choices = ends_of(v, t)});
    form_write(h, &(struct form_field){.name = "value",
                                       .label = "value",
                                       .declared = &figure,
                                       .value = value,
                                       .fault = fault});
    form_button(h, "Tell it");
    html_close(h, "form");
}

/* A set under wishes is reckoned for this visit alone, and not kept. */
static bool reckon(struct visit *v, const struct record *vehicle, const struct fit_wish *wish,
                   struct fit *out, struct fail *f)
{
    struct shop_ask ask;
    struct answer_trade trade;
    return visit_shop_ask(v, vehicle->id, &ask, &trade, f) && visit_trade(v, &ask.trade, f) &&
           fit_reckon(v->arena, &ask, wish, out, f);
}

static bool write_page(struct visit *v, const struct record *vehicle, const struct fit_typed *typed,
                       const char *fault, struct fail *f)
{
    const char *end = pairs_get(&v->request->form, "end");
    const struct trade *t;
    struct fit_wish wish;
    struct fail why = {0};
    struct sheet_page kept = {0};
    struct fit *x = ARENA_NEW(v->arena, struct fit);
    if (!visit_trade(v, &t, f)) return false;
    const char *wrong = end ? fault : NULL; /* of what was measured */
    if (wrong) v->response->status = 422;
    if (wrong) fault = NULL;
    if (!fault && !fit_wish_read(t, typed, &wish, &why)) fault = why.text;
    const bool wished = !fault && is_asked(typed);
    if (wished && !reckon(v, vehicle, &wish, x, &why)) {
        if (why.kind != FAIL_INPUT) {
            *f = why;
            return false;
        }
        fault = why.text;
    }
    if (fault) v->response->status = 422;
    if ((!wished || fault) && !visit_ask_page(v, QUESTION_FIT, vehicle, &kept, f)) return false;
    if ((!wished || fault) && !kept.html)
        return page_reckoning(v, vehicle, QUESTION_FIT, kept.share);
    struct html *h = page_begin(v, "Fit", vehicle, "fit");
    if (wished && !fault)
        render_html_sheet(h, show_fit(v->arena, x), page_links_of(vehicle));
    else
        html_splice(h, kept.html, kept.ids);
    write_measure(v, t, end, pairs_get(&v->request->form, "value"), wrong);
    if (!fault) write_adopt(v, typed);
    write_wishes(v, vehicle, t, typed, fault);
    return page_end(v);
}

bool page_fit(struct visit *v, struct fail *f)
{
    struct record *vehicle;
    const struct fit_typed typed = typed_of(&v->request->query);
    return visit_vehicle(v, &vehicle, f) && write_page(v, vehicle, &typed, NULL, f);
}

/* "fitting-ammeter charge-current takes" */
static bool take_measured(struct visit *v, const struct record *vehicle, const struct trade *t,
                          struct fail *f)
{
    const char *end = pairs_get(&v->request->form, "end");
    const char *value = pairs_get(&v->request->form, "value");
    char *words[3] = {NULL}, *rest = arena_copy(v->arena, end);
    for (int i = 0; i < 3; i++) words[i] = strsep(&rest, " ");
    if (!words[2] || rest)
        return fail_set(f, FAIL_INPUT, "end: says nothing; choose one of the list");
    const struct fit_measured m = {words[0], words[1], words[2], value ? value : ""};
    return fit_measure(v->arena, v->garage, t, vehicle->id, &m, v->today, f);
}

bool page_fit_take(struct visit *v, struct fail *f)
{
    struct record *vehicle;
    const struct trade *t;
    struct fit_wish wish;
    struct fit *x = ARENA_NEW(v->arena, struct fit);
    struct fail why = {0};
    int count;
    const struct fit_typed typed = typed_of(&v->request->form);
    if (!visit_garage(v, GARAGE_WRITE, f) || !visit_vehicle(v, &vehicle, f) ||
        !visit_trade(v, &t, f))
        return false;
    if (pairs_get(&v->request->form, "end")) {
        if (take_measured(v, vehicle, t, &why))
            return visit_go(v, page_of_vehicle(v->arena, vehicle, "fit"));
    } else if (fit_wish_read(t, &typed, &wish, &why) && reckon(v, vehicle, &wish, x, &why) &&
               fit_keep(v->arena, v->garage, vehicle->id, x, v->today, &count, &why))
        return visit_go(v, page_of_vehicle(v->arena, vehicle, "plan"));
    if (why.kind != FAIL_INPUT) {
        *f = why;
        return false;
    }
    return write_page(v, vehicle, &typed, why.text, f);
}
