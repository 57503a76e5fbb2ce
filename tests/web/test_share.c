/* Beyond this machine: its addresses and certificate, with a clock of the test's own, and what a
 * machine that is not paired is shown of each page, without a socket and over TLS. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "face/web/once.h"
#include "face/web/pair.h"
#include "face/web/route.h"
#include "face/web/server.h"
#include "face/web/share.h"

#include <arpa/inet.h>
#include <errno.h>
#include <gnutls/gnutls.h>
#include <signal.h>
#include <sodium.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/socket.h>
#include <sys/stat.h>
#include <time.h>
#include <unistd.h>

static struct {
    struct arena arena;
    char folder[64];
    struct share share;
    struct pairing pairing;
    struct site site;
} world;

enum { NOON = 1800000000, DAY = 24 * 3600 };

static const char *path(const char *name)
{
    return arena_print(&world.arena, "%s/%s", world.folder, name);
}

static int begin(void **state)
{
    (void)state;
    struct fail f = {0};
    signal(SIGPIPE, SIG_IGN);
    world.arena = arena_open((size_t)2 << 30);
    snprintf(world.folder, sizeof world.folder, "/tmp/fettle-share-XXXXXX");
    if (sodium_init() < 0 || !mkdtemp(world.folder)) return -1;
    world.share = (struct share){.addresses = {{0x7F000001, 0xFF000000, "127.0.0.1"},
                                               {0xC0A80114, 0xFFFFFF00, "192.168.1.20"}},
                                 .n_addresses = 2,
                                 .name = "bench"};
    site_open(&world.arena, path("garage"), day_from_civil(2026, 11, 25), &world.site);
    world.site.beyond = true;
    world.site.share = &world.share;
    world.site.pairing = &world.pairing;
    pairing_begin(&world.pairing);
    return garage_create(world.site.dir, "UTC", NULL, &f) &&
                   share_find_certificate(&world.arena, world.site.dir, time(NULL), &world.share,
                                          &f)
               ? 0
               : -1;
}

static int end(void **state)
{
    (void)state;
    site_close(&world.site);
    pairing_end(&world.pairing);
    int removed = system(arena_print(&world.arena, "rm -r '%s'", world.folder));
    arena_close(&world.arena);
    return removed;
}

static void knows_its_names_and_neighbours(void **state)
{
    (void)state;
    static const struct {
        const char *host;
        bool ours;
    } hosts[] = {
        {"192.168.1.20", true},
        {"192.168.1.20:8061", true},
        {"bench", true},
        {"BENCH.local:8061", true},
        {"192.168.1.21", false},
        {"192.168.1.20.evil.example", false},
        {"bench.evil.example", false},
        {"evil.example", false},
        {"localhost", false},
        {"", false},
        {":8061", false},
        {"bench:", false},
        {"bench:80x", false},
        {".local", false},
        {"[::1]:8061", false},
    };
    static const struct {
        uint32_t ip;
        bool near;
    } peers[] = {
        {0xC0A80101, true},  /* 192.168.1.1 */
        {0xC0A801FE, true},  /* 192.168.1.254 */
        {0xC0A80214, false}, /* 192.168.2.20 */
        {0x08080808, false}, {0, false}, {0xFFFFFFFF, false},
    };
    for (size_t i = 0; i < sizeof hosts / sizeof *hosts; i++)
        if (share_is_host(&world.share, hosts[i].host) != hosts[i].ours)
            fail_msg("host '%s'", hosts[i].host);
    for (size_t i = 0; i < sizeof peers / sizeof *peers; i++)
        if (share_is_near(&world.share, peers[i].ip) != peers[i].near) fail_msg("peer %zu", i);
}

/* What becomes of a certificate that was made at noon. */
static void makes_the_certificate_anew_when_it_must(void **state)
{
    (void)state;
    static const struct {
        const char *name;
        int64_t later;
        const char *host; /* of the machine by then */
        const char *why;  /* NULL: it is kept */
    } rows[] = {
        {"at once", 0, "bench", NULL},
        {"a month before its last month", 305 * (int64_t)DAY, "bench", NULL},
        {"in its last month", 336 * (int64_t)DAY, "bench", "ends soon"},
        {"after its end", 366 * (int64_t)DAY, "bench", "had ended"},
        {"before its beginning", -2 * (int64_t)DAY, "bench", "had not begun"},
        {"under another name", 0, "lathe", "addresses have changed"},
        {"without a name", 0, NULL, NULL},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        const char *dir = path(arena_print(&world.arena, "certificate-%zu", i));
        struct share first = world.share, second = world.share;
        struct fail f = {0};
        assert_int_equal(0, mkdir(dir, 0700));
        assert_true(share_find_certificate(&world.arena, dir, NOON, &first, &f));
        assert_non_null(first.anew);
        second.name = rows[i].host;
        if (!share_find_certificate(&world.arena, dir, NOON + rows[i].later, &second, &f))
            fail_msg("%s: %s", rows[i].name, f.text);
        assert_string_equal(first.key, second.key);
        if (rows[i].why) {
            if (!second.anew || !strstr(second.anew, rows[i].why))
                fail_msg("%s: %s", rows[i].name, second.anew ? second.anew : "kept");
            assert_string_not_equal(first.fingerprint, second.fingerprint);
        } else {
            assert_null(second.anew);
            assert_string_equal(first.certificate, second.certificate);
            assert_string_equal(first.fingerprint, second.fingerprint);
        }
        assert_int_equal(95, strlen(second.fingerprint));
    }
}

static void put(const char *file, const char *bytes, mode_t mode)
{
    FILE *out = fopen(file, "w");
    assert_non_null(out);
    fputs(bytes, out);
    fclose(out);
    assert_int_equal(0, chmod(file, mode));
}

static void says_what_is_wrong_with_its_files(void **state)
{
    (void)state;
    struct share s = world.share;
    struct fail f = {0};
    const char *dir = path("files"), *key = path("files/share/key.pem"),
               *certificate = path("files/share/certificate.pem");
    struct stat st;
    assert_int_equal(0, mkdir(dir, 0700));
    assert_true(share_find_certificate(&world.arena, dir, NOON, &s, &f));
    assert_int_equal(0, stat(key, &st));
    assert_int_equal(0600, st.st_mode & 0777);
    put(certificate, "no certificate", 0600);
    assert_true(share_find_certificate(&world.arena, dir, NOON, &s, &f));
    assert_string_equal("what was in its place was none", s.anew);
    put(certificate, world.share.certificate, 0600);
    assert_true(share_find_certificate(&world.arena, dir, NOON, &s, &f));
    assert_string_equal("the one before was of another key", s.anew);
    put(key, s.key, 0644);
    assert_false(share_find_certificate(&world.arena, dir, NOON, &s, &f));
    assert_non_null(strstr(f.text, "others may read this key"));
    f = (struct fail){0};
    put(key, "no key", 0600);
    assert_false(share_find_certificate(&world.arena, dir, NOON, &s, &f));
    assert_non_null(strstr(f.text, "is no key; delete it"));
    f = (struct fail){0};
    assert_int_equal(0, unlink(key));
    assert_int_equal(0, mkdir(key, 0700));
    assert_false(share_find_certificate(&world.arena, dir, NOON, &s, &f));
    assert_int_equal(FAIL_GARAGE, f.kind);
}

static struct response ask(const char *bytes)
{
    struct response out;
    bool head_only;
    once_answer_bytes(&world.arena, &world.site, bytes, strlen(bytes), &out, &head_only);
    return out;
}

static struct response get(const char *where, const char *cookies)
{
    return ask(arena_print(&world.arena, "GET %s HTTP/1.1\r\nHost: 192.168.1.20:8061\r\n%s%s%s\r\n",
                           where, *cookies ? "Cookie: " : "", cookies, *cookies ? "\r\n" : ""));
}

/* The value of the cookie that is set, or NULL. */
static const char *set_cookie(const struct response *r, const char *name)
{
    const size_t n = strlen(name);
    for (int i = 0; i < r->n_headers; i++) {
        const char *v = r->headers[i].value;
        if (strcmp(r->headers[i].name, "Set-Cookie") != 0 || strncmp(v, name, n) != 0) continue;
        assert_non_null(strstr(v, "; Secure"));
        assert_non_null(strstr(v, "; HttpOnly"));
        assert_non_null(strstr(v, "; SameSite=Strict"));
        assert_null(strstr(v, "Domain"));
        return arena_copy_n(&world.arena, v + n + 1, strcspn(v + n + 1, ";"));
    }
    return NULL;
}

static const char *location(const struct response *r)
{
    for (int i = 0; i < r->n_headers; i++)
        if (strcmp(r->headers[i].name, "Location") == 0) return r->headers[i].value;
    return "";
}

/* Before a byte of them reaches the disk: the garage's folder for files is not even there. */
static void refuses_files(const char *path)
{
    static const char body[] = "--x\r\nContent-Disposition: form-data; name=\"token\"\r\n\r\n1\r\n"
                               "--x\r\nContent-Disposition: form-data; name=\"f\"; "
                               "filename=\"a.jpg\"\r\n\r\n1\r\n--x--\r\n";
    const struct site *site = &world.site;
    const char *folder = arena_print(&world.arena, "%s/files", site->dir),
               *away = arena_print(&world.arena, "%s.away", folder);
    const bool moved = rename(folder, away) == 0;
    struct response r = ask(arena_print(
        &world.arena,
        "POST %s HTTP/1.1\r\nHost: bench\r\nContent-Type: multipart/form-data; boundary=x\r\n"
        "Content-Length: %zu\r\n\r\n%s",
        path, sizeof body - 1, body));
    assert_int_equal(403, r.status);
    if (moved) assert_int_equal(0, rename(away, folder));
}

/* Every page there is, so that one added later cannot be forgotten. */
static void shows_the_unpaired_nothing(void **state)
{
    (void)state;
    int open = 0;
    for (const struct route *route = routes; route->pattern; route++) {
        const char *fields = "a=b", *method = route->method == METHOD_GET ? "GET" : "POST";
        struct response r = ask(arena_print(
            &world.arena,
            "%s %s HTTP/1.1\r\nHost: bench\r\nContent-Type: application/x-www-form-urlencoded\r\n"
            "Content-Length: %zu\r\n\r\n%s",
            method, route->pattern, strlen(fields), fields));
        if (route->to == TO_ANYONE) {
            open++;
        } else if (route->to == TO_PAIRED && route->method == METHOD_GET) {
            assert_int_equal(303, r.status);
            assert_string_equal("/pair", location(&r));
            assert_int_equal(0, r.length);
        } else {
            assert_int_equal(403, r.status);
            assert_null(strstr(r.body, "/trade")); /* nor the way to anything */
        }
        if (route->method == METHOD_FILES) refuses_files(route->pattern);
    }
    /* /pair, with and without a code, both ways; the style sheet and two scripts */
    assert_int_equal(7, open);
}

struct sent {
    const char *session, *token, *code, *origin;
};

static struct response pair_with(struct sent s)
{
    const char *body =
        arena_print(&world.arena, "token=%s&code=%s&name=Anna%%27s", s.token, s.code);
    return ask(arena_print(&world.arena,
                           "POST /pair HTTP/1.1\r\nHost: 192.168.1.20:8061\r\nOrigin: %s\r\n"
                           "Cookie: __Host-fettle=%s\r\n"
                           "Content-Type: application/x-www-form-urlencoded\r\n"
                           "Content-Length: %zu\r\n\r\n%s",
                           s.origin, s.session, strlen(body), body));
}

static void pairs_a_phone(void **state)
{
    (void)state;
    char code[PAIR_CODE_LETTERS + 1];
    int64_t left;
    struct devices list;
    struct fail f = {0};
    pairing_renew(&world.pairing, time(NULL));
    pairing_state(&world.pairing, time(NULL), code, &left);
    struct response page = get(arena_print(&world.arena, "/pair/%s", code), "");
    assert_int_equal(200, page.status);
    assert_non_null(strstr(page.body, code)); /* opening the address spends nothing */
    assert_int_equal(CODE_OPEN, pairing_state(&world.pairing, time(NULL), code, &left));
    page = get("/pair", "");
    const char *token = strstr(page.body, "name=\"token\" value=\"");
    assert_non_null(token);
    struct sent s = {set_cookie(&page, "__Host-fettle"),
                     arena_copy_n(&world.arena, token + strlen("name=\"token\" value=\""), 64),
                     code, "https://192.168.1.20:8061"};
    assert_non_null(s.session);
    struct sent other = s;
    other.origin = "http://192.168.1.20:8061";
    assert_int_equal(403, pair_with(other).status);
    other = s;
    other.token = "0000000000000000000000000000000000000000000000000000000000000000";
    assert_int_equal(403, pair_with(other).status);
    assert_int_equal(CODE_OPEN, pairing_state(&world.pairing, time(NULL), code, &left));
    struct response in = pair_with(s);
    assert_int_equal(303, in.status);
    const char *device = set_cookie(&in, "__Host-device");
    assert_non_null(device);
    assert_int_equal(403, pair_with(s).status); /* used */
    const char *cookie = arena_print(&world.arena, "__Host-device=%s", device);
    page = get("/", cookie);
    assert_int_equal(200, page.status);
    assert_non_null(strstr(page.body, "No vehicle in the garage yet"));
    assert_int_equal(303, get("/pair", cookie).status);
    assert_int_equal(403, get("/devices", cookie).status); /* it lets in nobody else */
    assert_int_equal(303, get("/", arena_print(&world.arena, "device=%s", device)).status);
    /* As after a start of the program: nothing but the file is needed. */
    assert_true(devices_read(&world.arena, world.site.dir, time(NULL), &list, &f));
    assert_int_equal(1, list.count);
    assert_string_equal("Anna's", list.items[0].name);
    assert_true(devices_forget(&world.arena, world.site.dir, list.items[0].id, time(NULL), &f));
    assert_int_equal(303, get("/", cookie).status);
    put(path("garage/share/devices.json"), "{", 0600);
    page = get("/", cookie);
    assert_int_equal(503, page.status); /* nobody in, and no folder's name out */
    assert_null(strstr(page.body, world.folder));
    assert_int_equal(0, unlink(path("garage/share/devices.json")));
}

static int dial(const struct server *server)
{
    struct sockaddr_in to = {.sin_family = AF_INET,
                             .sin_port = htons((uint16_t)server_port(server))};
    const struct timeval patience = {20, 0};
    int fd = socket(AF_INET, SOCK_STREAM, 0);
    to.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
    assert_true(fd >= 0);
    assert_int_equal(0, setsockopt(fd, SOL_SOCKET, SO_RCVTIMEO, &patience, sizeof patience));
    assert_int_equal(0, connect(fd, (struct sockaddr *)&to, sizeof to));
    return fd;
}

/* Speaks TLS as a browser that trusts the certificate would: the status of the page, or 0. */
static int ask_over_tls(const struct server *server, const char *versions)
{
    static const char request[] = "GET / HTTP/1.1\r\nHost: bench\r\nConnection: close\r\n\r\n";
    const gnutls_datum_t trust = {(unsigned char *)(uintptr_t)world.share.certificate,
                                  (unsigned)strlen(world.share.certificate)};
    gnutls_certificate_credentials_t credentials;
    gnutls_session_t session;
    char answer[64] = "";
    int status = 0, fd = dial(server);
    assert_int_equal(0, gnutls_certificate_allocate_credentials(&credentials));
    assert_int_equal(
        1, gnutls_certificate_set_x509_trust_mem(credentials, &trust, GNUTLS_X509_FMT_PEM));
    assert_int_equal(0, gnutls_init(&session, GNUTLS_CLIENT));
    assert_int_equal(0, gnutls_priority_set_direct(session, versions, NULL));
    gnutls_credentials_set(session, GNUTLS_CRD_CERTIFICATE, credentials);
    gnutls_session_set_verify_cert(session, "bench.local", 0);
    gnutls_transport_set_int(session, fd);
    gnutls_handshake_set_timeout(session, GNUTLS_DEFAULT_HANDSHAKE_TIMEOUT);
    if (gnutls_handshake(session) == 0 &&
        gnutls_record_send(session, request, sizeof request - 1) > 0 &&
        gnutls_record_recv(session, answer, sizeof answer - 1) > 0)
        sscanf(answer, "HTTP/1.1 %d", &status);
    gnutls_deinit(session);
    gnutls_certificate_free_credentials(credentials);
    close(fd);
    return status;
}

static void speaks_tls_to_its_neighbours_alone(void **state)
{
    (void)state;
    const struct server_settings settings = {.idle_seconds = 1, .deadline_seconds = 1};
    static const char plain[] = "GET / HTTP/1.1\r\nHost: bench\r\nConnection: close\r\n\r\n";
    struct server *server;
    struct fail f = {0};
    char byte;
    if (!server_start(&world.arena, &world.site, &settings, &server, &f)) fail_msg("%s", f.text);
    assert_int_equal(303, ask_over_tls(server, "NORMAL"));
    assert_int_equal(303, ask_over_tls(server, "NORMAL:-VERS-ALL:+VERS-TLS1.2"));
    assert_int_equal(0, ask_over_tls(server, "NORMAL:-VERS-ALL:+VERS-TLS1.1"));
    int silent = dial(server), fd = dial(server);
    assert_true(send(fd, plain, sizeof plain - 1, 0) > 0);
    while (recv(fd, &byte, 1, 0) > 0) assert_int_not_equal('H', byte);
    close(fd);
    errno = 0;
    while (recv(silent, &byte, 1, 0) > 0)
        continue; /* no handshake: an alert at most, and cut off */
    assert_int_not_equal(EAGAIN, errno);
    close(silent);
    assert_int_equal(303, ask_over_tls(server, "NORMAL"));
    world.share.addresses[0].mask = 0xFFFFFFFF;
    world.share.addresses[0].ip = 0x7F000002; /* we are no neighbour any more */
    assert_int_equal(0, ask_over_tls(server, "NORMAL"));
    server_stop(server);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(knows_its_names_and_neighbours),
        cmocka_unit_test(makes_the_certificate_anew_when_it_must),
        cmocka_unit_test(says_what_is_wrong_with_its_files),
        cmocka_unit_test(shows_the_unpaired_nothing),
        cmocka_unit_test(pairs_a_phone),
        cmocka_unit_test(speaks_tls_to_its_neighbours_alone),
    };
    return cmocka_run_group_tests(tests, begin, end);
}
