#include "face/show/show_trade_gate.h"

#include "face/show/show_trade.h"

#include <math.h>

const char *proof_limits(struct arena *a, const struct trade_proof *p)
{
    if (p->independent) return "seen by a named person who did not do it";
    if (!p->unit) return "seen, not measured";
    if (p->book) return arena_print(a, "the maker's figure, in %s: look it up", p->unit);
    if (isnan(p->pass_to))
        return arena_print(a, "from %g %s; stops under %g", p->pass_from, p->unit, p->stop_under);
    if (isnan(p->pass_from))
        return arena_print(a, "up to %g %s; stops over %g", p->pass_to, p->unit, p->stop_over);
    return arena_print(a, "%g to %g %s; stops under %g or over %g", p->pass_from, p->pass_to,
                       p->unit, p->stop_under, p->stop_over);
}

void show_proof(struct sheet *s, const struct trade *t, const struct trade_proof *p)
{
    sheet_fact(s, TONE_PLAIN, "limits", "%s", proof_limits(s->arena, p));
    sheet_fact(s, TONE_PLAIN, "how", "%s", p->how);
    if (p->defer) sheet_fact(s, TONE_PLAIN, "ask", "%s", p->defer);
    show_cautions(s, t, p->cautions, p->n_cautions);
}

static void list(struct sheet *s, const struct trade *t, const char *title, enum subject of,
                 const int *entries, int count)
{
    if (count == 0) return;
    sheet_heading(s, 2, title);
    for (int i = 0; i < count; i++) sheet_item(s, "%s", trade_entry(t, of, entries[i])->name);
}

void show_gate(struct sheet *s, const struct trade *t, const struct trade_gate *g)
{
    sheet_text(s, "%s, when all of this holds.", g->act);
    list(s, t, "Gates before it", SUBJECT_GATES, g->after, g->n_after);
    list(s, t, "Jobs, where the course has them", SUBJECT_JOBS, g->jobs, g->n_jobs);
    list(s, t, "Proofs", SUBJECT_PROOFS, g->proofs, g->n_proofs);
    list(s, t, "Proved anew for it", SUBJECT_PROOFS, g->again, g->n_again);
    list(s, t, "Jobs that lie behind it", SUBJECT_JOBS, g->opens, g->n_opens);
    show_cautions(s, t, g->cautions, g->n_cautions);
}

void show_check(struct sheet *s, const struct trade *t, const struct trade_check *c)
{
    sheet_text(s, "True now, and asked again each session:");
    for (int i = 0; i < c->n_asks; i++) sheet_item(s, "%s", c->asks[i]);
    show_cautions(s, t, c->cautions, c->n_cautions);
}
