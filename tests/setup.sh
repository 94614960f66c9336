#!/bin/sh
# Installs what is missing of what building and testing needs, on Debian 12.
#
#     sh tests/setup.sh build           what building needs
#     sh tests/setup.sh build test      and what testing needs
#     sh tests/setup.sh shellcheck      a package by its name
#
# May run twice. Needs root or sudo, and the network, only when something is missing.
set -eu

build='ca-certificates g++ cmake ninja-build libboost-dev libcli11-dev libtomlplusplus-dev libfmt-dev nlohmann-json3-dev libeigen3-dev'
tests='clang clang-tidy doctest-dev pkg-config python3 python3-jsonschema ngspice zsh fish groff man-db mandoc shellcheck chromium chromium-driver
    python3-selenium poppler-utils fonts-dejavu-core npm'

fail() {
    echo "setup: $*" >&2
    exit 1
}

wanted=
for word in "$@"; do
    case $word in
    build) wanted="$wanted $build" ;;
    test) wanted="$wanted $tests" ;;
    *) wanted="$wanted $word" ;;
    esac
done

missing=
if command -v dpkg-query >/dev/null; then
    for package in $wanted; do
        # npm may come with another Node.js than Debian's, beside which Debian's cannot stand.
        [ "$package" = npm ] && command -v npm >/dev/null && continue
        status=$(dpkg-query -W -f '${db:Status-Status}' "$package" 2>/dev/null) || status=
        [ "$status" = installed ] || missing="$missing $package"
    done
else
    fail "this needs Debian's packages; elsewhere install the like of:$wanted"
fi
if [ -z "$missing" ]; then
    echo "setup: everything is there"
    exit 0
fi

as_root=
if [ "$(id -u)" -ne 0 ]; then
    command -v sudo >/dev/null || fail "missing$missing; run as root, or install sudo"
    as_root='sudo -n'
    [ -t 0 ] && as_root=sudo
fi

echo "setup: installing$missing"
log=$(mktemp)
trap 'rm -f "$log"' EXIT
apt() {
    # env carries the variable past sudo.
    $as_root env DEBIAN_FRONTEND=noninteractive apt-get -qq -o DPkg::Lock::Timeout=300 "$@" </dev/null >"$log" 2>&1
}
# An update that fails is no harm while the lists at hand still serve, so the install decides.
apt update || echo "setup: the package lists could not be brought up to date" >&2
# shellcheck disable=SC2086  # a list of words
if ! apt install -y --no-install-recommends $missing; then
    reason=$(grep -m 1 '^E: ' "$log") || reason=$(tail -n 1 "$log")
    fail "could not install$missing (${reason#E: })"
fi
