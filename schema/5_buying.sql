-- Supplies asked from a supplier. An order is placed by one entry and may be ended by another; what
-- came for it are lots. How much is outstanding follows from those whose entries stand.

CREATE TABLE supply_order (
    id          INTEGER PRIMARY KEY, -- its number
    posting_id  INTEGER NOT NULL UNIQUE REFERENCES posting (id), -- that placed it
    supplier_id INTEGER NOT NULL REFERENCES supplier (id),
    expected_on TEXT NOT NULL CHECK (expected_on IS date(expected_on))
) STRICT;

CREATE TABLE order_line (
    order_id    INTEGER NOT NULL REFERENCES supply_order (id),
    material_id INTEGER NOT NULL REFERENCES material (id),
    units       INTEGER NOT NULL CHECK (units > 0), -- sheets, rolls, ...; bulk: thousandths
    cost        INTEGER CHECK (cost >= 0), -- agreed for all of them, if known
    PRIMARY KEY (order_id, material_id)
) STRICT, WITHOUT ROWID;

-- A lot that came for an order. More may come than was asked for.
CREATE TABLE order_receipt (
    lot_id      INTEGER NOT NULL PRIMARY KEY REFERENCES lot (id),
    order_id    INTEGER NOT NULL,
    material_id INTEGER NOT NULL,
    FOREIGN KEY (order_id, material_id) REFERENCES order_line (order_id, material_id)
) STRICT;
CREATE INDEX order_receipt_by_order ON order_receipt (order_id, material_id);

-- What is outstanding of an order is not coming any more.
CREATE TABLE order_end (
    posting_id INTEGER NOT NULL PRIMARY KEY REFERENCES posting (id),
    order_id   INTEGER NOT NULL REFERENCES supply_order (id)
) STRICT;
CREATE INDEX order_end_by_order ON order_end (order_id);

CREATE TRIGGER supply_order_stays BEFORE UPDATE ON supply_order BEGIN
    SELECT RAISE(ABORT, 'the ledger is append-only: an order is reversed, never changed');
END;
CREATE TRIGGER supply_order_remains BEFORE DELETE ON supply_order BEGIN
    SELECT RAISE(ABORT, 'the ledger is append-only: an order is reversed, never deleted');
END;
CREATE TRIGGER order_line_stays BEFORE UPDATE ON order_line BEGIN
    SELECT RAISE(ABORT, 'the ledger is append-only: an order is reversed, never changed');
END;
CREATE TRIGGER order_line_remains BEFORE DELETE ON order_line BEGIN
    SELECT RAISE(ABORT, 'the ledger is append-only: an order is reversed, never deleted');
END;
CREATE TRIGGER order_receipt_stays BEFORE UPDATE ON order_receipt BEGIN
    SELECT RAISE(ABORT, 'the ledger is append-only: what came for an order is reversed, never changed');
END;
CREATE TRIGGER order_receipt_remains BEFORE DELETE ON order_receipt BEGIN
    SELECT RAISE(ABORT, 'the ledger is append-only: what came for an order is reversed, never deleted');
END;
CREATE TRIGGER order_end_stays BEFORE UPDATE ON order_end BEGIN
    SELECT RAISE(ABORT, 'the ledger is append-only: what became of an order is reversed, never changed');
END;
CREATE TRIGGER order_end_remains BEFORE DELETE ON order_end BEGIN
    SELECT RAISE(ABORT, 'the ledger is append-only: what became of an order is reversed, never deleted');
END;
