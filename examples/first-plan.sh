#!/bin/sh
# From nothing to a first plan on Debian 12: installs what is missing, builds the program, and plans the simplest profile.
#
#     sh examples/first-plan.sh
set -eu

cd "$(dirname "$0")/.."

say() { echo "first plan: $*"; }

say "what building needs"
sh tests/setup.sh build

say "building the program, in build/release (some minutes the first time)"
log=$(mktemp)
trap 'rm -f "$log"' EXIT
if ! { cmake --preset release && cmake --build --preset release --target voltwright_cli; } >"$log" 2>&1; then
    tail -n 40 "$log" >&2
    say "the program could not be built" >&2
    exit 1
fi

say "build/release/voltwright plan examples/profiles/simplest.toml"
echo
build/release/voltwright plan examples/profiles/simplest.toml
