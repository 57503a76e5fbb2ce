/* share.h - what serving beyond this machine needs: the machine's addresses, and a certificate and
 * key of the garage's own, made on first use.
 *
 * Both lie in GARAGE/share (0700), the key readable by its owner alone. The certificate is an
 * ECDSA P-256 one, signed by itself, good for this server only (no authority), and names the
 * machine's addresses and names; it is made anew, with the same key, before it ends and when the
 * addresses have changed. Its fingerprint is for a person to compare: no authority vouches for it.
 *
 * Published: RFC 5280 (certificates), RFC 6125 (names in them) */
#ifndef WEB_SHARE_H
#define WEB_SHARE_H

#include "base/fail.h"
#include "base/text.h"

enum {
    SHARE_ADDRESSES_MOST = 8,
    CERTIFICATE_DAYS = 365,
    CERTIFICATE_RENEW_DAYS = 30, /* so long before its end a new one is made */
};

struct share_address {
    uint32_t ip, mask; /* IPv4, as numbers: 192.168.1.20 is 0xC0A80114 */
    char text[16];
};

struct share {
    struct share_address addresses[SHARE_ADDRESSES_MOST]; /* first: towards the widest network */
    int n_addresses;
    const char *name;              /* of this machine, one word; NULL: none that fits an address */
    const char *certificate, *key; /* PEM */
    const char *fingerprint;       /* SHA-256, "AB:CD:..." */
    const char *anew;              /* why the certificate was made in this run; NULL: it was not */
    int port;                      /* once it is served */
};

/* Those of this machine that others on its networks can reach. None: refused. */
bool share_find_addresses(struct arena *a, struct share *out, struct fail *f);
/* Reads key and certificate, or makes them; now: seconds since 1970. */
bool share_find_certificate(struct arena *a, const char *garage, int64_t now, struct share *s,
                            struct fail *f);

/* Is the peer on one of our networks? Whoever is further away is not listened to. */
bool share_is_near(const struct share *s, uint32_t ip);
/* Is it a name of ours, as a Host header has it, perhaps with a port? */
bool share_is_host(const struct share *s, const char *host);
/* "https://192.168.1.20:8061" and the path. */
const char *share_url(struct arena *a, const struct share *s, const char *path);

#endif
