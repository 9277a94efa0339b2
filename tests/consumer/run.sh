#!/bin/sh
# Installs what BUILD has made into an empty folder, builds the consumer against it and compares what
# it answers with the installed program. usage: run.sh BUILD SETUP
set -eu
build=$1
setup=$2
here=$(cd "$(dirname "$0")" && pwd)
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
cmake --install "$build" --prefix "$work/usr" >/dev/null
cmake -S "$here" -B "$work/consumer" -DCMAKE_PREFIX_PATH="$work/usr" -DCMAKE_BUILD_TYPE=Release >/dev/null
cmake --build "$work/consumer" >/dev/null
ours=$("$work/consumer/hottest" "$setup")
theirs=$("$work/usr/bin/caseload" assess "$setup" --json |
    /usr/bin/python3 -c 'import json, sys; print("%.6f" % json.load(sys.stdin)["assessment"]["fitted"]["event"]["peak_oil_degC"])')
test "$ours" = "$theirs" || { echo "the consumer says $ours, the program $theirs"; exit 1; }
test -s "$work/usr/share/man/man1/caseload.1.gz"
test -s "$work/usr/share/bash-completion/completions/caseload"
test -s "$work/usr/share/caseload/setup.schema.json"
echo "$ours degC from both"
