#include "cases.h"

#include <stddef.h>

#define CASE(ID, CALC, GIVEN, OUT, IS, WITHIN, MARK, SOURCE)                                       \
    {                                                                                              \
        ID, CALC, GIVEN, OUT, IS, WITHIN, MARK, SOURCE                                             \
    }
#define FREEZES(ID, SHARE, IS, WITHIN, MARK)                                                       \
    CASE(ID, "antifreeze", "share=" SHARE, "freezes", IS, WITHIN, MARK,                            \
         "tables of the trade; fit of the ASHRAE Handbook of 2001")
#define BOILS(ID, GIVEN, IS, WITHIN, MARK, SOURCE)                                                 \
    CASE(ID, "coolant-boiling", GIVEN, "boils", IS, WITHIN, MARK, SOURCE)
#define VERDICT(ID, CALC, GIVEN, IS, MARK, SOURCE)                                                 \
    CASE(ID, CALC, GIVEN, "verdict", IS, NULL, MARK, SOURCE)
#define REFUSED(CALC, GIVEN, LINE)                                                                 \
    CASE("", CALC, GIVEN, "refused", LINE, NULL, MARK_NONE, "the range of the sum")

static const char ashrae[] = "fit of the ASHRAE Handbook of 2001", steam[] = "IAPWS saturation",
                  manual[] = "a workshop manual", practice[] = "practice",
                  reckoned[] = "the formula, reckoned elsewhere", if97[] = "IAPWS-IF97, table 36";

const struct bench_case cases_cooling[] = {
    FREEZES("7.01", "25 %", "-12 C", "1 C", MARK_PUBLISHED),
    FREEZES("7.01", "44 %", "-29 C", "1 C", MARK_PUBLISHED),
    FREEZES("7.01", "52.5 %", "-40 C", "1 C", MARK_PUBLISHED),
    FREEZES("7.02", "32.5 %", "0 F", "1 C", MARK_PUBLISHED),
    FREEZES("7.03", "50 %", "-37 C", "1 C", MARK_PUBLISHED),
    FREEZES("7.04", "60 %", "-52 C", "1.5 C", MARK_NONE),
    FREEZES("7.05", "30 %", "-15.7 C", "1 C", MARK_NONE),
    FREEZES("7.05", "40 %", "-24.8 C", "1 C", MARK_NONE),
    FREEZES("7.06", "100 %", "-13 C", "1 C", MARK_PUBLISHED),
    VERDICT("7.06", "antifreeze", "share=75 %", "bad", MARK_PUBLISHED, "a maker's page"),
    VERDICT("7.06", "antifreeze", "share=100 %", "bad", MARK_PUBLISHED, "a maker's page"),
    BOILS("7.07", "cap=0 psi; antifreeze=0", "212.0 F", "0.5 F", MARK_NONE, steam),
    BOILS("7.07", "cap=7 psi; antifreeze=0", "232.3 F", "0.5 F", MARK_NONE, steam),
    BOILS("7.07", "cap=15 psi; antifreeze=0", "249.7 F", "0.5 F", MARK_NONE, steam),
    BOILS("", "cap=0; antifreeze=0; altitude=110.8", "372.756 K", "0.01 K", MARK_NONE, if97),
    BOILS("7.08", "cap=15 psi; antifreeze=50 %", "263.5 F", "4 F", MARK_PUBLISHED,
          "workshop manuals: 262 and 265 °F"),
    BOILS("7.08", "cap=15 psi; antifreeze=50 %", "266 F", "0.5 F", MARK_NONE, "Raoult's law"),
    BOILS("7.09", "cap=0; antifreeze=0; altitude=1500 m", "95.0 C", "0.2 C", MARK_NONE, steam),
    CASE("7.09", "coolant-boiling", "cap=0; altitude=1500 m", "air", "84.56 kPa", "0.1 kPa",
         MARK_NONE, "standard atmosphere"),
    VERDICT("", "coolant-boiling", "cap=7; antifreeze=0; runs-at=95 C", "good", MARK_NONE, steam),
    VERDICT("", "coolant-boiling", "cap=0; antifreeze=0; runs-at=95 C", "care", MARK_NONE, steam),
    VERDICT("", "coolant-boiling", "cap=0; antifreeze=0; runs-at=95 C; altitude=2000 m", "bad",
            MARK_NONE, steam),
    CASE("7.10", "coolant-flow", "heat=40; temperature=90 C", "carries", "3.55", "1 %", MARK_NONE,
         ashrae),
    CASE("7.10", "coolant-flow", "heat=40; temperature=90 C", "density", "1031", "1 %", MARK_NONE,
         ashrae),
    CASE("7.11", "coolant-flow", "heat=40; drop=8", "flow", "81.9 L/min", "1.5 %", MARK_NONE,
         ashrae),
    CASE("7.11", "coolant-flow", "heat=40; drop=8; antifreeze=0", "flow", "73.9 L/min", "1.5 %",
         MARK_NONE, ashrae),
    CASE("7.11", "coolant-flow", "heat=40; drop=8", "more-than-water", "10.8 %", "0.003", MARK_NONE,
         ashrae),
    CASE("7.12", "coolant-mix", "system=10 L; now=30 %", "drain", "2.86 L", "0.02 L", MARK_NONE,
         reckoned),
    CASE("", "coolant-mix", "system=10 L; now=60 %; wanted=50", "drain", "1.667 L", "0.01 L",
         MARK_NONE, reckoned),
    CASE("", "coolant-mix", "system=10 L; now=60 %; wanted=50", "pour-in", "water", NULL, MARK_NONE,
         reckoned),
    CASE("", "coolant-mix", "system=10 L; now=50 %; wanted=50", "drain", "0 L", "0 L", MARK_NONE,
         reckoned),
    REFUSED("coolant-mix", "system=10 L; now=30 %; wanted=60; strength=50", "wanted: stronger"),
    VERDICT("7.13", "pressure-cap", "rating=15; on-tester=quick", "bad", MARK_PUBLISHED, manual),
    VERDICT("7.13", "pressure-cap", "rating=15; on-tester=slow", "good", MARK_PUBLISHED, manual),
    VERDICT("7.13", "pressure-cap", "rating=15; on-tester=slow; loses-coolant=yes", "bad",
            MARK_PUBLISHED, manual),
    VERDICT("", "pressure-cap", "rating=7; fitted=15", "bad", MARK_PRACTICE, practice),
    VERDICT("", "pressure-cap", "rating=7; fitted=4", "care", MARK_PRACTICE, practice),
    VERDICT("", "pressure-cap", "rating=7; opens=9", "bad", MARK_PRACTICE, practice),
    VERDICT("", "pressure-cap", "rating=7; opens=7.5", "good", MARK_PRACTICE, practice),
    VERDICT("15.13", "cooling-test", "rating=7; pumped=7; left=7; time=15 min", "good",
            MARK_PRACTICE, practice),
    VERDICT("15.13", "cooling-test", "rating=7; pumped=7; left=6; time=15 min", "bad",
            MARK_PRACTICE, practice),
    VERDICT("15.13", "cooling-test", "rating=7; pumped=7; left=7; time=3 min", "care",
            MARK_PRACTICE, practice),
    VERDICT("", "cooling-test", "rating=7; pumped=15; left=15", "bad", MARK_PRACTICE, practice),
    CASE("", "cooling-test", "rating=7; pumped=7; left=6", "fall", "1 psi", "0.001 psi", MARK_NONE,
         reckoned),
    REFUSED("cooling-test", "rating=7; pumped=7; left=8", "left: more than"),
    VERDICT("15.14", "antifreeze", "share=50; coldest=-20 C", "good", MARK_PRACTICE, practice),
    VERDICT("15.14", "antifreeze", "share=40; coldest=-20 C", "care", MARK_PRACTICE, practice),
    VERDICT("15.14", "antifreeze", "share=25; coldest=-20 C", "bad", MARK_PRACTICE, practice),
    CASE("15.14", "antifreeze", "share=25; coldest=-20 C", "needed", "40.2 %", "0.003",
         MARK_PRACTICE, practice),
    CASE("", "cooling-need", "power=100 hp", "least-heat", "44.7 kW", "0.1 kW", MARK_PRACTICE,
         practice),
    CASE("", "cooling-need", "power=100 hp; fuel=20 L/h", "by-fuel", "59.4 kW", "0.2 kW",
         MARK_PRACTICE, practice),
    {NULL},
};
