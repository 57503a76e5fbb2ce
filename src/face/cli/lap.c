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

/* What was answered of one row; COND_UNSEEN: nothing, so that it stays as it is. */
struct answered {
    const struct lap_row *row;
    const struct lap_part *part;
    enum condition *of; /* by cell */
};

enum reply { REPLY_ANSWER, REPLY_REST, REPLY_BACK, REPLY_NEXT_PLACE, REPLY_STOP, REPLY_UNCLEAR };

/* One word for all that nobody has seen, or, if all is seen, for all; or a word for each, commas
 * between. */
static bool read_answer(char *s, const struct lap_row *row, enum condition *of)
{
    enum condition one;
    int n = 0;
    if (!strchr(s, ',')) {
        if (!read_condition(s, &one)) return false;
        for (int i = 0; i < row->n_cells; i++)
            if (row->unseen == 0 || row->cells[i].now == COND_UNSEEN) of[i] = one;
        return true;
    }
    enum condition *each = of;
    for (char *word = s; word; n++) {
        char *comma = strchr(word, ',');
        if (comma) *comma = 0;
        word += strspn(word, " ");
        for (size_t k = strlen(word); k > 0 && word[k - 1] == ' ';) word[--k] = 0;
        if (n >= row->n_cells || !read_condition(word, &each[n])) return false;
        word = comma ? comma + 1 : NULL;
    }
    return n == row->n_cells;
}

static void print_now(const struct answered *x)
{
    bool any = false;
    for (int i = 0; i < x->row->n_cells; i++)
        any |= x->of[i] != COND_UNSEEN || x->row->cells[i].now != COND_UNSEEN;
    for (int i = 0; any && i < x->row->n_cells; i++) {
        enum condition now = x->of[i] != COND_UNSEEN ? x->of[i] : x->row->cells[i].now;
        printf("%s%s", i ? "," : "now: ", now == COND_UNSEEN ? "?" : condition_name(now));
    }
}

static enum reply ask_one(struct context *c, struct answered *x)
{
    char line[ANSWER_BYTES];
    const char *id = x->row->n_cells == 1 ? x->row->cells[0].id : x->row->kind->head.id;
    if (x->row->n_cells > 1) id = arena_print(c->arena, "%s, %d of them", id, x->row->n_cells);
    printf("  %-32s", id);
    print_now(x);
    printf(" ");
    fflush(stdout);
    if (!fgets(line, sizeof line, stdin)) return REPLY_STOP;
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
    const char *typed = arena_copy(c->arena, s);
    enum condition *of = ARENA_ARRAY(c->arena, enum condition, x->row->n_cells);
    for (int i = 0; i < x->row->n_cells; i++) of[i] = COND_UNSEEN;
    if (!read_answer(s, x->row, of) || (rest && strchr(typed, ','))) {
        printf("  '%s' is none of them: sound, worn, poor, bodged, failed, missing, not fitted.\n",
               wrap_clean(c->arena, typed, false));
        return REPLY_UNCLEAR;
    }
    x->of = of;
    return rest ? REPLY_REST : REPLY_ANSWER;
}

/* The word that was said of the row in hand, of everything after it that nobody has seen. */
static void answer_rest(struct answered *rows, int from, int n)
{
    enum condition said = COND_UNSEEN;
    for (int i = 0; i < rows[from].row->n_cells; i++)
        if (rows[from].of[i] != COND_UNSEEN) said = rows[from].of[i];
    for (int r = from + 1; r < n; r++)
        for (int i = 0; i < rows[r].row->n_cells; i++)
            if (rows[r].row->cells[i].now == COND_UNSEEN) rows[r].of[i] = said;
}

static bool store_stop(struct context *c, struct garage *g, const struct trade *t,
                       const char *vehicle, const struct answered *rows, int n,
                       const struct lap_stop *stop, struct fail *f)
{
    struct finding_told *told = ARENA_ARRAY(c->arena, struct finding_told, stop->total);
    int count = 0, stored, crossed;
    for (int r = 0; r < n; r++)
        for (int i = 0; i < rows[r].row->n_cells; i++) {
            const struct lap_cell *cell = &rows[r].row->cells[i];
            if (rows[r].of[i] != COND_UNSEEN)
                told[count++] = (struct finding_told){
                    .component = cell->id, .was = cell->now, .said = rows[r].of[i]};
        }
    if (!finding_tell_all(c->arena, g, t, vehicle, c->today, told, count, &stored, &crossed, f))
        return false;
    if (stored > 0) printf("  %d stored.\n", stored);
    for (int i = 0; i < count; i++)
        if (told[i].crossed)
            printf("  %s: told as %s by somebody else meanwhile, and left so; if it is %s: fettle "
                   "survey add\n",
                   told[i].component, condition_name(told[i].now), condition_name(told[i].said));
    return true;
}

/* Where they are, in the order in which several are answered. */
static void say_part(const struct lap_part *part)
{
    const struct lap_row *row = &part->rows[0];
    printf(" %s", part->place->head.name);
    for (int i = 0; row->n_cells > 1 && i < row->n_cells; i++)
        printf("%s%s", i ? ", " : ": ", row->cells[i].place->head.name);
    printf("\n");
}

static bool walk_stop(struct context *c, struct garage *g, const struct trade *t,
                      const char *vehicle, const struct lap_stop *stop, bool *over, struct fail *f)
{
    struct answered *rows = ARENA_ARRAY(c->arena, struct answered, stop->total);
    int n = 0;
    for (int p = 0; p < stop->n_parts; p++)
        for (int r = 0; r < stop->parts[p].n_rows; r++) {
            const struct lap_row *row = &stop->parts[p].rows[r];
            rows[n] = (struct answered){row, &stop->parts[p],
                                        ARENA_ARRAY(c->arena, enum condition, row->n_cells)};
            for (int i = 0; i < row->n_cells; i++) rows[n].of[i] = COND_UNSEEN;
            n++;
        }
    context_say(c, "\n%s", stop->place->head.name);
    const struct lap_part *part = NULL;
    for (int i = 0; i < n && !*over;) {
        if (rows[i].part != part && stop->n_parts > 1) say_part(rows[i].part);
        part = rows[i].part;
        switch (ask_one(c, &rows[i])) {
        case REPLY_ANSWER:
            i++;
            break;
        case REPLY_REST:
            answer_rest(rows, i, n);
            i = n;
            break;
        case REPLY_BACK:
            i -= i > 0;
            break;
        case REPLY_NEXT_PLACE:
            i = n;
            break;
        case REPLY_STOP:
            *over = true;
            break;
        case REPLY_UNCLEAR:
            break;
        }
    }
    return store_stop(c, g, t, vehicle, rows, n, stop, f);
}

bool lap_walk(struct context *c, struct garage *g, const struct trade *t, const char *vehicle,
              const struct lap *lap, struct fail *f)
{
    bool over = false;
    context_say(c, "One lap. Answer with the beginning of a word: sound, worn, poor, bodged, "
                   "failed, missing, not fitted.\n"
                   "Enter: cannot see it yet. Several are told by one word, or each: "
                   "'worn,worn,failed,worn'. '=worn': this and the rest of this place alike. '>' "
                   "next place, '<' back, 'q' stop.\n"
                   "CAUTION: nothing that stands on a jack is gone under; photograph dirt before "
                   "it is touched.");
    for (int i = 0; i < lap->n_stops && !over; i++)
        if (!walk_stop(c, g, t, vehicle, &lap->stops[i], &over, f)) return false;
    context_say(c, over ? "\nStopped; what was answered is stored. What that changes: fettle plan"
                        : "\nThe lap is done. What that changes: fettle plan");
    return true;
}
