/* shape_fit.c - the keys of joins, of what the vehicle's components give and take there, of needs
 * and of the options that meet them. */
#include "library/shape.h"

#include <math.h>

#define KEYS(rows) .keys = (rows), .n_keys = (int)(sizeof(rows) / sizeof(rows)[0])

static const double MOST = 1e9;

static const struct key end_keys[] = {
    {"join", KEY_REF, .at = offsetof(struct trade_end, join), .needed = true,
     .subject = SUBJECT_JOINS},
    {"least", KEY_NUMBER, .at = offsetof(struct trade_end, least), .low = -MOST, .high = MOST},
    {"most", KEY_NUMBER, .at = offsetof(struct trade_end, most), .low = -MOST, .high = MOST},
    {"is", KEY_TEXT, .at = offsetof(struct trade_end, is)},
};
static const struct trade_end end_blank = {.join = -1, .least = NAN, .most = NAN};
static const struct shape end_shape = {sizeof(struct trade_end), &end_blank, KEYS(end_keys)};

static const struct key adapts_keys[] = {
    {"join", KEY_REF, .at = offsetof(struct trade_adapts, in.join), .needed = true,
     .subject = SUBJECT_JOINS},
    {"from-least", KEY_NUMBER, .at = offsetof(struct trade_adapts, in.least), .low = -MOST,
     .high = MOST},
    {"from-most", KEY_NUMBER, .at = offsetof(struct trade_adapts, in.most), .low = -MOST,
     .high = MOST},
    {"from", KEY_TEXT, .at = offsetof(struct trade_adapts, in.is)},
    {"to-least", KEY_NUMBER, .at = offsetof(struct trade_adapts, out.least), .low = -MOST,
     .high = MOST},
    {"to-most", KEY_NUMBER, .at = offsetof(struct trade_adapts, out.most), .low = -MOST,
     .high = MOST},
    {"to", KEY_TEXT, .at = offsetof(struct trade_adapts, out.is)},
};
static const struct trade_adapts adapts_blank = {.in = {.join = -1, .least = NAN, .most = NAN},
                                                 .out = {.join = -1, .least = NAN, .most = NAN}};
static const struct shape adapts_shape = {sizeof(struct trade_adapts), &adapts_blank,
                                          KEYS(adapts_keys)};

#define ENDS(type)                                                                                 \
    {"gives", KEY_RECORDS, .at = offsetof(type, gives), offsetof(type, n_gives),                   \
     .shape = &end_shape},                                                                         \
    {                                                                                              \
        "takes", KEY_RECORDS, .at = offsetof(type, takes), offsetof(type, n_takes),                \
                              .shape = &end_shape                                                  \
    }

const struct key join_keys[JOIN_KEYS] = {
    {"system", KEY_REF, .at = offsetof(struct trade_join, system), .needed = true,
     .subject = SUBJECT_SYSTEMS},
    {"rule", KEY_WORD, .at = offsetof(struct trade_join, rule), .needed = true,
     .words = word_join_rule},
    {"unit", KEY_TEXT, .at = offsetof(struct trade_join, unit)},
    {"within", KEY_NUMBER, .at = offsetof(struct trade_join, within), .high = MOST},
    {"gives", KEY_TEXT, .at = offsetof(struct trade_join, gives), .needed = true},
    {"takes", KEY_TEXT, .at = offsetof(struct trade_join, takes), .needed = true},
    {"measure", KEY_TEXT, .at = offsetof(struct trade_join, measure), .needed = true},
    {"misfit", KEY_TEXT, .at = offsetof(struct trade_join, misfit), .needed = true},
    {"cautions", KEY_REFS, .at = offsetof(struct trade_join, cautions),
     offsetof(struct trade_join, n_cautions), .subject = SUBJECT_CAUTIONS},
};
const struct trade_join join_blank = {.system = -1};

const struct key fitting_keys[FITTING_KEYS] = {
    {"component", KEY_REF, .at = offsetof(struct trade_fitting, component), .needed = true,
     .subject = SUBJECT_COMPONENTS},
    {"fitted", KEY_FITTED, .at = offsetof(struct trade_fitting, fitted)},
    ENDS(struct trade_fitting),
};
const struct trade_fitting fitting_blank = {.component = -1};

const struct key need_keys[NEED_KEYS] = {
    {"system", KEY_REF, .at = offsetof(struct trade_need, system), .needed = true,
     .subject = SUBJECT_SYSTEMS},
    {"jobs", KEY_REFS, .at = offsetof(struct trade_need, jobs), offsetof(struct trade_need, n_jobs),
     .subject = SUBJECT_JOBS},
    {"fitted", KEY_FITTED, .at = offsetof(struct trade_need, fitted)},
};
const struct trade_need need_blank = {.system = -1};

const struct key option_keys[OPTION_KEYS] = {
    {"need", KEY_REF, .at = offsetof(struct trade_option, need), .subject = SUBJECT_NEEDS},
    {"way", KEY_WORD, .at = offsetof(struct trade_option, way), .needed = true, .words = word_way},
    {"fitted", KEY_FITTED, .at = offsetof(struct trade_option, fitted)},
    {"parts", KEY_RECORDS, .at = offsetof(struct trade_option, parts),
     offsetof(struct trade_option, n_parts), .shape = &buy_shape},
    {"hours", KEY_POINTS, .at = offsetof(struct trade_option, hours)},
    {"brings", KEY_REFS, .at = offsetof(struct trade_option, brings),
     offsetof(struct trade_option, n_brings), .subject = SUBJECT_NEEDS},
    {"replaces", KEY_REFS, .at = offsetof(struct trade_option, replaces),
     offsetof(struct trade_option, n_replaces), .subject = SUBJECT_COMPONENTS},
    {"frees", KEY_REFS, .at = offsetof(struct trade_option, frees),
     offsetof(struct trade_option, n_frees), .subject = SUBJECT_FITTINGS},
    {"requires", KEY_REFS, .at = offsetof(struct trade_option, requires),
     offsetof(struct trade_option, n_requires), .subject = SUBJECT_OPTIONS},
    {"conflicts", KEY_REFS, .at = offsetof(struct trade_option, conflicts),
     offsetof(struct trade_option, n_conflicts), .subject = SUBJECT_OPTIONS},
    ENDS(struct trade_option),
    {"adapts", KEY_RECORDS, .at = offsetof(struct trade_option, adapts),
     offsetof(struct trade_option, n_adapts), .shape = &adapts_shape},
    {"original", KEY_WORD, .at = offsetof(struct trade_option, original), .needed = true,
     .words = word_originality},
    {"undo", KEY_WORD, .at = offsetof(struct trade_option, undo), .needed = true,
     .words = word_undo},
    {"keep", KEY_TEXT, .at = offsetof(struct trade_option, keep)},
    {"note", KEY_TEXT, .at = offsetof(struct trade_option, note)},
    {"cautions", KEY_REFS, .at = offsetof(struct trade_option, cautions),
     offsetof(struct trade_option, n_cautions), .subject = SUBJECT_CAUTIONS},
};
const struct trade_option option_blank = {.need = -1};
