/* /vehicle/ID/survey/PLACE: one stop of the lap, told with the thumb. Every component is a row of
 * tiles, what is there several times one row for all of it, and the rest of a part of the place is
 * told by one tap. Nothing is sent before the button at the bottom, which leads on to the next
 * stop.
 *
 * A field is named COMPONENT~N; N is the condition that stood on the page when it was made, so that
 * what somebody else told meanwhile is never written over unseen. "all.KIND" stands for those of
 * the row that were left alone, "rest.PLACE" for all that nobody has looked at. */
#include "face/show/finding.h"
#include "face/show/show_survey.h"
#include "face/web/form.h"
#include "face/web/page_frame.h"
#include "face/web/page_survey.h"

#include <string.h>

static const char *condition_words(enum condition c)
{
    return c == COND_UNSEEN ? "cannot see" : condition_name(c);
}

/* What was typed into the field of a component, whatever stood there; NULL: nothing was sent. */
static const struct pair *typed_for(const struct visit *v, const char *component)
{
    const struct pairs *form = &v->request->form;
    const size_t n = strlen(component);
    for (int i = 0; i < form->count; i++)
        if (strncmp(form->items[i].name, component, n) == 0 && form->items[i].name[n] == '~')
            return &form->items[i];
    return NULL;
}

/* ---- the page ---- */

static void write_wrong(struct html *h, const char *value)
{
    enum condition ignored;
    if (!value || !*value || condition_parse(value, &ignored)) return;
    html_open(h, "p");
    html_attr(h, "class", "wrong");
    html_print(h, "there is no condition '%s'; choose one of these", value);
    html_close(h, "p");
}

/* Eight tiles; `last` is what the one after the conditions says. */
static void write_tiles(struct html *h, const char *name, const char *chosen, const char *last)
{
    html_open(h, "div");
    html_attr(h, "class", "eight");
    for (int c = 0; c < COND_ANSWERS; c++) {
        const char *value = condition_name((enum condition)c);
        html_open(h, "label");
        html_open(h, "input");
        html_attr(h, "type", "radio");
        html_attr(h, "name", name);
        html_attr(h, "value", value);
        html_flag(h, "checked", text_is(chosen, value));
        html_text(h, c == COND_UNSEEN ? last : value);
        html_close(h, "label");
    }
    html_close(h, "div");
}

static const char *name_of(struct visit *v, const struct lap_cell *cell)
{
    return arena_print(v->arena, "%s~%d", cell->id, (int)cell->now);
}

/* A list for one of several; left alone it follows the tiles above it. */
static void write_one(struct visit *v, const struct lap_cell *cell)
{
    struct html *h = &v->html;
    const struct pair *typed = typed_for(v, cell->id);
    const char *chosen = typed                     ? typed->value
                         : cell->now < COND_UNSEEN ? condition_name(cell->now)
                                                   : "";
    html_open(h, "label");
    html_text(h, cell->place->head.name);
    html_open(h, "select");
    html_attr(h, "name", name_of(v, cell));
    if (cell->now == COND_UNSEEN) html_leaf(h, "option", NULL, "");
    for (int c = 0; c < COND_ANSWERS; c++) {
        const char *value = condition_name((enum condition)c),
                   *words = condition_words((enum condition)c);
        html_open(h, "option");
        if (words != value) html_attr(h, "value", value);
        html_flag(h, "selected", text_is(chosen, value));
        html_text(h, words);
        html_close(h, "option");
    }
    html_close(h, "select");
    write_wrong(h, typed ? typed->value : NULL);
    html_close(h, "label");
}

static const char *all_words(struct arena *a, const struct lap_row *row)
{
    if (row->unseen == 1) return "the one not seen yet";
    if (row->unseen < row->n_cells) return arena_print(a, "the other %d, alike", row->unseen);
    return row->n_cells == 2 ? "both alike" : arena_print(a, "all %d alike", row->n_cells);
}

static void write_row(struct visit *v, const struct lap_row *row)
{
    struct html *h = &v->html;
    html_open(h, "fieldset");
    html_attr_print(h, "id", "r-%s", row->kind->head.id);
    html_leaf(h, "legend", NULL, row->kind->head.name);
    if (row->unseen > 0 && row->kind->seen_by) html_leaf(h, "p", "help", row->kind->seen_by);
    if (row->n_cells == 1) {
        const struct lap_cell *cell = row->cells;
        const struct pair *typed = typed_for(v, cell->id);
        const char *chosen = typed                     ? typed->value
                             : cell->now < COND_UNSEEN ? condition_name(cell->now)
                                                       : "";
        write_tiles(h, name_of(v, cell), chosen, "cannot see");
        write_wrong(h, typed ? typed->value : NULL);
    } else {
        const char *all = arena_print(v->arena, "all.%s", row->kind->head.id);
        if (row->unseen > 0) {
            const char *chosen = pairs_get(&v->request->form, all);
            html_leaf(h, "p", "alike", all_words(v->arena, row));
            write_tiles(h, all, chosen, "cannot see");
            write_wrong(h, chosen);
        }
        html_open(h, "div");
        html_attr(h, "class", "ones");
        for (int i = 0; i < row->n_cells; i++) write_one(v, &row->cells[i]);
        html_close(h, "div");
    }
    html_close(h, "fieldset");
    html_text(h, "\n");
}

static void write_part(struct visit *v, const struct lap_part *part)
{
    struct html *h = &v->html;
    const char *id = part->place->head.id, *rest = arena_print(v->arena, "rest.%s", id);
    html_open(h, "h2");
    html_attr_print(h, "id", "at-%s", id);
    html_text(h, part->place->head.name);
    html_close(h, "h2");
    for (int i = 0; i < part->n_rows; i++) write_row(v, &part->rows[i]);
    if (part->unseen < 2) return;
    const char *chosen = pairs_get(&v->request->form, rest);
    html_open(h, "fieldset");
    html_attr(h, "class", "rest");
    html_leaf(h, "legend", NULL,
              arena_print(v->arena, "The rest here, alike: %s", part->place->head.name));
    write_tiles(h, rest, chosen, "leave it");
    write_wrong(h, chosen);
    html_close(h, "fieldset");
}

static void write_way(struct html *h, const char *class_name, const struct lap_stop *to,
                      const char *words, bool named)
{
    html_open(h, "button");
    html_attr(h, "class", class_name);
    html_attr(h, "name", "to");
    html_attr(h, "value", to ? to->place->head.id : "");
    html_print(h, "%s%s", words, !named ? "" : to ? to->place->head.name : "all places");
    html_close(h, "button");
}

/* In reach of the thumb, and in the order in which a keyboard sends a form: on comes first. */
static void write_bar(struct html *h, const struct lap *lap, const struct lap_stop *stop)
{
    const int at = (int)(stop - lap->stops);
    html_open(h, "div");
    html_attr(h, "class", "bar");
    write_way(h, "main", at + 1 < lap->n_stops ? &lap->stops[at + 1] : NULL, "Store, then: ", true);
    write_way(h, NULL, at > 0 ? &lap->stops[at - 1] : NULL, "← back", false);
    html_close(h, "div");
}

static bool write_page(struct visit *v, const struct record *vehicle, const struct lap *lap,
                       const struct lap_stop *stop, const char *whole)
{
    const char *title = stop->place->head.name;
    struct html *h = page_begin(v, title, vehicle, "survey");
    html_leaf(h, "h1", NULL, title);
    survey_write_stored(v);
    form_fault(h, whole);
    html_open(h, "p");
    html_print(h,
               "%d of %d seen. Tap what you see, then how the rest is; leave what you cannot see.",
               stop->seen, stop->total);
    html_close(h, "p");
    render_html_caution(h, survey_caution, survey_defer);
    page_form(v, "lap");
    for (int i = 0; i < stop->n_parts; i++) write_part(v, &stop->parts[i]);
    write_bar(h, lap, stop);
    html_close(h, "form");
    return page_end(v);
}

/* ---- what was told ---- */

struct telling {
    struct visit *v;
    struct finding_told *told;
    int count;
    bool wrong; /* a value that is no condition */
};

/* value: "" or NULL for nothing said. */
static void take(struct telling *x, const char *component, int was, const char *value)
{
    enum condition said;
    if (!value || !*value) return;
    if (!condition_parse(value, &said))
        x->wrong = true;
    else if ((int)said != was)
        x->told[x->count++] =
            (struct finding_told){.component = component, .was = (enum condition)was, .said = said};
}

/* The condition in a field's name, or -1 for a name that is no component's. */
static int was_of(const char *name)
{
    const char *tilde = strrchr(name, '~');
    if (!tilde || tilde == name || tilde[1] < '0' || tilde[1] >= '0' + COND_ANSWERS || tilde[2])
        return -1;
    return tilde[1] - '0';
}

/* Each by itself: also what stands no longer on this vehicle, for a fact is never refused. */
static void take_singles(struct telling *x)
{
    const struct pairs *form = &x->v->request->form;
    for (int i = 0; i < form->count; i++) {
        const char *name = form->items[i].name;
        int was = was_of(name);
        if (was < 0) continue;
        take(x, arena_copy_n(x->v->arena, name, (size_t)(strrchr(name, '~') - name)), was,
             form->items[i].value);
    }
}

static void take_alike(struct telling *x, const struct lap_part *part)
{
    const struct pairs *form = &x->v->request->form;
    const char *rest = pairs_get(form, arena_print(x->v->arena, "rest.%s", part->place->head.id));
    for (int r = 0; r < part->n_rows; r++) {
        const struct lap_row *row = &part->rows[r];
        const char *all = pairs_get(form, arena_print(x->v->arena, "all.%s", row->kind->head.id));
        for (int c = 0; c < row->n_cells; c++) {
            const struct lap_cell *cell = &row->cells[c];
            const struct pair *typed = typed_for(x->v, cell->id);
            if (typed && *typed->value) continue; /* told by itself */
            if (typed && all && *all)
                take(x, cell->id, COND_UNSEEN, all);
            else if (cell->now == COND_UNSEEN) /* the rest never touches what anyone saw */
                take(x, cell->id, COND_UNSEEN, rest);
        }
    }
}

/* "damper, front left corner". */
static const char *words_of(struct arena *a, const struct lap *lap, const char *component)
{
    const struct lap_row *row;
    if (!lap_where(lap, component, &row)) return component;
    for (int i = 0; i < row->n_cells; i++)
        if (text_is(row->cells[i].id, component))
            return arena_print(a, "%s, %s", row->kind->head.name, row->cells[i].place->head.name);
    return component;
}

/* Both are shown, and whoever stands at the vehicle chooses. */
static bool write_crossed(struct visit *v, const struct record *vehicle, const struct lap *lap,
                          const struct telling *x, int stored, const char *to)
{
    struct html *h = page_begin(v, "Told twice", vehicle, "survey");
    html_leaf(h, "h1", NULL, "Told twice");
    html_open(h, "p");
    html_attr(h, "role", "alert");
    html_print(h,
               "%d stored. Since your page was loaded somebody else told something different of "
               "what is below; nothing is written over. Look once more and choose.",
               stored);
    html_close(h, "p");
    page_form(v, "lap");
    for (int i = 0; i < x->count; i++) {
        const struct finding_told *told = &x->told[i];
        if (!told->crossed) continue;
        const struct {
            const char *whose;
            enum condition condition;
        } both[] = {{"told meanwhile", told->now}, {"told by you", told->said}};
        html_open(h, "fieldset");
        html_leaf(h, "legend", NULL, words_of(v->arena, lap, told->component));
        html_open(h, "div");
        html_attr(h, "class", "tiles");
        for (int k = 0; k < 2; k++) {
            html_open(h, "label");
            html_open(h, "input");
            html_attr(h, "type", "radio");
            html_attr_print(h, "name", "%s~%d", told->component, (int)told->now);
            html_attr(h, "value", condition_name(both[k].condition));
            html_flag(h, "required", true);
            html_print(h, "%s (%s)", condition_words(both[k].condition), both[k].whose);
            html_close(h, "label");
        }
        html_close(h, "div");
        html_close(h, "fieldset");
    }
    form_hidden(h, "to", to);
    form_button(h, "Store what I chose");
    html_close(h, "form");
    v->response->status = 409;
    return page_end(v);
}

/* ---- requests ---- */

static bool find_stop(struct visit *v, struct record **vehicle, const struct trade **t,
                      struct lap *lap, const struct lap_stop **stop, struct fail *f)
{
    if (!visit_vehicle(v, vehicle, f) || !visit_trade(v, t, f) ||
        !survey_lap(v, (*vehicle)->id, lap, f))
        return false;
    *stop = lap_find(lap, v->piece[1]);
    return *stop ||
           visit_fail(v, 404, f, "there is no such place on this vehicle; begin at its survey");
}

bool page_lap(struct visit *v, struct fail *f)
{
    struct record *vehicle;
    const struct trade *t;
    struct lap lap;
    const struct lap_stop *stop;
    return find_stop(v, &vehicle, &t, &lap, &stop, f) && write_page(v, vehicle, &lap, stop, NULL);
}

bool page_lap_tell(struct visit *v, struct fail *f)
{
    struct record *vehicle;
    const struct trade *t;
    struct lap lap;
    const struct lap_stop *stop;
    struct fail why = {0};
    int stored, crossed;
    if (!visit_garage(v, GARAGE_WRITE, f) || !find_stop(v, &vehicle, &t, &lap, &stop, f))
        return false;
    const char *to = pairs_get(&v->request->form, "to");
    struct telling x = {.v = v};
    x.told = ARENA_ARRAY(v->arena, struct finding_told, REQUEST_PAIRS_MOST + stop->total);
    take_singles(&x);
    for (int i = 0; i < stop->n_parts; i++) take_alike(&x, &stop->parts[i]);
    if (!x.wrong && finding_tell_all(v->arena, v->garage, t, vehicle->id, v->today, x.told, x.count,
                                     &stored, &crossed, &why)) {
        if (crossed > 0) return write_crossed(v, vehicle, &lap, &x, stored, to ? to : "");
        const char *place =
            to && lap_find(&lap, to) ? arena_print(v->arena, "survey/%s", to) : "survey";
        return visit_go(v, arena_print(v->arena, "%s?stored=%d",
                                       page_of_vehicle(v->arena, vehicle, place), stored));
    }
    if (!x.wrong && why.kind != FAIL_INPUT) {
        *f = why;
        return false;
    }
    v->response->status = 422;
    return write_page(v, vehicle, &lap, stop,
                      x.wrong ? "Nothing was stored: see the line beside the field below."
                              : why.text);
}
