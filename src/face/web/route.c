#include "face/web/route.h"

#include "face/web/session.h"
#include "face/web/share.h"

#include <assert.h>
#include <string.h>
#include <strings.h>

const struct route routes[] = {
    {METHOD_GET, "/", page_yard, "the yard: every vehicle at a glance", TO_PAIRED, true},
    {METHOD_GET, "/vehicle/ID/survey", page_survey, "what is here, and in what state", TO_PAIRED,
     true},
    {METHOD_POST, "/vehicle/ID/survey", page_survey_tell, "tell a finding", TO_PAIRED, false},
    {METHOD_GET, "/vehicle/ID/survey/everything", page_survey_everything, "all of it as a table",
     TO_PAIRED, true},
    {METHOD_GET, "/vehicle/ID/survey/PLACE", page_lap, "one stop of the lap", TO_PAIRED, true},
    {METHOD_POST, "/vehicle/ID/survey/PLACE", page_lap_tell, "tell what is seen there", TO_PAIRED,
     false},
    {METHOD_GET, "/vehicle/ID/originality", page_originality,
     "which one it is, and how much is its own", TO_PAIRED, true},
    {METHOD_POST, "/vehicle/ID/originality", page_originality_tell,
     "tell a number, a date or a component", TO_PAIRED, false},
    {METHOD_GET, "/vehicle/ID/photographs", page_photographs, "what it looks like", TO_PAIRED,
     true},
    {METHOD_FILES, "/vehicle/ID/photographs", page_photographs_take, "take some in", TO_PAIRED,
     false},
    {METHOD_GET, "/vehicle/ID/photographs/PHOTO", page_photograph, "one of them", TO_PAIRED, true},
    {METHOD_POST, "/vehicle/ID/photographs/PHOTO", page_photograph_name, "name it", TO_PAIRED,
     false},
    {METHOD_GET, "/photograph/DIGEST", page_photograph_original, "as it came", TO_PAIRED, false},
    {METHOD_GET, "/photograph/DIGEST/SIZE", page_photograph_copy, "smaller", TO_PAIRED, false},
    {METHOD_GET, "/vehicle/ID/identify", page_identify, "what it really is", TO_PAIRED, true},
    {METHOD_POST, "/vehicle/ID/identify", page_identify_tell, "tell a clue, the clock, a paper",
     TO_PAIRED, false},
    {METHOD_GET, "/vehicle/ID/choose", page_choose, "what shall become of it", TO_PAIRED, true},
    {METHOD_GET, "/vehicle/ID/fit", page_fit, "parts that work together", TO_PAIRED, true},
    {METHOD_POST, "/vehicle/ID/fit", page_fit_take, "adopt a set of parts, tell a measured number",
     TO_PAIRED, false},
    {METHOD_GET, "/vehicle/ID/session", page_session, "what can be done this evening", TO_PAIRED,
     true},
    {METHOD_FILES, "/vehicle/ID/session", page_session_tell,
     "what became of it, and how it was left off", TO_PAIRED, false},
    {METHOD_GET, "/vehicle/ID/bags", page_bags, "what came off, and the way back", TO_PAIRED, true},
    {METHOD_POST, "/vehicle/ID/bags", page_bags_new, "a new bag", TO_PAIRED, false},
    {METHOD_GET, "/vehicle/ID/labels.pdf", page_labels, "labels to be cut up", TO_PAIRED, false},
    {METHOD_GET, "/bag/CODE", page_bag, "what is in one bag", TO_PAIRED, true},
    {METHOD_FILES, "/bag/CODE", page_bag_tell, "put in, count, empty", TO_PAIRED, false},
    {METHOD_GET, "/vehicle/ID/tools", page_tools, "which are wanted by when", TO_PAIRED, true},
    {METHOD_GET, "/vehicle/ID/safe", page_safe, "gates and the checks of today", TO_PAIRED, false},
    {METHOD_POST, "/vehicle/ID/safe", page_safe_tell, "check", TO_PAIRED, false},
    {METHOD_GET, "/vehicle/ID/safe/GATE", page_gate, "what one gate needs", TO_PAIRED, false},
    {METHOD_POST, "/vehicle/ID/safe/GATE", page_gate_tell, "prove, open, override", TO_PAIRED,
     false},
    {METHOD_GET, "/vehicle/ID/setback", page_setback, "something broke, or might", TO_PAIRED,
     false},
    {METHOD_POST, "/vehicle/ID/setback", page_setback_tell, "report it, tell what came of a step",
     TO_PAIRED, false},
    {METHOD_GET, "/vehicle/ID/pace", page_pace, "hours against the estimate", TO_PAIRED, true},
    {METHOD_GET, "/vehicle/ID/log", page_log, "what was done, in one line", TO_PAIRED, false},
    {METHOD_POST, "/vehicle/ID/log", page_log_tell, "read it, store it, the clock", TO_PAIRED,
     false},
    {METHOD_GET, "/vehicle/ID/plan", page_plan, "what happens when, and what it costs", TO_PAIRED,
     true},
    {METHOD_GET, "/vehicle/ID/what-if", page_what_if, "the plan if it were otherwise", TO_PAIRED,
     true},
    {METHOD_POST, "/vehicle/ID/what-if", page_what_if_keep, "make it so", TO_PAIRED, false},
    {METHOD_GET, "/vehicle/ID/loom", page_loom, "its circuits, and what is wrong", TO_PAIRED, true},
    {METHOD_GET, "/buying", page_buying, "what is due, and what to order", TO_PAIRED, true},
    {METHOD_POST, "/buying", page_buying_tell, "tell that it was done", TO_PAIRED, false},
    {METHOD_GET, "/buying/KIND", page_record, "suppliers, quotes, orders, pieces sent", TO_PAIRED,
     false},
    {METHOD_POST, "/buying/KIND", page_record_take, "one more", TO_PAIRED, false},
    {METHOD_GET, "/buying/KIND/RECORD", page_record, "one of them", TO_PAIRED, false},
    {METHOD_POST, "/buying/KIND/RECORD", page_record_take, "change it, or remove it", TO_PAIRED,
     false},
    {METHOD_GET, "/find", page_find, "words in everything", TO_PAIRED, true},
    {METHOD_GET, "/garage.ics", page_calendar, "for the calendar of a phone", TO_PAIRED, false},
    {METHOD_GET, "/household", page_household, "for who shares the purse", TO_PAIRED, true},
    {METHOD_GET, "/vehicle/ID/view", page_view, "before buying", TO_PAIRED, true},
    {METHOD_POST, "/vehicle/ID/view", page_view_tell, "tell what is seen", TO_PAIRED, false},
    {METHOD_GET, "/vehicle/ID/advert", page_advert, "what is asked for it", TO_PAIRED, true},
    {METHOD_POST, "/vehicle/ID/advert", page_advert_take, "store it, or it is bought", TO_PAIRED,
     false},
    {METHOD_GET, "/intake", page_intake, "twelve questions about a vehicle", TO_PAIRED, true},
    {METHOD_POST, "/intake", page_intake_take, "take it in", TO_PAIRED, false},
    {METHOD_GET, "/trade", page_trade, "look into the trade data", TO_PAIRED, true},
    {METHOD_GET, "/trade/SUBJECT", page_trade_subject, "one subject of the trade data", TO_PAIRED,
     true},
    {METHOD_GET, "/trade/SUBJECT/ID", page_trade_entry, "one entry of the trade data", TO_PAIRED,
     true},
    {METHOD_GET, "/bench", page_bench, "the engineering sums", TO_PAIRED, true},
    {METHOD_GET, "/bench/SUM", page_bench_sum, "one sum, asked by its address", TO_PAIRED, false},
    {METHOD_GET, "/style.css", page_style, "how the pages look", TO_ANYONE, false},
    {METHOD_GET, "/what-if.js", page_what_if_script, "sliders for a what-if", TO_ANYONE, false},
    {METHOD_GET, "/live.js", page_live_script, "answers that follow the hand", TO_ANYONE, false},
    {METHOD_GET, "/pair", page_pair, "let a phone in by a code", TO_ANYONE, false},
    {METHOD_POST, "/pair", page_pair_take, "with the code that was typed", TO_ANYONE, false},
    {METHOD_GET, "/pair/CODE", page_pair, "the same, with the code filled in", TO_ANYONE, false},
    {METHOD_POST, "/pair/CODE", page_pair_take, "with that code", TO_ANYONE, false},
    {METHOD_GET, "/devices", page_devices, "which phones are let in", TO_THIS_MACHINE, false},
    {METHOD_POST, "/devices", page_devices_take, "a new code, or an end", TO_THIS_MACHINE, false},
    {METHOD_OTHER, NULL, NULL, NULL, TO_PAIRED, false},
};

/* Does the path fit the pattern? Pieces in capitals match anything but nothing. */
static bool path_fits(struct arena *a, const char *pattern, const char *path, const char *piece[2])
{
    int n = 0;
    while (*pattern == '/' && *path == '/') {
        size_t wanted = strcspn(++pattern, "/"), there = strcspn(++path, "/");
        if (*pattern >= 'A' && *pattern <= 'Z') {
            if (there == 0) return false;
            assert(n < 2);
            piece[n++] = arena_copy_n(a, path, there);
        } else if (wanted != there || strncmp(pattern, path, there) != 0) {
            return false;
        }
        pattern += wanted;
        path += there;
    }
    return !*pattern && !*path;
}

/* A page from elsewhere whose name was pointed at this machine must not reach it: only names for
 * this machine itself. */
static bool host_is_ours(const struct site *site, const char *host)
{
    if (site->beyond) return share_is_host(site->share, host);
    static const char *const ours[] = {"localhost", "127.0.0.1", "[::1]"};
    for (size_t i = 0; i < sizeof ours / sizeof *ours; i++) {
        size_t n = strlen(ours[i]);
        if (strncasecmp(host, ours[i], n) != 0) continue;
        const char *port = host + n;
        if (!*port ||
            (*port == ':' && port[1] && strspn(port + 1, "0123456789") == strlen(port + 1)))
            return true;
    }
    return false;
}

bool route_find(struct visit *v, page_function **out, bool session_new, struct fail *f)
{
    const struct request *r = v->request;
    bool get = false, post = false;
    if (!r->host) return visit_fail(v, 400, f, "there is no Host header; send one");
    if (!host_is_ours(v->site, r->host))
        return visit_fail(
            v, 421, f,
            v->site->beyond
                ? "this machine has no such name; use the address that is on its screen"
                : "this program answers to localhost only; use that name in the address");
    if (v->site->beyond && !visit_admit(v, f)) return false;
    for (const struct route *route = routes; route->pattern; route++) {
        const char *piece[2] = {NULL, NULL};
        if (!path_fits(v->arena, route->pattern, r->path, piece)) continue;
        const bool takes = route->method == METHOD_POST || route->method == METHOD_FILES;
        const bool wanted =
            takes ? r->method == METHOD_POST : r->method == METHOD_GET || r->method == METHOD_HEAD;
        get |= !takes;
        post |= takes;
        if (!wanted) continue;
        if (route->to == TO_THIS_MACHINE && v->site->beyond)
            return visit_fail(v, 403, f, "this is done on the machine that serves the pages");
        if (route->to != TO_ANYONE && v->outside) {
            *out = page_outside;
            return true;
        }
        v->piece[0] = piece[0];
        v->piece[1] = piece[1];
        *out = route->page;
        v->steady = route->steady && !v->outside;
        if (r->multipart && route->method != METHOD_FILES)
            return visit_fail(v, 415, f, "this page takes no files; send the form that it shows");
        return !takes || session_vouches(v, session_new, f);
    }
    if (!get && !post) return visit_fail(v, 404, f, "there is no such page; begin at the yard");
    response_header(v->response, "Allow", post ? "GET, HEAD, POST" : "GET, HEAD");
    return visit_fail(v, 405, f, "this page does not take that; look at it instead");
}
