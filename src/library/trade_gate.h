/* trade_gate.h - what must hold before a step that can hurt someone, and what is asked afresh each
 * time.
 *
 * A gate is opened once: jobs done, proofs within their limits, the gates before it open. A proof
 * is a figure (it has a unit), a thing seen, or, where it is `independent`, a thing checked by a
 * named person who did not do the work. A check is asked each session and is over with its day. */
#ifndef LIBRARY_TRADE_GATE_H
#define LIBRARY_TRADE_GATE_H

#include "library/trade_answer.h"
#include "library/trade_entry.h"

struct trade_proof {
    struct entry head;
    const char *unit; /* NULL: nothing is measured, it is seen */
    /* In the unit; NAN: not said. It passes within the inner two and stops outside of the outer
     * two; between them it is good for a while, and measured again. */
    double pass_from, pass_to, stop_under, stop_over;
    bool book;        /* only the maker's figure says: a reading without it proves nothing */
    bool independent; /* by a named person who is fit to judge it and did not do it */
    struct fitted fitted;
    const char *how;
    const char *defer; /* whom to ask; NULL: who the cautions name */
    int *cautions;
    int n_cautions;
};

struct trade_gate {
    struct entry head;
    const char *act; /* what lies behind it: "The battery may be connected" */
    int *after;      /* gates that must be open */
    int n_after;
    int *jobs; /* that must be done, of those that the vehicle's direction has */
    int n_jobs;
    int *proofs;
    int n_proofs;
    int *again; /* proofs that count only from when the gates before were opened and `since` done */
    int n_again;
    int since;  /* job, or -1 */
    int *opens; /* jobs that lie behind it */
    int n_opens;
    int *cautions;
    int n_cautions;
};

struct trade_check {
    struct entry head;
    const char **asks; /* what must be true now */
    int n_asks;
    int *cautions;
    int n_cautions;
};

#endif
