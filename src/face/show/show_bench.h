/* show_bench.h - an engineering sum as a sheet and as JSON. */
#ifndef SHOW_SHOW_BENCH_H
#define SHOW_SHOW_BENCH_H

#include "face/show/bench_ask.h"
#include "face/show/sheet.h"

#include <jansson.h>

struct sheet *show_bench(struct arena *a, const struct bench_asked *asked);
json_t *show_bench_json(struct arena *a, const struct bench_asked *asked);
/* What it asks and what it rests on, before anything is given. */
struct sheet *show_bench_help(struct arena *a, const struct calc *c);
/* All sums, by system. */
struct sheet *show_bench_list(struct arena *a);
json_t *show_bench_list_json(void);

#endif
