/* /vehicle/ID/survey: the places of the lap, how much is seen at each, where a look is worth most;
 * and one finding by name. /vehicle/ID/survey/everything: all of it as one table. */
#include "face/web/page_survey.h"

#include "face/show/finding.h"
#include "face/show/show_survey.h"
#include "face/web/form.h"
#include "face/web/page_frame.h"

#include <string.h>

static const char *const asked[] = {"component", "condition",
                                    "note"}; /* fields of a finding that are asked here */
enum { ASKED = sizeof asked / sizeof *asked, LOOKS_SHOWN = 5, STORED_MOST = 10000 };

/* Where a look is worth most, best first; the ids live in the arena. */
static const char **looks_of(struct visit *v, const char *vehicle, int *count)
{
    struct told choose;
    size_t i;
    json_t *look;
    *count = 0;
    if (!visit_kept(v, QUESTION_CHOOSE, vehicle, &choose, NULL)) return NULL;
    const json_t *next = json_object_get(choose.json, "look_next");
    const char **ids = ARENA_ARRAY(v->arena, const char *, json_array_size(next));
    json_array_foreach(next, i, look)
    {
        const char *id = json_string_value(json_object_get(look, "component"));
        if (id) ids[(*count)++] = arena_copy(v->arena, id); /* else it is a clue */
    }
    json_decref(choose.json);
    return ids;
}

bool survey_lap(struct visit *v, const char *vehicle, struct lap *out, struct fail *f)
{
    const struct trade *t;
    int n;
    const char **looks = looks_of(v, vehicle, &n);
    return visit_trade(v, &t, f) && lap_read(v->arena, v->garage, t, vehicle, looks, n, out, f);
}

void survey_write_stored(struct visit *v)
{
    const char *text = pairs_get(&v->request->query, "stored");
    int64_t n;
    if (!text || !text_to_int(text, &n) || n < 0 || n > STORED_MOST) return;
    html_open(&v->html, "p");
    html_attr(&v->html, "role", "status");
    render_html_toned(&v->html, arena_print(v->arena, "%d stored.", (int)n),
                      n > 0 ? TONE_GOOD : TONE_PLAIN);
    html_close(&v->html, "p");
}

static const char *address_of(struct visit *v, const struct record *vehicle,
                              const struct lap_stop *stop)
{
    return page_of_vehicle(v->arena, vehicle,
                           arena_print(v->arena, "survey/%s", stop->place->head.id));
}

static void write_way(struct html *h, const char *address, const char *text)
{
    html_open(h, "p");
    html_attr(h, "class", "onward");
    html_open(h, "a");
    html_url(h, "href", address);
    html_text(h, text);
    html_close(h, "a");
    html_close(h, "p");
}

static void write_stops(struct visit *v, const struct record *vehicle, const struct lap *lap)
{
    struct html *h = &v->html;
    html_open(h, "ul");
    html_attr(h, "class", "stops");
    for (int i = 0; i < lap->n_stops; i++) {
        const struct lap_stop *stop = &lap->stops[i];
        html_open(h, "li");
        html_open(h, "a");
        html_url(h, "href", address_of(v, vehicle, stop));
        html_leaf(h, "b", NULL, stop->place->head.name);
        html_open(h, "span");
        if (stop->seen == stop->total)
            render_html_toned(h, arena_print(v->arena, "all %d seen", stop->total), TONE_GOOD);
        else
            html_print(h, "%d of %d seen", stop->seen, stop->total);
        if (stop->bad > 0) html_print(h, ", %d poor or worse", stop->bad);
        html_close(h, "span");
        html_close(h, "a");
        html_close(h, "li");
    }
    html_close(h, "ul");
}

/* The first few that nobody has looked at since. */
static void write_looks(struct visit *v, const struct record *vehicle, const struct lap *lap)
{
    struct html *h = &v->html;
    int n, shown = 0;
    const char **looks = looks_of(v, vehicle->id, &n);
    const struct lap_row *before[LOOKS_SHOWN];
    for (int i = 0; i < n && shown < LOOKS_SHOWN; i++) {
        const struct lap_row *row;
        const struct lap_stop *stop = lap_where(lap, looks[i], &row);
        bool again = !stop || row->unseen == 0; /* the other side of a row is the same look */
        for (int k = 0; k < shown; k++) again |= before[k] == row;
        if (again) continue;
        before[shown] = row;
        if (shown++ == 0) {
            html_leaf(h, "h2", NULL, "A look tells most here");
            html_open(h, "ul");
            html_attr(h, "class", "stops");
        }
        html_open(h, "li");
        html_open(h, "a");
        html_url(
            h, "href",
            arena_print(v->arena, "%s#r-%s", address_of(v, vehicle, stop), row->kind->head.id));
        html_leaf(h, "b", NULL, row->kind->head.name);
        html_leaf(h, "span", NULL, stop->place->head.name);
        html_close(h, "a");
        html_close(h, "li");
    }
    if (shown > 0) html_close(h, "ul");
}

static void write_by_name(struct visit *v, const char *const typed[ASKED],
                          const char *const fault[ASKED])
{
    const struct record_kind *k = record_kind_find("finding");
    struct html *h = &v->html;
    html_open(h, "h2");
    html_attr(h, "id", "tell");
    html_text(h, "One by name, with a note");
    html_close(h, "h2");
    page_form(v, NULL);
    for (int i = 0; i < ASKED; i++) {
        const struct field *declared = &k->fields[record_field(k, asked[i])];
        form_write(h, &(struct form_field){.name = asked[i],
                                           .label = asked[i],
                                           .declared = declared,
                                           .value = typed[i],
                                           .fault = fault[i]});
    }
    form_button(h, "Tell it");
    html_close(h, "form");
}

static bool write_page(struct visit *v, const char *const typed[ASKED],
                       const char *const fault[ASKED], const char *whole, struct fail *f)
{
    struct record *vehicle;
    struct lap lap;
    if (!visit_vehicle(v, &vehicle, f) || !survey_lap(v, vehicle->id, &lap, f)) return false;
    const char *title = survey_title(v->arena, lap.vehicle);
    struct html *h = page_begin(v, title, vehicle, "survey");
    html_leaf(h, "h1", NULL, title);
    survey_write_stored(v);
    form_fault(h, whole);
    html_leaf(h, "p", NULL,
              arena_print(v->arena, "%d of %d components seen.", lap.seen, lap.total));
    const struct lap_stop *next = NULL;
    for (int i = lap.n_stops - 1; i >= 0; i--)
        if (lap.stops[i].seen < lap.stops[i].total) next = &lap.stops[i];
    if (next)
        write_way(h, address_of(v, vehicle, next),
                  arena_print(v->arena, "Go round: %s", next->place->head.name));
    write_way(h, page_of_vehicle(v->arena, vehicle, "photographs"),
              "Photographs: take them first, name them later");
    write_stops(v, vehicle, &lap);
    render_html_caution(h, survey_caution, survey_defer);
    write_looks(v, vehicle, &lap);
    write_by_name(v, typed, fault);
    write_way(h, page_of_vehicle(v->arena, vehicle, "survey/everything"),
              "All of it as a table, with the odds of what nobody has seen");
    return page_end(v);
}

bool page_survey(struct visit *v, struct fail *f)
{
    static const char *const nothing[ASKED] = {NULL};
    return write_page(v, nothing, nothing, NULL, f);
}

bool page_survey_everything(struct visit *v, struct fail *f)
{
    struct record *vehicle;
    struct told told;
    if (!visit_vehicle(v, &vehicle, f) || !visit_ask(v, QUESTION_SURVEY, vehicle->id, &told, f))
        return false;
    struct html *h = page_begin(v, told.sheet->title, vehicle, "survey");
    render_html_sheet(h, told.sheet, page_links_of(vehicle));
    json_decref(told.json);
    return page_end(v);
}

/* The line goes beside the field that it names. */
static int field_of(const char *line)
{
    for (int i = 1; i < ASKED; i++)
        if (text_starts(line, i == 1 ? "finding.condition" : "finding.note")) return i;
    return 0;
}

bool page_survey_tell(struct visit *v, struct fail *f)
{
    const char *typed[ASKED], *fault[ASKED] = {NULL};
    struct record *vehicle, *finding;
    const struct trade *t;
    struct fail why = {0};
    for (int i = 0; i < ASKED; i++) {
        const char *value = pairs_get(&v->request->form, asked[i]);
        typed[i] = value ? value : "";
    }
    if (!visit_garage(v, GARAGE_WRITE, f) || !visit_vehicle(v, &vehicle, f) ||
        !visit_trade(v, &t, f))
        return false;
    if (finding_tell(v->arena, v->garage, t, vehicle->id, typed[0], typed[1], typed[2], v->today,
                     &finding, &why))
        return visit_go(v, arena_print(v->arena, "%s?stored=1#tell",
                                       page_of_vehicle(v->arena, vehicle, "survey")));
    if (why.kind != FAIL_INPUT) {
        *f = why;
        return false;
    }
    fault[field_of(why.text)] = why.text;
    v->response->status = 422;
    return write_page(v, typed, fault, "Nothing was stored: see the line beside the field below.",
                      f);
}
