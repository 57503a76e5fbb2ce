#include "face/web/steady.h"

#include <inttypes.h>
#include <string.h>

/* What such a page hangs on: address, day, facts, trade data, which answers are kept, and who may
 * see what. NULL: not now. */
static const char *steady_name(struct visit *v)
{
    struct fail ignored = {0};
    const struct request *r = v->request;
    struct answer_trade trade;
    struct shop_ask ask;
    struct text t = {.arena = v->arena};
    char key[65];
    int64_t stamp;
    if ((!v->garage && !visit_garage(v, GARAGE_READ, &ignored)) ||
        !visit_shop_ask(v, v->piece[0] ? v->piece[0] : "", &ask, &trade, &ignored) ||
        !answer_key(v->arena, QUESTION_PLAN, &ask, NULL, trade, key, &ignored) ||
        !garage_cache_stamp(v->garage, *v->arena, &stamp))
        return NULL;
    text_print(&t, "%s %" PRId64 " %d %s", key, stamp, v->site->beyond, r->path);
    for (int i = 0; i < r->query.count; i++) {
        text_add(&t, i ? "&" : "?");
        html_percent(&t, r->query.items[i].name);
        text_add(&t, "=");
        html_percent(&t, r->query.items[i].value);
    }
    return text_get(&t);
}

/* Every place of the token gets this visit's own: both are as long. */
static void place_token(struct visit *v, char *page)
{
    v->steady = false;
    const char *token = visit_token(v), *place = v->site->token_place;
    for (char *at = page; (at = strstr(at, place)); at += strlen(place))
        memcpy(at, token, strlen(place));
}

bool steady_answer(struct visit *v, page_function *page, struct fail *f)
{
    struct response *out = v->response;
    const char *name = steady_name(v);
    char *body = name ? kept_get(v->site->kept, v->arena, name) : NULL;
    const bool claimed = name && !body && kept_claim(v->site->kept, name);
    if (name && !body && !claimed) body = kept_get(v->site->kept, v->arena, name);
    if (!body) {
        const bool made = page(v, f),
                   whole = made && out->status == 0 && !response_has(out, "Refresh") && out->body;
        if (name && whole) kept_put(v->site->kept, name, out->body);
        if (claimed) kept_release(v->site->kept, name);
        if (!made) return false;
        body = arena_copy(v->arena, out->body);
    }
    out->type = "text/html; charset=utf-8";
    place_token(v, body);
    out->body = body;
    out->length = strlen(body);
    return true;
}
