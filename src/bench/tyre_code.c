#include "bench/tyre_code.h"

#include "base/text.h"

#include <ctype.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

static const double INCH = 0.0254;
const char *const tyre_build_names[] = {"radial", "cross-ply", "belted cross-ply"};

/* Published: tables of load index and speed symbol of the tyre trade (N to Y); L and M are told
 * from memory. */
enum { LOAD_FIRST = 71, LOAD_LAST = 110 };
static const short loads[LOAD_LAST - LOAD_FIRST + 1] = {
    345, 355, 365, 375, 387, 400, 412, 425, 437, 450,  462,  475, 487, 500,
    515, 530, 545, 560, 580, 600, 615, 630, 650, 670,  690,  710, 730, 750,
    775, 800, 825, 850, 875, 900, 925, 950, 975, 1000, 1030, 1060};
static const struct {
    char symbol;
    short kmh;
} speeds[] = {{'L', 120}, {'M', 130}, {'N', 140}, {'P', 150}, {'Q', 160}, {'R', 170}, {'S', 180},
              {'T', 190}, {'U', 200}, {'H', 210}, {'V', 240}, {'W', 270}, {'Y', 300}};

/* Diameters over the tread, inches. A78-14 is published in a repair manual; the others are told
 * from memory, since no maker's table of that time was reachable. */
static const struct {
    const char *size;
    double inches;
} old_sizes[] = {
    {"A78-14", 24.2},  {"5.20-13", 22.9}, {"5.60-15", 25.8}, {"6.00-16", 28.3}, {"6.40-15", 27.2},
    {"6.50-16", 29.3}, {"6.70-15", 27.8}, {"7.50-14", 27.0}, {"8.00-14", 27.6},
};
static const double TABLE_DOUBT = 0.025;
enum { OLD_SIZES = sizeof old_sizes / sizeof *old_sizes };

double tyre_load(int index)
{
    return index < LOAD_FIRST || index > LOAD_LAST ? 0 : loads[index - LOAD_FIRST];
}

double tyre_speed(char symbol)
{
    for (size_t i = 0; i < sizeof speeds / sizeof *speeds; i++)
        if (speeds[i].symbol == symbol) return speeds[i].kmh / 3.6;
    return 0;
}

double tyre_rolls(enum tyre_build build, double diameter)
{
    return (build == TYRE_RADIAL ? 3.05 : 2.995) * diameter;
}

/* What is left to read of a code: capitals, no blanks. */
struct reader {
    const char *input, *typed, *s;
    struct fail *f;
};

static bool is_misread(const struct reader *r, const char *what)
{
    return fail_set(r->f, FAIL_INPUT, "%s: '%.40s' is misread: %s", r->input, r->typed, what);
}

static bool take(struct reader *r, const char *prefix)
{
    const size_t n = strlen(prefix);
    if (strncmp(r->s, prefix, n) != 0) return false;
    r->s += n;
    return true;
}

/* Digits with at most one point; false if there are none, or too many to be of a tyre. */
static bool take_number(struct reader *r, double *out)
{
    const size_t n = strspn(r->s, "0123456789.");
    char digits[8];
    if (n == 0 || n >= sizeof digits) return false;
    memcpy(digits, r->s, n);
    digits[n] = '\0';
    if (!text_to_double(digits, out)) return false;
    r->s += n;
    return true;
}

/* "R", "SR", "HR", "-", "D", "B", "X": how it is built, and in old codes how fast it may run. */
static bool take_build(struct reader *r, struct tyre *t)
{
    if (r->s[0] && r->s[1] == 'R' && tyre_speed(r->s[0]) > 0 && r->s[0] != 'R') t->speed = *r->s++;
    if (take(r, "ZR") || take(r, "R")) {
        t->build = TYRE_RADIAL;
        return true;
    }
    if (t->speed) return false;
    t->build = *r->s == 'B' ? TYRE_BELTED : TYRE_CROSS_PLY;
    return take(r, "-") || take(r, "D") || take(r, "B") || take(r, "X");
}

/* The rim: inches, or from 100 up millimetres. */
static bool take_rim(struct reader *r, struct tyre *t)
{
    double rim;
    if (!take_number(r, &rim)) return is_misread(r, "a rim, as 14, must follow its build");
    if (!(rim >= 8 && rim <= 30) && !(rim >= 315 && rim <= 500))
        return is_misread(r, "rims are 8 to 30 inches, or 315 to 500 millimetres");
    t->rim = rim < 100 ? rim * INCH : rim * 1e-3;
    return true;
}

/* "95H", "(95H)", "95/93S", "H", "6PR", after the size. */
static bool take_service(struct reader *r, struct tyre *t)
{
    double index, second;
    take(r, "C"); /* for vans */
    while (take(r, " ") || take(r, "(")) continue;
    if (isdigit((unsigned char)*r->s)) {
        if (!take_number(r, &index)) return is_misread(r, "that is no load index");
        if (take(r, "PR")) return !*r->s || is_misread(r, "there is more after its plies");
        if (index < 40 || index > 150 || index != floor(index))
            return is_misread(r, "load indexes are whole, 40 to 150");
        t->load_index = (int)index;
        if (take(r, "/") && !take_number(r, &second))
            return is_misread(r, "the load index of twin wheels must follow the '/'");
    }
    if (*r->s && *r->s != ')') {
        const char symbol = *r->s++;
        if (tyre_speed(symbol) == 0) return is_misread(r, "speed symbols known here are L to Y");
        t->speed = symbol;
    }
    take(r, ")");
    return !*r->s || is_misread(r, "there is more after its speed symbol");
}

static bool metric(struct reader *r, double width, struct tyre *t)
{
    t->width = width * 1e-3;
    t->form = "metric without aspect";
    if (width < 105 || width > 405) return is_misread(r, "widths are 105 to 405 millimetres");
    if (fmod(width, 5) != 0) return is_misread(r, "widths end in 5, some old ones in 0");
    if (take(r, "/")) {
        t->form = "metric";
        if (!take_number(r, &t->aspect) || t->aspect < 25 || t->aspect > 100)
            return is_misread(r, "the aspect after the '/' is 25 to 100 percent of the width");
        t->aspect *= 0.01;
    } else {
        t->aspect = 0.81; /* practice: 80 to 82 percent */
        t->doubt = 0.01;
    }
    if (!take_build(r, t)) return is_misread(r, "R, or - for cross-ply, must follow its width");
    if (!take_rim(r, t)) return false;
    t->diameter = 2 * t->width * t->aspect + t->rim;
    return true;
}

/* Practice, and what the old table shows: as high as wide on rims of 16 inches and more, lower on
 * smaller ones. */
static double inch_aspect(double width, double rim)
{
    if (rim > 15.5 * INCH) return 1.0;
    return rim < 14.5 * INCH && width > 6.9 * INCH ? 0.86 : 0.95;
}

static bool inch(struct reader *r, double width, struct tyre *t)
{
    t->form = "inch";
    t->width = (width >= 100 ? width * 0.01 : width) * INCH; /* 600-16 is 6.00-16 */
    if (t->width < 2.2 * INCH || t->width > 12 * INCH)
        return is_misread(r, "inch widths are 2.25 to 12");
    if (!take_build(r, t)) return is_misread(r, "a '-' and the rim must follow its width");
    if (!take_rim(r, t)) return false;
    t->aspect = inch_aspect(t->width, t->rim);
    t->diameter = 2 * t->width * t->aspect + t->rim;
    t->doubt = 0.05;
    return true;
}

static bool flotation(struct reader *r, double across, struct tyre *t)
{
    t->form = "flotation";
    t->diameter = across * INCH;
    if (!take_number(r, &t->width) || t->width < 6 || t->width > 20)
        return is_misread(r, "its width, 6 to 20 inches, must follow the x");
    t->width *= INCH;
    if (!take_build(r, t)) return is_misread(r, "R or - must follow its width");
    if (!take_rim(r, t)) return false;
    if (t->rim > 0.85 * t->diameter) return is_misread(r, "its rim leaves no tyre");
    t->aspect = (t->diameter - t->rim) / 2 / t->width;
    return true;
}

/* "A78-14", "ER78-15": a letter of its load, the aspect, the rim. Only those of the table. */
static bool letter(struct reader *r, struct tyre *t)
{
    t->form = "letter";
    r->s++;
    const bool radial = take(r, "R");
    if (!take_number(r, &t->aspect) || t->aspect < 50 || t->aspect > 83)
        return is_misread(r, "an aspect of 50 to 83 must follow its letter");
    t->aspect *= 0.01;
    if (!take_build(r, t)) return is_misread(r, "a '-' and the rim must follow");
    if (radial) t->build = TYRE_RADIAL;
    return take_rim(r, t);
}

/* A size of the table gives the diameter that was printed then. */
static bool look_up(const struct reader *r, const char *code, struct tyre *t)
{
    for (int i = 0; i < OLD_SIZES; i++) {
        char plain[16];
        size_t n = 0;
        for (const char *s = old_sizes[i].size; *s; s++)
            if (*s != '.') plain[n++] = *s;
        plain[n] = '\0';
        size_t at = 0;
        const char *c = code;
        for (; c < r->s && at < n; c++) {
            if (*c == '.') continue;
            if (plain[at] != *c && !(plain[at] == '-' && *c == 'X')) break;
            at++;
        }
        if (at < n || c != r->s) continue;
        t->diameter = old_sizes[i].inches * INCH;
        t->doubt = TABLE_DOUBT;
        if (t->width > 0) t->aspect = (t->diameter - t->rim) / 2 / t->width;
        return true;
    }
    return false;
}

static bool read_size(struct reader *r, struct tyre *t)
{
    const char *code = r->s;
    double number;
    if (*r->s >= 'A' && *r->s <= 'N' && strspn(r->s + 1, "R0123456789") > 1)
        return letter(r, t) &&
               (look_up(r, code, t) ||
                is_misread(r, "no diameter is known for that letter; measure the tyre, and give "
                              "diameter or circumference instead"));
    if (!take(r, "LT")) take(r, "P");
    code = r->s;
    const bool has_point = strchr(r->s, '.') != NULL;
    if (!take_number(r, &number))
        return is_misread(r, "sizes are like 185/60R14, 165SR13, 6.00-16 or A78-14");
    if (*r->s == 'X' && number >= 20 && number < 60) {
        r->s++;
        return flotation(r, number, t);
    }
    const bool is_inch = number < 20 || (number >= 400 && number < 1000 && !has_point);
    if (is_inch) {
        if (!inch(r, number, t)) return false;
        look_up(r, code, t);
        return true;
    }
    return metric(r, number, t);
}

bool tyre_parse(const char *input, const char *typed, struct tyre *out, struct fail *f)
{
    char code[32];
    size_t n = 0;
    struct reader r = {input, typed, code, f};
    *out = (struct tyre){.form = ""};
    for (const char *s = typed; *s; s++) {
        /* A blank parts a rim from a load index, and says nothing elsewhere. */
        if (*s == ' ' &&
            (n == 0 || !isdigit((unsigned char)code[n - 1]) || !isdigit((unsigned char)s[1])))
            continue;
        if (n + 1 >= sizeof code || (unsigned char)*s < ' ' || (unsigned char)*s > 0x7e)
            return is_misread(&r, "sizes are like 185/60R14, 165SR13, 6.00-16 or A78-14");
        code[n++] = (char)(*s == ',' ? '.' : toupper((unsigned char)*s));
    }
    code[n] = '\0';
    if (!read_size(&r, out) || !take_service(&r, out)) return false;
    out->rolling = tyre_rolls(out->build, out->diameter);
    return true;
}

bool tyre_date_parse(const char *input, const char *typed, struct tyre_date *out, struct fail *f)
{
    const size_t length = strlen(typed);
    size_t start = length;
    *out = (struct tyre_date){0};
    while (start > 0 && isdigit((unsigned char)typed[start - 1])) start--;
    const char *d = typed + start;
    const size_t n = length - start;
    if (n != 3 && n != 4)
        return fail_set(f, FAIL_INPUT,
                        "%s: '%.40s' does not end in the three or four digits of week and year, as "
                        "2304; look on the tyre's other side",
                        input, typed);
    out->week = (d[0] - '0') * 10 + (d[1] - '0');
    if (out->week < 1 || out->week > 53)
        return fail_set(f, FAIL_INPUT, "%s: '%s' is misread: there is no week %02d", input, d,
                        out->week);
    if (n == 4) {
        out->years[out->n_years++] = 2000 + (d[2] - '0') * 10 + (d[3] - '0');
        return true;
    }
    for (int decade = 1970; decade <= 1990; decade += 10)
        out->years[out->n_years++] = decade + (d[2] - '0');
    return true;
}
