/* /vehicle/ID/advert: what is asked for one that might be bought; and, once it is bought, that. */
#include "face/show/intake.h"
#include "face/web/form.h"
#include "face/web/page_frame.h"
#include "garage/kinds.h"

static bool latest(struct visit *v, const struct record *vehicle, struct record **out,
                   struct fail *f)
{
    struct record *all;
    int n;
    if (!garage_list(v->garage, v->arena, &kind_advert, vehicle->id, &all, &n, f)) return false;
    *out = n > 0 ? &all[n - 1] : record_new(v->arena, &kind_advert);
    return true;
}

static bool write_page(struct visit *v, const struct record *vehicle, const struct record *r,
                       const char *fault)
{
    const char *title = arena_print(v->arena, "%s: the advert", record_text(vehicle, "name", "?"));
    struct html *h = page_begin(v, title, vehicle, "view");
    html_leaf(h, "h1", NULL, title);
    bool placed = false;
    for (int i = 1; fault && i < kind_advert.n_fields; i++)
        placed |=
            text_starts(fault, arena_print(v->arena, "advert.%s:", kind_advert.fields[i].name));
    form_fault(h, fault && !placed ? fault
                  : fault          ? "Nothing was stored: see the line beside the field below."
                                   : NULL);
    page_form(v, NULL);
    for (int i = 1; i < kind_advert.n_fields; i++) {
        const struct field *d = &kind_advert.fields[i];
        const char *typed = pairs_get(&v->request->form, d->name);
        bool wrong = fault && text_starts(fault, arena_print(v->arena, "advert.%s:", d->name));
        form_write(h, &(struct form_field){.name = d->name,
                                           .label = d->name,
                                           .declared = d,
                                           .value = typed ? typed : record_text(r, d->name, NULL),
                                           .fault = wrong ? fault : NULL});
    }
    form_button(h, "Store it");
    html_close(h, "form");
    if (vehicle_owned(vehicle) != OWNED_YES) {
        html_leaf(h, "h2", NULL, "Bought?");
        page_form(v, NULL);
        html_open(h, "button");
        html_attr(h, "name", "bought");
        html_attr(h, "value", "yes");
        html_text(h, "It is mine now");
        html_close(h, "button");
        html_close(h, "form");
    }
    return page_end(v);
}

bool page_advert(struct visit *v, struct fail *f)
{
    struct record *vehicle, *r;
    return visit_vehicle(v, &vehicle, f) && latest(v, vehicle, &r, f) &&
           write_page(v, vehicle, r, NULL);
}

static bool set_all(struct visit *v, const struct record *vehicle, struct record *r, struct fail *f)
{
    if (!record_set(v->arena, r, "vehicle", vehicle->id, NULL, f)) return false;
    for (int i = 1; i < kind_advert.n_fields; i++) {
        const char *typed = pairs_get(&v->request->form, kind_advert.fields[i].name);
        if (typed && !record_set(v->arena, r, kind_advert.fields[i].name, typed,
                                 currency_usual(v->arena, v->garage), f))
            return false;
    }
    return record_valid(r, f);
}

static bool store(struct visit *v, struct record *r, struct fail *f)
{
    if (!garage_begin(v->garage, f)) return false;
    if ((*r->id ? garage_change : garage_add)(v->garage, r, f) && garage_commit(v->garage, f))
        return true;
    garage_rollback(v->garage);
    return false;
}

bool page_advert_take(struct visit *v, struct fail *f)
{
    struct record *vehicle, *r;
    struct fail why = {0};
    if (!visit_garage(v, GARAGE_WRITE, f) || !visit_vehicle(v, &vehicle, f) ||
        !latest(v, vehicle, &r, f))
        return false;
    if (text_is(pairs_get(&v->request->form, "bought"), "yes")) {
        if (!record_set(v->arena, vehicle, "owned", "yes", NULL, f) || !store(v, vehicle, f))
            return false;
        return visit_go(v, page_of_vehicle(v->arena, vehicle, "plan"));
    }
    if (set_all(v, vehicle, r, &why) && store(v, r, &why))
        return visit_go(v, page_of_vehicle(v->arena, vehicle, "view"));
    if (why.kind != FAIL_INPUT) {
        *f = why;
        return false;
    }
    v->response->status = 422;
    return write_page(v, vehicle, r, why.text);
}
