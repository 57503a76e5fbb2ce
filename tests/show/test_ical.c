/* The calendar stream, read back by a small parser of its own: every rule of RFC 5545 that it leans
 * on is looked at in the bytes. */
#include "face/show/ical.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

static struct arena arena;

static int open_arena(void **state)
{
    (void)state;
    arena = arena_open(1 << 20);
    return 0;
}

static int close_arena(void **state)
{
    (void)state;
    arena_close(&arena);
    return 0;
}

enum { LINES_MOST = 400 };

/* Content lines, unfolded. Fails on a line over 75 octets, a lone CR or LF, and a fold inside of a
 * character. */
static int unfold(const char *stream, char *lines[LINES_MOST])
{
    int n = 0;
    const char *s = stream;
    while (*s) {
        const char *end = strstr(s, "\r\n");
        assert_non_null(end);
        assert_true(end - s <= 75);
        for (const char *c = s; c < end; c++) assert_true(*c != '\r' && *c != '\n');
        if (*s == ' ' || *s == '\t') {
            assert_true(n > 0);
            assert_true(((unsigned char)s[1] & 0xC0) != 0x80);
            lines[n - 1] = arena_print(&arena, "%s%.*s", lines[n - 1], (int)(end - s - 1), s + 1);
        } else {
            assert_true(n < LINES_MOST);
            lines[n++] = arena_copy_n(&arena, s, (size_t)(end - s));
        }
        s = end + 2;
    }
    return n;
}

/* The value of a property, its escapes taken back; NULL: the line is of another. */
static const char *value_of(const char *line, const char *name)
{
    const size_t n = strlen(name);
    if (strncmp(line, name, n) != 0 || (line[n] != ':' && line[n] != ';')) return NULL;
    char *out = arena_copy(&arena, strchr(line, ':') + 1), *to = out;
    for (const char *s = out; *s; s++, to++) {
        *to = *s;
        if (*s != '\\') {
            assert_true(*s != ';' && *s != ',');
            continue;
        }
        s++;
        assert_true(*s && strchr("\\;,nN", *s));
        *to = *s == 'n' || *s == 'N' ? '\n' : *s;
    }
    *to = '\0';
    return out;
}

struct read_event {
    const char *uid, *stamp, *start, *end, *summary, *text;
    int whole_day;
};

/* One VCALENDAR with what it must have once; events with what they must have once. */
static int parse(const char *stream, struct read_event *events, int most)
{
    static const char *const once[] = {"UID", "DTSTAMP", "DTSTART", "DTEND", "SUMMARY"};
    char *lines[LINES_MOST];
    const int n = unfold(stream, lines);
    int count = 0, version = 0, product = 0, seen[5] = {0}, inside = 0;
    assert_string_equal(lines[0], "BEGIN:VCALENDAR");
    assert_string_equal(lines[n - 1], "END:VCALENDAR");
    for (int i = 1; i < n - 1; i++) {
        struct read_event *e = &events[count];
        if (strcmp(lines[i], "BEGIN:VEVENT") == 0) {
            assert_true(!inside && count < most);
            *e = (struct read_event){0};
            memset(seen, 0, sizeof seen);
            inside = 1;
            continue;
        }
        if (strcmp(lines[i], "END:VEVENT") == 0) {
            assert_true(inside);
            for (int k = 0; k < 5; k++) assert_int_equal(seen[k], 1);
            inside = 0;
            count++;
            continue;
        }
        if (!inside) {
            version += strcmp(lines[i], "VERSION:2.0") == 0;
            product += strncmp(lines[i], "PRODID:", 7) == 0;
            continue;
        }
        const char **const to[5] = {&e->uid, &e->stamp, &e->start, &e->end, &e->summary};
        for (int k = 0; k < 5; k++) {
            const char *value = value_of(lines[i], once[k]);
            if (value) *to[k] = value, seen[k]++;
        }
        const char *text = value_of(lines[i], "DESCRIPTION");
        if (text) e->text = text;
        e->whole_day |= strncmp(lines[i], "DTSTART;VALUE=DATE:", 19) == 0;
    }
    assert_int_equal(version, 1);
    assert_int_equal(product, 1);
    assert_true(count > 0);
    return count;
}

static void what_is_written_is_read_back(void **state)
{
    (void)state;
    static const char long_name[] =
        "Überholsatz für den Hauptbremszylinder, mit Manschetten; Größe 19 mm \\ Ausführung ÄÖÜ, "
        "dazu «Dichtungen» und 漢字 漢字 漢字 漢字 漢字 漢字 漢字 漢字 漢字 漢字 漢字 漢字 漢字 "
        "漢字";
    const day d = day_from_civil(2026, 12, 31);
    struct feed feed = {0};
    struct read_event read[4];
    feed_add(&arena, &feed,
             (struct feed_event){"delivery-1", long_name, "a\nb\r\x01 c", d, -1, -1});
    feed_add(&arena, &feed,
             (struct feed_event){"session-1", "Garage", NULL, d, 19 * 60 + 25, 26 * 60});
    const char *stream = ical_write(&arena, &feed, day_from_civil(2026, 11, 25));
    assert_int_equal(parse(stream, read, 4), 2);
    assert_string_equal(read[0].uid, "delivery-1@fettle");
    assert_string_equal(read[0].summary, long_name);
    assert_string_equal(read[0].text, "a\nb c");
    assert_string_equal(read[0].start, "20261231");
    assert_string_equal(read[0].end, "20270101"); /* exclusive */
    assert_string_equal(read[0].stamp, "20261125T000000Z");
    assert_true(read[0].whole_day && !read[1].whole_day);
    assert_string_equal(read[1].start, "20261231T192500"); /* floating */
    assert_string_equal(read[1].end, "20270101T020000");
    assert_string_equal(ical_write(&arena, &feed, day_from_civil(2026, 11, 25)), stream);
}

static void folds_at_every_length(void **state)
{
    (void)state;
    for (int n = 50; n < 160; n++) {
        struct arena whole = arena;
        struct feed feed = {0};
        struct read_event read[1];
        char *name = ARENA_ARRAY(&arena, char, 2 * n + 1);
        for (int i = 0; i < n; i++) memcpy(name + 2 * i, i % 3 ? "é" : "a,", 2);
        name[2 * n] = '\0';
        feed_add(&arena, &feed, (struct feed_event){"x", name, NULL, 0, -1, -1});
        parse(ical_write(&arena, &feed, 0), read, 1);
        assert_string_equal(read[0].summary, name);
        arena = whole;
    }
}

static void an_empty_one_has_a_component(void **state)
{
    (void)state;
    const struct feed feed = {0};
    struct read_event read[1];
    assert_int_equal(parse(ical_write(&arena, &feed, 0), read, 1), 1);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_is_written_is_read_back),
        cmocka_unit_test(folds_at_every_length),
        cmocka_unit_test(an_empty_one_has_a_component),
    };
    return cmocka_run_group_tests(tests, open_arena, close_arena);
}
