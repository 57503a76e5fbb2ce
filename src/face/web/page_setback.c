/* /vehicle/ID/setback: something broke in the middle of a job, or might: what it is, four taps,
 * then one next step; and what came of it. */
#include "face/show/setback_keep.h"
#include "face/show/show_setback.h"
#include "face/web/form.h"
#include "face/web/page_frame.h"
#include "face/web/reckoner.h"
#include "garage/kinds.h"

#include <stdlib.h>
#include <string.h>

enum { WORDS_MOST = 8 };

/* The words of a form or an address, and the setback that they are of. */
struct typed {
    const char *what;
    struct setback_word words[WORDS_MOST];
    int n;
};

static struct typed typed_of(const struct pairs *p)
{
    static const char *const names[] = {"is", "in", "hole", "drill", "thread", "job", "note", NULL};
    struct typed t = {.what = pairs_get(p, "what")};
    for (int i = 0; names[i]; i++) {
        const char *value = pairs_get(p, names[i]);
        if (value && *value) t.words[t.n++] = (struct setback_word){names[i], value};
    }
    if (t.what && !*t.what) t.what = NULL;
    return t;
}

static const char *word_of(const struct typed *t, const char *name)
{
    for (int i = 0; i < t->n; i++)
        if (text_is(t->words[i].field, name)) return t->words[i].value;
    return "";
}

/* ---- which it is ---- */

static int by_name(const void *a, const void *b)
{
    const struct form_choice *x = a, *y = b;
    const int group = strcmp(x->group, y->group);
    return group ? group : strcmp(x->text, y->text);
}

static void write_which(struct visit *v, const struct trade *t)
{
    static const struct field declared = {
        .name = "what", .type = FIELD_TEXT, .required = true, .help = "The nearest that there is"};
    static const struct {
        const char *id, *words;
    } first[] = {{"tight-fastener", "It is tight, not yet snapped"},
                 {"snapped-stud", "It snapped"}};
    struct html *h = &v->html;
    html_leaf(h, "h2", NULL, "What is it?");
    html_open(h, "p");
    html_attr(h, "class", "actions");
    for (size_t i = 0; i < sizeof first / sizeof *first; i++) {
        if (trade_find_setback(t, first[i].id) < 0) continue;
        html_open(h, "a");
        html_attr(h, "class", "button");
        html_url(h, "href", arena_print(v->arena, "?what=%s", first[i].id));
        html_text(h, first[i].words);
        html_close(h, "a");
    }
    html_close(h, "p");
    struct form_choice *choices = ARENA_ARRAY(v->arena, struct form_choice, t->n_setbacks + 1);
    for (int i = 0; i < t->n_setbacks; i++)
        choices[i] =
            (struct form_choice){t->setbacks[i].head.id, t->setbacks[i].head.name,
                                 t->systems[t->jobs[t->setbacks[i].at[0].job].system].head.name};
    qsort(choices, (size_t)t->n_setbacks, sizeof *choices, by_name);
    choices[t->n_setbacks] = (struct form_choice){NULL, NULL, NULL};
    html_open(h, "form");
    html_attr(h, "method", "get");
    form_write(h, &(struct form_field){.name = "what",
                                       .label = "Something else",
                                       .declared = &declared,
                                       .value = pairs_get(&v->request->query, "what"),
                                       .choices = choices});
    form_button(h, "Go on");
    html_close(h, "form");
}

/* ---- four taps ---- */

static void write_tap(struct visit *v, enum broken b, const char *question, const char *told)
{
    struct html *h = &v->html;
    html_open(h, "fieldset");
    html_leaf(h, "legend", NULL, question);
    html_open(h, "div");
    html_attr(h, "class", "tiles");
    for (int i = -1; i < 0 || broken_value(b, i); i++) {
        const char *value = i < 0 ? "" : broken_value(b, i);
        html_open(h, "label");
        html_open(h, "input");
        html_attr(h, "type", "radio");
        html_attr(h, "name", broken_name(b));
        html_attr(h, "value", value);
        html_flag(h, "checked", text_is(value, told));
        html_text(h, " ");
        html_text(h, i < 0 ? "don't know" : value);
        html_close(h, "label");
    }
    html_close(h, "div");
    html_close(h, "fieldset");
}

static void write_taps(struct visit *v, const struct setback *x, const struct typed *typed)
{
    static const char *const questions[BROKEN_COUNT] = {"How does it stand to the face?",
                                                        "What does it sit in?", "What hole?",
                                                        "Does a drill reach it?"};
    static const struct field thread = {.name = "thread",
                                        .type = FIELD_TEXT,
                                        .help = "M8x1.25, 3/8-16 UNC; left empty if not known"};
    static const struct field job = {.name = "job", .type = FIELD_TEXT, .help = "In which job"};
    struct html *h = &v->html;
    const struct trade *t = x->trade;
    struct form_choice *jobs = ARENA_ARRAY(v->arena, struct form_choice, x->setback->n_at + 1);
    for (int i = 0; i < x->setback->n_at; i++)
        jobs[i] = (struct form_choice){t->jobs[x->setback->at[i].job].head.id,
                                       t->jobs[x->setback->at[i].job].head.name, NULL};
    jobs[x->setback->n_at] = (struct form_choice){NULL, NULL, NULL};
    html_open(h, "form");
    html_attr(h, "method", "get");
    form_hidden(h, "what", x->setback->head.id);
    for (int b = 0; b < BROKEN_COUNT; b++)
        if (x->asks[b])
            write_tap(v, (enum broken)b, questions[b],
                      x->said.is[b] >= 0 ? broken_value((enum broken)b, x->said.is[b])
                                         : word_of(typed, broken_name((enum broken)b)));
    if (x->setback->fastener)
        form_write(h, &(struct form_field){.name = "thread",
                                           .label = "Its thread",
                                           .declared = &thread,
                                           .value = x->said.thread});
    form_write(h, &(struct form_field){.name = "job",
                                       .label = "The job",
                                       .declared = &job,
                                       .value = x->job->head.id,
                                       .choices = jobs});
    form_button(h, "Show the next step");
    html_close(h, "form");
}

/* ---- what came of it ---- */

static void write_outcome(struct visit *v, const struct setback *x)
{
    struct html *h = &v->html;
    if (x->said.state != SETBACK_OPEN || x->best < 0) return;
    page_form(v, NULL);
    form_hidden(h, "id", x->said.id);
    form_hidden(h, "step", setback_step_word(v->arena, x->setback, x->best));
    html_leaf(h, "p", NULL, "When the next step is done: what came of it?");
    html_open(h, "div");
    html_attr(h, "class", "actions");
    form_act(h, "cured", "Cured", "main");
    if (x->best < x->n_steps - 1) {
        form_act(h, "same", "No change", NULL);
        form_act(h, "worse", "Worse", NULL);
    }
    form_act(h, "stopped", "It stays as it is", NULL);
    html_close(h, "div");
    html_close(h, "form");
}

static void write_answer(struct visit *v, const struct record *vehicle, const struct setback *x,
                         bool stored)
{
    struct sheet *s = show_setback(v->arena, x, stored);
    s->title = x->setback->head.name;
    html_open(&v->html, "div");
    html_attr(&v->html, "class", "said");
    if (stored) write_outcome(v, x);
    render_html_sheet(&v->html, s, page_links_of(vehicle));
    html_close(&v->html, "div");
}

static void write_store(struct visit *v, const struct typed *typed)
{
    struct html *h = &v->html;
    page_form(v, NULL);
    form_hidden(h, "what", typed->what);
    for (int i = 0; i < typed->n; i++) form_hidden(h, typed->words[i].field, typed->words[i].value);
    html_open(h, "div");
    html_attr(h, "class", "actions");
    form_act(h, "store", "It is so: put it on the plan", "main");
    html_close(h, "div");
    html_close(h, "form");
}

static void write_open(struct visit *v, const struct record *vehicle, const struct fact_setback *x,
                       const struct trade *t)
{
    struct html *h = &v->html;
    html_open(h, "li");
    html_open(h, "a");
    html_url(h, "href",
             arena_print(v->arena, "%s?what=%s&job=%s",
                         page_of_vehicle(v->arena, vehicle, "setback"),
                         t->setbacks[x->setback].head.id, t->jobs[x->job].head.id));
    html_text(h, t->setbacks[x->setback].head.name);
    html_close(h, "a");
    html_text(h, arena_print(v->arena, ", in %s", t->jobs[x->job].head.name));
    html_close(h, "li");
}

/* answered: what to show of the one in hand, or NULL. */
static bool write_page(struct visit *v, const struct record *vehicle, const struct shop_ask *ask,
                       const struct typed *typed, const struct setback *answered, bool stored,
                       const char *fault, struct fail *f)
{
    struct fact_setback *open;
    int n;
    if (!setback_open(v->arena, ask, &open, &n, f)) return false;
    struct html *h = page_begin(v, "Setback", vehicle, "setback");
    html_leaf(h, "h1", NULL, "Setback");
    form_fault(h, fault);
    if (answered) {
        if (!stored) write_taps(v, answered, typed);
        if (!stored) write_store(v, typed);
        write_answer(v, vehicle, answered, stored);
        if (stored && answered->said.state == SETBACK_OPEN) {
            html_leaf(h, "h2", NULL, "Is it otherwise?");
            write_taps(v, answered, typed);
        }
    }
    if (n > 0) {
        html_leaf(h, "h2", NULL, "Open now");
        html_open(h, "ul");
        for (int i = 0; i < n; i++) write_open(v, vehicle, &open[i], ask->trade);
        html_close(h, "ul");
    }
    write_which(v, ask->trade);
    return page_end(v);
}

static bool begin(struct visit *v, enum garage_mode mode, struct record **vehicle,
                  struct shop_ask *ask, struct fail *f)
{
    struct answer_trade ignored;
    return visit_garage(v, mode, f) && visit_vehicle(v, vehicle, f) &&
           visit_shop_ask(v, (*vehicle)->id, ask, &ignored, f);
}

/* One that is stored as it was said is shown with what came of it; any other is a question. */
static bool look(struct visit *v, const struct shop_ask *ask, const struct typed *typed,
                 struct setback *x, bool *stored, struct fail *f)
{
    struct record *r;
    struct fact_setback fact, *open;
    int n;
    *stored = false;
    if (!setback_say(v->arena, ask, typed->what, typed->words, typed->n, &r, &fact, f) ||
        !setback_open(v->arena, ask, &open, &n, f))
        return false;
    for (int i = 0; i < n; i++)
        *stored |= r->id[0] && text_is(open[i].id, r->id) &&
                   memcmp(open[i].is, fact.is, sizeof fact.is) == 0 &&
                   (open[i].thread == fact.thread || text_is(open[i].thread, fact.thread));
    reckoner_turn_begin(v->site->reckoner);
    const bool good = setback_reckon(v->arena, ask, &fact, NULL, true, x, f);
    reckoner_turn_end(v->site->reckoner);
    return good;
}

static bool tell_fault(struct visit *v, const struct record *vehicle, const struct shop_ask *ask,
                       const struct typed *typed, const struct fail *why, struct fail *f)
{
    if (why->kind != FAIL_INPUT) {
        *f = *why;
        return false;
    }
    v->response->status = 422;
    return write_page(v, vehicle, ask, typed, NULL, false, why->text, f);
}

bool page_setback(struct visit *v, struct fail *f)
{
    const struct typed typed = typed_of(&v->request->query);
    struct record *vehicle;
    struct shop_ask ask;
    struct setback x;
    struct fail why = {0};
    bool stored;
    if (!begin(v, GARAGE_READ, &vehicle, &ask, f)) return false;
    if (!typed.what) return write_page(v, vehicle, &ask, &typed, NULL, false, NULL, f);
    if (!look(v, &ask, &typed, &x, &stored, &why))
        return tell_fault(v, vehicle, &ask, &typed, &why, f);
    return write_page(v, vehicle, &ask, &typed, &x, stored, NULL, f);
}

bool page_setback_tell(struct visit *v, struct fail *f)
{
    const struct pairs *form = &v->request->form;
    const struct typed typed = typed_of(form);
    const char *act = pairs_get(form, "act");
    struct record *vehicle;
    struct shop_ask ask;
    struct setback x;
    struct fail why = {0};
    if (!begin(v, GARAGE_WRITE, &vehicle, &ask, f)) return false;
    reckoner_turn_begin(v->site->reckoner);
    const bool good = !act || text_is(act, "store")
                          ? setback_tell(v->arena, &ask, typed.what ? typed.what : "", typed.words,
                                         typed.n, &x, &why)
                          : setback_outcome(v->arena, &ask, act, pairs_get(form, "step"),
                                            pairs_get(form, "id"), &x, &why);
    reckoner_turn_end(v->site->reckoner);
    if (!good) return tell_fault(v, vehicle, &ask, &typed, &why, f);
    return write_page(v, vehicle, &ask, &typed, &x, true, NULL, f);
}
