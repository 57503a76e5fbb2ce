/* show_loom.h - the circuits of a vehicle, each drawn as a line from battery to earth, and what is
 * undersized, unfused or overloaded. */
#ifndef SHOW_SHOW_LOOM_H
#define SHOW_SHOW_LOOM_H

#include "bench/loom.h"
#include "face/show/sheet.h"
#include "garage/garage.h"

#include <jansson.h>

struct loom_told {
    const char *vehicle;
    double volts;
    bool volts_told;
    const struct loom_circuit *circuits;
    int count;
    struct loom loom;
};

bool loom_of_vehicle(struct arena *a, struct garage *g, const struct record *vehicle,
                     struct loom_told *out, struct fail *f);
struct sheet *show_loom(struct arena *a, const struct loom_told *x);
json_t *show_loom_json(const struct loom_told *x);

#endif
