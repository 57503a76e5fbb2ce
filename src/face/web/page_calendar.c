/* /garage.ics: days that matter, for a calendar that asks now and then. */
#include "face/show/ical.h"
#include "face/web/page_frame.h"

#include <string.h>

bool page_calendar(struct visit *v, struct fail *f)
{
    struct shop_ask ask;
    struct answer_trade trade;
    struct feed feed;
    const char *without;
    if (!visit_garage(v, GARAGE_READ, f) || !visit_shop_ask(v, "", &ask, &trade, f) ||
        !feed_read(v->arena, &ask, &feed, f) ||
        !ical_add_order_by(v->arena, &ask, trade, &feed, &without, f))
        return false;
    v->response->type = "text/calendar; charset=utf-8";
    response_header(v->response, "Content-Disposition", "inline; filename=\"garage.ics\"");
    v->response->body = ical_write(v->arena, &feed, v->today);
    v->response->length = strlen(v->response->body);
    return true;
}
