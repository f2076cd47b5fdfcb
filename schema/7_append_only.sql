-- What else the book rests on is never changed and never deleted: holders, the texts of designs,
-- decisions on the cost order, the plans of batches. Where a batch stands (status) is derived.

CREATE TRIGGER holder_stays BEFORE UPDATE ON holder BEGIN
    SELECT RAISE(ABORT, 'the ledger is append-only: a holder is never changed');
END;
CREATE TRIGGER holder_remains BEFORE DELETE ON holder BEGIN
    SELECT RAISE(ABORT, 'the ledger is append-only: a holder is never deleted');
END;
CREATE TRIGGER design_text_stays BEFORE UPDATE ON design_text BEGIN
    SELECT RAISE(ABORT, 'the ledger is append-only: the text of a design is never changed');
END;
CREATE TRIGGER design_text_remains BEFORE DELETE ON design_text BEGIN
    SELECT RAISE(ABORT, 'the ledger is append-only: the text of a design is never deleted');
END;
CREATE TRIGGER cost_order_stays BEFORE UPDATE ON cost_order BEGIN
    SELECT RAISE(ABORT, 'the ledger is append-only: a decision on the cost order is never changed');
END;
CREATE TRIGGER cost_order_remains BEFORE DELETE ON cost_order BEGIN
    SELECT RAISE(ABORT, 'the ledger is append-only: a decision on the cost order is never deleted');
END;
CREATE TRIGGER batch_run_stays BEFORE UPDATE ON batch_run BEGIN
    SELECT RAISE(ABORT, 'the ledger is append-only: the plan of a batch is never changed');
END;
CREATE TRIGGER batch_run_remains BEFORE DELETE ON batch_run BEGIN
    SELECT RAISE(ABORT, 'the ledger is append-only: the plan of a batch is never deleted');
END;
CREATE TRIGGER batch_change_stays BEFORE UPDATE ON batch_change BEGIN
    SELECT RAISE(ABORT, 'the ledger is append-only: the plan of a batch is never changed');
END;
CREATE TRIGGER batch_change_remains BEFORE DELETE ON batch_change BEGIN
    SELECT RAISE(ABORT, 'the ledger is append-only: the plan of a batch is never deleted');
END;
CREATE TRIGGER batch_part_stays BEFORE UPDATE ON batch_part BEGIN
    SELECT RAISE(ABORT, 'the ledger is append-only: the plan of a batch is never changed');
END;
CREATE TRIGGER batch_part_remains BEFORE DELETE ON batch_part BEGIN
    SELECT RAISE(ABORT, 'the ledger is append-only: the plan of a batch is never deleted');
END;
CREATE TRIGGER batch_paper_stays BEFORE UPDATE ON batch_paper BEGIN
    SELECT RAISE(ABORT, 'the ledger is append-only: the plan of a batch is never changed');
END;
CREATE TRIGGER batch_paper_remains BEFORE DELETE ON batch_paper BEGIN
    SELECT RAISE(ABORT, 'the ledger is append-only: the plan of a batch is never deleted');
END;
CREATE TRIGGER batch_sheet_stays BEFORE UPDATE ON batch_sheet BEGIN
    SELECT RAISE(ABORT, 'the ledger is append-only: the plan of a batch is never changed');
END;
CREATE TRIGGER batch_sheet_remains BEFORE DELETE ON batch_sheet BEGIN
    SELECT RAISE(ABORT, 'the ledger is append-only: the plan of a batch is never deleted');
END;
CREATE TRIGGER batch_piece_stays BEFORE UPDATE ON batch_piece BEGIN
    SELECT RAISE(ABORT, 'the ledger is append-only: the plan of a batch is never changed');
END;
CREATE TRIGGER batch_piece_remains BEFORE DELETE ON batch_piece BEGIN
    SELECT RAISE(ABORT, 'the ledger is append-only: the plan of a batch is never deleted');
END;
CREATE TRIGGER batch_remnant_stays BEFORE UPDATE ON batch_remnant BEGIN
    SELECT RAISE(ABORT, 'the ledger is append-only: the plan of a batch is never changed');
END;
CREATE TRIGGER batch_remnant_remains BEFORE DELETE ON batch_remnant BEGIN
    SELECT RAISE(ABORT, 'the ledger is append-only: the plan of a batch is never deleted');
END;
CREATE TRIGGER batch_take_stays BEFORE UPDATE ON batch_take BEGIN
    SELECT RAISE(ABORT, 'the ledger is append-only: the plan of a batch is never changed');
END;
CREATE TRIGGER batch_take_remains BEFORE DELETE ON batch_take BEGIN
    SELECT RAISE(ABORT, 'the ledger is append-only: the plan of a batch is never deleted');
END;
CREATE TRIGGER batch_stays BEFORE UPDATE OF id, number ON batch BEGIN
    SELECT RAISE(ABORT, 'the ledger is append-only: a batch is never changed');
END;
CREATE TRIGGER batch_remains BEFORE DELETE ON batch BEGIN
    SELECT RAISE(ABORT, 'the ledger is append-only: a batch is never deleted');
END;
