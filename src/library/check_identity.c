#include "library/check_identity.h"

#include <string.h>

#define FAULT(f, head, ...) fault_add((f), (head)->file, (head)->line, __VA_ARGS__)

static void check_places(struct faults *f, const struct entry *head, const struct codebook *b)
{
    for (int i = 0; i < b->n_places; i++) {
        const struct code_place *p = &b->places[i];
        const int to = p->to ? p->to : p->at;
        if (to < p->at || (b->length && to > b->length))
            FAULT(f, head, "'%s': positions: '%s' runs from %d to %d of %d; correct them", head->id,
                  p->name, p->at, to, b->length);
    }
}

static void check_digit(struct faults *f, const struct entry *head, const struct codebook *b)
{
    const struct code_check *c = &b->check;
    if (c->at == 0) return;
    if (c->n_weights != b->length || c->at > b->length)
        FAULT(f, head, "'%s': check: %d weights for %d positions; give one a position", head->id,
              c->n_weights, b->length);
    else if (c->weights[c->at - 1] != 0)
        FAULT(f, head, "'%s': check: the check digit weighs %d in its own sum; make that weight 0",
              head->id, c->weights[c->at - 1]);
    if (c->remainders && c->modulus > 0 && (int)strlen(c->remainders) != c->modulus)
        FAULT(f, head, "'%s': check: %d remainders for modulus %d; write one letter for each",
              head->id, (int)strlen(c->remainders), c->modulus);
}

static void check_year(struct faults *f, const struct entry *head, const struct codebook *b)
{
    const struct code_year *y = &b->year;
    if (y->at == 0) return;
    if (y->at > b->length || y->decided_by > b->length)
        FAULT(f, head, "'%s': year: a position beyond the length %d; correct it", head->id,
              b->length);
    if ((y->decided_by != 0) != (y->n_decides > 0))
        FAULT(f, head, "'%s': year: decided-by and decides belong together; add the other",
              head->id);
    for (const char *s = y->codes; s && *s; s++)
        if (strchr(s + 1, *s)) {
            FAULT(f, head, "'%s': year: code '%c' stands twice; keep one", head->id, *s);
            return;
        }
}

void check_codebooks(struct faults *f, const struct trade *t)
{
    for (int i = 0; i < t->n_codebooks; i++) {
        const struct trade_codebook *c = &t->codebooks[i];
        const struct codebook *b = &c->book;
        if (c->from && c->until && c->until < c->from)
            FAULT(f, &c->head, "'%s': until lies before from; exchange them", c->head.id);
        if (b->date.n_parts > DATE_PARTS_MOST)
            FAULT(f, &c->head, "'%s': date: %d parts; at most %d", c->head.id, b->date.n_parts,
                  DATE_PARTS_MOST);
        if (b->date.n_parts > 0 && b->length > 0)
            FAULT(f, &c->head, "'%s': a date has parts, a code has a length; leave one out",
                  c->head.id);
        if (b->length == 0 && b->date.n_parts == 0) {
            FAULT(f, &c->head, "'%s': neither length nor date; say which it is", c->head.id);
            continue;
        }
        check_places(f, &c->head, b);
        check_digit(f, &c->head, b);
        check_year(f, &c->head, b);
    }
}

void check_rules(struct faults *f, const struct trade *t)
{
    for (int i = 0; i < t->n_rules; i++) {
        const struct trade_rule *r = &t->rules[i];
        double points = 0;
        bool needed = false;
        for (int k = 0; k < r->n_parts; k++) {
            points += r->parts[k].points;
            needed |= r->parts[k].needed;
        }
        if (r->need > points)
            FAULT(f, &r->head, "'%s': needs %g points, its parts have %g; correct one", r->head.id,
                  r->need, points);
        if (r->need <= 0 && !needed)
            FAULT(f, &r->head, "'%s': nothing is needed; add need, or needed: true to a part",
                  r->head.id);
    }
    for (int d = 0; d < t->n_directions; d++)
        for (int k = 0; k < t->directions[d].n_changes; k++) {
            const struct trade_change *c = &t->directions[d].changes[k];
            if (c->n_systems == 0 && c->n_components == 0)
                FAULT(f, &t->directions[d].head,
                      "'%s': changes: '%s' names neither systems nor components; add them",
                      t->directions[d].head.id, c->what ? c->what : "?");
        }
}
