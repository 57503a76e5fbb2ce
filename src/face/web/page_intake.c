/* /intake: the twelve questions on one page; a vehicle that was taken in goes on to its first plan.
 */
#include "face/show/intake.h"
#include "face/web/form.h"
#include "face/web/page_frame.h"
#include "garage/kinds.h"

enum { KEYS_MOST = 32 };

struct intake_form {
    struct intake in;
    const char *typed[KEYS_MOST], *fault[KEYS_MOST]; /* by place in intake_keys */
    const char *whole;                               /* what is wrong with all of it, or NULL */
};

/* Which state of workshop and purse the form shows: of a vehicle nothing can be stale, for it is
 * new. */
static const char *state_of(struct arena *a, const struct record *r)
{
    return arena_print(a, "%s.%d", r->id, r->revision);
}

static bool write_page(struct visit *v, const struct intake_form *form)
{
    struct html *h = page_begin(v, "Take a vehicle in", NULL, "intake");
    html_leaf(h, "h1", NULL, "Take a vehicle in");
    html_leaf(
        h, "p", NULL,
        "Twelve questions. Whatever you do not know is reckoned with the usual and its spread.");
    form_fault(h, form->whole);
    page_form(v, NULL);
    form_hidden(h, "workshop-state", state_of(v->arena, form->in.workshop));
    form_hidden(h, "purse-state", state_of(v->arena, form->in.purse));
    int question = 0;
    for (int i = 0; intake_keys[i].key; i++) {
        const struct intake_key *k = &intake_keys[i];
        const struct form_field field = {
            .name = k->key,
            .label = k->ask                     ? k->ask
                     : text_is(k->key, "owned") ? "Is it yours? (no: one that you might buy)"
                                                : "Which currency?",
            .declared = intake_field(k),
            .value = form->typed[i] ? form->typed[i] : intake_answer(&form->in, k),
            .fault = form->fault[i],
            .caution = k->caution,
        };
        if (k->question > question)
            html_leaf(h, "h2", NULL,
                      arena_print(v->arena, "%d of %d", k->question, INTAKE_QUESTIONS));
        question = k->question;
        form_write(h, &field);
    }
    form_button(h, "Take it in");
    html_close(h, "form");
    return page_end(v);
}

bool page_intake(struct visit *v, struct fail *f)
{
    struct intake_form form = {0};
    return visit_garage(v, GARAGE_READ, f) && intake_begin(v->arena, v->garage, &form.in, f) &&
           write_page(v, &form);
}

/* The line goes beside the field that it names, else above the form. */
static void place_fault(struct arena *a, struct intake_form *form, const char *line)
{
    for (int i = 0; intake_keys[i].key; i++)
        if (text_starts(line,
                        arena_print(a, "%s.%s:", intake_keys[i].kind, intake_keys[i].field))) {
            form->fault[i] = arena_copy(a, line);
            return;
        }
    form->whole = arena_copy(a, line);
}

static bool take(struct visit *v, struct intake_form *form, int i)
{
    struct fail why = {0};
    const char *now = intake_answer(&form->in, &intake_keys[i]);
    form->typed[i] = pairs_get(&v->request->form, intake_keys[i].key);
    /* What was left as it stood is no act on workshop or purse. */
    if (!form->typed[i] || text_is(form->typed[i], now ? now : "") ||
        intake_set(&form->in, &intake_keys[i], form->typed[i], &why))
        return true;
    form->fault[i] = arena_copy(v->arena, why.text);
    return false;
}

static bool is_stale(struct visit *v, const struct record *r, const char *field)
{
    const char *state = pairs_get(&v->request->form, field);
    return !text_is(state, state_of(v->arena, r));
}

bool page_intake_take(struct visit *v, struct fail *f)
{
    struct intake_form form = {0};
    if (!visit_garage(v, GARAGE_WRITE, f) || !intake_begin(v->arena, v->garage, &form.in, f))
        return false;
    if (is_stale(v, form.in.workshop, "workshop-state") ||
        is_stale(v, form.in.purse, "purse-state")) {
        for (int i = 0; intake_keys[i].key; i++)
            form.typed[i] = pairs_get(&v->request->form, intake_keys[i].key);
        for (int i = 0; intake_keys[i].key; i++) {
            const char *now = intake_answer(&form.in, &intake_keys[i]);
            bool shared = !text_is(intake_keys[i].kind, "vehicle");
            if (shared && form.typed[i] && !text_is(form.typed[i], now ? now : ""))
                form.fault[i] =
                    arena_print(v->arena, "in the garage now: %s", now ? now : "not known");
        }
        form.whole = "Workshop or purse were changed elsewhere since this form was loaded; nothing "
                     "was stored. Both are "
                     "shown: look them over and send it again.";
        v->response->status = 409;
        return write_page(v, &form);
    }
    const struct intake_key *currency = intake_find("currency");
    bool good =
        take(v, &form, (int)(currency - intake_keys)); /* first: other sums are understood in it */
    for (int i = 0; intake_keys[i].key; i++)
        if (&intake_keys[i] != currency && !take(v, &form, i)) good = false;
    if (good && intake_store(&form.in, f))
        return visit_go(
            v, page_of_vehicle(v->arena, form.in.vehicle,
                               vehicle_owned(form.in.vehicle) == OWNED_NO ? "advert" : "plan"));
    if (good && f->kind != FAIL_INPUT) return false;
    if (good)
        place_fault(v->arena, &form, f->text);
    else
        form.whole = "Nothing was stored yet: see the lines beside the fields.";
    v->response->status = 422;
    return write_page(v, &form);
}
