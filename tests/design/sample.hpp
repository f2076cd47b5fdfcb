#pragma once

/// A small but whole design for the tests of this layer and those above.
inline constexpr const char* sample_design = R"([design]
code = "quay"
name = "Quay envelope journal"

[parameters]
envelopes     = { usual = 16, about = "envelopes in one journal", whole = true, least = 1, most = 60 }
envelope_wide = "9 cm"
envelope_long = "16.5 cm"
clear         = "2 cm"

[let]
panel = "envelope_wide + 2 * clear"

[cover]
height = "envelope_long + 2 * clear"
panels = [
  { name = "front",  width = "panel" },
  { name = "base",   width = "3 cm" },
  { name = "middle", width = "panel" },
  { name = "second", width = "3 cm" },
  { name = "flap",   width = "4 cm" },
]

[materials]
board    = "BOARD-300"
outside  = { code = "FERN-12", about = "patterned side" }
envelope = "ENV-90"
wire     = "WIRE-58"
glue     = "GLUE"
ribbon   = "RIB-10"

[[part]]
name = "cover board"
material = "board"
width = "cover.length"
height = "cover.height"

[[part]]
name = "outside paper"
material = "outside"
width = "cover.length"
height = "cover.height"
turn = "half"
join = "folds"
overlap = "8 mm"

[[part]]
name = "envelopes"
material = "envelope"
number = "envelopes"

[[part]]
name = "wire"
material = "wire"
loops = "round_down((cover.height - 2cm) / (1in / 2), 1) + 1"

[[part]]
name = "glue"
material = "glue"
amount = "cover.length * cover.height * 60 ml / 1 m2"

[[part]]
name = "closure"
material = "ribbon"
length = "60 cm"

[[operation]]
name = "score and fold the board"
minutes = 6

[[operation]]
name = "set out the bench"
minutes = "10"
per = "batch"
)";
