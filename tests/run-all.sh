#!/bin/sh
# Every test there is, on Debian 12: installs what is missing, then builds and tests in build/sanitize and
# build/release. Stops at the first step that fails. May run twice; the second time builds only what changed.
#
#     sh tests/run-all.sh
set -eu

cd "$(dirname "$0")/.."

started=$(date +%s)
say() { echo "== $(($(date +%s) - started)) s: $*"; }
jobs=${CMAKE_BUILD_PARALLEL_LEVEL:-$(nproc)}

log=$(mktemp)
trap 'rm -f "$log"' EXIT
# Runs a command silently, and shows the end of what it said when it fails.
quietly() {
    if ! "$@" >"$log" 2>&1; then
        tail -n 80 "$log" >&2
        say "failed: $*" >&2
        exit 1
    fi
}

say "what building and testing needs"
sh tests/setup.sh build test

say "building the program and the tests, so that they stop at the first wrong access or undefined step"
quietly cmake --preset sanitize
quietly cmake --build --preset sanitize --parallel "$jobs"
say "all tests"
ctest --preset sanitize --parallel "$jobs"

say "building what is installed, and the benchmarks"
quietly cmake --preset release -DVOLTWRIGHT_BENCH=ON
quietly cmake --build --preset release --parallel "$jobs"
say "what clang++ and clang-tidy say"
python3 tests/clang.py build/release
say "compiling each header by itself"
python3 tests/headers.py build/release
python3 tests/headers.py --self-test build/release
say "the benchmarks in short, and an outsider using the installed library"
ctest --preset release --parallel "$jobs"
