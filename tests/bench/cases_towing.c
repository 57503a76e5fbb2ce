#include "cases.h"

#include <stddef.h>

#define CASE(ID, CALC, GIVEN, OUT, IS, WITHIN, MARK, SOURCE)                                       \
    {                                                                                              \
        ID, CALC, GIVEN, OUT, IS, WITHIN, MARK, SOURCE                                             \
    }

static const char moments[] = "balance of moments", rule[] = "US cargo rule: half of the load",
                  counting[] = "US cargo rule: direct ties count half";

#define PICKUP "front=700; rear=500; wheelbase=2500; "
#define DRAWN  "car=900; car-rear=400; wheelbase=2250; trailer=400; drawbar=4 m; "

const struct bench_case cases_towing[] = {
    CASE("", "axle-loads", PICKUP "load=400; behind-front=2500", "on-rear", "900 kg", "0.01 kg",
         MARK_NONE, moments),
    CASE("", "axle-loads", PICKUP "load=400; behind-front=2000", "on-front", "780 kg", "0.01 kg",
         MARK_NONE, moments),
    CASE("", "axle-loads", PICKUP "nose=75; overhang=1000", "on-front", "670 kg", "0.01 kg",
         MARK_NONE, moments),
    CASE("", "axle-loads", PICKUP "nose=75; overhang=1000", "on-rear", "605 kg", "0.01 kg",
         MARK_NONE, moments),
    CASE("", "axle-loads", PICKUP "nose=75; overhang=1000; gross=1500", "payload-left", "225 kg",
         "0.01 kg", MARK_NONE, moments),
    CASE("", "axle-loads", PICKUP "load=400; behind-front=2500; rear-limit=890", "verdict", "bad",
         NULL, MARK_NONE, "the limit given"),
    CASE("", "axle-loads",
         PICKUP "load=400; behind-front=2000; front-limit=800; rear-limit=850; gross=1600",
         "verdict", "good", NULL, MARK_NONE, "the limits given"),
    CASE("", "axle-loads", PICKUP "load=600; behind-front=3200", "verdict", "care", NULL,
         MARK_PRACTICE, "a third of the weight in front"),
    CASE("", "axle-loads", PICKUP "load=3000; behind-front=4000", "refused", "load: it lifts", NULL,
         MARK_NONE, moments),
    CASE("13.04", "trailer-nose", "trailer=2000 lb; nose=220 lb", "share", "11.0 %", "0.1 %",
         MARK_NONE, "reckoned"),
    CASE("13.04", "trailer-nose", "trailer=2000 lb; nose=220 lb", "verdict", "good", NULL,
         MARK_PRACTICE, "10 to 15 %"),
    CASE("", "trailer-nose", "trailer=1000; nose=90", "verdict", "bad", NULL, MARK_PRACTICE,
         "10 to 15 %"),
    CASE("", "trailer-nose", "trailer=1000; nose=160", "verdict", "care", NULL, MARK_PRACTICE,
         "10 to 15 %"),
    CASE("", "trailer-nose", "trailer=1000; nose=-5", "verdict", "bad", NULL, MARK_PRACTICE,
         "10 to 15 %"),
    CASE("", "trailer-nose", "trailer=1000; nose=110; nose-limit=100", "verdict", "bad", NULL,
         MARK_NONE, "the limit given"),
    CASE("", "trailer-nose", "trailer=1000; nose=110; tow-limit=990", "verdict", "bad", NULL,
         MARK_NONE, "the limit given"),
    CASE("", "trailer-nose", "trailer=1000; nose=1001", "refused", "nose: more", NULL, MARK_NONE,
         ""),
    CASE("", "car-on-trailer", DRAWN, "nose", "156 kg", "0.01 kg", MARK_NONE, moments),
    CASE("", "car-on-trailer", DRAWN, "ahead", "471.1 mm", "0.1 mm", MARK_NONE, moments),
    CASE("", "car-on-trailer", DRAWN, "front-wheels", "1471.1 mm", "0.1 mm", MARK_NONE, moments),
    CASE("", "car-on-trailer", DRAWN, "rear-wheels", "1721.1 mm", "0.1 mm", MARK_NONE, moments),
    CASE("", "car-on-trailer", DRAWN "empty-nose=-200; share=25; car=50; car-rear=20", "refused",
         "share: no place", NULL, MARK_NONE, moments),
    CASE("", "payload", "gross=1350; unladen=950; people=2; luggage=60; nose=75", "left", "115 kg",
         "0.01 kg", MARK_NONE, "reckoned"),
    CASE("", "payload", "gross=1350; unladen=950; people=6", "verdict", "bad", NULL, MARK_NONE,
         "reckoned"),
    CASE("", "payload", "gross=1350; unladen=1351", "refused", "unladen: more", NULL, MARK_NONE,
         ""),
    CASE("13.01", "tie-down", "load=3000 lb; rating=3333 lb", "needed", "1500 lb", "0.001 lb",
         MARK_PUBLISHED, rule),
    CASE("13.02", "tie-down", "load=3000 lb; rating=3333 lb", "counted", "6666 lb", "0.001 lb",
         MARK_NONE, counting),
    CASE("13.02", "tie-down", "load=3000 lb; rating=3333 lb", "verdict", "good", NULL, MARK_NONE,
         counting),
    CASE("13.03", "tie-down", "load=1500; rating=1500", "pull", "8.32 kN", "1 %", MARK_NONE,
         "0.8 x 1500 x 9.807 / (2 cos 45)"),
    CASE("", "tie-down", "load=1500; rating=800", "verdict", "bad", NULL, MARK_NONE,
         "8.32 kN are 848 kg"),
    CASE("", "tie-down", "load=1500; rating=370", "verdict", "bad", NULL, MARK_NONE, counting),
    CASE("", "tie-down", "load=1500; rating=2000; ties=2", "verdict", "care", NULL, MARK_PRACTICE,
         "four ties"),
    CASE("", "tie-down", "load=1500; rating=800; way=over", "counted", "3200 kg", "0.01 kg",
         MARK_MEMORY, "49 CFR 393.106"),
    CASE("", "tie-down", "load=1500; rating=2000; ties=1; share-by=2", "refused", "share-by: more",
         NULL, MARK_NONE, ""),
    {NULL, NULL, NULL, NULL, NULL, NULL, MARK_NONE, NULL},
};
