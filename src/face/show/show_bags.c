#include "face/show/show_bags.h"

#include "bench/thread_table.h"
#include "face/show/show_trade.h"
#include "face/show/words.h"

#include <math.h>

const char *bag_where(struct arena *a, const struct fact_bag *b)
{
    if (b->emptied != DAY_NONE) return arena_print(a, "emptied %s", words_short_day(a, b->emptied));
    return b->shelf ? b->shelf : "no shelf told";
}

const char *piece_words(struct arena *a, const struct fact_piece *p)
{
    return arena_print(a, "%d x %s%s%s%s%s%s%s", p->count, p->name, p->thread ? ", " : "",
                       p->thread ? p->thread : "", p->length ? ", " : "",
                       p->length ? p->length : "", p->grade ? ", grade " : "",
                       p->grade ? p->grade : "");
}

const char *piece_care(struct arena *a, const struct trade *t, const struct fact_piece *p,
                       enum tone *tone)
{
    const char *why = p->fastener >= 0 && p->renew < 0 ? t->fasteners[p->fastener].why : NULL;
    const int lost = piece_short(p);
    struct text words = {.arena = a};
    *tone = TONE_PLAIN;
    switch (piece_state_of(t, p)) {
    case PIECE_NEW:
        text_print(&words, "NEW, never again%s%s", why ? ": " : "", why ? why : "");
        *tone = TONE_BAD;
        break;
    case PIECE_LOOK:
        text_print(&words, "again only if %s", why);
        *tone = TONE_CARE;
        break;
    case PIECE_AGAIN:
        break;
    }
    if (lost > 0) {
        text_print(&words, "%s%d short", words.length ? "; " : "", lost);
        *tone = TONE_BAD;
    }
    return text_get(&words);
}

static const char *torque_words(struct arena *a, const struct fact_piece *p)
{
    if (p->torque)
        return arena_print(a, "%s%s%s", p->torque, p->source ? ", " : "; no page told",
                           p->source ? p->source : "");
    return piece_lacks_torque(p) ? "look it up" : "";
}

static const struct trade_job *job_of(const struct trade *t, const struct fact_bag *b)
{
    return b->trade_job >= 0 ? &t->jobs[b->trade_job] : NULL;
}

static void show_pieces(struct sheet *s, const struct trade *t, const struct fact_bag *b)
{
    if (b->n_pieces == 0) return;
    struct sheet_table *table = sheet_table(s, "");
    static const char *const columns[] = {"piece", "torque", "mind", "counted in"};
    for (int i = 0; i < 4; i++) sheet_column(s, table, columns[i], ALIGN_LEFT, i == 3 ? 2 : 1);
    for (int i = 0; i < b->n_pieces; i++) {
        const struct fact_piece *p = &b->pieces[i];
        enum tone tone;
        const char *care = piece_care(s->arena, t, p, &tone);
        sheet_cell(s, table, TONE_PLAIN, "%s%s%s", piece_words(s->arena, p), p->note ? ": " : "",
                   p->note ? p->note : "");
        sheet_cell(s, table, piece_lacks_torque(p) ? TONE_CARE : TONE_PLAIN, "%s",
                   torque_words(s->arena, p));
        sheet_cell(s, table, tone, "%s", care);
        sheet_cell(s, table, TONE_PLAIN, "%s",
                   p->back < 0 ? "" : arena_print(s->arena, "%d", p->back));
    }
}

void bag_show_facts(struct sheet *s, const struct trade *t, const struct fact_bag *b)
{
    struct arena *a = s->arena;
    sheet_fact(s, b->emptied == DAY_NONE ? TONE_PLAIN : TONE_GOOD, "where", "%s", bag_where(a, b));
    if (b->component) sheet_fact(s, TONE_PLAIN, "of", "%s", b->component);
    if (b->job)
        sheet_fact(s, TONE_PLAIN, "job", "%s", job_of(t, b) ? job_of(t, b)->head.name : b->job);
    if (b->date != DAY_NONE) sheet_fact(s, TONE_PLAIN, "came off", "%s", words_day(a, b->date));
    if (b->note) sheet_fact(s, TONE_CARE, "mind", "%s", b->note);
    if (b->n_photographs > 0)
        sheet_fact(s, TONE_PLAIN, "photographs", "%d, in order", b->n_photographs);
}

struct sheet *show_bag(struct arena *a, const struct trade *t, const struct fact_bag *b)
{
    struct sheet *s = sheet_new(a, arena_print(a, "%s: %s", b->code, b->what));
    bag_show_facts(s, t, b);
    show_pieces(s, t, b);
    return s;
}

struct sheet *show_bags(struct arena *a, const struct bags *x, const char *vehicle)
{
    struct sheet *s = sheet_new(a, arena_print(a, "%s: bags", vehicle));
    if (x->count == 0) {
        sheet_text(s, "None yet. What comes off gets a code: fettle bag new 'front left drum' "
                      "--shelf A2");
        return s;
    }
    struct sheet_table *t = sheet_table(s, "");
    sheet_column(s, t, "code", ALIGN_LEFT, 1);
    sheet_column(s, t, "what", ALIGN_LEFT, 1);
    sheet_column(s, t, "where", ALIGN_LEFT, 1);
    sheet_column(s, t, "pieces", ALIGN_RIGHT, 2);
    for (int i = 0; i < x->count; i++) {
        const struct fact_bag *b = &x->all[i];
        int pieces = 0;
        for (int k = 0; k < b->n_pieces; k++) pieces += b->pieces[k].count;
        sheet_cell(s, t, TONE_PLAIN, "%s", b->code);
        sheet_cell(s, t, TONE_PLAIN, "%s", b->what);
        sheet_cell(s, t, b->emptied == DAY_NONE ? TONE_PLAIN : TONE_GOOD, "%s", bag_where(a, b));
        sheet_cell(s, t, TONE_PLAIN, "%d", pieces);
    }
    return s;
}

void bags_show_way(struct sheet *s, const struct bags *x)
{
    struct arena *a = s->arena;
    for (int i = 0; i < x->n_back; i++) {
        const struct fact_bag *b = x->back[i];
        const struct trade_job *job = job_of(x->trade, b);
        sheet_heading(s, 2, arena_print(a, "%d. %s: %s", i + 1, b->code, b->what));
        if (job) show_cautions(s, x->trade, job->cautions, job->n_cautions);
        bag_show_facts(s, x->trade, b);
        show_pieces(s, x->trade, b);
    }
}

/* "M10, pitch 1.5 mm": a thread told without its pitch is bought by it all the same. */
static const char *thread_words(struct arena *a, const char *typed)
{
    struct thread t;
    struct fail ignored = {0};
    if (!typed || !thread_parse(a, "thread", typed, &t, &ignored)) return typed ? typed : "";
    const bool metric = t.series == THREAD_METRIC || t.series == THREAD_METRIC_FINE;
    return metric ? arena_print(a, "%s, pitch %g mm", t.name, t.p * 1000)
                  : arena_print(a, "%s, %g threads an inch", t.name, round(0.0254 / t.p * 2) / 2);
}

void bags_show_kit(struct sheet *s, const struct bags *x)
{
    struct arena *a = s->arena;
    if (x->n_kit == 0 && x->n_look == 0) return;
    sheet_heading(s, 2, "New hardware, bought as a kit");
    if (x->n_kit > 0) {
        static const char *const columns[] = {"what", "size and pitch", "length", "grade", "for"};
        struct sheet_table *t = sheet_table(s, "");
        for (int i = 0; i < 5; i++) sheet_column(s, t, columns[i], ALIGN_LEFT, i == 4 ? 2 : 1);
        for (int i = 0; i < x->n_kit; i++) {
            const struct hardware *h = &x->kit[i];
            sheet_cell(s, t, TONE_PLAIN, "%d x %s", h->count, h->piece->name);
            sheet_cell(s, t, TONE_PLAIN, "%s", thread_words(a, h->piece->thread));
            sheet_cell(s, t, TONE_PLAIN, "%s", h->piece->length ? h->piece->length : "");
            sheet_cell(s, t, TONE_PLAIN, "%s", h->piece->grade ? h->piece->grade : "");
            sheet_cell(s, t, TONE_PLAIN, "%s", h->bags);
        }
    }
    if (x->n_look > 0)
        sheet_text(s, "%d more %s have to be new: looked at first.", x->n_look,
                   x->n_look == 1 ? "kind of piece may" : "kinds of pieces may");
}

struct sheet *show_back(struct arena *a, const struct bags *x, const char *vehicle)
{
    struct sheet *s = sheet_new(a, arena_print(a, "%s: back together", vehicle));
    if (x->n_back == 0)
        sheet_text(s, "No bag is full.");
    else
        sheet_text(s, "Last off, first on. Torques are the book's, as they were told.");
    bags_show_kit(s, x);
    bags_show_way(s, x);
    return s;
}

static json_t *day_json(struct arena *a, day d)
{
    struct text t = {.arena = a};
    if (d == DAY_NONE) return json_null();
    day_print(&t, d);
    return json_string(text_get(&t));
}

static json_t *piece_json(const struct trade *t, const struct fact_piece *p)
{
    static const char *const states[] = {"again", "look", "new"};
    return json_pack("{s:s, s:i, s:s?, s:s?, s:s?, s:s?, s:s?, s:s, s:o, s:b}", "piece", p->name,
                     "count", p->count, "thread", p->thread, "length", p->length, "grade", p->grade,
                     "torque", p->torque, "source", p->source, "use", states[piece_state_of(t, p)],
                     "back", p->back < 0 ? json_null() : json_integer(p->back), "look_up_torque",
                     piece_lacks_torque(p));
}

json_t *show_bags_json(struct arena *a, const struct bags *x)
{
    json_t *bags = json_array(), *back = json_array(), *kit = json_array();
    for (int i = 0; i < x->count; i++) {
        const struct fact_bag *b = &x->all[i];
        json_t *pieces = json_array(), *photographs = json_array();
        for (int k = 0; k < b->n_pieces; k++)
            json_array_append_new(pieces, piece_json(x->trade, &b->pieces[k]));
        for (int k = 0; k < b->n_photographs; k++)
            json_array_append_new(photographs, json_string(b->photographs[k]->id));
        json_array_append_new(
            bags, json_pack("{s:s, s:s, s:s?, s:s?, s:s?, s:o, s:o, s:o, s:o}", "bag", b->code,
                            "what", b->what, "component", b->component, "job", b->job, "shelf",
                            b->shelf, "date", day_json(a, b->date), "emptied",
                            day_json(a, b->emptied), "pieces", pieces, "photographs", photographs));
    }
    for (int i = 0; i < x->n_back; i++) json_array_append_new(back, json_string(x->back[i]->code));
    for (int i = 0; i < x->n_kit; i++) {
        const struct hardware *h = &x->kit[i];
        json_array_append_new(kit, json_pack("{s:s, s:i, s:s?, s:s?, s:s?, s:s}", "piece",
                                             h->piece->name, "count", h->count, "thread",
                                             h->piece->thread, "length", h->piece->length, "grade",
                                             h->piece->grade, "bags", h->bags));
    }
    return json_pack("{s:o, s:o, s:o}", "bags", bags, "back", back, "kit", kit);
}
