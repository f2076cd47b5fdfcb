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
    id         INTEGER PRIMARY KEY REFERENCES holder (id),
    posting_id INTEGER NOT NULL REFERENCES posting (id),
    number     INTEGER NOT NULL UNIQUE CHECK (number > 0)
) STRICT;
CREATE INDEX batch_by_posting ON batch (posting_id);

-- The designs of a batch with how many of each, and what labour and overheads they came to.
CREATE TABLE batch_run (
    batch_id       INTEGER NOT NULL REFERENCES batch (id),
    run            INTEGER NOT NULL CHECK (run >= 0),
    design_text_id INTEGER NOT NULL REFERENCES design_text (id),
    journals       INTEGER NOT NULL CHECK (journals > 0),
    materials      INTEGER NOT NULL CHECK (materials >= 0), -- money, all journals together
    labour         INTEGER NOT NULL CHECK (labour >= 0),
    overheads      INTEGER NOT NULL CHECK (overheads >= 0),
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

-- The cut plan as it was carried out: each sheet (roll, strip) with its areas, which add up.
CREATE TABLE batch_sheet (
    id        INTEGER PRIMARY KEY,
    batch_id  INTEGER NOT NULL REFERENCES batch (id),
    source_id INTEGER NOT NULL REFERENCES holder (id), -- a lot's shelf or an offcut
    plan      INTEGER NOT NULL,                        -- sheets cut alike have the same number
    width     INTEGER NOT NULL CHECK (width > 0),
    height    INTEGER NOT NULL CHECK (height > 0),
    cost      INTEGER NOT NULL CHECK (cost >= 0),
    pieces    INTEGER NOT NULL CHECK (pieces >= 0),    -- area (length, loops) that became pieces,
    kept      INTEGER NOT NULL CHECK (kept >= 0),      -- offcuts,
    waste     INTEGER NOT NULL CHECK (waste >= 0),     -- and waste
    CONSTRAINT areas_add_up CHECK (pieces + kept + waste = width * height)
) STRICT;
CREATE INDEX batch_sheet_by_batch ON batch_sheet (batch_id);
CREATE INDEX batch_sheet_by_source ON batch_sheet (source_id);

-- Where each piece lay on its sheet.
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
    note       TEXT NOT NULL DEFAULT '',
    FOREIGN KEY (batch_id, run) REFERENCES batch_run (batch_id, run)
) STRICT;
CREATE INDEX journal_by_run ON journal (batch_id, run);
CREATE INDEX journal_by_posting ON journal (posting_id);
