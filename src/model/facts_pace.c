#include "model/facts_pace.h"

#include "garage/kinds.h"

static int vehicle_number(struct arena *a, const char ***ids, int *n, size_t *capacity,
                          const char *id)
{
    for (int i = 0; i < *n; i++)
        if (text_is((*ids)[i], id)) return i;
    *ids = arena_grow(a, *ids, (size_t)*n, capacity, sizeof **ids);
    (*ids)[*n] = arena_copy(a, id);
    return (*n)++;
}

static int job_called(const struct trade *t, const char *word)
{
    for (int i = 0; i < t->n_jobs; i++)
        if (text_same_word(t->jobs[i].head.id, word)) return i;
    return -1;
}

bool facts_pace_read(struct garage *g, struct arena *a, const struct trade *t, const char *vehicle,
                     struct facts_pace *out, struct fail *f)
{
    const char **ids = NULL;
    size_t capacity = 0;
    struct record *r;
    int n;
    *out = (struct facts_pace){0};
    vehicle_number(a, &ids, &out->vehicles, &capacity, vehicle);
    if (!garage_list(g, a, &kind_work, NULL, &r, &n, f)) return false;
    out->items = ARENA_ARRAY(a, struct fact_logged, n);
    for (int i = 0; i < n; i++) {
        const struct value *date = record_get(&r[i], "date");
        out->items[out->n++] = (struct fact_logged){
            .vehicle = vehicle_number(a, &ids, &out->vehicles, &capacity, r[i].parents[0]),
            .job = job_called(t, record_text(&r[i], "job", "")),
            .minutes = record_number(&r[i], "hours", 0) / 60,
            .finished = record_integer(&r[i], "finished", 0) != 0,
            .setback = record_text(&r[i], "setback", NULL) != NULL,
            .date = date->set ? date->day : DAY_NONE};
    }
    return true;
}
