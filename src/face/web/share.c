#include "face/web/share.h"

#include "garage/place.h"

#include <arpa/inet.h>
#include <assert.h>
#include <errno.h>
#include <fcntl.h>
#include <gnutls/gnutls.h>
#include <gnutls/x509.h>
#include <ifaddrs.h>
#include <net/if.h>
#include <sodium.h>
#include <string.h>
#include <strings.h>
#include <sys/stat.h>
#include <unistd.h>

enum { PEM_MOST = 16384, DAY_SECONDS = 24 * 3600 };

/* ---- addresses ---- */

/* Where the machine would send from to a far address: a datagram socket that is connected but never
 * used asks the routes. 0: nowhere. */
static uint32_t widest_address(void)
{
    struct sockaddr_in far = {.sin_family = AF_INET, .sin_port = htons(9)}, here = {0};
    socklen_t length = sizeof here;
    int fd = socket(AF_INET, SOCK_DGRAM | SOCK_CLOEXEC, 0);
    far.sin_addr.s_addr = htonl(0xC0000201); /* 192.0.2.1: for documentation, RFC 5737 */
    bool ok = fd >= 0 && connect(fd, (struct sockaddr *)&far, sizeof far) == 0 &&
              getsockname(fd, (struct sockaddr *)&here, &length) == 0;
    if (fd >= 0) close(fd);
    return ok ? ntohl(here.sin_addr.s_addr) : 0;
}

static const char *machine_name(struct arena *a)
{
    char name[256] = "";
    if (gethostname(name, sizeof name - 1) != 0) return NULL;
    name[strcspn(name, ".")] = '\0';
    size_t n = strlen(name);
    if (n == 0 || n > 63 || strcasecmp(name, "localhost") == 0 ||
        strspn(name, "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-") != n)
        return NULL;
    return arena_copy(a, name);
}

bool share_find_addresses(struct arena *a, struct share *out, struct fail *f)
{
    struct ifaddrs *all = NULL;
    const uint32_t widest = widest_address();
    if (getifaddrs(&all) != 0) all = NULL;
    for (const struct ifaddrs *i = all; i && out->n_addresses < SHARE_ADDRESSES_MOST;
         i = i->ifa_next) {
        if (!i->ifa_addr || !i->ifa_netmask || i->ifa_addr->sa_family != AF_INET ||
            !(i->ifa_flags & IFF_UP) || (i->ifa_flags & IFF_LOOPBACK))
            continue;
        struct sockaddr_in ip, mask;
        memcpy(&ip, i->ifa_addr, sizeof ip);
        memcpy(&mask, i->ifa_netmask, sizeof mask);
        struct share_address *to = &out->addresses[out->n_addresses++];
        *to = (struct share_address){ntohl(ip.sin_addr.s_addr), ntohl(mask.sin_addr.s_addr), ""};
        inet_ntop(AF_INET, &ip.sin_addr, to->text, sizeof to->text);
        if (to->ip == widest) {
            struct share_address first = out->addresses[0];
            out->addresses[0] = *to;
            *to = first;
        }
    }
    if (all) freeifaddrs(all);
    out->name = machine_name(a);
    return out->n_addresses > 0 ||
           fail_set(f, FAIL_INPUT,
                    "serve --share: this machine has no address on a network; join one, or leave "
                    "--share out");
}

bool share_is_near(const struct share *s, uint32_t ip)
{
    for (int i = 0; i < s->n_addresses; i++)
        if (((ip ^ s->addresses[i].ip) & s->addresses[i].mask) == 0) return true;
    return false;
}

static bool is_name(const char *host, size_t n, const char *name)
{
    return strlen(name) == n && strncasecmp(host, name, n) == 0;
}

bool share_is_host(const struct share *s, const char *host)
{
    size_t n = strcspn(host, ":");
    if (host[n] && (!host[n + 1] || strspn(host + n + 1, "0123456789") != strlen(host + n + 1)))
        return false;
    for (int i = 0; i < s->n_addresses; i++)
        if (is_name(host, n, s->addresses[i].text)) return true;
    if (!s->name) return false;
    const size_t local = sizeof ".local" - 1;
    return is_name(host, n, s->name) ||
           (n > local && strncasecmp(host + n - local, ".local", local) == 0 &&
            is_name(host, n - local, s->name));
}

const char *share_url(struct arena *a, const struct share *s, const char *path)
{
    return arena_print(a, "https://%s:%d%s", s->addresses[0].text, s->port, path);
}

/* ---- key and certificate ---- */

/* The library's errors are negative; what it says of them goes into our line. */
static bool made(int code, const char *what, struct fail *f)
{
    return code >= 0 || fail_set(f, FAIL_GARAGE, "serve --share: no %s could be made: %s", what,
                                 gnutls_strerror(code));
}

/* Its text, or NULL; errno tells why. */
static const char *read_file(struct arena *a, const char *path, mode_t *mode)
{
    int fd = open(path, O_RDONLY | O_CLOEXEC);
    struct stat s;
    if (fd < 0) return NULL;
    char *text = ARENA_ARRAY(a, char, PEM_MOST);
    ssize_t n = fstat(fd, &s) == 0 ? read(fd, text, PEM_MOST - 1) : -1;
    close(fd);
    *mode = s.st_mode;
    return n < 0 ? NULL : text;
}

static gnutls_datum_t datum(const char *s)
{
    return (gnutls_datum_t){(unsigned char *)(uintptr_t)s, (unsigned)strlen(s)};
}

static bool find_key(struct arena *a, const char *path, gnutls_x509_privkey_t key, struct share *s,
                     struct fail *f)
{
    mode_t mode = 0;
    s->key = read_file(a, path, &mode);
    if (s->key) {
        const gnutls_datum_t in = datum(s->key);
        if (mode & 077)
            return fail_set(f, FAIL_GARAGE,
                            "%s: others may read this key; delete it, and a new one is made", path);
        if (gnutls_x509_privkey_import(key, &in, GNUTLS_X509_FMT_PEM) < 0)
            return fail_set(f, FAIL_GARAGE, "%s: is no key; delete it, and a new one is made",
                            path);
        return true;
    }
    if (errno != ENOENT)
        return fail_set(f, FAIL_GARAGE, "%s: cannot be read: %s; mend that, or delete it", path,
                        strerror(errno));
    gnutls_datum_t out;
    if (!made(gnutls_x509_privkey_generate(key, GNUTLS_PK_ECDSA,
                                           GNUTLS_CURVE_TO_BITS(GNUTLS_ECC_CURVE_SECP256R1), 0),
              "key", f) ||
        !made(gnutls_x509_privkey_export2(key, GNUTLS_X509_FMT_PEM, &out), "key", f))
        return false;
    s->key = arena_copy_n(a, (const char *)out.data, out.size);
    sodium_memzero(out.data, out.size);
    gnutls_free(out.data);
    return place_write_file(*a, path, s->key, strlen(s->key)) ||
           fail_set(f, FAIL_GARAGE, "%s: cannot be written: %s", path, strerror(errno));
}

static const char *local_name(struct arena *a, const struct share *s)
{
    return arena_print(a, "%s.local", s->name);
}

/* Why the certificate will not do; NULL: it will. */
static const char *fault_of(struct arena *a, gnutls_x509_crt_t c, gnutls_x509_privkey_t key,
                            int64_t now, const struct share *s)
{
    unsigned char of_key[64], of_certificate[64];
    size_t n_key = sizeof of_key, n_certificate = sizeof of_certificate;
    if (gnutls_x509_privkey_get_key_id(key, GNUTLS_KEYID_USE_SHA256, of_key, &n_key) < 0 ||
        gnutls_x509_crt_get_key_id(c, GNUTLS_KEYID_USE_SHA256, of_certificate, &n_certificate) <
            0 ||
        n_key != n_certificate || memcmp(of_key, of_certificate, n_key) != 0)
        return "the one before was of another key";
    const int64_t ends = gnutls_x509_crt_get_expiration_time(c);
    if (ends <= now) return "the one before had ended";
    if (ends - now < CERTIFICATE_RENEW_DAYS * DAY_SECONDS) return "the one before ends soon";
    if (gnutls_x509_crt_get_activation_time(c) > now) return "the one before had not begun";
    bool names = !s->name || gnutls_x509_crt_check_hostname(c, local_name(a, s));
    for (int i = 0; i < s->n_addresses; i++) {
        const uint32_t ip = htonl(s->addresses[i].ip);
        names = names && gnutls_x509_crt_check_ip(c, (const unsigned char *)&ip, sizeof ip, 0);
    }
    return names ? NULL : "this machine's addresses have changed";
}

/* Everything that can go wrong here is a want of memory or of random numbers; the first is kept. */
static bool make_certificate(struct arena *a, gnutls_x509_crt_t c, gnutls_x509_privkey_t key,
                             int64_t now, const struct share *s, struct fail *f)
{
    unsigned char serial[16], id[64];
    size_t n_id = sizeof id;
    int bad = 0;
#define STEP(call) ((void)(bad < 0 || (bad = (call)) >= 0))
    randombytes_buf(serial, sizeof serial);
    serial[0] = (unsigned char)((serial[0] & 0x3F) | 0x40); /* positive, and of full length */
    const char *subject = arena_print(a, "CN=Fettle on %s", s->name ? s->name : "this machine");
    STEP(gnutls_x509_crt_set_version(c, 3));
    STEP(gnutls_x509_crt_set_serial(c, serial, sizeof serial));
    STEP(gnutls_x509_crt_set_dn(c, subject, NULL));
    STEP(gnutls_x509_crt_set_issuer_dn(c, subject, NULL));
    STEP(gnutls_x509_crt_set_key(c, key));
    /* A day back, for phones whose clock is behind. */
    STEP(gnutls_x509_crt_set_activation_time(c, now - DAY_SECONDS));
    STEP(gnutls_x509_crt_set_expiration_time(c, now + CERTIFICATE_DAYS * DAY_SECONDS));
    STEP(gnutls_x509_crt_set_basic_constraints(c, 0, -1));
    STEP(gnutls_x509_crt_set_key_usage(c, GNUTLS_KEY_DIGITAL_SIGNATURE));
    STEP(gnutls_x509_crt_set_key_purpose_oid(c, GNUTLS_KP_TLS_WWW_SERVER, 0));
    STEP(gnutls_x509_crt_get_key_id(c, 0, id, &n_id));
    STEP(gnutls_x509_crt_set_subject_key_id(c, id, n_id));
    for (int i = 0; i < s->n_addresses; i++) {
        const uint32_t ip = htonl(s->addresses[i].ip);
        STEP(gnutls_x509_crt_set_subject_alt_name(c, GNUTLS_SAN_IPADDRESS, &ip, sizeof ip,
                                                  GNUTLS_FSAN_APPEND));
    }
    for (int i = 0; s->name && i < 2; i++) {
        const char *name = i ? local_name(a, s) : s->name;
        STEP(gnutls_x509_crt_set_subject_alt_name(c, GNUTLS_SAN_DNSNAME, name,
                                                  (unsigned)strlen(name), GNUTLS_FSAN_APPEND));
    }
    STEP(gnutls_x509_crt_sign2(c, c, key, GNUTLS_DIG_SHA256, 0));
#undef STEP
    return made(bad, "certificate", f);
}

static const char *fingerprint_of(struct arena *a, gnutls_x509_crt_t c)
{
    unsigned char hash[32];
    size_t n = sizeof hash;
    struct text out = {.arena = a};
    int code = gnutls_x509_crt_get_fingerprint(c, GNUTLS_DIG_SHA256, hash, &n);
    assert(code == 0);
    for (size_t i = 0; i < n; i++) text_print(&out, "%s%02X", i ? ":" : "", hash[i]);
    return text_get(&out);
}

static bool find_certificate(struct arena *a, const char *path, gnutls_x509_privkey_t key,
                             int64_t now, struct share *s, struct fail *f)
{
    mode_t mode;
    gnutls_x509_crt_t old, new;
    gnutls_datum_t pem = {0};
    int code = gnutls_x509_crt_init(&old);
    if (!made(code, "certificate", f)) return false;
    s->certificate = read_file(a, path, &mode);
    s->anew = "this is the first";
    if (s->certificate) {
        const gnutls_datum_t in = datum(s->certificate);
        s->anew = gnutls_x509_crt_import(old, &in, GNUTLS_X509_FMT_PEM) < 0
                      ? "what was in its place was none"
                      : fault_of(a, old, key, now, s);
    }
    if (!s->anew) s->fingerprint = fingerprint_of(a, old);
    gnutls_x509_crt_deinit(old);
    if (!s->anew) return true;
    if (!made(gnutls_x509_crt_init(&new), "certificate", f)) return false;
    bool ok = make_certificate(a, new, key, now, s, f) &&
              made(gnutls_x509_crt_export2(new, GNUTLS_X509_FMT_PEM, &pem), "certificate", f);
    if (ok) {
        s->certificate = arena_copy_n(a, (const char *)pem.data, pem.size);
        s->fingerprint = fingerprint_of(a, new);
        gnutls_free(pem.data);
    }
    gnutls_x509_crt_deinit(new);
    return ok && (place_write_file(*a, path, s->certificate, strlen(s->certificate)) ||
                  fail_set(f, FAIL_GARAGE, "%s: cannot be written: %s", path, strerror(errno)));
}

bool share_find_certificate(struct arena *a, const char *garage, int64_t now, struct share *s,
                            struct fail *f)
{
    const char *folder = arena_print(a, "%s/share", garage);
    gnutls_x509_privkey_t key;
    if (mkdir(folder, 0700) != 0 && errno != EEXIST)
        return fail_set(f, FAIL_GARAGE, "%s: cannot be made: %s", folder, strerror(errno));
    if (!made(gnutls_x509_privkey_init(&key), "key", f)) return false;
    bool ok = find_key(a, arena_print(a, "%s/key.pem", folder), key, s, f) &&
              find_certificate(a, arena_print(a, "%s/certificate.pem", folder), key, now, s, f);
    gnutls_x509_privkey_deinit(key);
    return ok;
}
