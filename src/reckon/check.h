/* check.h - is this a schedule? Asked anew from the project and the draws, knowing nothing of how
 * it was made. */
#ifndef RECKON_CHECK_H
#define RECKON_CHECK_H

#include "base/fail.h"
#include "reckon/project.h"
#include "reckon/schedule.h"

/* Checks every stint and order of a recorded schedule: work done in full and within sessions kept;
 * hands, bay and warmth; unbroken work in one stint (it may overrun the session's end, not the next
 * one's start); nothing before its predecessors, their waits, its parts; setback work after its
 * wait and parts; no order before it could be known, none beyond the purse at its moment, the
 * ceiling or the reserve. The first breach is named. */
bool schedule_check(const struct project *p, const struct drawn *drawn, const struct schedule *s,
                    struct arena scratch, struct fail *f);

#endif
