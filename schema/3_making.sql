-- Designs, and what was made of them.

-- A design is known by its code; each text of it that was brought in is kept for good, because
-- batches were made from it.
CREATE TABLE design (
    id   INTEGER PRIMARY KEY,
    code TEXT NOT NULL UNIQUE COLLATE NOCASE CHECK (length(code) BETWEEN 1 AND 40),
    name TEXT NOT NULL CHECK (name <> '')
) STRICT;

CREATE TABLE design_text (
    id         INTEGER PRIMARY KEY,
    design_id  INTEGER NOT NULL REFERENCES design (id),
    number     INTEGER NOT NULL CHECK (number > 0), -- 1, 2, 3, ...: the highest is in use
    text       TEXT NOT NULL,                       -- the TOML file as it was
    file       TEXT NOT NULL,                       -- its name then, for messages
    brought_on TEXT NOT NULL CHECK (brought_on IS date(brought_on)),
    UNIQUE (design_id, number)
) STRICT;

-- A run of journals made together. Its id is that of its holder (work under way).
CREATE TABLE batch (
    id     INTEGER PRIMARY KEY REFERENCES holder (id),
    number INTEGER NOT NULL UNIQUE CHECK (number > 0),
    -- Derived from batch_event: where the batch stands now; 'undone' when all of it was reversed.
    status TEXT NOT NULL
        CHECK (status IN ('undone', 'planned', 'cut', 'finished', 'abandoned'))
) STRICT;
CREATE INDEX batch_open ON batch (status) WHERE status IN ('planned', 'cut');

-- What became of a batch, each with the posting that did it. The batch stands where the latest of
-- these stands whose posting was not reversed.
CREATE TABLE batch_event (
    id         INTEGER PRIMARY KEY,
    batch_id   INTEGER NOT NULL REFERENCES batch (id),
    posting_id INTEGER NOT NULL UNIQUE REFERENCES posting (id),
    status     TEXT NOT NULL CHECK (status IN ('planned', 'cut', 'finished', 'abandoned'))
) STRICT;
CREATE INDEX batch_event_by_batch ON batch_event (batch_id);

-- The plan of a batch, kept as it was made: its designs with how many of each.
CREATE TABLE batch_run (
    batch_id       INTEGER NOT NULL REFERENCES batch (id),
    run            INTEGER NOT NULL CHECK (run >= 0),
    design_text_id INTEGER NOT NULL REFERENCES design_text (id),
    journals       INTEGER NOT NULL CHECK (journals > 0),
    minutes        INTEGER NOT NULL CHECK (minutes >= 0),   -- whole run, divided by minutes_over
    materials      INTEGER NOT NULL CHECK (materials >= 0), -- money, whole run
    labour         INTEGER NOT NULL CHECK (labour >= 0),
    overheads      INTEGER NOT NULL CHECK (overheads >= 0),
    code           TEXT NOT NULL DEFAULT '' COLLATE NOCASE, -- what it was called then: of a family
    name           TEXT NOT NULL DEFAULT '',                -- of designs, which one it is
    minutes_over   INTEGER NOT NULL DEFAULT 1000 CHECK (minutes_over > 0),
    PRIMARY KEY (batch_id, run)
) STRICT, WITHOUT ROWID;
CREATE INDEX batch_run_by_text ON batch_run (design_text_id);

-- What was changed against the design's own values for a run: parameters set, materials used.
CREATE TABLE batch_change (
    batch_id INTEGER NOT NULL,
    run      INTEGER NOT NULL,
    what     TEXT NOT NULL CHECK (what IN ('set', 'use')),
    name     TEXT NOT NULL,
    value    TEXT NOT NULL,
    PRIMARY KEY (batch_id, run, what, name),
    FOREIGN KEY (batch_id, run) REFERENCES batch_run (batch_id, run)
) STRICT, WITHOUT ROWID;

-- What each part was planned to take and cost.
CREATE TABLE batch_part (
    batch_id    INTEGER NOT NULL,
    run         INTEGER NOT NULL,
    seq         INTEGER NOT NULL,
    part        TEXT NOT NULL,
    material_id INTEGER NOT NULL REFERENCES material (id),
    quantity    INTEGER NOT NULL CHECK (quantity >= 0), -- pieces, length units, loops, things, thousandths
    cost        INTEGER NOT NULL CHECK (cost >= 0),
    slot        TEXT NOT NULL DEFAULT '', -- whose choice of paper (batch_paper) the part follows
    PRIMARY KEY (batch_id, run, seq),
    FOREIGN KEY (batch_id, run) REFERENCES batch_run (batch_id, run)
) STRICT, WITHOUT ROWID;

-- Journals `first` to `last` of a run have this paper, where the design left a choice.
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

-- Each sheet, roll or strip the plan cuts. While the batch is planned, it is reserved.
CREATE TABLE batch_sheet (
    id          INTEGER PRIMARY KEY,
    batch_id    INTEGER NOT NULL REFERENCES batch (id),
    material_id INTEGER NOT NULL REFERENCES material (id),
    source_id   INTEGER NOT NULL REFERENCES holder (id), -- a lot's shelf or an offcut
    plan        INTEGER NOT NULL CHECK (plan >= 0),      -- sheets cut alike have the same number
    width       INTEGER NOT NULL CHECK (width > 0),
    height      INTEGER NOT NULL CHECK (height > 0)
) STRICT;
CREATE INDEX batch_sheet_by_batch ON batch_sheet (batch_id);
CREATE INDEX batch_sheet_by_source ON batch_sheet (source_id);

-- Where each piece lies on its sheet.
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

-- The remnants the plan keeps of each sheet.
CREATE TABLE batch_remnant (
    sheet_id   INTEGER NOT NULL REFERENCES batch_sheet (id),
    seq        INTEGER NOT NULL,
    x          INTEGER NOT NULL CHECK (x >= 0),
    y          INTEGER NOT NULL CHECK (y >= 0),
    width      INTEGER NOT NULL CHECK (width > 0),
    height     INTEGER NOT NULL CHECK (height > 0),
    keeps_code INTEGER NOT NULL CHECK (keeps_code IN (0, 1)), -- what is left of a length cut further
    PRIMARY KEY (sheet_id, seq)
) STRICT, WITHOUT ROWID;

-- Counted and poured things the plan takes. While the batch is planned, they are reserved.
CREATE TABLE batch_take (
    batch_id    INTEGER NOT NULL REFERENCES batch (id),
    lot_id      INTEGER NOT NULL REFERENCES lot (id),
    material_id INTEGER NOT NULL REFERENCES material (id),
    quantity    INTEGER NOT NULL CHECK (quantity > 0),
    PRIMARY KEY (batch_id, lot_id)
) STRICT, WITHOUT ROWID;
CREATE INDEX batch_take_by_lot ON batch_take (lot_id);

-- What was really cut: the sheets of the plan, and those spoiled on the way (without a plan).
CREATE TABLE cut_sheet (
    id         INTEGER PRIMARY KEY,
    posting_id INTEGER NOT NULL REFERENCES posting (id),
    batch_id   INTEGER NOT NULL REFERENCES batch (id),
    planned_id INTEGER REFERENCES batch_sheet (id), -- none: a sheet that was spoiled
    source_id  INTEGER NOT NULL REFERENCES holder (id),
    width      INTEGER NOT NULL CHECK (width > 0),
    height     INTEGER NOT NULL CHECK (height > 0),
    cost       INTEGER NOT NULL CHECK (cost >= 0),
    pieces     INTEGER NOT NULL CHECK (pieces >= 0), -- area (length, loops) that became pieces,
    kept       INTEGER NOT NULL CHECK (kept >= 0),   -- offcuts,
    kept_value INTEGER NOT NULL CHECK (kept_value BETWEEN 0 AND cost), -- and what they carry,
    waste      INTEGER NOT NULL CHECK (waste >= 0),  -- and waste
    CONSTRAINT areas_add_up CHECK (pieces + kept + waste = width * height)
) STRICT;
CREATE INDEX cut_sheet_by_batch ON cut_sheet (batch_id);
CREATE INDEX cut_sheet_by_posting ON cut_sheet (posting_id);
CREATE INDEX cut_sheet_by_source ON cut_sheet (source_id);

-- What finishing a run came to.
CREATE TABLE finished_run (
    posting_id INTEGER NOT NULL REFERENCES posting (id),
    batch_id   INTEGER NOT NULL,
    run        INTEGER NOT NULL,
    journals   INTEGER NOT NULL CHECK (journals >= 0),  -- that came of it, seconds included
    minutes    INTEGER NOT NULL CHECK (minutes >= 0),   -- thousandths of a minute
    materials  INTEGER NOT NULL CHECK (materials >= 0), -- money, all journals together
    labour     INTEGER NOT NULL CHECK (labour >= 0),
    overheads  INTEGER NOT NULL CHECK (overheads >= 0),
    PRIMARY KEY (posting_id, run),
    FOREIGN KEY (batch_id, run) REFERENCES batch_run (batch_id, run)
) STRICT, WITHOUT ROWID;
CREATE INDEX finished_run_by_batch ON finished_run (batch_id);

-- One finished journal. Its id is that of its holder.
CREATE TABLE journal (
    id         INTEGER PRIMARY KEY REFERENCES holder (id),
    posting_id INTEGER NOT NULL REFERENCES posting (id),
    serial     TEXT NOT NULL UNIQUE,
    batch_id   INTEGER NOT NULL,
    run        INTEGER NOT NULL,
    materials  INTEGER NOT NULL CHECK (materials >= 0), -- its share of the run, money
    labour     INTEGER NOT NULL CHECK (labour >= 0),
    overheads  INTEGER NOT NULL CHECK (overheads >= 0),
    condition  TEXT NOT NULL DEFAULT 'good' CHECK (condition IN ('good', 'second')),
    place      TEXT NOT NULL DEFAULT '',
    price      INTEGER CHECK (price >= 0), -- wanted on the stall, if it differs from the design's
    note       TEXT NOT NULL DEFAULT '',
    FOREIGN KEY (batch_id, run) REFERENCES batch_run (batch_id, run)
) STRICT;
CREATE INDEX journal_by_run ON journal (batch_id, run);
CREATE INDEX journal_by_posting ON journal (posting_id);

-- The papers it has, where the design left a choice.
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
