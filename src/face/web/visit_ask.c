/* visit_ask.c - what a page asks of a vehicle: reckoned once by the site's reckoner, kept as an
 * answer in the garage's cache and as HTML in memory. */
#include "face/web/page_frame.h"
#include "face/web/visit.h"

#include <stdlib.h>
#include <string.h>

/* Milliseconds after which a reckoning is shown to go on; a browser that has been shown it once
 * asks again at once and then is kept waiting. */
enum { SHOWN_AFTER = 120, SHOWN_AGAIN_AFTER = 3000 };

static bool load_trade(void *context, const struct trade **out, struct fail *f)
{
    return visit_trade(context, out, f);
}

static bool digest_trade(void *context, char hex[65], struct fail *f)
{
    struct visit *v = context;
    const struct trade *ignored;
    if (!visit_trade(v, &ignored, f)) return false;
    memcpy(hex, v->trade->digest, 65);
    return true;
}

static struct shop_ask ask_of(const struct visit *v, const char *vehicle)
{
    return (struct shop_ask){.garage = v->garage,
                             .vehicle = vehicle,
                             .today = v->today,
                             .direction = -1,
                             .seed = SEED_USUAL,
                             .runs = v->site->runs};
}

bool visit_shop_ask(struct visit *v, const char *vehicle, struct shop_ask *out,
                    struct answer_trade *trade, struct fail *f)
{
    *out = ask_of(v, vehicle);
    *trade = (struct answer_trade){digest_trade, load_trade, v};
    return visit_trade(v, &out->trade, f);
}

/* Has it reckoned, unless that was done before, by the one place where each answer is reckoned
 * once. `watched`: whoever asks is shown how far it is, and then asks again. */
static enum reckoning have_reckoned(struct visit *v, enum question q, const char *vehicle,
                                    const char *key, bool watched, double *share, struct fail *f)
{
    const struct reckoner_ask what = {key, q, ask_of(v, vehicle)};
    bool began;
    if (garage_cache_has(v->garage, *v->arena, key)) return RECKONING_DONE;
    enum reckoning how =
        reckoner_wait(v->site->reckoner, &what, watched ? SHOWN_AFTER : -1, &began, share, f);
    if (how != RECKONING_GOES_ON || began) return how;
    return reckoner_wait(v->site->reckoner, &what, SHOWN_AGAIN_AFTER, &began, share, f);
}

bool visit_ask(struct visit *v, enum question q, const char *vehicle, struct told *out,
               struct fail *f)
{
    const struct shop_ask ask = ask_of(v, vehicle);
    const struct answer_trade trade = {digest_trade, load_trade, v};
    char key[65];
    double share;
    return answer_key(v->arena, q, &ask, NULL, trade, key, f) &&
           have_reckoned(v, q, vehicle, key, false, &share, f) != RECKONING_FAILED &&
           answer_get(v->arena, q, &ask, NULL, trade, out, f);
}

bool visit_kept(struct visit *v, enum question q, const char *vehicle, struct told *out,
                bool *current)
{
    const struct shop_ask ask = ask_of(v, vehicle);
    const struct answer_trade trade = {digest_trade, load_trade, v};
    return answer_kept(v->arena, q, &ask, NULL, trade, out, current);
}

bool visit_brief(struct visit *v, enum question q, const char *vehicle, struct answer_brief *out)
{
    const struct shop_ask ask = ask_of(v, vehicle);
    const struct answer_trade trade = {digest_trade, load_trade, v};
    return answer_brief(v->arena, q, &ask, NULL, trade, out);
}

/* Kept as one text: a line with ids and the title's length, the title, the HTML. */
static const char *fold(struct arena *a, const struct sheet_page *page)
{
    struct text t = {.arena = a};
    text_print(&t, "%d %zu\n", page->ids, strlen(page->title));
    text_add(&t, page->title);
    text_add(&t, page->html);
    return text_get(&t);
}

static struct sheet_page unfold(struct arena *a, const char *kept)
{
    char *end;
    const int ids = (int)strtol(kept, &end, 10);
    const size_t length = strtoul(end, &end, 10);
    return (struct sheet_page){arena_copy_n(a, end + 1, length), end + 1 + length, ids, 1};
}

bool visit_ask_page(struct visit *v, enum question q, const struct record *vehicle,
                    struct sheet_page *out, struct fail *f)
{
    const char *id = vehicle ? vehicle->id : "";
    const struct shop_ask ask = ask_of(v, id);
    const struct answer_trade trade = {digest_trade, load_trade, v};
    char name[65];
    if (!answer_key(v->arena, q, &ask, NULL, trade, name, f)) return false;
    const char *kept = kept_get(v->site->kept, v->arena, name);
    if (kept) {
        *out = unfold(v->arena, kept);
        return true;
    }
    struct told told;
    double share;
    enum reckoning how = have_reckoned(v, q, id, name, v->request->navigates, &share, f);
    if (how == RECKONING_GOES_ON) *out = (struct sheet_page){.title = "Reckoning", .share = share};
    if (how != RECKONING_DONE) return how == RECKONING_GOES_ON;
    if (!answer_get(v->arena, q, &ask, NULL, trade, &told, f)) return false;
    struct text text = {.arena = v->arena};
    struct html h = html_begin(&text);
    page_answer_sheet(&h, &told, vehicle, v->today);
    html_end(&h);
    json_decref(told.json);
    *out = (struct sheet_page){told.sheet->title, text_get(&text), h.ids, 1};
    kept_put(v->site->kept, name, fold(v->arena, out));
    return true;
}
