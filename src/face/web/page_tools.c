/* /vehicle/ID/tools: which tools the plan wants by when and how to have them; people. */
#include "face/show/show_tools.h"
#include "face/web/page_frame.h"

enum { RUNS_QUICK = 400 };

bool page_tools(struct visit *v, struct fail *f)
{
    static const char *const told[][2] = {{"tool", "A tool that is here, or is not"},
                                          {"tool-offer", "A way to have one"},
                                          {"person", "Who knows, who lends"},
                                          {"promise", "A promise"}};
    struct record *vehicle;
    struct answer_trade ignored;
    struct shop_ask ask;
    struct tools x;
    if (!visit_vehicle(v, &vehicle, f) || !visit_shop_ask(v, vehicle->id, &ask, &ignored, f))
        return false;
    if (ask.runs > RUNS_QUICK) ask.runs = RUNS_QUICK;
    if (!tools_reckon(v->arena, &ask, &x, f)) return false;
    struct sheet *s = show_tools(v->arena, &x);
    struct html *h = page_begin(v, s->title, vehicle, "tools");
    render_html_sheet(h, s, page_links_of(vehicle));
    html_leaf(h, "h2", NULL, "Tell more");
    html_open(h, "ul");
    html_attr(h, "class", "stops");
    for (size_t i = 0; i < sizeof told / sizeof *told; i++) {
        html_open(h, "li");
        html_open(h, "a");
        html_url(h, "href", arena_print(v->arena, "/buying/%s", told[i][0]));
        html_leaf(h, "b", NULL, told[i][1]);
        html_close(h, "a");
        html_close(h, "li");
    }
    html_close(h, "ul");
    return page_end(v);
}
