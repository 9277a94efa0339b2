#!/bin/sh
# Packs what BUILD has made for Debian, unpacks it and runs it: a program without shared libraries,
# manual page, completion, the notices of what is linked in, nothing of the folder it was built in. usage: debian.sh BUILD SETUP
set -eu
build=$1
setup=$2
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
(cd "$build" && cpack -G DEB -B "$work/packed" >"$work/cpack.txt" 2>&1) || { cat "$work/cpack.txt"; exit 1; }
package=$(ls "$work"/packed/*.deb)
dpkg-deb -x "$package" "$work/unpacked"
program=$work/unpacked/usr/bin/caseload
readelf -d "$program" | grep NEEDED && { echo "not static"; exit 1; }
if grep -qaF "$build" "$program"; then echo "the program holds the name of its build folder"; exit 1; fi
test "$("$program" --version)" = "$("$build/caseload" --version)"
"$program" assess "$setup" --draws 63 >"$work/packed.txt"
"$build/caseload" assess "$setup" --draws 63 >"$work/built.txt"
cmp "$work/packed.txt" "$work/built.txt"
gzip -t "$work/unpacked/usr/share/man/man1/caseload.1.gz"
test -s "$work/unpacked/usr/share/bash-completion/completions/caseload"
test -s "$work/unpacked/usr/share/caseload/setup.schema.json"
cmp "$(dirname "$0")/../../THIRD-PARTY.txt" "$work/unpacked/usr/share/doc/caseload/THIRD-PARTY.txt"
echo "$(basename "$package"): $(stat -c %s "$package") bytes, unpacked and run"
