/* kinds.h - kinds of records that are declared in files beside kinds.c; kinds.c lists all. */
#ifndef GARAGE_KINDS_H
#define GARAGE_KINDS_H

#include "garage/record.h"

extern const struct record_kind kind_clue_reading, kind_clock,
    kind_dated_mileage;                                 /* kinds_clue.c */
extern const struct record_kind kind_advert, kind_sign; /* kinds_candidate.c */
extern const struct record_kind kind_comparable, kind_grade, kind_weights, kind_tripwire,
    kind_instead;                                            /* kinds_worth.c */
extern const struct record_kind kind_mark, kind_originality; /* kinds_identity.c */
extern const struct record_kind kind_circuit;                /* kinds_circuit.c */
extern const struct record_kind kind_supplier, kind_quote, kind_choice, kind_measured, kind_sent,
    kind_seller;                                                         /* kinds_buy.c */
extern const struct record_kind kind_work, kind_timer, kind_measurement; /* kinds_log.c */
extern const struct record_kind kind_gate_opened, kind_gate_override, kind_session_check,
    kind_witnessed;                                      /* kinds_safe.c */
extern const struct record_kind kind_setback;            /* kinds_setback.c */
extern const struct record_kind kind_bag, kind_bag_item; /* kinds_bag.c */
extern const struct record_kind kind_tool_offer, kind_person, kind_promise;
extern const struct record_kind kind_tool, kind_left_off, kind_care_done; /* kinds_session.c */
bool order_check(const struct record *r, struct fail *f);

/* Words that kinds of several files choose from; kinds.c has them. */
extern const char *const words_of_worth[], *const words_of_condition[], *const words_of_how[];

enum owned { OWNED_YES, OWNED_NO, OWNED_NO_LONGER };
/* A vehicle of which nothing was said is the builder's. */
enum owned vehicle_owned(const struct record *vehicle);

#endif
