#include "bench/drills.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define INCH 0.0254

/* Number and letter drills in thousandths of an inch: ASME B94.11M, told from memory; the sizes
 * that the tap drill charts name were checked against them. */
static const double numbers[] = {
    228, 221,  213,   209, 205.5, 204,   201,  199,   196,  193.5, 191,  189,  185,   182, 180,
    177, 173,  169.5, 166, 161,   159,   157,  154,   152,  149.5, 147,  144,  140.5, 136, 128.5,
    120, 116,  113,   111, 110,   106.5, 104,  101.5, 99.5, 98,    96,   93.5, 89,    86,  82,
    81,  78.5, 76,    73,  70,    67,    63.5, 59.5,  55,   52,    46.5, 43,   42,    41,  40};
static const double letters[] = {234, 238, 242, 246, 250, 257, 261, 266, 272, 277, 281, 290, 295,
                                 302, 316, 323, 332, 339, 348, 358, 368, 377, 386, 397, 404, 413};
enum { NUMBERS = sizeof numbers / sizeof *numbers, LETTERS = sizeof letters / sizeof *letters };

/* Metric: by 0.05 mm to 3 mm, 0.1 to 14, 0.5 to 32, whole ones above, as sets and shops have them;
 * 10.25 and the like can be had, but are not looked for. */
static double metric_step(double mm)
{
    return mm < 3 ? 0.05 : mm < 14 ? 0.1 : mm < 32 ? 0.5 : 1;
}

struct search {
    double wanted;
    bool not_under;
    double best; /* size, 0 for none yet */
    char name[32];
};

static void consider(struct search *s, double size, const char *name)
{
    if (s->not_under && size < s->wanted - 1e-9) return;
    if (s->best > 0 && fabs(size - s->wanted) >= fabs(s->best - s->wanted) - 1e-9) return;
    s->best = size;
    snprintf(s->name, sizeof s->name, "%s", name);
}

static void consider_inch(struct search *s)
{
    char name[32];
    for (int n = 1; n <= 128; n++) {
        int top = n, under = 64;
        while (top % 2 == 0 && under > 1) top /= 2, under /= 2;
        if (n < 64)
            snprintf(name, sizeof name, "%d/%d in", top, under);
        else if (under == 1)
            snprintf(name, sizeof name, "%d in", top);
        else
            snprintf(name, sizeof name, "1 %d/%d in", top - under, under);
        consider(s, n * INCH / 64, name);
    }
    for (int i = 0; i < NUMBERS; i++) {
        snprintf(name, sizeof name, "No. %d", i + 1);
        consider(s, numbers[i] * 1e-3 * INCH, name);
    }
    for (int i = 0; i < LETTERS; i++) {
        if (i == 'E' - 'A') continue; /* 1/4 in */
        snprintf(name, sizeof name, "letter %c", 'A' + i);
        consider(s, letters[i] * 1e-3 * INCH, name);
    }
}

static void consider_metric(struct search *s)
{
    char name[32];
    for (double mm = DRILL_LOW_UM * 1e-3; mm <= DRILL_HIGH_UM * 1e-3 + 1e-6;
         mm = round((mm + metric_step(mm + 1e-6)) * 100) / 100) {
        snprintf(name, sizeof name, "%g mm", mm);
        consider(s, mm * 1e-3, name);
    }
}

static struct drill look(struct arena *a, double size, enum drill_kind kinds, bool not_under)
{
    const double low = DRILL_LOW_UM * 1e-6, high = DRILL_HIGH_UM * 1e-6;
    struct search s = {.wanted = fmin(fmax(size, low), high), .not_under = not_under};
    if (kinds & DRILL_METRIC) consider_metric(&s);
    if (kinds & DRILL_INCH) consider_inch(&s);
    return (struct drill){arena_copy(a, s.name), s.best};
}

struct drill drill_nearest(struct arena *a, double size, enum drill_kind kinds)
{
    return look(a, size, kinds, false);
}

struct drill drill_not_under(struct arena *a, double size, enum drill_kind kinds)
{
    return look(a, size, kinds, true);
}

double drill_size(const char *name)
{
    int number, top, under;
    char letter, unit[4];
    double mm;
    if (sscanf(name, "No. %d", &number) == 1)
        return number >= 1 && number <= NUMBERS ? numbers[number - 1] * 1e-3 * INCH : 0;
    if (sscanf(name, "letter %c", &letter) == 1)
        return letter >= 'A' && letter <= 'Z' ? letters[letter - 'A'] * 1e-3 * INCH : 0;
    if (sscanf(name, "%d/%d in", &top, &under) == 2)
        return top > 0 && under > 0 ? top * INCH / under : 0;
    if (sscanf(name, "%lf %3s", &mm, unit) == 2 && strcmp(unit, "mm") == 0)
        return mm > 0 ? mm * 1e-3 : 0;
    return 0;
}
