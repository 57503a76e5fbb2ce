/* verbs.h - every verb, each defined in its own verb_*.c. */
#ifndef CLI_VERBS_H
#define CLI_VERBS_H

#include "face/cli/command.h"

struct record;

extern const struct command command_bench;
extern const struct command command_loom;
extern const struct command command_buying;
extern const struct command command_quote;
extern const struct command command_new;
extern const struct command command_intake;
extern const struct command command_add;
extern const struct command command_change;
extern const struct command command_remove;
extern const struct command command_list;
extern const struct command command_undo;
extern const struct command command_kinds;
extern const struct command command_survey;
extern const struct command command_originality;
extern const struct command command_identify;
extern const struct command command_choose;
extern const struct command command_plan;
extern const struct command command_fit;
extern const struct command command_log;
extern const struct command command_safe;
extern const struct command command_find_;
extern const struct command command_tools;
extern const struct command command_session;
extern const struct command command_bag;
extern const struct command command_yard;
extern const struct command command_setback;
extern const struct command command_calendar;
extern const struct command command_pace;
extern const struct command command_household;
extern const struct command command_view;
extern const struct command command_serve;
extern const struct command command_trade;
extern const struct command command_garage;
extern const struct command command_demo;
extern const struct command command_help_; /* command_help is the function that prints one */
extern const struct command command_complete;

/* The end of an intake: the first forecast for the vehicle that was just stored, as text. */
bool intake_forecast(struct context *c, const struct record *vehicle, struct fail *f);

#endif
