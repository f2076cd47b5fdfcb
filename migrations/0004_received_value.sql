-- What was received is kept as a running total, so that asking for it does not read every receipt.

CREATE TABLE received_value (
    id    INTEGER PRIMARY KEY CHECK (id = 1),
    value INTEGER NOT NULL
) STRICT;
INSERT INTO received_value (id, value)
SELECT 1, (SELECT ifnull(sum(cost), 0) FROM lot)
        - (SELECT ifnull(sum(value), 0) FROM movement WHERE to_holder = 1)
        + (SELECT ifnull(sum(value), 0) FROM movement WHERE from_holder = 1 AND kind <> 'receive');

CREATE TRIGGER lot_counts AFTER INSERT ON lot BEGIN
    UPDATE received_value SET value = value + NEW.cost;
END;
CREATE TRIGGER movement_goes_back AFTER INSERT ON movement WHEN NEW.to_holder = 1 BEGIN
    UPDATE received_value SET value = value - NEW.value;
END;
CREATE TRIGGER movement_comes_again AFTER INSERT ON movement
WHEN NEW.from_holder = 1 AND NEW.kind <> 'receive' BEGIN
    UPDATE received_value SET value = value + NEW.value;
END;
