/* /pair, /devices: how a phone is let in, and which were. A phone types the code that this machine
 * shows, or reads its address off the screen; the code is spent by sending the form, never by
 * opening the address, so that a preview or a second opening spends nothing. */
#include "face/show/qr.h"
#include "face/show/words.h"
#include "face/web/form.h"
#include "face/web/page_frame.h"
#include "face/web/pair.h"
#include "face/web/share.h"

#include <string.h>
#include <time.h>

static const char device_cookie[] = "__Host-device"; /* see session.c */

static void give_cookie(struct visit *v, const char *token)
{
    response_header(v->response, "Set-Cookie",
                    arena_print(v->arena,
                                "%s=%s; Path=/; Max-Age=%d; Secure; HttpOnly; SameSite=Strict",
                                device_cookie, token, DEVICE_SECONDS));
}

bool visit_admit(struct visit *v, struct fail *f)
{
    const char *token = request_cookie(v->arena, v->request, device_cookie);
    const struct device *device;
    bool renewed;
    if (!devices_admit(v->arena, v->site->dir, token, time(NULL), &device, &renewed, f))
        return false;
    v->outside = !device;
    if (renewed) give_cookie(v, token);
    return true;
}

bool page_outside(struct visit *v, struct fail *f)
{
    if (v->request->method == METHOD_POST)
        return visit_fail(v, 403, f,
                          "this phone is not paired; nothing was stored: open /pair first");
    return visit_go(v, "/pair");
}

static bool write_pair(struct visit *v, const char *code, const char *name, const char *fault)
{
    struct html *h = page_begin(v, "Pair this phone", NULL, "");
    html_leaf(h, "h1", NULL, "Pair this phone");
    html_leaf(h, "p", NULL,
              "The machine in the garage shows a code. It is good for one phone, for ten minutes.");
    static const struct field declared[] = {
        {.name = "code", .type = FIELD_TEXT, .help = "eight letters and figures, as K7QX-2M9D"},
        {.name = "name", .type = FIELD_TEXT, .help = "so that you know it in the list of phones"},
    };
    page_form(v, "pair");
    form_write(h, &(struct form_field){.name = "code",
                                       .label = "The code",
                                       .declared = &declared[0],
                                       .value = code,
                                       .fault = fault});
    form_write(h, &(struct form_field){.name = "name",
                                       .label = "A name for it, if you like",
                                       .declared = &declared[1],
                                       .value = name});
    form_button(h, "Pair this phone");
    html_close(h, "form");
    return page_end(v);
}

bool page_pair(struct visit *v, struct fail *f)
{
    (void)f;
    if (!v->site->beyond) return visit_go(v, "/devices");
    if (!v->outside) return visit_go(v, "/");
    return write_pair(v, v->piece[0], NULL, NULL);
}

bool page_pair_take(struct visit *v, struct fail *f)
{
    const char *code = pairs_get(&v->request->form, "code"),
               *name = pairs_get(&v->request->form, "name"), *token;
    struct fail why = {0};
    int status;
    if (!v->site->beyond) return visit_go(v, "/devices");
    if (!name) name = "";
    if (strlen(name) > DEVICE_NAME_MOST) {
        v->response->status = 422;
        return write_pair(v, code, NULL, "the name was too long; forty letters are enough");
    }
    if (!pairing_try(v->site->pairing, code ? code : "", time(NULL), &status, &why)) {
        v->response->status = status;
        return write_pair(v, code, name, why.text);
    }
    if (!devices_add(v->arena, v->site->dir, name, time(NULL), &token, f)) return false;
    give_cookie(v, token);
    return visit_go(v, "/");
}

/* One rectangle a run of dark modules; black on white in the dark theme too. */
static void write_qr(struct html *h, const struct qr *q)
{
    struct text path = {.arena = h->out->arena};
    const int side = q->size + 2 * QR_QUIET;
    for (int y = 0; y < q->size; y++)
        for (int x = 0, end; x < q->size; x = end + 1) {
            for (end = x; qr_is_dark(q, end, y);) end++;
            if (end > x)
                text_print(&path, "M%d %dh%dv1h-%dz", x + QR_QUIET, y + QR_QUIET, end - x, end - x);
        }
    html_open(h, "svg");
    html_attr(h, "class", "qr");
    html_attr_print(h, "viewBox", "0 0 %d %d", side, side);
    html_attr(h, "role", "img");
    html_attr(h, "aria-label", "The address and the code, for a phone's camera");
    html_open(h, "rect");
    html_attr(h, "fill", "#fff");
    html_attr_print(h, "width", "%d", side);
    html_attr_print(h, "height", "%d", side);
    html_close(h, "rect");
    html_open(h, "path");
    html_attr(h, "fill", "#000");
    html_attr(h, "shape-rendering", "crispEdges");
    html_attr(h, "d", text_get(&path));
    html_close(h, "path");
    html_close(h, "svg");
}

static void write_code(struct visit *v)
{
    struct html *h = &v->html;
    const struct share *share = v->site->share;
    char code[PAIR_CODE_LETTERS + 1];
    int64_t left = 0;
    const enum code_state state = pairing_state(v->site->pairing, time(NULL), code, &left);
    static const char *const told[] = {
        [CODE_NONE] = "No code has been given out yet.",
        [CODE_USED] = "The last code was used: that phone is in the list below.",
        [CODE_TRIED_OUT] = "Five wrong codes were tried, so the last one has ended. If it was none "
                           "of you, somebody on your network is trying.",
        [CODE_ENDED] = "The last code has ended unused.",
    };
    html_leaf(h, "h2", NULL, "Pair a phone");
    if (state == CODE_OPEN) {
        struct qr qr;
        qr_make(v->arena, share_url(v->arena, share, arena_print(v->arena, "/pair/%s", code)), &qr);
        html_leaf(h, "p", NULL, "Let the phone's camera read this.");
        write_qr(h, &qr);
        html_open(h, "p");
        html_text(h, "Or open this address there, and type the code:");
        html_close(h, "p");
        html_leaf(h, "p", "fingerprint", share_url(v->arena, share, "/pair"));
        html_leaf(h, "p", "code", arena_print(v->arena, "%.4s-%s", code, code + 4));
        html_leaf(h, "p", NULL,
                  arena_print(v->arena, "Good for one phone, for another %d min.",
                              (int)(left + 59) / 60));
        html_leaf(h, "p", NULL,
                  "The phone will warn that it does not know the certificate. Go on only if what "
                  "it shows of it has this SHA-256 fingerprint:");
        html_leaf(h, "p", "fingerprint", share->fingerprint);
    } else {
        html_leaf(h, "p", NULL, told[state]);
    }
    page_form(v, "form");
    form_hidden(h, "act", "code");
    form_button(h, state == CODE_OPEN ? "Another code" : "Show a code");
    html_close(h, "form");
}

static const char *day_of(struct arena *a, int64_t seconds)
{
    return words_day(a, (day)(seconds / (24 * 3600))); /* days since 1970 */
}

bool page_devices(struct visit *v, struct fail *f)
{
    struct devices list;
    if (!devices_read(v->arena, v->site->dir, time(NULL), &list, f)) return false;
    struct html *h = page_begin(v, "Phones", NULL, "devices");
    html_leaf(h, "h1", NULL, "Phones");
    if (v->site->pairing)
        write_code(v);
    else
        html_leaf(
            h, "p", NULL,
            "The pages are not shared: only this machine can see them. 'fettle serve --share' "
            "shares them with phones on your network.");
    html_leaf(h, "h2", NULL, "Paired");
    if (list.count == 0) html_leaf(h, "p", NULL, "None.");
    html_open(h, "ul");
    html_attr(h, "class", "cards");
    for (int i = 0; i < list.count; i++) {
        const struct device *d = &list.items[i];
        html_open(h, "li");
        html_attr(h, "class", "card");
        html_leaf(h, "h3", NULL, d->name);
        html_open(h, "p");
        html_print(h, "Paired %s, last here %s.", day_of(v->arena, d->paired),
                   day_of(v->arena, d->seen));
        html_close(h, "p");
        page_form(v, "form");
        form_hidden(h, "act", "forget");
        form_hidden(h, "id", d->id);
        html_open(h, "p");
        html_attr(h, "class", "actions");
        html_open(h, "button");
        html_attr(h, "class", "loss");
        html_print(h, "End the access of %s", d->name);
        html_close(h, "button");
        html_close(h, "p");
        html_close(h, "form");
        html_close(h, "li");
    }
    html_close(h, "ul");
    return page_end(v);
}

bool page_devices_take(struct visit *v, struct fail *f)
{
    const char *act = pairs_get(&v->request->form, "act"), *id = pairs_get(&v->request->form, "id");
    if (text_is(act, "code") && v->site->pairing)
        pairing_renew(v->site->pairing, time(NULL));
    else if (!text_is(act, "forget") || !id)
        return visit_fail(v, 400, f, "that is nothing that this page does");
    else if (!devices_forget(v->arena, v->site->dir, id, time(NULL), f))
        return false;
    return visit_go(v, "/devices");
}
