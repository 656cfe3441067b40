#!/usr/bin/env bash
# The whole test suite: the plain build first, then (under CI) warnings as errors with gcc and
# clang, the address and undefined-behaviour sanitizers, and the static checks. Prints one closing line.
set -eu
cd "$(dirname "$0")/.."

in_ci=${CI:-}
# what only the tests need; a test that lacks its program says so and counts as skipped
more="python3-fonttools python3-icalendar python3-aiosmtpd openssl diction python3-jsonschema groff-base cups-daemon tesseract-ocr tesseract-ocr-spa"
[ -z "$in_ci" ] || more="$more clang libclang-rt-14-dev clang-tidy clang-format cppcheck"
bash src/setup.sh packages "$more"

passed=0 failed=0 skipped=0 runs=0
# run_suite NAME COMPILER SUITES MESON-OPTIONS...; SUITES are meson test's, none for all
run_suite() {
  name=$1 compiler=$2 suites=$3
  shift 3
  folder=.build-$name
  [ "$name" != plain ] || folder=.build
  [ -f "$folder/build.ninja" ] || CC=$compiler meson setup "$folder" "$@" >"/tmp/baskleaf-$name-setup.log" 2>&1 ||
    { cat "/tmp/baskleaf-$name-setup.log"; exit 1; }
  ninja -C "$folder" >"/tmp/baskleaf-$name-build.log" 2>&1 || { tail -50 "/tmp/baskleaf-$name-build.log"; exit 1; }
  echo "== $name ($compiler)"
  # shellcheck disable=SC2086
  CK_TIMEOUT_MULTIPLIER=5 meson test -C "$folder" --no-rebuild -t 3 --print-errorlogs $suites >"/tmp/baskleaf-$name-test.log" 2>&1 || true
  grep -vE '^(ninja|$)' "/tmp/baskleaf-$name-test.log" | tail -60
  passed=$((passed + $(count "$name" Ok))) failed=$((failed + $(count "$name" Fail) + $(count "$name" Timeout)))
  skipped=$((skipped + $(count "$name" Skipped))) runs=$((runs + 1))
}
count() { sed -n "s/^$2: *\([0-9]*\).*/\1/p" "/tmp/baskleaf-$1-test.log" | tail -1 | grep . || echo 0; }

if [ -n "$in_ci" ]; then
  run_suite plain gcc "" -Dwerror=true
  # the program as a whole has been tried; another compiler's code is tried part by part
  run_suite clang clang "--suite base --suite yaml --suite records --suite care --suite words --suite sheet --suite fuzz" -Dwerror=true
  run_suite sanitized gcc "" -Db_sanitize=address,undefined -Db_lundef=false
  echo "== static checks"
  if bash tests/static/run.sh .build; then passed=$((passed + 1)); else failed=$((failed + 1)); fi
else
  run_suite plain gcc ""
fi
echo "$passed passed, $failed failed, $skipped skipped"
[ "$failed" = 0 ] && [ "$passed" -gt 0 ]
