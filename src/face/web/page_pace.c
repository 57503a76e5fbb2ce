/* /vehicle/ID/pace: hours against the estimate, sessions that happen. */
#include "face/show/show_pace.h"
#include "face/web/page_frame.h"

bool page_pace(struct visit *v, struct fail *f)
{
    struct answer_trade ignored;
    struct record *vehicle;
    struct shop_ask ask;
    struct pace p;
    if (!visit_garage(v, GARAGE_READ, f) || !visit_vehicle(v, &vehicle, f) ||
        !visit_shop_ask(v, vehicle->id, &ask, &ignored, f) || !pace_reckon(v->arena, &ask, &p, f))
        return false;
    struct html *h = page_begin(v, "Pace", vehicle, "pace");
    render_html_sheet(h, show_pace(v->arena, &p), page_links_of(vehicle));
    return page_end(v);
}
