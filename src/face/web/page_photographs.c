/* /vehicle/ID/photographs: take photographs, and see them; those that nobody has named come first.
 */
#include "face/web/page_photographs.h"
#include "face/show/photograph.h"
#include "face/show/show_survey.h"
#include "face/web/form.h"
#include "face/web/page_frame.h"
#include "face/web/page_survey.h"

#include <string.h>

enum { A_PAGE = 60 };

bool photograph_is_named(const struct record *r)
{
    return record_get(r, "component")->set || record_get(r, "place")->set ||
           record_get(r, "note")->set;
}

const char *photograph_words(struct visit *v, const struct record *r)
{
    static const struct {
        const char *field;
        enum subject subject; /* SUBJECT_COUNT: the builder's own words */
    } told[] = {
        {"component", SUBJECT_COMPONENTS}, {"place", SUBJECT_PLACES}, {"note", SUBJECT_COUNT}};
    struct text t = {.arena = v->arena};
    struct fail ignored = {0};
    const struct trade *trade;
    if (!visit_trade(v, &trade, &ignored)) trade = NULL;
    for (size_t i = 0; i < sizeof told / sizeof *told; i++) {
        const char *word = record_text(r, told[i].field, NULL);
        if (!word) continue;
        const int known = trade && told[i].subject < SUBJECT_COUNT
                              ? trade_find(trade, told[i].subject, word)
                              : -1;
        if (known >= 0) word = trade_entry(trade, told[i].subject, known)->name;
        text_print(&t, "%s%s", t.length ? ", " : "", word);
    }
    return t.length ? text_get(&t) : "not named yet";
}

const char *photograph_address(struct arena *a, const struct record *r)
{
    return arena_print(a, "/vehicle/%s/photographs/%s", record_text(r, "vehicle", ""), r->id);
}

void photograph_image(struct visit *v, const struct record *r, enum photograph_size size)
{
    struct html *h = &v->html;
    const int64_t side = size == PHOTOGRAPH_COPY ? 2000 : 320,
                  width = record_integer(r, "width", 1), height = record_integer(r, "height", 1),
                  longer = width > height ? width : height;
    html_open(h, "img");
    html_url(h, "src",
             arena_print(v->arena, "/photograph/%s/%s", record_text(r, "file", ""),
                         size == PHOTOGRAPH_COPY ? "copy" : "thumbnail"));
    html_attr(h, "alt", photograph_words(v, r));
    /* So that the page does not jump when it comes. */
    html_attr_print(h, "width", "%d", (int)(longer > side ? width * side / longer : width));
    html_attr_print(h, "height", "%d", (int)(longer > side ? height * side / longer : height));
    if (size == PHOTOGRAPH_THUMBNAIL) html_attr(h, "loading", "lazy");
}

/* ---- the page ---- */

static void write_input(struct visit *v, const char *label, const char *help, bool camera)
{
    struct html *h = &v->html;
    const int id = html_id(h);
    html_open(h, "div");
    html_attr(h, "class", "field");
    html_open(h, "label");
    html_attr_print(h, "for", "f%d", id);
    html_text(h, label);
    html_close(h, "label");
    html_open(h, "input");
    html_attr_print(h, "id", "f%d", id);
    html_attr(h, "type", "file");
    html_attr(h, "name", camera ? "camera" : "gallery");
    html_attr(h, "accept", "image/jpeg,image/png");
    html_attr_print(h, "aria-describedby", "h%d", id);
    if (camera)
        html_attr(h, "capture", "environment");
    else
        html_flag(h, "multiple", true);
    html_open(h, "p");
    html_attr(h, "class", "help");
    html_attr_print(h, "id", "h%d", id);
    html_text(h, help);
    html_close(h, "p");
    html_close(h, "div");
}

static void write_upload(struct visit *v)
{
    struct html *h = &v->html;
    page_form_files(v, "shoot");
    write_input(v, "Take one now", "Opens the camera of a phone.", true);
    write_input(v, "Or choose some",
                "JPEG or PNG, several at once if you like; at most 100 MB each, 500 MB together.",
                false);
    form_button(h, "Store");
    html_close(h, "form");
    html_leaf(
        h, "p", "quiet",
        "Each is kept as it came, with what the camera wrote into it, which may be where it was "
        "taken. The copies that pages show carry nothing of that.");
}

static void write_grid(struct visit *v, const struct record *const *list, int count)
{
    struct html *h = &v->html;
    html_open(h, "ul");
    html_attr(h, "class", "shots");
    for (int i = 0; i < count; i++) {
        const struct record *r = list[i];
        html_open(h, "li");
        html_open(h, "a");
        html_url(h, "href", photograph_address(v->arena, r));
        photograph_image(v, r, PHOTOGRAPH_THUMBNAIL);
        html_open(h, "span");
        if (photograph_is_named(r)) html_attr(h, "aria-hidden", "true"); /* the picture says it */
        html_text(h, photograph_is_named(r) ? photograph_words(v, r) : "Name it");
        html_close(h, "span");
        html_close(h, "a");
        if (record_get(r, "taken")->set) {
            struct text day_text = {.arena = v->arena};
            day_print_long(&day_text, record_get(r, "taken")->day);
            html_leaf(h, "span", "quiet", text_get(&day_text));
        }
        html_close(h, "li");
    }
    html_close(h, "ul");
}

static void write_more(struct visit *v, const struct record *vehicle, int from, int total)
{
    struct html *h = &v->html;
    if (total <= A_PAGE) return;
    html_open(h, "p");
    html_attr(h, "class", "onward");
    for (int to = 0; to < total; to += A_PAGE) {
        if (to == from) continue;
        html_open(h, "a");
        html_url(h, "href",
                 arena_print(v->arena, "%s?from=%d",
                             page_of_vehicle(v->arena, vehicle, "photographs"), to));
        html_print(h, "%d to %d", to + 1, to + A_PAGE < total ? to + A_PAGE : total);
        html_close(h, "a");
        html_text(h, " ");
    }
    html_close(h, "p");
}

static int asked_from(const struct visit *v, int total)
{
    const char *text = pairs_get(&v->request->query, "from");
    int64_t from;
    if (!text || !text_to_int(text, &from) || from < 0 || from >= total) return 0;
    return (int)from / A_PAGE * A_PAGE;
}

/* Newest first, and of all those the ones without a name. */
static const struct record **in_order(struct arena *a, const struct record *all, int count,
                                      int *unnamed)
{
    const struct record **list = ARENA_ARRAY(a, const struct record *, count);
    int n = 0;
    for (int named = 0; named < 2; named++) {
        for (int i = count - 1; i >= 0; i--)
            if (photograph_is_named(&all[i]) == named) list[n++] = &all[i];
        if (!named) *unnamed = n;
    }
    return list;
}

static bool write_page(struct visit *v, const struct record *vehicle, const char *const *refused,
                       int n_refused, struct fail *f)
{
    struct record *all;
    int count, unnamed;
    if (!garage_list(v->garage, v->arena, record_kind_find("photograph"), vehicle->id, &all, &count,
                     f))
        return false;
    const struct record **list = in_order(v->arena, all, count, &unnamed);
    const int from = asked_from(v, count), to = from + A_PAGE < count ? from + A_PAGE : count,
              cut = unnamed < from ? from
                    : unnamed < to ? unnamed
                                   : to;
    const char *title =
        arena_print(v->arena, "%s: photographs", record_text(vehicle, "name", "vehicle"));
    struct html *h = page_begin(v, title, vehicle, "photographs");
    html_leaf(h, "h1", NULL, title);
    survey_write_stored(v);
    for (int i = 0; i < n_refused; i++) form_fault(h, refused[i]);
    render_html_caution(h, survey_caution, survey_defer);
    write_upload(v);
    if (count == 0)
        html_leaf(h, "p", NULL,
                  "None yet. Go round it once with the camera before anything is touched: what it "
                  "was like is worth as much later as what was done.");
    if (cut > from) {
        html_leaf(h, "h2", NULL, arena_print(v->arena, "Not named yet: %d", unnamed));
        write_grid(v, list + from, cut - from);
    }
    if (to > cut) {
        html_leaf(h, "h2", NULL, arena_print(v->arena, "Named: %d", count - unnamed));
        write_grid(v, list + cut, to - cut);
    }
    write_more(v, vehicle, from, count);
    return page_end(v);
}

bool page_photographs(struct visit *v, struct fail *f)
{
    struct record *vehicle;
    return visit_vehicle(v, &vehicle, f) && write_page(v, vehicle, NULL, 0, f);
}

/* Each is stored by itself, so that a broken one among many keeps none of the others out. */
bool page_photographs_take(struct visit *v, struct fail *f)
{
    const struct request *q = v->request;
    struct record *vehicle;
    const char **refused = ARENA_ARRAY(v->arena, const char *, q->n_files + 1);
    int n_refused = 0;
    if (!visit_garage(v, GARAGE_WRITE, f) || !visit_vehicle(v, &vehicle, f)) return false;
    for (int i = 0; i < q->n_files; i++) {
        struct record *r = record_new(v->arena, record_kind_find("photograph"));
        struct fail why = {0};
        if (!record_set(v->arena, r, "vehicle", vehicle->id, NULL, f)) return false;
        if (photograph_take(v->arena, v->garage, q->files[i].file, q->files[i].called, r, &why))
            continue;
        if (why.kind != FAIL_INPUT) {
            *f = why;
            return false;
        }
        refused[n_refused++] = arena_copy(v->arena, why.text);
    }
    if (q->n_files == 0) refused[n_refused++] = "No photograph was chosen; nothing was stored.";
    if (n_refused == 0)
        return visit_go(v,
                        arena_print(v->arena, "%s?stored=%d",
                                    page_of_vehicle(v->arena, vehicle, "photographs"), q->n_files));
    v->response->status = 422;
    return write_page(v, vehicle, refused, n_refused, f);
}
