#include "bench/thread_table.h"

#include "base/text.h"

#include <ctype.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define INCH 0.0254

/* Published: coarse and fine tpi of Whitworth form (BS 84), Unified sizes that ASME B1.1 tables
 * name and the drills of tap drill charts; BA diameters 0 to 4 and 12 (BS 93). Told from memory:
 * the ISO 261 series, machine screw sizes, BSP (BS 2779) and the other BA sizes, rounded from the
 * formula. */
const struct thread thread_table[] = {
    {"M1.6x0.35", THREAD_METRIC, 1.6e-3, 0.35e-3, NULL},
    {"M2x0.4", THREAD_METRIC, 2e-3, 0.4e-3, NULL},
    {"M2.5x0.45", THREAD_METRIC, 2.5e-3, 0.45e-3, NULL},
    {"M3x0.5", THREAD_METRIC, 3e-3, 0.5e-3, NULL},
    {"M3.5x0.6", THREAD_METRIC, 3.5e-3, 0.6e-3, NULL},
    {"M4x0.7", THREAD_METRIC, 4e-3, 0.7e-3, NULL},
    {"M5x0.8", THREAD_METRIC, 5e-3, 0.8e-3, NULL},
    {"M6x1", THREAD_METRIC, 6e-3, 1e-3, "5 mm"},
    {"M7x1", THREAD_METRIC, 7e-3, 1e-3, NULL},
    {"M8x1.25", THREAD_METRIC, 8e-3, 1.25e-3, "6.8 mm"},
    {"M9x1.25", THREAD_METRIC, 9e-3, 1.25e-3, NULL},
    {"M10x1.5", THREAD_METRIC, 10e-3, 1.5e-3, "8.5 mm"},
    {"M12x1.75", THREAD_METRIC, 12e-3, 1.75e-3, "10.2 mm"},
    {"M14x2", THREAD_METRIC, 14e-3, 2e-3, NULL},
    {"M16x2", THREAD_METRIC, 16e-3, 2e-3, NULL},
    {"M18x2.5", THREAD_METRIC, 18e-3, 2.5e-3, NULL},
    {"M20x2.5", THREAD_METRIC, 20e-3, 2.5e-3, NULL},
    {"M22x2.5", THREAD_METRIC, 22e-3, 2.5e-3, NULL},
    {"M24x3", THREAD_METRIC, 24e-3, 3e-3, NULL},
    {"M27x3", THREAD_METRIC, 27e-3, 3e-3, NULL},
    {"M30x3.5", THREAD_METRIC, 30e-3, 3.5e-3, NULL},
    {"M33x3.5", THREAD_METRIC, 33e-3, 3.5e-3, NULL},
    {"M36x4", THREAD_METRIC, 36e-3, 4e-3, NULL},
    {"M39x4", THREAD_METRIC, 39e-3, 4e-3, NULL},
    {"M3x0.35", THREAD_METRIC_FINE, 3e-3, 0.35e-3, NULL},
    {"M4x0.5", THREAD_METRIC_FINE, 4e-3, 0.5e-3, NULL},
    {"M5x0.5", THREAD_METRIC_FINE, 5e-3, 0.5e-3, NULL},
    {"M6x0.75", THREAD_METRIC_FINE, 6e-3, 0.75e-3, NULL},
    {"M8x1", THREAD_METRIC_FINE, 8e-3, 1e-3, NULL},
    {"M8x0.75", THREAD_METRIC_FINE, 8e-3, 0.75e-3, NULL},
    {"M9x1", THREAD_METRIC_FINE, 9e-3, 1e-3, NULL},
    {"M10x1.25", THREAD_METRIC_FINE, 10e-3, 1.25e-3, NULL},
    {"M10x1", THREAD_METRIC_FINE, 10e-3, 1e-3, NULL},
    {"M12x1.5", THREAD_METRIC_FINE, 12e-3, 1.5e-3, NULL},
    {"M12x1.25", THREAD_METRIC_FINE, 12e-3, 1.25e-3, NULL},
    {"M12x1", THREAD_METRIC_FINE, 12e-3, 1e-3, NULL},
    {"M14x1.5", THREAD_METRIC_FINE, 14e-3, 1.5e-3, NULL},
    {"M14x1.25", THREAD_METRIC_FINE, 14e-3, 1.25e-3, NULL},
    {"M16x1.5", THREAD_METRIC_FINE, 16e-3, 1.5e-3, NULL},
    {"M18x1.5", THREAD_METRIC_FINE, 18e-3, 1.5e-3, NULL},
    {"M20x1.5", THREAD_METRIC_FINE, 20e-3, 1.5e-3, NULL},
    {"M22x1.5", THREAD_METRIC_FINE, 22e-3, 1.5e-3, NULL},
    {"M24x2", THREAD_METRIC_FINE, 24e-3, 2e-3, NULL},
    {"M24x1.5", THREAD_METRIC_FINE, 24e-3, 1.5e-3, NULL},
    {"M27x2", THREAD_METRIC_FINE, 27e-3, 2e-3, NULL},
    {"M30x2", THREAD_METRIC_FINE, 30e-3, 2e-3, NULL},
    {"M30x1.5", THREAD_METRIC_FINE, 30e-3, 1.5e-3, NULL},
    {"M36x3", THREAD_METRIC_FINE, 36e-3, 3e-3, NULL},
    {"4-40 UNC", THREAD_UNC, 0.112 * INCH, INCH / 40, NULL},
    {"5-40 UNC", THREAD_UNC, 0.125 * INCH, INCH / 40, NULL},
    {"6-32 UNC", THREAD_UNC, 0.138 * INCH, INCH / 32, NULL},
    {"8-32 UNC", THREAD_UNC, 0.164 * INCH, INCH / 32, NULL},
    {"10-24 UNC", THREAD_UNC, 0.19 * INCH, INCH / 24, NULL},
    {"12-24 UNC", THREAD_UNC, 0.216 * INCH, INCH / 24, NULL},
    {"1/4-20 UNC", THREAD_UNC, INCH / 4, INCH / 20, "No. 7"},
    {"5/16-18 UNC", THREAD_UNC, 5 * INCH / 16, INCH / 18, "letter F"},
    {"3/8-16 UNC", THREAD_UNC, 3 * INCH / 8, INCH / 16, "5/16 in"},
    {"7/16-14 UNC", THREAD_UNC, 7 * INCH / 16, INCH / 14, "letter U"},
    {"1/2-13 UNC", THREAD_UNC, INCH / 2, INCH / 13, "27/64 in"},
    {"9/16-12 UNC", THREAD_UNC, 9 * INCH / 16, INCH / 12, NULL},
    {"5/8-11 UNC", THREAD_UNC, 5 * INCH / 8, INCH / 11, "17/32 in"},
    {"3/4-10 UNC", THREAD_UNC, 3 * INCH / 4, INCH / 10, NULL},
    {"7/8-9 UNC", THREAD_UNC, 7 * INCH / 8, INCH / 9, NULL},
    {"1-8 UNC", THREAD_UNC, INCH, INCH / 8, NULL},
    {"4-48 UNF", THREAD_UNF, 0.112 * INCH, INCH / 48, NULL},
    {"5-44 UNF", THREAD_UNF, 0.125 * INCH, INCH / 44, NULL},
    {"6-40 UNF", THREAD_UNF, 0.138 * INCH, INCH / 40, NULL},
    {"8-36 UNF", THREAD_UNF, 0.164 * INCH, INCH / 36, NULL},
    {"10-32 UNF", THREAD_UNF, 0.19 * INCH, INCH / 32, NULL},
    {"12-28 UNF", THREAD_UNF, 0.216 * INCH, INCH / 28, NULL},
    {"1/4-28 UNF", THREAD_UNF, INCH / 4, INCH / 28, "No. 3"},
    {"5/16-24 UNF", THREAD_UNF, 5 * INCH / 16, INCH / 24, "letter I"},
    {"3/8-24 UNF", THREAD_UNF, 3 * INCH / 8, INCH / 24, "letter Q"},
    {"7/16-20 UNF", THREAD_UNF, 7 * INCH / 16, INCH / 20, NULL},
    {"1/2-20 UNF", THREAD_UNF, INCH / 2, INCH / 20, NULL},
    {"9/16-18 UNF", THREAD_UNF, 9 * INCH / 16, INCH / 18, NULL},
    {"5/8-18 UNF", THREAD_UNF, 5 * INCH / 8, INCH / 18, NULL},
    {"3/4-16 UNF", THREAD_UNF, 3 * INCH / 4, INCH / 16, NULL},
    {"7/8-14 UNF", THREAD_UNF, 7 * INCH / 8, INCH / 14, NULL},
    {"1-12 UNF", THREAD_UNF, INCH, INCH / 12, NULL},
    {"1/8-40 BSW", THREAD_BSW, INCH / 8, INCH / 40, NULL},
    {"3/16-24 BSW", THREAD_BSW, 3 * INCH / 16, INCH / 24, NULL},
    {"1/4-20 BSW", THREAD_BSW, INCH / 4, INCH / 20, "5.1 mm"},
    {"5/16-18 BSW", THREAD_BSW, 5 * INCH / 16, INCH / 18, "6.5 mm"},
    {"3/8-16 BSW", THREAD_BSW, 3 * INCH / 8, INCH / 16, "5/16 in"},
    {"7/16-14 BSW", THREAD_BSW, 7 * INCH / 16, INCH / 14, "9.25 mm"},
    {"1/2-12 BSW", THREAD_BSW, INCH / 2, INCH / 12, "10.5 mm"},
    {"9/16-12 BSW", THREAD_BSW, 9 * INCH / 16, INCH / 12, NULL},
    {"5/8-11 BSW", THREAD_BSW, 5 * INCH / 8, INCH / 11, NULL},
    {"3/4-10 BSW", THREAD_BSW, 3 * INCH / 4, INCH / 10, NULL},
    {"7/8-9 BSW", THREAD_BSW, 7 * INCH / 8, INCH / 9, NULL},
    {"1-8 BSW", THREAD_BSW, INCH, INCH / 8, NULL},
    {"3/16-32 BSF", THREAD_BSF, 3 * INCH / 16, INCH / 32, NULL},
    {"1/4-26 BSF", THREAD_BSF, INCH / 4, INCH / 26, NULL},
    {"5/16-22 BSF", THREAD_BSF, 5 * INCH / 16, INCH / 22, NULL},
    {"3/8-20 BSF", THREAD_BSF, 3 * INCH / 8, INCH / 20, NULL},
    {"7/16-18 BSF", THREAD_BSF, 7 * INCH / 16, INCH / 18, NULL},
    {"1/2-16 BSF", THREAD_BSF, INCH / 2, INCH / 16, NULL},
    {"9/16-16 BSF", THREAD_BSF, 9 * INCH / 16, INCH / 16, NULL},
    {"5/8-14 BSF", THREAD_BSF, 5 * INCH / 8, INCH / 14, NULL},
    {"3/4-12 BSF", THREAD_BSF, 3 * INCH / 4, INCH / 12, NULL},
    {"7/8-11 BSF", THREAD_BSF, 7 * INCH / 8, INCH / 11, NULL},
    {"1-10 BSF", THREAD_BSF, INCH, INCH / 10, NULL},
    {"1/8-28 BSP", THREAD_BSP, 9.728e-3, INCH / 28, NULL},
    {"1/4-19 BSP", THREAD_BSP, 13.157e-3, INCH / 19, NULL},
    {"3/8-19 BSP", THREAD_BSP, 16.662e-3, INCH / 19, NULL},
    {"1/2-14 BSP", THREAD_BSP, 20.955e-3, INCH / 14, NULL},
    {"3/4-14 BSP", THREAD_BSP, 26.441e-3, INCH / 14, NULL},
    {"1-11 BSP", THREAD_BSP, 33.249e-3, INCH / 11, NULL},
    {"0BA", THREAD_BA, 6e-3, 1e-3, NULL},
    {"1BA", THREAD_BA, 5.3e-3, 0.9e-3, NULL},
    {"2BA", THREAD_BA, 4.7e-3, 0.81e-3, NULL},
    {"3BA", THREAD_BA, 4.1e-3, 0.73e-3, NULL},
    {"4BA", THREAD_BA, 3.6e-3, 0.66e-3, NULL},
    {"5BA", THREAD_BA, 3.2e-3, 0.59e-3, NULL},
    {"6BA", THREAD_BA, 2.8e-3, 0.53e-3, NULL},
    {"7BA", THREAD_BA, 2.5e-3, 0.48e-3, NULL},
    {"8BA", THREAD_BA, 2.2e-3, 0.43e-3, NULL},
    {"9BA", THREAD_BA, 1.9e-3, 0.39e-3, NULL},
    {"10BA", THREAD_BA, 1.7e-3, 0.35e-3, NULL},
    {"11BA", THREAD_BA, 1.5e-3, 0.31e-3, NULL},
    {"12BA", THREAD_BA, 1.3e-3, 0.28e-3, NULL},
};
const int thread_table_count = (int)(sizeof thread_table / sizeof *thread_table);

static const struct thread_form metric = {
    "ISO metric, 60 degrees", 60, 0.6495191, 1.0825318, 1.2268693, 0.9381942};
static const struct thread_form unified = {
    "Unified, 60 degrees", 60, 0.6495191, 1.0825318, 1.190785, 0.9742786};
/* The stress areas of these two: between pitch diameter and core, as ISO reckons its own. */
static const struct thread_form whitworth = {
    "Whitworth, 55 degrees", 55, 0.640327, 1.280654, 1.280654, 0.9604905};
static const struct thread_form association = {
    "British Association, 47.5 degrees", 47.5, 0.6, 1.2, 1.2, 0.9};

const struct thread_form *thread_form_of(const struct thread *t)
{
    static const struct thread_form *const forms[] = {
        [THREAD_METRIC] = &metric, [THREAD_METRIC_FINE] = &metric, [THREAD_UNC] = &unified,
        [THREAD_UNF] = &unified,   [THREAD_BSW] = &whitworth,      [THREAD_BSF] = &whitworth,
        [THREAD_BSP] = &whitworth, [THREAD_BA] = &association,     [THREAD_SPECIAL] = &unified,
    };
    return forms[t->series];
}

double thread_stress_area(const struct thread *t)
{
    const double d = t->d - thread_form_of(t)->area * t->p;
    return 0.78539816339744831 * d * d;
}

double thread_full_height(const struct thread *t)
{
    const struct thread_form *form = thread_form_of(t);
    return form->angle == 60 ? 1.2990381 : form->minor;
}

double thread_share(const struct thread *t, double drill)
{
    return (t->d - drill) / (thread_full_height(t) * t->p);
}

/* ---- designations ---- */

enum { PIECE = 16 };
struct pieces {
    char size[PIECE], pitch[PIECE], series[PIECE]; /* "M8" "1.25" ""; "1/4" "20" "UNC" */
};

static const char *take(const char *s, char *into, int (*belongs)(int))
{
    int n = 0;
    for (; *s && belongs((unsigned char)*s); s++)
        if (n < PIECE - 1) into[n++] = *s;
    into[n] = '\0';
    return s;
}

static int is_of_number(int c)
{
    return isdigit(c) || c == '/' || c == '.';
}

/* False if it is no designation at all. */
static bool part(const char *typed, struct pieces *out)
{
    char bare[64];
    int n = 0;
    for (const char *s = typed; *s && n < (int)sizeof bare - 1; s++) {
        if (strncmp(s, "×", 2) == 0) {
            bare[n++] = 'X';
            s++;
        } else if (*s != ' ' && *s != '#' && *s != '"') {
            bare[n++] = (char)(*s == ',' ? '.' : toupper((unsigned char)*s));
        }
    }
    bare[n] = '\0';
    const char *s = bare;
    *out = (struct pieces){0};
    if (strncmp(s, "NO.", 3) == 0) s += 3;
    if (strncmp(s, "NO", 2) == 0) s += 2;
    const bool is_metric = *s == 'M';
    s = take(s + is_metric, out->size + is_metric, is_of_number);
    if (is_metric) out->size[0] = 'M';
    if (*s == '-' || *s == 'X') s = take(s + 1, out->pitch, is_of_number);
    if (*s == '-') s++;
    s = take(s, out->series, isalpha);
    return out->size[is_metric] && !*s;
}

static bool same(const char *a, const char *b)
{
    double x, y;
    if (text_to_double(a, &x) && text_to_double(b, &y)) return fabs(x - y) < 1e-9;
    return strcmp(a, b) == 0;
}

static bool is_meant(const struct thread *t, const struct pieces *p)
{
    struct pieces own;
    part(t->name, &own);
    if (own.size[0] == 'M')
        return p->size[0] == 'M' && !*p->series && same(own.size + 1, p->size + 1) &&
               (*p->pitch ? same(own.pitch, p->pitch) : t->series == THREAD_METRIC);
    return same(own.size, p->size) && (!*p->pitch || same(own.pitch, p->pitch)) &&
           (*p->series ? strcmp(own.series, p->series) == 0 : *p->pitch != '\0');
}

/* 0 if it is no number. */
static double number_of(const char *s)
{
    double top, under = 1;
    char *end;
    top = strtod(s, &end);
    if (*end == '/') under = strtod(end + 1, &end);
    return *end || !(top > 0) || !(under > 0) ? 0 : top / under;
}

static double diameter_of(const struct pieces *p)
{
    if (p->size[0] == 'M') return number_of(p->size + 1) * 1e-3;
    if (strcmp(p->series, "BA") == 0) return 6e-3 * pow(0.9, 1.2 * number_of(p->size));
    const double n = number_of(p->size);
    if (strpbrk(p->size, "/.") || n == 1) return n * INCH;
    return (0.060 + 0.013 * n) * INCH;
}

static bool fail_with_nearest(const char *input, const char *typed, const struct pieces *p,
                              struct fail *f)
{
    const struct thread *best[2] = {NULL, NULL};
    double off[2] = {INFINITY, INFINITY};
    const double d = diameter_of(p), given = number_of(p->pitch);
    const double pitch = given > 0 ? (p->size[0] == 'M' ? given * 1e-3 : INCH / given) : 0;
    for (const struct thread *t = thread_table; t < thread_table + thread_table_count; t++) {
        struct pieces own;
        part(t->name, &own);
        double far = fabs(t->d / d - 1) + (pitch > 0 ? 0.3 * fabs(log(t->p / pitch)) : 0);
        if (!*p->pitch && t->series == THREAD_METRIC_FINE) far += 0.05;
        if ((own.size[0] == 'M') != (p->size[0] == 'M')) far += 0.5;
        if (*p->series && strcmp(own.series, p->series) != 0) far += 0.2;
        if (far < off[0])
            off[1] = off[0], best[1] = best[0], off[0] = far, best[0] = t;
        else if (far < off[1])
            off[1] = far, best[1] = t;
    }
    return fail_set(f, FAIL_INPUT, "%s: no standard thread '%.40s'; nearest are %s and %s", input,
                    typed, best[0]->name, best[1]->name);
}

bool thread_parse(struct arena *a, const char *input, const char *typed, struct thread *out,
                  struct fail *f)
{
    struct pieces p;
    if (!part(typed, &p) || !(diameter_of(&p) > 0))
        return fail_set(f, FAIL_INPUT,
                        "%s: '%.40s' is no thread; say it as M8x1.25, 1/4-20 UNC, 3/8 BSF or 2BA",
                        input, typed);
    for (int i = 0; i < thread_table_count; i++)
        if (is_meant(&thread_table[i], &p)) {
            *out = thread_table[i];
            return true;
        }
    const double d = diameter_of(&p), n = number_of(p.pitch);
    if (strcmp(p.series, "UNS") == 0 && d > 1e-3 && d < 0.05 && n >= 4 && n <= 80 &&
        INCH / n < 0.35 * d) {
        *out = (struct thread){arena_copy(a, typed), THREAD_SPECIAL, d, INCH / n, NULL};
        return true;
    }
    if (!*p.pitch && !*p.series && p.size[0] != 'M')
        return fail_set(f, FAIL_INPUT,
                        "%s: '%.40s' alone may be several; add the series or the threads per inch, "
                        "as in 1/4-20 UNC or 1/4 BSF",
                        input, typed);
    return fail_with_nearest(input, typed, &p, f);
}
