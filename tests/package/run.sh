#!/bin/sh
# Installs a build, then builds a small program outside of it by find_package and by pkg-config, in a second place too:
# the installed tree may be moved.
#
#     sh tests/package/run.sh BUILD_FOLDER
set -eu

outsider=$(cd "$(dirname "$0")" && pwd)
source=$(cd "$outsider/../.." && pwd)
build=$(cd "$1" && pwd)
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT

fail() {
    echo "package: $*" >&2
    exit 1
}

# Runs a command silently, and shows what it said when it fails.
quietly() {
    if ! "$@" >"$work/log" 2>&1; then
        cat "$work/log" >&2
        fail "failed: $*"
    fi
}

# Builds the outsider against the tree given, both ways, and prints what the two programs say.
use() {
    rm -rf "$work/by-cmake"
    quietly cmake -G Ninja -S "$outsider" -B "$work/by-cmake" -DCMAKE_PREFIX_PATH="$1" -DCMAKE_BUILD_TYPE=Release
    quietly cmake --build "$work/by-cmake"
    "$work/by-cmake/outsider"

    PKG_CONFIG_PATH=$(dirname "$(find "$1" -name voltwright.pc)")
    export PKG_CONFIG_PATH
    flags=$(pkg-config --cflags --libs voltwright-report voltwright-files voltwright)
    # shellcheck disable=SC2086  # a list of words
    ${CXX:-c++} "$outsider/main.cpp" -o "$work/by-pkg-config" $flags || fail "pkg-config did not serve"
    "$work/by-pkg-config"
}

quietly cmake --install "$build" --prefix "$work/first"
if grep -rlF -e "$source" -e "$build" "$work/first"; then
    fail "these files name the folder in which they were built"
fi
for header in $(cd "$source/lib" && find voltwright -name '*.hpp'); do
    [ -f "$work/first/include/$header" ] || fail "$header is not installed"
done

use "$work/first" >"$work/said-first"
mv "$work/first" "$work/second"
use "$work/second" >"$work/said-second"

cat "$work/said-first"
[ -s "$work/said-first" ] || fail "the outsider said nothing"
[ "$(sort -u "$work/said-first" "$work/said-second" | wc -l)" -eq 1 ] || fail "it did not say the same every time"

program=$work/second/bin/voltwright
if [ -x "$program" ]; then
    "$program" --version || fail "the installed program does not run"
    # Where man and each shell look, and as this program writes them.
    same() {
        file=$work/second/share/$1
        [ -f "$file" ] || fail "share/$1 is not installed"
        shift
        "$program" "$@" | cmp -s - "$file" || fail "$file is not what voltwright $* writes"
    }
    same man/man1/voltwright.1 manual
    same bash-completion/completions/voltwright completions bash
    same zsh/site-functions/_voltwright completions zsh
    same fish/vendor_completions.d/voltwright.fish completions fish
    if command -v man >/dev/null; then
        man -M "$work/second/share/man" -w voltwright >/dev/null || fail "man does not find the manual page"
    fi
fi
