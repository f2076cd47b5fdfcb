-- The first shop: settings, suppliers, materials, the ledger, designs and batches. What the tables mean
-- is told in schema/.

CREATE TABLE setting (
    name  TEXT NOT NULL PRIMARY KEY,
    value TEXT NOT NULL
) STRICT, WITHOUT ROWID;

CREATE TABLE supplier (
    id        INTEGER PRIMARY KEY,
    code      TEXT NOT NULL UNIQUE COLLATE NOCASE CHECK (length(code) BETWEEN 1 AND 40),
    name      TEXT NOT NULL CHECK (name <> ''),
    lead_days INTEGER NOT NULL DEFAULT 0 CHECK (lead_days >= 0),
    note      TEXT NOT NULL DEFAULT ''
) STRICT;

CREATE TABLE material (
    id          INTEGER PRIMARY KEY,
    code        TEXT NOT NULL UNIQUE COLLATE NOCASE CHECK (length(code) BETWEEN 1 AND 40),
    name        TEXT NOT NULL CHECK (name <> ''),
    form        TEXT NOT NULL CHECK (form IN ('sheet', 'length', 'wire', 'count', 'bulk')),
    bulk_unit   TEXT NOT NULL DEFAULT '' CHECK ((form = 'bulk') = (bulk_unit IN ('ml', 'g'))),
    collection  TEXT NOT NULL DEFAULT '' COLLATE NOCASE,
    supplier_id INTEGER REFERENCES supplier (id),
    fresh_width  INTEGER NOT NULL CHECK (fresh_width > 0),
    fresh_height INTEGER NOT NULL CHECK (fresh_height > 0),
    pack_units   INTEGER NOT NULL DEFAULT 1 CHECK (pack_units > 0),
    pack_price   INTEGER CHECK (pack_price >= 0),
    least_shorter INTEGER NOT NULL DEFAULT 0 CHECK (least_shorter >= 0),
    least_longer  INTEGER NOT NULL DEFAULT 0 CHECK (least_longer >= least_shorter),
    trim_left   INTEGER NOT NULL DEFAULT 0 CHECK (trim_left >= 0),
    trim_right  INTEGER NOT NULL DEFAULT 0 CHECK (trim_right >= 0),
    trim_top    INTEGER NOT NULL DEFAULT 0 CHECK (trim_top >= 0),
    trim_bottom INTEGER NOT NULL DEFAULT 0 CHECK (trim_bottom >= 0),
    kerf        INTEGER NOT NULL DEFAULT 0 CHECK (kerf >= 0),
    pattern     TEXT NOT NULL DEFAULT 'none' CHECK (pattern IN ('none', 'one-way', 'two-way')),
    grain       TEXT NOT NULL DEFAULT '' CHECK (grain IN ('', 'width', 'height')),
    reorder_level INTEGER NOT NULL DEFAULT 0 CHECK (reorder_level >= 0),
    hazard      TEXT NOT NULL DEFAULT '',
    note        TEXT NOT NULL DEFAULT ''
) STRICT;
CREATE INDEX material_by_supplier ON material (supplier_id);

CREATE TABLE holder_kind (name TEXT NOT NULL PRIMARY KEY) STRICT, WITHOUT ROWID;
INSERT INTO holder_kind (name) VALUES
    ('outside'),
    ('shelf'),
    ('offcut'),
    ('batch'),
    ('made'),
    ('journal'),
    ('sold'),
    ('written_off');

CREATE TABLE holder (
    id   INTEGER PRIMARY KEY,
    kind TEXT NOT NULL REFERENCES holder_kind (name)
) STRICT;
INSERT INTO holder (id, kind) VALUES
    (1, 'outside'), (2, 'sold'), (3, 'written_off'), (4, 'made');

CREATE TABLE posting (
    id          INTEGER PRIMARY KEY,
    kind        TEXT NOT NULL,
    made_on     TEXT NOT NULL CHECK (made_on IS date(made_on)),
    recorded_at TEXT NOT NULL,
    who         TEXT NOT NULL DEFAULT '',
    note        TEXT NOT NULL DEFAULT '',
    reverses    INTEGER UNIQUE REFERENCES posting (id) CHECK (reverses < id)
) STRICT;
CREATE INDEX posting_by_day ON posting (made_on);

CREATE TABLE lot (
    id          INTEGER PRIMARY KEY REFERENCES holder (id),
    posting_id  INTEGER NOT NULL REFERENCES posting (id),
    material_id INTEGER NOT NULL REFERENCES material (id),
    supplier_id INTEGER REFERENCES supplier (id),
    unit_width  INTEGER NOT NULL CHECK (unit_width > 0),
    unit_height INTEGER NOT NULL CHECK (unit_height > 0),
    quantity    INTEGER NOT NULL CHECK (quantity > 0),
    cost        INTEGER NOT NULL CHECK (cost >= 0),
    received_on TEXT NOT NULL CHECK (received_on IS date(received_on)),
    note        TEXT NOT NULL DEFAULT '',
    CHECK (quantity % (unit_width * unit_height) = 0)
) STRICT;
CREATE INDEX lot_by_material ON lot (material_id, received_on, id);
CREATE INDEX lot_by_posting ON lot (posting_id);

CREATE TABLE offcut (
    id          INTEGER PRIMARY KEY REFERENCES holder (id),
    posting_id  INTEGER NOT NULL REFERENCES posting (id),
    number      INTEGER NOT NULL UNIQUE CHECK (number >= 0),
    code        TEXT NOT NULL UNIQUE,
    material_id INTEGER NOT NULL REFERENCES material (id),
    lot_id      INTEGER NOT NULL REFERENCES lot (id),
    width       INTEGER NOT NULL CHECK (width > 0),
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
    ('sell'), ('reverse');

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

CREATE TABLE kind_value (
    kind  TEXT NOT NULL PRIMARY KEY,
    value INTEGER NOT NULL
) STRICT, WITHOUT ROWID;

CREATE TRIGGER movement_counts AFTER INSERT ON movement BEGIN
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

CREATE TABLE design (
    id   INTEGER PRIMARY KEY,
    code TEXT NOT NULL UNIQUE COLLATE NOCASE CHECK (length(code) BETWEEN 1 AND 40),
    name TEXT NOT NULL CHECK (name <> '')
) STRICT;

CREATE TABLE design_text (
    id         INTEGER PRIMARY KEY,
    design_id  INTEGER NOT NULL REFERENCES design (id),
    number     INTEGER NOT NULL CHECK (number > 0),
    text       TEXT NOT NULL,
    file       TEXT NOT NULL,
    brought_on TEXT NOT NULL CHECK (brought_on IS date(brought_on)),
    UNIQUE (design_id, number)
) STRICT;

CREATE TABLE batch (
    id     INTEGER PRIMARY KEY REFERENCES holder (id),
    number INTEGER NOT NULL UNIQUE CHECK (number > 0),
    status TEXT NOT NULL
        CHECK (status IN ('undone', 'planned', 'cut', 'finished', 'abandoned'))
) STRICT;
CREATE INDEX batch_open ON batch (status) WHERE status IN ('planned', 'cut');

CREATE TABLE batch_event (
    id         INTEGER PRIMARY KEY,
    batch_id   INTEGER NOT NULL REFERENCES batch (id),
    posting_id INTEGER NOT NULL UNIQUE REFERENCES posting (id),
    status     TEXT NOT NULL CHECK (status IN ('planned', 'cut', 'finished', 'abandoned'))
) STRICT;
CREATE INDEX batch_event_by_batch ON batch_event (batch_id);

CREATE TABLE batch_run (
    batch_id       INTEGER NOT NULL REFERENCES batch (id),
    run            INTEGER NOT NULL CHECK (run >= 0),
    design_text_id INTEGER NOT NULL REFERENCES design_text (id),
    journals       INTEGER NOT NULL CHECK (journals > 0),
    minutes        INTEGER NOT NULL CHECK (minutes >= 0),
    materials      INTEGER NOT NULL CHECK (materials >= 0),
    labour         INTEGER NOT NULL CHECK (labour >= 0),
    overheads      INTEGER NOT NULL CHECK (overheads >= 0),
    PRIMARY KEY (batch_id, run)
) STRICT, WITHOUT ROWID;
CREATE INDEX batch_run_by_text ON batch_run (design_text_id);

CREATE TABLE batch_change (
    batch_id INTEGER NOT NULL,
    run      INTEGER NOT NULL,
    what     TEXT NOT NULL CHECK (what IN ('set', 'use')),
    name     TEXT NOT NULL,
    value    TEXT NOT NULL,
    PRIMARY KEY (batch_id, run, what, name),
    FOREIGN KEY (batch_id, run) REFERENCES batch_run (batch_id, run)
) STRICT, WITHOUT ROWID;

CREATE TABLE batch_part (
    batch_id    INTEGER NOT NULL,
    run         INTEGER NOT NULL,
    seq         INTEGER NOT NULL,
    part        TEXT NOT NULL,
    material_id INTEGER NOT NULL REFERENCES material (id),
    quantity    INTEGER NOT NULL CHECK (quantity >= 0),
    cost        INTEGER NOT NULL CHECK (cost >= 0),
    PRIMARY KEY (batch_id, run, seq),
    FOREIGN KEY (batch_id, run) REFERENCES batch_run (batch_id, run)
) STRICT, WITHOUT ROWID;

CREATE TABLE batch_sheet (
    id          INTEGER PRIMARY KEY,
    batch_id    INTEGER NOT NULL REFERENCES batch (id),
    material_id INTEGER NOT NULL REFERENCES material (id),
    source_id   INTEGER NOT NULL REFERENCES holder (id),
    plan        INTEGER NOT NULL CHECK (plan >= 0),
    width       INTEGER NOT NULL CHECK (width > 0),
    height      INTEGER NOT NULL CHECK (height > 0)
) STRICT;
CREATE INDEX batch_sheet_by_batch ON batch_sheet (batch_id);
CREATE INDEX batch_sheet_by_source ON batch_sheet (source_id);

CREATE TABLE batch_piece (
    sheet_id INTEGER NOT NULL REFERENCES batch_sheet (id),
    seq      INTEGER NOT NULL,
    run      INTEGER NOT NULL,
    part     TEXT NOT NULL,
    x        INTEGER NOT NULL CHECK (x >= 0),
    y        INTEGER NOT NULL CHECK (y >= 0),
    width    INTEGER NOT NULL CHECK (width > 0),
    height   INTEGER NOT NULL CHECK (height > 0),
    PRIMARY KEY (sheet_id, seq)
) STRICT, WITHOUT ROWID;

CREATE TABLE batch_remnant (
    sheet_id   INTEGER NOT NULL REFERENCES batch_sheet (id),
    seq        INTEGER NOT NULL,
    x          INTEGER NOT NULL CHECK (x >= 0),
    y          INTEGER NOT NULL CHECK (y >= 0),
    width      INTEGER NOT NULL CHECK (width > 0),
    height     INTEGER NOT NULL CHECK (height > 0),
    keeps_code INTEGER NOT NULL CHECK (keeps_code IN (0, 1)),
    PRIMARY KEY (sheet_id, seq)
) STRICT, WITHOUT ROWID;

CREATE TABLE batch_take (
    batch_id    INTEGER NOT NULL REFERENCES batch (id),
    lot_id      INTEGER NOT NULL REFERENCES lot (id),
    material_id INTEGER NOT NULL REFERENCES material (id),
    quantity    INTEGER NOT NULL CHECK (quantity > 0),
    PRIMARY KEY (batch_id, lot_id)
) STRICT, WITHOUT ROWID;
CREATE INDEX batch_take_by_lot ON batch_take (lot_id);

CREATE TABLE cut_sheet (
    id         INTEGER PRIMARY KEY,
    posting_id INTEGER NOT NULL REFERENCES posting (id),
    batch_id   INTEGER NOT NULL REFERENCES batch (id),
    planned_id INTEGER REFERENCES batch_sheet (id),
    source_id  INTEGER NOT NULL REFERENCES holder (id),
    width      INTEGER NOT NULL CHECK (width > 0),
    height     INTEGER NOT NULL CHECK (height > 0),
    cost       INTEGER NOT NULL CHECK (cost >= 0),
    pieces     INTEGER NOT NULL CHECK (pieces >= 0),
    kept       INTEGER NOT NULL CHECK (kept >= 0),
    kept_value INTEGER NOT NULL CHECK (kept_value BETWEEN 0 AND cost),
    waste      INTEGER NOT NULL CHECK (waste >= 0),
    CONSTRAINT areas_add_up CHECK (pieces + kept + waste = width * height)
) STRICT;
CREATE INDEX cut_sheet_by_batch ON cut_sheet (batch_id);
CREATE INDEX cut_sheet_by_posting ON cut_sheet (posting_id);
CREATE INDEX cut_sheet_by_source ON cut_sheet (source_id);

CREATE TABLE finished_run (
    posting_id INTEGER NOT NULL REFERENCES posting (id),
    batch_id   INTEGER NOT NULL,
    run        INTEGER NOT NULL,
    journals   INTEGER NOT NULL CHECK (journals >= 0),
    minutes    INTEGER NOT NULL CHECK (minutes >= 0),
    materials  INTEGER NOT NULL CHECK (materials >= 0),
    labour     INTEGER NOT NULL CHECK (labour >= 0),
    overheads  INTEGER NOT NULL CHECK (overheads >= 0),
    PRIMARY KEY (posting_id, run),
    FOREIGN KEY (batch_id, run) REFERENCES batch_run (batch_id, run)
) STRICT, WITHOUT ROWID;
CREATE INDEX finished_run_by_batch ON finished_run (batch_id);

CREATE TABLE journal (
    id         INTEGER PRIMARY KEY REFERENCES holder (id),
    posting_id INTEGER NOT NULL REFERENCES posting (id),
    serial     TEXT NOT NULL UNIQUE,
    batch_id   INTEGER NOT NULL,
    run        INTEGER NOT NULL,
    materials  INTEGER NOT NULL CHECK (materials >= 0),
    labour     INTEGER NOT NULL CHECK (labour >= 0),
    overheads  INTEGER NOT NULL CHECK (overheads >= 0),
    condition  TEXT NOT NULL DEFAULT 'good' CHECK (condition IN ('good', 'second')),
    place      TEXT NOT NULL DEFAULT '',
    price      INTEGER CHECK (price >= 0),
    note       TEXT NOT NULL DEFAULT '',
    FOREIGN KEY (batch_id, run) REFERENCES batch_run (batch_id, run)
) STRICT;
CREATE INDEX journal_by_run ON journal (batch_id, run);
CREATE INDEX journal_by_posting ON journal (posting_id);
CREATE TRIGGER journal_stays
BEFORE UPDATE OF id, posting_id, serial, batch_id, run, materials, labour, overheads ON journal BEGIN
    SELECT RAISE(ABORT, 'the ledger is append-only: what a journal cost is never changed');
END;
CREATE TRIGGER journal_remains BEFORE DELETE ON journal BEGIN
    SELECT RAISE(ABORT, 'the ledger is append-only: a journal is never deleted');
END;
CREATE TRIGGER batch_event_stays BEFORE UPDATE ON batch_event BEGIN
    SELECT RAISE(ABORT, 'the ledger is append-only: what became of a batch is reversed, never changed');
END;
CREATE TRIGGER batch_event_remains BEFORE DELETE ON batch_event BEGIN
    SELECT RAISE(ABORT, 'the ledger is append-only: what became of a batch is reversed, never deleted');
END;
CREATE TRIGGER cut_sheet_stays BEFORE UPDATE ON cut_sheet BEGIN
    SELECT RAISE(ABORT, 'the ledger is append-only: what was cut is reversed, never changed');
END;
CREATE TRIGGER cut_sheet_remains BEFORE DELETE ON cut_sheet BEGIN
    SELECT RAISE(ABORT, 'the ledger is append-only: what was cut is reversed, never deleted');
END;
CREATE TRIGGER finished_run_stays BEFORE UPDATE ON finished_run BEGIN
    SELECT RAISE(ABORT, 'the ledger is append-only: what finishing came to is reversed, never changed');
END;
CREATE TRIGGER finished_run_remains BEFORE DELETE ON finished_run BEGIN
    SELECT RAISE(ABORT, 'the ledger is append-only: what finishing came to is reversed, never deleted');
END;
