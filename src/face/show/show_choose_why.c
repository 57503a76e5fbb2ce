/* show_choose_why.c - the advice in one sentence, with its odds and its reason, and what would
 * change it. */
#include "face/show/show_choose_inside.h"
#include "face/show/words.h"

#include <math.h>

static const char *name_of(const struct choose *c, int choice)
{
    return c->choices[choice].name;
}

/* What the leading choice has more (or less) of than the next, in words. */
static const char *part_words(struct arena *a, const struct choose *c, enum choose_part part,
                              double minor)
{
    static const char *const more[PART_COUNT] = {
        [PART_WORTH] = "it would be worth %s more",
        [PART_BILL] = "it costs %s less",
        [PART_HOURS] = "it takes %s less of your hours",
        [PART_TIME] = "it is done sooner (%s to you)",
        [PART_ORIGINAL] = "it keeps more of it original (%s to you)",
        [PART_DRIVING] = "you can drive it (%s to you)",
    };
    static const char *const less[PART_COUNT] = {
        [PART_WORTH] = "it would be worth %s less",
        [PART_BILL] = "it costs %s more",
        [PART_HOURS] = "it takes %s more of your hours",
        [PART_TIME] = "it is done later (%s to you)",
        [PART_ORIGINAL] = "it keeps less of it original (%s to you)",
        [PART_DRIVING] = "you drive it less surely (%s to you)",
    };
    struct text t = {.arena = a};
    const char *sum = words_money(a, fabs(minor), c->currency);
    for (const char *p = minor > 0 ? more[part] : less[part]; *p; p++) {
        if (p[0] == '%' && p[1] == 's') {
            text_print(&t, "%s", sum);
            p++;
        } else {
            text_add_n(&t, p, 1);
        }
    }
    return text_get(&t);
}

/* The part in which the leading choice gains the most beside `but`; -1: in none. */
static int gains_most(const double gains[PART_COUNT], int but)
{
    int best = -1;
    for (int k = 0; k < PART_COUNT; k++)
        if (k != but && gains[k] > 0 && (best < 0 || gains[k] > gains[best])) best = k;
    return best;
}

/* What speaks for it, a second thing where the first is not enough or much is left unsaid; and what
 * speaks against it, if it is worth a word. */
static const char *reason_of(struct arena *a, const struct choose *c)
{
    double gains[PART_COUNT], loses = 0;
    int worst = 0;
    for (int k = 0; k < PART_COUNT; k++) {
        gains[k] = c->choices[c->led_by].part[k] - c->choices[c->runner].part[k];
        if (gains[k] < gains[worst]) worst = k;
    }
    int first = gains_most(gains, -1), second = gains_most(gains, first);
    if (first < 0) return "it loses the least";
    loses = fmax(0, -gains[worst]);
    struct text t = {.arena = a};
    text_print(&t, "%s", part_words(a, c, (enum choose_part)first, gains[first]));
    if (second >= 0 && (gains[first] < loses || gains[second] > gains[first] / 4))
        text_print(&t, " and %s", part_words(a, c, (enum choose_part)second, gains[second]));
    if (loses > gains[first] / 20)
        text_print(&t, ", though %s", part_words(a, c, (enum choose_part)worst, gains[worst]));
    return text_get(&t);
}

static void say_beaten(struct sheet *s, const struct choose *c)
{
    for (int i = 0; i < c->n_choices; i++)
        if (c->choices[i].odds.dominated)
            sheet_item(s,
                       "'%s' is worse than '%s' at every level of luck: nothing on these figures "
                       "speaks for it.",
                       name_of(c, i), name_of(c, c->led_by));
    if (c->safest >= 0 && c->safest != c->led_by)
        sheet_item(s, "If only the worst run mattered, it would be '%s'.", name_of(c, c->safest));
}

void show_choose_advice(struct sheet *s, const struct choose *c)
{
    struct arena *a = s->arena;
    if (!c->compared) {
        if (c->n_choices == 1 && c->worth_now_known)
            sheet_text(s,
                       "'%s' is the only one with a worth that gets done within the money and "
                       "the years there are.",
                       name_of(c, 0));
        return;
    }
    const char *leading = name_of(c, c->led_by), *runner = name_of(c, c->runner);
    const char *best = words_share(a, c->choices[c->led_by].odds.best);
    bool alike = c->ahead < 2 * c->ahead_error;
    sheet_heading(s, 2,
                  alike ? arena_print(a, "'%s' or '%s': no telling", leading, runner)
                        : arena_print(a, "Choose '%s'", leading));
    if (alike)
        sheet_text(s,
                   "There is nothing between '%s' and '%s' that %d runs can tell: choose by what "
                   "would be lost for good, and by what you like.",
                   leading, runner, c->runs);
    else
        sheet_text(s,
                   "On average '%s' leaves you %s better off than '%s', and in %s of the runs it "
                   "is the best of all, because %s.",
                   leading, words_money(a, c->ahead, c->currency), runner, best, reason_of(a, c));
    say_beaten(s, c);
}

static const char *now_words(struct arena *a, const struct choose *c, double minor)
{
    return minor > 0 ? arena_print(a, "now %s", words_money(a, minor, c->currency))
                     : "now it counts nothing";
}

static void say_change(struct sheet *s, const struct choose *c, const struct choose_change *x)
{
    struct arena *a = s->arena;
    const char *to = name_of(c, x->to), *leading = name_of(c, c->led_by);
    const char *at =
        x->what == CHANGE_COMPONENT ? words_share(a, x->at) : words_money(a, x->at, c->currency);
    switch (x->what) {
    case CHANGE_WORTH:
        sheet_item(s, "'%s', if '%s' were worth less than %s when done (%s).", to, leading, at,
                   now_words(a, c, x->now));
        return;
    case CHANGE_BILL:
        sheet_item(s, "'%s', if the bill of '%s' came to more than %s (%s).", to, leading, at,
                   now_words(a, c, x->now));
        return;
    case CHANGE_OTHER_WORTH:
        sheet_item(s, "'%s', if it were worth more than %s when done (%s).", to, at,
                   now_words(a, c, x->now));
        return;
    case CHANGE_RATE:
        sheet_item(s, "'%s', if an hour of yours were worth more than %s (%s).", to, at,
                   now_words(a, c, x->now));
        return;
    case CHANGE_MONTH:
        sheet_item(s, "'%s', if a month sooner were worth more than %s to you (%s).", to, at,
                   now_words(a, c, x->now));
        return;
    case CHANGE_KEEPING:
        sheet_item(s, "'%s', if keeping all of it original were worth more than %s to you (%s).",
                   to, at, now_words(a, c, x->now));
        return;
    case CHANGE_DRIVING:
        sheet_item(s, "'%s', if having it to drive were worth more than %s to you (%s).", to, at,
                   now_words(a, c, x->now));
        return;
    case CHANGE_COMPONENT:
        sheet_item(s, "'%s', if %s were poor or worse with odds of %s %s (now %s).", to,
                   x->component, x->at > x->now ? "more than" : "less than", at,
                   words_share(a, x->now));
        return;
    }
}

void show_choose_changes(struct sheet *s, const struct choose *c)
{
    if (!c->compared) return;
    sheet_heading(s, 2, "What would change the choice");
    if (c->n_changes == 0) {
        sheet_text(s, "No single figure would, whatever it were.");
        return;
    }
    sheet_text(s, "One thing at a time, all else as it is, another would lead:");
    for (int i = 0; i < c->n_changes; i++) say_change(s, c, &c->changes[i]);
}
