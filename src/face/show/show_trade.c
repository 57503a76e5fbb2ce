#include "face/show/show_trade.h"

#include "base/text.h"
#include "face/show/show_trade_clue.h"
#include "face/show/show_trade_fit.h"
#include "face/show/show_trade_gate.h"
#include "face/show/show_trade_identity.h"

const char *points_words(struct arena *a, struct points p, const char *unit)
{
    if (p.high == 0) return "none";
    if (p.low == p.high) return arena_print(a, "%g %s", p.middle, unit);
    return arena_print(a, "%g / %g / %g %s", p.low, p.middle, p.high, unit);
}

const char *trade_source_words(struct arena *a, const struct trade *t, const char *source)
{
    int i = source ? trade_find(t, SUBJECT_SOURCES, source) : -1;
    if (i < 0) return "";
    const struct trade_source *s = &t->sources[i];
    return s->where && *s->where ? arena_print(a, "%s, %s", s->head.name, s->where) : s->head.name;
}

static bool already_cautioned(const struct sheet *s, const char *text)
{
    for (const struct sheet_node *n = s->first; n; n = n->next)
        if (n->kind == SHEET_CAUTION && text_is(n->as.caution.text, text)) return true;
    return false;
}

void show_cautions(struct sheet *s, const struct trade *t, const int *cautions, int count)
{
    for (int i = 0; i < count; i++) {
        const struct trade_caution *c = &t->cautions[cautions[i]];
        if (already_cautioned(s, c->text))
            sheet_caution(s, arena_print(s->arena, "as above: %s", c->head.name), "");
        else
            sheet_caution(s, c->text, c->defer);
    }
}

/* Names of entries, comma between; "" for none. */
static const char *names(struct arena *a, const struct trade *t, enum subject s, const int *index,
                         int count)
{
    struct text out = {.arena = a};
    for (int i = 0; i < count; i++)
        text_print(&out, "%s%s", i ? ", " : "", trade_entry(t, s, index[i])->name);
    return text_get(&out);
}

static void fact_if(struct sheet *s, const char *name, const char *value)
{
    if (value && *value) sheet_fact(s, TONE_PLAIN, name, "%s", value);
}

static const char *strings(struct arena *a, const char *const *list, int count)
{
    struct text out = {.arena = a};
    for (int i = 0; i < count; i++) text_print(&out, "%s%s", i ? ", " : "", list[i]);
    return text_get(&out);
}

static const char *fitted_words(struct arena *a, const struct fitted *f)
{
    struct text out = {.arena = a};
    for (int answer = 0; answer < ANSWER_COUNT; answer++) {
        if (!f->values[answer]) continue;
        text_print(&out, "%s%s ", out.length ? "; " : "", answer_name((enum answer)answer));
        bool first = true;
        for (int v = 0; v < ANSWER_VALUES; v++)
            if (f->values[answer] & 1u << v) {
                text_print(&out, "%s%s", first ? "" : " or ", answer_value((enum answer)answer, v));
                first = false;
            }
    }
    return text_get(&out);
}

static const char *direction_words(struct arena *a, const struct trade *t, uint32_t directions)
{
    struct text out = {.arena = a};
    for (int i = 0; i < t->n_directions; i++)
        if (directions & 1u << i)
            text_print(&out, "%s%s", out.length ? ", " : "", t->directions[i].head.id);
    return text_get(&out);
}

static const char *condition_words(struct arena *a, unsigned conditions)
{
    struct text out = {.arena = a};
    for (int c = 0; c < COND_COUNT; c++)
        if (conditions & 1u << c)
            text_print(&out, "%s%s", out.length ? ", " : "", condition_name((enum condition)c));
    return text_get(&out);
}

static const char *wait_words(struct arena *a, struct trade_wait w)
{
    return w.what_for ? arena_print(a, "%s, for %s", points_words(a, w.days, "days"), w.what_for)
                      : "";
}

static void buys(struct sheet *s, const struct trade *t, const struct trade_buy *parts, int count)
{
    if (count == 0) return;
    struct sheet_table *table = sheet_table(s, "");
    sheet_column(s, table, "part", ALIGN_LEFT, 1);
    sheet_column(s, table, "count", ALIGN_RIGHT, 1);
    sheet_column(s, table, "each", ALIGN_RIGHT, 1);
    sheet_column(s, table, "days to come", ALIGN_RIGHT, 2);
    sheet_column(s, table, "from", ALIGN_LEFT, 3);
    for (int i = 0; i < count; i++) {
        const struct trade_part *p = &t->parts[parts[i].part];
        sheet_cell(s, table, TONE_PLAIN, "%s", p->head.name);
        sheet_cell(s, table, TONE_PLAIN, "%g", parts[i].count);
        sheet_cell(s, table, TONE_PLAIN, "%s", points_words(s->arena, p->price, p->currency));
        sheet_cell(s, table, TONE_PLAIN, "%s", points_words(s->arena, p->lead, ""));
        sheet_cell(s, table, TONE_PLAIN, "%s", part_from_name(p->from));
    }
}

static void odds_chart(struct sheet *s, const double odds[COND_COUNT], const char *title)
{
    struct sheet_chart *c = sheet_chart(s, CHART_BARS, title, "%", 0, "0", 1, "100");
    for (int i = 0; i < COND_COUNT; i++) {
        struct chart_row row = {
            .label = condition_name((enum condition)i), .middle = odds[i], .high = odds[i]};
        row.text = arena_print(s->arena, "%.0f", odds[i] * 100);
        if (odds[i] > 0) sheet_chart_row(s, c, row);
    }
}

static void component(struct sheet *s, const struct trade *t, const struct trade_component *c)
{
    const struct ageing *age = &t->ageing[c->ages];
    fact_if(s, "system", t->systems[c->system].head.name);
    fact_if(s, "places", names(s->arena, t, SUBJECT_PLACES, c->places, c->n_places));
    fact_if(s, "fitted to", fitted_words(s->arena, &c->fitted));
    sheet_fact(s, TONE_PLAIN, "a look takes", "%g minutes", c->look_minutes);
    fact_if(s, "seen by", c->seen_by);
    fact_if(s, "ages as", age->head.name);
    odds_chart(s, age->odds, "Odds unseen: 25 years standing, dry shed, nothing missing");
    sheet_note(s, age->head.mark, "odds", trade_source_words(s->arena, t, age->head.source));
}

static void job(struct sheet *s, const struct trade *t, const struct trade_job *j)
{
    struct arena *a = s->arena;
    fact_if(s, "system", t->systems[j->system].head.name);
    fact_if(s, "package", package_name(j->package));
    fact_if(s, "directions", direction_words(a, t, j->directions));
    fact_if(s, "after", names(a, t, SUBJECT_JOBS, j->after, j->n_after));
    if (j->n_when)
        sheet_fact(s, TONE_PLAIN, "when", "%s: %s",
                   names(a, t, SUBJECT_COMPONENTS, j->when_components, j->n_when),
                   condition_words(a, j->when_conditions));
    fact_if(s, "fitted to", fitted_words(a, &j->fitted));
    fact_if(s, "hands-on", points_words(a, j->hours, "h"));
    fact_if(s, "beyond these hours", names(a, t, SUBJECT_SETBACKS, j->excludes, j->n_excludes));
    sheet_fact(s, TONE_PLAIN, "hands", "%d", j->hands);
    sheet_fact(s, TONE_PLAIN, "where", "%s%s", j->bay ? "in the bay" : "at bench or desk",
               j->unbroken ? ", in one go" : "");
    if (j->warm > -100) sheet_fact(s, TONE_PLAIN, "not below", "%g °C", j->warm);
    fact_if(s, "then waits", wait_words(a, j->wait));
    fact_if(s, "tools", strings(a, j->tools, j->n_tools));
    if (j->accept) {
        sheet_fact(s, TONE_PLAIN, "done when", "%s", j->accept);
        sheet_note(s, j->accept_mark, "done when", trade_source_words(a, t, j->accept_source));
    }
    show_cautions(s, t, j->cautions, j->n_cautions);
    for (int i = 0; i < j->n_steps; i++) sheet_item(s, "%s", j->steps[i]);
    buys(s, t, j->parts, j->n_parts);
}

static void setback(struct sheet *s, const struct trade *t, const struct trade_setback *b)
{
    struct arena *a = s->arena;
    for (int i = 0; i < b->n_at; i++) {
        const struct trade_setback_at *at = &b->at[i];
        sheet_fact(s, TONE_PLAIN, "may happen in", "%s%s", t->jobs[at->job].head.name,
                   at->each ? ", at each component" : "");
        struct text odds = {.arena = a};
        if (at->n_components == 0)
            text_print(&odds, "%.0f %%", at->chance[0] * 100);
        else
            for (int c = 0; c < COND_COUNT; c++)
                if (at->chance[c] > 0)
                    text_print(&odds, "%s%s %.0f %%", odds.length ? ", " : "",
                               condition_name((enum condition)c), at->chance[c] * 100);
        sheet_fact(s, TONE_PLAIN, "odds", "%s", text_get(&odds));
    }
    sheet_heading(s, 2, "The ladder: go on to the next step only when one has not helped");
    for (int i = 0; i < b->n_ladder; i++) {
        const struct trade_step *step = &b->ladder[i];
        sheet_fact(s, TONE_PLAIN, arena_print(a, "%d", i + 1), "%s (helps %.0f %%; %s%s%s)",
                   step->act, step->works * 100, points_words(a, step->hours, "h"),
                   step->wait.what_for ? "; then waits " : "", wait_words(a, step->wait));
        fact_if(s, "", step->risk ? arena_print(a, "risk: %s", step->risk) : "");
        show_cautions(s, t, step->cautions, step->n_cautions);
        buys(s, t, step->parts, step->n_parts);
    }
    if (b->stop) sheet_fact(s, TONE_CARE, "stop", "%s", b->stop);
    if (b->tonight) sheet_fact(s, TONE_PLAIN, "until another day", "%s", b->tonight);
}

static void part(struct sheet *s, const struct trade *t, const struct trade_part *p)
{
    fact_if(s, "system", t->systems[p->system].head.name);
    fact_if(s, "from", part_from_name(p->from));
    sheet_fact(s, TONE_PLAIN, "price each", "%s (%d)",
               points_words(s->arena, p->price, p->currency), p->price_year);
    fact_if(s, "days to come", points_words(s->arena, p->lead, "days"));
}

static void direction(struct sheet *s, const struct trade *t, const struct trade_direction *d)
{
    fact_if(s, "charter's verbs", d->charter);
    fact_if(s, "done when", names(s->arena, t, SUBJECT_JOBS, d->done, d->n_done));
    fact_if(s, "worth", d->worth_hint);
    if (d->grade > 0)
        sheet_fact(s, TONE_PLAIN, "ends at", "grade %g; %.0f %% of what is as built stays so%s",
                   d->grade, 100 * d->original, d->driven ? "; it can be driven" : "");
    if (d->n_lost) sheet_heading(s, 2, "What is lost for good");
    for (int i = 0; i < d->n_lost; i++) sheet_item(s, "%s", d->lost[i]);
    show_changes(s, d);
}

static void figure(struct sheet *s, const struct trade_default *d)
{
    struct text out = {.arena = s->arena};
    for (int i = 0; i < d->n_value; i++) text_print(&out, "%s%g", i ? " / " : "", d->value[i]);
    sheet_fact(s, TONE_PLAIN, "value", "%s %s", text_get(&out), d->unit ? d->unit : "");
    if (d->text) sheet_text(s, "%s", d->text);
}

static void sign(struct sheet *s, const struct trade *t, const struct trade_sign *w)
{
    if (w->n_components)
        sheet_fact(s, TONE_BAD, "walk away when", "%s: %s",
                   names(s->arena, t, SUBJECT_COMPONENTS, w->components, w->n_components),
                   condition_words(s->arena, w->conditions));
    fact_if(s, "fitted to", fitted_words(s->arena, &w->fitted));
    fact_if(s, "place", t->places[w->place].head.name);
    sheet_fact(s, TONE_PLAIN, "a look takes", "%g minutes", w->minutes);
    fact_if(s, "seen by", w->seen_by);
    fact_if(s, "why", w->why);
    fact_if(s, "ask", w->ask);
}

static void glance(struct sheet *s, const struct trade *t, const struct trade_glance *g)
{
    fact_if(s, "of", t->components[g->component].head.name);
    sheet_fact(s, TONE_PLAIN, "at a viewing", "%g minutes", g->minutes);
    fact_if(s, "seen by", g->seen_by);
}

static void outing(struct sheet *s, const struct trade *t, const struct trade_outing *o)
{
    sheet_text(s, "%s", o->text);
    show_cautions(s, t, o->cautions, o->n_cautions);
}

static void care(struct sheet *s, const struct trade *t, const struct trade_care *c)
{
    sheet_text(s, "%s", c->act);
    show_cautions(s, t, c->cautions, c->n_cautions);
    sheet_fact(s, TONE_PLAIN, "every", "%d days", c->every);
    sheet_fact(s, TONE_PLAIN, "takes", "%g minutes", c->minutes);
    fact_if(s, "fitted to", fitted_words(s->arena, &c->fitted));
    fact_if(s, "once begun", names(s->arena, t, SUBJECT_JOBS, c->since, c->n_since));
    fact_if(s, "until done", names(s->arena, t, SUBJECT_JOBS, c->until, c->n_until));
    fact_if(s, "accept when", c->accept);
    fact_if(s, "tools", strings(s->arena, c->tools, c->n_tools));
}

struct sheet *show_trade_entry(struct arena *a, const struct trade *t, enum subject s, int index)
{
    const struct entry *e = trade_entry(t, s, index);
    struct sheet *out = sheet_new(a, e->name);
    sheet_fact(out, TONE_FAINT, "id", "%s (%s)", e->id, subject_name(s));
    fact_if(out, "also called", strings(a, e->also, e->n_also));
    switch (s) {
    case SUBJECT_COMPONENTS:
        component(out, t, &t->components[index]);
        break;
    case SUBJECT_JOBS:
        job(out, t, &t->jobs[index]);
        break;
    case SUBJECT_SETBACKS:
        setback(out, t, &t->setbacks[index]);
        break;
    case SUBJECT_PARTS:
        part(out, t, &t->parts[index]);
        break;
    case SUBJECT_DIRECTIONS:
        direction(out, t, &t->directions[index]);
        break;
    case SUBJECT_CAUTIONS:
        sheet_caution(out, t->cautions[index].text, t->cautions[index].defer);
        break;
    case SUBJECT_COVERAGE:
        sheet_text(out, "%s", t->coverage[index].text);
        break;
    case SUBJECT_DEFAULTS:
        figure(out, &t->defaults[index]);
        break;
    case SUBJECT_SOURCES:
        fact_if(out, "where", t->sources[index].where);
        break;
    case SUBJECT_PLACES:
        fact_if(out, "members",
                names(a, t, SUBJECT_PLACES, t->places[index].members, t->places[index].n_members));
        break;
    case SUBJECT_AGEING:
        odds_chart(out, t->ageing[index].odds, "Odds: 25 years standing, dry shed");
        break;
    case SUBJECT_SIGNS:
        sign(out, t, &t->signs[index]);
        break;
    case SUBJECT_GLANCES:
        glance(out, t, &t->glances[index]);
        break;
    case SUBJECT_OUTINGS:
        outing(out, t, &t->outings[index]);
        break;
    case SUBJECT_CLUSTERS:
        show_trade_cluster(out, t, index);
        break;
    case SUBJECT_CLUES:
        show_trade_clue(out, t, index);
        break;
    case SUBJECT_CODEBOOKS:
        show_codebook(out, t, &t->codebooks[index]);
        break;
    case SUBJECT_RULES:
        show_rule(out, t, &t->rules[index]);
        break;
    case SUBJECT_JOINS:
        show_join(out, t, &t->joins[index]);
        break;
    case SUBJECT_FITTINGS:
        show_fitting(out, t, &t->fittings[index]);
        break;
    case SUBJECT_NEEDS:
        show_need(out, t, index);
        break;
    case SUBJECT_OPTIONS:
        show_option(out, t, &t->options[index]);
        break;
    case SUBJECT_PROOFS:
        show_proof(out, t, &t->proofs[index]);
        break;
    case SUBJECT_GATES:
        show_gate(out, t, &t->gates[index]);
        break;
    case SUBJECT_CHECKS:
        show_check(out, t, &t->checks[index]);
        break;
    case SUBJECT_CARES:
        care(out, t, &t->cares[index]);
        break;
    case SUBJECT_FASTENERS:
        sheet_fact(out, TONE_PLAIN, "used again", "%s", again_name(t->fasteners[index].again));
        sheet_fact(out, TONE_PLAIN, "why", "%s", t->fasteners[index].why);
        break;
    case SUBJECT_SEALS:
        show_seal(out, &t->seals[index]);
        break;
    case SUBJECT_SYSTEMS:
    case SUBJECT_TOOLS:
    case SUBJECT_COUNT:
        break;
    }
    sheet_note(out, e->mark,
               arena_print(a, "%s:%d%s", e->file, e->line, e->own ? ", the garage's own" : ""),
               trade_source_words(a, t, e->source));
    return out;
}

struct sheet *show_trade_hits(struct arena *a, const struct trade *t, const char *title,
                              const struct trade_hit *hits, int count)
{
    struct sheet *s = sheet_new(a, title);
    struct sheet_table *table = sheet_table(s, "");
    sheet_column(s, table, "id", ALIGN_LEFT, 1);
    sheet_column(s, table, "name", ALIGN_LEFT, 1);
    sheet_column(s, table, "subject", ALIGN_LEFT, 2);
    sheet_column(s, table, "mark", ALIGN_LEFT, 3);
    for (int i = 0; i < count; i++) {
        const struct entry *e = trade_entry(t, hits[i].subject, hits[i].index);
        sheet_cell(s, table, TONE_PLAIN, "%s", e->id);
        sheet_cell(s, table, TONE_PLAIN, "%s", e->name);
        sheet_cell(s, table, TONE_PLAIN, "%s", subject_name(hits[i].subject));
        sheet_cell(s, table, TONE_PLAIN, "%s", mark_word(e->mark));
    }
    if (count) sheet_link(s, "All that is known of one", "trade show ID");
    return s;
}

static json_t *points_json(struct points p)
{
    return json_pack("{s: f, s: f, s: f}", "low", p.low, "middle", p.middle, "high", p.high);
}

json_t *trade_entry_to_json(const struct trade *t, enum subject s, int index)
{
    const struct entry *e = trade_entry(t, s, index);
    json_t *out =
        json_pack("{s: s, s: s, s: s, s: s, s: s?, s: s, s: i, s: b}", "subject", subject_name(s),
                  "id", e->id, "name", e->name, "mark", mark_word(e->mark), "source", e->source,
                  "file", e->file, "line", e->line, "own", e->own);
    if (s == SUBJECT_JOBS) {
        json_object_set_new(out, "hours", points_json(t->jobs[index].hours));
    } else if (s == SUBJECT_PARTS) {
        json_object_set_new(out, "price", points_json(t->parts[index].price));
        json_object_set_new(out, "currency", json_string(t->parts[index].currency));
        json_object_set_new(out, "lead", points_json(t->parts[index].lead));
    } else if (s == SUBJECT_COMPONENTS) {
        json_t *odds = json_object();
        for (int c = 0; c < COND_COUNT; c++)
            json_object_set_new(odds, condition_name((enum condition)c),
                                json_real(t->ageing[t->components[index].ages].odds[c]));
        json_object_set_new(out, "odds", odds);
    }
    return out;
}
