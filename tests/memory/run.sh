#!/usr/bin/env bash
# Every C suite and the program's main commands under valgrind, and the whole suite under clang's address and undefined-behaviour
# sanitizers (gcc's run in CI): tests/memory/run.sh [BUILD-FOLDER]. Takes some minutes. Nothing is suppressed.
set -eu
cd "$(dirname "$0")/../.."
build=${1:-.build}
ninja -C "$build" >/dev/null
CK_FORK=no meson test -C "$build" --no-rebuild -t 20 --wrapper "$PWD/tests/memory/wrap.sh" --print-errorlogs
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
cp templates/visits/biscuit-ball-python.yaml "$folder/visit.yaml"
for words in "sheet templates/visits/ember-bearded-dragon.yaml -o -" "sheet templates/visits/juniper-adoption.yaml -o - --language es" \
  "explain templates/visits/biscuit-ball-python.yaml --json" "check species-sheets/axolotl.yaml" "check ." "species python" "start sulcata-tortoise" \
  "sign $folder/visit.yaml --by Calder" "dates $folder/visit.yaml -o -" "mail $folder/visit.yaml -o -" \
  "packet templates/rosters/spring-day.csv --drafts --joined -o $folder/csv" "packet templates/rosters/autumn-day.yaml --drafts --jobs 2 -o $folder/yaml"; do
  # shellcheck disable=SC2086
  tests/memory/wrap.sh "$build/src/cli/baskleaf" $words >/dev/null
  echo "ok - valgrind: baskleaf $words"
done
[ -f .build-clang-sanitized/build.ninja ] || CC=clang meson setup .build-clang-sanitized -Db_sanitize=address,undefined -Db_lundef=false >/dev/null
ninja -C .build-clang-sanitized >/dev/null
meson test -C .build-clang-sanitized --no-rebuild --print-errorlogs
