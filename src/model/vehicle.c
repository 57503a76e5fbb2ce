/* vehicle.c - the vehicle's components, their odds, and what was found of them. */
#include "model/build.h"

#include "model/evidence.h"
#include "reckon/belief.h"

#include <math.h>
#include <string.h>

/* The odds of trade data are given at this many years standing. */
static const double YEARS_AT = 25;

/* What an answer says of components that nobody has looked at (practice): taken as inferred, and
 * any finding wins. */
static const struct {
    int answer; /* 0 turns, 1 rolls, 2 stops */
    enum tri said;
    const char *component;
    enum condition condition;
} told[] = {
    {0, TRI_NO, "cylinder-bore", COND_FAILED},   {0, TRI_YES, "cylinder-bore", COND_WORN},
    {1, TRI_NO, "brake-drum", COND_FAILED},      {1, TRI_NO, "front-brake-drum", COND_FAILED},
    {2, TRI_NO, "master-cylinder", COND_FAILED},
};

/* The odds of trade data are those of all vehicles of an age, whatever they ran: the cuts are set
 * so that they hold over the usual spread of the miles. */
static void cuts_of(const struct build *b, const struct trade_component *c,
                    double cut[COND_COUNT - 1])
{
    const struct ageing *age = &b->t->ageing[c->ages];
    double years = b->facts->standing >= 0 ? b->facts->standing : b->figures.standing_if_unknown;
    double shift = age->standing * log2(fmax(years, 0.5) / YEARS_AT) +
                   age->storage[b->out->answers[ANSWER_STORAGE]];
    const double worn = age->wear * past_usual_spread(&b->figures);
    belief_cuts(age->odds, shift, age->missing[b->out->answers[ANSWER_STATE]], cut);
    for (int k = 0; k < COND_COUNT - 1; k++) cut[k] *= sqrt(1 + worn * worn);
}

static enum condition found(const struct build *b, int kind, int place)
{
    const struct fact_finding *finding = facts_finding(b->facts, kind, place);
    if (finding && finding->condition != COND_UNSEEN) return finding->condition;
    const enum tri said[] = {b->facts->turns, b->facts->rolls, b->facts->stops};
    for (size_t i = 0; i < sizeof told / sizeof told[0]; i++)
        if (said[told[i].answer] == told[i].said &&
            text_is(b->t->components[kind].head.id, told[i].component))
            return told[i].condition;
    return COND_UNSEEN;
}

/* What clock, papers and clues say of the miles; without them the usual spread. */
static void build_miles(struct build *b)
{
    struct project *p = &b->out->project;
    struct arena scratch = *b->a;
    struct past past;
    p->n_doublings = DOUBLINGS;
    if (b->ask && b->ask->like) {
        memcpy(p->doublings, b->ask->like->project.doublings, sizeof p->doublings);
        return;
    }
    past_weigh(&scratch, b->t, b->facts, &b->figures, b->out->answers, &past);
    past_doublings(&past, scratch, p->doublings);
}

void build_components(struct build *b)
{
    const struct trade *t = b->t;
    struct project *p = &b->out->project;
    int most = 0;
    for (int k = 0; k < t->n_components; k++) most += t->components[k].n_places;
    build_miles(b);
    p->components = ARENA_ARRAY(b->a, struct project_component, most);
    p->kind_stream = ARENA_ARRAY(b->a, uint64_t, t->n_components);
    b->out->component_kind = ARENA_ARRAY(b->a, int, most);
    b->out->component_place = ARENA_ARRAY(b->a, int, most);
    b->components_of = ARENA_ARRAY(b->a, struct range, t->n_components);
    for (int k = 0; k < t->n_components; k++) {
        const struct trade_component *c = &t->components[k];
        p->kind_stream[k] = text_hash(arena_print(b->a, "kind/%s", c->head.id));
        b->components_of[k].first = p->n_components;
        if (!fitted_holds(&c->fitted, b->out->answers)) continue;
        double cut[COND_COUNT - 1];
        cuts_of(b, c, cut);
        double state = t->ageing[c->ages].state;
        for (int i = 0; i < c->n_places; i++) {
            enum condition seen = found(b, k, c->places[i]);
            if (seen == COND_NOT_FITTED) continue;
            struct project_component *pc = &p->components[p->n_components];
            *pc = (struct project_component){
                .id = c->n_places > 1
                          ? arena_print(b->a, "%s@%s", c->head.id, t->places[c->places[i]].head.id)
                          : c->head.id,
                .kind = k,
                .state = state,
                .wear = t->ageing[c->ages].wear,
                .kind_share = fmin(b->figures.kind_share, 0.95 - state),
                .known = seen < COND_COUNT ? (int)seen : -1,
            };
            pc->stream = text_hash(arena_print(b->a, "component/%s", pc->id));
            memcpy(pc->cut, cut, sizeof cut);
            b->out->component_kind[p->n_components] = k;
            b->out->component_place[p->n_components++] = c->places[i];
        }
        b->components_of[k].count = p->n_components - b->components_of[k].first;
    }
    p->n_kinds = t->n_components;
}
