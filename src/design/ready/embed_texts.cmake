# Writes OUT: a C++ file that holds the text of every file of TEXTS, so that the program needs no
# files beside it. Run by the build: cmake -DOUT=... -DROOT=... -P embed_texts.cmake
file(GLOB TEXTS RELATIVE ${ROOT} ${ROOT}/bases/*.toml ${ROOT}/calculators/*.toml)
list(SORT TEXTS)
set(CODE "// Written by embed_texts.cmake from src/design/ready; do not edit.\n")
string(APPEND CODE "#include \"design/ready/texts.hpp\"\n\n#include \"base/error.hpp\"\n\n")
string(APPEND CODE "namespace barrow::design {\n\nstd::string_view ready_text(std::string_view name) {\n")
foreach(TEXT IN LISTS TEXTS)
  file(READ ${ROOT}/${TEXT} CONTENT)
  string(REGEX REPLACE "\\.toml$" "" NAME ${TEXT})
  string(APPEND CODE "    if (name == \"${NAME}\") return R\"toml(${CONTENT})toml\";\n")
endforeach()
string(APPEND CODE "    throw base::broken(\"no such text in the program\");\n}\n\n} // namespace barrow::design\n")
file(WRITE ${OUT} "${CODE}")
