/* /vehicle/ID/what-if: what is said otherwise comes in the address, so that it works without script
 * and can be kept as a bookmark; "Keep this" comes as a form. */
#include "face/show/show_what_if.h"
#include "face/web/form.h"
#include "face/web/what_if_form.h"

#include <string.h>

struct asking {
    struct visit *v;
    struct record *vehicle;
    struct shop_ask ask;
    struct answer_trade trade;
    struct what_if_side as_is;
    struct what_if_typed typed;
    struct override said;
    struct what_if answer;
    struct keep keep;
    char basis[65];    /* the state of the garage that the answer is of */
    const char *whole; /* what is wrong with all of it, or NULL */
    bool answered;
};

static void take_pairs(struct asking *x, const struct pairs *pairs)
{
    for (enum what_if_key k = 0; k < WHAT_IF_KEYS; k++)
        x->typed.text[k] = pairs_get(pairs, what_if_name(k));
}

/* Within one state of the garage. What cannot be reckoned is told beside the field that it hangs
 * on.
 */
static bool reckon(struct asking *x, struct fail *f)
{
    struct visit *v = x->v;
    struct fail why = {0};
    if (!garage_basis(v->garage, x->basis, f) ||
        !answer_as_is(v->arena, &x->ask, x->trade, &x->as_is, f))
        return false;
    if (!what_if_read(v->arena, x->ask.trade, &x->as_is.with, v->today, &x->typed, &x->said))
        return true;
    x->answered = what_if_reckon(v->arena, &x->ask, &x->said, &x->as_is, &x->answer, &why) &&
                  what_if_acts(v->arena, &x->ask, &x->said, &x->keep, &why);
    if (x->answered || what_if_blame(v->arena, &why, &x->typed)) return true;
    *f = why;
    return false;
}

/* A button that sends the same once more, to be stored. */
static void write_keep(struct asking *x)
{
    struct html *h = &x->v->html;
    page_form(x->v, NULL);
    form_hidden(h, "basis", x->basis);
    for (enum what_if_key k = 0; k < WHAT_IF_KEYS; k++)
        if (x->typed.text[k]) form_hidden(h, what_if_name(k), x->typed.text[k]);
    form_button(h, "Keep this");
    html_close(h, "form");
}

static bool write_page(struct asking *x)
{
    struct visit *v = x->v;
    const char *name = record_text(x->vehicle, "name", "?");
    const char *title = arena_print(v->arena, "%s: what if", name);
    struct html *h = page_begin(v, title, x->vehicle, "plan");
    html_leaf(h, "h1", NULL, title);
    form_fault(h, x->whole);
    what_if_form_begin(h, x->vehicle, &x->as_is.with, v->today,
                       x->ask.trade->directions[x->as_is.with.direction].head.id, &x->typed,
                       !x->answered                 ? "Not reckoned: see the line beside a field."
                       : override_is_none(&x->said) ? NULL
                                                    : what_if_headline(v->arena, &x->answer));
    what_if_answer_begin(h);
    if (x->answered) {
        struct sheet *s = show_what_if(v->arena, &x->answer, &x->keep);
        s->title = "";
        render_html_sheet(h, s, page_links_of(x->vehicle));
        if (x->keep.count > 0) write_keep(x);
    }
    what_if_answer_end(h);
    page_script_tag(h, "/what-if.js");
    return page_end(v);
}

static bool begin(struct visit *v, struct asking *x, enum garage_mode mode, struct fail *f)
{
    *x = (struct asking){.v = v};
    if (!visit_garage(v, mode, f) || !visit_vehicle(v, &x->vehicle, f) ||
        !visit_shop_ask(v, x->vehicle->id, &x->ask, &x->trade, f))
        return false;
    return garage_begin(v->garage, f);
}

static bool look(struct asking *x, struct visit *v, struct fail *f)
{
    if (!begin(v, x, GARAGE_READ, f)) return false;
    take_pairs(x, &v->request->query);
    bool done = reckon(x, f);
    garage_rollback(v->garage);
    return done;
}

bool page_what_if(struct visit *v, struct fail *f)
{
    struct asking x;
    reckoner_turn_begin(v->site->reckoner);
    bool done = look(&x, v, f);
    reckoner_turn_end(v->site->reckoner);
    if (done && !x.answered) v->response->status = 422;
    return done && write_page(&x);
}

/* False with a failure; else *stored, or what is to be told on the page. */
static bool keep(struct asking *x, bool *stored, struct fail *f)
{
    struct visit *v = x->v;
    if (!reckon(x, f)) return false;
    if (!x->answered) {
        x->whole = "Nothing was stored: see the line beside the field.";
        v->response->status = 422;
    } else if (x->keep.count == 0) {
        x->whole = "Nothing was stored: nothing is said otherwise.";
        v->response->status = 422;
    } else if (!text_is(pairs_get(&v->request->form, "basis"), x->basis)) {
        x->whole = "The garage was changed elsewhere since this was reckoned; nothing was stored. "
                   "It is reckoned anew below: look it over and keep it then.";
        v->response->status = 409;
    } else {
        *stored = what_if_keep(v->garage, &x->keep, f) && garage_commit(v->garage, f);
        return *stored;
    }
    return true;
}

static bool keep_in_act(struct asking *x, struct visit *v, bool *stored, struct fail *f)
{
    if (!begin(v, x, GARAGE_WRITE, f)) return false;
    take_pairs(x, &v->request->form);
    bool done = keep(x, stored, f);
    garage_rollback(v->garage);
    return done;
}

bool page_what_if_keep(struct visit *v, struct fail *f)
{
    struct asking x;
    bool stored = false;
    reckoner_turn_begin(v->site->reckoner);
    bool done = keep_in_act(&x, v, &stored, f);
    reckoner_turn_end(v->site->reckoner);
    if (!done) return false;
    return stored ? visit_go(v, page_of_vehicle(v->arena, x.vehicle, "plan")) : write_page(&x);
}
