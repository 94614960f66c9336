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
log=$(mktemp) failed=$(mktemp)
trap 'rm -f "$log" "$failed"' EXIT
build() { cmake --preset release && cmake --build --preset release --target voltwright_cli; }
# The build's own lines, [12/80] and what it compiles, go to the log: of them one in ten is told.
tell_progress() {
    told=0
    while IFS= read -r line; do
        printf '%s\n' "$line" >>"$log"
        case $line in
        "["[0-9]*/[0-9]*"] Building"*)
            steps=${line%%]*} steps=${steps#[}
            tenth=$((${steps%/*} * 10 / ${steps#*/}))
            if [ "$tenth" -gt "$told" ]; then
                told=$tenth
                say "built ${steps%/*} of ${steps#*/}"
            fi
            ;;
        esac
    done
}
{ build 2>&1 || echo failed >"$failed"; } | tell_progress
if [ -s "$failed" ]; then
    tail -n 40 "$log" >&2
    say "the program could not be built" >&2
    exit 1
fi

say "build/release/voltwright plan examples/profiles/simplest.toml"
echo
build/release/voltwright plan examples/profiles/simplest.toml
