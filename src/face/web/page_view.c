/* /vehicle/ID/view: one that might be bought. What it may cost, then the walk, told with the thumb:
 * a row of tiles a stop, sent by the one button below, and the rest to read at home. On paper the
 * walk is a table. */
#include "face/show/finding.h"
#include "face/show/show_view.h"
#include "face/show/sign.h"
#include "face/web/form.h"
#include "face/web/page_frame.h"
#include "face/web/page_survey.h"

#include <string.h>

struct tile {
    const char *value, *words;
};

static const char *text_of(const json_t *object, const char *key)
{
    const char *s = json_string_value(json_object_get(object, key));
    return s ? s : "";
}

static void write_tiles(struct html *h, const char *name, const struct tile *tiles, int count)
{
    html_open(h, "div");
    html_attr(h, "class", "eight");
    for (int i = 0; i < count; i++) {
        html_open(h, "label");
        html_open(h, "input");
        html_attr(h, "type", "radio");
        html_attr(h, "name", name);
        html_attr(h, "value", tiles[i].value);
        html_text(h, tiles[i].words);
        html_close(h, "label");
    }
    html_close(h, "div");
}

static void write_stop(struct visit *v, int number, const json_t *stop)
{
    static const struct tile signs[] = {{"no", "not there"}, {"yes", "it is there"}};
    struct tile conditions[COND_ANSWERS];
    struct html *h = &v->html;
    const char *sign = json_string_value(json_object_get(stop, "sign"));
    for (int c = 0; c < COND_ANSWERS; c++) {
        const char *name = condition_name((enum condition)c);
        conditions[c] = (struct tile){name, c == COND_UNSEEN ? "cannot see" : name};
    }
    html_open(h, "fieldset");
    html_leaf(h, "legend", NULL, arena_print(v->arena, "%d. %s", number, text_of(stop, "name")));
    html_open(h, "p");
    html_attr(h, "class", "help");
    html_print(h, "%g min: %s", json_number_value(json_object_get(stop, "minutes")),
               text_of(stop, "seen_by"));
    html_close(h, "p");
    if (!sign && *text_of(stop, "bad_means"))
        html_leaf(h, "p", "help", arena_print(v->arena, "If bad: %s", text_of(stop, "bad_means")));
    if (sign)
        write_tiles(h, arena_print(v->arena, "sign.%s", sign), signs, 2);
    else
        write_tiles(h, arena_print(v->arena, "look.%s", text_of(stop, "component")), conditions,
                    COND_ANSWERS);
    html_close(h, "fieldset");
    html_text(h, "\n");
}

static void write_walk(struct visit *v, const json_t *json)
{
    const json_t *walk = json_object_get(json, "walk");
    struct html *h = &v->html;
    const char *place = "";
    size_t i;
    json_t *stop;
    if (json_array_size(walk) == 0) return;
    page_form(v, "lap");
    json_array_foreach(walk, i, stop)
    {
        if (!text_is(place, text_of(stop, "place_name")))
            html_leaf(h, "h3", NULL, text_of(stop, "place_name"));
        place = text_of(stop, "place_name");
        write_stop(v, (int)i + 1, stop);
    }
    html_open(h, "div");
    html_attr(h, "class", "bar");
    html_open(h, "button");
    html_attr(h, "class", "main");
    html_text(h, "Store what I saw");
    html_close(h, "button");
    html_close(h, "div");
    html_close(h, "form");
}

/* The sheet in three: before the heading of the walk, the walk as a table, what comes after it. */
static void cut(struct sheet *s, struct sheet part[3])
{
    struct sheet_node *last = NULL;
    int at = 0;
    part[0] = *s;
    part[1] = part[2] = (struct sheet){s->arena, "", NULL, NULL};
    for (struct sheet_node *n = s->first; n; last = n, n = n->next) {
        bool walk = n->kind == SHEET_HEADING && text_is(n->as.heading.text, view_walk);
        bool next = at == 1 && n->kind == SHEET_HEADING;
        if (!last || !(at == 0 ? walk : next)) continue;
        last->next = NULL;
        part[at].last = last;
        part[++at].first = n;
        part[at].last = s->last;
    }
}

static void write_onward(struct visit *v, const struct record *vehicle, const char *to,
                         const char *words)
{
    struct html *h = &v->html;
    html_open(h, "p");
    html_attr(h, "class", "onward");
    html_open(h, "a");
    html_url(h, "href", page_of_vehicle(v->arena, vehicle, to));
    html_text(h, words);
    html_close(h, "a");
    html_close(h, "p");
}

static bool write_page(struct visit *v, const struct record *vehicle, const char *whole,
                       struct fail *f)
{
    struct told told;
    struct sheet part[3];
    if (!visit_ask(v, QUESTION_VIEW, vehicle->id, &told, f)) return false;
    struct html *h = page_begin(v, told.sheet->title, vehicle, "view");
    cut(told.sheet, part);
    survey_write_stored(v);
    form_fault(h, whole);
    render_html_sheet(h, &part[0], page_links_of(vehicle));
    write_onward(v, vehicle, "advert", "The advert");
    html_open(h, "section");
    html_attr(h, "class", "told");
    html_leaf(h, "h2", NULL, view_walk);
    render_html_caution(h, view_caution, view_defer);
    write_walk(v, told.json);
    html_close(h, "section");
    html_open(h, "section");
    html_attr(h, "class", "paper");
    render_html_sheet(h, &part[1], page_links_of(vehicle));
    html_close(h, "section");
    html_open(h, "section");
    html_attr(h, "class", "later");
    render_html_sheet(h, &part[2], page_links_of(vehicle));
    html_close(h, "section");
    json_decref(told.json);
    return page_end(v);
}

bool page_view(struct visit *v, struct fail *f)
{
    struct record *vehicle;
    struct sheet_page sheet;
    if (!visit_vehicle(v, &vehicle, f) || !visit_ask_page(v, QUESTION_VIEW, vehicle, &sheet, f))
        return false;
    if (!sheet.html) return page_reckoning(v, vehicle, QUESTION_VIEW, sheet.share);
    return write_page(v, vehicle, NULL, f);
}

/* "look.COMPONENT" = condition, "sign.ID" = yes or no. Nothing is stored if one is not understood.
 */
bool page_view_tell(struct visit *v, struct fail *f)
{
    const struct pairs *form = &v->request->form;
    struct finding_told *looks = ARENA_ARRAY(v->arena, struct finding_told, REQUEST_PAIRS_MOST);
    struct sign_told *signs = ARENA_ARRAY(v->arena, struct sign_told, REQUEST_PAIRS_MOST);
    struct record *vehicle;
    const struct trade *t;
    int n_looks = 0, n_signs = 0, stored = 0, crossed = 0;
    bool wrong = false;
    struct fail why = {0};
    if (!visit_garage(v, GARAGE_WRITE, f) || !visit_vehicle(v, &vehicle, f) ||
        !visit_trade(v, &t, f))
        return false;
    for (int i = 0; i < form->count; i++) {
        const char *name = form->items[i].name, *value = form->items[i].value;
        enum condition said;
        if (text_starts(name, "sign.")) {
            if (!text_is(value, "yes") && !text_is(value, "no"))
                wrong = true;
            else
                signs[n_signs++] = (struct sign_told){name + 5, text_is(value, "yes")};
        } else if (text_starts(name, "look.")) {
            if (!condition_parse(value, &said))
                wrong = true;
            else if (said != COND_UNSEEN)
                looks[n_looks++] =
                    (struct finding_told){.component = name + 5, .was = COND_UNSEEN, .said = said};
        }
    }
    if (wrong) {
        v->response->status = 422;
        return write_page(v, vehicle, "Nothing was stored: an answer was not understood.", f);
    }
    if (!finding_tell_all(v->arena, v->garage, t, vehicle->id, v->today, looks, n_looks, &stored,
                          &crossed, &why) ||
        !sign_tell_all(v->arena, v->garage, vehicle->id, v->today, signs, n_signs, &why)) {
        if (why.kind != FAIL_INPUT) {
            *f = why;
            return false;
        }
        v->response->status = 422;
        return write_page(v, vehicle, why.text, f);
    }
    if (crossed > 0) {
        v->response->status = 409;
        return write_page(v, vehicle,
                          "Somebody else told otherwise of some of these meanwhile; theirs stands. "
                          "The survey has it.",
                          f);
    }
    return visit_go(v, arena_print(v->arena, "%s?stored=%d",
                                   page_of_vehicle(v->arena, vehicle, "view"), stored + n_signs));
}
