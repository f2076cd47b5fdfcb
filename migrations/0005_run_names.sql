-- What a run of a batch was called when it was planned: of a family of designs, which one it is.

ALTER TABLE batch_run ADD COLUMN code TEXT NOT NULL DEFAULT '' COLLATE NOCASE;
ALTER TABLE batch_run ADD COLUMN name TEXT NOT NULL DEFAULT '';
UPDATE batch_run SET (code, name) = (
    SELECT design.code || ifnull('.' || variant.value, ''),
           design.name || ifnull(', ' || variant.value, '')
    FROM design_text JOIN design ON design.id = design_id
    LEFT JOIN batch_change variant ON variant.batch_id = batch_run.batch_id
        AND variant.run = batch_run.run AND variant.what = 'set' AND variant.name = 'variant'
    WHERE design_text.id = batch_run.design_text_id);
