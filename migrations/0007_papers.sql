-- Which journal has which paper, where the design left a choice: as planned, and of each finished
-- journal. Earlier batches kept only how much of each paper they took.

ALTER TABLE batch_part ADD COLUMN slot TEXT NOT NULL DEFAULT '';
CREATE TABLE batch_paper (
    batch_id    INTEGER NOT NULL,
    run         INTEGER NOT NULL,
    first       INTEGER NOT NULL CHECK (first > 0),
    slot        TEXT NOT NULL,
    last        INTEGER NOT NULL CHECK (last >= first),
    material_id INTEGER NOT NULL REFERENCES material (id),
    PRIMARY KEY (batch_id, run, first, slot),
    FOREIGN KEY (batch_id, run) REFERENCES batch_run (batch_id, run)
) STRICT, WITHOUT ROWID;
CREATE TABLE journal_paper (
    journal_id  INTEGER NOT NULL REFERENCES journal (id),
    slot        TEXT NOT NULL,
    material_id INTEGER NOT NULL REFERENCES material (id),
    PRIMARY KEY (journal_id, slot)
) STRICT, WITHOUT ROWID;
CREATE TRIGGER journal_paper_stays BEFORE UPDATE ON journal_paper BEGIN
    SELECT RAISE(ABORT, 'the ledger is append-only: what a journal was made of is never changed');
END;
CREATE TRIGGER journal_paper_remains BEFORE DELETE ON journal_paper BEGIN
    SELECT RAISE(ABORT, 'the ledger is append-only: what a journal was made of is never deleted');
END;
