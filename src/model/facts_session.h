/* facts_session.h - what an evening's work leans on: which tools are there, what lies where, when
 * jobs were worked on, where it was left off, when the vehicle was last cared for. */
#ifndef MODEL_FACTS_SESSION_H
#define MODEL_FACTS_SESSION_H

#include "base/day.h"
#include "garage/garage.h"
#include "library/trade.h"

enum tool_have { TOOL_NOT_TOLD, TOOL_OWNED, TOOL_BORROWED, TOOL_MISSING };

struct fact_left_off {
    const char *note, *where, *photo; /* the last two: or NULL */
    day date;                         /* DAY_NONE: not told */
};

struct facts_session {
    struct {
        enum tool_have have;
        const char *where; /* or NULL */
        day back_by;       /* DAY_NONE: not told */
    } * tools;             /* by tool of the trade data */
    struct {
        bool begun;
        day worked, finished;      /* the last; DAY_NONE: never, or not told */
    } * jobs;                      /* by job of the trade data */
    const char **shelf;            /* by part: where it lies, or NULL */
    day *cared;                    /* by care: the last; DAY_NONE: never */
    day last_hours;                /* the last day with hours told; DAY_NONE: none */
    struct fact_left_off left_off; /* note NULL: none yet */
};

bool facts_session_read(struct garage *g, struct arena *a, const struct trade *t,
                        const char *vehicle, struct facts_session *out, struct fail *f);

/* By id, name or another word for it; -1: the trade data has none such. */
int tool_called(const struct trade *t, const char *word);

/* Is it here on that day? A borrowed one that is back with its owner is to be asked about again. */
enum tool_have tool_on(const struct facts_session *x, int tool, day d);

#endif
