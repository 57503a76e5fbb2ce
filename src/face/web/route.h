/* route.h - the pages in one table, and what every response has in common.
 *
 * A page is a function of the request, the garage and the trade data, all held by a struct visit,
 * to a response. There is no socket here: server.c, `fettle serve --once` and the tests call
 * site_answer. */
#ifndef WEB_ROUTE_H
#define WEB_ROUTE_H

#include "base/day.h"
#include "face/show/answer.h"
#include "face/web/html.h"
#include "face/web/kept.h"
#include "face/web/reckoner.h"
#include "face/web/request.h"
#include "garage/pool.h"
#include "library/shelf.h"

/* What all visits share; but for shelf and kept, which mind threads themselves, never written after
 * site_open. */
struct site {
    const char *dir; /* the garage's folder */
    day today;       /* DAY_NONE: the machine's, at each request */
    unsigned char
        secret[32];       /* random, made anew when the program starts; signs the tokens of forms */
    int runs;             /* of each reckoning: RUNS_USUAL; fewer where answers do not matter */
    char token_place[65]; /* stands in kept pages where a form's token goes */
    struct shelf *shelf;  /* trade data */
    struct garage_pool *pool;
    struct kept *kept; /* sheets as HTML, and whole pages */
    struct reckoner *reckoner;
    /* Beyond: these visits come over TLS from other machines, and only paired devices are let in.
     * Else they come from this machine; share and pairing, not NULL while it shares, are there to
     * be shown. */
    bool beyond;
    const struct share *share;
    struct pairing *pairing;
};

struct visit {
    struct arena *arena;
    const struct site *site;
    const struct request *request;
    const char *piece[2]; /* what stands in the path where the pattern has capitals */
    const char *session;  /* 32 hex digits, from the cookie or new */
    bool steady;          /* the page is made to be kept: see struct route */
    bool outside;         /* from beyond, and not paired: is shown nothing of the garage */
    day today;
    struct garage *garage;          /* see visit_garage */
    const struct shelf_copy *trade; /* see visit_trade */
    struct text text;               /* the page as written so far */
    struct html html;
    struct response *response;
};

/* Fills the response: false: a failure, told as a page with v->response->status, or by the kind of
 * the failure. */
typedef bool page_function(struct visit *v, struct fail *f);

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

/* Fills it; dir is copied. */
void site_open(struct arena *a, const char *dir, day today, struct site *out);
void site_close(struct site *site);
/* Answers any request that could be read. Checks Host, method, and for a form its cookie, origin
 * and token. */
void site_answer(struct arena *a, const struct site *site, const struct request *request,
                 struct response *out);
/* Would the form be taken, by what of it is here so far? If not, the answer is in *out. */
bool site_admits(struct arena *a, const struct site *site, const struct request *request,
                 struct response *out);
/* Tells why a request could not be read, in one line of plain text. */
void site_refuse(struct arena *a, const struct refusal *no, struct response *out);

/* Opened when asked for, for this visit alone. Nothing open is kept from the mode before. */
bool visit_garage(struct visit *v, enum garage_mode mode, struct fail *f);
bool visit_trade(struct visit *v, const struct trade **out, struct fail *f);
/* The vehicle that piece[0] names; 404 if there is none. Opens the garage for reading if it is not
 * open. */
bool visit_vehicle(struct visit *v, struct record **out, struct fail *f);
/* What to ask of it, complete, and where trade data comes from. */
bool visit_shop_ask(struct visit *v, const char *vehicle, struct shop_ask *out,
                    struct answer_trade *trade, struct fail *f);
/* The answer to a question about it, from the cache or reckoned. */
bool visit_ask(struct visit *v, enum question q, const char *vehicle, struct told *out,
               struct fail *f);
/* The same, as its title and as HTML for html_splice. While it is being reckoned and the browser
 * can be shown that, html is NULL. vehicle NULL: of the whole garage. */
struct sheet_page {
    const char *title, *html;
    int ids;
    double share; /* of the reckoning that is done */
};
bool visit_ask_page(struct visit *v, enum question q, const struct record *vehicle,
                    struct sheet_page *out, struct fail *f);
/* The same, but never reckoned: the answer of now if it is kept, else the last one that was. False:
 * none. */
bool visit_kept(struct visit *v, enum question q, const char *vehicle, struct told *out,
                bool *current);
/* The brief of the last one: see answer_brief. */
bool visit_brief(struct visit *v, enum question q, const char *vehicle, struct answer_brief *out);
/* The token that a form on this page carries in its field "token". */
const char *visit_token(const struct visit *v);
/* Sets v->outside, and gives the device's cookie anew once a day. */
bool visit_admit(struct visit *v, struct fail *f);
/* Sets the status and fails with the line. */
bool visit_fail(struct visit *v, int status, struct fail *f, const char *line);
/* After a form was taken: on to another page. */
bool visit_go(struct visit *v, const char *address);

page_function page_originality, page_originality_tell, page_loom;
page_function page_household, page_survey_everything, page_lap, page_lap_tell;
page_function page_view, page_view_tell, page_advert, page_advert_take;
page_function page_identify, page_identify_tell;
page_function page_bench, page_bench_sum, page_live_script;
page_function page_yard, page_survey, page_survey_tell, page_choose, page_plan, page_intake,
    page_intake_take, page_trade, page_trade_subject, page_trade_entry, page_what_if,
    page_what_if_keep, page_what_if_script, page_style, page_pair, page_pair_take, page_outside,
    page_devices, page_devices_take, page_photographs, page_photographs_take, page_photograph,
    page_photograph_name, page_photograph_original, page_photograph_copy;

#endif
