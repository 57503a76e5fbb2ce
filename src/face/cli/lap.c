#include "face/cli/lap.h"

#include "face/cli/wrap.h"
#include "face/show/finding.h"

#include <stdio.h>
#include <string.h>
#include <strings.h>

enum { ANSWER_BYTES = 400 };

/* "w", "Worn", "wo": a condition that begins so, if only one does; COND_UNSEEN for "?" and nothing.
 */
static bool read_condition(const char *s, enum condition *out)
{
    int found = -1;
    if (!*s || text_is(s, "?")) {
        *out = COND_UNSEEN;
        return true;
    }
    for (int i = 0; i < COND_ANSWERS; i++) {
        if (strncasecmp(condition_name((enum condition)i), s, strlen(s)) != 0) continue;
        if (found >= 0) return false;
        found = i;
    }
    *out = (enum condition)found;
    return found >= 0;
}

enum reply {
    REPLY_CONDITION,
    REPLY_REST,
    REPLY_BACK,
    REPLY_NEXT_PLACE,
    REPLY_STOP,
    REPLY_END,
    REPLY_UNCLEAR
};

static enum reply ask_one(struct context *c, const struct survey_line *l, enum condition now,
                          enum condition *out)
{
    char line[ANSWER_BYTES];
    printf("  %-32s%s%s ", l->id,
           now == COND_UNSEEN ? "" : "now: ", now == COND_UNSEEN ? "" : condition_name(now));
    fflush(stdout);
    if (!fgets(line, sizeof line, stdin)) return REPLY_END;
    if (strlen(line) == sizeof line - 1 &&
        line[sizeof line - 2] != '\n') { /* its rest is no answer to the next question */
        for (int rest = getchar(); rest != '\n' && rest != EOF;) rest = getchar();
        printf("  Shorter, please: one word.\n");
        return REPLY_UNCLEAR;
    }
    line[strcspn(line, "\r\n")] = 0;
    char *s = line + strspn(line, " ");
    for (size_t n = strlen(s); n > 0 && s[n - 1] == ' ';) s[--n] = 0;
    if (text_is(s, "<")) return REPLY_BACK;
    if (text_is(s, ">")) return REPLY_NEXT_PLACE;
    if (text_is(s, "q") || text_is(s, "Q")) return REPLY_STOP;
    bool rest = *s == '=';
    if (rest) s += 1 + strspn(s + 1, " ");
    if (!read_condition(s, out)) {
        printf("  '%s' is none of them: sound, worn, poor, bodged, failed, missing, not fitted.\n",
               wrap_clean(c->arena, s, false));
        return REPLY_UNCLEAR;
    }
    return rest ? REPLY_REST : REPLY_CONDITION;
}

static bool store_place(struct context *c, struct garage *g, const char *vehicle,
                        const struct survey *v, int from, int to, const enum condition *answers,
                        struct fail *f)
{
    int stored = 0;
    if (!garage_begin(g, f)) return false;
    for (int i = from; i < to; i++) {
        struct record *r;
        if (answers[i] == COND_UNSEEN) continue;
        if (!finding_make(c->arena, vehicle, v->lines[i].id, condition_name(answers[i]), NULL,
                          c->today, &r, f) ||
            !garage_add(g, r, f)) {
            garage_rollback(g);
            return false;
        }
        stored++;
    }
    if (stored == 0) {
        garage_rollback(g);
        return true;
    }
    if (!garage_commit(g, f)) return false;
    printf("  %d stored.\n", stored);
    return true;
}

bool lap_walk(struct context *c, struct garage *g, const char *vehicle, const struct survey *v,
              struct fail *f)
{
    enum condition *answers = ARENA_ARRAY(c->arena, enum condition, v->n_lines);
    for (int i = 0; i < v->n_lines; i++) answers[i] = COND_UNSEEN;
    context_say(c, "One lap. Answer with the beginning of a word: sound, worn, poor, bodged, "
                   "failed, missing, not fitted.\n"
                   "Enter: cannot see it yet. '=worn': this and the rest of this place alike. '>' "
                   "next place, '<' back, 'q' stop.\n"
                   "CAUTION: nothing that stands on a jack is gone under; photograph dirt before "
                   "it is touched.");
    bool stop = false;
    for (int from = 0; from < v->n_lines && !stop;) {
        int to = from;
        while (to < v->n_lines && v->lines[to].lap == v->lines[from].lap) to++;
        context_say(c, "\n%s", v->lines[from].lap->head.name);
        for (int i = from; i < to && !stop;) {
            enum condition answer = COND_UNSEEN;
            enum condition now = v->lines[i].seen ? v->lines[i].condition : answers[i];
            switch (ask_one(c, &v->lines[i], now, &answer)) {
            case REPLY_CONDITION:
                answers[i++] = answer;
                break;
            case REPLY_REST:
                for (int first = i; i < to;
                     i++) /* what was found before stays, but for the one that was asked */
                    if (i == first || !v->lines[i].seen) answers[i] = answer;
                break;
            case REPLY_BACK:
                i -= i > from;
                break;
            case REPLY_NEXT_PLACE:
                i = to;
                break;
            case REPLY_STOP:
            case REPLY_END:
                stop = true;
                break;
            case REPLY_UNCLEAR:
                break;
            }
        }
        if (!store_place(c, g, vehicle, v, from, to, answers, f)) return false;
        from = to;
    }
    context_say(c, stop ? "\nStopped; what was answered is stored. What that changes: fettle plan"
                        : "\nThe lap is done. What that changes: fettle plan");
    return true;
}
