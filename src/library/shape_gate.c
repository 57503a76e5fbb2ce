/* shape_gate.c - the keys of gates, of what proves that one may be opened, and of the checks of a
 * session. */
#include "library/shape.h"

#include <math.h>

static const double MOST = 1e9;

#define REFS(type, field, of)                                                                      \
    KEY_REFS, .at = offsetof(type, field), offsetof(type, n_##field), .subject = (of)
#define LIMIT(field)                                                                               \
    KEY_NUMBER, .at = offsetof(struct trade_proof, field), .low = -MOST, .high = MOST

const struct key proof_keys[PROOF_KEYS] = {
    {"unit", KEY_TEXT, .at = offsetof(struct trade_proof, unit)},
    {"pass-from", LIMIT(pass_from)},
    {"pass-to", LIMIT(pass_to)},
    {"stop-under", LIMIT(stop_under)},
    {"stop-over", LIMIT(stop_over)},
    {"book", KEY_FLAG, .at = offsetof(struct trade_proof, book)},
    {"independent", KEY_FLAG, .at = offsetof(struct trade_proof, independent)},
    {"fitted", KEY_FITTED, .at = offsetof(struct trade_proof, fitted)},
    {"how", KEY_TEXT, .at = offsetof(struct trade_proof, how), .needed = true},
    {"defer", KEY_TEXT, .at = offsetof(struct trade_proof, defer)},
    {"cautions", REFS(struct trade_proof, cautions, SUBJECT_CAUTIONS)},
};
const struct trade_proof proof_blank = {
    .pass_from = NAN, .pass_to = NAN, .stop_under = NAN, .stop_over = NAN};

const struct key gate_keys[GATE_KEYS] = {
    {"act", KEY_TEXT, .at = offsetof(struct trade_gate, act), .needed = true},
    {"after", REFS(struct trade_gate, after, SUBJECT_GATES)},
    {"jobs", REFS(struct trade_gate, jobs, SUBJECT_JOBS)},
    {"proofs", REFS(struct trade_gate, proofs, SUBJECT_PROOFS), .needed = true},
    {"again", REFS(struct trade_gate, again, SUBJECT_PROOFS)},
    {"since", KEY_REF, .at = offsetof(struct trade_gate, since), .subject = SUBJECT_JOBS},
    {"opens", REFS(struct trade_gate, opens, SUBJECT_JOBS)},
    {"cautions", REFS(struct trade_gate, cautions, SUBJECT_CAUTIONS), .needed = true},
};
const struct trade_gate gate_blank = {.since = -1};

const struct key asked_keys[CHECK_KEYS] = {
    {"asks", KEY_TEXTS, .at = offsetof(struct trade_check, asks),
     offsetof(struct trade_check, n_asks), .needed = true},
    {"cautions", REFS(struct trade_check, cautions, SUBJECT_CAUTIONS), .needed = true},
};
