#include "cases.h"

#include <stddef.h>

const struct bench_case cases_threads[] = {
    {"1.01", "metric-thread", "diameter=8; pitch=1.25", "pitch-diameter", "7.188 mm", "0.001 mm",
     MARK_NONE, "ISO 724 form, reckoned"},
    {"1.01", "metric-thread", "diameter=8 mm; pitch=1.25 mm", "stress-area", "36.6 mm2", "0.1 mm2",
     MARK_PUBLISHED, "ISO 898-1, load tables"},
    {"1.02", "metric-thread", "diameter=10; pitch=1.5", "minor-diameter", "8.376 mm", "0.001 mm",
     MARK_PUBLISHED, "ISO 724"},
    {NULL, NULL, NULL, NULL, NULL, NULL, MARK_NONE, NULL},
};
