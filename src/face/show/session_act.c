#include "face/show/session_act.h"

#include "garage/kinds.h"
#include "model/facts_session.h"

static bool figure(const char *name, const char *s, double low, double high, double *out,
                   struct fail *f)
{
    if (!s || !*s) return true;
    if (text_to_double(s, out) && *out >= low && *out <= high) return true;
    return fail_set(f, FAIL_INPUT, "%s: '%.40s' is no number from %g to %g", name, s, low, high);
}

bool session_evening(const char *hours, const char *hands, const char *degrees,
                     struct session_ask *out, struct fail *f)
{
    double pairs = out->hands;
    if (!figure("hours", hours, 0.25, 24, &out->hours, f) ||
        !figure("hands", hands, 1, 20, &pairs, f) ||
        !figure("degrees", degrees, -40, 50, &out->degrees, f))
        return false;
    out->hands = (int)pairs;
    return out->hands == pairs ||
           fail_set(f, FAIL_INPUT, "hands: '%.40s' is no whole number", hands);
}

static bool keep(struct arena *a, struct garage *g, const struct record_kind *k,
                 const char *const (*fields)[2], struct fail *f)
{
    struct record *r = record_new(a, k);
    for (; (*fields)[0]; fields++)
        if ((*fields)[1] && *(*fields)[1] && !record_set(a, r, (*fields)[0], (*fields)[1], NULL, f))
            return false;
    return record_valid(r, f) && garage_begin(g, f) && garage_add(g, r, f) && garage_commit(g, f);
}

static const char *date_of(struct arena *a, day d)
{
    struct text t = {.arena = a};
    day_print(&t, d);
    return text_get(&t);
}

bool session_done(struct arena *a, struct garage *g, const char *vehicle, const char *note,
                  const char *where, const char *photo, day today, struct fail *f)
{
    const char *const fields[][2] = {
        {"vehicle", vehicle},        {"note", note}, {"where", where}, {"photo", photo},
        {"date", date_of(a, today)}, {NULL, NULL}};
    return keep(a, g, &kind_left_off, fields, f);
}

bool session_cared(struct arena *a, struct garage *g, const struct trade *t, const char *vehicle,
                   const char *care, day today, struct fail *f)
{
    if (trade_find(t, SUBJECT_CARES, care) < 0) {
        const char *near = trade_nearest(t, SUBJECT_CARES, care);
        return fail_set(f, FAIL_INPUT, "session: there is no care '%.60s'; %s%s%s", care,
                        near ? "did you mean '" : "see fettle trade list care", near ? near : "",
                        near ? "'?" : "");
    }
    const char *const fields[][2] = {
        {"vehicle", vehicle}, {"care", care}, {"date", date_of(a, today)}, {NULL, NULL}};
    return keep(a, g, &kind_care_done, fields, f);
}

bool session_tool(struct arena *a, struct garage *g, const struct trade *t, const char *tool,
                  const char *have, struct fail *f)
{
    int i = tool_called(t, tool);
    if (i < 0) {
        const char *near = trade_nearest(t, SUBJECT_TOOLS, tool);
        return fail_set(f, FAIL_INPUT, "session: there is no tool '%.60s'; %s%s%s", tool,
                        near ? "did you mean '" : "see fettle trade list tools", near ? near : "",
                        near ? "'?" : "");
    }
    const char *const fields[][2] = {{"tool", t->tools[i].head.name}, {"have", have}, {NULL, NULL}};
    return keep(a, g, &kind_tool, fields, f);
}
