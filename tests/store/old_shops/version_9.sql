-- Rows of a shop of version 9 in which every kind of thing has happened: batches planned, cut, finished
-- and reversed, a sale, an order, a fair, a stocktake, a past quarter. Derived tables fill themselves.
-- The designs are invented.

INSERT INTO setting (name, value) VALUES
('currency','GBP'),
('hourly-rate','12.50'),
('maker','Wren Aldous'),
('margin','50%'),
('offcut-share','100%'),
('overheads','0%'),
('overheads-on','materials-and-labour'),
('price-below','0.00'),
('price-step','0.50'),
('unit','mm');

INSERT INTO supplier (id, code, name, lead_days, note) VALUES
(1,'PELL','Pellwether Papermakers',9,'posts on Tuesdays'),
(2,'HOB','Hob and Thimble Haberdashery',4,''),
(3,'QUILL','Quillmoor Bindery Supplies',6,'carriage free over 60.00');

INSERT INTO material (id, code, name, form, bulk_unit, collection, supplier_id, fresh_width, fresh_height, pack_units, pack_price, least_shorter, least_longer, trim_bottom, pattern, grain, reorder_level, hazard, note, caliper, grammage, faces, pitch, diameter, thing_width, thing_height, flap, spread) VALUES
(1,'SM-REED','Saltmarsh: reed beds','sheet','','Saltmarsh',1,2438400,2540000,6,540,800000,1200000,101600,'one-way','',2,'','',1920,190000,1,NULL,NULL,NULL,NULL,NULL,NULL),
(2,'SM-TIDE','Saltmarsh: tide lines','sheet','','Saltmarsh',1,2438400,2540000,6,540,800000,1200000,101600,'two-way','',2,'','',1920,190000,1,NULL,NULL,NULL,NULL,NULL,NULL),
(3,'SM-WING','Saltmarsh: wing and shell','sheet','','Saltmarsh',1,2438400,2540000,6,540,800000,1200000,101600,'one-way','',2,'','',1920,190000,1,NULL,NULL,NULL,NULL,NULL,NULL),
(4,'SM-MIST','Saltmarsh: plain mist','sheet','','Saltmarsh',1,2438400,2540000,6,480,800000,1200000,101600,'none','',2,'','',1920,190000,1,NULL,NULL,NULL,NULL,NULL,NULL),
(5,'BOARD-310','Folding board 310 g/m2','sheet','','',3,5600000,4000000,10,850,960000,1600000,0,'none','height',4,'','',3360,310000,NULL,NULL,NULL,NULL,NULL,NULL,NULL),
(6,'CARD-CREAM','Cream card 240 g/m2','sheet','','',3,1680000,2376000,25,475,480000,800000,0,'none','',10,'','',2240,240000,NULL,NULL,NULL,NULL,NULL,NULL,NULL),
(7,'ENV-KRAFT','Envelope 9 x 16.5 cm, brown','count','','',1,1,1,50,600,0,0,0,'none','',40,'','',960,NULL,NULL,NULL,NULL,720000,1320000,280000,NULL),
(8,'ENV-SQ','Envelope 13 x 13 cm, cream','count','','',1,1,1,25,425,0,0,0,'none','',20,'','',1120,NULL,NULL,NULL,NULL,1040000,1040000,440000,NULL),
(9,'WIRE-58','Binding wire 5/8 in, 2 loops an inch, black','wire','','',3,23,1,10,790,0,5,0,'none','',2,'','',NULL,NULL,NULL,2,127000,NULL,NULL,NULL,NULL),
(10,'RIB-GREEN','Ribbon 10 mm, moss green','length','','',2,80000000,1,1,320,0,2000000,0,'none','',1,'','',NULL,NULL,NULL,NULL,NULL,80000,NULL,NULL,NULL),
(11,'RIB-LINEN','Ribbon 6 mm, natural linen','length','','',2,160000000,1,1,460,0,1600000,0,'none','',1,'','',NULL,NULL,NULL,NULL,NULL,48000,NULL,NULL,NULL),
(12,'GLUE-PVA','Bookbinder''s paste glue','bulk','ml','',3,1,1,500000,650,0,0,0,'none','',100000,'','',NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,70000),
(13,'INK-SEPIA','Alcohol ink, sepia','bulk','ml','',2,1,1,15000,420,0,0,0,'none','',5000,'solvent','for edging',NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL),
(14,'CLOTH-TEAL','Book cloth, teal, 140 cm wide','sheet','','',2,11200000,8000000,1,980,800000,1600000,0,'none','',1,'','',2400,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL);

INSERT INTO holder (id, kind) VALUES
(5,'shelf'),
(6,'shelf'),
(7,'shelf'),
(8,'shelf'),
(9,'shelf'),
(10,'shelf'),
(11,'shelf'),
(12,'shelf'),
(13,'shelf'),
(14,'shelf'),
(15,'shelf'),
(16,'shelf'),
(17,'shelf'),
(18,'shelf'),
(19,'shelf'),
(20,'shelf'),
(21,'batch'),
(22,'offcut'),
(23,'offcut'),
(24,'offcut'),
(25,'journal'),
(26,'journal'),
(27,'batch'),
(28,'offcut'),
(29,'offcut'),
(30,'offcut'),
(31,'offcut'),
(32,'offcut'),
(33,'offcut'),
(34,'offcut'),
(35,'offcut'),
(36,'journal'),
(37,'batch');

INSERT INTO posting (id, kind, made_on, recorded_at, who, note, reverses) VALUES
(1,'receive','2027-01-12','2026-11-28T03:16:05Z','Wren Aldous','',NULL),
(2,'receive','2027-01-15','2026-11-28T03:16:05Z','Wren Aldous','',NULL),
(3,'receive','2027-01-20','2026-11-28T03:16:05Z','Wren Aldous','',NULL),
(4,'receive','2027-02-16','2026-11-28T03:16:05Z','Wren Aldous','',NULL),
(5,'receive','2027-02-20','2026-11-28T03:16:05Z','Wren Aldous','',NULL),
(6,'plan','2027-03-06','2026-11-28T03:16:06Z','Wren Aldous','',NULL),
(7,'cut','2027-03-06','2026-11-28T03:16:06Z','Wren Aldous','',NULL),
(8,'finish','2027-03-06','2026-11-28T03:16:06Z','Wren Aldous','',NULL),
(9,'make','2027-04-03','2026-11-28T03:16:06Z','Wren Aldous','',NULL),
(10,'plan','2027-04-03','2026-11-28T03:16:06Z','Wren Aldous','',NULL),
(11,'write off','2027-04-03','2026-11-28T03:16:06Z','Wren Aldous','damp',NULL),
(12,'write off','2027-04-03','2026-11-28T03:16:06Z','Wren Aldous','lost',NULL),
(13,'sell','2027-04-03','2026-11-28T03:16:07Z','Wren Aldous','',NULL),
(14,'fair','2027-04-03','2026-11-28T03:16:07Z','Wren Aldous','',NULL),
(15,'fair take','2027-04-03','2026-11-28T03:16:07Z','Wren Aldous','',NULL),
(16,'order','2027-04-03','2026-11-28T03:16:07Z','Wren Aldous','',NULL),
(17,'reverse','2027-04-03','2026-11-28T03:16:07Z','Wren Aldous','',9),
(18,'cost order','2027-04-03','2026-11-28T03:16:07Z','Wren Aldous','',NULL);

INSERT INTO lot (id, posting_id, material_id, supplier_id, unit_width, unit_height, quantity, cost, received_on, note) VALUES
(5,1,1,1,2438400,2540000,111483648000000,1686,'2027-01-12',''),
(6,1,2,1,2438400,2540000,111483648000000,1686,'2027-01-12',''),
(7,1,3,1,2438400,2540000,74322432000000,1124,'2027-01-12',''),
(8,1,4,1,2438400,2540000,74322432000000,999,'2027-01-12',''),
(9,1,7,1,1,1,400,4996,'2027-01-12',''),
(10,1,8,1,1,1,100,1769,'2027-01-12',''),
(11,2,5,3,5600000,4000000,448000000000000,1886,'2027-01-15',''),
(12,2,6,3,1680000,2376000,199584000000000,1054,'2027-01-15',''),
(13,2,9,3,23,1,690,2629,'2027-01-15',''),
(14,2,12,3,1,1,500000,721,'2027-01-15',''),
(15,3,10,2,80000000,1,240000000,960,'2027-01-20',''),
(16,3,11,2,160000000,1,160000000,460,'2027-01-20',''),
(17,3,13,2,1,1,30000,840,'2027-01-20',''),
(18,4,1,1,2438400,2540000,74322432000000,1380,'2027-02-16','dearer this time'),
(19,4,2,1,2438400,2540000,37161216000000,0,'2027-02-16','free with the order'),
(20,5,14,2,11200000,8000000,179200000000000,1960,'2027-02-20','');

INSERT INTO offcut (id, posting_id, number, code, material_id, lot_id, width, height, kept_on) VALUES
(22,7,0,'22-2',5,11,5600000,2880000,'2027-03-06'),
(23,7,1,'FJ-R',6,12,1680000,776000,'2027-03-06'),
(24,7,2,'W3-C',11,16,150400000,1,'2027-03-06'),
(28,9,3,'BK-3',5,11,2696960,2880000,'2027-04-03'),
(29,9,4,'S4-P',5,11,2903040,1320000,'2027-04-03'),
(30,9,5,'7M-D',14,20,11200000,6200000,'2027-04-03'),
(31,9,6,'N5-Z',14,20,8056960,1800000,'2027-04-03'),
(32,9,7,'3N-Q',3,7,2438400,910400,'2027-04-03'),
(33,9,8,'H6-B',3,7,1765760,2438400,'2027-04-03'),
(34,9,9,'XP-2',10,15,74400000,1,'2027-04-03'),
(35,9,10,'D7-N',9,13,11,1,'2027-04-03');

INSERT INTO design (id, code, name) VALUES
(1,'loomgate','Loomgate cloth journal'),
(2,'pebble','Pebble square journal');

INSERT INTO design_text (id, design_id, number, text, file, brought_on) VALUES
(1,1,1,'[design]
code = "loomgate"
name = "Loomgate cloth journal"
about = "twelve envelopes on a wire; cloth outside, paper inside"
[parameters]
envelopes     = { usual = 12, whole = true, least = 4, most = 24, about = "envelopes in one journal" }
envelope_wide = { usual = "9 cm", about = "the shorter side of an envelope" }
envelope_long = { usual = "16.5 cm", about = "the longer side, bound by the wire" }
clear         = { usual = "1.5 cm", about = "between an envelope and the edge or the next fold" }
base          = { usual = "2.5 cm", about = "under the wire" }
flap          = { usual = "5 cm", about = "closes over the front" }
turn_in       = { usual = "15 mm", about = "cloth turned in over the edge of the board" }
photographs   = { usual = 12, whole = true, least = 0, about = "pictures it must hold in the end" }
[let]
panel = "envelope_wide + 2 * clear"
[cover]
height = "envelope_long + 2 * clear"
board  = "board"
fold   = "board.caliper + cloth.caliper"
panels = [
  { name = "front",       width = "panel" },
  { name = "base",        width = "base", is = "base" },
  { name = "back",        width = "panel" },
  { name = "second_base", width = "base", is = "base" },
  { name = "flap",        width = "flap", is = "flap" },
]
[block]
give = "10 %"
layers = [
  { name = "envelopes",   material = "envelope", number = "envelopes", envelope = true },
  { name = "photographs", each = "0.25 mm", number = "photographs", filling = true },
]
[binding]
kind = "wire"
material = "wire"
edge = "envelope_long"
panel = "base"
[materials]
board    = "BOARD-310"
cloth    = "CLOTH-TEAL"
inside   = { code = "SM-WING", about = "paper of the inside" }
envelope = "ENV-KRAFT"
wire     = "WIRE-58"
ribbon   = "RIB-GREEN"
paste    = "GLUE-PVA"
[adhesives]
paste = { material = "paste" }
[[part]]
name = "cover board"
material = "board"
width = "cover.length"
height = "cover.height"
[[part]]
name = "cloth"
material = "cloth"
width = "cover.length + 2 * turn_in"
height = "cover.height + 2 * turn_in"
glue = { paste = "area" }
[[part]]
name = "inside paper"
material = "inside"
width = "cover.length - 4 mm"
height = "cover.height - 4 mm"
from = "2 mm"
join = "folds"
no_join_on = "flap"
overlap = "8 mm"
glue = { paste = ["area", "overlap"] }
[[part]]
name = "envelopes"
material = "envelope"
number = "envelopes"
[[part]]
name = "closing ribbon"
material = "ribbon"
length = "70 cm"
[[operation]]
name = "cut and score the board"
minutes = 8
[[operation]]
name = "cover with cloth and line"
minutes = 26
[[operation]]
name = "punch and wire the envelopes"
minutes = "6 + envelopes / 2"
[[operation]]
name = "lay out the bench and clear it"
minutes = 20
per = "batch"
[variant.small]
name = "Loomgate cloth journal, small"
parameters = { envelopes = 6, photographs = 6, clear = "1 cm" }
[variant.large]
name = "Loomgate cloth journal, large"
parameters = { envelopes = 15, photographs = 15, base = "3.5 cm" }
','loomgate.toml','2027-03-06'),
(2,2,1,'[design]
code = "pebble"
name = "Pebble square journal"
[parameters]
envelopes = { usual = 6, whole = true, least = 3, most = 12 }
side      = { usual = "13 cm", about = "side of an envelope" }
clear     = "5 mm"
spine     = "2 cm"
[let]
panel = "side + 2 * clear"
[cover]
height = "panel"
panels = [
  { name = "front", width = "panel" },
  { name = "spine", width = "spine" },
  { name = "back",  width = "panel" },
]
[materials]
board    = "BOARD-310"
outside  = "SM-TIDE"
band     = { code = "SM-REED", about = "another paper of the collection" }
envelope = "ENV-SQ"
tags     = "CARD-CREAM"
ribbon   = "RIB-LINEN"
ink      = "INK-SEPIA"
glue     = "GLUE-PVA"
[[part]]
name = "cover board"
material = "board"
width = "cover.length"
height = "cover.height"
grain = "height"
[[part]]
name = "outside paper"
material = "outside"
width = "cover.length"
height = "cover.height"
[[part]]
name = "belly band"
material = "band"
width = "cover.length"
height = "10.3 cm"
[[part]]
name = "envelopes"
material = "envelope"
number = "envelopes"
[[part]]
name = "tags"
material = "tags"
width = "side - 3 cm"
height = "side - 3 cm"
number = "envelopes / 2"
[[part]]
name = "tie"
material = "ribbon"
length = "60 cm"
[[part]]
name = "edging ink"
material = "ink"
amount = "0.4 ml"
[[part]]
name = "glue"
material = "glue"
amount = "cover.length * cover.height * 70 ml / 1 m2 + envelopes * 0.3 ml"
[[operation]]
name = "cut, score and cover"
minutes = 16
[[operation]]
name = "glue in the envelopes"
minutes = "envelopes * 2"
[[operation]]
name = "edge and tie"
minutes = 6
[[operation]]
name = "lay out the bench and clear it"
minutes = 12
per = "batch"
','pebble.toml','2027-03-06');

INSERT INTO batch (id, number, status) VALUES
(21,1,'finished'),
(27,2,'undone'),
(37,3,'planned');

INSERT INTO batch_event (id, batch_id, posting_id, status) VALUES
(1,21,6,'planned'),
(2,21,7,'cut'),
(3,21,8,'finished'),
(4,27,9,'finished'),
(5,37,10,'planned');

INSERT INTO batch_run (batch_id, run, design_text_id, journals, minutes, materials, labour, overheads, code, name) VALUES
(21,0,2,2,72000,432,1500,0,'pebble','Pebble square journal'),
(27,0,1,1,67500,440,1406,0,'loomgate.large','Loomgate cloth journal, large'),
(37,0,2,1,46000,244,958,0,'pebble','Pebble square journal');

INSERT INTO batch_change (batch_id, run, what, name, value) VALUES
(21,0,'set','envelopes','4'),
(27,0,'set','variant','large');

INSERT INTO batch_part (batch_id, run, seq, part, material_id, quantity, cost) VALUES
(21,0,0,'cover board',5,2,26),
(21,0,1,'outside paper',2,2,94),
(21,0,2,'belly band',1,2,94),
(21,0,3,'envelopes',8,8,142),
(21,0,4,'tags',6,4,14),
(21,0,5,'tie',11,9600000,28),
(21,0,6,'edging ink',13,800,22),
(21,0,7,'glue',12,8280,12),
(27,0,0,'cover board',5,1,19),
(27,0,1,'cloth',14,1,62),
(27,0,2,'inside paper',3,2,88),
(27,0,3,'envelopes',7,15,187),
(27,0,4,'closing ribbon',10,5600000,22),
(27,0,5,'binding wire',9,12,46),
(27,0,6,'paste',12,10987,16),
(27,0,7,'joins of inside paper',12,107,0),
(37,0,0,'cover board',5,1,16),
(37,0,1,'outside paper',2,1,45),
(37,0,2,'belly band',1,1,34),
(37,0,3,'envelopes',8,6,106),
(37,0,4,'tags',6,3,11),
(37,0,5,'tie',11,4800000,14),
(37,0,6,'edging ink',13,400,11),
(37,0,7,'glue',12,4740,7);

INSERT INTO batch_sheet (id, batch_id, material_id, source_id, plan, width, height) VALUES
(1,21,5,11,0,5600000,4000000),
(2,21,2,6,1,2438400,2540000),
(3,21,1,5,2,2438400,2540000),
(4,21,6,12,3,1680000,2376000),
(5,21,11,16,4,160000000,1),
(6,27,5,22,0,5600000,2880000),
(7,27,14,20,1,11200000,8000000),
(8,27,3,7,2,2438400,2540000),
(9,27,3,7,3,2438400,2540000),
(10,27,10,15,4,80000000,1),
(11,27,9,13,5,23,1),
(12,37,5,29,0,2903040,1320000),
(13,37,2,6,1,2438400,2540000),
(14,37,1,5,2,2438400,2540000),
(15,37,6,12,3,1680000,2376000),
(16,37,11,24,4,150400000,1);

INSERT INTO batch_piece (sheet_id, seq, run, part, x, y, width, height) VALUES
(1,0,0,'cover board',0,0,2400000,1120000),
(1,1,0,'cover board',2400000,0,2400000,1120000),
(2,0,0,'outside paper',0,101600,2400000,1120000),
(2,1,0,'outside paper',0,1221600,2400000,1120000),
(3,0,0,'belly band',0,101600,2400000,824000),
(3,1,0,'belly band',0,925600,2400000,824000),
(4,0,0,'tags',0,0,800000,800000),
(4,1,0,'tags',0,800000,800000,800000),
(4,2,0,'tags',800000,0,800000,800000),
(4,3,0,'tags',800000,800000,800000,800000),
(5,0,0,'tie',0,0,4800000,1),
(5,1,0,'tie',4800000,0,4800000,1),
(6,0,0,'cover board',0,0,2903040,1560000),
(7,0,0,'cloth',0,0,3143040,1800000),
(8,0,0,'inside paper',0,101600,2262400,1528000),
(9,0,0,'inside paper',0,101600,672640,1528000),
(10,0,0,'closing ribbon',0,0,5600000,1),
(11,0,0,'binding wire',0,0,12,1),
(12,0,0,'cover board',0,0,2400000,1120000),
(13,0,0,'outside paper',0,101600,2400000,1120000),
(14,0,0,'belly band',0,101600,2400000,824000),
(15,0,0,'tags',0,0,800000,800000),
(15,1,0,'tags',0,800000,800000,800000),
(15,2,0,'tags',800000,0,800000,800000),
(16,0,0,'tie',0,0,4800000,1);

INSERT INTO batch_remnant (sheet_id, seq, x, y, width, height, keeps_code) VALUES
(1,0,0,1120000,5600000,2880000,0),
(4,0,0,1600000,1680000,776000,0),
(5,0,9600000,0,150400000,1,0),
(6,0,2903040,0,2696960,2880000,0),
(6,1,0,1560000,2903040,1320000,0),
(7,0,0,1800000,11200000,6200000,0),
(7,1,3143040,0,8056960,1800000,0),
(8,0,0,1629600,2438400,910400,0),
(9,0,672640,101600,1765760,2438400,0),
(10,0,5600000,0,74400000,1,0),
(11,0,12,0,11,1,0),
(13,0,0,1221600,2438400,1318400,0),
(14,0,0,925600,2438400,1614400,0),
(15,0,0,1600000,1680000,776000,0),
(15,1,800000,800000,800000,800000,0),
(16,0,4800000,0,145600000,1,1);

INSERT INTO batch_take (batch_id, lot_id, material_id, quantity) VALUES
(21,10,8,8),
(21,14,12,8280),
(21,17,13,800),
(27,9,7,15),
(27,14,12,11094),
(37,10,8,6),
(37,14,12,4740),
(37,17,13,400);

INSERT INTO cut_sheet (id, posting_id, batch_id, planned_id, source_id, width, height, cost, pieces, kept, kept_value, waste) VALUES
(1,7,21,1,11,5600000,4000000,94,5376000000000,16128000000000,68,896000000000),
(2,7,21,2,6,2438400,2540000,94,5376000000000,0,0,817536000000),
(3,7,21,3,5,2438400,2540000,94,3955200000000,0,0,2238336000000),
(4,7,21,4,12,1680000,2376000,21,2560000000000,1303680000000,7,128000000000),
(5,7,21,5,16,160000000,1,460,9600000,150400000,432,0),
(6,7,21,NULL,12,1680000,2376000,21,0,0,0,3991680000000),
(7,9,27,6,22,5600000,2880000,68,4528742400000,11599257600000,49,0),
(8,9,27,7,20,11200000,8000000,980,5657472000000,83942528000000,918,0),
(9,9,27,8,7,2438400,2540000,94,3456947200000,2219919360000,34,516669440000),
(10,9,27,9,7,2438400,2540000,93,1027793920000,4305629184000,65,860112896000),
(11,9,27,10,15,80000000,1,320,5600000,74400000,298,0),
(12,9,27,11,13,23,1,88,12,11,42,0);

INSERT INTO finished_run (posting_id, batch_id, run, journals, minutes, materials, labour, overheads) VALUES
(8,21,0,2,72000,453,1500,0),
(9,27,0,1,67500,440,1406,0);

INSERT INTO journal (id, posting_id, serial, batch_id, run, materials, labour, overheads, condition) VALUES
(25,8,'1-01',21,0,227,750,0,'good'),
(26,8,'1-02',21,0,226,750,0,'second'),
(36,9,'2-01',27,0,440,1406,0,'good');

INSERT INTO cost_order (posting_id, method) VALUES
(18,'moving-average');

INSERT INTO stocktake (id, started_on) VALUES
(1,'2027-04-03');

INSERT INTO sale (posting_id, journal_id, price) VALUES
(13,25,1750);

INSERT INTO supply_order (id, posting_id, supplier_id, expected_on) VALUES
(1,16,1,'2027-04-12');

INSERT INTO order_line (order_id, material_id, units, cost) VALUES
(1,2,20,1800);

INSERT INTO fair (id, posting_id, name, held_on) VALUES
(1,14,'Quay','2027-05-01');

INSERT INTO fair_cost (posting_id, what, fair_id, amount) VALUES
(14,'pitch fee',1,2200);

INSERT INTO fair_take (posting_id, journal_id, fair_id) VALUES
(15,26,1);

INSERT INTO movement (id, posting_id, kind, lot_id, from_holder, to_holder, quantity, value) VALUES
(1,1,'receive',5,1,5,111483648000000,1686),
(2,1,'receive',6,1,6,111483648000000,1686),
(3,1,'receive',7,1,7,74322432000000,1124),
(4,1,'receive',8,1,8,74322432000000,999),
(5,1,'receive',9,1,9,400,4996),
(6,1,'receive',10,1,10,100,1769),
(7,2,'receive',11,1,11,448000000000000,1886),
(8,2,'receive',12,1,12,199584000000000,1054),
(9,2,'receive',13,1,13,690,2629),
(10,2,'receive',14,1,14,500000,721),
(11,3,'receive',15,1,15,240000000,960),
(12,3,'receive',16,1,16,160000000,460),
(13,3,'receive',17,1,17,30000,840),
(14,4,'receive',18,1,18,74322432000000,1380),
(15,4,'receive',19,1,19,37161216000000,0),
(16,5,'receive',20,1,20,179200000000000,1960),
(17,7,'use',5,5,21,6193536000000,94),
(18,7,'use',6,6,21,6193536000000,94),
(19,7,'use',11,11,21,22400000000000,94),
(20,7,'use',12,12,21,7983360000000,42),
(21,7,'use',10,10,21,8,142),
(22,7,'use',16,16,21,160000000,460),
(23,7,'use',14,14,21,8280,12),
(24,7,'use',17,17,21,800,22),
(25,7,'keep',11,21,22,16128000000000,68),
(26,7,'keep',12,21,23,1303680000000,7),
(27,7,'keep',16,21,24,150400000,432),
(28,8,'finish',5,21,4,6193536000000,94),
(29,8,'finish',6,21,4,6193536000000,94),
(30,8,'finish',10,21,4,8,142),
(31,8,'finish',11,21,4,6272000000000,26),
(32,8,'finish',12,21,4,6679680000000,35),
(33,8,'finish',14,21,4,8280,12),
(34,8,'finish',16,21,4,9600000,28),
(35,8,'finish',17,21,4,800,22),
(36,8,'finish',NULL,4,25,1,227),
(37,8,'finish',NULL,4,26,1,226),
(38,9,'use',7,7,27,12387072000000,187),
(39,9,'use',9,9,27,15,187),
(40,9,'use',13,13,27,23,88),
(41,9,'use',15,15,27,80000000,320),
(42,9,'use',14,14,27,11094,16),
(43,9,'use',20,20,27,89600000000000,980),
(44,9,'use',11,22,27,16128000000000,68),
(45,9,'keep',11,27,28,7767244800000,33),
(46,9,'keep',11,27,29,3832012800000,16),
(47,9,'keep',20,27,30,69440000000000,759),
(48,9,'keep',20,27,31,14502528000000,159),
(49,9,'keep',7,27,32,2219919360000,34),
(50,9,'keep',7,27,33,4305629184000,65),
(51,9,'keep',15,27,34,74400000,298),
(52,9,'keep',13,27,35,11,42),
(53,9,'finish',7,27,4,5861523456000,88),
(54,9,'finish',9,27,4,15,187),
(55,9,'finish',11,27,4,4528742400000,19),
(56,9,'finish',13,27,4,12,46),
(57,9,'finish',14,27,4,11094,16),
(58,9,'finish',15,27,4,5600000,22),
(59,9,'finish',20,27,4,5657472000000,62),
(60,9,'finish',NULL,4,36,1,440),
(61,11,'write_off',9,9,3,2,25),
(62,12,'write_off',10,10,3,1,18),
(63,13,'sell',NULL,25,2,1,227),
(64,17,'reverse',NULL,36,4,1,440),
(65,17,'reverse',20,4,27,5657472000000,62),
(66,17,'reverse',15,4,27,5600000,22),
(67,17,'reverse',14,4,27,11094,16),
(68,17,'reverse',13,4,27,12,46),
(69,17,'reverse',11,4,27,4528742400000,19),
(70,17,'reverse',9,4,27,15,187),
(71,17,'reverse',7,4,27,5861523456000,88),
(72,17,'reverse',13,35,27,11,42),
(73,17,'reverse',15,34,27,74400000,298),
(74,17,'reverse',7,33,27,4305629184000,65),
(75,17,'reverse',7,32,27,2219919360000,34),
(76,17,'reverse',20,31,27,14502528000000,159),
(77,17,'reverse',20,30,27,69440000000000,759),
(78,17,'reverse',11,29,27,3832012800000,16),
(79,17,'reverse',11,28,27,7767244800000,33),
(80,17,'reverse',11,27,22,16128000000000,68),
(81,17,'reverse',20,27,20,89600000000000,980),
(82,17,'reverse',14,27,14,11094,16),
(83,17,'reverse',15,27,15,80000000,320),
(84,17,'reverse',13,27,13,23,88),
(85,17,'reverse',9,27,9,15,187),
(86,17,'reverse',7,27,7,12387072000000,187);

INSERT INTO quarter (day) VALUES
('2027-03-31');

INSERT INTO quarter_balance (day, holder_id, lot_id, quantity, value) VALUES
('2027-03-31',5,5,105290112000000,1592),
('2027-03-31',6,6,105290112000000,1592),
('2027-03-31',7,7,74322432000000,1124),
('2027-03-31',8,8,74322432000000,999),
('2027-03-31',9,9,400,4996),
('2027-03-31',10,10,92,1627),
('2027-03-31',11,11,425600000000000,1792),
('2027-03-31',12,12,191600640000000,1012),
('2027-03-31',13,13,690,2629),
('2027-03-31',14,14,491720,709),
('2027-03-31',15,15,240000000,960),
('2027-03-31',17,17,29200,818),
('2027-03-31',18,18,74322432000000,1380),
('2027-03-31',19,19,37161216000000,0),
('2027-03-31',20,20,179200000000000,1960),
('2027-03-31',22,11,16128000000000,68),
('2027-03-31',23,12,1303680000000,7),
('2027-03-31',24,16,150400000,432),
('2027-03-31',25,0,1,227),
('2027-03-31',26,0,1,226);

INSERT INTO quarter_value (day, kind, value) VALUES
('2027-03-31','batch',0),
('2027-03-31','journal',453),
('2027-03-31','made',0),
('2027-03-31','offcut',507),
('2027-03-31','outside',-24150),
('2027-03-31','shelf',23190);
