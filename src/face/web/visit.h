/* visit.h - one request on its way through a page: what the page may ask for, and what it writes.
 */
#ifndef WEB_VISIT_H
#define WEB_VISIT_H

#include "face/show/answer.h"
#include "face/web/html.h"
#include "face/web/site.h"

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

/* Opened when asked for; this visit's alone until visit_end. Nothing open is kept from the mode
 * before. */
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
/* Gives back what the visit holds. */
void visit_end(struct visit *v);
/* Sets v->outside, and gives the device's cookie anew once a day. */
bool visit_admit(struct visit *v, struct fail *f);
/* Sets the status and fails with the line. */
bool visit_fail(struct visit *v, int status, struct fail *f, const char *line);
/* After a form was taken: on to another page. */
bool visit_go(struct visit *v, const char *address);

#endif
