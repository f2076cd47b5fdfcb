-- What of a lot's cost was freight and tax, which a supplier who takes goods back does not pay
-- again; and the time planned for a run as a fraction, so that labour is booked as it was costed.

ALTER TABLE lot ADD COLUMN extra INTEGER NOT NULL DEFAULT 0 CHECK (extra >= 0);
ALTER TABLE batch_run ADD COLUMN minutes_over INTEGER NOT NULL DEFAULT 1000 CHECK (minutes_over > 0);
