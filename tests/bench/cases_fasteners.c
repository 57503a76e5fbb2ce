#include "cases.h"

#include <stddef.h>

static const char iso898[] = "ISO 898-1, load tables", j429[] = "SAE J429, reckoned",
                  shigley[] = "Shigley, Mechanical Engineering Design", din8140[] = "DIN 8140",
                  memory[] = "from memory, by 60 degree geometry",
                  h28[] = "FED-STD-H28/2 formula, reckoned";

#define STRENGTH(ID, T, G, OUT, IS, WITHIN, MARK, SOURCE)                                          \
    {                                                                                              \
        ID, "bolt-strength", "thread=" T "; grade=" G, OUT, IS, WITHIN, MARK, SOURCE               \
    }
#define INSERT(ID, GIVEN, OUT, IS, WITHIN, MARK, SOURCE)                                           \
    {                                                                                              \
        ID, "coil-insert", "thread=" GIVEN, OUT, IS, WITHIN, MARK, SOURCE                          \
    }
#define STUD(ID, T, OUT, IS, WITHIN, SOURCE)                                                       \
    {                                                                                              \
        ID, "broken-stud", "thread=" T, OUT, IS, WITHIN, MARK_NONE, SOURCE                         \
    }
#define JOINT                                                                                      \
    "bolt-stiffness=6.5; member-stiffness=13.8; load=6000 lbf; preload=25000 lbf; "                \
    "stress-area=0.373 in2"
#define HOLE_AND_SCREW                                                                             \
    "thread=3/8-16; screw-strength=120000 psi; hole-strength=45000 psi; hole-minor-most=0.321 "    \
    "in; "                                                                                         \
    "screw-pitch-least=0.3287 in; screw-major-least=0.3643 in; hole-pitch-most=0.3401 in"

const struct bench_case cases_fasteners[] = {
    STRENGTH("1.19", "3/8-16", "grade-5", "proof-load", "6590 lbf", "0.5 %", MARK_NONE, j429),
    STRENGTH("1.20", "M8", "8.8", "proof-load", "21200 N", "0.3 %", MARK_PUBLISHED, iso898),
    STRENGTH("1.20", "M10", "10.9", "proof-load", "48100 N", "0.3 %", MARK_PUBLISHED, iso898),
    STRENGTH("1.20", "M12", "8.8", "proof-load", "48900 N", "0.3 %", MARK_PUBLISHED, iso898),
    STRENGTH("1.21", "M8", "8.8", "ultimate-load", "29200 N", "0.3 %", MARK_PUBLISHED, iso898),
    STRENGTH("1.21", "M10", "10.9", "ultimate-load", "60300 N", "0.3 %", MARK_PUBLISHED, iso898),
    STRENGTH("", "M6", "12.9", "proof-load", "19500 N", "0.3 %", MARK_PUBLISHED, iso898),
    STRENGTH("", "M14", "10.9", "proof-load", "95500 N", "0.5 %", MARK_PUBLISHED, iso898),
    STRENGTH("", "M16", "12.9", "proof-load", "152000 N", "0.3 %", MARK_PUBLISHED, iso898),
    STRENGTH("", "M18", "4.8", "refused", "grade: 4.8 is not made", NULL, MARK_NONE, "too thick"),
    {"1.22", "bolt-torque", "thread=3/4-16; grade=grade 5; preload=25000 lbf; k=0.2", "torque",
     "3750 lbf in", "1 lbf in", MARK_NONE, shigley},
    {"1.23", "torque-by-friction", "thread=3/4-16; preload=25000 lbf", "torque", "3551 lbf in",
     "5 lbf in", MARK_NONE, shigley},
    {"1.24", "bolted-joint", JOINT, "stiffness-share", "0.320", "0.001", MARK_PUBLISHED, shigley},
    {"1.24", "bolted-joint", JOINT, "preload-stress", "67020 psi", "50 psi", MARK_PUBLISHED,
     shigley},
    {"1.24", "bolted-joint", JOINT, "bolt-stress", "72170 psi", "50 psi", MARK_PUBLISHED, shigley},
    {"1.25", "bolt-torque", "thread=3/8-24; grade=grade-5; state=lubricated", "torque",
     "378 lbf in", "1 lbf in", MARK_PUBLISHED, shigley},
    {"1.25", "bolt-torque", "thread=3/8-24; grade=grade-5; state=lubricated", "tension", "5597 lbf",
     "5 lbf", MARK_PUBLISHED, shigley},
    {"1.26", "bolt-torque", "thread=M10; grade=8.8; k=0.2", "torque", "50.6 Nm", "0.3 Nm",
     MARK_NONE, "ISO 898-1, reckoned"},
    {"", "bolt-preload", "thread=M10; grade=8.8; k=0.2; torque=50.46 Nm", "proof-share", "75 %",
     "0.1 %", MARK_NONE, "the case before, backwards"},
    {"", "bolt-preload", "thread=M8; torque=60 Nm; state=anti-seize", "verdict", "bad", NULL,
     MARK_NONE, "far over the proof load"},
    {"1.27", "engagement", "thread=1/4-20; hole-minor-most=0.2070 in; screw-pitch-least=0.2127 in",
     "screw-length", "0.173 in", "0.002 in", MARK_NONE, h28},
    {"1.28", "engagement", HOLE_AND_SCREW, "screw-length", "0.269 in", "2 %", MARK_NONE, h28},
    {"1.28", "engagement", HOLE_AND_SCREW, "weakness", "1.85", "2 %", MARK_NONE, h28},
    {"1.28", "engagement", HOLE_AND_SCREW, "length", "0.50 in", "2 %", MARK_NONE, h28},
    {"", "engagement", "thread=M8; hole-minor-most=9", "refused", "hole-minor-most: ", NULL,
     MARK_NONE, "larger than the screw"},
    INSERT("1.12", "1/4-20", "minor", "0.2608 in", "0.0002 in", MARK_MEMORY, memory),
    INSERT("1.12", "1/4-20", "pitch-diameter", "0.2825 in", "0.0002 in", MARK_MEMORY, memory),
    INSERT("1.12", "1/4-20", "major", "0.3150 in", "0.0002 in", MARK_MEMORY, memory),
    INSERT("1.12", "1/4-20", "standard-drill", "17/64 in", NULL, MARK_MEMORY, memory),
    INSERT("1.13", "5/16-18", "minor", "0.3245 in", "0.0002 in", MARK_MEMORY, memory),
    INSERT("1.13", "5/16-18", "drill-size", "0.3320 in", "0.0002 in", MARK_MEMORY, memory),
    INSERT("1.14", "3/8-16", "minor", "0.3885 in", "0.0002 in", MARK_MEMORY, memory),
    INSERT("1.14", "3/8-16", "drill-size", "0.3970 in", "0.0002 in", MARK_MEMORY, memory),
    INSERT("1.15", "7/16-14", "minor", "0.4530 in", "0.0002 in", MARK_MEMORY, memory),
    INSERT("1.15", "7/16-14", "drill-size", "0.4531 in", "0.0002 in", MARK_MEMORY, memory),
    INSERT("1.16", "M6", "standard-drill", "6.3 mm", NULL, MARK_PUBLISHED, din8140),
    INSERT("1.16", "M8", "standard-drill", "8.4 mm", NULL, MARK_PUBLISHED, din8140),
    INSERT("1.16", "M10", "standard-drill", "10.5 mm", NULL, MARK_PUBLISHED, din8140),
    INSERT("1.16", "M6", "minor", "6.217 mm", "0.001 mm", MARK_NONE, memory),
    INSERT("1.16", "M8", "minor", "8.271 mm", "0.001 mm", MARK_NONE, memory),
    INSERT("1.16", "M10", "minor", "10.325 mm", "0.001 mm", MARK_NONE, memory),
    INSERT("", "M10; drill=10.25", "verdict", "bad", NULL, MARK_NONE, "under the least hole"),
    INSERT("1.17", "M8; length=12 mm", "drilled-depth", "23.5 mm", "0.05 mm", MARK_PUBLISHED,
           "Machinery's Handbook; coil insert hole notes"),
    INSERT("1.17", "M8; length=12 mm", "tapped-depth", "13.25 mm", "0.05 mm", MARK_PUBLISHED,
           "Machinery's Handbook; coil insert hole notes"),
    INSERT("1.18", "1/4-20; length=0.375 in", "tapped-depth", "0.425 in", "0.005 in",
           MARK_PUBLISHED, "ASME B18.29.1, drawing example"),
    INSERT("", "1/4 BSF", "refused", "thread: these sizes", NULL, MARK_NONE, "another form"),
    STUD("14.01", "M8", "chase-drill", "6.8 mm", NULL, din8140),
    STUD("14.01", "M8", "insert-drill", "8.4 mm", NULL, din8140),
    STUD("14.01", "M8", "hides", "0.20 mm", "0.001 mm", din8140),
    STUD("14.02", "M6", "chase-drill", "5 mm", NULL, din8140),
    STUD("14.02", "M6", "insert-drill", "6.3 mm", NULL, din8140),
    STUD("14.02", "M6", "hides", "0.15 mm", "0.001 mm", din8140),
    STUD("14.03", "M10", "chase-drill", "8.5 mm", NULL, din8140),
    STUD("14.03", "M10", "insert-drill", "10.5 mm", NULL, din8140),
    STUD("14.03", "M10", "hides", "0.25 mm", "0.001 mm", din8140),
    STUD("14.04", "3/8-16", "chase-drill", "5/16 in", NULL, memory),
    STUD("14.04", "3/8-16", "insert-drill", "letter X", NULL, memory),
    STUD("14.04", "3/8-16", "hides", "0.011 in", "0.0001 in", memory),
    STUD("", "M8", "punch", "centre punch on a face made flat, within 0.2 mm of the middle", NULL,
         din8140),
    STUD("", "M8", "pilot-drill", "2 mm", NULL, din8140),
    STUD("", "M8", "first-drill", "4 mm", NULL, din8140),
    STUD("", "M8", "tap", "M8x1.25", NULL, din8140),
    STUD("", "M8", "insert-tap", "coil-insert tap for M8x1.25, 9.62 mm over its threads", NULL,
         din8140),
    STUD("14.05", "M8", "note", "If a stud breaks while its nut is hot and the block cold: stop",
         NULL, "trade practice"),
    STUD("", "M8; offset=0.3", "verdict", "bad", NULL, "over what the insert hides"),
    {NULL, NULL, NULL, NULL, NULL, NULL, MARK_NONE, NULL},
};
