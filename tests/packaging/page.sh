#!/bin/sh
# Puts a live page together from its sources and an engine that is none: the page must hold the notices
# of THIRD-PARTY.txt in a comment at its end. usage: page.sh ROOT
set -eu
root=$1
live=$root/src/live
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
echo "var caseload_engine;" >"$work/engine.js"
echo "no engine" >"$work/engine.wasm"
assemble() {
  cmake -DPAGE="$live/page.html" "-DSTYLES=$root/tables/page.css;$live/live.css" -DENGINE="$work/engine.js" \
    -DWASM="$work/engine.wasm" -DGLUE="$live/engine.js" "-DSCRIPTS=$live/form.js;$live/live.js" \
    -DNOTICES="$1" -DVERSION=0 -DOUT="$work/page.html" -P "$live/assemble.cmake" >"$work/said" 2>&1
}
assemble "$root/THIRD-PARTY.txt" || { cat "$work/said"; exit 1; }
{ echo "<!--"; cat "$root/THIRD-PARTY.txt"; echo "-->"; } >"$work/end"
tail -c "$(wc -c <"$work/end")" "$work/page.html" | cmp - "$work/end"
echo "a comment -- ended" >"$work/bad"
if assemble "$work/bad"; then echo "notices that end their comment were taken"; exit 1; fi
echo "the page holds the notices"
