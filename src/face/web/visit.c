#include "face/web/visit.h"

#include <assert.h>

static void leave_garage(struct visit *v)
{
    if (v->garage) garage_pool_put_back(v->site->pool, v->garage);
    v->garage = NULL;
}

bool visit_garage(struct visit *v, enum garage_mode mode, struct fail *f)
{
    leave_garage(v);
    return garage_pool_take(v->site->pool, mode, &v->garage, f);
}

bool visit_trade(struct visit *v, const struct trade **out, struct fail *f)
{
    if (!v->trade && !shelf_take(v->site->shelf, &v->trade, f)) return false;
    *out = &v->trade->trade;
    return true;
}

bool visit_fail(struct visit *v, int status, struct fail *f, const char *line)
{
    v->response->status = status;
    return fail_set(f, FAIL_INPUT, "%s", line);
}

bool visit_vehicle(struct visit *v, struct record **out, struct fail *f)
{
    const struct record_kind *k = record_kind_find("vehicle");
    assert(k);
    if (!v->garage && !visit_garage(v, GARAGE_READ, f)) return false;
    if (garage_find(v->garage, v->arena, k, v->piece[0], out, f)) return true;
    if (f->kind == FAIL_INPUT) v->response->status = 404;
    return false;
}

bool visit_go(struct visit *v, const char *address)
{
    v->response->status = 303;
    response_header(v->response, "Location", address);
    return true;
}

void visit_end(struct visit *v)
{
    leave_garage(v);
    if (v->trade) shelf_put_back(v->site->shelf, v->trade);
    v->trade = NULL;
}
