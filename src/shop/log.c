#include "shop/log.h"
#include "shop/fold.h"

#include "shop/log_check.h"

#include <ctype.h>
#include <math.h>
#include <string.h>

enum { WORDS_MOST = 60, PIECES_MOST = 24, LINE_MOST = 500 };

struct piece {
    const char *words[WORDS_MOST], *typed[WORDS_MOST]; /* folded; as typed */
    int n, named;                                      /* named: a job by its id, or -1 */
    double minutes;                                    /* -1: none */
    bool finished, trouble;
    int job; /* index in the reading, -1: none */
};

struct reader {
    struct arena *a;
    const struct log_ask *ask;
    struct log_reading *out;
    struct log_match *match;
    struct piece *pieces;
    int n_pieces, picked;
    struct fail bad_day;
};

/* ---- hours ---- */

static bool unit_at(const char *s, const char *const *units, size_t *n)
{
    for (; *units; units++) {
        const size_t k = strlen(*units);
        if (strncmp(s, *units, k) == 0 && !isalpha((unsigned char)s[k])) {
            *n = k;
            return true;
        }
    }
    return false;
}

static double figure_at(const char *s, size_t *n)
{
    double whole = 0, place = 1;
    size_t i = 0;
    while (isdigit((unsigned char)s[i]) && i < 6) whole = 10 * whole + (s[i++] - '0');
    if (i > 0 && s[i] == '.' && isdigit((unsigned char)s[i + 1]))
        for (i++; isdigit((unsigned char)s[i]); i++) whole += (s[i] - '0') * (place /= 10);
    *n = i;
    return whole;
}

bool log_hours(const char *s, double *minutes, size_t *n)
{
    static const char *const hours[] = {"hours", "hour", "hrs", "hr", "h", NULL},
                             *const mins[] = {"minutes", "minute", "mins", "min", "m", NULL};
    static const struct {
        const char *words;
        double minutes;
    } spoken[] = {{"half an hour", 30}, {"an hour and a half", 90}, {"an hour", 60}};
    for (size_t i = 0; i < sizeof spoken / sizeof *spoken; i++)
        if (text_starts(s, spoken[i].words)) {
            *minutes = spoken[i].minutes;
            *n = strlen(spoken[i].words);
            return true;
        }
    size_t at, unit, more;
    const double first = figure_at(s, &at);
    if (at == 0) return false;
    const size_t gap = s[at] == ' ';
    if (unit_at(s + at + gap, mins, &unit)) {
        *minutes = first;
        *n = at + gap + unit;
        return true;
    }
    if (strncmp(s + at + gap, "h", 1) == 0 && isdigit((unsigned char)s[at + gap + 1]))
        unit = 1; /* "1h30" */
    else if (!unit_at(s + at + gap, hours, &unit))
        return false;
    *minutes = 60 * first;
    *n = at + gap + unit;
    const char *rest = s + *n + (s[*n] == ' ');
    const double second = figure_at(rest, &more);
    if (more == 0 || second >= 60) return true;
    const size_t apart = rest[more] == ' ';
    const bool named = unit_at(rest + more + apart, mins, &unit);
    if (!named && unit_at(rest + more + apart, hours, &unit)) return true;
    if (named || more == 2) { /* "1 h 30", but not "1 h 4 bolts" */
        *minutes += second;
        *n = (size_t)(rest - s) + more + (named ? apart + unit : 0);
    }
    return true;
}

/* "19:00-21:30", "19:00 to 21:30" */
static bool span_at(const char *s, int *from, int *to, size_t *n)
{
    struct fail f;
    size_t a = strspn(s, "0123456789:"), gap, b;
    if (a < 4 || a > 5 || s[a - 3] != ':') return false;
    char one[6] = {0}, two[6] = {0};
    memcpy(one, s, a);
    gap = text_starts(s + a, " to ") ? 4 : text_starts(s + a, " - ") ? 3 : s[a] == '-' ? 1 : 0;
    b = strspn(s + a + gap, "0123456789:");
    if (gap == 0 || b < 4 || b > 5) return false;
    memcpy(two, s + a + gap, b);
    *n = a + gap + b;
    return clock_parse(one, from, &f) && clock_parse(two, to, &f);
}

/* ---- pieces ---- */

/* "yesterday", "tuesday", "2026-11-24" */
static bool is_day(struct reader *x, const char *word, day *out)
{
    struct fail why = {0};
    int weekday;
    if (text_same_word(word, "today"))
        *out = x->ask->today;
    else if (text_same_word(word, "yesterday"))
        *out = x->ask->today - 1;
    else if (strlen(word) == 10 && word[4] == '-' && strspn(word, "0123456789-") == 10) {
        if (!day_parse(word, out, &why) && x->bad_day.kind == 0) x->bad_day = why;
        return x->bad_day.kind == 0;
    } else if (strlen(word) >= 6 && day_week_parse(word, &weekday))
        *out = x->ask->today - 1 - (day_of_week(x->ask->today - 1) - weekday + 7) % 7;
    else
        return false;
    return true;
}

static bool is_any(const char *word, const char *const *list)
{
    for (; *list; list++)
        if (text_same_word(word, *list)) return true;
    return false;
}

static void read_word(struct reader *x, struct piece *p, const char *typed, bool *negated)
{
    static const char *const silent[] = {"the",  "a",   "an",   "on",   "at",   "to",    "of",
                                         "in",   "off", "out",  "for",  "with", "some",  "all",
                                         "was",  "is",  "are",  "were", "it",   "i",     "we",
                                         "my",   "now", "from", "did",  "and",  "then",  "worked",
                                         "work", "got", "one",  "both", "but",  "still", NULL};
    static const char *const ends[] = {"finished", "done", "complete", "completed", NULL};
    static const char *const nearly[] = {"not",   "nearly", "half", "almost",
                                         "isn't", "partly", NULL};
    day date;
    if (is_day(x, typed, &date)) {
        x->out->date = date;
        return;
    }
    if (is_any(typed, nearly)) {
        *negated = true;
        return;
    }
    if (is_any(typed, ends)) {
        if (!*negated) p->finished = true;
        *negated = false;
        return;
    }
    if (is_any(typed, silent) || p->n == WORDS_MOST) return;
    const int job = trade_find_job(x->ask->trade, typed);
    if (job >= 0) p->named = job;
    p->typed[p->n] = typed;
    p->words[p->n] = fold_word(x->a, typed, strlen(typed));
    if (fold_is_trouble(p->words[p->n])) p->trouble = true;
    p->n++;
}

static void read_piece(struct reader *x, const char *text)
{
    static const char apart[] = " \t.!?()\"";
    struct piece *p = &x->pieces[x->n_pieces++];
    *p = (struct piece){.named = -1, .minutes = -1, .job = -1};
    bool negated = false;
    const char *s = text;
    while (*(s += strspn(s, apart))) {
        size_t n;
        double minutes;
        int from, to;
        if (span_at(s, &from, &to, &n)) {
            x->out->from = from;
            x->out->to = to;
        } else if (log_hours(s, &minutes, &n)) {
            p->minutes = fmax(p->minutes, 0) + minutes;
        } else {
            n = strcspn(s, apart);
            while (s[n] == '.' && isdigit((unsigned char)s[n + 1]))
                n += 1 + strcspn(s + n + 1, apart);
            read_word(x, p, arena_copy_n(x->a, s, n), &negated);
        }
        s += n;
    }
}

/* At commas, semicolons, line ends and "and"; a comma between digits is none of ours. */
static bool cut(struct reader *x, const char *line, struct fail *f)
{
    x->pieces = ARENA_ARRAY(x->a, struct piece, PIECES_MOST);
    const char *from = line;
    for (const char *s = line;; s++) {
        const bool and_here = text_starts(s, " and ") && !text_starts(s, " and a half");
        if (*s && *s != ',' && *s != ';' && *s != '\n' && *s != '\r' && !and_here) continue;
        if (x->n_pieces == PIECES_MOST)
            return fail_set(f, FAIL_INPUT, "log: more than %d pieces; log it in two lines",
                            PIECES_MOST);
        read_piece(x, arena_copy_n(x->a, from, (size_t)(s - from)));
        if (!*s) return true;
        if (and_here) s += 4;
        from = s + 1;
    }
}

/* ---- jobs ---- */

static int add_job(struct reader *x, int job)
{
    struct log_reading *r = x->out;
    for (int i = 0; i < r->n_jobs; i++)
        if (r->jobs[i].job == job) return i;
    struct log_job *to = &r->jobs[r->n_jobs];
    *to = (struct log_job){.job = job, .minutes = -1};
    to->in_plan = log_match_in_plan(x->match, job, &to->was_finished);
    return r->n_jobs++;
}

static const char *words_of(struct arena *a, const struct piece *p)
{
    struct text t = {.arena = a};
    for (int i = 0; i < p->n; i++) text_print(&t, "%s%s", i ? " " : "", p->typed[i]);
    return text_get(&t);
}

/* A piece that says a trouble lends its words to the piece before, which it belongs to. */
static void find_job(struct reader *x, int i)
{
    struct piece *p = &x->pieces[i];
    const struct piece *next = i + 1 < x->n_pieces && x->pieces[i + 1].trouble ? p + 1 : NULL;
    if (p->named >= 0) {
        p->job = add_job(x, p->named);
        return;
    }
    if (p->trouble || p->n == 0) return;
    struct log_found found =
        log_match_job(x->match, p->words, p->n, next ? next->words : NULL, next ? next->n : 0);
    if (found.count > 1 && x->picked < x->ask->n_picks) {
        const int pick = trade_find_job(x->ask->trade, x->ask->picks[x->picked++]);
        for (int k = 0; k < found.count; k++)
            if (found.best[k] == pick) found = (struct log_found){{pick}, 1};
    }
    if (found.count == 1)
        p->job = add_job(x, found.best[0]);
    else if (found.count > 1)
        x->out->open[x->out->n_open++] = (struct log_open){words_of(x->a, p), found};
}

/* Only a setback was told: its job, if it has but one in the plan that is not done. */
static void job_of_setback(struct reader *x)
{
    struct log_reading *r = x->out;
    if (r->n_jobs > 0 || r->n_open > 0 || r->setback.count != 1) return;
    const struct trade_setback *s = &x->ask->trade->setbacks[r->setback.best[0]];
    struct log_found found = {.count = 0};
    for (int k = 0; k < s->n_at && found.count < LOG_NEAR; k++) {
        bool finished;
        if (log_match_in_plan(x->match, s->at[k].job, &finished) && !finished)
            found.best[found.count++] = s->at[k].job;
    }
    if (found.count == 1)
        add_job(x, found.best[0]);
    else if (found.count > 1)
        r->open[r->n_open++] = (struct log_open){s->head.name, found};
}

static void find_setback(struct reader *x)
{
    int jobs[PIECES_MOST * (LOG_NEAR + 1)], n = 0; /* also those that it may yet turn out to be */
    for (int i = 0; i < x->out->n_jobs; i++) jobs[n++] = x->out->jobs[i].job;
    for (int i = 0; i < x->out->n_open; i++)
        for (int k = 0; k < x->out->open[i].jobs.count; k++)
            jobs[n++] = x->out->open[i].jobs.best[k];
    for (int i = 0; i < x->n_pieces; i++) {
        const struct piece *p = &x->pieces[i];
        if (!p->trouble || p->named >= 0) continue;
        x->out->setback = log_match_setback(x->match, p->words, p->n, jobs, n);
        if (x->out->setback.count > 0) return;
    }
}

/* Hours and ends beside a job are its own. An end that stands alone is of the job before it. */
static void give_hours(struct reader *x)
{
    struct log_reading *r = x->out;
    double alone = 0, weights = 0;
    int last = -1;
    bool some = false;
    for (int i = 0; i < x->n_pieces; i++) {
        const struct piece *p = &x->pieces[i];
        if (p->job >= 0) last = p->job;
        const int of = p->job >= 0 ? p->job : p->n == 0 ? last : -1;
        if (p->finished && of >= 0) r->jobs[of].finished = true;
        if (p->minutes < 0) continue;
        if (p->job >= 0)
            r->jobs[p->job].minutes = fmax(r->jobs[p->job].minutes, 0) + p->minutes;
        else {
            alone += p->minutes;
            some = true;
        }
    }
    if (!some && r->from >= 0 && r->to >= 0) { /* the clock says how long it was */
        alone = (r->to - r->from + 1440) % 1440;
        for (int i = 0; i < r->n_jobs; i++) alone -= fmax(r->jobs[i].minutes, 0);
        some = alone > 0;
    }
    int without = 0;
    for (int i = 0; i < r->n_jobs; i++)
        if (r->jobs[i].minutes < 0) {
            weights += x->ask->trade->jobs[r->jobs[i].job].hours.middle;
            without++;
        }
    for (int i = 0; i < r->n_jobs && some && without > 0; i++)
        if (r->jobs[i].minutes < 0) {
            const double share = x->ask->trade->jobs[r->jobs[i].job].hours.middle / weights;
            r->jobs[i].minutes = without == 1 ? alone : fmax(5, 5 * round(alone * share / 5));
            r->jobs[i].shared = without > 1;
        }
}

static void list_unread(struct reader *x)
{
    struct text t = {.arena = x->a};
    for (int i = 0; i < x->n_pieces; i++) {
        const struct piece *p = &x->pieces[i];
        for (int k = 0; k < p->n && p->named < 0; k++)
            if (!log_match_knows(x->match, p->words[k]) &&
                trade_find_place(x->ask->trade, p->words[k]) < 0)
                text_print(&t, "%s%s", t.length ? ", " : "", p->typed[k]);
    }
    x->out->unread = t.length ? text_get(&t) : NULL;
}

bool log_read(struct arena *a, const struct log_ask *ask, struct log_reading *out, struct fail *f)
{
    struct facts *facts = ARENA_NEW(a, struct facts);
    struct model *m = ARENA_NEW(a, struct model);
    *out = (struct log_reading){
        .trade = ask->trade, .date = ask->today, .from = -1, .to = -1, .line = ask->line};
    if (strlen(ask->line) > LINE_MOST)
        return fail_set(f, FAIL_INPUT, "log: the line is longer than %d bytes; log it in two",
                        LINE_MOST);
    if (!facts_read(ask->garage, a, ask->trade, ask->vehicle, facts, f)) return false;
    out->vehicle = facts->name;
    const int decided =
        facts->direction >= 0 ? facts->direction : trade_find_direction(ask->trade, "drive");
    const struct model_ask want = {.today = ask->today, .direction = decided};
    if (!model_make(a, ask->trade, facts, &want, m, f)) return false;
    struct reader x = {.a = a, .ask = ask, .out = out, .match = log_match_new(a, m)};
    if (!cut(&x, ask->line, f)) return false;
    if (x.bad_day.kind != 0) return fail_set(f, FAIL_INPUT, "log: %s", x.bad_day.text);
    out->jobs = ARENA_ARRAY(a, struct log_job, PIECES_MOST + 1);
    out->open = ARENA_ARRAY(a, struct log_open, PIECES_MOST + 1);
    for (int i = 0; i < x.n_pieces; i++) find_job(&x, i);
    find_setback(&x);
    job_of_setback(&x);
    give_hours(&x);
    list_unread(&x);
    return log_check(a, ask, out, f);
}
