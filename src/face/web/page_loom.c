/* /vehicle/ID/loom: the circuits as they were told, and what is wrong with them. */
#include "face/show/show_loom.h"
#include "face/web/page_frame.h"

bool page_loom(struct visit *v, struct fail *f)
{
    struct record *vehicle;
    struct loom_told told;
    if (!visit_vehicle(v, &vehicle, f) || !loom_of_vehicle(v->arena, v->garage, vehicle, &told, f))
        return false;
    struct sheet *s = show_loom(v->arena, &told);
    struct html *h = page_begin(v, s->title, vehicle, "loom");
    render_html_sheet(h, s, page_links_of(vehicle));
    return page_end(v);
}
