/* /vehicle/ID/choose, /vehicle/ID/plan and /household: an answer as its sheet. */
#include "face/web/what_if_form.h"

bool page_reckoning(struct visit *v, const struct record *vehicle, enum question q, double share)
{
    response_header(v->response, "Refresh", "0");
    struct html *h = page_begin(v, "Reckoning", vehicle, question_name(q));
    html_leaf(h, "h1", NULL, "Reckoning");
    html_open(h, "p");
    html_attr(h, "id", "reckoning");
    if (vehicle)
        html_print(h, "%d runs of %s, each with its own luck. ", v->site->runs,
                   record_text(vehicle, "name", "it"));
    else
        html_text(h, "Every vehicle in order of its rank, each many times over. ");
    html_print(h, "%.0f %% done; the page comes by itself.", 100 * share);
    html_close(h, "p");
    html_open(h, "progress");
    html_attr(h, "aria-labelledby", "reckoning");
    html_attr_print(h, "value", "%.2f", share);
    html_close(h, "progress");
    return page_end(v);
}

static bool show(struct visit *v, enum question q, struct fail *f)
{
    struct record *vehicle = NULL;
    struct sheet_page sheet;
    const bool opened =
        q < QUESTIONS_OF_VEHICLE ? visit_vehicle(v, &vehicle, f) : visit_garage(v, GARAGE_READ, f);
    if (!opened || !visit_ask_page(v, q, vehicle, &sheet, f)) return false;
    if (!sheet.html) return page_reckoning(v, vehicle, q, sheet.share);
    struct html *h = page_begin(v, sheet.title, vehicle, question_name(q));
    html_splice(h, sheet.html, sheet.ids);
    return page_end(v);
}

bool page_choose(struct visit *v, struct fail *f)
{
    return show(v, QUESTION_CHOOSE, f);
}

bool page_plan(struct visit *v, struct fail *f)
{
    return show(v, QUESTION_PLAN, f);
}

bool page_household(struct visit *v, struct fail *f)
{
    return show(v, QUESTION_HOUSEHOLD, f);
}

/* Cuts the sheet before the link to a what-if; what comes after it becomes *rest. */
static bool cut(struct sheet *s, struct sheet *rest)
{
    for (struct sheet_node *n = s->first; n && n->next; n = n->next) {
        const struct sheet_node *link = n->next;
        if (link->kind != SHEET_LINK || !text_is(link->as.link.command, "plan --what-if")) continue;
        *rest = (struct sheet){s->arena, "", link->next, s->last};
        n->next = NULL;
        return true;
    }
    return false;
}

static void write_what_if(struct html *h, const struct record *vehicle, const json_t *plan,
                          day today)
{
    struct what_if_now now;
    const char *direction = json_string_value(json_object_get(plan, "direction"));
    if (!direction || !what_if_now_from_json(json_object_get(plan, "with"), &now)) return;
    html_open(h, "details");
    html_attr(h, "class", "wide");
    html_leaf(h, "summary", NULL, "What if it were otherwise?");
    what_if_form_begin(h, vehicle, &now, today, direction, NULL, NULL);
    what_if_answer_begin(h);
    what_if_answer_end(h);
    html_close(h, "details");
    page_script_tag(h, "/what-if.js");
}

void page_answer_sheet(struct html *h, const struct told *told, const struct record *vehicle,
                       day today)
{
    struct sheet rest;
    bool more = cut(told->sheet, &rest);
    render_html_sheet(h, told->sheet, page_links_of(vehicle));
    if (!more) return;
    write_what_if(h, vehicle, told->json, today);
    render_html_sheet(h, &rest, page_links_of(vehicle));
}
