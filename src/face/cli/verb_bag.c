/* bag: what came off, with a code on it; and the way back. */
#include "face/cli/context.h"
#include "face/cli/verbs.h"
#include "face/show/bag_act.h"
#include "face/show/bag_label.h"
#include "face/show/show_bags.h"
#include "face/web/share.h"

#include <errno.h>
#include <stdio.h>
#include <string.h>

enum { PORT_SHARED = 8061 };

static bool told(struct context *c, const char *line, struct fail *f)
{
    if (c->json) return context_print_json(c, json_pack("{s:s}", "told", line), f);
    context_say(c, "%s", line);
    return true;
}

static bool read_bags(struct context *c, struct bags *x, const char **name, struct fail *f)
{
    struct garage *g;
    const struct trade *t;
    const struct record *vehicle;
    if (!context_garage(c, GARAGE_READ, &g, f) || !context_trade(c, &t, f) ||
        !context_vehicle(c, &vehicle, f))
        return false;
    *name = record_text(vehicle, "name", "?");
    return bags_read(c->arena, g, t, vehicle->id, x, f);
}

static bool write_file(const char *path, const char *bytes, size_t n, struct fail *f)
{
    FILE *out = fopen(path, "wbx");
    bool good = out && fwrite(bytes, 1, n, out) == n;
    if (out && fclose(out) != 0) good = false;
    return good || fail_set(f, FAIL_INPUT, "bag labels: %.200s: %s", path, strerror(errno));
}

static bool labels(struct context *c, struct fail *f)
{
    const char *address = context_option(c, "address"), *name, *bytes;
    struct share share = {.port = PORT_SHARED};
    struct bags x;
    size_t n;
    if (!read_bags(c, &x, &name, f)) return false;
    if (!address) {
        if (!share_find_addresses(c->arena, &share, f)) return false;
        address = share_url(c->arena, &share, "");
    }
    return bag_labels(c->arena, name, x.all, x.count, address,
                      context_option(c, "letter") ? PAPER_LETTER : PAPER_A4, &bytes, &n, f) &&
           write_file(c->words[1], bytes, n, f) &&
           told(c,
                arena_print(c->arena, "%s: %d labels; their codes open %s/bag/...", c->words[1],
                            x.n_back, address),
                f);
}

static bool show(struct context *c, struct fail *f)
{
    struct bags x;
    const char *name, *word = c->n_words > 0 ? c->words[0] : NULL;
    if (!read_bags(c, &x, &name, f)) return false;
    if (c->json) return context_print_json(c, show_bags_json(c->arena, &x), f);
    if (!word || text_is(word, "back")) {
        context_print_sheet(c,
                            word ? show_back(c->arena, &x, name) : show_bags(c->arena, &x, name));
        return true;
    }
    for (int i = 0; i < x.count; i++)
        if (text_same_word(x.all[i].code, word)) {
            context_print_sheet(c, show_bag(c->arena, x.trade, &x.all[i]));
            return true;
        }
    return fail_set(f, FAIL_INPUT,
                    "bag: there is no bag '%.60s', and no such act; 'fettle bag' lists them", word);
}

static bool new_bag(struct context *c, struct garage *g, struct fail *f)
{
    const struct record *vehicle;
    struct record *r;
    const struct bag_typed typed[] = {{"what", c->words[1]},
                                      {"code", context_option(c, "code")},
                                      {"component", context_option(c, "component")},
                                      {"job", context_option(c, "job")},
                                      {"shelf", context_option(c, "shelf")},
                                      {"note", context_option(c, "note")},
                                      {NULL, NULL}};
    return context_vehicle(c, &vehicle, f) &&
           bag_new(c->arena, g, vehicle->id, typed, c->today, &r, f) &&
           told(c, arena_print(c->arena, "Write %s on it.", record_text(r, "code", "")), f);
}

static bool put(struct context *c, struct garage *g, struct fail *f)
{
    const struct bag_typed typed[] = {{"name", c->words[2]},
                                      {"count", c->words[3]},
                                      {"thread", context_option(c, "thread")},
                                      {"length", context_option(c, "length")},
                                      {"grade", context_option(c, "grade")},
                                      {"torque", context_option(c, "torque")},
                                      {"source", context_option(c, "source")},
                                      {"renew", context_option(c, "renew")},
                                      {"note", context_option(c, "note")},
                                      {NULL, NULL}};
    return bag_put(c->arena, g, c->words[1], typed, f) && told(c, "Noted.", f);
}

static bool run(struct context *c, struct fail *f)
{
    static const struct {
        const char *act;
        int words;
        const char *needs;
    } acts[] = {
        {"new", 2, "what came off: fettle bag new 'front left drum'"},
        {"put", 4, "code, piece and count: fettle bag put B7 'hub nut' 1"},
        {"shelf", 3, "code and place: fettle bag shelf B7 A2"},
        {"count", 4, "code, piece and how many are there: fettle bag count B7 'hub nut' 1"},
        {"empty", 2, "a code: fettle bag empty B7"},
        {"labels", 2, "a file: fettle bag labels labels.pdf"},
    };
    const char *word = c->n_words > 0 ? c->words[0] : "", *said = "Noted.";
    struct garage *g;
    size_t i = 0;
    while (i < sizeof acts / sizeof *acts && !text_is(word, acts[i].act)) i++;
    if (i == sizeof acts / sizeof *acts) {
        if (c->n_words > 1)
            return fail_set(f, FAIL_INPUT, "bag: takes no word '%.60s' there", c->words[1]);
        return show(c, f);
    }
    if (c->n_words != acts[i].words)
        return fail_set(f, FAIL_INPUT, "bag %s: needs %s", word, acts[i].needs);
    if (text_is(word, "labels")) return labels(c, f);
    if (!context_garage(c, GARAGE_WRITE, &g, f)) return false;
    if (text_is(word, "new")) return new_bag(c, g, f);
    if (text_is(word, "put")) return put(c, g, f);
    const bool done = text_is(word, "shelf") ? bag_move(c->arena, g, c->words[1], c->words[2], f)
                      : text_is(word, "count")
                          ? bag_count(c->arena, g, c->words[1], c->words[2], c->words[3], f)
                          : bag_empty(c->arena, g, c->words[1], c->today, &said, f);
    return done && told(c, said, f);
}

static const struct option options[] = {
    {"code", "CODE", "new: its code; the next free one if left out"},
    {"component", "ID", "new: the component that it belongs to"},
    {"job", "ID", "new: the job that took it off"},
    {"shelf", "PLACE", "new: where it lies"},
    {"note", "WORDS", "new, put: what to mind on the way back"},
    {"thread", "NAME", "put: M10x1.5, 3/8 UNF"},
    {"length", "LENGTH", "put: under the head, 30 mm"},
    {"grade", "WORDS", "put: what the head says"},
    {"torque", "TORQUE", "put: of the book, 55 Nm"},
    {"source", "WORDS", "put: where the torque stands"},
    {"renew", "yes|no", "put: must it not be used again; by its kind if left out"},
    {"address", "URL",
     "labels: where the pages are served; this machine on its network if left out"},
    {"letter", NULL, "labels: on Letter paper; A4 if left out"},
    {NULL, NULL, NULL},
};
static const struct example examples[] = {
    {"fettle bag new 'front left drum' --job brakes-open --shelf A2", "gives it the next code"},
    {"fettle bag put B1 'hub nut' 1 --thread M20x1.5 --torque '120 lbf ft' --source 'page 42'",
     "counted out"},
    {"fettle bag back", "last off first on, with torques and what must be new"},
    {"fettle bag empty B1", "all of it went back"},
    {"fettle bag labels labels.pdf", "to be cut up; the square opens its page on a phone"},
    {NULL, NULL},
};
const struct command command_bag = {
    .name = "bag",
    .help = "what came off, in bags with a code; and the way back",
    .usage = "[CODE | back]\n"
             "new WHAT [--shelf PLACE] [--job ID] [--component ID] [--code CODE] [--note WORDS]\n"
             "put CODE PIECE COUNT [--thread NAME] [--length L] [--grade WORDS] [--torque T] "
             "[--source WORDS] [--renew yes|no]\n"
             "shelf CODE PLACE\n"
             "count CODE PIECE N\n"
             "empty CODE\n"
             "labels FILE [--address URL] [--letter]",
    .text = "A bag, a box or a tag gets a code and a shelf; pieces are counted out into it, and in "
            "again when it is emptied. The way back is the way apart, last off first on; pieces "
            "that must not be used again, and those that are short, make one list to buy.",
    .options = options,
    .examples = examples,
    .words = "back new put shelf count empty labels",
    .run = run,
};
