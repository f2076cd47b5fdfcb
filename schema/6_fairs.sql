-- Market days: what they cost, what was taken along, what was sold there. Everything is noted by an
-- entry of the book and holds as long as that stands.

CREATE TABLE fair (
    id         INTEGER PRIMARY KEY, -- its number
    posting_id INTEGER NOT NULL UNIQUE REFERENCES posting (id), -- that noted it
    name       TEXT NOT NULL CHECK (name <> ''),
    held_on    TEXT NOT NULL CHECK (held_on IS date(held_on))
) STRICT;
CREATE INDEX fair_by_day ON fair (held_on);

-- What a fair costs: its pitch, the way there. No stock, so not in the ledger.
CREATE TABLE fair_cost (
    posting_id INTEGER NOT NULL REFERENCES posting (id),
    what       TEXT NOT NULL CHECK (what <> ''),
    fair_id    INTEGER NOT NULL REFERENCES fair (id),
    amount     INTEGER NOT NULL CHECK (amount >= 0),
    PRIMARY KEY (posting_id, what)
) STRICT, WITHOUT ROWID;
CREATE INDEX fair_cost_by_fair ON fair_cost (fair_id);

-- A journal taken along. It stays in hand: only its being sold moves it.
CREATE TABLE fair_take (
    posting_id INTEGER NOT NULL REFERENCES posting (id),
    journal_id INTEGER NOT NULL REFERENCES journal (id),
    fair_id    INTEGER NOT NULL REFERENCES fair (id),
    asked      INTEGER CHECK (asked >= 0), -- the price asked from then on; none: no price was known
    PRIMARY KEY (posting_id, journal_id)
) STRICT, WITHOUT ROWID;
CREATE INDEX fair_take_by_fair ON fair_take (fair_id);
CREATE INDEX fair_take_by_journal ON fair_take (journal_id);

-- Sales of that entry (see sale) were made there.
CREATE TABLE fair_sale (
    posting_id INTEGER NOT NULL PRIMARY KEY REFERENCES posting (id),
    fair_id    INTEGER NOT NULL REFERENCES fair (id)
) STRICT;
CREATE INDEX fair_sale_by_fair ON fair_sale (fair_id);

CREATE TRIGGER fair_stays BEFORE UPDATE ON fair BEGIN
    SELECT RAISE(ABORT, 'the ledger is append-only: what is noted of a fair is reversed, never changed');
END;
CREATE TRIGGER fair_remains BEFORE DELETE ON fair BEGIN
    SELECT RAISE(ABORT, 'the ledger is append-only: what is noted of a fair is reversed, never deleted');
END;
CREATE TRIGGER fair_cost_stays BEFORE UPDATE ON fair_cost BEGIN
    SELECT RAISE(ABORT, 'the ledger is append-only: what is noted of a fair is reversed, never changed');
END;
CREATE TRIGGER fair_cost_remains BEFORE DELETE ON fair_cost BEGIN
    SELECT RAISE(ABORT, 'the ledger is append-only: what is noted of a fair is reversed, never deleted');
END;
CREATE TRIGGER fair_take_stays BEFORE UPDATE ON fair_take BEGIN
    SELECT RAISE(ABORT, 'the ledger is append-only: what is noted of a fair is reversed, never changed');
END;
CREATE TRIGGER fair_take_remains BEFORE DELETE ON fair_take BEGIN
    SELECT RAISE(ABORT, 'the ledger is append-only: what is noted of a fair is reversed, never deleted');
END;
CREATE TRIGGER fair_sale_stays BEFORE UPDATE ON fair_sale BEGIN
    SELECT RAISE(ABORT, 'the ledger is append-only: what is noted of a fair is reversed, never changed');
END;
CREATE TRIGGER fair_sale_remains BEFORE DELETE ON fair_sale BEGIN
    SELECT RAISE(ABORT, 'the ledger is append-only: what is noted of a fair is reversed, never deleted');
END;
