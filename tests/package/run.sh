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

# Builds the outsiders against the tree given, both ways, and prints what their programs say.
use() {
    rm -rf "$work/by-cmake"
    quietly cmake -G Ninja -S "$outsider" -B "$work/by-cmake" -DCMAKE_PREFIX_PATH="$1" -DCMAKE_BUILD_TYPE=Release
    quietly cmake --build "$work/by-cmake"
    "$work/by-cmake/outsider"
    for program in unchecked_profile careless_cable; do
        "$work/by-cmake/$program" || fail "$program"
    done
    "$work/by-cmake/dropped_plan" "$source/examples/profiles/surf-wagon.toml" || fail "dropped_plan"

    PKG_CONFIG_PATH=$(dirname "$(find "$1" -name voltwright.pc)")
    export PKG_CONFIG_PATH
    flags=$(pkg-config --cflags --libs voltwright-report voltwright-files voltwright)
    # shellcheck disable=SC2086  # a list of words
    ${CXX:-c++} "$outsider/outsider.cpp" -o "$work/by-pkg-config" $flags || fail "pkg-config did not serve"
    "$work/by-pkg-config"
}

# A host project that takes the sources in as a folder gets the libraries, and nothing of ours is installed or built beside.
as_a_folder() {
    mkdir "$work/host"
    printf '%s\n' 'cmake_minimum_required(VERSION 3.25)' 'project(host LANGUAGES CXX)' \
        "add_subdirectory($source voltwright)" \
        'if(TARGET voltwright_cli OR NOT TARGET voltwright::report)' '  message(FATAL_ERROR "what is built")' 'endif()' \
        >"$work/host/CMakeLists.txt"
    quietly cmake -G Ninja -S "$work/host" -B "$work/host/build"
    quietly cmake --install "$work/host/build" --prefix "$work/host/installed"
    [ ! -e "$work/host/installed" ] || fail "a host project installs what is ours"
}

quietly cmake --install "$build" --prefix "$work/first"
if grep -rlF -e "$source" -e "$build" "$work/first"; then
    fail "these files name the folder in which they were built"
fi

# Every promised header is there with what it includes, and none that only ours include.
sed -n 's,^ *\(voltwright/[^ )]*\.hpp\).*,\1,p' "$source/lib/package/public_headers.cmake" >"$work/promised"
[ -s "$work/promised" ] || fail "no header is promised"
sed 's,.*,#include "&",' "$work/promised" >"$work/promised.cpp"
quietly ${CXX:-c++} -std=c++20 -fsyntax-only -I "$work/first/include" "$work/promised.cpp"
for header in profile/sections/rows report/markup; do
    [ -f "$source/lib/voltwright/$header.hpp" ] || fail "$header.hpp is not there any more: name another inner header"
    [ ! -f "$work/first/include/voltwright/$header.hpp" ] || fail "$header.hpp is an inner header and was installed"
done

for paper in LICENSE README.md CHANGELOG.md schemas/profile.schema.json examples/profiles/simplest.toml; do
    [ -f "$work/first/share/doc/voltwright/$paper" ] || fail "share/doc/voltwright/$paper is not installed"
done
as_a_folder

use "$work/first" >"$work/said-first"
mv "$work/first" "$work/second"
use "$work/second" >"$work/said-second"

cat "$work/said-first"
[ -s "$work/said-first" ] || fail "the outsider said nothing"
cmp -s "$work/said-first" "$work/said-second" || fail "it did not say the same in a second place"
# The first line was built by find_package, the last by pkg-config.
[ "$(head -n 1 "$work/said-first")" = "$(tail -n 1 "$work/said-first")" ] || fail "the two ways do not say the same"

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
