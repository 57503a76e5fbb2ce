#include "cases.h"

#include <stddef.h>

#define CASE(ID, CALC, GIVEN, OUT, IS, WITHIN, MARK, SOURCE)                                       \
    {                                                                                              \
        ID, CALC, GIVEN, OUT, IS, WITHIN, MARK, SOURCE                                             \
    }
#define FLUID(GRADE, DRY, WET, VISCOSITY)                                                          \
    CASE("4.17", "brake-fluid", "grade=" GRADE, "dry", DRY, "0.01 C", MARK_PUBLISHED, fmvss116),   \
        CASE("4.17", "brake-fluid", "grade=" GRADE, "wet", WET, "0.01 C", MARK_PUBLISHED,          \
             fmvss116),                                                                            \
        CASE("4.18", "brake-fluid", "grade=" GRADE, "viscosity", VISCOSITY, "0.01",                \
             MARK_PUBLISHED, fmvss116)
#define VERDICT(CALC, GIVEN, IS)                                                                   \
    CASE("", CALC, GIVEN, "verdict", IS, NULL, MARK_PRACTICE, "the rule of the sum")
#define REFUSED(CALC, GIVEN, LINE)                                                                 \
    CASE("", CALC, GIVEN, "refused", LINE, NULL, MARK_PRACTICE, "bad input")

static const char lever[] = "lever and Pascal's law, reckoned", disc[] = "friction of two faces",
                  shigley[] = "Shigley, problem 16-1", shoe[] = "the same, worked on",
                  moments[] = "moments about the ground",
                  limpert[] = "Limpert's and Gillespie's form", fmvss116[] = "49 CFR 571.116",
                  memory[] = "the formula, from memory", letter[] = "NHTSA letter of 29 April 1970",
                  motion[] = "v^2 / (2 a)", uk[] = "UK brake-test notes of 2013",
                  r13[] = "UN R13 annex 4, the formula";

#define FOOT "force=100 lbf; pedal-ratio=6; "
#define SHIGLEY                                                                                    \
    "radius=150; pivot=125; width=40; from=0; to=120; friction=0.28; shoe-force=2.2 kN; "          \
    "arm=216.5"
#define SALOON   "mass=3000 lb; front-load=55 %; wheelbase=100 in; height=20 in; deceleration=0.8"
#define EUROPEAN "mass=1400; front-load=48 %; wheelbase=2.5 m; height=0.55 m; deceleration=0.6"
#define FOUR     "bore=1 in; stroke=1.2 in; front-cylinder=1 in; rear-cylinder=0.75 in; "

const struct bench_case cases_brakes[] = {
    CASE("4.01", "brake-pedal", FOOT "master=1 in", "pressure", "763.9 psi", "0.5 psi", MARK_NONE,
         lever),
    CASE("4.02", "brake-pedal", FOOT "master=7/8 in", "pressure", "997.8 psi", "0.5 psi", MARK_NONE,
         lever),
    CASE("4.02", "brake-pedal", FOOT "master=1 1/8 in", "pressure", "603.6 psi", "0.5 psi",
         MARK_NONE, lever),
    CASE("4.03", "brake-pedal", "force=400; pedal-ratio=5; master=20.64", "pressure", "5.98 MPa",
         "0.01 MPa", MARK_NONE, lever),
    CASE("4.04", "brake-pedal", FOOT "master=1 in; cylinder=2.75 in", "hydraulic-ratio", "7.56",
         "0.01", MARK_NONE, lever),
    CASE("4.05", "disc-brake", "pressure=763.9 psi; piston=2.75 in; friction=0.38; radius=4.6 in",
         "torque", "1322 lbf ft", "2 lbf ft", MARK_NONE, disc),
    CASE("4.05", "disc-brake", "pressure=763.9 psi; piston=2.75 in; friction=0.38; radius=4.6 in",
         "factor", "0.76", "0.001", MARK_NONE, disc),
    CASE("4.06", "drum-brake", SHIGLEY, "leading-pressure", "734 kPa", "0.5 %", MARK_PUBLISHED,
         shigley),
    CASE("4.06", "drum-brake", SHIGLEY, "leading-torque", "277.6 Nm", "0.5 %", MARK_NONE, shoe),
    CASE("4.06", "drum-brake", SHIGLEY, "trailing-pressure", "382 kPa", "0.5 %", MARK_NONE, shoe),
    CASE("4.06", "drum-brake", SHIGLEY, "trailing-torque", "144.4 Nm", "0.5 %", MARK_NONE, shoe),
    CASE("4.06", "drum-brake", SHIGLEY, "torque", "422 Nm", "0.5 %", MARK_NONE, shoe),
    CASE("4.06", "drum-brake", SHIGLEY, "factor", "1.28", "0.5 %", MARK_NONE, shoe),
    CASE("4.07", "brake-balance", SALOON, "transfer", "480 lb", "1 lb", MARK_NONE, moments),
    CASE("4.07", "brake-balance", SALOON, "front", "2130 lb", "1 lb", MARK_NONE, moments),
    CASE("4.07", "brake-balance", SALOON, "rear", "870 lb", "1 lb", MARK_NONE, moments),
    CASE("4.07", "brake-balance", SALOON, "ideal-front", "71 %", "0.1 %", MARK_NONE, moments),
    CASE("4.08", "brake-balance", EUROPEAN, "ideal-front", "0.612", "0.001", MARK_NONE, limpert),
    CASE("4.08", "brake-balance", EUROPEAN "; front-brakes=68 %", "lock-together", "0.909 g",
         "0.001 g", MARK_NONE, limpert),
    CASE("4.09", "brake-rule", "place=un; year=2000; speed=100", "limit", "70 m", "0.05 m",
         MARK_MEMORY, memory),
    CASE("4.09", "brake-rule", "place=un; year=2000; speed=80", "limit", "46.4 m", "0.05 m",
         MARK_MEMORY, memory),
    CASE("4.09", "brake-rule", "place=us; year=2003; speed=50", "limit", "20 m", "0.05 m",
         MARK_MEMORY, memory),
    CASE("4.10", "brake-rule", "place=us; year=1970; speed=60 mph", "limit", "193.6 ft", "0.5 ft",
         MARK_PUBLISHED, letter),
    CASE("4.10", "stopping-distance", "speed=60 mph; deceleration=20 ft/s2; reaction=0", "distance",
         "194 ft", "0.5 ft", MARK_PUBLISHED, letter),
    CASE("4.11", "stopping-distance", "speed=60 mph; deceleration=0.7; reaction=0", "distance",
         "171.9 ft", "0.3 ft", MARK_NONE, motion),
    CASE("4.12", "brake-road-test", "speed=100; to-eight-tenths=28; to-one-tenth=66",
         "deceleration", "6.40 m/s2", "0.01 m/s2", MARK_NONE, r13),
    CASE("4.13", "park-brake", "mass=1500; grade=20", "hold", "2885 N", "3 N", MARK_NONE,
         "weight x sine"),
    CASE("4.13", "park-brake", "mass=1500; grade=20 %", "angle", "11.31 deg", "0.01 deg", MARK_NONE,
         "weight x sine"),
    CASE("4.14", "roller-test", "total=3200; mass=1100", "efficiency", "29.7 %", "0.001", MARK_NONE,
         uk),
    CASE("4.14", "roller-test", "total=3200; mass=1100", "verdict", "bad", NULL, MARK_NONE, uk),
    CASE("4.15", "roller-test", "left=1500; right=1100", "imbalance", "26.7 %", "0.001", MARK_NONE,
         uk),
    CASE("4.15", "roller-test", "left=1500; right=1100", "verdict", "care", NULL, MARK_PUBLISHED,
         uk),
    CASE("4.15", "roller-test", "left=1500; right=1040", "verdict", "bad", NULL, MARK_PUBLISHED,
         uk),
    CASE("4.16", "master-cylinder", "bore=1 in; stroke=1 in", "displacement", "0.785 in3", "0.5 %",
         MARK_NONE, "area x stroke"),
    CASE("4.16", "master-cylinder", "bore=1 in; stroke=1 in", "displacement", "12.87 mL", "0.5 %",
         MARK_NONE, "area x stroke"),
    FLUID("DOT 3", "205 C", "140 C", "1500"),
    FLUID("DOT 4", "230 C", "155 C", "1800"),
    FLUID("DOT 5", "260 C", "180 C", "900"),
    FLUID("DOT 5.1", "260 C", "180 C", "900"),
    CASE("4.19", "brake-rule", "place=uk; year=2011", "service", "58 %", "0.0001", MARK_PUBLISHED,
         uk),
    CASE("4.19", "brake-rule", "place=uk; year=1975", "service", "50 %", "0.0001", MARK_MEMORY,
         "UK test, from memory"),
    CASE("4.19", "brake-rule", "place=uk; year=1955", "parking", "15 %", "0.0001", MARK_MEMORY,
         "UK test, from memory"),

    /* What follows from the formulas at their ends. */
    CASE("", "brake-balance", EUROPEAN "; front-brakes=68 %; grip=0.9090909", "first-lock",
         "0.909 g", "0.001 g", MARK_NONE, "where both lock, either locks at the grip"),
    CASE("", "brake-balance", EUROPEAN "; front-brakes=61.2 %", "rear-grip", "0.6", "0.0001",
         MARK_NONE, "the ideal share uses both alike"),
    CASE("", "park-brake", "mass=1500; force=2884.9", "steepest", "20 %", "0.1 %", MARK_NONE,
         "weight x sine"),
    CASE("", "master-cylinder", FOUR "wear=0.5", "pedal-travel", "46.875 mm", "0.01 mm", MARK_NONE,
         "4 x (1 + 0.5625) x 1.5 mm x the pedal ratio, 5"),
    CASE("", "drum-brake", SHIGLEY "; shoes=two-leading", "torque", "555.2 Nm", "0.5 %", MARK_NONE,
         shoe),
    CASE("", "drum-brake", SHIGLEY "; shoes=two-trailing", "torque", "288.8 Nm", "0.5 %", MARK_NONE,
         shoe),
    VERDICT("brake-balance", EUROPEAN "; front-brakes=55 %", "bad"),
    VERDICT("brake-balance", EUROPEAN "; front-brakes=68 %", "good"),
    VERDICT("brake-balance", EUROPEAN "; front-brakes=90 %", "care"),
    VERDICT("brake-fluid", "grade=dot5; in-system=dot4", "bad"),
    VERDICT("brake-fluid", "grade=dot5.1; in-system=dot3", "good"),
    VERDICT("brake-fluid", "grade=dot4; in-system=mineral", "bad"),
    VERDICT("brake-fluid", "grade=dot4; in-system=unknown", "care"),
    VERDICT("brake-fluid", "boils-at=150 C", "bad"),
    VERDICT("brake-fluid", "boils-at=160 C", "care"),
    VERDICT("brake-fluid", "boils-at=225 C", "good"),
    VERDICT("brake-pedal", "force=700; master=25", "care"),
    VERDICT("brake-pedal", "force=300; booster=4; master=20", "care"),
    VERDICT("brake-rule", "place=un; year=2000; stopped-in=70", "good"),
    VERDICT("brake-rule", "place=un; year=2000; stopped-in=71", "bad"),
    VERDICT("brake-rule", "place=un; year=1990; stopped-in=76", "good"),
    VERDICT("brake-rule", "place=uk; year=1965; efficiency=41", "good"),
    VERDICT("brake-rule", "place=uk; year=1969; efficiency=41", "bad"),
    VERDICT("brake-road-test", "speed=100; to-eight-tenths=28; to-one-tenth=66", "good"),
    VERDICT("brake-road-test", "speed=100; to-eight-tenths=28; to-one-tenth=80", "bad"),
    VERDICT("master-cylinder", FOUR, "good"),
    VERDICT("master-cylinder", FOUR "wear=3", "care"),
    VERDICT("master-cylinder", FOUR "wear=4.5", "bad"),
    VERDICT("park-brake", "mass=1500; force=2800", "bad"),
    VERDICT("park-brake", "mass=1500; force=3000", "care"),
    VERDICT("park-brake", "mass=1500; force=4000", "good"),
    VERDICT("park-brake", "mass=1500; force=4000; axle-load=400", "bad"),

    REFUSED("brake-pedal", "force=0; master=20", "force: 0 is outside"),
    REFUSED("brake-pedal", "force=-5; master=20", "force: -5 is outside"),
    REFUSED("brake-pedal", "force=300; master=20 psi", "master: "),
    REFUSED("disc-brake", "pressure=50; piston=54; pistons=1.5; radius=110", "pistons: a whole"),
    REFUSED("drum-brake", SHIGLEY "; pivot=60; friction=0.6", "friction: a leading shoe grabs"),
    REFUSED("drum-brake", "radius=150; pivot=160; width=40; arm=216; shoe-force=2000", "pivot: "),
    REFUSED("drum-brake", "radius=150; pivot=120; width=40; arm=216", "shoe-force: not given"),
    REFUSED("drum-brake", "radius=150; pivot=120; width=40; arm=216; shoe-force=2000; pressure=50",
            "shoe-force: give it"),
    REFUSED("drum-brake", SHIGLEY "; from=70; to=60", "to: the lining ends"),
    REFUSED("brake-balance",
            "mass=300; front-load=40 %; wheelbase=1300; height=800; deceleration=1.1",
            "deceleration: the rear wheels lift at 0.97 g"),
    REFUSED("brake-rule", "place=us; year=1950", "year: no rule"),
    REFUSED("brake-rule", "place=uk; year=1990; stopped-in=60", "stopped-in: "),
    REFUSED("brake-rule", "place=un; year=1990; efficiency=60", "efficiency: "),
    REFUSED("brake-road-test", "speed=100; to-eight-tenths=66; to-one-tenth=28", "to-one-tenth: "),
    REFUSED("brake-road-test", "speed=100; to-eight-tenths=28; to-one-tenth=38",
            "to-one-tenth: that is"),
    REFUSED("roller-test", "", "left: nothing measured"),
    REFUSED("roller-test", "left=0; right=0", "left: neither"),
    REFUSED("roller-test", "left=1000", "right: "),
    REFUSED("roller-test", "total=1000", "mass: "),
    REFUSED("park-brake", "mass=1000; axle-load=1200", "axle-load: "),
    {.calc = NULL},
};
