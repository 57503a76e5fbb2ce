-- schema.sql - the tables of a garage as they are now (PRAGMA user_version).
--
-- The journal is the truth; the tables of records below it are a projection, made again by replaying it
-- (garage_rebuild) and held against it by garage_check. docs/data-format.md tells what an entry holds.
-- A column of a record follows from its field in kinds.c, and tests/garage/test_schema.c holds the two
-- together: '-' becomes '_', and
--   text, choice, day, parent   TEXT           yes, clock, integer   INTEGER (clock: minutes of the day)
--   number                      REAL           quantity              x_typed TEXT, x REAL in SI units
--   money                       x_minor INTEGER, x_currency TEXT
--   points                      x_low, x_middle, x_high REAL
--   money points                x_low, x_middle, x_high INTEGER in minor units, x_currency TEXT
-- NULL is "not known". Names that are words of SQL stand in double quotes.

-- name 'time-zone': IANA name of the zone in which the builder's days and clock times are meant.
CREATE TABLE meta (
    name  TEXT PRIMARY KEY,
    value TEXT NOT NULL
) STRICT;

CREATE TABLE journal (
    number   INTEGER PRIMARY KEY,           -- 1, 2, ... over all chains, in order of writing
    chain    TEXT NOT NULL,                 -- id of a vehicle, or 'garage'
    sequence INTEGER NOT NULL,              -- 1, 2, ... in the chain
    entry    BLOB NOT NULL,                 -- UTF-8 JSON; these bytes are what is hashed
    hash     BLOB NOT NULL CHECK (length(hash) = 32),   -- SHA-256 of entry
    salt     BLOB CHECK (length(salt) = 16),
    private  TEXT,                          -- JSON of the private fields; NULL: none, or left out
    UNIQUE (chain, sequence),
    CHECK ((salt IS NULL) = (private IS NULL))
) STRICT;

-- Facts are permanent: what was written stays, and a correction is a new entry.
CREATE TRIGGER journal_keep_update BEFORE UPDATE ON journal
BEGIN SELECT raise(ABORT, 'the journal is never changed'); END;
CREATE TRIGGER journal_keep_delete BEFORE DELETE ON journal
BEGIN SELECT raise(ABORT, 'the journal is never shortened'); END;

-- Every table of records begins alike: the number of the record's first entry, which gives the order "oldest
-- first"; 128 random bits in hex; how often it was written; and when last, UTC.

CREATE TABLE vehicle (
    number    INTEGER PRIMARY KEY,
    id        TEXT NOT NULL UNIQUE,
    revision  INTEGER NOT NULL,
    at        TEXT NOT NULL,
    name      TEXT NOT NULL,
    kind      TEXT,
    year      INTEGER,
    build     TEXT,
    cylinders TEXT,
    fuel      TEXT,
    gearbox   TEXT,
    driven    TEXT,
    brakes    TEXT,
    voltage   TEXT,
    earth     TEXT,
    state     TEXT,
    turns     INTEGER,
    rolls     INTEGER,
    stops     INTEGER,
    papers    TEXT,
    standing  REAL,
    storage   TEXT,
    clock_typed TEXT,
    clock     REAL,
    rank      INTEGER,
    maker     TEXT,
    model     TEXT,
    note      TEXT,
    owned     TEXT
) STRICT;

CREATE TABLE workshop (
    number   INTEGER PRIMARY KEY,
    id       TEXT NOT NULL UNIQUE,
    revision INTEGER NOT NULL,
    at       TEXT NOT NULL,
    hours_a_week  REAL,
    hands         INTEGER,
    sessions_kept REAL,
    heated        INTEGER,
    bays          INTEGER,
    own_rate_minor    INTEGER,
    own_rate_currency TEXT,
    price_level   REAL,
    currency      TEXT,
    units         TEXT,
    start         TEXT
) STRICT;

CREATE TABLE slot (
    number   INTEGER PRIMARY KEY,
    id       TEXT NOT NULL UNIQUE,
    revision INTEGER NOT NULL,
    at       TEXT NOT NULL,
    weekday  TEXT NOT NULL,
    "from"   INTEGER NOT NULL,
    "to"     INTEGER NOT NULL,
    hands    INTEGER
) STRICT;

CREATE TABLE helper_day (
    number   INTEGER PRIMARY KEY,
    id       TEXT NOT NULL UNIQUE,
    revision INTEGER NOT NULL,
    at       TEXT NOT NULL,
    date     TEXT NOT NULL,
    "from"   INTEGER NOT NULL,
    "to"     INTEGER NOT NULL,
    hands    INTEGER NOT NULL,
    who      TEXT
) STRICT;

CREATE TABLE away (
    number   INTEGER PRIMARY KEY,
    id       TEXT NOT NULL UNIQUE,
    revision INTEGER NOT NULL,
    at       TEXT NOT NULL,
    "from"   TEXT NOT NULL,
    "to"     TEXT NOT NULL,
    why      TEXT
) STRICT;

CREATE TABLE purse (
    number   INTEGER PRIMARY KEY,
    id       TEXT NOT NULL UNIQUE,
    revision INTEGER NOT NULL,
    at       TEXT NOT NULL,
    a_month_minor    INTEGER,
    a_month_currency TEXT,
    ceiling_minor    INTEGER,
    ceiling_currency TEXT,
    reserve_minor    INTEGER,
    reserve_currency TEXT,
    in_hand_minor    INTEGER,
    in_hand_currency TEXT
) STRICT;

CREATE TABLE rate (
    number   INTEGER PRIMARY KEY,
    id       TEXT NOT NULL UNIQUE,
    revision INTEGER NOT NULL,
    at       TEXT NOT NULL,
    currency TEXT NOT NULL,
    per      TEXT NOT NULL,
    rate     REAL NOT NULL,
    date     TEXT NOT NULL
) STRICT;

-- Facts about one vehicle. A private field that was left out on the way here is NULL even where kinds.c
-- requires it, so only what is required and public is NOT NULL.

CREATE TABLE finding (
    number    INTEGER PRIMARY KEY,
    id        TEXT NOT NULL UNIQUE,
    revision  INTEGER NOT NULL,
    at        TEXT NOT NULL,
    vehicle   TEXT NOT NULL REFERENCES vehicle (id),
    component TEXT NOT NULL,
    condition TEXT NOT NULL,
    how       TEXT,
    date      TEXT,
    note      TEXT
) STRICT;
CREATE INDEX finding_vehicle ON finding (vehicle);

CREATE TABLE worth (
    number   INTEGER PRIMARY KEY,
    id       TEXT NOT NULL UNIQUE,
    revision INTEGER NOT NULL,
    at       TEXT NOT NULL,
    vehicle  TEXT NOT NULL REFERENCES vehicle (id),
    of       TEXT NOT NULL,
    worth_low      INTEGER,
    worth_middle   INTEGER,
    worth_high     INTEGER,
    worth_currency TEXT,
    date     TEXT,
    why      TEXT
) STRICT;
CREATE INDEX worth_vehicle ON worth (vehicle);

CREATE TABLE decision (
    number    INTEGER PRIMARY KEY,
    id        TEXT NOT NULL UNIQUE,
    revision  INTEGER NOT NULL,
    at        TEXT NOT NULL,
    vehicle   TEXT NOT NULL REFERENCES vehicle (id),
    direction TEXT NOT NULL,
    packages  TEXT,
    reason    TEXT,
    date      TEXT,
    figures   TEXT
) STRICT;
CREATE INDEX decision_vehicle ON decision (vehicle);

CREATE TABLE adopted_plan (
    number    INTEGER PRIMARY KEY,
    id        TEXT NOT NULL UNIQUE,
    revision  INTEGER NOT NULL,
    at        TEXT NOT NULL,
    vehicle   TEXT NOT NULL REFERENCES vehicle (id),
    direction TEXT NOT NULL,
    as_of     TEXT NOT NULL,
    "order"   TEXT,
    figures   TEXT
) STRICT;
CREATE INDEX adopted_plan_vehicle ON adopted_plan (vehicle);

CREATE TABLE "order" (
    number   INTEGER PRIMARY KEY,
    id       TEXT NOT NULL UNIQUE,
    revision INTEGER NOT NULL,
    at       TEXT NOT NULL,
    vehicle  TEXT NOT NULL REFERENCES vehicle (id),
    part     TEXT NOT NULL,
    count    REAL,
    price_minor    INTEGER,
    price_currency TEXT,
    ordered  TEXT,
    due      TEXT,
    arrived  TEXT,
    supplier TEXT,
    quote    TEXT REFERENCES quote (id),
    core_minor    INTEGER,
    core_currency TEXT,
    return_by TEXT,
    checked  INTEGER,
    wrong    TEXT,
    returned TEXT,
    warranty TEXT,
    fitted   TEXT,
    shelf    TEXT
) STRICT;
CREATE INDEX order_vehicle ON "order" (vehicle);

CREATE TABLE work (
    number   INTEGER PRIMARY KEY,
    id       TEXT NOT NULL UNIQUE,
    revision INTEGER NOT NULL,
    at       TEXT NOT NULL,
    vehicle  TEXT NOT NULL REFERENCES vehicle (id),
    job      TEXT NOT NULL,
    hours_typed TEXT,
    hours    REAL,
    finished INTEGER,
    date     TEXT,
    note     TEXT,
    "from"   INTEGER,
    "to"     INTEGER,
    setback  TEXT
) STRICT;
CREATE INDEX work_vehicle ON work (vehicle);

CREATE TABLE photograph (
    number    INTEGER PRIMARY KEY,
    id        TEXT NOT NULL UNIQUE,
    revision  INTEGER NOT NULL,
    at        TEXT NOT NULL,
    vehicle   TEXT NOT NULL REFERENCES vehicle (id),
    component TEXT,
    place     TEXT,
    note      TEXT,
    taken     TEXT,
    file      TEXT NOT NULL,
    type      TEXT NOT NULL,
    width     INTEGER NOT NULL,
    height    INTEGER NOT NULL,
    bag       TEXT REFERENCES bag (id)
) STRICT;
CREATE INDEX photograph_vehicle ON photograph (vehicle);

CREATE TABLE advert (
    number   INTEGER PRIMARY KEY,
    id       TEXT NOT NULL UNIQUE,
    revision INTEGER NOT NULL,
    at       TEXT NOT NULL,
    vehicle  TEXT NOT NULL REFERENCES vehicle (id),
    asked_minor       INTEGER,
    asked_currency    TEXT,
    carriage_minor    INTEGER,
    carriage_currency TEXT,
    distance_typed    TEXT,
    distance REAL,
    place    TEXT,
    seller   TEXT,
    date     TEXT,
    says     TEXT,
    minutes  INTEGER,
    odds     REAL,
    serves   TEXT,
    remains_low      INTEGER,
    remains_middle   INTEGER,
    remains_high     INTEGER,
    remains_currency TEXT,
    room_a_month_minor    INTEGER,
    room_a_month_currency TEXT,
    months   REAL
) STRICT;
CREATE INDEX advert_vehicle ON advert (vehicle);

CREATE TABLE sign (
    number   INTEGER PRIMARY KEY,
    id       TEXT NOT NULL UNIQUE,
    revision INTEGER NOT NULL,
    at       TEXT NOT NULL,
    vehicle  TEXT NOT NULL REFERENCES vehicle (id),
    sign     TEXT NOT NULL,
    met      INTEGER NOT NULL,
    date     TEXT,
    note     TEXT
) STRICT;
CREATE INDEX sign_vehicle ON sign (vehicle);

CREATE TABLE comparable (
    number   INTEGER PRIMARY KEY,
    id       TEXT NOT NULL UNIQUE,
    revision INTEGER NOT NULL,
    at       TEXT NOT NULL,
    vehicle  TEXT NOT NULL REFERENCES vehicle (id),
    price_minor    INTEGER,
    price_currency TEXT,
    how      TEXT NOT NULL,
    date     TEXT NOT NULL,
    grade    REAL NOT NULL,
    original REAL,
    distance_typed TEXT,
    distance REAL,
    note     TEXT
) STRICT;
CREATE INDEX comparable_vehicle ON comparable (vehicle);

CREATE TABLE grade (
    number   INTEGER PRIMARY KEY,
    id       TEXT NOT NULL UNIQUE,
    revision INTEGER NOT NULL,
    at       TEXT NOT NULL,
    vehicle  TEXT NOT NULL REFERENCES vehicle (id),
    of       TEXT NOT NULL,
    grade    REAL NOT NULL,
    original REAL,
    why      TEXT
) STRICT;
CREATE INDEX grade_vehicle ON grade (vehicle);

CREATE TABLE weights (
    number   INTEGER PRIMARY KEY,
    id       TEXT NOT NULL UNIQUE,
    revision INTEGER NOT NULL,
    at       TEXT NOT NULL,
    vehicle  TEXT NOT NULL REFERENCES vehicle (id),
    month_minor    INTEGER,
    month_currency TEXT,
    original_minor    INTEGER,
    original_currency TEXT,
    driving_minor    INTEGER,
    driving_currency TEXT,
    why      TEXT
) STRICT;
CREATE INDEX weights_vehicle ON weights (vehicle);

CREATE TABLE tripwire (
    number   INTEGER PRIMARY KEY,
    id       TEXT NOT NULL UNIQUE,
    revision INTEGER NOT NULL,
    at       TEXT NOT NULL,
    vehicle  TEXT NOT NULL REFERENCES vehicle (id),
    spent_minor    INTEGER,
    spent_currency TEXT,
    passed   TEXT,
    component TEXT,
    condition TEXT,
    why      TEXT
) STRICT;
CREATE INDEX tripwire_vehicle ON tripwire (vehicle);

CREATE TABLE instead (
    number   INTEGER PRIMARY KEY,
    id       TEXT NOT NULL UNIQUE,
    revision INTEGER NOT NULL,
    at       TEXT NOT NULL,
    vehicle  TEXT NOT NULL REFERENCES vehicle (id),
    what     TEXT NOT NULL,
    price_low      INTEGER,
    price_middle   INTEGER,
    price_high     INTEGER,
    price_currency TEXT,
    bill_low      INTEGER,
    bill_middle   INTEGER,
    bill_high     INTEGER,
    bill_currency TEXT,
    worth_low      INTEGER,
    worth_middle   INTEGER,
    worth_high     INTEGER,
    worth_currency TEXT,
    hours    REAL,
    months   REAL,
    why      TEXT
) STRICT;
CREATE INDEX instead_vehicle ON instead (vehicle);

CREATE TABLE mark (
    number   INTEGER PRIMARY KEY,
    id       TEXT NOT NULL UNIQUE,
    revision INTEGER NOT NULL,
    at       TEXT NOT NULL,
    vehicle  TEXT NOT NULL REFERENCES vehicle (id),
    what     TEXT NOT NULL,
    "where"  TEXT,
    component TEXT,
    text     TEXT,
    again    TEXT,
    by       TEXT,
    book     TEXT,
    how      TEXT,
    date     TEXT,
    photo    TEXT,
    note     TEXT
) STRICT;
CREATE INDEX mark_vehicle ON mark (vehicle);

CREATE TABLE originality (
    number   INTEGER PRIMARY KEY,
    id       TEXT NOT NULL UNIQUE,
    revision INTEGER NOT NULL,
    at       TEXT NOT NULL,
    vehicle  TEXT NOT NULL REFERENCES vehicle (id),
    component TEXT NOT NULL,
    class    TEXT NOT NULL,
    evidence TEXT,
    how      TEXT,
    date     TEXT,
    note     TEXT
) STRICT;
CREATE INDEX originality_vehicle ON originality (vehicle);

CREATE TABLE circuit (
    number   INTEGER PRIMARY KEY,
    id       TEXT NOT NULL UNIQUE,
    revision INTEGER NOT NULL,
    at       TEXT NOT NULL,
    vehicle  TEXT NOT NULL REFERENCES vehicle (id),
    name     TEXT NOT NULL,
    use      TEXT,
    power_typed TEXT,
    power    REAL,
    draws_typed TEXT,
    draws    REAL,
    length_typed TEXT NOT NULL,
    length   REAL NOT NULL,
    wire     TEXT NOT NULL,
    cover    TEXT,
    space    TEXT,
    bundle   TEXT,
    fuse_typed TEXT,
    fuse     REAL,
    switch   TEXT,
    switch_rating_typed TEXT,
    switch_rating REAL,
    earth    TEXT,
    note     TEXT
) STRICT;
CREATE INDEX circuit_vehicle ON circuit (vehicle);

CREATE TABLE clue_reading (
    number   INTEGER PRIMARY KEY,
    id       TEXT NOT NULL UNIQUE,
    revision INTEGER NOT NULL,
    at       TEXT NOT NULL,
    vehicle  TEXT NOT NULL REFERENCES vehicle (id),
    clue     TEXT NOT NULL,
    outcome  TEXT NOT NULL,
    value    TEXT,
    date     TEXT,
    how      TEXT,
    note     TEXT
) STRICT;
CREATE INDEX clue_reading_vehicle ON clue_reading (vehicle);

CREATE TABLE clock (
    number   INTEGER PRIMARY KEY,
    id       TEXT NOT NULL UNIQUE,
    revision INTEGER NOT NULL,
    at       TEXT NOT NULL,
    vehicle  TEXT NOT NULL REFERENCES vehicle (id),
    reading  INTEGER NOT NULL,
    digits   INTEGER,
    unit     TEXT,
    working  INTEGER,
    date     TEXT,
    note     TEXT
) STRICT;
CREATE INDEX clock_vehicle ON clock (vehicle);

CREATE TABLE dated_mileage (
    number   INTEGER PRIMARY KEY,
    id       TEXT NOT NULL UNIQUE,
    revision INTEGER NOT NULL,
    at       TEXT NOT NULL,
    vehicle  TEXT NOT NULL REFERENCES vehicle (id),
    written  TEXT NOT NULL,
    reading  INTEGER NOT NULL,
    unit     TEXT,
    paper    TEXT,
    note     TEXT
) STRICT;
CREATE INDEX dated_mileage_vehicle ON dated_mileage (vehicle);

CREATE TABLE supplier (
    number   INTEGER PRIMARY KEY,
    id       TEXT NOT NULL UNIQUE,
    revision INTEGER NOT NULL,
    at       TEXT NOT NULL,
    name     TEXT,
    carriage_minor    INTEGER,
    carriage_currency TEXT,
    carriage_free_minor    INTEGER,
    carriage_free_currency TEXT,
    minimum_minor    INTEGER,
    minimum_currency TEXT,
    promised_days INTEGER,
    note     TEXT
) STRICT;

CREATE TABLE quote (
    number   INTEGER PRIMARY KEY,
    id       TEXT NOT NULL UNIQUE,
    revision INTEGER NOT NULL,
    at       TEXT NOT NULL,
    supplier TEXT NOT NULL REFERENCES supplier (id),
    part     TEXT NOT NULL,
    price_minor    INTEGER,
    price_currency TEXT,
    from_count INTEGER,
    lead_low    REAL,
    lead_middle REAL,
    lead_high   REAL,
    core_minor    INTEGER,
    core_currency TEXT,
    return_days INTEGER,
    date     TEXT,
    note     TEXT
) STRICT;
CREATE INDEX quote_supplier ON quote (supplier);

CREATE TABLE choice (
    number   INTEGER PRIMARY KEY,
    id       TEXT NOT NULL UNIQUE,
    revision INTEGER NOT NULL,
    at       TEXT NOT NULL,
    vehicle  TEXT NOT NULL REFERENCES vehicle (id),
    need     TEXT,
    option   TEXT NOT NULL,
    why      TEXT,
    date     TEXT
) STRICT;
CREATE INDEX choice_vehicle ON choice (vehicle);

CREATE TABLE measured (
    number   INTEGER PRIMARY KEY,
    id       TEXT NOT NULL UNIQUE,
    revision INTEGER NOT NULL,
    at       TEXT NOT NULL,
    vehicle  TEXT NOT NULL REFERENCES vehicle (id),
    of       TEXT NOT NULL,
    "join"   TEXT NOT NULL,
    "end"    TEXT,
    least    REAL,
    most     REAL,
    "is"     TEXT,
    how      TEXT,
    date     TEXT,
    note     TEXT
) STRICT;
CREATE INDEX measured_vehicle ON measured (vehicle);

CREATE TABLE sent (
    number   INTEGER PRIMARY KEY,
    id       TEXT NOT NULL UNIQUE,
    revision INTEGER NOT NULL,
    at       TEXT NOT NULL,
    vehicle  TEXT NOT NULL REFERENCES vehicle (id),
    supplier TEXT NOT NULL REFERENCES supplier (id),
    what     TEXT NOT NULL,
    count    INTEGER,
    job      TEXT,
    sent     TEXT NOT NULL,
    promised TEXT,
    chase    TEXT,
    deposit_minor    INTEGER,
    deposit_currency TEXT,
    tolerances TEXT,
    photo    TEXT,
    returned TEXT,
    count_returned INTEGER,
    measured TEXT
) STRICT;
CREATE INDEX sent_vehicle ON sent (vehicle);

CREATE TABLE seller (
    number   INTEGER PRIMARY KEY,
    id       TEXT NOT NULL UNIQUE,
    revision INTEGER NOT NULL,
    at       TEXT NOT NULL,
    vehicle  TEXT NOT NULL REFERENCES vehicle (id),
    supplier TEXT NOT NULL REFERENCES supplier (id),
    part     TEXT NOT NULL,
    date     TEXT
) STRICT;
CREATE INDEX seller_vehicle ON seller (vehicle);

CREATE TABLE timer (
    number   INTEGER PRIMARY KEY,
    id       TEXT NOT NULL UNIQUE,
    revision INTEGER NOT NULL,
    at       TEXT NOT NULL,
    vehicle  TEXT NOT NULL REFERENCES vehicle (id),
    job      TEXT NOT NULL,
    date     TEXT NOT NULL,
    "from"   INTEGER NOT NULL
) STRICT;
CREATE INDEX timer_vehicle ON timer (vehicle);

CREATE TABLE measurement (
    number   INTEGER PRIMARY KEY,
    id       TEXT NOT NULL UNIQUE,
    revision INTEGER NOT NULL,
    at       TEXT NOT NULL,
    vehicle  TEXT NOT NULL REFERENCES vehicle (id),
    what     TEXT NOT NULL,
    "where"  TEXT,
    value    REAL NOT NULL,
    unit     TEXT,
    tool     TEXT,
    low      REAL,
    high     REAL,
    source   TEXT,
    job      TEXT,
    date     TEXT,
    retest   TEXT,
    by       TEXT,
    note     TEXT
) STRICT;
CREATE INDEX measurement_vehicle ON measurement (vehicle);

CREATE TABLE gate_opened (
    number   INTEGER PRIMARY KEY,
    id       TEXT NOT NULL UNIQUE,
    revision INTEGER NOT NULL,
    at       TEXT NOT NULL,
    vehicle  TEXT NOT NULL REFERENCES vehicle (id),
    gate     TEXT NOT NULL,
    date     TEXT NOT NULL,
    retest   TEXT,
    proved   TEXT,
    note     TEXT
) STRICT;
CREATE INDEX gate_opened_vehicle ON gate_opened (vehicle);

CREATE TABLE gate_override (
    number   INTEGER PRIMARY KEY,
    id       TEXT NOT NULL UNIQUE,
    revision INTEGER NOT NULL,
    at       TEXT NOT NULL,
    vehicle  TEXT NOT NULL REFERENCES vehicle (id),
    gate     TEXT NOT NULL,
    reason   TEXT NOT NULL,
    date     TEXT NOT NULL,
    missing  TEXT
) STRICT;
CREATE INDEX gate_override_vehicle ON gate_override (vehicle);

CREATE TABLE session_check (
    number   INTEGER PRIMARY KEY,
    id       TEXT NOT NULL UNIQUE,
    revision INTEGER NOT NULL,
    at       TEXT NOT NULL,
    vehicle  TEXT NOT NULL REFERENCES vehicle (id),
    "check"  TEXT NOT NULL,
    date     TEXT NOT NULL,
    by       TEXT,
    note     TEXT
) STRICT;
CREATE INDEX session_check_vehicle ON session_check (vehicle);

CREATE TABLE witnessed (
    number   INTEGER PRIMARY KEY,
    id       TEXT NOT NULL UNIQUE,
    revision INTEGER NOT NULL,
    at       TEXT NOT NULL,
    vehicle  TEXT NOT NULL REFERENCES vehicle (id),
    what     TEXT NOT NULL,
    holds    INTEGER NOT NULL,
    by       TEXT,
    worker   TEXT,
    fit      TEXT,
    date     TEXT NOT NULL,
    note     TEXT
) STRICT;
CREATE INDEX witnessed_vehicle ON witnessed (vehicle);

CREATE TABLE setback (
    number   INTEGER PRIMARY KEY,
    id       TEXT NOT NULL UNIQUE,
    revision INTEGER NOT NULL,
    at       TEXT NOT NULL,
    vehicle  TEXT NOT NULL REFERENCES vehicle (id),
    setback  TEXT NOT NULL,
    job      TEXT,
    component TEXT,
    "is"     TEXT,
    "in"     TEXT,
    hole     TEXT,
    drill    INTEGER,
    thread   TEXT,
    tried    TEXT,
    state    TEXT,
    date     TEXT,
    note     TEXT
) STRICT;
CREATE INDEX setback_vehicle ON setback (vehicle);

CREATE TABLE tool (
    number   INTEGER PRIMARY KEY,
    id       TEXT NOT NULL UNIQUE,
    revision INTEGER NOT NULL,
    at       TEXT NOT NULL,
    tool     TEXT NOT NULL,
    have     TEXT NOT NULL,
    back_by  TEXT,
    "where"  TEXT,
    note     TEXT
) STRICT;

CREATE TABLE left_off (
    number   INTEGER PRIMARY KEY,
    id       TEXT NOT NULL UNIQUE,
    revision INTEGER NOT NULL,
    at       TEXT NOT NULL,
    vehicle  TEXT NOT NULL REFERENCES vehicle (id),
    note     TEXT NOT NULL,
    "where"  TEXT,
    photo    TEXT REFERENCES photograph (id),
    date     TEXT
) STRICT;
CREATE INDEX left_off_vehicle ON left_off (vehicle);

CREATE TABLE care_done (
    number   INTEGER PRIMARY KEY,
    id       TEXT NOT NULL UNIQUE,
    revision INTEGER NOT NULL,
    at       TEXT NOT NULL,
    vehicle  TEXT NOT NULL REFERENCES vehicle (id),
    care     TEXT NOT NULL,
    date     TEXT NOT NULL,
    note     TEXT
) STRICT;
CREATE INDEX care_done_vehicle ON care_done (vehicle);

CREATE TABLE bag (
    number    INTEGER PRIMARY KEY,
    id        TEXT NOT NULL UNIQUE,
    revision  INTEGER NOT NULL,
    at        TEXT NOT NULL,
    vehicle   TEXT NOT NULL REFERENCES vehicle (id),
    code      TEXT NOT NULL,
    what      TEXT NOT NULL,
    component TEXT,
    job       TEXT,
    shelf     TEXT,
    date      TEXT,
    emptied   TEXT,
    note      TEXT
) STRICT;
CREATE INDEX bag_vehicle ON bag (vehicle);

CREATE TABLE bag_item (
    number    INTEGER PRIMARY KEY,
    id        TEXT NOT NULL UNIQUE,
    revision  INTEGER NOT NULL,
    at        TEXT NOT NULL,
    vehicle   TEXT NOT NULL REFERENCES vehicle (id),
    bag       TEXT NOT NULL REFERENCES bag (id),
    name      TEXT NOT NULL,
    count     INTEGER NOT NULL,
    thread    TEXT,
    length_typed TEXT,
    length REAL,
    grade     TEXT,
    torque_typed TEXT,
    torque REAL,
    source    TEXT,
    renew     INTEGER,
    back      INTEGER,
    note      TEXT
) STRICT;
CREATE INDEX bag_item_vehicle ON bag_item (vehicle);

CREATE TABLE tool_offer (
    number   INTEGER PRIMARY KEY,
    id       TEXT NOT NULL UNIQUE,
    revision INTEGER NOT NULL,
    at       TEXT NOT NULL,
    tool     TEXT NOT NULL,
    way      TEXT NOT NULL,
    price_minor    INTEGER,
    price_currency TEXT,
    a_day_minor    INTEGER,
    a_day_currency TEXT,
    until    TEXT,
    whose    TEXT,
    note     TEXT
) STRICT;

CREATE TABLE person (
    number   INTEGER PRIMARY KEY,
    id       TEXT NOT NULL UNIQUE,
    revision INTEGER NOT NULL,
    at       TEXT NOT NULL,
    name     TEXT,
    knows    TEXT,
    lends    TEXT,
    reach    TEXT,
    note     TEXT
) STRICT;

CREATE TABLE promise (
    number   INTEGER PRIMARY KEY,
    id       TEXT NOT NULL UNIQUE,
    revision INTEGER NOT NULL,
    at       TEXT NOT NULL,
    who      TEXT,
    what     TEXT NOT NULL,
    by_day   TEXT,
    kept     TEXT,
    note     TEXT
) STRICT;
