/* serial.h - the serial schedule generation scheme: jobs onto renewable resources, one after
 * another, each at the soonest time that its predecessors and the resources still free allow.
 *
 * Times and durations are whole periods. Where all durations are fixed and the measure is the
 * finish, some list gives a best schedule (the scheme makes active schedules); the
 * latest-finish-time list is one quick good list, not the best. This is the classical technique on
 * its own: the vehicle's plan, with sessions, purse and setbacks, is made elsewhere. It serves as
 * the reference that others are held against.
 *
 * Published: J. E. Kelley, "The critical-path method: resources planning and scheduling", in Muth &
 * Thompson, Industrial Scheduling (1963); R. Kolisch, EJOR 90 (1996) 320-333 (serial and parallel
 * schemes). */
#ifndef RECKON_SERIAL_H
#define RECKON_SERIAL_H

#include "base/fail.h"
#include "reckon/network.h"

struct serial_project {
    const struct network *network;
    const int *duration; /* [jobs] periods, >= 0 */
    int resources;
    const int *request;  /* [jobs][resources] units held while the job lasts, >= 0 */
    const int *capacity; /* [resources] units there are */
};

/* Fails if a job asks for more than there is, naming job and resource by number from 0, or if the
 * sum of durations does not fit an int. Everything below expects a project that passed. */
bool serial_valid(const struct serial_project *p, struct fail *f);

/* Starts into start[jobs]; returns the finish of the whole. Asserts that `list` names every job
 * once, and none before its predecessors. */
int serial_by_list(const struct serial_project *p, const int *list, int *start,
                   struct arena scratch);

/* The list in which, of the jobs whose predecessors are all placed, the one with the least latest
 * finish comes next, the lower number first where equal; the latest finish is that of the backward
 * pass from the sum of all durations. The set of ready jobs is looked at afresh after each. Into
 * list[jobs]. */
void serial_latest_finish_list(const struct serial_project *p, int *list, struct arena scratch);

#endif
