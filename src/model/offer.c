#include "model/offer.h"

#include "base/text.h"
#include "model/facts_worth.h"

#include <math.h>

int64_t offer_whole(double minor)
{
    return (int64_t)llround(fmax(minor, 0));
}

void offer_note(struct offer_book *b, const char *line)
{
    for (int i = 0; i < b->n_notes; i++)
        if (text_is(b->notes[i], line)) return;
    b->notes = arena_grow(b->a, b->notes, (size_t)b->n_notes, &b->notes_capacity, sizeof *b->notes);
    b->notes[b->n_notes++] = line;
}

double offer_sum(struct offer_book *b, double minor, const char *currency)
{
    if (!*currency || minor == 0) return minor;
    const double rate = facts_minor(b->facts, currency, b->currency);
    if (rate > 0) return minor * rate;
    offer_note(b, arena_print(b->a,
                              "Left out: sums in %s, for no rate to %s is known. Mend with: fettle "
                              "add rate currency=%s per=%s rate=... date=...",
                              currency, b->currency, currency, b->currency));
    return -1;
}

bool offer_quoted(struct offer_book *b, int part, int supplier, struct fit_offer *out,
                  const struct fact_quote **first)
{
    const struct facts_buy *buy = &b->facts->buy;
    struct fit_break *breaks = ARENA_ARRAY(b->a, struct fit_break, buy->n_quotes + 1);
    double core = 0;
    *out = (struct fit_offer){.breaks = breaks};
    *first = NULL;
    for (int i = 0; i < buy->n_quotes; i++) {
        const struct fact_quote *q = &buy->quotes[i];
        if (q->part != part || q->supplier != supplier || q->stale) continue;
        const double unit = offer_sum(b, q->minor, q->currency);
        if (unit < 0) continue;
        int at = out->n_breaks++;
        for (; at > 0 && breaks[at - 1].from > q->from_count; at--) breaks[at] = breaks[at - 1];
        breaks[at] = (struct fit_break){q->from_count, offer_whole(unit)};
        core = fmax(core, offer_sum(b, q->core, q->currency));
        if (!*first || q->from_count < (*first)->from_count) *first = q;
    }
    out->core = offer_whole(core);
    return *first != NULL;
}

struct fit_supplier offer_terms(struct offer_book *b, int supplier)
{
    const struct fact_supplier *s = &b->facts->buy.suppliers[supplier];
    return (struct fit_supplier){
        .carriage = s->carriage_free == 0 ? 0 : offer_whole(offer_sum(b, s->carriage, s->currency)),
        .least_order = offer_whole(offer_sum(b, s->minimum, s->currency)),
        .free_from = offer_whole(offer_sum(b, fmax(s->carriage_free, 0), s->currency))};
}

double offer_days_late(struct points lead, double in_days)
{
    return 0.3 * fmax(0, lead.low - in_days) + 0.4 * fmax(0, lead.middle - in_days) +
           0.3 * fmax(0, lead.high - in_days);
}
