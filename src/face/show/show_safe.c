#include "face/show/show_safe.h"

#include "face/show/show_trade.h"
#include "face/show/show_trade_gate.h"

enum tone gate_tone(enum gate_state state)
{
    static const enum tone tones[] = {TONE_BAD, TONE_CARE, TONE_CARE, TONE_GOOD, TONE_BAD};
    return tones[state];
}

const char *gate_words(struct arena *a, const struct safe_gate *g)
{
    return arena_print(a, "%s%s%s", gate_state_name(g->state),
                       g->missing ? arena_print(a, ", %d missing", g->missing) : "",
                       g->shut_again ? ", though it was open once" : "");
}

void safe_show_state(struct sheet *s, const struct safe_gate *g)
{
    sheet_fact(s, gate_tone(g->state), "state", "%s", gate_words(s->arena, g));
    if (g->reason) sheet_fact(s, TONE_BAD, "overridden because", "%s", g->reason);
    for (int i = 0; i < g->n_behind; i++)
        sheet_fact(s, TONE_CARE, "done while it was shut", "%s", g->behind[i]->head.name);
}

static void write_gate(struct sheet *s, const struct safe *x, const struct safe_gate *g, bool whole)
{
    sheet_heading(s, 2, g->gate->head.name);
    safe_show_state(s, g);
    if (!whole) return;
    show_cautions(s, x->trade, g->gate->cautions, g->gate->n_cautions);
    for (int i = 0; i < g->n_needs; i++) {
        const struct safe_need *n = &g->needs[i];
        const struct trade_proof *p = n->kind == NEED_PROOF ? &x->trade->proofs[n->index] : NULL;
        sheet_item(s, "%s: %s (%s): %s%s", n->holds ? "holds" : "MISSING", n->name, n->id, n->why,
                   p && !n->holds
                       ? arena_print(s->arena, ". %s; %s%s", p->how, proof_limits(s->arena, p),
                                     mark_behind(s->arena, p->head.mark))
                       : "");
    }
}

struct sheet *show_safe(struct arena *a, const struct safe *x, int gate)
{
    struct sheet *s = sheet_new(a, arena_print(a, "Safe: %s", x->vehicle));
    for (int i = 0; i < x->n_gates; i++)
        if (gate < 0 || gate == i) write_gate(s, x, &x->gates[i], gate == i);
    if (gate >= 0) return s;
    sheet_heading(s, 2, "Asked afresh each session");
    for (int i = 0; i < x->trade->n_checks; i++)
        sheet_fact(s, x->checked[i] ? TONE_GOOD : TONE_CARE, x->trade->checks[i].head.id, "%s",
                   x->checked[i] ? "checked today" : "not checked today");
    return s;
}

json_t *show_safe_json(const struct safe *x, int gate)
{
    json_t *gates = json_array(), *checks = json_array();
    for (int i = 0; i < x->n_gates; i++) {
        const struct safe_gate *g = &x->gates[i];
        json_t *needs = json_array();
        if (gate >= 0 && gate != i) {
            json_decref(needs);
            continue;
        }
        for (int k = 0; k < g->n_needs; k++)
            json_array_append_new(needs,
                                  json_pack("{s:s, s:b, s:s}", "need", g->needs[k].id, "holds",
                                            g->needs[k].holds, "why", g->needs[k].why));
        json_array_append_new(gates, json_pack("{s:s, s:s, s:o}", "gate", g->gate->head.id, "state",
                                               gate_state_name(g->state), "needs", needs));
    }
    for (int i = 0; i < x->trade->n_checks; i++)
        json_array_append_new(checks, json_pack("{s:s, s:b}", "check", x->trade->checks[i].head.id,
                                                "today", x->checked[i]));
    return json_pack("{s:s, s:o, s:o}", "vehicle", x->vehicle, "gates", gates, "checks", checks);
}
