#include "model/facts_safe.h"

#include "garage/kinds.h"

#include <math.h>

static const char *kept(struct arena *a, const struct record *r, const char *field)
{
    const char *s = record_text(r, field, NULL);
    return s ? arena_copy(a, s) : NULL;
}

/* The day that was told, else the one on which it was told. */
static day day_of(const struct record *r, const char *field)
{
    const struct value *v = record_get(r, field);
    return v->set ? v->day : DAY_NONE;
}

static int named(const struct trade *t, enum subject s, const struct record *r, const char *field)
{
    const char *word = record_text(r, field, "");
    for (int i = 0; i < trade_count(t, s); i++) {
        const struct entry *e = trade_entry(t, s, i);
        if (text_same_word(e->id, word) || text_same_word(e->name, word)) return i;
    }
    return -1;
}

static bool read_kind(struct garage *g, struct arena *a, const char *kind, const char *vehicle,
                      struct record **r, int *n, struct fail *f)
{
    return garage_list(g, a, record_kind_find(kind), vehicle, r, n, f);
}

static void take_opened(struct arena *a, const struct trade *t, const struct record *r,
                        bool override, struct fact_opened *list, int *count)
{
    struct fact_opened o = {.gate = named(t, SUBJECT_GATES, r, "gate"),
                            .date = day_of(r, "date"),
                            .retest = override ? DAY_NONE : day_of(r, "retest"),
                            .at = arena_copy(a, r->at),
                            .reason = override ? kept(a, r, "reason") : NULL,
                            .missing = override ? kept(a, r, "missing") : NULL};
    if (o.gate >= 0) list[(*count)++] = o;
}

bool facts_safe_read(struct garage *g, struct arena *a, const struct trade *t, const char *vehicle,
                     struct facts_safe *out, struct fail *f)
{
    struct record *r;
    int n;
    *out = (struct facts_safe){0};
    if (!read_kind(g, a, "measurement", vehicle, &r, &n, f)) return false;
    out->readings = ARENA_ARRAY(a, struct fact_reading, n);
    for (int i = 0; i < n; i++) {
        struct fact_reading x = {.where = kept(a, &r[i], "where"),
                                 .unit = kept(a, &r[i], "unit"),
                                 .source = kept(a, &r[i], "source"),
                                 .proof = named(t, SUBJECT_PROOFS, &r[i], "what"),
                                 .value = record_number(&r[i], "value", 0),
                                 .low = record_number(&r[i], "low", NAN),
                                 .high = record_number(&r[i], "high", NAN),
                                 .date = day_of(&r[i], "date"),
                                 .retest = day_of(&r[i], "retest"),
                                 .at = arena_copy(a, r[i].at)};
        if (x.proof >= 0) out->readings[out->n_readings++] = x;
    }
    if (!read_kind(g, a, "witnessed", vehicle, &r, &n, f)) return false;
    out->witnessed = ARENA_ARRAY(a, struct fact_witnessed, n);
    for (int i = 0; i < n; i++) {
        struct fact_witnessed x = {.proof = named(t, SUBJECT_PROOFS, &r[i], "what"),
                                   .holds = record_integer(&r[i], "holds", 0) != 0,
                                   .by = kept(a, &r[i], "by"),
                                   .worker = kept(a, &r[i], "worker"),
                                   .date = day_of(&r[i], "date"),
                                   .at = arena_copy(a, r[i].at)};
        if (x.proof >= 0) out->witnessed[out->n_witnessed++] = x;
    }
    if (!read_kind(g, a, "gate-opened", vehicle, &r, &n, f)) return false;
    out->opened = ARENA_ARRAY(a, struct fact_opened, n);
    for (int i = 0; i < n; i++) take_opened(a, t, &r[i], false, out->opened, &out->n_opened);
    if (!read_kind(g, a, "gate-override", vehicle, &r, &n, f)) return false;
    out->overrides = ARENA_ARRAY(a, struct fact_opened, n);
    for (int i = 0; i < n; i++) take_opened(a, t, &r[i], true, out->overrides, &out->n_overrides);
    if (!read_kind(g, a, "session-check", vehicle, &r, &n, f)) return false;
    out->checks = ARENA_ARRAY(a, struct fact_checked, n);
    for (int i = 0; i < n; i++) {
        struct fact_checked x = {named(t, SUBJECT_CHECKS, &r[i], "check"), day_of(&r[i], "date")};
        if (x.check >= 0) out->checks[out->n_checks++] = x;
    }
    if (!read_kind(g, a, "work", vehicle, &r, &n, f)) return false;
    out->works = ARENA_ARRAY(a, struct fact_job_done, n);
    for (int i = 0; i < n; i++) {
        struct fact_job_done x = {named(t, SUBJECT_JOBS, &r[i], "job"),
                                  record_integer(&r[i], "finished", 0) != 0, day_of(&r[i], "date"),
                                  arena_copy(a, r[i].at)};
        if (x.job >= 0) out->works[out->n_works++] = x;
    }
    return true;
}
