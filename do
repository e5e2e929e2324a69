#!/bin/sh
# One word a task: ./do demo, ./do test, ./do check. "./do" alone lists them.
# Makes .venv on first use from the pinned, hashed requirements and brings it up to date when they change.
set -eu
cd "$(dirname "$0")"

fail() { echo "do: $*" >&2; exit 1; }

find_python() {
    for candidate in ${PYTHON:-} python3 python3.14 python3.13 python3.12 python3.11; do
        if "$candidate" -c 'import sys; sys.exit(sys.version_info < (3, 11))' 2>/dev/null; then
            echo "$candidate"
            return
        fi
    done
    fail "Python 3.11 or newer was not found. Install it (Debian: apt-get install python3) and try again."
}

# Installs packages of a Debian-like system, where this is one and lets us.
from_debian() {
    as_root=""
    [ "$(id -u)" = 0 ] || as_root="sudo"
    command -v apt-get >/dev/null 2>&1 || return 0
    echo "Installing $*..." >&2
    {
        $as_root apt-get update -qq
        $as_root env DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends "$@"
    } >/dev/null 2>&1 || true
}

# The pages are tried in a real browser: ${STILLROOM_BROWSER}, else Chromium.
find_browser() { command -v "${STILLROOM_BROWSER:-chromium}" >/dev/null 2>&1; }
need_browser() {
    find_browser && return
    from_debian chromium fonts-dejavu-core
    find_browser || fail "the pages are tried in Chromium, and there is none. Install it \
(Debian: apt-get install chromium), or name a Chromium by its path in STILLROOM_BROWSER."
}

make_venv() {
    python=$1
    "$python" -m venv .venv >/dev/null 2>&1 && return
    # Debian keeps the venv module in a package of its own.
    rm -rf .venv
    from_debian python3-venv
    "$python" -m venv .venv || fail "could not make .venv. Install the python3-venv package and try again."
}

stamp=$(cat requirements/dev.txt pyproject.toml | cksum)
if [ "$(cat .venv/stillroom-stamp 2>/dev/null || true)" != "$stamp" ]; then
    echo "Setting up .venv (a few minutes the first time)..." >&2
    [ -x .venv/bin/python ] || make_venv "$(find_python)"
    .venv/bin/python -m pip install --quiet --disable-pip-version-check --require-hashes -r requirements/dev.txt
    .venv/bin/python -m pip install --quiet --disable-pip-version-check --no-deps --no-build-isolation --editable .
    .venv/bin/python -m compileall -q src/stillroom
    echo "$stamp" > .venv/stillroom-stamp
fi

case "${1:-}" in
    test | check | screens) need_browser ;;
esac

PATH="$PWD/.venv/bin:$PATH"
export PATH
exec poe "$@"
