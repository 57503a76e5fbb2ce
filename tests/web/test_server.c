/* The server against a real socket: what is malformed, endless, slow or too much is refused or cut
 * off, and after each the next client is answered. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "face/web/server.h"

#include <arpa/inet.h>
#include <errno.h>
#include <netinet/in.h>
#include <poll.h>
#include <signal.h>
#include <sodium.h>
#include <stdio.h>
#include <string.h>
#include <sys/socket.h>
#include <unistd.h>

static struct {
    struct arena arena;
    struct site site;
    struct server *server;
} world;

static int begin(void **state)
{
    (void)state;
    struct fail f = {0};
    const struct server_settings settings = {.idle_seconds = 1, .deadline_seconds = 1};
    signal(SIGPIPE, SIG_IGN);
    world.arena = arena_open((size_t)64 << 20);
    site_open(&world.arena, "/nonexistent", day_from_civil(2026, 11, 25), &world.site);
    if (sodium_init() < 0) return -1;
    return server_start(&world.arena, &world.site, &settings, &world.server, &f) ? 0 : -1;
}

static int end(void **state)
{
    (void)state;
    server_stop(world.server);
    site_close(&world.site);
    arena_close(&world.arena);
    return 0;
}

/* A test that waits for ever would tell nothing: what takes this long has failed. */
enum { PATIENCE_SECONDS = 20 };

static int dial(void)
{
    struct sockaddr_in to = {.sin_family = AF_INET,
                             .sin_port = htons((uint16_t)server_port(world.server))};
    const struct timeval patience = {PATIENCE_SECONDS, 0};
    int fd = socket(AF_INET, SOCK_STREAM, 0);
    to.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
    assert_true(fd >= 0);
    assert_int_equal(0, setsockopt(fd, SOL_SOCKET, SO_RCVTIMEO, &patience, sizeof patience));
    assert_int_equal(0, setsockopt(fd, SOL_SOCKET, SO_SNDTIMEO, &patience, sizeof patience));
    assert_int_equal(0, connect(fd, (struct sockaddr *)&to, sizeof to));
    return fd;
}

/* Whether all of it went; the server may hang up in between. */
static bool give(int fd, const char *bytes, size_t n)
{
    for (size_t at = 0; at < n;) {
        ssize_t sent = send(fd, bytes + at, n - at, 0);
        if (sent <= 0) return false;
        at += (size_t)sent;
    }
    return true;
}

/* Everything up to the end of the connection, and hangs up. Fails when the server does not end it.
 */
static void take(int fd, char *out, size_t room)
{
    size_t at = 0;
    for (;;) {
        char rest[512];
        ssize_t n =
            at + 1 < room ? recv(fd, out + at, room - 1 - at, 0) : recv(fd, rest, sizeof rest, 0);
        if (n < 0 && errno == EAGAIN) fail_msg("the server held the connection open");
        if (n <= 0) break;
        if (at + 1 < room) at += (size_t)n;
    }
    out[at] = '\0';
    close(fd);
}

static bool answers(void)
{
    static const char good[] =
        "GET /style.css HTTP/1.1\r\nHost: localhost\r\nConnection: close\r\n\r\n";
    char answer[256];
    int fd = dial();
    give(fd, good, sizeof good - 1);
    take(fd, answer, sizeof answer);
    return strncmp(answer, "HTTP/1.1 200 ", 13) == 0;
}

/* A place that was given up is free a moment later. */
static void assert_answers_soon(void)
{
    for (int i = 0; i < PATIENCE_SECONDS * 20; i++) {
        if (answers()) return;
        poll(NULL, 0, 50);
    }
    fail_msg("the server did not come back");
}

#define LINE "GET /style.css HTTP/1.1\r\n"
#define HOST "Host: localhost\r\n"
#define FORM "Content-Type: application/x-www-form-urlencoded\r\n"
#define LAST "Connection: close\r\n\r\n"

static void refuses_what_is_malformed(void **state)
{
    (void)state;
    static const struct {
        const char *bytes;
        int status, also; /* what may be answered */
    } rows[] = {
        {LINE LAST, 400, 400},
        {LINE HOST HOST LAST, 400, 400},
        {LINE "Host: localhost\r\nHost: elsewhere.example\r\n" LAST, 400, 400},
        {LINE "Host: elsewhere.example\r\n" LAST, 421, 421},
        {LINE "Host : localhost\r\n" LAST, 400, 400},
        {LINE HOST "Content-Length: 4\r\nTransfer-Encoding: chunked\r\n" LAST "0\r\n\r\n", 501,
         400},
        {"POST /intake HTTP/1.1\r\n" HOST FORM
         "Content-Length: 4\r\nTransfer-Encoding: chunked\r\n" LAST "0\r\n\r\n",
         501, 400},
        {"POST /intake HTTP/1.1\r\n" HOST FORM "Transfer-Encoding: chunked\r\n" LAST "0\r\n\r\n",
         501, 501},
        {"POST /intake HTTP/1.1\r\n" HOST FORM "Content-Length: 1\r\nContent-Length: 2\r\n" LAST
         "ab",
         400, 400},
        {"POST /intake HTTP/1.1\r\n" HOST FORM "Content-Length: -1\r\n" LAST, 400, 400},
        {"POST /intake HTTP/1.1\r\n" HOST FORM "Content-Length: 99999999999999999999\r\n" LAST, 400,
         413},
        {"POST /intake HTTP/1.1\r\n" HOST FORM "Content-Length: 99999999999\r\n" LAST, 413, 413},
        {"POST /intake HTTP/1.1\r\n" HOST FORM LAST, 411, 411},
        {"POST /intake HTTP/1.1\r\n" HOST FORM "Content-Length: 4\r\n" LAST "a=%f", 400, 400},
        {"GET /../../etc/passwd HTTP/1.1\r\n" HOST LAST, 400, 400},
        {"GET /%2e%2e/%2e%2e/etc/passwd HTTP/1.1\r\n" HOST LAST, 400, 400},
        {"GET /trade/..%2f..%2fgarage.db HTTP/1.1\r\n" HOST LAST, 400, 400},
        {"GET /trade/%00 HTTP/1.1\r\n" HOST LAST, 400, 400},
        {"GET \\..\\garage.db HTTP/1.1\r\n" HOST LAST, 400, 400},
        {"GET http://localhost/style.css HTTP/1.1\r\n" HOST LAST, 400, 400},
        {"GET /style.css HTTP/9.9\r\n" HOST LAST, 505, 505},
        {"BREW /style.css HTTP/1.1\r\n" HOST LAST, 405, 405},
        {"GET /style.css\r\n\r\n", 400, 505},
        {"\x16\x03\x01\x02\x01\x01\xfc\x03\x03 no page\r\n\r\n", 400, 400},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        char answer[512];
        int fd = dial(), status = -1;
        give(fd, rows[i].bytes, strlen(rows[i].bytes));
        take(fd, answer, sizeof answer);
        sscanf(answer, "HTTP/1.%*d %d ", &status);
        if (status != rows[i].status && status != rows[i].also)
            fail_msg("row %zu: %d, not %d: %s", i, status, rows[i].status, answer);
        assert_true(answers());
    }
}

/* One header, or many, past what a browser sends. */
static void refuses_huge_headers(void **state)
{
    (void)state;
    static char bytes[80000];
    char answer[512];
    for (int many = 0; many < 2; many++) {
        size_t n = (size_t)snprintf(bytes, sizeof bytes, LINE HOST);
        if (many) {
            for (int i = 0; i <= REQUEST_HEADERS_MOST; i++)
                n += (size_t)snprintf(bytes + n, sizeof bytes - n, "X-%d: y\r\n", i);
        } else {
            n += (size_t)snprintf(bytes + n, sizeof bytes - n, "X: ");
            memset(bytes + n, 'y', 70000);
            n += 70000;
        }
        n += (size_t)snprintf(bytes + n, sizeof bytes - n, "\r\n" LAST);
        int fd = dial();
        give(fd, bytes, n);
        take(fd, answer, sizeof answer);
        /* With bytes still unread the hanging up may overtake the answer. */
        if (*answer || many) assert_non_null(strstr(answer, " 431 "));
        assert_true(answers());
    }
}

/* None of these ends by itself: the first two say nothing more, the others a byte now and then. */
static void cuts_off_slow_clients(void **state)
{
    (void)state;
    static const struct {
        const char *first, *drip;
    } rows[] = {
        {"", ""},
        {LINE "Ho", ""},
        {"POST /intake HTTP/1.1\r\n" HOST FORM "Content-Length: 4000\r\n\r\na", ""},
        {"G", "/"},
        {LINE HOST "X: ", "y"},
        {"POST /intake HTTP/1.1\r\n" HOST FORM "Content-Length: 60000\r\n\r\n", "b"},
    };
    enum { COUNT = sizeof rows / sizeof *rows };
    struct pollfd open[COUNT];
    int left = COUNT;
    for (int i = 0; i < COUNT; i++) {
        open[i] = (struct pollfd){.fd = dial(), .events = POLLIN};
        assert_true(give(open[i].fd, rows[i].first, strlen(rows[i].first)));
    }
    for (int step = 0; left > 0 && step < PATIENCE_SECONDS * 5; step++) {
        assert_true(poll(open, COUNT, 200) >= 0);
        for (int i = 0; i < COUNT; i++) {
            char ignored[512];
            if (open[i].fd < 0) continue;
            bool gone = (open[i].revents && recv(open[i].fd, ignored, sizeof ignored, 0) <= 0) ||
                        !give(open[i].fd, rows[i].drip, strlen(rows[i].drip));
            if (!gone) continue;
            close(open[i].fd);
            open[i].fd = -1;
            left--;
        }
        assert_true(answers()); /* others are served meanwhile */
    }
    assert_int_equal(0, left);
}

static void hangs_up_when_all_places_are_taken(void **state)
{
    (void)state;
    struct fail f = {0};
    const struct server_settings patient = {0};
    struct server *quick = world.server;
    int held[SERVER_CONNECTIONS_MOST];
    assert_true(server_start(&world.arena, &world.site, &patient, &world.server, &f));
    for (int i = 0; i < SERVER_CONNECTIONS_MOST; i++) {
        held[i] = dial();
        give(held[i], "GET", 3);
    }
    assert_false(answers());
    for (int i = 0; i < SERVER_CONNECTIONS_MOST; i++) close(held[i]);
    assert_answers_soon();
    server_stop(world.server);
    world.server = quick;
}

/* A crowd that says nothing keeps others out only until its deadline. */
static void outlasts_a_crowd(void **state)
{
    (void)state;
    int held[2 * SERVER_CONNECTIONS_MOST];
    enum { COUNT = sizeof held / sizeof *held };
    for (int i = 0; i < COUNT; i++) held[i] = dial();
    assert_answers_soon();
    for (int i = 0; i < COUNT; i++) close(held[i]);
}

static void keeps_a_port_to_itself(void **state)
{
    (void)state;
    struct fail f = {0};
    struct server *second;
    const struct server_settings settings = {.port = server_port(world.server)};
    assert_false(server_start(&world.arena, &world.site, &settings, &second, &f));
    assert_non_null(strstr(f.text, "name another with --port"));
    assert_true(answers());
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(refuses_what_is_malformed),
        cmocka_unit_test(refuses_huge_headers),
        cmocka_unit_test(cuts_off_slow_clients),
        cmocka_unit_test(hangs_up_when_all_places_are_taken),
        cmocka_unit_test(outlasts_a_crowd),
        cmocka_unit_test(keeps_a_port_to_itself),
    };
    return cmocka_run_group_tests(tests, begin, end);
}
