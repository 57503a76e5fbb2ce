#include "shop/survey.h"

#include <stdlib.h>
#include <string.h>

/* The stop of the lap: the topmost place above it. */
static const struct trade_place *lap_of(const struct trade *t, int place)
{
    while (t->places[place].parent >= 0) place = t->places[place].parent;
    return &t->places[place];
}

/* Places lie in one array in the order of the lap, kinds in that of their files. */
static int by_lap(const void *a, const void *b)
{
    const struct survey_line *x = a, *y = b;
    if (x->lap != y->lap) return x->lap < y->lap ? -1 : 1;
    if (x->kind->system != y->kind->system) return x->kind->system - y->kind->system;
    if (x->kind != y->kind) return x->kind < y->kind ? -1 : 1;
    return strcmp(x->id, y->id);
}

static void add_line(struct survey *out, const struct trade *t, const struct facts *facts,
                     const struct model *m, const struct belief *belief, int component)
{
    const struct project_component *pc = &m->project.components[component];
    int kind = m->component_kind[component], place = m->component_place[component];
    const struct fact_finding *finding = facts_finding(facts, kind, place);
    struct survey_line *line = &out->lines[out->n_lines++];
    *line = (struct survey_line){.id = pc->id,
                                 .kind = &t->components[kind],
                                 .place = &t->places[place],
                                 .lap = lap_of(t, place),
                                 .date = DAY_NONE};
    line->seen = finding && finding->condition < COND_COUNT;
    line->inferred = !line->seen && pc->known >= 0;
    if (finding) line->date = finding->date;
    belief_odds(belief, &m->project, component, line->odds);
    for (int c = 0; c < COND_COUNT; c++)
        if (line->odds[c] > line->odds[line->condition]) line->condition = (enum condition)c;
    out->seen += line->seen;
}

bool survey_reckon(struct arena *a, const struct shop_ask *ask, struct survey *out, struct fail *f)
{
    struct facts *facts = ARENA_NEW(a, struct facts);
    struct model *m = ARENA_NEW(a, struct model);
    *out = (struct survey){0};
    if (!facts_read(ask->garage, a, ask->trade, ask->vehicle, facts, f)) return false;
    if (!model_survey(a, ask->trade, facts, m, f)) return false;
    struct belief belief = belief_of(a, &m->project);
    out->vehicle = facts->name;
    out->notes = m->notes;
    out->n_notes = m->n_notes;
    out->lines = ARENA_ARRAY(a, struct survey_line, m->project.n_components);
    for (int i = 0; i < m->project.n_components; i++)
        add_line(out, ask->trade, facts, m, &belief, i);
    qsort(out->lines, (size_t)out->n_lines, sizeof *out->lines, by_lap);
    out->loose = ARENA_ARRAY(a, const char *, facts->n_findings);
    for (int i = 0; i < facts->n_findings; i++) {
        if (facts->findings[i].kind < 0) out->loose[out->n_loose++] = facts->findings[i].component;
        if (facts->findings[i].condition == COND_NOT_FITTED) out->not_fitted++;
    }
    return true;
}
