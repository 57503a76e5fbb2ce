/* shape_clue.c - the keys of clues and of their clusters. */
#include "library/shape.h"

#define KEYS(rows) .keys = (rows), .n_keys = (int)(sizeof(rows) / sizeof(rows)[0])

static const struct key cause_keys[] = {
    {"id", KEY_ID, .at = offsetof(struct trade_cause, id), .needed = true},
    {"text", KEY_TEXT, .at = offsetof(struct trade_cause, text), .needed = true},
    {"chance", KEY_NUMBER, .at = offsetof(struct trade_cause, chance), .needed = true, .high = 0.9},
    {"looks", KEY_NUMBER, .at = offsetof(struct trade_cause, looks), .needed = true, .high = 10},
};
static const struct shape cause_shape = {sizeof(struct trade_cause), NULL, KEYS(cause_keys)};

static const struct key outcome_keys[] = {
    {"id", KEY_ID, .at = offsetof(struct trade_outcome, id), .needed = true},
    {"text", KEY_TEXT, .at = offsetof(struct trade_outcome, text), .needed = true},
    {"odds", KEY_NUMBERS, .at = offsetof(struct trade_outcome, odds),
     offsetof(struct trade_outcome, n_odds), .needed = true, .high = 1},
};
static const struct shape outcome_shape = {sizeof(struct trade_outcome), NULL, KEYS(outcome_keys)};

const struct key cluster_keys[CLUSTER_KEYS] = {
    {"of", KEY_WORD, .at = offsetof(struct trade_cluster, of), .needed = true,
     .words = word_clue_of},
    {"causes", KEY_RECORDS, .at = offsetof(struct trade_cluster, causes),
     offsetof(struct trade_cluster, n_causes), .shape = &cause_shape},
    {"papers", KEY_FLAG, .at = offsetof(struct trade_cluster, papers)},
};

const struct key clue_keys[CLUE_KEYS] = {
    {"cluster", KEY_REF, .at = offsetof(struct trade_clue, cluster), .needed = true, .header = true,
     .subject = SUBJECT_CLUSTERS},
    {"place", KEY_REF, .at = offsetof(struct trade_clue, place), .needed = true,
     .subject = SUBJECT_PLACES},
    {"how", KEY_TEXT, .at = offsetof(struct trade_clue, how), .needed = true},
    {"tool", KEY_TEXT, .at = offsetof(struct trade_clue, tool), .needed = true},
    {"minutes", KEY_NUMBER, .at = offsetof(struct trade_clue, minutes), .needed = true, .low = 0.5,
     .high = 480},
    {"misleads", KEY_TEXT, .at = offsetof(struct trade_clue, misleads), .needed = true},
    {"outcomes", KEY_RECORDS, .at = offsetof(struct trade_clue, outcomes),
     offsetof(struct trade_clue, n_outcomes), .needed = true, .shape = &outcome_shape},
    {"cautions", KEY_REFS, .at = offsetof(struct trade_clue, cautions),
     offsetof(struct trade_clue, n_cautions), .subject = SUBJECT_CAUTIONS},
    {"components", KEY_REFS, .at = offsetof(struct trade_clue, components),
     offsetof(struct trade_clue, n_components), .subject = SUBJECT_COMPONENTS},
};
const struct trade_clue clue_blank = {.cluster = -1, .place = -1};
