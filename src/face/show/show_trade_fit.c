#include "face/show/show_trade_fit.h"

#include "face/show/show_trade.h"

#include <math.h>

static bool is_open(const struct trade_end *e)
{
    return !e->is && isnan(e->least) && isnan(e->most);
}

const char *end_words(struct arena *a, const struct trade *t, const struct trade_end *e)
{
    const char *unit = t->joins[e->join].unit ? t->joins[e->join].unit : "";
    if (e->is) return e->is;
    if (is_open(e)) return "not known";
    if (isnan(e->least)) return arena_print(a, "at most %g %s", e->most, unit);
    if (isnan(e->most)) return arena_print(a, "at least %g %s", e->least, unit);
    if (e->least == e->most) return arena_print(a, "%g %s", e->least, unit);
    return arena_print(a, "%g to %g %s", e->least, e->most, unit);
}

const char *undo_words(enum option_undo u)
{
    static const char *const words[UNDO_COUNT] = {"yes", "with care, the old parts kept", "no"};
    return words[u];
}

static void ends(struct sheet *s, const struct trade *t, const char *side,
                 const struct trade_end *list, int count)
{
    for (int i = 0; i < count; i++) {
        const struct trade_join *j = &t->joins[list[i].join];
        sheet_fact(s, TONE_PLAIN, side, "%s: %s", j->head.name, end_words(s->arena, t, &list[i]));
    }
}

void show_join(struct sheet *s, const struct trade *t, const struct trade_join *j)
{
    static const char *const rules[JOIN_RULES] = {"what is given lies within what is taken",
                                                  "both ends are the same",
                                                  "the ends differ by no more than"};
    sheet_fact(s, TONE_PLAIN, "system", "%s", t->systems[j->system].head.name);
    if (j->rule == JOIN_NEAR)
        sheet_fact(s, TONE_PLAIN, "fits when", "%s %g %s", rules[j->rule], j->within, j->unit);
    else
        sheet_fact(s, TONE_PLAIN, "fits when", "%s", rules[j->rule]);
    sheet_fact(s, TONE_PLAIN, "one end", "%s", j->gives);
    sheet_fact(s, TONE_PLAIN, "the other", "%s", j->takes);
    sheet_fact(s, TONE_PLAIN, "to find it out", "%s", j->measure);
    sheet_fact(s, TONE_CARE, "if it does not fit", "%s", j->misfit);
    show_cautions(s, t, j->cautions, j->n_cautions);
}

void show_fitting(struct sheet *s, const struct trade *t, const struct trade_fitting *f)
{
    sheet_fact(s, TONE_PLAIN, "of", "%s", t->components[f->component].head.name);
    ends(s, t, "gives", f->gives, f->n_gives);
    ends(s, t, "takes", f->takes, f->n_takes);
}

void show_need(struct sheet *s, const struct trade *t, int index)
{
    const struct trade_need *n = &t->needs[index];
    sheet_fact(s, TONE_PLAIN, "system", "%s", t->systems[n->system].head.name);
    for (int i = 0; i < n->n_jobs; i++)
        sheet_fact(s, TONE_PLAIN, "asked for by", "%s", t->jobs[n->jobs[i]].head.name);
    for (int i = 0; i < t->n_options; i++)
        for (int k = 0; k < t->options[i].n_brings; k++)
            if (t->options[i].brings[k] == index)
                sheet_fact(s, TONE_PLAIN, "brought by", "%s", t->options[i].head.name);
    sheet_heading(s, 2, "Met by one of");
    for (int i = 0; i < t->n_options; i++)
        if (t->options[i].need == index)
            sheet_item(s, "%s: %s (%s)", option_way_name(t->options[i].way),
                       t->options[i].head.name, t->options[i].head.id);
}

void show_option(struct sheet *s, const struct trade *t, const struct trade_option *o)
{
    if (o->need >= 0) sheet_fact(s, TONE_PLAIN, "meets", "%s", t->needs[o->need].head.name);
    sheet_fact(s, TONE_PLAIN, "way", "%s", option_way_name(o->way));
    for (int i = 0; i < o->n_parts; i++)
        sheet_fact(s, TONE_PLAIN, "part", "%g %s", o->parts[i].count,
                   t->parts[o->parts[i].part].head.name);
    if (o->hours.high > 0)
        sheet_fact(s, TONE_PLAIN, "hours", "%s", points_words(s->arena, o->hours, "h"));
    for (int i = 0; i < o->n_brings; i++)
        sheet_fact(s, TONE_CARE, "brings", "%s", t->needs[o->brings[i]].head.name);
    for (int i = 0; i < o->n_requires; i++)
        sheet_fact(s, TONE_PLAIN, "only with", "%s", t->options[o->requires[i]].head.name);
    for (int i = 0; i < o->n_conflicts; i++)
        sheet_fact(s, TONE_PLAIN, "never with", "%s", t->options[o->conflicts[i]].head.name);
    for (int i = 0; i < o->n_replaces; i++)
        sheet_fact(s, TONE_PLAIN, "takes the place of", "%s",
                   t->components[o->replaces[i]].head.name);
    for (int i = 0; i < o->n_frees; i++)
        sheet_fact(s, TONE_PLAIN, "does the work of", "%s", t->fittings[o->frees[i]].head.id);
    ends(s, t, "gives", o->gives, o->n_gives);
    ends(s, t, "takes", o->takes, o->n_takes);
    for (int i = 0; i < o->n_adapts; i++) {
        struct trade_end out = o->adapts[i].out;
        out.join = o->adapts[i].in.join;
        const char *join = t->joins[out.join].head.name;
        if (is_open(&o->adapts[i].in) && is_open(&out))
            sheet_fact(s, TONE_PLAIN, "adapts", "%s: made to measure", join);
        else
            sheet_fact(s, TONE_PLAIN, "adapts", "%s: %s, to %s", join,
                       end_words(s->arena, t, &o->adapts[i].in), end_words(s->arena, t, &out));
    }
    sheet_fact(s, TONE_PLAIN, "then it is", "%s", originality_name(o->original));
    sheet_fact(s, o->undo == UNDO_NO ? TONE_CARE : TONE_PLAIN, "can be undone", "%s",
               undo_words(o->undo));
    if (o->keep) sheet_fact(s, TONE_PLAIN, "keep", "%s", o->keep);
    if (o->note) sheet_text(s, "%s", o->note);
    show_cautions(s, t, o->cautions, o->n_cautions);
}

void show_seal(struct sheet *s, const struct trade_seal *x)
{
    static const char *const kinds[SEAL_KINDS] = {"sponge rubber", "solid rubber", "foam"};
    sheet_fact(s, TONE_PLAIN, "made of", "%s", kinds[x->kind]);
    if (x->hold == HELD_BY_GLUE)
        sheet_fact(s, TONE_PLAIN, "held by", "glue");
    else
        sheet_fact(s, TONE_PLAIN, "held by", "%s of %g to %g mm",
                   x->hold == HELD_BY_FLANGE ? "an edge" : "a groove", x->from, x->to);
    sheet_fact(s, TONE_PLAIN, "height", "%g mm uncompressed", x->height);
    sheet_fact(s, TONE_PLAIN, "breadth", "%g mm", x->breadth);
    sheet_fact(s, TONE_PLAIN, "force", "%g N close 100 mm of it", x->force);
    sheet_link(s, "Does it fit?", "bench seal-profile");
}
