/* /vehicle/ID/choose and /vehicle/ID/plan: an answer as its sheet. */
#include "face/web/page_frame.h"

static bool show(struct visit *v, enum question q, struct fail *f)
{
    struct record *vehicle;
    struct told told;
    if (!visit_vehicle(v, &vehicle, f) || !visit_ask(v, q, vehicle->id, &told, f)) return false;
    struct html *h = page_begin(v, told.sheet->title, vehicle, question_name(q));
    render_html_sheet(h, told.sheet, page_links_of(vehicle));
    json_decref(told.json);
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
