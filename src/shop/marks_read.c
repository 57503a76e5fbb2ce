#include "shop/marks_read.h"

#include "base/text.h"

#include <string.h>

enum { OLDEST_YEAR = 1885 };

struct asked {
    struct arena *a;
    const struct trade *t;
    const char *maker; /* NULL: not known */
    int year;          /* 0: not known */
    day built_from, built_to, today;
};

static int year_of(day d)
{
    int year, month, dom;
    day_to_civil(d, &year, &month, &dom);
    return year;
}

static bool is_date(const struct trade_codebook *b)
{
    return b->book.date.n_parts > 0;
}

static struct date_reading read_date(const struct asked *x, const struct trade_codebook *b,
                                     const char *text)
{
    const int oldest = b->from ? b->from : OLDEST_YEAR;
    return code_read_date(x->a, &b->book.date, text, x->built_from, x->built_to,
                          oldest < year_of(x->today) ? oldest : year_of(x->today), x->today);
}

/* How well a book suits a number; negative: not at all. */
static int suits(const struct asked *x, const struct trade_codebook *b, enum mark_of what,
                 const char *text)
{
    const char *normal = code_normal(x->a, text);
    int how = b->head.own ? 1 : 0;
    if (!(b->what >> what & 1)) return -1;
    if (b->maker && !(x->maker && text_same_word(b->maker, x->maker))) return -1;
    if (x->year && ((b->from && x->year < b->from) || (b->until && x->year > b->until))) return -1;
    if (b->starts && !code_in(b->starts, normal[0])) return -1;
    if (!x->year && !b->maker && b->book.length && (int)strlen(normal) != b->book.length) return -1;
    if (is_date(b) && read_date(x, b, text).verdict == DATE_UNREADABLE) return -1;
    return how + (b->maker ? 4 : 0) + (b->starts ? 2 : 0);
}

static const struct trade_codebook *book_for(const struct asked *x, enum mark_of what,
                                             const char *text)
{
    const struct trade_codebook *best = NULL;
    int most = -1;
    for (int i = 0; i < x->t->n_codebooks; i++) {
        const int how = suits(x, &x->t->codebooks[i], what, text);
        if (how <= most) continue;
        most = how;
        best = &x->t->codebooks[i];
    }
    return best;
}

/* A code of any maker that lost a character or has one too many. */
static bool nearly(const struct asked *x, const struct trade_codebook *b, const char *text)
{
    const int off = (int)strlen(code_normal(x->a, text)) - b->book.length;
    return b->book.length > 0 && !b->maker && off >= -2 && off <= 2;
}

static void misfit(const struct asked *x, struct mark_read *out, const char *line)
{
    const char **longer = ARENA_ARRAY(x->a, const char *, out->n_misfits + 1);
    for (int i = 0; i < out->n_misfits; i++) longer[i] = out->misfits[i];
    longer[out->n_misfits++] = line;
    out->misfits = longer;
}

static void read_code(const struct asked *x, struct mark_read *out, const char *text)
{
    /* Next year's models are sold this year. */
    const int latest = out->book->until ? out->book->until : year_of(x->today) + 1;
    out->code = code_read(x->a, &out->book->book, text, latest);
    out->misfits = out->code.misfits;
    out->n_misfits = out->code.n_misfits;
    out->years = out->code.years;
    out->year_mark = out->book->book.year.mark;
    out->n_years = out->code.n_years;
    if (out->code.check == CODE_FITS) out->check = CHECK_FITS;
    if (out->code.check == CODE_DIFFERS) out->check = CHECK_DIFFERS;
    if (out->book->informed_by < 0 || out->n_misfits > 0) return;
    const struct codebook *other = &x->t->codebooks[out->book->informed_by].book;
    const struct code_reading r = code_read(x->a, other, text, latest);
    out->check = r.check == CODE_FITS      ? CHECK_FITS
                 : r.check == CODE_DIFFERS ? CHECK_INFORMATION
                                           : CHECK_NONE;
    out->code.check_due = r.check_due;
    out->code.check_stands = r.check_stands;
    out->code.check_sum = r.check_sum;
    out->years = r.years;
    out->n_years = r.n_years;
    out->years_informed = true;
    out->year_mark = other->year.mark;
}

static void read_mark(const struct asked *x, const struct trade_codebook *book, const char *text,
                      struct mark_read *out)
{
    out->book = book;
    if (!book) return;
    if (!is_date(book)) {
        read_code(x, out, text);
        return;
    }
    out->date = read_date(x, book, text);
    if (out->date.misfit) misfit(x, out, out->date.misfit);
}

bool originality_read(struct arena *a, const struct trade *t, const char *text, const char *book,
                      day today, struct mark_read *out, struct fail *f)
{
    const struct asked x = {a, t, NULL, 0, DAY_NONE, DAY_NONE, today};
    const struct trade_codebook *b = NULL;
    *out = (struct mark_read){0};
    if (book) {
        const int i = trade_find(t, SUBJECT_CODEBOOKS, book);
        const char *near = trade_nearest(t, SUBJECT_CODEBOOKS, book);
        if (i < 0)
            return near ? fail_set(f, FAIL_INPUT,
                                   "book: there is no code book '%s'; did you mean '%s'?", book,
                                   near)
                        : fail_set(f, FAIL_INPUT,
                                   "book: there is no code book '%s'; see fettle trade list "
                                   "codebooks",
                                   book);
        b = &t->codebooks[i];
    }
    for (int what = 0; !b && what < MARK_OF_COUNT; what++)
        b = book_for(&x, (enum mark_of)what, text);
    for (int i = 0; !b && i < t->n_codebooks; i++)
        if (nearly(&x, &t->codebooks[i], text)) b = &t->codebooks[i];
    read_mark(&x, b, text, out);
    if (!b)
        misfit(&x, out, "no code book reads it by itself; name one with --book, or write your own");
    return true;
}

void conflict_add(struct arena *a, struct originality_answer *out, bool stop, const char *text)
{
    out->conflicts = arena_grow(a, out->conflicts, (size_t)out->n_conflicts,
                                &out->conflicts_capacity, sizeof *out->conflicts);
    out->conflicts[out->n_conflicts++] = (struct identity_conflict){text, stop};
}

static const char *where_of(const struct fact_mark *m)
{
    return m->where ? m->where : "a place that was not told";
}

/* Numbers of one thing must be one number, wherever they stand. */
static void compare_numbers(const struct asked *x, struct originality_answer *out)
{
    for (int what = MARK_OF_VEHICLE; what <= MARK_OF_AXLE; what++) {
        const struct fact_mark *first = NULL;
        for (int i = 0; i < out->n_marks; i++) {
            const struct fact_mark *m = out->marks[i].mark;
            if (m->what != (enum mark_of)what) continue;
            if (!first)
                first = m;
            else if (!text_is(code_normal(x->a, first->text), code_normal(x->a, m->text)))
                conflict_add(x->a, out, true,
                             arena_print(x->a, "The %s number does not agree: %s (%s), %s (%s).",
                                         mark_of_name(m->what), first->text, where_of(first),
                                         m->text, where_of(m)));
        }
    }
}

static void check_mark(const struct asked *x, const struct mark_read *m,
                       struct originality_answer *out)
{
    const struct fact_mark *fact = m->mark;
    const char *what = mark_of_name(fact->what);
    bool year_suits = m->n_years == 0 || x->year == 0 || m->years_informed;
    for (int i = 0; i < m->n_years; i++)
        year_suits |= m->years[i] >= x->year - 1 && m->years[i] <= x->year + 1;
    if (!year_suits)
        conflict_add(x->a, out, true,
                     arena_print(x->a, "The %s number %s tells the year %d; it was told as of %d.",
                                 what, fact->text, m->years[0], x->year));
    if (m->check == CHECK_DIFFERS)
        conflict_add(x->a, out, true,
                     arena_print(x->a,
                                 "The check digit of %s is %c and should be %c: misread, or not "
                                 "the maker's; have it read again by someone else.",
                                 fact->text, m->code.check_stands, m->code.check_due));
    if (fact->again && !text_is(code_normal(x->a, fact->again), code_normal(x->a, fact->text)))
        conflict_add(x->a, out, false,
                     arena_print(x->a, "Two people read %s and %s; read it a third time.",
                                 fact->text, fact->again));
    if (fact->what != MARK_OF_BUILT && m->date.verdict == DATE_AFTER && !m->date.misfit &&
        m->date.n_candidates > 0)
        conflict_add(x->a, out, fact->what != MARK_OF_GLASS,
                     arena_print(x->a,
                                 "%s (%s%s%s) is later than the vehicle's assembly: an impossible "
                                 "pair. It was not there when the vehicle was built.",
                                 fact->text, what, fact->component ? " of " : "",
                                 fact->component ? fact->component : ""));
}

/* The time of assembly: from marks that tell it, else from the year of making. */
static void find_built(struct asked *x, const struct facts_identity *identity,
                       struct originality_answer *out)
{
    const struct trade_default *head_start = trade_find_default(x->t, "model-year-head-start");
    out->built_from = out->built_to = DAY_NONE;
    for (int i = 0; i < identity->n_marks; i++) {
        const struct fact_mark *m = &identity->marks[i];
        const struct trade_codebook *b =
            m->what == MARK_OF_BUILT ? book_for(x, m->what, m->text) : NULL;
        if (!b || !is_date(b)) continue;
        const struct date_reading r = read_date(x, b, m->text);
        if (r.n_candidates != 1) continue;
        const struct date_candidate *c = &r.candidates[0];
        if (out->built_told && (c->from > out->built_to || c->to < out->built_from))
            conflict_add(x->a, out, false,
                         "Two days of assembly were told that do not agree; the later one read "
                         "counts.");
        out->built_from = c->from;
        out->built_to = c->to;
        out->built_told = true;
    }
    if (!out->built_told && x->year > 0) {
        const int months = head_start && head_start->n_value > 0 ? (int)head_start->value[0] : 0;
        out->built_from = day_add_months(day_from_civil(x->year, 1, 1), -months);
        out->built_to = day_from_civil(x->year, 12, 31);
    }
    x->built_from = out->built_from;
    x->built_to = out->built_to;
}

void marks_read(struct arena *a, const struct facts *facts, const struct facts_identity *identity,
                day today, struct originality_answer *out)
{
    struct asked x = {a, out->trade, identity->maker, facts->year, DAY_NONE, DAY_NONE, today};
    find_built(&x, identity, out);
    out->marks = ARENA_ARRAY(a, struct mark_read, identity->n_marks);
    out->n_marks = identity->n_marks;
    for (int i = 0; i < identity->n_marks; i++) {
        struct mark_read *m = &out->marks[i];
        const struct fact_mark *fact = &identity->marks[i];
        const int named = fact->book ? trade_find(x.t, SUBJECT_CODEBOOKS, fact->book) : -1;
        m->mark = fact;
        read_mark(&x, named >= 0 ? &x.t->codebooks[named] : book_for(&x, fact->what, fact->text),
                  fact->text, m);
        if (fact->book && named < 0) {
            const char *near = trade_nearest(x.t, SUBJECT_CODEBOOKS, fact->book);
            misfit(&x, m,
                   arena_print(a, "there is no code book '%s'; %s%s", fact->book,
                               near ? "did you mean " : "see fettle trade list codebooks",
                               near ? near : ""));
        }
        if (fact->component && fact->kind < 0)
            misfit(&x, m,
                   arena_print(a, "the trade data knows no component '%s'; the mark is kept",
                               fact->component));
        check_mark(&x, m, out);
    }
    compare_numbers(&x, out);
}
