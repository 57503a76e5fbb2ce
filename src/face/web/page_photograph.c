/* /vehicle/ID/photographs/ID: one photograph, and the form that names it; and the pictures
 * themselves, which never change and may be kept by a browser for ever. */
#include "face/show/photograph.h"
#include "face/web/form.h"
#include "face/web/page_frame.h"
#include "face/web/page_photographs.h"
#include "face/web/page_survey.h"

#include <errno.h>
#include <fcntl.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

static const char *const asked[] = {"component", "place", "note", "taken"};
static const char *const labels[] = {"What it shows", "Where", "Note", "Taken"};
enum { ASKED = sizeof asked / sizeof *asked, CHOICES_MOST = 1000 };

/* ---- what can be chosen: the components and places of this vehicle ---- */

static void add_choice(struct form_choice *list, int *n, const char *value, const char *text,
                       const char *group)
{
    for (int i = 0; i < *n; i++)
        if (text_is(list[i].value, value)) return;
    if (*n + 1 < CHOICES_MOST) list[(*n)++] = (struct form_choice){value, text, group};
}

static void collect(struct arena *a, const struct lap *lap, struct form_choice *components,
                    struct form_choice *places)
{
    int n_components = 0, n_places = 0;
    for (int s = 0; s < lap->n_stops; s++) {
        const struct lap_stop *stop = &lap->stops[s];
        add_choice(places, &n_places, stop->place->head.id, stop->place->head.name, NULL);
        for (int p = 0; p < stop->n_parts; p++)
            for (int r = 0; r < stop->parts[p].n_rows; r++) {
                const struct lap_row *row = &stop->parts[p].rows[r];
                for (int c = 0; c < row->n_cells; c++) {
                    const struct lap_cell *cell = &row->cells[c];
                    const char *name = row->kind->head.name;
                    if (row->n_cells > 1)
                        name = arena_print(a, "%s, %s", name, cell->place->head.name);
                    add_choice(components, &n_components, cell->id, name, stop->place->head.name);
                    add_choice(places, &n_places, cell->place->head.id, cell->place->head.name,
                               NULL);
                }
            }
    }
}

/* ---- the page ---- */

static bool find(struct visit *v, struct record **vehicle, struct record **r, struct fail *f)
{
    if (!visit_vehicle(v, vehicle, f)) return false;
    if (garage_find(v->garage, v->arena, record_kind_find("photograph"), v->piece[1], r, f) &&
        text_is(record_text(*r, "vehicle", ""), (*vehicle)->id))
        return true;
    *f = (struct fail){0};
    return visit_fail(v, 404, f, "there is no such photograph of this vehicle; see them all");
}

static void write_form(struct visit *v, const struct record *r, const struct lap *lap,
                       const char *const fault[ASKED])
{
    struct html *h = &v->html;
    struct form_choice *choices[ASKED] = {ARENA_ARRAY(v->arena, struct form_choice, CHOICES_MOST),
                                          ARENA_ARRAY(v->arena, struct form_choice, CHOICES_MOST)};
    collect(v->arena, lap, choices[0], choices[1]);
    page_form(v, NULL);
    const char *revision = pairs_get(&v->request->form, "revision");
    form_hidden(h, "revision", revision ? revision : arena_print(v->arena, "%d", r->revision));
    for (int i = 0; i < ASKED; i++) {
        const char *typed = pairs_get(&v->request->form, asked[i]);
        form_write(
            h, &(struct form_field){.name = asked[i],
                                    .label = labels[i],
                                    .declared = &r->kind->fields[record_field(r->kind, asked[i])],
                                    .value = typed ? typed : record_text(r, asked[i], ""),
                                    .fault = fault[i],
                                    .choices = choices[i]});
    }
    form_button(h, "Store");
    html_close(h, "form");
}

static bool write_page(struct visit *v, const struct record *vehicle, const struct record *r,
                       const char *const fault[ASKED], const char *whole, struct fail *f)
{
    struct lap lap;
    if (!survey_lap(v, vehicle->id, &lap, f)) return false;
    const char *title = arena_print(
        v->arena, "%s: %s", record_text(vehicle, "name", "vehicle"),
        photograph_is_named(r) ? record_text(r, "component", "photograph") : "what does it show?");
    struct html *h = page_begin(v, title, vehicle, "photographs");
    html_leaf(h, "h1", NULL, title);
    survey_write_stored(v);
    form_fault(h, whole);
    html_open(h, "figure");
    html_attr(h, "class", "shot");
    photograph_image(v, r, PHOTOGRAPH_COPY);
    html_open(h, "figcaption");
    html_open(h, "a");
    html_url(h, "href", arena_print(v->arena, "/photograph/%s", record_text(r, "file", "")));
    html_print(h, "As it came: %s × %s pixels", record_text(r, "width", "?"),
               record_text(r, "height", "?"));
    html_close(h, "a");
    html_close(h, "figcaption");
    html_close(h, "figure");
    write_form(v, r, &lap, fault);
    html_open(h, "p");
    html_attr(h, "class", "onward");
    html_open(h, "a");
    html_url(h, "href", page_of_vehicle(v->arena, vehicle, "photographs"));
    html_text(h, "All photographs");
    html_close(h, "a");
    html_close(h, "p");
    return page_end(v);
}

bool page_photograph(struct visit *v, struct fail *f)
{
    static const char *const nothing[ASKED] = {NULL};
    struct record *vehicle, *r;
    return find(v, &vehicle, &r, f) && write_page(v, vehicle, r, nothing, NULL, f);
}

/* On to the next one without a name, so that a walk with the camera is named in one go. */
static bool go_on(struct visit *v, const struct record *vehicle, struct fail *f)
{
    struct record *all;
    int count;
    if (!garage_list(v->garage, v->arena, record_kind_find("photograph"), vehicle->id, &all, &count,
                     f))
        return false;
    const char *to = page_of_vehicle(v->arena, vehicle, "photographs");
    for (int i = 0; i < count; i++)
        if (!photograph_is_named(&all[i])) to = photograph_address(v->arena, &all[i]);
    return visit_go(v, arena_print(v->arena, "%s?stored=1", to));
}

/* A revision that is no number is as old as can be. */
static int revision_told(const struct visit *v)
{
    const char *text = pairs_get(&v->request->form, "revision");
    int64_t n;
    return text && text_to_int(text, &n) && n > 0 && n < 1000000000 ? (int)n : 0;
}

bool page_photograph_name(struct visit *v, struct fail *f)
{
    struct record *vehicle, *r;
    const char *fault[ASKED] = {NULL};
    bool right = true;
    if (!visit_garage(v, GARAGE_WRITE, f) || !find(v, &vehicle, &r, f)) return false;
    for (int i = 0; i < ASKED; i++) {
        const char *typed = pairs_get(&v->request->form, asked[i]);
        struct fail why = {0};
        if (!typed || record_set(v->arena, r, asked[i], typed, NULL, &why)) continue;
        fault[i] = arena_copy(v->arena, why.text);
        right = false;
    }
    if (!right) {
        v->response->status = 422;
        return write_page(v, vehicle, r, fault,
                          "Nothing was stored: see the line beside the field below.", f);
    }
    struct fail why = {0};
    r->revision = revision_told(v);
    if (garage_begin(v->garage, f) && garage_change(v->garage, r, &why) &&
        garage_commit(v->garage, &why))
        return go_on(v, vehicle, f);
    garage_rollback(v->garage);
    if (why.kind != FAIL_INPUT) {
        if (why.kind != FAIL_NONE) *f = why;
        return false;
    }
    /* As it stands now above, what was typed in the form; sent again it counts. */
    if (!find(v, &vehicle, &r, f)) return false;
    v->response->status = 409;
    return write_page(v, vehicle, r, fault,
                      arena_print(v->arena,
                                  "Nothing was stored: somebody else named it meanwhile, as: %s. "
                                  "Load the page again to change that.",
                                  photograph_words(v, r)),
                      f);
}

/* ---- the pictures ---- */

/* Named by what they hold, so they are always fresh. `tag` tells copies apart. */
static bool send(struct visit *v, int fd, const char *tag, const char *type, struct fail *f)
{
    struct stat st;
    const char *quoted = arena_print(v->arena, "\"%s\"", tag);
    if (fstat(fd, &st) != 0) {
        close(fd);
        return fail_set(f, FAIL_GARAGE, "a photograph cannot be read: %s", strerror(errno));
    }
    response_header(v->response, "ETag", quoted);
    response_header(v->response, "Cache-Control", "private, max-age=31536000, immutable");
    v->response->type = type;
    if (v->request->if_none_match && strstr(v->request->if_none_match, quoted)) {
        v->response->status = 304;
        close(fd);
        return true;
    }
    v->response->file = fd;
    v->response->length = (size_t)st.st_size;
    return true;
}

static bool none(struct visit *v, struct fail *f)
{
    *f = (struct fail){0};
    return visit_fail(v, 404, f, "there is no such photograph here; see those of a vehicle");
}

bool page_photograph_original(struct visit *v, struct fail *f)
{
    unsigned char first[4] = {0};
    int fd = file_is_digest(v->piece[0])
                 ? open(file_path(v->arena, v->site->dir, v->piece[0]), O_RDONLY | O_CLOEXEC)
                 : -1;
    if (fd < 0) return none(v, f);
    /* By its bytes, for the store may come to hold other files too. */
    const bool read_well = pread(fd, first, sizeof first, 0) == sizeof first,
               jpeg = read_well && memcmp(first, "\xff\xd8\xff", 3) == 0,
               png = read_well && memcmp(first, "\x89PNG", 4) == 0;
    if (jpeg || png) return send(v, fd, v->piece[0], jpeg ? "image/jpeg" : "image/png", f);
    close(fd);
    return none(v, f);
}

bool page_photograph_copy(struct visit *v, struct fail *f)
{
    int fd;
    const bool small = text_is(v->piece[1], "thumbnail");
    if (!file_is_digest(v->piece[0]) || (!small && !text_is(v->piece[1], "copy")))
        return none(v, f);
    if (!photograph_open(v->arena, v->site->dir, v->piece[0],
                         small ? PHOTOGRAPH_THUMBNAIL : PHOTOGRAPH_COPY, &fd, f))
        return f->kind == FAIL_INPUT ? none(v, f) : false;
    return send(v, fd, arena_print(v->arena, "%s-%s", v->piece[0], v->piece[1]), "image/jpeg", f);
}
