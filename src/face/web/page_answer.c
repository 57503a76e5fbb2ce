/* /vehicle/ID/choose and /vehicle/ID/plan: an answer as its sheet. */
#include "face/web/page_frame.h"

static bool show(struct visit *v, enum question q, struct fail *f)
{
    struct record *vehicle;
    struct sheet_page sheet;
    if (!visit_vehicle(v, &vehicle, f) || !visit_ask_page(v, q, vehicle, &sheet, f)) return false;
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
