#include "library/words.h"

#include "base/text.h"
#include "library/trade.h"

#include <string.h>

static const char *const answer_names[ANSWER_COUNT] = {
    "kind",   "build",   "cylinders", "fuel",  "gearbox", "driven",
    "brakes", "voltage", "earth",     "state", "storage",
};
static const char *const answer_values[ANSWER_COUNT][ANSWER_VALUES] = {
    [ANSWER_KIND] = {"car", "pickup", "van", "four-wheel-drive"},
    [ANSWER_BUILD] = {"unitary", "frame"},
    [ANSWER_CYLINDERS] = {"4", "6", "8"},
    [ANSWER_FUEL] = {"petrol", "diesel", "lpg"},
    [ANSWER_GEARBOX] = {"manual", "automatic"},
    [ANSWER_DRIVEN] = {"rear", "front", "four"},
    [ANSWER_BRAKES] = {"drum", "mixed", "disc"},
    [ANSWER_VOLTAGE] = {"12", "6"},
    [ANSWER_EARTH] = {"negative", "positive"},
    [ANSWER_STATE] = {"whole", "part-stripped", "boxed"},
    [ANSWER_STORAGE] = {"dry", "heated", "damp", "outdoors"},
};

const char *answer_name(enum answer a)
{
    return (unsigned)a < ANSWER_COUNT ? answer_names[a] : NULL;
}

const char *answer_value(enum answer a, int value)
{
    if ((unsigned)a >= ANSWER_COUNT || value < 0 || value >= ANSWER_VALUES) return NULL;
    return answer_values[a][value];
}

int answer_parse(enum answer a, const char *s)
{
    for (int i = 0; answer_value(a, i); i++)
        if (text_same_word(answer_value(a, i), s)) return i;
    return -1;
}

bool answer_find(const char *name, enum answer *out)
{
    for (int a = 0; a < ANSWER_COUNT; a++) {
        if (!text_same_word(answer_names[a], name)) continue;
        *out = (enum answer)a;
        return true;
    }
    return false;
}

bool fitted_holds(const struct fitted *f, const int answers[ANSWER_COUNT])
{
    for (int a = 0; a < ANSWER_COUNT; a++) {
        int value = answers[a] < 0 ? 0 : answers[a]; /* "don't know" counts as the usual */
        if (f->values[a] != 0 && !(f->values[a] >> value & 1)) return false;
    }
    return true;
}

const char *word_mark(int i)
{
    static const char *const words[] = {"", "published", "practice", "memory", "demo"};
    return i >= 0 && i <= MARK_DEMO ? words[i] : NULL;
}

const char *word_package(int i)
{
    static const char *const words[PACKAGE_COUNT] = {
        "record", "mechanical", "body", "paint", "trim", "modify", "conserve", "hand-over",
    };
    return i >= 0 && i < PACKAGE_COUNT ? words[i] : NULL;
}

const char *word_from(int i)
{
    static const char *const words[FROM_COUNT] = {
        "stock",   "specialist", "exchange",   "machine-shop",
        "plating", "trim-shop",  "autojumble", "fee",
    };
    return i >= 0 && i < FROM_COUNT ? words[i] : NULL;
}

const char *word_subject(int i)
{
    static const char *const words[SUBJECT_COUNT] = {
        "sources",  "places",  "systems",    "ageing",   "components", "jobs",
        "setbacks", "parts",   "directions", "cautions", "coverage",   "tools",
        "defaults", "signs",   "outings",    "clusters", "clues",      "codebooks",
        "rules",    "glances", "joins",      "fittings", "needs",      "options",
        "proofs",   "gates",   "checks",     "care",     "fasteners",  "seals",
    };
    return i >= 0 && i < SUBJECT_COUNT ? words[i] : NULL;
}

const char *word_outing(int i)
{
    static const char *const words[OUTING_COUNT] = {"viewing", "home", "seized", "brakeless",
                                                    "parts"};
    return i >= 0 && i < OUTING_COUNT ? words[i] : NULL;
}

const char *word_clue_of(int i)
{
    static const char *const words[CLUE_OF_COUNT] = {"miles", "clock", "identity", "originality"};
    return i >= 0 && i < CLUE_OF_COUNT ? words[i] : NULL;
}

const char *clue_of_name(enum clue_of of)
{
    return word_clue_of((int)of);
}

const double clue_band_miles[CLUE_BANDS] = {15000, 45000, 80000, 130000, 220000};

int clue_columns(enum clue_of of)
{
    return of == CLUE_OF_MILES ? CLUE_BANDS : 2;
}

const char *word_mark_of(int i)
{
    static const char *const words[MARK_OF_COUNT] = {
        "vehicle", "body", "engine", "gearbox", "axle", "casting", "glass", "built", "other"};
    return i >= 0 && i < MARK_OF_COUNT ? words[i] : NULL;
}

const char *mark_of_name(enum mark_of m)
{
    return word_mark_of((int)m);
}

const char *word_originality(int i)
{
    static const char *const words[ORIGINALITY_COUNT] = {"original", "period", "reproduction",
                                                         "modern", "unknown"};
    return i >= 0 && i < ORIGINALITY_COUNT ? words[i] : NULL;
}

const char *originality_name(enum originality o)
{
    return word_originality((int)o);
}

const char *word_date_part(int i)
{
    static const char *const words[DATE_PARTS] = {
        "month-letter", "month", "day", "week", "year-last", "year-two", "year", "quarter-dots"};
    return i >= 0 && i < DATE_PARTS ? words[i] : NULL;
}

const char *word_seal_kind(int i)
{
    static const char *const words[SEAL_KINDS] = {"sponge", "solid", "foam"};
    return i >= 0 && i < SEAL_KINDS ? words[i] : NULL;
}

const char *word_seal_hold(int i)
{
    static const char *const words[SEAL_HOLDS] = {"flange", "groove", "glue"};
    return i >= 0 && i < SEAL_HOLDS ? words[i] : NULL;
}

const char *word_join_rule(int i)
{
    static const char *const words[JOIN_RULES] = {"inside", "same", "near"};
    return i >= 0 && i < JOIN_RULES ? words[i] : NULL;
}

const char *word_way(int i)
{
    static const char *const words[WAY_COUNT] = {
        "keep", "refurbish", "like-for-like", "exchange", "second-hand", "upgrade", "adapter"};
    return i >= 0 && i < WAY_COUNT ? words[i] : NULL;
}

const char *option_way_name(enum option_way w)
{
    return word_way((int)w);
}

const char *word_again(int i)
{
    static const char *const words[AGAIN_COUNT] = {"never", "look", "yes"};
    return i >= 0 && i < AGAIN_COUNT ? words[i] : NULL;
}

const char *again_name(enum again a)
{
    return word_again((int)a);
}

const char *word_undo(int i)
{
    static const char *const words[UNDO_COUNT] = {"yes", "with-care", "no"};
    return i >= 0 && i < UNDO_COUNT ? words[i] : NULL;
}

const char *option_undo_name(enum option_undo u)
{
    return word_undo((int)u);
}

const char *broken_name(enum broken b)
{
    static const char *const words[BROKEN_COUNT] = {"is", "in", "hole", "drill"};
    return words[b];
}

const char *broken_value(enum broken b, int i)
{
    static const char *const words[BROKEN_COUNT][4] = {
        {"proud", "flush", "below"}, {"iron", "alloy"}, {"through", "blind"}, {"yes", "no"}};
    return i >= 0 && i < 4 ? words[b][i] : NULL;
}

const char *word_broken_is(int i)
{
    return broken_value(BROKEN_IS, i);
}

const char *word_broken_metal(int i)
{
    return broken_value(BROKEN_METAL, i);
}

const char *word_broken_hole(int i)
{
    return broken_value(BROKEN_HOLE, i);
}

const char *word_broken_drill(int i)
{
    return broken_value(BROKEN_DRILL, i);
}

const char *word_condition(int i)
{
    return i >= 0 && i < COND_COUNT ? condition_name((enum condition)i) : NULL;
}

const char *word_aged(int i)
{
    return i <= COND_FAILED ? word_condition(i) : NULL;
}

const char *word_storage(int i)
{
    return answer_value(ANSWER_STORAGE, i);
}

const char *word_state(int i)
{
    return answer_value(ANSWER_STATE, i);
}

int word_find(word_list *words, const char *s)
{
    for (int i = 0; words(i); i++)
        if (words(i)[0] != '\0' && strcmp(words(i), s) == 0) return i;
    return -1;
}

const char *package_name(enum package p)
{
    return word_package((int)p);
}

const char *part_from_name(enum part_from f)
{
    return word_from((int)f);
}

const char *subject_name(enum subject s)
{
    return word_subject((int)s);
}
