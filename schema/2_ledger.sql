-- The stock ledger. Everything that holds stock or its value is a holder; a movement takes a
-- quantity and a value from one holder to another, so nothing can appear or vanish on the way.
-- Movements and postings are never changed and never deleted (triggers at the end); a mistake is
-- answered by a posting that moves everything back.

CREATE TABLE holder_kind (name TEXT NOT NULL PRIMARY KEY) STRICT, WITHOUT ROWID;
INSERT INTO holder_kind (name) VALUES
    ('outside'),     -- suppliers: where stock comes from and returns go
    ('shelf'),       -- what is left of one lot
    ('offcut'),      -- one remnant
    ('batch'),       -- work under way
    ('made'),        -- what went into finished journals: each lot's part of them stays here
    ('journal'),     -- one finished journal
    ('sold'),
    ('written_off'); -- spoiled, lost, given away

CREATE TABLE holder (
    id   INTEGER PRIMARY KEY,
    kind TEXT NOT NULL REFERENCES holder_kind (name)
) STRICT;
INSERT INTO holder (id, kind) VALUES
    (1, 'outside'), (2, 'sold'), (3, 'written_off'), (4, 'made');

-- One command's entry in the ledger: all its movements belong together and are reversed together.
CREATE TABLE posting (
    id          INTEGER PRIMARY KEY,
    kind        TEXT NOT NULL,             -- the command: receive, make, reverse, ...
    made_on     TEXT NOT NULL CHECK (made_on IS date(made_on)), -- the day it is true of
    recorded_at TEXT NOT NULL,             -- the moment it was written down (UTC)
    who         TEXT NOT NULL DEFAULT '',
    note        TEXT NOT NULL DEFAULT '',
    reverses    INTEGER UNIQUE REFERENCES posting (id) CHECK (reverses < id)
) STRICT;
CREATE INDEX posting_by_day ON posting (made_on);

-- One receipt of one material. Its id is that of its shelf in holder. Never changed.
CREATE TABLE lot (
    id          INTEGER PRIMARY KEY REFERENCES holder (id),
    posting_id  INTEGER NOT NULL REFERENCES posting (id),
    material_id INTEGER NOT NULL REFERENCES material (id),
    supplier_id INTEGER REFERENCES supplier (id),
    unit_width  INTEGER NOT NULL CHECK (unit_width > 0),  -- size of one unit, as material.fresh_*
    unit_height INTEGER NOT NULL CHECK (unit_height > 0),
    quantity    INTEGER NOT NULL CHECK (quantity > 0),    -- in the form's measure: area, length, ...
    cost        INTEGER NOT NULL CHECK (cost >= 0),       -- paid, with its share of freight and tax
    received_on TEXT NOT NULL CHECK (received_on IS date(received_on)),
    note        TEXT NOT NULL DEFAULT '',
    extra       INTEGER NOT NULL DEFAULT 0 CHECK (extra >= 0), -- of the cost: freight and tax
    CHECK (quantity % (unit_width * unit_height) = 0)
) STRICT;
CREATE INDEX lot_by_material ON lot (material_id, received_on, id);
CREATE INDEX lot_by_posting ON lot (posting_id);

-- A remnant worth keeping. Its id is that of its holder. How much of it is left follows from the
-- ledger: an offcut is there as long as its balance is above zero.
CREATE TABLE offcut (
    id          INTEGER PRIMARY KEY REFERENCES holder (id),
    posting_id  INTEGER NOT NULL REFERENCES posting (id),
    number      INTEGER NOT NULL UNIQUE CHECK (number >= 0), -- 0, 1, 2, ... as they are kept
    code        TEXT NOT NULL UNIQUE,      -- on its label: its number as src/base/short_code.hpp writes it
    material_id INTEGER NOT NULL REFERENCES material (id),
    lot_id      INTEGER NOT NULL REFERENCES lot (id),
    width       INTEGER NOT NULL CHECK (width > 0),  -- as it lay on its sheet; lengths: when kept
    height      INTEGER NOT NULL CHECK (height > 0),
    kept_on     TEXT NOT NULL CHECK (kept_on IS date(kept_on)),
    place       TEXT NOT NULL DEFAULT '',
    note        TEXT NOT NULL DEFAULT ''
) STRICT;
CREATE INDEX offcut_by_material ON offcut (material_id);
CREATE INDEX offcut_by_lot ON offcut (lot_id);
CREATE INDEX offcut_by_posting ON offcut (posting_id);

CREATE TABLE movement_kind (name TEXT NOT NULL PRIMARY KEY) STRICT, WITHOUT ROWID;
INSERT INTO movement_kind (name) VALUES
    ('receive'), ('use'), ('keep'), ('put_back'), ('finish'), ('write_off'), ('correct'), ('return'),
    ('sell'), ('reverse'),
    ('split'),   -- an offcut cut into smaller ones
    ('find'),    -- found again: an offcut out of what was thought waste, stock at a count
    ('give'),    -- a journal given away
    ('apart'),   -- a journal taken apart for what is in it
    ('take_in'), -- what such a journal gave back
    ('level');   -- cost passed from lot to lot when the shop leaves the moving average

-- The ledger itself. With a lot: `quantity` of that lot, in the measure of its material's form.
-- Without: whole finished journals. Making turns the one into the other at the holder 'made': lots
-- go in from the batch, journals come out, and their values cancel.
CREATE TABLE movement (
    id          INTEGER PRIMARY KEY,
    posting_id  INTEGER NOT NULL REFERENCES posting (id),
    kind        TEXT NOT NULL REFERENCES movement_kind (name),
    lot_id      INTEGER REFERENCES lot (id),
    from_holder INTEGER NOT NULL REFERENCES holder (id),
    to_holder   INTEGER NOT NULL REFERENCES holder (id),
    quantity    INTEGER NOT NULL CHECK (quantity >= 0),
    value       INTEGER NOT NULL CHECK (value >= 0),
    CHECK (from_holder <> to_holder)
) STRICT;
CREATE INDEX movement_by_posting ON movement (posting_id);
CREATE INDEX movement_by_lot ON movement (lot_id);
CREATE INDEX movement_by_from ON movement (from_holder);
CREATE INDEX movement_by_to ON movement (to_holder);

-- Derived, kept up by the trigger below, rebuildable from movement at any time: what each holder
-- has of each lot (lot_id 0: of finished journals). Rows at zero are dropped, so the table is as
-- large as what is there, not as what ever was. Only the outside may owe, and 'made' owes the
-- journals that came out of it: for all others a balance below zero is refused.
CREATE TABLE balance (
    holder_id INTEGER NOT NULL,
    lot_id    INTEGER NOT NULL,
    quantity  INTEGER NOT NULL,
    value     INTEGER NOT NULL,
    may_owe   INTEGER NOT NULL,
    PRIMARY KEY (holder_id, lot_id),
    CONSTRAINT nothing_below_zero CHECK (may_owe = 1 OR (quantity >= 0 AND value >= 0))
) STRICT, WITHOUT ROWID;
CREATE INDEX balance_by_lot ON balance (lot_id);

-- Derived likewise: value held by each kind of holder.
CREATE TABLE kind_value (
    kind  TEXT NOT NULL PRIMARY KEY,
    value INTEGER NOT NULL
) STRICT, WITHOUT ROWID;

CREATE TRIGGER movement_counts AFTER INSERT ON movement BEGIN
    -- A row is made first and counted up or down then: in one step, SQLite would hold a taken
    -- quantity against the check before it sees that there is something to take it from.
    INSERT OR IGNORE INTO balance (holder_id, lot_id, quantity, value, may_owe)
    SELECT id, ifnull(NEW.lot_id, 0), 0, 0,
           kind = 'outside' OR (kind = 'made' AND NEW.lot_id IS NULL)
    FROM holder WHERE id IN (NEW.from_holder, NEW.to_holder);

    UPDATE balance SET quantity = quantity + NEW.quantity, value = value + NEW.value
    WHERE holder_id = NEW.to_holder AND lot_id = ifnull(NEW.lot_id, 0);

    UPDATE balance SET quantity = quantity - NEW.quantity, value = value - NEW.value
    WHERE holder_id = NEW.from_holder AND lot_id = ifnull(NEW.lot_id, 0);

    DELETE FROM balance
    WHERE holder_id IN (NEW.from_holder, NEW.to_holder) AND lot_id = ifnull(NEW.lot_id, 0)
      AND quantity = 0 AND value = 0;

    INSERT INTO kind_value (kind, value)
    SELECT kind, -NEW.value FROM holder WHERE id = NEW.from_holder
    ON CONFLICT (kind) DO UPDATE SET value = value + excluded.value;

    INSERT INTO kind_value (kind, value)
    SELECT kind, NEW.value FROM holder WHERE id = NEW.to_holder
    ON CONFLICT (kind) DO UPDATE SET value = value + excluded.value;
END;

-- Derived, one row: the cost of all lots less what was sent back or taken back. Counted from the
-- lots, so that it can be held against what all other holders have.
CREATE TABLE received_value (
    id    INTEGER PRIMARY KEY CHECK (id = 1),
    value INTEGER NOT NULL
) STRICT;
INSERT INTO received_value (id, value) VALUES (1, 0);

CREATE TRIGGER lot_counts AFTER INSERT ON lot BEGIN
    UPDATE received_value SET value = value + NEW.cost;
END;
CREATE TRIGGER movement_goes_back AFTER INSERT ON movement WHEN NEW.to_holder = 1 BEGIN
    UPDATE received_value SET value = value - NEW.value;
END;
CREATE TRIGGER movement_comes_again AFTER INSERT ON movement
WHEN NEW.from_holder = 1 AND NEW.kind <> 'receive' BEGIN
    UPDATE received_value SET value = value + NEW.value;
END;

CREATE TRIGGER movement_stays BEFORE UPDATE ON movement BEGIN
    SELECT RAISE(ABORT, 'the ledger is append-only: a movement is reversed, never changed');
END;
CREATE TRIGGER movement_remains BEFORE DELETE ON movement BEGIN
    SELECT RAISE(ABORT, 'the ledger is append-only: a movement is reversed, never deleted');
END;
CREATE TRIGGER posting_stays BEFORE UPDATE ON posting BEGIN
    SELECT RAISE(ABORT, 'the ledger is append-only: a posting is reversed, never changed');
END;
CREATE TRIGGER posting_remains BEFORE DELETE ON posting BEGIN
    SELECT RAISE(ABORT, 'the ledger is append-only: a posting is reversed, never deleted');
END;
CREATE TRIGGER lot_stays BEFORE UPDATE ON lot BEGIN
    SELECT RAISE(ABORT, 'the ledger is append-only: a lot is never changed');
END;
CREATE TRIGGER lot_remains BEFORE DELETE ON lot BEGIN
    SELECT RAISE(ABORT, 'the ledger is append-only: a lot is never deleted');
END;
CREATE TRIGGER offcut_stays BEFORE UPDATE OF id, posting_id, number, code, material_id, lot_id, width, height, kept_on
ON offcut BEGIN
    SELECT RAISE(ABORT, 'the ledger is append-only: only the place and note of an offcut may change');
END;
CREATE TRIGGER offcut_remains BEFORE DELETE ON offcut BEGIN
    SELECT RAISE(ABORT, 'the ledger is append-only: an offcut is never deleted');
END;
