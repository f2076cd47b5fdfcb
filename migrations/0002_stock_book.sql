-- The stock book: cost orders, stocktakes, sales, quarters, and where materials are kept.

ALTER TABLE material ADD COLUMN place TEXT NOT NULL DEFAULT '';

INSERT INTO movement_kind (name) VALUES ('split'), ('find'), ('give'), ('apart'), ('take_in');

CREATE TABLE cost_order (
    posting_id INTEGER NOT NULL PRIMARY KEY REFERENCES posting (id),
    method     TEXT NOT NULL
        CHECK (method IN ('first-in-first-out', 'moving-average', 'pick-the-lot'))
) STRICT;

CREATE TABLE stocktake (
    id         INTEGER PRIMARY KEY,
    started_on TEXT NOT NULL CHECK (started_on IS date(started_on)),
    place      TEXT NOT NULL DEFAULT '',
    note       TEXT NOT NULL DEFAULT '',
    status     TEXT NOT NULL DEFAULT 'open' CHECK (status IN ('open', 'posted', 'dropped')),
    posting_id INTEGER UNIQUE REFERENCES posting (id)
) STRICT;

CREATE TABLE stocktake_line (
    stocktake_id INTEGER NOT NULL REFERENCES stocktake (id),
    material_id  INTEGER NOT NULL REFERENCES material (id),
    offcut_id    INTEGER NOT NULL DEFAULT 0,
    counted      INTEGER NOT NULL CHECK (counted >= 0),
    in_book      INTEGER NOT NULL CHECK (in_book >= 0),
    entered_at   TEXT NOT NULL,
    PRIMARY KEY (stocktake_id, material_id, offcut_id)
) STRICT, WITHOUT ROWID;

CREATE TABLE sale (
    posting_id INTEGER NOT NULL REFERENCES posting (id),
    journal_id INTEGER NOT NULL REFERENCES journal (id),
    price      INTEGER NOT NULL CHECK (price >= 0),
    PRIMARY KEY (posting_id, journal_id)
) STRICT, WITHOUT ROWID;
CREATE INDEX sale_by_journal ON sale (journal_id);
CREATE TRIGGER sale_stays BEFORE UPDATE ON sale BEGIN
    SELECT RAISE(ABORT, 'the ledger is append-only: a sale is reversed, never changed');
END;
CREATE TRIGGER sale_remains BEFORE DELETE ON sale BEGIN
    SELECT RAISE(ABORT, 'the ledger is append-only: a sale is reversed, never deleted');
END;

CREATE TABLE quarter (
    day TEXT NOT NULL PRIMARY KEY CHECK (day IS date(day))
) STRICT, WITHOUT ROWID;

CREATE TABLE quarter_balance (
    day       TEXT NOT NULL REFERENCES quarter (day),
    holder_id INTEGER NOT NULL,
    lot_id    INTEGER NOT NULL,
    quantity  INTEGER NOT NULL,
    value     INTEGER NOT NULL,
    PRIMARY KEY (day, holder_id, lot_id)
) STRICT, WITHOUT ROWID;

CREATE TABLE quarter_value (
    day   TEXT NOT NULL REFERENCES quarter (day),
    kind  TEXT NOT NULL,
    value INTEGER NOT NULL,
    PRIMARY KEY (day, kind)
) STRICT, WITHOUT ROWID;

CREATE TRIGGER movement_reaches_back AFTER INSERT ON movement
WHEN EXISTS (SELECT 1 FROM quarter JOIN posting ON day >= made_on WHERE posting.id = NEW.posting_id)
BEGIN
    INSERT OR IGNORE INTO quarter_balance (day, holder_id, lot_id, quantity, value)
    SELECT day, holder.id, ifnull(NEW.lot_id, 0), 0, 0
    FROM quarter JOIN posting ON day >= made_on
    JOIN holder ON holder.id IN (NEW.from_holder, NEW.to_holder)
    WHERE posting.id = NEW.posting_id AND holder.kind IN ('shelf', 'offcut', 'batch', 'journal');

    UPDATE quarter_balance SET
        quantity = quantity + CASE holder_id WHEN NEW.to_holder THEN NEW.quantity ELSE -NEW.quantity END,
        value = value + CASE holder_id WHEN NEW.to_holder THEN NEW.value ELSE -NEW.value END
    WHERE day >= (SELECT made_on FROM posting WHERE id = NEW.posting_id)
      AND holder_id IN (NEW.from_holder, NEW.to_holder) AND lot_id = ifnull(NEW.lot_id, 0);

    DELETE FROM quarter_balance
    WHERE day >= (SELECT made_on FROM posting WHERE id = NEW.posting_id)
      AND holder_id IN (NEW.from_holder, NEW.to_holder) AND lot_id = ifnull(NEW.lot_id, 0)
      AND quantity = 0 AND value = 0;

    INSERT OR IGNORE INTO quarter_value (day, kind, value)
    SELECT day, holder.kind, 0 FROM quarter JOIN posting ON day >= made_on
    JOIN holder ON holder.id IN (NEW.from_holder, NEW.to_holder)
    WHERE posting.id = NEW.posting_id;

    UPDATE quarter_value SET value = value - NEW.value
    WHERE day >= (SELECT made_on FROM posting WHERE id = NEW.posting_id)
      AND kind = (SELECT kind FROM holder WHERE id = NEW.from_holder);

    UPDATE quarter_value SET value = value + NEW.value
    WHERE day >= (SELECT made_on FROM posting WHERE id = NEW.posting_id)
      AND kind = (SELECT kind FROM holder WHERE id = NEW.to_holder);
END;
