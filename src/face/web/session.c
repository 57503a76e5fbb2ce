#include "face/web/session.h"

#include <sodium.h>
#include <string.h>

enum { SESSION_DIGITS = 32 };

const char *visit_token(const struct visit *v)
{
    if (v->steady) return v->site->token_place;
    unsigned char mac[crypto_auth_hmacsha256_BYTES];
    const char *what = arena_print(v->arena, "%s\n%s", v->session, v->request->path);
    crypto_auth_hmacsha256(mac, (const unsigned char *)what, strlen(what), v->site->secret);
    char *hex = ARENA_ARRAY(v->arena, char, 2 * sizeof mac + 1);
    return sodium_bin2hex(hex, 2 * sizeof mac + 1, mac, sizeof mac);
}

bool session_vouches(struct visit *v, bool session_new, struct fail *f)
{
    const struct request *r = v->request;
    const char *token = pairs_get(&r->form, "token"), *wanted = visit_token(v);
    if (r->origin && !text_is(r->origin, arena_print(v->arena, "%s://%s",
                                                     v->site->beyond ? "https" : "http", r->host)))
        return visit_fail(v, 403, f, "the form comes from another site; nothing was stored");
    if (session_new || !token || strlen(token) != strlen(wanted) ||
        sodium_memcmp(token, wanted, strlen(wanted)) != 0)
        return visit_fail(v, 403, f,
                          "the form is not one that was given out since the program started; "
                          "nothing was stored: go back, "
                          "load the page again and send it once more");
    return true;
}

/* A name with __Host- is taken by a browser only from this very host, over TLS. */
static const char *session_cookie(const struct site *site)
{
    return site->beyond ? "__Host-fettle" : "fettle";
}

bool session_begin(struct visit *v)
{
    const char *known = request_cookie(v->arena, v->request, session_cookie(v->site));
    v->session = known;
    if (known && strlen(known) == SESSION_DIGITS &&
        strspn(known, "0123456789abcdef") == SESSION_DIGITS)
        return false;
    unsigned char bytes[SESSION_DIGITS / 2];
    char *hex = ARENA_ARRAY(v->arena, char, SESSION_DIGITS + 1);
    randombytes_buf(bytes, sizeof bytes);
    v->session = sodium_bin2hex(hex, SESSION_DIGITS + 1, bytes, sizeof bytes);
    return true;
}

void session_give(const struct visit *v)
{
    response_header(v->response, "Set-Cookie",
                    arena_print(v->arena, "%s=%s; Path=/; HttpOnly; SameSite=Strict%s",
                                session_cookie(v->site), v->session,
                                v->site->beyond ? "; Secure" : ""));
}
