/* route.h - the pages in one table, and which of them a request is for. */
#ifndef WEB_ROUTE_H
#define WEB_ROUTE_H

#include "face/web/visit.h"

enum route_to { TO_PAIRED, TO_ANYONE, TO_THIS_MACHINE }; /* this machine is always let in */

struct route {
    enum method method;  /* GET serves HEAD too; FILES is a POST that may bring files */
    const char *pattern; /* "/vehicle/ID/plan": a piece in capitals stands for any one */
    page_function *page;
    const char *title; /* what the page is for */
    enum route_to to;
    bool steady; /* the same address on the same day over the same facts gives the same page, but
                    for the token */
};

extern const struct route routes[]; /* ended by a NULL pattern */

/* The page that the request is for, with v->piece, v->steady and v->outside set; or why it gets
 * none. Checks Host, method, and for a form its cookie, origin and token. */
bool route_find(struct visit *v, page_function **out, bool session_new, struct fail *f);

page_function page_originality, page_originality_tell, page_loom;
page_function page_buying, page_buying_tell, page_household, page_survey_everything, page_lap,
    page_lap_tell;
page_function page_record, page_record_take;
page_function page_view, page_view_tell, page_advert, page_advert_take;
page_function page_identify, page_identify_tell, page_fit, page_fit_take;
page_function page_session, page_session_tell;
page_function page_bags, page_bags_new, page_labels, page_bag, page_bag_tell;
page_function page_find, page_tools;
page_function page_safe, page_safe_tell, page_gate, page_gate_tell;
page_function page_setback, page_setback_tell, page_pace, page_calendar;
page_function page_log, page_log_tell;
page_function page_bench, page_bench_sum, page_live_script;
page_function page_yard, page_survey, page_survey_tell, page_choose, page_plan, page_intake,
    page_intake_take, page_trade, page_trade_subject, page_trade_entry, page_what_if,
    page_what_if_keep, page_what_if_script, page_style, page_pair, page_pair_take, page_outside,
    page_devices, page_devices_take, page_photographs, page_photographs_take, page_photograph,
    page_photograph_name, page_photograph_original, page_photograph_copy;

#endif
