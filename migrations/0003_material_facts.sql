-- What is known of materials beyond what is counted: their thickness, weight, faces, sides.

ALTER TABLE material ADD COLUMN caliper INTEGER CHECK (caliper > 0);
ALTER TABLE material ADD COLUMN grammage INTEGER CHECK (grammage > 0);
ALTER TABLE material ADD COLUMN bulk INTEGER CHECK (bulk > 0);
ALTER TABLE material ADD COLUMN faces INTEGER CHECK (faces IN (1, 2));
ALTER TABLE material ADD COLUMN repeat INTEGER CHECK (repeat > 0);
ALTER TABLE material ADD COLUMN pitch INTEGER CHECK (pitch BETWEEN 1 AND 20);
ALTER TABLE material ADD COLUMN diameter INTEGER CHECK (diameter > 0);
ALTER TABLE material ADD COLUMN thing_width INTEGER CHECK (thing_width > 0);
ALTER TABLE material ADD COLUMN thing_height INTEGER CHECK (thing_height > 0);
ALTER TABLE material ADD COLUMN flap INTEGER CHECK (flap > 0);
ALTER TABLE material ADD COLUMN spread INTEGER CHECK (spread > 0);
