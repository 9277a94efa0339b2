#!/bin/sh
# Builds the last commit in two new folders and compares program, library and Debian package byte for
# byte. Takes as long as two builds. usage, in the repository: tests/packaging/reproducible.sh
set -eu
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
commit=$(git rev-parse HEAD)
SOURCE_DATE_EPOCH=$(git log -1 --format=%ct "$commit")
export SOURCE_DATE_EPOCH CCACHE_DISABLE=1
for place in "$work/one" "$work/a folder elsewhere/two"; do
    mkdir -p "$place"
    git archive "$commit" | tar -x -C "$place"
    (cd "$place" && cmake --preset release -DCASELOAD_TESTS=OFF && cmake --build --preset release &&
        cd build/release && cpack -G DEB) >"$work/log.txt" 2>&1 || { tail -20 "$work/log.txt"; exit 1; }
done
for file in caseload libcaseload.a libcaseload_fmt.a caseload.1.gz "$(basename "$work"/one/build/release/*.deb)"; do
    test -s "$work/one/build/release/$file"
    cmp "$work/one/build/release/$file" "$work/a folder elsewhere/two/build/release/$file"
    echo "$file: same bytes"
done
