/* shape_identity.c - the keys of code books and of rules about originality. */
#include "library/shape.h"

#define KEYS(rows) .keys = (rows), .n_keys = (int)(sizeof(rows) / sizeof(rows)[0])

/* ---- code books ---- */

static const struct key meaning_keys[] = {
    {"is", KEY_TEXT, .at = offsetof(struct code_meaning, is), .needed = true},
    {"means", KEY_TEXT, .at = offsetof(struct code_meaning, means), .needed = true},
};
static const struct shape meaning_shape = {sizeof(struct code_meaning), NULL, KEYS(meaning_keys)};

static const struct key place_keys[] = {
    {"at", KEY_WHOLE, .at = offsetof(struct code_place, at), .needed = true, .low = 1,
     .high = CODE_LONGEST},
    {"to", KEY_WHOLE, .at = offsetof(struct code_place, to), .low = 1, .high = CODE_LONGEST},
    {"name", KEY_TEXT, .at = offsetof(struct code_place, name), .needed = true},
    {"letters", KEY_TEXT, .at = offsetof(struct code_place, letters)},
    {"meanings", KEY_RECORDS, .at = offsetof(struct code_place, meanings),
     offsetof(struct code_place, n_meanings), .shape = &meaning_shape},
    {"mark", KEY_WORD, .at = offsetof(struct code_place, mark), .words = word_mark},
};
static const struct shape place_shape = {sizeof(struct code_place), NULL, KEYS(place_keys)};

static const struct key check_keys[] = {
    {"at", KEY_WHOLE, .at = offsetof(struct code_check, at), .needed = true, .low = 1,
     .high = CODE_LONGEST},
    {"weights", KEY_WHOLES, .at = offsetof(struct code_check, weights),
     offsetof(struct code_check, n_weights), .needed = true, .high = 1000},
    {"values", KEY_TEXTS, .at = offsetof(struct code_check, values),
     offsetof(struct code_check, n_values), .needed = true},
    {"modulus", KEY_WHOLE, .at = offsetof(struct code_check, modulus), .needed = true, .low = 2,
     .high = 1000},
    {"remainders", KEY_TEXT, .at = offsetof(struct code_check, remainders), .needed = true},
};
static const struct shape check_shape = {sizeof(struct code_check), NULL, KEYS(check_keys)};

static const struct key year_keys[] = {
    {"at", KEY_WHOLE, .at = offsetof(struct code_year, at), .needed = true, .low = 1,
     .high = CODE_LONGEST},
    {"codes", KEY_TEXT, .at = offsetof(struct code_year, codes), .needed = true},
    {"first", KEY_WHOLE, .at = offsetof(struct code_year, first), .needed = true, .low = 1880,
     .high = 2200},
    {"decided-by", KEY_WHOLE, .at = offsetof(struct code_year, decided_by), .low = 1,
     .high = CODE_LONGEST},
    {"decides", KEY_TEXTS, .at = offsetof(struct code_year, decides),
     offsetof(struct code_year, n_decides)},
    {"mark", KEY_WORD, .at = offsetof(struct code_year, mark), .words = word_mark},
};
static const struct shape year_shape = {sizeof(struct code_year), NULL, KEYS(year_keys)};

static const struct key date_keys[] = {
    {"parts", KEY_WORDS, .at = offsetof(struct code_date, parts),
     offsetof(struct code_date, n_parts), .needed = true, .words = word_date_part},
    {"lead", KEY_POINTS, .at = offsetof(struct code_date, lead)},
};
static const struct shape date_shape = {sizeof(struct code_date), NULL, KEYS(date_keys)};

const struct key codebook_keys[13] = {
    {"where", KEY_TEXT, .at = offsetof(struct trade_codebook, where), .needed = true},
    {"what", KEY_CONDITIONS, .at = offsetof(struct trade_codebook, what), .needed = true,
     .words = word_mark_of},
    {"maker", KEY_TEXT, .at = offsetof(struct trade_codebook, maker)},
    {"from", KEY_WHOLE, .at = offsetof(struct trade_codebook, from), .low = 1880, .high = 2200},
    {"until", KEY_WHOLE, .at = offsetof(struct trade_codebook, until), .low = 1880, .high = 2200},
    {"starts", KEY_TEXT, .at = offsetof(struct trade_codebook, starts)},
    {"informed-by", KEY_REF, .at = offsetof(struct trade_codebook, informed_by),
     .subject = SUBJECT_CODEBOOKS},
    {"length", KEY_WHOLE, .at = offsetof(struct trade_codebook, book.length), .low = 1,
     .high = CODE_LONGEST},
    {"letters", KEY_TEXT, .at = offsetof(struct trade_codebook, book.letters)},
    {"positions", KEY_RECORDS, .at = offsetof(struct trade_codebook, book.places),
     offsetof(struct trade_codebook, book.n_places), .shape = &place_shape},
    {"check", KEY_RECORD, .at = offsetof(struct trade_codebook, book.check), .shape = &check_shape},
    {"year", KEY_RECORD, .at = offsetof(struct trade_codebook, book.year), .shape = &year_shape},
    {"date", KEY_RECORD, .at = offsetof(struct trade_codebook, book.date), .shape = &date_shape},
};
const struct trade_codebook codebook_blank = {.informed_by = -1};

/* ---- originality ---- */

static const struct key part_keys[] = {
    {"name", KEY_TEXT, .at = offsetof(struct trade_rule_part, name), .needed = true},
    {"components", KEY_REFS, .at = offsetof(struct trade_rule_part, components),
     offsetof(struct trade_rule_part, n_components), .needed = true, .subject = SUBJECT_COMPONENTS},
    {"classes", KEY_CONDITIONS, .at = offsetof(struct trade_rule_part, classes), .needed = true,
     .words = word_originality},
    {"points", KEY_NUMBER, .at = offsetof(struct trade_rule_part, points), .high = 1000},
    {"needed", KEY_FLAG, .at = offsetof(struct trade_rule_part, needed)},
};
static const struct shape part_shape = {sizeof(struct trade_rule_part), NULL, KEYS(part_keys)};

const struct key rule_keys[9] = {
    {"scheme", KEY_TEXT, .at = offsetof(struct trade_rule, scheme)},
    {"place", KEY_TEXT, .at = offsetof(struct trade_rule, place), .needed = true},
    {"dated", KEY_TEXT, .at = offsetof(struct trade_rule, dated), .needed = true},
    {"age", KEY_WHOLE, .at = offsetof(struct trade_rule, age), .high = 200},
    {"parts", KEY_RECORDS, .at = offsetof(struct trade_rule, parts),
     offsetof(struct trade_rule, n_parts), .needed = true, .shape = &part_shape},
    {"need", KEY_NUMBER, .at = offsetof(struct trade_rule, need), .high = 1000},
    {"gives", KEY_TEXT, .at = offsetof(struct trade_rule, gives), .needed = true},
    {"text", KEY_TEXT, .at = offsetof(struct trade_rule, text)},
    {"defer", KEY_TEXT, .at = offsetof(struct trade_rule, defer), .needed = true},
};

static const struct key change_keys[] = {
    {"systems", KEY_REFS, .at = offsetof(struct trade_change, systems),
     offsetof(struct trade_change, n_systems), .subject = SUBJECT_SYSTEMS},
    {"components", KEY_REFS, .at = offsetof(struct trade_change, components),
     offsetof(struct trade_change, n_components), .subject = SUBJECT_COMPONENTS},
    {"to", KEY_WORD, .at = offsetof(struct trade_change, to), .needed = true,
     .words = word_originality},
    {"what", KEY_TEXT, .at = offsetof(struct trade_change, what), .needed = true},
    {"can-be-undone", KEY_FLAG, .at = offsetof(struct trade_change, can_be_undone), .needed = true},
};
const struct shape change_shape = {sizeof(struct trade_change), NULL, KEYS(change_keys)};
