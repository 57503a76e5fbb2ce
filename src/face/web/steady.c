#include "face/web/steady.h"

#include <string.h>

/* What such a page hangs on: address, day, facts, trade data, who may see what, and whether the
 * looks that matter are known. */
static const char *steady_name(struct visit *v, struct fail *f)
{
    const struct request *r = v->request;
    struct answer_trade trade;
    struct shop_ask ask;
    struct text t = {.arena = v->arena};
    char key[65];
    if (!v->garage && !visit_garage(v, GARAGE_READ, f)) return NULL;
    if (!visit_shop_ask(v, v->piece[0] ? v->piece[0] : "", &ask, &trade, f)) return NULL;
    if (!answer_key(v->arena, QUESTION_CHOOSE, &ask, NULL, trade, key, f)) return NULL;
    text_print(&t, "%s %d %d %s", key, garage_cache_has(v->garage, *v->arena, key), v->site->beyond,
               r->path);
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
    struct fail ignored = {0};
    const char *name = steady_name(v, &ignored);
    const char *kept = name ? kept_get(v->site->kept, v->arena, name) : NULL;
    if (!kept) {
        if (!page(v, f)) return false;
        bool whole = out->status == 0 && !response_has(out, "Refresh") && out->body;
        if (name && whole) kept_put(v->site->kept, name, out->body);
        kept = out->body;
    }
    out->type = "text/html; charset=utf-8";
    char *body = arena_copy(v->arena, kept);
    place_token(v, body);
    out->body = body;
    out->length = strlen(body);
    return true;
}
