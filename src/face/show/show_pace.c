#include "face/show/show_pace.h"

#include "face/show/words.h"

#include <math.h>

static const char *name_of(struct arena *a, const struct pace_kind *k)
{
    return k->system ? words_inside(a, k->system->head.name) : "any work";
}

static const char *jobs_words(struct arena *a, int n)
{
    return n == 1 ? "one job" : arena_print(a, "%d jobs", n);
}

/* "You take 1.3 times the estimate on brakes, from 6 jobs." */
static void headline(struct sheet *s, const struct pace *p)
{
    struct arena *a = s->arena;
    const struct pace_kind *k = p->n_kinds > 0 ? &p->kinds[0] : &p->all;
    if (p->all.jobs == 0)
        sheet_text(s,
                   "No finished job has hours yet, so the plan takes the trade data's figures as "
                   "they are. Log hours, and say when a job is finished.");
    else
        sheet_text(s,
                   "You take %.2g times the estimate on %s, from %s; the truth lies within %.2g to "
                   "%.2g, four in five.",
                   k->factor, name_of(a, k), jobs_words(a, k->jobs), k->low, k->high);
    if (p->habit.planned == 0)
        sheet_text(s,
                   "No whole week since the first hours: the plan takes it that %s of the planned "
                   "sessions happen.",
                   words_share(a, p->kept));
    else
        sheet_text(s,
                   "%s of the planned sessions happen (%s to %s, four in five): %d of %d so far.",
                   words_share(a, p->kept), words_share(a, p->kept_low),
                   words_share(a, p->kept_high), p->habit.kept, p->habit.planned);
}

static void row(struct sheet *s, struct sheet_table *t, const char *name, const struct pace_kind *k)
{
    struct arena *a = s->arena;
    sheet_cell(s, t, TONE_PLAIN, "%s", name);
    sheet_cell(s, t, TONE_PLAIN, "%d", k->jobs);
    sheet_cell(s, t, TONE_PLAIN, "%s", words_hours(a, k->logged / 60));
    sheet_cell(s, t, TONE_PLAIN, "%s", words_hours(a, k->estimated / 60));
    sheet_cell(s, t, k->low > 1 ? TONE_CARE : TONE_PLAIN, "x %.2f", k->factor);
    sheet_cell(s, t, TONE_PLAIN, "%.2f to %.2f", k->low, k->high);
}

struct sheet *show_pace(struct arena *a, const struct pace *p)
{
    struct sheet *s = sheet_new(a, arena_print(a, "Pace: %s", p->vehicle));
    headline(s, p);
    sheet_heading(s, 2, "By kind of work");
    struct sheet_table *t = sheet_table(s, "");
    sheet_column(s, t, "work", ALIGN_LEFT, 1);
    sheet_column(s, t, "jobs", ALIGN_RIGHT, 3);
    sheet_column(s, t, "logged", ALIGN_RIGHT, 2);
    sheet_column(s, t, "estimated", ALIGN_RIGHT, 2);
    sheet_column(s, t, "the next one", ALIGN_RIGHT, 1);
    sheet_column(s, t, "four in five", ALIGN_RIGHT, 1);
    for (int i = 0; i < p->n_kinds; i++) row(s, t, p->kinds[i].system->head.name, &p->kinds[i]);
    row(s, t, p->n_kinds > 0 ? "Any other" : "Any work", &p->all);
    if (p->left_out > 0)
        sheet_text(s,
                   "%d finished %s left out: a setback was met in it, or how much of it there was "
                   "to do is not known.",
                   p->left_out, p->left_out == 1 ? "job is" : "jobs are");
    sheet_heading(s, 2, "Sessions");
    sheet_fact(s, TONE_PLAIN, "happen", "%s (taken before: %s)", words_share(a, p->kept),
               words_share(a, p->kept_usual));
    sheet_fact(s, TONE_PLAIN, "weeks looked at", "%d", p->habit.weeks);
    sheet_fact(s, p->habit.layoffs > 0 ? TONE_CARE : TONE_PLAIN, "lay-offs so far", "%d",
               p->habit.layoffs);
    sheet_fact(s, TONE_PLAIN, "lay-offs to come", "one in %.0f months, of %s",
               fmax(1, 1 / p->layoffs_a_month), words_days(a, 7 * p->layoff_weeks));
    struct sheet_why *why = sheet_why(
        s, "Why these figures?",
        "hours of finished jobs against their middle figures: own pace, kind of work, vehicle and "
        "job are normal on the scale of the estimate's own spread, and what was logged updates "
        "them "
        "exactly; with little data the prior stands. Sessions: beta, a prior worth 20 sessions; "
        "three weeks with nothing are a lay-off, not missed sessions",
        MARK_PUBLISHED, "Gelman et al., Bayesian Data Analysis, sec. 2.4 to 2.6");
    sheet_why_input(s, why, "mark of the priors", "practice");
    sheet_link(s, "What is still to do, at this pace", "plan");
    return s;
}

static json_t *kind_json(const struct pace_kind *k)
{
    return json_pack("{s:s?, s:i, s:f, s:f, s:f, s:f, s:f}", "work",
                     k->system ? k->system->head.id : NULL, "jobs", k->jobs, "logged_hours",
                     words_round(k->logged / 60, 2), "estimated_hours",
                     words_round(k->estimated / 60, 2), "factor", words_round(k->factor, 4), "p10",
                     words_round(k->low, 4), "p90", words_round(k->high, 4));
}

json_t *show_pace_json(const struct pace *p)
{
    json_t *kinds = json_array();
    for (int i = 0; i < p->n_kinds; i++) json_array_append_new(kinds, kind_json(&p->kinds[i]));
    return json_pack("{s:s, s:o, s:o, s:i, s:{s:i, s:i, s:f, s:f, s:f}, s:{s:i, s:i, s:f, s:f}}",
                     "vehicle", p->vehicle, "all", kind_json(&p->all), "kinds", kinds, "left_out",
                     p->left_out, "sessions", "planned", p->habit.planned, "kept", p->habit.kept,
                     "share", words_round(p->kept, 4), "p10", words_round(p->kept_low, 4), "p90",
                     words_round(p->kept_high, 4), "layoffs", "weeks", p->habit.weeks, "count",
                     p->habit.layoffs, "a_month", words_round(p->layoffs_a_month, 4), "weeks_each",
                     words_round(p->layoff_weeks, 2));
}
