#include "face/show/show_tools.h"

#include "face/show/words.h"

#include <math.h>

static const char *money(struct arena *a, const struct tools *x, double minor)
{
    return words_money(a, minor, x->currency);
}

/* "hire from the club, 12 to 20 Dec: 45 GBP; then buy: 60 GBP" */
static const char *way_words(struct arena *a, const struct tools *x, const struct tool_need *n)
{
    struct text t = {.arena = a};
    if (n->have == TOOL_OWNED) return "";
    if (n->n_steps == 0)
        return n->n_offers > 0            ? "no way that was told covers it"
               : n->have == TOOL_NOT_TOLD ? ""
                                          : "nobody told how";
    for (int i = 0; i < n->n_steps; i++) {
        const struct tool_step *s = &n->steps[i];
        const struct tool_offer *o = n->offers[s->way];
        text_print(&t, "%s%s", i ? "; then " : "", tool_way_name(o->way));
        if (o->whose) text_print(&t, " from %s", o->whose);
        if (o->way != WAY_BUY)
            text_print(&t, ", %s to %s", words_short_day(a, n->spells[s->first].from),
                       words_short_day(a, n->spells[s->last].to));
        text_print(&t, ": %s", s->cost > 0 ? money(a, x, s->cost) : "nothing");
    }
    return text_get(&t);
}

static void show_needs(struct sheet *s, const struct tools *x)
{
    static const char *const have[] = {"not told", "here", "borrowed", "missing"};
    static const enum tone tones[] = {TONE_CARE, TONE_GOOD, TONE_PLAIN, TONE_BAD};
    struct sheet_table *t = sheet_table(s, "");
    sheet_column(s, t, "tool", ALIGN_LEFT, 1);
    sheet_column(s, t, "is", ALIGN_LEFT, 1);
    sheet_column(s, t, "wanted by", ALIGN_LEFT, 1);
    sheet_column(s, t, "for", ALIGN_LEFT, 2);
    sheet_column(s, t, "at least cost", ALIGN_LEFT, 1);
    for (int i = 0; i < x->n_needs; i++) {
        const struct tool_need *n = &x->needs[i];
        sheet_cell(s, t, TONE_PLAIN, "%s", x->trade->tools[n->tool].head.name);
        sheet_cell(s, t, tones[n->have], "%s", have[n->have]);
        sheet_cell(s, t, TONE_PLAIN, "%s", words_date(s->arena, n->by));
        sheet_cell(s, t, TONE_PLAIN, "%s%s", words_inside(s->arena, n->first->head.name),
                   n->n_jobs > 1 ? arena_print(s->arena, ", and %d more", n->n_jobs - 1) : "");
        sheet_cell(s, t, TONE_PLAIN, "%s", way_words(s->arena, x, n));
    }
}

static void show_people(struct sheet *s, const struct tools *x)
{
    if (x->n_promises > 0) sheet_heading(s, 2, "Promised, and not kept yet");
    for (int i = 0; i < x->n_promises; i++) {
        const struct tool_promise *p = &x->promises[i];
        sheet_fact(s, p->late ? TONE_BAD : TONE_PLAIN, p->who, "%s%s%s", p->what,
                   p->by == DAY_NONE ? ""
                                     : arena_print(s->arena, ", by %s", words_day(s->arena, p->by)),
                   p->late ? ": late, ask" : "");
    }
    if (x->n_people == 0) return;
    sheet_heading(s, 2, "Who knows, who lends");
    struct sheet_table *t = sheet_table(s, "");
    static const char *const fields[] = {"name", "knows", "lends", "reach"};
    for (int i = 0; i < 4; i++) sheet_column(s, t, fields[i], ALIGN_LEFT, i == 3 ? 2 : 1);
    for (int i = 0; i < x->n_people; i++)
        for (int k = 0; k < 4; k++)
            sheet_cell(s, t, TONE_PLAIN, "%s", record_text(&x->people[i], fields[k], ""));
}

struct sheet *show_tools(struct arena *a, const struct tools *x)
{
    struct sheet *s = sheet_new(a, arena_print(a, "%s: tools", x->vehicle));
    sheet_text(s, "The plan wants %d tools; %d of them are missing, or nobody told of them.",
               x->n_needs, x->n_wanting);
    if (x->cost > 0)
        sheet_fact(s, TONE_PLAIN, "those that a way is known for", "%s", money(a, x, x->cost));
    if (x->n_needs > 0) show_needs(s, x);
    if (x->n_wanting > 0)
        sheet_text(s, "Tell what is there: fettle session tool NAME owned; and how to have what is "
                      "not: fettle add tool-offer tool=NAME way=hire a-day=SUM");
    show_people(s, x);
    return s;
}

static json_t *day_json(struct arena *a, day d)
{
    struct text t = {.arena = a};
    if (d == DAY_NONE) return json_null();
    day_print(&t, d);
    return json_string(text_get(&t));
}

json_t *show_tools_json(struct arena *a, const struct tools *x)
{
    static const char *const have[] = {"not told", "owned", "borrowed", "missing"};
    json_t *needs = json_array(), *promises = json_array();
    for (int i = 0; i < x->n_needs; i++) {
        const struct tool_need *n = &x->needs[i];
        json_t *steps = json_array();
        for (int k = 0; k < n->n_steps; k++)
            json_array_append_new(steps,
                                  json_pack("{s:s, s:s?, s:o, s:o, s:o}", "way",
                                            tool_way_name(n->offers[n->steps[k].way]->way), "whose",
                                            n->offers[n->steps[k].way]->whose, "from",
                                            day_json(a, n->spells[n->steps[k].first].from), "to",
                                            day_json(a, n->spells[n->steps[k].last].to), "cost",
                                            words_json_money(n->steps[k].cost, x->currency)));
        json_array_append_new(needs,
                              json_pack("{s:s, s:s, s:o, s:s, s:i, s:o}", "tool",
                                        x->trade->tools[n->tool].head.id, "have", have[n->have],
                                        "by", day_json(a, n->by), "job", n->first->head.id, "jobs",
                                        n->n_jobs, "steps", steps));
    }
    for (int i = 0; i < x->n_promises; i++)
        json_array_append_new(promises,
                              json_pack("{s:s, s:s, s:o, s:b}", "who", x->promises[i].who, "what",
                                        x->promises[i].what, "by", day_json(a, x->promises[i].by),
                                        "late", x->promises[i].late));
    return json_pack("{s:s, s:o, s:o, s:o}", "vehicle", x->vehicle, "tools", needs, "cost",
                     words_json_money(x->cost, x->currency), "promises", promises);
}
