-- The price asked for a journal that was taken along to a fair, which no later setting changes.

ALTER TABLE fair_take ADD COLUMN asked INTEGER CHECK (asked >= 0);
CREATE INDEX fair_take_by_journal ON fair_take (journal_id);
