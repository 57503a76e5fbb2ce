#include "shop/bags.h"

#include "garage/kinds.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>
#include <strings.h>

enum piece_state piece_state_of(const struct trade *t, const struct fact_piece *p)
{
    if (p->renew >= 0) return p->renew ? PIECE_NEW : PIECE_AGAIN;
    if (p->fastener < 0) return PIECE_AGAIN;
    switch (t->fasteners[p->fastener].again) {
    case AGAIN_NEVER:
        return PIECE_NEW;
    case AGAIN_LOOK:
        return PIECE_LOOK;
    case AGAIN_YES:
    case AGAIN_COUNT:
        break;
    }
    return PIECE_AGAIN;
}

int piece_short(const struct fact_piece *p)
{
    return p->back >= 0 && p->back < p->count ? p->count - p->back : 0;
}

bool piece_lacks_torque(const struct fact_piece *p)
{
    return p->thread && isnan(p->torque_nm);
}

static int compared(const char *a, const char *b)
{
    return strcasecmp(a ? a : "", b ? b : "");
}

static int alike(const struct fact_piece *a, const struct fact_piece *b)
{
    int c = compared(a->thread, b->thread);
    if (c == 0) c = compared(a->name, b->name);
    if (c == 0 && isnan(a->length_m) != isnan(b->length_m)) c = isnan(a->length_m) ? -1 : 1;
    if (c == 0 && !isnan(a->length_m) && fabs(a->length_m - b->length_m) > 1e-5)
        c = a->length_m < b->length_m ? -1 : 1;
    return c ? c : compared(a->grade, b->grade);
}

static int by_kind(const void *a, const void *b)
{
    const struct hardware *x = a, *y = b;
    return alike(x->piece, y->piece);
}

static void add_to_kit(struct arena *a, struct bags *x, const struct fact_bag *b,
                       const struct fact_piece *p)
{
    const bool fits_anew = b->emptied == DAY_NONE && piece_state_of(x->trade, p) == PIECE_NEW;
    const int wanted = fits_anew ? p->count : piece_short(p);
    if (wanted == 0) return;
    for (int i = 0; i < x->n_kit; i++) {
        struct hardware *h = &x->kit[i];
        if (alike(h->piece, p) != 0) continue;
        h->count += wanted;
        h->n_bags++;
        h->bags = arena_print(a, "%s, %s", h->bags, b->code);
        return;
    }
    x->kit[x->n_kit++] = (struct hardware){p, wanted, 1, b->code};
}

bool bags_read(struct arena *a, struct garage *g, const struct trade *t, const char *vehicle,
               struct bags *out, struct fail *f)
{
    int pieces = 0;
    *out = (struct bags){.trade = t};
    if (!facts_bags_read(g, a, t, vehicle, &out->all, &out->count, f)) return false;
    for (int i = 0; i < out->count; i++) pieces += out->all[i].n_pieces;
    out->back = ARENA_ARRAY(a, const struct fact_bag *, out->count);
    out->kit = ARENA_ARRAY(a, struct hardware, pieces);
    for (int i = out->count - 1; i >= 0; i--) {
        const struct fact_bag *b = &out->all[i];
        if (b->emptied == DAY_NONE) out->back[out->n_back++] = b;
        for (int k = 0; k < b->n_pieces; k++) {
            add_to_kit(a, out, b, &b->pieces[k]);
            out->n_look += b->emptied == DAY_NONE && piece_state_of(t, &b->pieces[k]) == PIECE_LOOK;
        }
    }
    qsort(out->kit, (size_t)out->n_kit, sizeof *out->kit, by_kind);
    return true;
}

bool bags_next_code(struct arena *a, struct garage *g, const char **out, struct fail *f)
{
    struct record *bags;
    int n, most = 0;
    if (!garage_list(g, a, &kind_bag, NULL, &bags, &n, f)) return false;
    for (int i = 0; i < n; i++) {
        const char *code = record_text(&bags[i], "code", "");
        int64_t number;
        if ((*code == 'B' || *code == 'b') && text_to_int(code + 1, &number) && number > most &&
            number < 100000)
            most = (int)number;
    }
    *out = arena_print(a, "B%d", most + 1);
    return true;
}
