#include "library/shape.h"

#include <string.h>

#define KEYS(rows) .keys = (rows), .n_keys = (int)(sizeof(rows) / sizeof(rows)[0])

static const double MOST = 1e9; /* no figure of the trade is larger */

static const struct key head_keys[] = {
    {"id", KEY_ID, .at = offsetof(struct entry, id)},
    {"name", KEY_TEXT, .at = offsetof(struct entry, name)},
    {"also", KEY_TEXTS, .at = offsetof(struct entry, also), offsetof(struct entry, n_also)},
    {"mark", KEY_WORD, .at = offsetof(struct entry, mark), .header = true, .words = word_mark},
    {"source", KEY_SOURCE, .at = offsetof(struct entry, source)},
};
const struct shape shape_head = {sizeof(struct entry), NULL, KEYS(head_keys)};

/* ---- shapes within entries
 * ------------------------------------------------------------------------------- */

static const struct key wait_keys[] = {
    {"days", KEY_POINTS, .at = offsetof(struct trade_wait, days), .needed = true},
    {"for", KEY_TEXT, .at = offsetof(struct trade_wait, what_for), .needed = true},
};
static const struct shape wait_shape = {sizeof(struct trade_wait), NULL, KEYS(wait_keys)};

static const struct key buy_keys[] = {
    {"part", KEY_REF, .at = offsetof(struct trade_buy, part), .needed = true,
     .subject = SUBJECT_PARTS},
    {"count", KEY_NUMBER, .at = offsetof(struct trade_buy, count), .low = 0.001, .high = 10000},
};
static const struct trade_buy buy_blank = {.part = -1, .count = 1};
const struct shape buy_shape = {sizeof(struct trade_buy), &buy_blank, KEYS(buy_keys)};

/* `when` writes into the job itself. */
static const struct key when_keys[] = {
    {"components", KEY_REFS, .at = offsetof(struct trade_job, when_components),
     offsetof(struct trade_job, n_when), .needed = true, .subject = SUBJECT_COMPONENTS},
    {"worse-than", KEY_WORSE_THAN, .at = offsetof(struct trade_job, when_conditions),
     .words = word_condition},
    {"is", KEY_CONDITIONS, .at = offsetof(struct trade_job, when_conditions),
     .words = word_condition},
};
static const struct shape when_shape = {0, NULL, KEYS(when_keys)};

static const struct key at_keys[] = {
    {"job", KEY_REF, .at = offsetof(struct trade_setback_at, job), .needed = true,
     .subject = SUBJECT_JOBS},
    {"components", KEY_REFS, .at = offsetof(struct trade_setback_at, components),
     offsetof(struct trade_setback_at, n_components), .subject = SUBJECT_COMPONENTS},
    {"chance", KEY_CHANCE, .at = offsetof(struct trade_setback_at, chance), .needed = true,
     .high = 1, .words = word_condition},
    {"each", KEY_FLAG, .at = offsetof(struct trade_setback_at, each)},
    {"directions", KEY_BITS, .at = offsetof(struct trade_setback_at, directions),
     .subject = SUBJECT_DIRECTIONS},
};
static const struct trade_setback_at at_blank = {.job = -1};
static const struct shape at_shape = {sizeof(struct trade_setback_at), &at_blank, KEYS(at_keys)};

static const struct key worse_keys[] = {
    {"chance", KEY_NUMBER, .at = offsetof(struct trade_worse, chance), .needed = true, .high = 1},
    {"what", KEY_TEXT, .at = offsetof(struct trade_worse, what), .needed = true},
    {"hours", KEY_POINTS, .at = offsetof(struct trade_worse, hours)},
    {"parts", KEY_RECORDS, .at = offsetof(struct trade_worse, parts),
     offsetof(struct trade_worse, n_parts), .shape = &buy_shape},
    {"leaves", KEY_WHOLE, .at = offsetof(struct trade_worse, leaves), .low = 1, .high = 8},
};
static const struct trade_worse worse_blank = {.leaves = 1};
static const struct shape worse_shape = {sizeof(struct trade_worse), &worse_blank,
                                         KEYS(worse_keys)};

/* `when` writes into the step itself. */
static const struct key broken_keys[] = {
    {"is", KEY_CONDITIONS, .at = offsetof(struct trade_step, when[BROKEN_IS]),
     .words = word_broken_is},
    {"in", KEY_CONDITIONS, .at = offsetof(struct trade_step, when[BROKEN_METAL]),
     .words = word_broken_metal},
    {"hole", KEY_CONDITIONS, .at = offsetof(struct trade_step, when[BROKEN_HOLE]),
     .words = word_broken_hole},
    {"drill", KEY_CONDITIONS, .at = offsetof(struct trade_step, when[BROKEN_DRILL]),
     .words = word_broken_drill},
};
static const struct shape broken_shape = {0, NULL, KEYS(broken_keys)};

static const struct key step_keys[] = {
    {"called", KEY_ID, .at = offsetof(struct trade_step, called)},
    {"worse", KEY_RECORD, .at = offsetof(struct trade_step, worse), .shape = &worse_shape},
    {"when", KEY_RECORD, .shape = &broken_shape},
    {"after", KEY_WHOLE, .at = offsetof(struct trade_step, after), .low = 1, .high = 8},
    {"tools", KEY_TEXTS, .at = offsetof(struct trade_step, tools),
     offsetof(struct trade_step, n_tools)},
    {"do", KEY_TEXT, .at = offsetof(struct trade_step, act), .needed = true},
    {"works", KEY_NUMBER, .at = offsetof(struct trade_step, works), .needed = true, .high = 1},
    {"hours", KEY_POINTS, .at = offsetof(struct trade_step, hours)},
    {"wait", KEY_RECORD, .at = offsetof(struct trade_step, wait), .shape = &wait_shape},
    {"parts", KEY_RECORDS, .at = offsetof(struct trade_step, parts),
     offsetof(struct trade_step, n_parts), .shape = &buy_shape},
    {"risk", KEY_TEXT, .at = offsetof(struct trade_step, risk)},
    {"cautions", KEY_REFS, .at = offsetof(struct trade_step, cautions),
     offsetof(struct trade_step, n_cautions), .subject = SUBJECT_CAUTIONS},
};
static const struct shape step_shape = {sizeof(struct trade_step), NULL, KEYS(step_keys)};

/* ---- subjects
 * -------------------------------------------------------------------------------------------- */

static const struct key source_keys[] = {
    {"where", KEY_TEXT, .at = offsetof(struct trade_source, where)},
};

static const struct key place_keys[] = {
    {"parent", KEY_REF, .at = offsetof(struct trade_place, parent), .subject = SUBJECT_PLACES},
    {"members", KEY_REFS, .at = offsetof(struct trade_place, members),
     offsetof(struct trade_place, n_members), .subject = SUBJECT_PLACES},
};
static const struct trade_place place_blank = {.parent = -1};

static const struct key ageing_keys[] = {
    {"odds", KEY_ODDS, .at = offsetof(struct ageing, odds), .needed = true, .high = 1,
     .words = word_aged},
    {"standing", KEY_NUMBER, .at = offsetof(struct ageing, standing), .needed = true, .low = -5,
     .high = 5},
    {"wear", KEY_NUMBER, .at = offsetof(struct ageing, wear), .low = -2, .high = 2},
    {"storage", KEY_BY_WORD, .at = offsetof(struct ageing, storage), .needed = true, .low = -5,
     .high = 5, .words = word_storage},
    {"state", KEY_NUMBER, .at = offsetof(struct ageing, state), .high = 0.9},
    {"missing", KEY_BY_WORD, .at = offsetof(struct ageing, missing), .high = 1,
     .words = word_state},
};
static const struct ageing ageing_blank = {.state = 0.05, .missing = {0.01, 0.1, 0.3}};

static const struct key component_keys[] = {
    {"system", KEY_REF, .at = offsetof(struct trade_component, system), .needed = true,
     .subject = SUBJECT_SYSTEMS},
    {"places", KEY_PLACES, .at = offsetof(struct trade_component, places),
     offsetof(struct trade_component, n_places), .needed = true, .subject = SUBJECT_PLACES},
    {"fitted", KEY_FITTED, .at = offsetof(struct trade_component, fitted)},
    {"ages", KEY_REF, .at = offsetof(struct trade_component, ages), .needed = true,
     .subject = SUBJECT_AGEING},
    {"look", KEY_NUMBER, .at = offsetof(struct trade_component, look_minutes), .needed = true,
     .low = 0.1, .high = 1440},
    {"seen-by", KEY_TEXT, .at = offsetof(struct trade_component, seen_by)},
};
static const struct trade_component component_blank = {.system = -1, .ages = -1};

static const struct key job_keys[] = {
    {"system", KEY_REF, .at = offsetof(struct trade_job, system), .needed = true,
     .subject = SUBJECT_SYSTEMS},
    {"package", KEY_WORD, .at = offsetof(struct trade_job, package), .needed = true,
     .words = word_package},
    {"directions", KEY_BITS, .at = offsetof(struct trade_job, directions), .needed = true,
     .subject = SUBJECT_DIRECTIONS},
    {"after", KEY_REFS, .at = offsetof(struct trade_job, after),
     offsetof(struct trade_job, n_after), .subject = SUBJECT_JOBS},
    {"survey", KEY_FLAG, .at = offsetof(struct trade_job, survey)},
    {"gate", KEY_FLAG, .at = offsetof(struct trade_job, gate)},
    {"when", KEY_RECORD, 0, .shape = &when_shape},
    {"fitted", KEY_FITTED, .at = offsetof(struct trade_job, fitted)},
    {"by-share", KEY_FLAG, .at = offsetof(struct trade_job, by_share)},
    {"hours", KEY_POINTS, .at = offsetof(struct trade_job, hours), .needed = true},
    {"excludes", KEY_REFS, .at = offsetof(struct trade_job, excludes),
     offsetof(struct trade_job, n_excludes), .subject = SUBJECT_SETBACKS},
    {"hands", KEY_WHOLE, .at = offsetof(struct trade_job, hands), .low = 1, .high = 6},
    {"bay", KEY_FLAG, .at = offsetof(struct trade_job, bay)},
    {"unbroken", KEY_FLAG, .at = offsetof(struct trade_job, unbroken)},
    {"warm", KEY_NUMBER, .at = offsetof(struct trade_job, warm), .low = -40, .high = 40},
    {"wait", KEY_RECORD, .at = offsetof(struct trade_job, wait), .shape = &wait_shape},
    {"tools", KEY_TEXTS, .at = offsetof(struct trade_job, tools),
     offsetof(struct trade_job, n_tools)},
    {"parts", KEY_RECORDS, .at = offsetof(struct trade_job, parts),
     offsetof(struct trade_job, n_parts), .shape = &buy_shape},
    {"accept", KEY_TEXT, .at = offsetof(struct trade_job, accept)},
    {"accept-mark", KEY_WORD, .at = offsetof(struct trade_job, accept_mark), .words = word_mark},
    {"accept-source", KEY_SOURCE, .at = offsetof(struct trade_job, accept_source)},
    {"cautions", KEY_REFS, .at = offsetof(struct trade_job, cautions),
     offsetof(struct trade_job, n_cautions), .subject = SUBJECT_CAUTIONS},
    {"milestone", KEY_TEXT, .at = offsetof(struct trade_job, milestone)},
    {"steps", KEY_TEXTS, .at = offsetof(struct trade_job, steps),
     offsetof(struct trade_job, n_steps)},
};
static const struct trade_job job_blank = {.system = -1, .hands = 1, .bay = true, .warm = -100};

static const struct key setback_keys[] = {
    {"at", KEY_RECORDS, .at = offsetof(struct trade_setback, at),
     offsetof(struct trade_setback, n_at), .needed = true, .shape = &at_shape},
    {"ladder", KEY_RECORDS, .at = offsetof(struct trade_setback, ladder),
     offsetof(struct trade_setback, n_ladder), .needed = true, .shape = &step_shape},
    {"stop", KEY_TEXT, .at = offsetof(struct trade_setback, stop), .needed = true},
    {"tonight", KEY_TEXT, .at = offsetof(struct trade_setback, tonight)},
    {"fastener", KEY_FLAG, .at = offsetof(struct trade_setback, fastener)},
};

static const struct key part_keys[] = {
    {"system", KEY_REF, .at = offsetof(struct trade_part, system), .needed = true,
     .subject = SUBJECT_SYSTEMS},
    {"from", KEY_WORD, .at = offsetof(struct trade_part, from), .needed = true, .words = word_from},
    {"price", KEY_POINTS, .at = offsetof(struct trade_part, price), .needed = true},
    {"lead", KEY_POINTS, .at = offsetof(struct trade_part, lead), .needed = true},
    {"currency", KEY_CURRENCY, .at = offsetof(struct trade_part, currency), .needed = true,
     .header = true},
    {"price-year", KEY_WHOLE, .at = offsetof(struct trade_part, price_year), .needed = true,
     .header = true, .low = 1950, .high = 2200},
    {"off-another", KEY_FLAG, .at = offsetof(struct trade_part, off_another)},
};
static const struct trade_part part_blank = {.system = -1};

static const struct key direction_keys[] = {
    {"charter", KEY_TEXT, .at = offsetof(struct trade_direction, charter), .needed = true},
    {"lost", KEY_TEXTS, .at = offsetof(struct trade_direction, lost),
     offsetof(struct trade_direction, n_lost)},
    {"done", KEY_REFS, .at = offsetof(struct trade_direction, done),
     offsetof(struct trade_direction, n_done), .needed = true, .subject = SUBJECT_JOBS},
    {"changes", KEY_RECORDS, .at = offsetof(struct trade_direction, changes),
     offsetof(struct trade_direction, n_changes), .shape = &change_shape},
    {"worth-hint", KEY_TEXT, .at = offsetof(struct trade_direction, worth_hint)},
    {"grade", KEY_NUMBER, .at = offsetof(struct trade_direction, grade), .low = 1, .high = 5},
    {"original", KEY_NUMBER, .at = offsetof(struct trade_direction, original), .low = 0, .high = 1},
    {"miles", KEY_NUMBER, .at = offsetof(struct trade_direction, miles), .low = -0.9, .high = 1},
    {"driven", KEY_FLAG, .at = offsetof(struct trade_direction, driven)},
};

static const struct key caution_keys[] = {
    {"text", KEY_TEXT, .at = offsetof(struct trade_caution, text), .needed = true},
    {"defer", KEY_TEXT, .at = offsetof(struct trade_caution, defer), .needed = true},
};

static const struct key coverage_keys[] = {
    {"fitted", KEY_FITTED, .at = offsetof(struct trade_coverage, fitted)},
    {"text", KEY_TEXT, .at = offsetof(struct trade_coverage, text), .needed = true},
};

static const struct key default_keys[] = {
    {"value", KEY_VALUES, .at = offsetof(struct trade_default, value),
     offsetof(struct trade_default, n_value), .needed = true, .low = -MOST, .high = MOST},
    {"unit", KEY_TEXT, .at = offsetof(struct trade_default, unit)},
    {"text", KEY_TEXT, .at = offsetof(struct trade_default, text), .needed = true},
};

static const struct key sign_keys[] = {
    {"components", KEY_REFS, .at = offsetof(struct trade_sign, components),
     offsetof(struct trade_sign, n_components), .subject = SUBJECT_COMPONENTS},
    {"is", KEY_CONDITIONS, .at = offsetof(struct trade_sign, conditions), .words = word_condition},
    {"fitted", KEY_FITTED, .at = offsetof(struct trade_sign, fitted)},
    {"place", KEY_REF, .at = offsetof(struct trade_sign, place), .needed = true,
     .subject = SUBJECT_PLACES},
    {"minutes", KEY_NUMBER, .at = offsetof(struct trade_sign, minutes), .needed = true, .low = 0.1,
     .high = 60},
    {"seen-by", KEY_TEXT, .at = offsetof(struct trade_sign, seen_by), .needed = true},
    {"why", KEY_TEXT, .at = offsetof(struct trade_sign, why), .needed = true},
    {"ask", KEY_TEXT, .at = offsetof(struct trade_sign, ask), .needed = true},
};
static const struct trade_sign sign_blank = {.place = -1};

static const struct key outing_keys[] = {
    {"when", KEY_WORD, .at = offsetof(struct trade_outing, when), .needed = true,
     .words = word_outing},
    {"text", KEY_TEXT, .at = offsetof(struct trade_outing, text), .needed = true},
    {"cautions", KEY_REFS, .at = offsetof(struct trade_outing, cautions),
     offsetof(struct trade_outing, n_cautions), .subject = SUBJECT_CAUTIONS},
};

static const struct key glance_keys[] = {
    {"component", KEY_REF, .at = offsetof(struct trade_glance, component), .needed = true,
     .subject = SUBJECT_COMPONENTS},
    {"minutes", KEY_NUMBER, .at = offsetof(struct trade_glance, minutes), .needed = true,
     .low = 0.1, .high = 60},
    {"seen-by", KEY_TEXT, .at = offsetof(struct trade_glance, seen_by), .needed = true},
};
static const struct trade_glance glance_blank = {.component = -1};

static const struct key care_keys[] = {
    {"every", KEY_WHOLE, .at = offsetof(struct trade_care, every), .needed = true, .low = 1,
     .high = 400},
    {"minutes", KEY_NUMBER, .at = offsetof(struct trade_care, minutes), .needed = true, .low = 1,
     .high = 120},
    {"fitted", KEY_FITTED, .at = offsetof(struct trade_care, fitted)},
    {"since", KEY_REFS, .at = offsetof(struct trade_care, since),
     offsetof(struct trade_care, n_since), .subject = SUBJECT_JOBS},
    {"until", KEY_REFS, .at = offsetof(struct trade_care, until),
     offsetof(struct trade_care, n_until), .subject = SUBJECT_JOBS},
    {"do", KEY_TEXT, .at = offsetof(struct trade_care, act), .needed = true},
    {"accept", KEY_TEXT, .at = offsetof(struct trade_care, accept), .needed = true},
    {"tools", KEY_TEXTS, .at = offsetof(struct trade_care, tools),
     offsetof(struct trade_care, n_tools)},
    {"cautions", KEY_REFS, .at = offsetof(struct trade_care, cautions),
     offsetof(struct trade_care, n_cautions), .subject = SUBJECT_CAUTIONS},
};

static const struct key fastener_keys[] = {
    {"again", KEY_WORD, .at = offsetof(struct trade_fastener, again), .needed = true,
     .words = word_again},
    {"why", KEY_TEXT, .at = offsetof(struct trade_fastener, why), .needed = true},
};

static const struct key seal_keys[] = {
    {"kind", KEY_WORD, .at = offsetof(struct trade_seal, kind), .needed = true,
     .words = word_seal_kind},
    {"hold", KEY_WORD, .at = offsetof(struct trade_seal, hold), .needed = true,
     .words = word_seal_hold},
    {"from", KEY_NUMBER, .at = offsetof(struct trade_seal, from), .low = 0.1, .high = 50},
    {"to", KEY_NUMBER, .at = offsetof(struct trade_seal, to), .low = 0.1, .high = 50},
    {"height", KEY_NUMBER, .at = offsetof(struct trade_seal, height), .needed = true, .low = 1,
     .high = 100},
    {"breadth", KEY_NUMBER, .at = offsetof(struct trade_seal, breadth), .needed = true, .low = 1,
     .high = 100},
    {"force", KEY_NUMBER, .at = offsetof(struct trade_seal, force), .needed = true, .low = 0.1,
     .high = 500},
};

#define IN_TRADE(field) offsetof(struct trade, field), offsetof(struct trade, n_##field)

const struct subject_shape shape_of[SUBJECT_COUNT] = {
    [SUBJECT_SOURCES] = {{sizeof(struct trade_source), NULL, KEYS(source_keys)},
                         true,
                         false,
                         IN_TRADE(sources)},
    [SUBJECT_PLACES] = {{sizeof(struct trade_place), &place_blank, KEYS(place_keys)},
                        true,
                        false,
                        IN_TRADE(places)},
    [SUBJECT_SYSTEMS] = {{sizeof(struct trade_system), NULL, NULL, 0},
                         true,
                         false,
                         IN_TRADE(systems)},
    [SUBJECT_AGEING] = {{sizeof(struct ageing), &ageing_blank, KEYS(ageing_keys)},
                        true,
                        true,
                        IN_TRADE(ageing)},
    [SUBJECT_COMPONENTS] = {{sizeof(struct trade_component), &component_blank,
                             KEYS(component_keys)},
                            true,
                            true,
                            IN_TRADE(components)},
    [SUBJECT_JOBS] = {{sizeof(struct trade_job), &job_blank, KEYS(job_keys)},
                      true,
                      true,
                      IN_TRADE(jobs)},
    [SUBJECT_SETBACKS] = {{sizeof(struct trade_setback), NULL, KEYS(setback_keys)},
                          true,
                          true,
                          IN_TRADE(setbacks)},
    [SUBJECT_PARTS] = {{sizeof(struct trade_part), &part_blank, KEYS(part_keys)},
                       true,
                       true,
                       IN_TRADE(parts)},
    [SUBJECT_DIRECTIONS] = {{sizeof(struct trade_direction), NULL, KEYS(direction_keys)},
                            true,
                            false,
                            IN_TRADE(directions)},
    [SUBJECT_CAUTIONS] = {{sizeof(struct trade_caution), NULL, KEYS(caution_keys)},
                          true,
                          true,
                          IN_TRADE(cautions)},
    [SUBJECT_COVERAGE] = {{sizeof(struct trade_coverage), NULL, KEYS(coverage_keys)},
                          false,
                          false,
                          IN_TRADE(coverage)},
    [SUBJECT_TOOLS] = {{sizeof(struct trade_tool), NULL, NULL, 0}, true, false, IN_TRADE(tools)},
    [SUBJECT_DEFAULTS] = {{sizeof(struct trade_default), NULL, KEYS(default_keys)},
                          false,
                          true,
                          IN_TRADE(defaults)},
    [SUBJECT_SIGNS] = {{sizeof(struct trade_sign), &sign_blank, KEYS(sign_keys)},
                       true,
                       true,
                       IN_TRADE(signs)},
    [SUBJECT_OUTINGS] = {{sizeof(struct trade_outing), NULL, KEYS(outing_keys)},
                         true,
                         true,
                         IN_TRADE(outings)},
    [SUBJECT_CLUSTERS] = {{sizeof(struct trade_cluster), NULL, KEYS(cluster_keys)},
                          true,
                          true,
                          IN_TRADE(clusters)},
    [SUBJECT_CLUES] = {{sizeof(struct trade_clue), &clue_blank, KEYS(clue_keys)},
                       true,
                       true,
                       IN_TRADE(clues)},
    [SUBJECT_CODEBOOKS] = {{sizeof(struct trade_codebook), &codebook_blank, KEYS(codebook_keys)},
                           true,
                           true,
                           IN_TRADE(codebooks)},
    [SUBJECT_RULES] = {{sizeof(struct trade_rule), NULL, KEYS(rule_keys)},
                       true,
                       true,
                       IN_TRADE(rules)},
    [SUBJECT_GLANCES] = {{sizeof(struct trade_glance), &glance_blank, KEYS(glance_keys)},
                         false,
                         true,
                         IN_TRADE(glances)},
    [SUBJECT_JOINS] = {{sizeof(struct trade_join), &join_blank, KEYS(join_keys)},
                       true,
                       true,
                       IN_TRADE(joins)},
    [SUBJECT_FITTINGS] = {{sizeof(struct trade_fitting), &fitting_blank, KEYS(fitting_keys)},
                          false,
                          true,
                          IN_TRADE(fittings)},
    [SUBJECT_NEEDS] = {{sizeof(struct trade_need), &need_blank, KEYS(need_keys)},
                       true,
                       false,
                       IN_TRADE(needs)},
    [SUBJECT_OPTIONS] = {{sizeof(struct trade_option), &option_blank, KEYS(option_keys)},
                         true,
                         true,
                         IN_TRADE(options)},
    [SUBJECT_PROOFS] = {{sizeof(struct trade_proof), &proof_blank, KEYS(proof_keys)},
                        true,
                        true,
                        IN_TRADE(proofs)},
    [SUBJECT_GATES] = {{sizeof(struct trade_gate), &gate_blank, KEYS(gate_keys)},
                       true,
                       true,
                       IN_TRADE(gates)},
    [SUBJECT_CHECKS] = {{sizeof(struct trade_check), NULL, KEYS(asked_keys)},
                        true,
                        true,
                        IN_TRADE(checks)},
    [SUBJECT_CARES] = {{sizeof(struct trade_care), NULL, KEYS(care_keys)},
                       true,
                       true,
                       IN_TRADE(cares)},
    [SUBJECT_FASTENERS] = {{sizeof(struct trade_fastener), NULL, KEYS(fastener_keys)},
                           true,
                           true,
                           IN_TRADE(fasteners)},
    [SUBJECT_SEALS] = {{sizeof(struct trade_seal), NULL, KEYS(seal_keys)},
                       true,
                       true,
                       IN_TRADE(seals)},
};

const struct key *shape_key(const struct shape *shape, const char *name)
{
    for (int i = 0; i < shape->n_keys; i++)
        if (strcmp(shape->keys[i].name, name) == 0) return &shape->keys[i];
    return NULL;
}
