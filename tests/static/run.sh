#!/usr/bin/env bash
# Static checks of our own code: tests/static/run.sh [BUILD-FOLDER]. Formatting, cppcheck, clang-tidy (.clang-tidy) and gcc's
# analyzer; each must be clean. Prints one line a check.
set -u
cd "$(dirname "$0")/../.."
build=${1:-.build}
failed=0
report() {
  if [ "$1" = 0 ]; then echo "ok - $2"; else echo "not ok - $2"; cat "$3"; failed=1; fi
}
log=$(mktemp)
trap 'rm -f "$log"' EXIT

find src tests -name '*.[ch]' -print0 | xargs -0 clang-format --dry-run -Werror >"$log" 2>&1
report $? "clang-format" "$log"

# duplicateAssignExpression: two values that happen to begin alike are no fault
cppcheck --enable=warning,performance,portability --std=c11 --quiet --error-exitcode=1 -j2 -I src -D_GNU_SOURCE \
  --library=tests/static/cppcheck.cfg --suppress=missingIncludeSystem --suppress=duplicateAssignExpression src >"$log" 2>&1
report $? "cppcheck" "$log"

run-clang-tidy -quiet -p "$build" -j2 '/src/' 2>/dev/null | grep -E '(warning|error):' >"$log"
[ ! -s "$log" ]
report $? "clang-tidy" "$log"

# one file at a time, as gcc's analyzer sees no further in C; leaks are left to the leak sanitizer and valgrind, because a stream that goes into the
# caller's array looks like one from here
find src -name '*.c' ! -path 'src/pdf/fonts/*' -print0 | xargs -0 -P2 -n1 gcc -fanalyzer -Wno-analyzer-malloc-leak -Wno-analyzer-file-leak -c -o /dev/null -std=c17 -O1 -D_GNU_SOURCE \
  -Isrc $(pkg-config --cflags yaml-0.1 nettle harfbuzz fribidi) -DBASKLEAF_DATA='"share/baskleaf"' -DBASKLEAF_VERSION='""' \
  -DBASKLEAF_LETTERS='"baskleaf-letters.so"' -DBASKLEAF_LIBEXEC='""' -DBASKLEAF_LIBEXEC_AT='""' >"$log" 2>&1
[ ! -s "$log" ]
report $? "gcc -fanalyzer" "$log"
exit $failed
