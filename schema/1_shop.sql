-- What a fresh shop looks like, table by table. Numbers are integers without exception: lengths in
-- units of 1/8000 mm, money in minor units of the shop's currency, bulk in thousandths of a
-- millilitre or gram. Dates are text, ISO 8601. A migration is what turns an older shop into this;
-- a test proves that both ways lead to the same tables.

-- The shop's own choices: currency, unit of length, hourly rate, margins. The names and what they
-- may hold are in src/workshop/settings.hpp; nothing here is a secret.
CREATE TABLE setting (
    name  TEXT NOT NULL PRIMARY KEY,
    value TEXT NOT NULL
) STRICT, WITHOUT ROWID;

-- Who sells supplies.
CREATE TABLE supplier (
    id        INTEGER PRIMARY KEY,
    code      TEXT NOT NULL UNIQUE COLLATE NOCASE CHECK (length(code) BETWEEN 1 AND 40),
    name      TEXT NOT NULL CHECK (name <> ''),
    lead_days INTEGER NOT NULL DEFAULT 0 CHECK (lead_days >= 0), -- from order to delivery
    note      TEXT NOT NULL DEFAULT ''
) STRICT;

-- A thing bought for making. What is on hand is never here: it follows from the ledger.
CREATE TABLE material (
    id          INTEGER PRIMARY KEY,
    code        TEXT NOT NULL UNIQUE COLLATE NOCASE CHECK (length(code) BETWEEN 1 AND 40),
    name        TEXT NOT NULL CHECK (name <> ''),
    form        TEXT NOT NULL CHECK (form IN ('sheet', 'length', 'wire', 'count', 'bulk')),
    bulk_unit   TEXT NOT NULL DEFAULT '' CHECK ((form = 'bulk') = (bulk_unit IN ('ml', 'g'))),
    collection  TEXT NOT NULL DEFAULT '' COLLATE NOCASE, -- papers made to go together
    supplier_id INTEGER REFERENCES supplier (id),
    -- One unit as it is bought: sheet width and height; length of a roll; loops of a strip; else 1.
    fresh_width  INTEGER NOT NULL CHECK (fresh_width > 0),
    fresh_height INTEGER NOT NULL CHECK (fresh_height > 0),
    pack_units   INTEGER NOT NULL DEFAULT 1 CHECK (pack_units > 0), -- units in a pack (bulk: thousandths)
    pack_price   INTEGER CHECK (pack_price >= 0), -- what a pack costs to buy now, if known
    -- Smallest remnant worth keeping, shorter and longer side (length, wire: the longer only).
    least_shorter INTEGER NOT NULL DEFAULT 0 CHECK (least_shorter >= 0),
    least_longer  INTEGER NOT NULL DEFAULT 0 CHECK (least_longer >= least_shorter),
    trim_left   INTEGER NOT NULL DEFAULT 0 CHECK (trim_left >= 0), -- unusable border of a fresh sheet
    trim_right  INTEGER NOT NULL DEFAULT 0 CHECK (trim_right >= 0),
    trim_top    INTEGER NOT NULL DEFAULT 0 CHECK (trim_top >= 0),
    trim_bottom INTEGER NOT NULL DEFAULT 0 CHECK (trim_bottom >= 0),
    kerf        INTEGER NOT NULL DEFAULT 0 CHECK (kerf >= 0), -- lost at each cut
    pattern     TEXT NOT NULL DEFAULT 'none' CHECK (pattern IN ('none', 'one-way', 'two-way')),
    grain       TEXT NOT NULL DEFAULT '' CHECK (grain IN ('', 'width', 'height')),
    reorder_level INTEGER NOT NULL DEFAULT 0 CHECK (reorder_level >= 0), -- in units (bulk: thousandths)
    hazard      TEXT NOT NULL DEFAULT '', -- names of src/base/hazard.hpp, separated by spaces
    note        TEXT NOT NULL DEFAULT '',
    place       TEXT NOT NULL DEFAULT '', -- shelf, box or drawer it is kept in
    -- What designs reckon with. Not known is null.
    caliper      INTEGER CHECK (caliper > 0),  -- thickness of one sheet, of an envelope's paper, of a thing
    grammage     INTEGER CHECK (grammage > 0), -- thousandths of a gram on a square metre
    bulk         INTEGER CHECK (bulk > 0),     -- thousandths of a cubic centimetre for each gram
    faces        INTEGER CHECK (faces IN (1, 2)), -- patterned on one side or on both
    repeat       INTEGER CHECK (repeat > 0),   -- after which the pattern begins again
    pitch        INTEGER CHECK (pitch BETWEEN 1 AND 20), -- loops of wire in an inch
    diameter     INTEGER CHECK (diameter > 0), -- of wire or rings, across
    thing_width  INTEGER CHECK (thing_width > 0), -- of a counted thing its shorter side; of a ribbon, across
    thing_height INTEGER CHECK (thing_height > 0), -- of a counted thing its longer side
    flap         INTEGER CHECK (flap > 0),     -- depth of an envelope's flap
    spread       INTEGER CHECK (spread > 0)    -- of glue: thousandths of a ml or g on a square metre
) STRICT;
CREATE INDEX material_by_supplier ON material (supplier_id);
