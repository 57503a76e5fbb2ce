/* Readings against limits, and what a long-stored vehicle must show. The trend itself is proved in
 * tests/reckon/test_measure.c. */
#include "cases.h"

#include <stddef.h>

#define SAYS(GIVEN, OUT, IS)                                                                       \
    {                                                                                              \
        "", "measurement", GIVEN, OUT, IS, NULL, MARK_NONE, "reckoned elsewhere"                   \
    }
#define ACCEPT(ID, CHECK, VALUE, IS, MARK, SOURCE)                                                 \
    {                                                                                              \
        ID, "acceptance", "check=" CHECK "; value=" VALUE, "verdict", IS, NULL, MARK, SOURCE       \
    }
#define DONE_BY(ID, CHECK, HOW)                                                                    \
    {                                                                                              \
        ID, "acceptance", "check=" CHECK, "how", HOW, NULL, MARK_PRACTICE, practice                \
    }

static const char practice[] = "trade practice", manuals[] = "workshop manuals",
                  guide[] = "a charging guide", uk[] = "UK Statutory Instrument 2001/25";

#define FALLING                                                                                    \
    "at-least=105 psi; date=2026-06-01; earlier=2022-06-01 150, 2023-06-01 146, 2024-06-01 143, "  \
    "2025-06-01 138 psi; "

const struct bench_case cases_measurement[] = {
    SAYS("value=150 psi; at-least=105", "verdict", "good"),
    SAYS("value=110 psi; at-least=105", "verdict", "care"),
    SAYS("value=104.5 psi; at-least=105", "means", "Measure again with a finer gauge"),
    SAYS("value=95 psi; at-least=105", "verdict", "bad"),
    SAYS("value=95 psi; at-least=105", "left", "-10 psi"),
    SAYS("value=7 bar; at-least=105 psi", "verdict", "bad"),
    SAYS("value=0.30; at-most=0.25 mm", "verdict", "bad"),
    SAYS("value=0.005 in; at-most=0.25 mm", "verdict", "good"),
    SAYS("value=14.2 V; at-least=13.8; at-most=14.6", "verdict", "good"),
    SAYS("value=13.5 V; at-least=13.8; at-most=14.6", "verdict", "bad"),
    SAYS("value=72 %; at-least=75 %", "verdict", "bad"),
    SAYS("value=212 F; at-most=90 C; accuracy=0", "verdict", "bad"),
    SAYS("value=3; at-most=4", "verdict", "good"),
    SAYS("value=135 psi; at-least=105", "trend", "no trend can be told: it takes three readings"),
    SAYS(FALLING "value=135 psi; accuracy=0", "trend",
         "falls by 3.8 psi a year, give or take 0.521"),
    SAYS(FALLING "value=135 psi; accuracy=0", "crosses",
         "about 2034-04, between 2033-01 and 2035-11"),
    SAYS(FALLING "value=135 psi; accuracy=0", "means", "It serves; put the work on the plan"),
    SAYS(FALLING "value=110 psi; accuracy=0", "verdict", "care"),
    SAYS("value=110 psi; at-least=105; date=2026-06-01; earlier=2022-06-01 150, 2023-06-01 146, "
         "2024-06-01 131",
         "crosses", "about 2026-12, between 2026-06 and 2029-07"),
    SAYS("value=150 psi; at-least=105; date=2026-06-01; earlier=2025-06-01 149, 2024-06-01 150",
         "trend", "no trend can be told: "),
    SAYS("value=150 psi; at-least=105; date=2026-06-01; earlier=2026-06-01 149, 2026-06-01 150",
         "trend", "no trend can be told: all were taken on one day"),
    SAYS("value=150 psi", "refused", "at-least: no limit"),
    SAYS("value=150 psi; at-least=1 mm", "refused", "at-least: "),
    SAYS("value=150 wobble; at-least=1", "refused", "value: no unit 'wobble'"),
    SAYS("value=x; at-least=1", "refused", "value: "),
    SAYS("value=5 V; at-least=3; at-most=2", "refused", "at-least: it is not under"),
    SAYS("value=5 V; at-least=3; earlier=2025-01-01 5", "refused", "date: not given"),
    SAYS("value=5 V; at-least=3; date=2025-02-30", "refused", "date: "),
    SAYS("value=5 V; at-least=3; date=2025-02-28; earlier=2025-03-01 5", "refused",
         "earlier: 2025"),
    SAYS("value=5 V; at-least=3; date=2025-02-28; earlier=soon", "refused", "earlier: 'soon'"),
    SAYS("value=5 V; at-least=3; date=2025-02-28; earlier=2024-01-01 5 psi", "refused", "earlier:"),

    ACCEPT("15.01", "compression", "75 %", "good", MARK_PUBLISHED, manuals),
    ACCEPT("15.01", "compression", "72 %", "care", MARK_PUBLISHED, manuals),
    ACCEPT("15.02", "compression", "69.3 %", "bad", MARK_PUBLISHED, manuals),
    ACCEPT("15.03", "leak-down", "10 %", "good", MARK_PRACTICE, practice),
    ACCEPT("15.03", "leak-down", "15 %", "care", MARK_PRACTICE, practice),
    ACCEPT("15.03", "leak-down", "21 %", "bad", MARK_PRACTICE, practice),
    DONE_BY("15.04", "turn-by-hand", "Plugs out, oil in the bores for a day: two full turns"),
    ACCEPT("15.05", "oil-priming", "30 psi", "good", MARK_PRACTICE, practice),
    ACCEPT("15.05", "oil-priming", "1 bar", "bad", MARK_PRACTICE, practice),
    ACCEPT("15.05", "oil-hot", "10 psi", "good", MARK_PRACTICE, practice),
    ACCEPT("15.05", "oil-hot", "8 psi", "bad", MARK_PRACTICE, practice),
    DONE_BY("15.06", "brake-pedal", "Hard in the upper half; no sinking in 60 s"),
    DONE_BY("15.07", "brake-lines", "A push of 1000 psi (6.9 MPa) in the lines for 2 minutes"),
    ACCEPT("15.08", "fuel-pressure", "2.5 psi", "good", MARK_PRACTICE, practice),
    ACCEPT("15.08", "fuel-pressure", "7 psi", "good", MARK_PRACTICE, practice),
    ACCEPT("15.08", "fuel-pressure", "9 psi", "bad", MARK_PRACTICE, practice),
    {"15.08", "pump-test", "pressure=9 psi", "verdict", "bad", NULL, MARK_PRACTICE, practice},
    ACCEPT("15.09", "charging", "14.2 V", "good", MARK_PRACTICE, practice),
    ACCEPT("15.09", "charging", "13.6 V", "care", MARK_PRACTICE, practice),
    ACCEPT("15.09", "charging", "14.8 V", "care", MARK_PRACTICE, practice),
    ACCEPT("15.09", "charging", "13.4 V", "bad", MARK_PRACTICE, practice),
    ACCEPT("15.09", "charging", "15.2 V", "bad", MARK_PRACTICE, practice),
    ACCEPT("15.10", "battery", "12.6 V", "good", MARK_PUBLISHED, guide),
    ACCEPT("15.10", "battery", "12.4 V", "care", MARK_PUBLISHED, guide),
    ACCEPT("15.10", "battery", "11.9 V", "bad", MARK_PUBLISHED, guide),
    ACCEPT("15.11", "standing-drain", "25 mA", "good", MARK_PUBLISHED, guide),
    ACCEPT("15.11", "standing-drain", "0.04 A", "care", MARK_PUBLISHED, guide),
    ACCEPT("15.11", "standing-drain", "80 mA", "bad", MARK_PUBLISHED, guide),
    ACCEPT("15.12", "cranking", "9.7 V", "good", MARK_PUBLISHED, guide),
    ACCEPT("15.12", "cranking", "9.65 V", "care", MARK_PUBLISHED, guide),
    ACCEPT("15.12", "cranking", "9.2 V", "bad", MARK_PUBLISHED, guide),
    DONE_BY("15.13", "coolant-pressure", "Pumped to the cap's rating, cold: no fall"),
    ACCEPT("15.14", "coolant-freezing", "6", "good", MARK_PRACTICE, practice),
    ACCEPT("15.14", "coolant-freezing", "3", "care", MARK_PRACTICE, practice),
    ACCEPT("15.14", "coolant-freezing", "-2", "bad", MARK_PRACTICE, practice),
    ACCEPT("15.15", "tyre-age", "5", "good", MARK_PRACTICE, practice),
    ACCEPT("15.15", "tyre-age", "8", "care", MARK_PRACTICE, practice),
    ACCEPT("15.15", "tyre-age", "11", "bad", MARK_PRACTICE, practice),
    ACCEPT("15.16", "toe", "2 mm", "good", MARK_PRACTICE, practice),
    ACCEPT("15.16", "toe", "-1 mm", "care", MARK_PRACTICE, practice),
    ACCEPT("15.17", "co-idle", "3.5 %", "good", MARK_PUBLISHED, uk),
    ACCEPT("15.17", "co-idle", "4 %", "bad", MARK_PUBLISHED, uk),
    ACCEPT("15.17", "co-idle-before-1986", "4 %", "good", MARK_PUBLISHED, uk),
    DONE_BY("15.18", "first-drive", "10 minutes of idle looking for leaks; a mile under 20 mph"),
    {"", "acceptance", "check=first-drive; value=3", "refused", "value: nothing is measured", NULL,
     MARK_NONE, ""},
    {"", "acceptance", "check=charging; value=3 psi", "refused", "value: ", NULL, MARK_NONE, ""},
    {"", "acceptance", "check=charging", "stop", "under 13.5 or over 15 V", NULL, MARK_PRACTICE,
     ""},
    {"", "acceptance", "check=toe", "pass", "1.5 to 3 mm", NULL, MARK_PRACTICE, ""},
    {NULL},
};
