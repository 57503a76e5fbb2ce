/* row.h - the rows of calc.h written short: one input or output a line or two. */
#ifndef BENCH_ROW_H
#define BENCH_ROW_H

#include "bench/calc.h"

#define IN_NEEDED(NAME, QUANTITY, BARE, LOW, HIGH, HELP)                                           \
    {                                                                                              \
        .name = NAME, .help = HELP, .quantity = QUANTITY_##QUANTITY, .bare = BARE, .low = LOW,     \
        .high = HIGH                                                                               \
    }
#define IN_USUAL(NAME, QUANTITY, BARE, USUAL, LOW, HIGH, HELP)                                     \
    {                                                                                              \
        .name = NAME, .help = HELP, .quantity = QUANTITY_##QUANTITY, .bare = BARE, .usual = USUAL, \
        .low = LOW, .high = HIGH                                                                   \
    }
#define IN_MAYBE(NAME, QUANTITY, BARE, LOW, HIGH, HELP)                                            \
    {                                                                                              \
        .name = NAME, .help = HELP, .quantity = QUANTITY_##QUANTITY, .bare = BARE,                 \
        .may_lack = true, .low = LOW, .high = HIGH                                                 \
    }
#define IN_CHOICE(NAME, CHOICES, USUAL, HELP)                                                      \
    {                                                                                              \
        .name = NAME, .help = HELP, .kind = CALC_CHOICE, .choices = CHOICES, .usual = USUAL        \
    }
#define IN_TEXT(NAME, HELP)                                                                        \
    {                                                                                              \
        .name = NAME, .help = HELP, .kind = CALC_TEXT                                              \
    }
#define IN_MAYBE_TEXT(NAME, HELP)                                                                  \
    {                                                                                              \
        .name = NAME, .help = HELP, .kind = CALC_TEXT, .may_lack = true                            \
    }
#define IN_END                                                                                     \
    {                                                                                              \
        .name = NULL                                                                               \
    }

#define OUT_NUMBER(NAME, QUANTITY, METRIC, IMPERIAL, FIGURES, HELP)                                \
    {                                                                                              \
        .name = NAME, .help = HELP, .quantity = QUANTITY_##QUANTITY, .metric = METRIC,             \
        .imperial = IMPERIAL, .figures = FIGURES                                                   \
    }
#define OUT_TEXT(NAME, HELP)                                                                       \
    {                                                                                              \
        .name = NAME, .help = HELP, .kind = CALC_TEXT                                              \
    }
#define OUT_END                                                                                    \
    {                                                                                              \
        .name = NULL                                                                               \
    }

#define SOURCE_END                                                                                 \
    {                                                                                              \
        MARK_NONE, NULL                                                                            \
    }
#define CAUTION_END                                                                                \
    {                                                                                              \
        NULL, NULL                                                                                 \
    }

#endif
