/* site.h - one garage as a site: any request that could be read, to its response.
 *
 * There is no socket here: server.c, `fettle serve --once` and the tests call site_answer. */
#ifndef WEB_SITE_H
#define WEB_SITE_H

#include "base/day.h"
#include "face/web/kept.h"
#include "face/web/reckoner.h"
#include "face/web/request.h"
#include "garage/pool.h"
#include "library/shelf.h"

/* What all visits share; but for those that mind threads themselves, never written after site_open.
 */
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

#endif
