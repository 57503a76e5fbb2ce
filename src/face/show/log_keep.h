/* log_keep.h - what was read from a line becomes records; and the clock that runs for a job. */
#ifndef SHOW_LOG_KEEP_H
#define SHOW_LOG_KEEP_H

#include "shop/log.h"

/* The machine's clock: its UTC stamp, and the minute of the local day. */
struct log_now {
    char stamp[25];
    int minute;
};
struct log_now log_now(void);

/* Reads and stores as one act, so that two who log at a time are held against each other. sure:
 * its questions were answered yes. *stored false, and no failure: questions or jobs are open. */
bool log_tell(struct arena *a, const struct log_ask *ask, bool sure, struct log_reading *out,
              bool *stored, struct fail *f);

/* The clock that runs on the vehicle; NULL: none. */
bool timer_running(struct arena *a, struct garage *g, const char *vehicle, struct record **out,
                   struct fail *f);
/* job: its id, or words for it. */
bool timer_start(struct arena *a, const struct log_ask *ask, const char *job, struct record **out,
                 struct fail *f);
/* hours: what it really was, or NULL: as the clock says, which is refused where it was forgotten.
 * drop: nothing is counted. */
bool timer_stop(struct arena *a, const struct log_ask *ask, const char *hours, bool finished,
                bool drop, const char **said, struct fail *f);

#endif
