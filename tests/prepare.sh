# Sourced by tests/run and demo-data/run: installs what is missing, configures and builds.
# shellcheck shell=bash

barrow_root=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd)

# What building needs beside git, all from Debian 12.
barrow_packages=(
  g++                    # the compiler
  cmake ninja-build      # the build
  pkg-config             # finds Cbc, which brings no CMake files
  libsqlite3-dev         # the shop file
  libsqlitecpp-dev       # SQLite in C++
  libcli11-dev           # command lines
  libfmt-dev             # text with numbers in it
  libtomlplusplus-dev    # design files
  nlohmann-json3-dev     # JSON in and out
  libcsv-dev             # CSV in
  coinor-libcbc-dev      # linear programs, and those in whole numbers
  zlib1g-dev libbz2-dev  # Cbc's libraries name both when linking; Debian's package leaves zlib out
  libmicrohttpd-dev      # the page in the browser
  catch2                 # tests
  librapidcheck-dev      # tests: random histories
)

# Installs packages by name, those that are there already left alone.
barrow_install() {
  local missing=() package
  for package in "$@"; do
    dpkg-query -W -f='${Status}' "$package" 2>/dev/null | grep -q 'ok installed' || missing+=("$package")
  done
  [ ${#missing[@]} -eq 0 ] && return 0
  echo "Installing ${#missing[@]} packages from Debian (a minute or two): ${missing[*]}" >&2
  local as_root=()
  [ "$(id -u)" -eq 0 ] || as_root=(sudo)
  if ! "${as_root[@]}" env DEBIAN_FRONTEND=noninteractive apt-get install -y -q "${missing[@]}" >/dev/null 2>&1; then
    # The lists may be missing or old: fetch them and say what goes wrong the second time.
    "${as_root[@]}" apt-get update -q >&2
    "${as_root[@]}" env DEBIAN_FRONTEND=noninteractive apt-get install -y -q "${missing[@]}" >&2
  fi
}

# barrow_build FOLDER TARGET [cmake options...]
barrow_build() {
  local folder=$1 target=$2
  shift 2
  local launcher=()
  command -v ccache >/dev/null && launcher=(-DCMAKE_CXX_COMPILER_LAUNCHER=ccache)
  echo "Configuring $folder" >&2
  cmake -S "$barrow_root" -B "$folder" -G Ninja "${launcher[@]}" "$@" >"$folder.configure.log" 2>&1 || {
    cat "$folder.configure.log" >&2
    return 1
  }
  rm -f "$folder.configure.log"
  # On a fresh machine this takes a few minutes; each line says how far it is.
  NINJA_STATUS='Building %p (%f of %t, %e s) ' cmake --build "$folder" --target "$target" >&2
}
