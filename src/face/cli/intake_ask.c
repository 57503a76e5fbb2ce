/* The twelve questions, asked of a person. A wrong answer is told why and asked again; nothing is
 * stored here. */
#include "face/cli/intake_ask.h"
#include "face/cli/wrap.h"

#include <stdio.h>
#include <string.h>

enum { ANSWER_BYTES = 1000 };

enum reply { REPLY_TEXT, REPLY_BACK, REPLY_TOO_LONG, REPLY_END };

/* A line without its end. */
static enum reply read_reply(char line[ANSWER_BYTES])
{
    fflush(stdout);
    if (!fgets(line, ANSWER_BYTES, stdin)) return REPLY_END;
    size_t n = strlen(line);
    if (n == 0 || line[n - 1] != '\n') {
        int c = feof(stdin) ? EOF : getchar();
        if (n > 0 && c == EOF) return REPLY_TEXT; /* the last line of a pipe may lack its end */
        while (c != '\n' && c != EOF) c = getchar();
        return REPLY_TOO_LONG;
    }
    while (n > 0 && (line[n - 1] == '\n' || line[n - 1] == '\r' || line[n - 1] == ' '))
        line[--n] = '\0';
    return text_is(line, "<") ? REPLY_BACK : REPLY_TEXT;
}

/* The choice that an answer begins, if it is only one: "pick" is pickup. */
static const char *whole_choice(const struct field *d, const char *answer)
{
    const char *found = NULL;
    for (int i = 0; d->choices && d->choices[i] && *answer; i++) {
        if (text_same_word(d->choices[i], answer)) return answer;
        if (!text_starts(d->choices[i], answer)) continue;
        if (found) return answer;
        found = d->choices[i];
    }
    return found ? found : answer;
}

static void put_question(struct context *c, const struct intake *in, const struct intake_key *k,
                         bool first)
{
    const struct field *d = intake_field(k);
    if (k->question > 0 && first)
        context_say(c, "\nQuestion %d of %d", k->question, INTAKE_QUESTIONS);
    if (k->caution) context_say(c, "  CAUTION: %s", k->caution);
    printf("  %s", k->ask);
    if (d->choices) {
        for (int i = 0; d->choices[i]; i++) printf("%s%s", i ? ", " : " [", d->choices[i]);
        printf("]");
    } else if (d->type == FIELD_YES) {
        printf(" [yes, no]");
    } else if (d->type == FIELD_MONEY) {
        const char *currency = intake_currency(in);
        printf(" [%s]", currency ? currency : "with its currency, as 300 GBP");
    }
    const char *now = intake_answer(in, k);
    if (now) printf(" (now: %s)", wrap_clean(c->arena, now, false));
    printf(" ");
}

static void put_summary(struct context *c, const struct intake *in)
{
    context_say(c, "\nThis is what was understood:");
    for (const struct intake_key *k = intake_keys; k->key; k++)
        if (k->ask)
            context_say(c, "  %-10s %s", k->key,
                        intake_answer(in, k) ? intake_answer(in, k) : "not known");
}

static int next_asked(int i)
{
    while (intake_keys[i].key && !intake_keys[i].ask) i++;
    return i;
}

bool intake_ask(struct context *c, struct intake *in, struct fail *f)
{
    char line[ANSWER_BYTES];
    context_say(c, "Twelve questions. Enter, or '?', if you do not know; '<' goes back.\n"
                   "Enter keeps an answer that stands there already.");
    for (int i = 0;;) {
        const struct intake_key *k = &intake_keys[i = next_asked(i)];
        if (k->key)
            put_question(c, in, k, i == 0 || intake_keys[i - 1].question != k->question);
        else {
            put_summary(c, in);
            printf("Store this? [yes, no] (now: yes) ");
        }
        enum reply reply = read_reply(line);
        if (reply == REPLY_END) {
            context_say(c, "%s", "");
            return fail_set(
                f, FAIL_INPUT,
                "intake: broken off, nothing was stored; begin again, or give the answers "
                "as key=value");
        }
        if (reply == REPLY_TOO_LONG) {
            context_say(c, "  That was longer than %d bytes; shorter, please.", ANSWER_BYTES - 2);
        } else if (reply == REPLY_BACK) {
            do i -= i > 0;
            while (i > 0 && !intake_keys[i].ask);
        } else if (!k->key) {
            if (text_same_word(line, "no") || text_same_word(line, "n"))
                return fail_set(
                    f, FAIL_INPUT,
                    "intake: nothing was stored, as you said; begin again when you like");
            if (!*line || text_same_word(line, "yes") || text_same_word(line, "y")) return true;
            context_say(c, "  Say yes or no.");
        } else {
            struct fail why = {0};
            if (!*line || intake_set(in, k, whole_choice(intake_field(k), line), &why))
                i++;
            else
                context_say(c, "  %s", why.text);
        }
    }
}
