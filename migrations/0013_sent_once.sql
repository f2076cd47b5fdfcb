-- Forms of the page are sent with a key that the page made. What was written keeps it in the same
-- transaction, so that a form sent twice, by a second tap or a reload, is booked once.
CREATE TABLE sent_once (
    key TEXT PRIMARY KEY CHECK (length(key) BETWEEN 16 AND 64), -- made by the page or the phone
    posting_id INTEGER REFERENCES posting (id) -- the last entry it made; NULL: it wrote none
) STRICT, WITHOUT ROWID;
CREATE TRIGGER sent_once_stays BEFORE UPDATE ON sent_once BEGIN
    SELECT RAISE(ABORT, 'the ledger is append-only: a key that was used is never changed');
END;
CREATE TRIGGER sent_once_remains BEFORE DELETE ON sent_once BEGIN
    SELECT RAISE(ABORT, 'the ledger is append-only: a key that was used is never deleted');
END;
