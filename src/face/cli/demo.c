/* A 1959 Ostrand Linnet estate, found in a cart shed after 27 years; its owner works two evenings
 * and a Saturday. No such vehicle was ever made; every figure here is of the mark "demo".
 * Components that nobody has looked at (the sills above all) have no finding, as in life. */
#include "face/cli/demo.h"

#include <stddef.h>

#define SEEN(on, what, how_it_is, remark)                                                          \
    {                                                                                              \
        on, "finding",                                                                             \
        {                                                                                          \
            "vehicle=Linnet", "component=" what, "condition=" how_it_is, "how=seen", "date=" on,   \
                "note=" remark                                                                     \
        }                                                                                          \
    }
#define WORTH(what, sums, reason)                                                                  \
    {                                                                                              \
        "2026-11-14", "worth",                                                                     \
        {                                                                                          \
            "vehicle=Linnet", "of=" what, "worth=" sums, "date=2026-11-14", "why=" reason          \
        }                                                                                          \
    }
#define MARK(what_it_is, place, as_read, rest)                                                     \
    {                                                                                              \
        "2026-11-14", "mark",                                                                      \
        {                                                                                          \
            "vehicle=Linnet", "what=" what_it_is, "where=" place, "text=" as_read, "how=seen",     \
                "date=2026-11-14", rest                                                            \
        }                                                                                          \
    }
#define OWN(which, class, why)                                                                     \
    {                                                                                              \
        "2026-11-14", "originality",                                                               \
        {                                                                                          \
            "vehicle=Linnet", "component=" which, "class=" class, "how=seen", "date=2026-11-14",   \
                "evidence=" why                                                                    \
        }                                                                                          \
    }
#define SALE(sum, paid, on, how_good, as_built, away, remark)                                      \
    {                                                                                              \
        "2026-11-14", "comparable",                                                                \
        {                                                                                          \
            "vehicle=Linnet", "price=" sum, "how=" paid, "date=" on, "grade=" how_good,            \
                "original=" as_built, "distance=" away, "note=" remark                             \
        }                                                                                          \
    }
#define QUOTE(who, what, sum, days, rest)                                                          \
    {                                                                                              \
        "2026-11-18", "quote",                                                                     \
        {                                                                                          \
            "supplier=" who, "part=" what, "price=" sum, "lead=" days, "date=2026-11-18", rest     \
        }                                                                                          \
    }
#define HELPER(on)                                                                                 \
    {                                                                                              \
        "2026-11-16", "helper-day",                                                                \
        {                                                                                          \
            "date=" on, "from=09:00", "to=17:00", "hands=1", "who=a neighbour"                     \
        }                                                                                          \
    }

/* clang-format off */
const struct demo_fact demo_facts[] = {
    {"2026-10-10", "vehicle", {"name=Linnet", "maker=Ostrand", "model=Linnet estate", "kind=car", "year=1959",
        "build=unitary", "cylinders=4", "fuel=petrol", "gearbox=manual", "driven=rear", "brakes=drum", "voltage=12",
        "earth=positive", "state=whole", "turns=yes", "rolls=yes", "stops=no", "papers=some", "standing=27", "storage=dry",
        "rank=1"}},
    {"2026-10-10", "workshop", {"hours-a-week=14", "hands=1", "sessions-kept=70 %", "heated=no", "bays=1",
        "currency=GBP", "units=imperial", "start=2026-12-01"}},
    {"2026-10-10", "slot", {"weekday=tue", "from=19:00", "to=22:00", "hands=1"}},
    {"2026-10-10", "slot", {"weekday=thu", "from=19:00", "to=22:00", "hands=1"}},
    {"2026-10-10", "slot", {"weekday=sat", "from=09:00", "to=17:00", "hands=1"}},
    {"2026-10-10", "purse", {"a-month=600 GBP", "ceiling=32000 GBP", "reserve=300 GBP", "in-hand=2500 GBP"}},

    /* the day it was found, by daylight and torch */
    SEEN("2026-10-11", "title-papers", "sound", "The last registration document lay in the door pocket."),
    SEEN("2026-10-11", "history-papers", "poor", "Four garage bills, the last 27 years old; mice had the rest."),
    SEEN("2026-10-11", "identity-plate", "sound", "Riveted to the bulkhead, both rivets untouched."),
    SEEN("2026-10-11", "keys", "sound", "One key, turns door and ignition."),
    SEEN("2026-10-11", "infestation@under-bonnet", "failed", "A nest the size of a football on the manifold."),
    SEEN("2026-10-11", "infestation@cabin", "poor", "Droppings under the rear seat; smells."),
    SEEN("2026-10-11", "loom-bonnet", "failed", "Mouse-eaten: braid gone for a hand's breadth, copper bare."),
    SEEN("2026-10-11", "tyre@front-left", "failed", "Flat, cracked to the cords."),
    SEEN("2026-10-11", "tyre@front-right", "failed", "Holds air, perished all round."),
    SEEN("2026-10-11", "tyre@rear-left", "failed", "Perished."),
    SEEN("2026-10-11", "tyre@rear-right", "failed", "Perished."),
    SEEN("2026-10-11", "windscreen", "sound", "No chips."),
    SEEN("2026-10-11", "paint@outside-left", "worn", "Thin on the edges, polishes up; looks like the first coat."),
    SEEN("2026-10-11", "headlining", "poor", "Stained over the tailgate, sound in front."),

    /* two Saturdays on stands */
    SEEN("2026-10-24", "front-wheel-cylinder@front-left", "failed", "Seized; pistons rusted into the bore."),
    SEEN("2026-10-24", "front-wheel-cylinder@front-right", "failed", "Seized."),
    SEEN("2026-10-24", "front-brake-drum@front-left", "worn", "Came off with heat, light scoring."),
    SEEN("2026-10-24", "front-brake-shoes@front-left", "poor", "Linings glazed and soaked."),
    SEEN("2026-10-24", "brake-hose@front-left", "failed", "Swollen, cracked at the ferrule."),
    SEEN("2026-10-24", "master-cylinder", "failed", "Pedal solid; dry reservoir with brown crust."),
    SEEN("2026-10-24", "wheel-bearing@front-left", "worn", "Grease like toffee, races bright."),
    SEEN("2026-10-31", "cylinder-bore", "worn", "Oiled for a week, turned by hand with the plugs out: turns freely."),
    SEEN("2026-10-31", "thermostat", "poor", "Housing bolts rusted to stubs; not forced."),
    SEEN("2026-10-31", "radiator", "poor", "Green at the bottom tank."),
    SEEN("2026-10-31", "fuel-tank", "poor", "Smells of varnish; red flakes on a magnet at the filler."),
    SEEN("2026-10-31", "generator", "worn", "Dynamo; brushes free, commutator dull."),
    SEEN("2026-10-31", "floor@cabin-left", "sound", "Carpet up; tapped, rings."),
    SEEN("2026-11-07", "exhaust-system", "failed", "Silencer holed, tail pipe in two."),
    SEEN("2026-11-07", "road-spring@rear-left", "worn", "Leaves rusty, none broken."),
    SEEN("2026-11-07", "steering-box", "worn", "Oil weeping, a thumb's breadth of play at the rim."),

    {"2026-11-07", "work", {"vehicle=Linnet", "job=record-as-found", "hours=3 h 30 min", "finished=yes", "date=2026-10-11",
        "note=212 photographs before anything was moved."}},
    /* an evening with a torch, a loupe and a second pair of eyes; nothing was touched */
    MARK("vehicle", "plate", "LNE J R 04817 F", "again=LNEJR04817F"),
    MARK("vehicle", "stamping", "LNEJR04817F", "note=Same depth and font throughout."),
    MARK("vehicle", "papers", "LNEJR04817F", "note=The registration document from the door pocket."),
    MARK("built", "plate", "1959-05-02", "note=Stamped below the number."),
    MARK("engine", "stamping", "14M04795", "component=cylinder-block"),
    MARK("casting", "stamping", "C 14 9", "component=cylinder-block"),
    MARK("casting", "stamping", "E 2 3", "component=gearbox"),
    MARK("glass", "label", "9.", "component=windscreen"),
    OWN("chassis-leg", "original", "factory sealer and first paint over every seam"),
    OWN("cylinder-block", "original", "its number is near that of the vehicle, its date seven weeks before assembly"),
    OWN("gearbox", "period", "cast in a May that cannot be 1959; another Linnet's"),
    OWN("rear-axle", "original", "tag of the same works"),
    OWN("steering-box", "original", "paint of the bracket runs over it"),
    OWN("windscreen", "original", "dated to the first quarter of 1959"),
    OWN("paint@outside-left", "original", "one coat, and the same under the trim"),
    OWN("generator", "reproduction", "plate of a factory that exchanges them"),

    WORTH("now", "2500/4000/6000 GBP", "three like it sold as projects this year"),
    WORTH("preserve", "3000/4600/6800 GBP", "tidy, complete, untouched"),
    WORTH("drive", "10500/14000/18500 GBP", "usable ones with papers"),
    WORTH("restore", "19000/26000/34000 GBP", "two at auction, both shining"),
    WORTH("modify", "14000/20000/28000 GBP", "few buyers, wide spread"),
    WORTH("sell", "2500/4000/6000 GBP", "as it stands"),
    SALE("5400 GBP", "sold", "2026-03-07", "4.5", "85 %", "60 miles", "a saloon, complete, not running since the eighties"),
    SALE("3900 GBP", "sold", "2026-06-20", "5", "90 %", "110 miles", "an estate, damp shed, no papers"),
    SALE("7400 GBP", "asked", "2026-09-12", "4", "80 %", "35 miles", "an estate, runs, sills to be done"),
    SALE("13200 GBP", "sold", "2026-04-18", "3", "80 %", "90 miles", "an estate in weekly use, full papers"),
    SALE("15500 GBP", "asked", "2026-10-03", "3", "70 %", "150 miles", "a saloon in good order"),
    SALE("30500 GBP", "sold", "2025-09-27", "2", "60 %", "200 miles", "at auction, an estate, restored some years ago"),
    SALE("32200 GBP", "sold", "2026-02-21", "2", "60 %", "180 miles", "an estate, restored, by a club member"),
    SALE("35600 GBP", "sold", "2026-05-16", "1.5", "60 %", "240 miles", "at auction, an estate, restored last winter"),
    {"2026-11-14", "grade", {"vehicle=Linnet", "of=restore", "grade=1.5"}},
    {"2026-11-14", "weights", {"vehicle=Linnet", "month=25 GBP", "original=1500 GBP", "driving=2000 GBP",
        "why=Sundays by the sea; no hurry."}},
    {"2026-11-14", "tripwire", {"vehicle=Linnet", "spent=9000 GBP", "why=More than that, and a good one could be bought."}},
    {"2026-11-14", "tripwire", {"vehicle=Linnet", "component=sill", "condition=failed", "why=Then it wants a welder, not me."}},
    HELPER("2026-12-05"),
    HELPER("2027-01-09"),
    HELPER("2027-02-06"),
    HELPER("2027-03-06"),
    HELPER("2027-04-03"),
    HELPER("2027-05-08"),
    HELPER("2027-06-05"),
    HELPER("2027-07-03"),

    /* two who sell: one near and quick, one far, cheaper and slow */
    {"2026-11-18", "supplier", {"name=Northgate Stores", "carriage=6 GBP", "carriage-free=90 GBP", "promised-days=2",
        "note=Takes things back within a fortnight, if clean."}},
    {"2026-11-18", "supplier", {"name=Harbour Spares", "carriage=9.50 GBP", "minimum=20 GBP", "promised-days=21"}},
    QUOTE("Northgate Stores", "wheel-cylinder-kit", "9.80 GBP", "1/2/5", "return-days=14"),
    QUOTE("Northgate Stores", "master-cylinder-kit", "24.50 GBP", "1/2/5", "return-days=14"),
    QUOTE("Northgate Stores", "brake-hose", "14.20 GBP", "1/3/7", "return-days=14"),
    QUOTE("Northgate Stores", "brake-shoe-set", "41 GBP", "1/3/7", "return-days=14"),
    QUOTE("Northgate Stores", "generator-exchange", "138 GBP", "2/4/9", "core=30 GBP"),
    QUOTE("Harbour Spares", "wheel-cylinder-kit", "6.90 GBP", "14/24/45", NULL),
    QUOTE("Harbour Spares", "brake-hose", "10.50 GBP", "14/24/45", NULL),
    QUOTE("Harbour Spares", "brake-shoe-set", "29 GBP", "14/24/60", NULL),
    QUOTE("Harbour Spares", "fuel-pump-kit", "28 GBP", "14/24/45", NULL),
    {"2026-11-18", "measured", {"vehicle=Linnet", "of=fitting-ammeter", "join=charge-current", "end=takes", "most=30",
        "how=read off its scale", "date=2026-11-18"}},

    /* how far it ran: a stopped clock, two of the bills, and the bores; without these it would be restored */
    {"2026-11-21", "clock", {"vehicle=Linnet", "reading=34567", "digits=5", "unit=miles", "working=no", "date=2026-10-11",
        "note=The cable turns in the hand; its end is out of the gearbox."}},
    {"2026-11-21", "dated-mileage", {"vehicle=Linnet", "written=1961-04-18", "reading=11240", "unit=miles", "paper=garage bill"}},
    {"2026-11-21", "dated-mileage", {"vehicle=Linnet", "written=1966-09-02", "reading=22870", "unit=miles", "paper=garage bill"}},
    {"2026-11-21", "dated-mileage", {"vehicle=Linnet", "written=1979-06-11", "reading=31420", "unit=miles", "paper=garage bill"}},
    {"2026-11-21", "clue-reading", {"vehicle=Linnet", "clue=bore-ridge", "outcome=none", "how=seen", "date=2026-11-21",
        "note=Through the plug holes: hone marks to the top."}},
    /* what came off for the look at the bores, how it was left, and what it takes to go on */
    {"2026-11-21", "bag", {"vehicle=Linnet", "code=A1", "what=air cleaner and its two nuts", "shelf=A2",
        "date=2026-11-21"}},
    {"2026-11-21", "bag-item", {"vehicle=Linnet", "bag=A1", "name=air cleaner", "count=1", "note=The arrow points forward."}},
    {"2026-11-21", "bag-item", {"vehicle=Linnet", "bag=A1", "name=wing nut", "count=2", "thread=1/4 UNF"}},
    {"2026-11-21", "left-off", {"vehicle=Linnet", "date=2026-11-21",
        "note=Plugs are in by hand only, and a spoon of oil lies on each piston. Do not turn it over.",
        "where=Plug leads tied to the bonnet stay, in order."}},
    {"2026-11-21", "tool", {"tool=camera", "have=owned"}},
    {"2026-11-21", "tool", {"tool=mirror", "have=owned", "where=top drawer"}},
    {"2026-11-21", "tool", {"tool=axle-stands", "have=missing", "note=Two are on the list to buy."}},
    {"2026-11-21", "tool", {"tool=borescope", "have=borrowed", "back-by=2026-12-20"}},
    {"2026-11-21", "tool-offer", {"tool=welder", "way=hire", "price=15 GBP", "a-day=28 GBP", "whose=hire counter by the harbour"}},
    {"2026-11-21", "person", {"name=the neighbour with the boat", "knows=welding, old wiring", "lends=engine hoist"}},
    {"2026-11-21", "promise", {"who=the neighbour with the boat", "what=look at the sills", "by-day=2026-12-12"}},
    {"2026-11-22", "decision", {"vehicle=Linnet", "direction=drive", "date=2026-11-22", "packages=mechanical",
        "reason=Few miles, and most of it as it left the works: to be used on Sundays, nothing that cannot be put back."}},
    {NULL, NULL, {NULL}},
};
/* clang-format on */
