/* kinds_buy.c - who sells, at what price, what was chosen and measured, and what is away being
 * worked on. Orders are in kinds.c. */
#include "garage/kinds.h"

#include "garage/garage.h"

#define COUNT(array) ((int)(sizeof(array) / sizeof((array)[0])))

enum { NOTE_BYTES = 4000, SHORT_BYTES = 200, DAYS_MOST = 1000 };
static const double COUNT_MOST = 1e6, FIGURE_MOST = 1e9;

static const char *const end_words[] = {"gives", "takes", NULL};

/* ---- checks across fields ---- */

/* None below nothing, all in one currency: they are held against each other. */
static bool check_sums(const struct record *r, const char *const *sums, struct fail *f)
{
    const char *currency = NULL;
    for (; *sums; sums++) {
        const struct value *v = record_get(r, *sums);
        if (!v->set) continue;
        if (v->money.minor < 0)
            return fail_set(f, FAIL_INPUT, "%s.%s: is less than nothing; give 0 or more",
                            r->kind->name, *sums);
        if (currency && !text_is(currency, v->money.currency))
            return fail_set(f, FAIL_INPUT, "%s.%s: is in %s, another sum in %s; use one currency",
                            r->kind->name, *sums, v->money.currency, currency);
        currency = v->money.currency;
    }
    return true;
}

static bool check_supplier(const struct record *r, struct fail *f)
{
    return check_sums(r, (const char *const[]){"carriage", "carriage-free", "minimum", NULL}, f);
}

static bool check_quote(const struct record *r, struct fail *f)
{
    return check_sums(r, (const char *const[]){"price", "core", NULL}, f);
}

static bool check_measured(const struct record *r, struct fail *f)
{
    const struct value *least = record_get(r, "least"), *most = record_get(r, "most");
    if (!least->set && !most->set && !record_get(r, "is")->set)
        return fail_set(f, FAIL_INPUT,
                        "measured.is: nothing was measured; give is, or least and most");
    if (!least->set || !most->set || least->number <= most->number) return true;
    return fail_set(f, FAIL_INPUT, "measured.least: %g is above most, %g; give the lower as least",
                    least->number, most->number);
}

/* `later` cannot lie before `earlier`. */
static bool check_days(const struct record *r, const char *earlier, const char *later,
                       struct fail *f)
{
    const struct value *a = record_get(r, earlier), *b = record_get(r, later);
    return !a->set || !b->set || a->day <= b->day ||
           fail_set(f, FAIL_INPUT, "%s.%s: %s lies before '%s', %s; mend one of them",
                    r->kind->name, later, b->text, earlier, a->text);
}

static bool check_sent(const struct record *r, struct fail *f)
{
    if (record_integer(r, "count-returned", 0) > record_integer(r, "count", 1))
        return fail_set(f, FAIL_INPUT,
                        "sent.count-returned: %lld came back of %lld that went; mend one of them",
                        (long long)record_integer(r, "count-returned", 0),
                        (long long)record_integer(r, "count", 1));
    return check_days(r, "sent", "promised", f) && check_days(r, "sent", "returned", f) &&
           check_sums(r, (const char *const[]){"deposit", NULL}, f);
}

bool order_check(const struct record *r, struct fail *f)
{
    return check_days(r, "ordered", "arrived", f) && check_days(r, "arrived", "returned", f);
}

/* ---- what keeps a supplier from being removed ---- */

static bool count_of(struct garage *g, struct arena *a, const char *kind, const char *field,
                     const struct record *supplier, int *count, struct fail *f)
{
    struct record *list;
    int n;
    *count = 0;
    if (!garage_list(g, a, record_kind_find(kind), NULL, &list, &n, f)) return false;
    for (int i = 0; i < n; i++) {
        const char *from = record_text(&list[i], field, "");
        bool by_id = text_is(from, supplier->id);
        bool open = text_is(kind, "order") && !record_get(&list[i], "arrived")->set &&
                    !record_get(&list[i], "returned")->set &&
                    text_same_word(from, record_text(supplier, "name", "?"));
        *count += by_id || open;
    }
    return true;
}

/* Orders name their supplier in words, so the database does not hold them to it. */
static bool keep_supplier(struct garage *g, const struct record *r, struct fail *f)
{
    struct arena a = arena_open((size_t)1 << 26);
    int orders, quotes, sent;
    bool ok = count_of(g, &a, "order", "supplier", r, &orders, f) &&
              count_of(g, &a, "quote", "supplier", r, &quotes, f) &&
              count_of(g, &a, "sent", "supplier", r, &sent, f);
    arena_close(&a);
    if (!ok || orders + quotes + sent == 0) return ok;
    return fail_set(f, FAIL_INPUT,
                    "supplier %s: cannot go while %d open order%s, %d quote%s and %d piece%s sent "
                    "name it; remove or close those first",
                    record_text(r, "name", r->id), orders, orders == 1 ? "" : "s", quotes,
                    quotes == 1 ? "" : "s", sent, sent == 1 ? "" : "s");
}

/* clang-format off */
#define OF_VEHICLE                                                                                 \
    {                                                                                              \
        .name = "vehicle", .type = FIELD_PARENT, .required = true, .parent_kind = "vehicle",       \
        .help = "Which vehicle"                                                                    \
    }
#define OF_SUPPLIER                                                                                \
    {                                                                                              \
        .name = "supplier", .type = FIELD_PARENT, .required = true, .parent_kind = "supplier",     \
        .help = "Which supplier, by name"                                                          \
    }

static const struct field supplier_fields[] = {
    {.name = "name", .type = FIELD_TEXT, .required = true, .private_ = true, .high = SHORT_BYTES,
     .help = "What you call them; orders name them by it"},
    {.name = "carriage", .type = FIELD_MONEY, .private_ = true,
     .help = "What they ask for sending one order"},
    {.name = "carriage-free", .type = FIELD_MONEY, .private_ = true,
     .help = "From what sum on they send for nothing"},
    {.name = "minimum", .type = FIELD_MONEY, .private_ = true,
     .help = "The least that an order must come to"},
    {.name = "promised-days", .type = FIELD_INTEGER, .low = 0, .high = DAYS_MOST,
     .help = "Days that they say they need to send it off"},
    {.name = "note", .type = FIELD_TEXT, .private_ = true, .high = NOTE_BYTES,
     .help = "Anything else: telephone, days, whom to ask for"},
};
const struct record_kind kind_supplier = {
    .name = "supplier", .plural = "suppliers", .version = 1, .of_garage = true,
    .label_field = "name", .check = check_supplier, .keep = keep_supplier,
    .fields = supplier_fields, .n_fields = COUNT(supplier_fields),
    .help = "Who sells parts or works on pieces, and what an order from them costs to send"};

static const struct field quote_fields[] = {
    OF_SUPPLIER,
    {.name = "part", .type = FIELD_TEXT, .required = true, .high = SHORT_BYTES,
     .help = "The part of the trade data: wheel-cylinder-kit"},
    {.name = "price", .type = FIELD_MONEY, .required = true, .private_ = true, .own_currency = true,
     .help = "What one costs, with its currency: 12.50 GBP"},
    {.name = "from-count", .type = FIELD_INTEGER, .low = 1, .high = COUNT_MOST,
     .help = "From how many on that price holds; 1 if left out"},
    {.name = "lead", .type = FIELD_POINTS, .high = DAYS_MOST,
     .help = "Days from order to arrival, low/middle/high: 2/4/10"},
    {.name = "core", .type = FIELD_MONEY, .private_ = true, .own_currency = true,
     .help = "Charged until the old part is sent back, with its currency: 25 GBP"},
    {.name = "return-days", .type = FIELD_INTEGER, .low = 0, .high = DAYS_MOST,
     .help = "Days from arrival within which it may go back"},
    {.name = "date", .type = FIELD_DAY, .help = "The day of the quote"},
    {.name = "note", .type = FIELD_TEXT, .private_ = true, .high = NOTE_BYTES,
     .help = "Their number for it, its make, anything else"},
};
const struct record_kind kind_quote = {
    .name = "quote", .plural = "quotes", .version = 1, .of_garage = true, .check = check_quote,
    .fields = quote_fields, .n_fields = COUNT(quote_fields),
    .help = "What a supplier asks for a part; the latest one of each part and count is taken"};

static const struct field choice_fields[] = {
    OF_VEHICLE,
    {.name = "need", .type = FIELD_TEXT, .high = SHORT_BYTES,
     .help = "Which need of the trade data: charging; that of the option if left out"},
    {.name = "option", .type = FIELD_TEXT, .required = true, .high = SHORT_BYTES,
     .help = "By which of its options it is met: generator-refurbish"},
    {.name = "why", .type = FIELD_TEXT, .high = NOTE_BYTES, .help = "Why, in your own words"},
    {.name = "date", .type = FIELD_DAY, .help = "The day of the choice"},
};
const struct record_kind kind_choice = {
    .name = "choice", .plural = "choices", .version = 1, .fields = choice_fields,
    .n_fields = COUNT(choice_fields),
    .help = "By what a need is met on this vehicle; the latest one of each need counts"};

static const struct field seller_fields[] = {
    OF_VEHICLE,
    OF_SUPPLIER,
    {.name = "part", .type = FIELD_TEXT, .required = true, .high = SHORT_BYTES,
     .help = "Which part of the trade data: voltmeter"},
    {.name = "date", .type = FIELD_DAY, .help = "The day of the choice"},
};
const struct record_kind kind_seller = {
    .name = "seller", .plural = "sellers", .version = 1, .fields = seller_fields,
    .n_fields = COUNT(seller_fields),
    .help = "From whom a part is to be bought; the latest one of each part counts"};

static const struct field measured_fields[] = {
    OF_VEHICLE,
    {.name = "of", .type = FIELD_TEXT, .required = true, .high = SHORT_BYTES,
     .help = "What was measured, a fitting or an option of the trade data: fitting-ammeter"},
    {.name = "join", .type = FIELD_TEXT, .required = true, .high = SHORT_BYTES,
     .help = "At which join: charge-current"},
    {.name = "end", .type = FIELD_CHOICE, .choices = end_words,
     .help = "Which end of the join, only needed where it has both there"},
    {.name = "least", .type = FIELD_NUMBER, .low = -FIGURE_MOST, .high = FIGURE_MOST,
     .help = "The least that it gives or takes, in the unit of the join"},
    {.name = "most", .type = FIELD_NUMBER, .low = -FIGURE_MOST, .high = FIGURE_MOST,
     .help = "The most that it gives or takes, in the unit of the join: 30"},
    {.name = "is", .type = FIELD_TEXT, .high = SHORT_BYTES,
     .help = "The word, or the one figure, where the join has but one: positive"},
    {.name = "how", .type = FIELD_TEXT, .high = SHORT_BYTES,
     .help = "With what, and how: callipers over the ears"},
    {.name = "date", .type = FIELD_DAY, .help = "The day of the measuring"},
    {.name = "note", .type = FIELD_TEXT, .high = NOTE_BYTES, .help = "Anything else"},
};
const struct record_kind kind_measured = {
    .name = "measured", .plural = "measured-ends", .version = 1, .check = check_measured,
    .fields = measured_fields, .n_fields = COUNT(measured_fields),
    .help = "What an end of a join really is on this vehicle; the latest one of each end counts"};

static const struct field sent_fields[] = {
    OF_VEHICLE,
    OF_SUPPLIER,
    {.name = "what", .type = FIELD_TEXT, .required = true, .high = SHORT_BYTES,
     .help = "What went: cylinder head, its valves in a bag"},
    {.name = "count", .type = FIELD_INTEGER, .low = 1, .high = COUNT_MOST,
     .help = "How many pieces, counted before they went; 1 if left out"},
    {.name = "job", .type = FIELD_TEXT, .high = SHORT_BYTES,
     .help = "The job of the trade data that it is for: head-overhaul"},
    {.name = "sent", .type = FIELD_DAY, .required = true, .help = "The day on which it went"},
    {.name = "promised", .type = FIELD_DAY, .help = "The day on which it is promised back"},
    {.name = "chase", .type = FIELD_DAY, .help = "The day on which to ask how it stands"},
    {.name = "deposit", .type = FIELD_MONEY, .private_ = true, .help = "What was paid beforehand"},
    {.name = "tolerances", .type = FIELD_TEXT, .high = NOTE_BYTES,
     .help = "What was agreed in writing: skim no more than 0.1 mm"},
    {.name = "photo", .type = FIELD_TEXT, .high = SHORT_BYTES,
     .help = "The photograph taken before it went, by its id"},
    {.name = "returned", .type = FIELD_DAY, .help = "The day on which it came back"},
    {.name = "count-returned", .type = FIELD_INTEGER, .low = 0, .high = COUNT_MOST,
     .help = "How many pieces came back"},
    {.name = "measured", .type = FIELD_TEXT, .high = NOTE_BYTES,
     .help = "What was measured when it came back: 0.05 mm flat all over"},
};
const struct record_kind kind_sent = {
    .name = "sent", .plural = "pieces-sent", .version = 1, .check = check_sent,
    .fields = sent_fields, .n_fields = COUNT(sent_fields),
    .help = "Pieces away at a machine shop, plater, trimmer: counted out, measured and counted in"};
/* clang-format on */
