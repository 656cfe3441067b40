#!/usr/bin/env bash
# Fuzzes one target: tests/fuzz/run.sh TARGET [RUNS [JOBS]]. Builds with clang's fuzzer and the
# address and undefined-behaviour sanitizers into .build-fuzz; new corpus and crashes go to .build-fuzz/corpus/TARGET.
set -eu
cd "$(dirname "$0")/../.."
target=${1:?a target: yaml, address, quantity, visit, species, roster, log, photo, wording, sheet, request} runs=${2:-100000} jobs=${3:-1}
[ -f .build-fuzz/build.ninja ] || CC=clang LDFLAGS="-fsanitize=address -fsanitize=undefined" \
  CFLAGS="-fsanitize=fuzzer-no-link -fsanitize=address -fsanitize=undefined -fno-sanitize-recover=undefined" \
  meson setup .build-fuzz -Db_lundef=false >/dev/null
ninja -C .build-fuzz page-fonts "tests/fuzz/fuzz_$target" >/dev/null
case $target in
  yaml) more="templates/visits" ;;
  visit | sheet) more="templates/visits" ;;
  roster) more="templates/rosters" ;;
  species) more="species-sheets" ;;
  wording) more="templates/wording/en" ;;
  *) more="" ;;
esac
corpus=.build-fuzz/corpus/$target
words=tests/fuzz/dictionaries/$target.dict
[ -f "$words" ] && more="$more -dict=$words"
mkdir -p "$corpus"
# shellcheck disable=SC2086
exec .build-fuzz/tests/fuzz/fuzz_$target -runs="$runs" -fork="$jobs" -max_len=8192 -timeout=20 -rss_limit_mb=1024 \
  -artifact_prefix="$corpus-crash-" "$corpus" "tests/fuzz/seeds/$target" $more
