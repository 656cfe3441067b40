#!/usr/bin/env bash
# The whole test suite: the plain build first, then (under CI) warnings as errors with gcc and clang, the address and
# undefined-behaviour sanitizers, and the static checks. Shows each test as it ends, the first failure whole, every check that cannot
# run here and why, and one closing line. Writes nowhere but into build folders and temporary ones.
set -eu
cd "$(dirname "$0")/.."
export PYTHONDONTWRITEBYTECODE=1

in_ci=${CI:-}
# what only the tests need; a test that lacks its program says so and counts as skipped
more="check poppler-utils qpdf python3-pikepdf python3-pil python3-yaml python3-fonttools python3-icalendar python3-aiosmtpd python3-jsonschema
  fonts-noto-core fonts-droid-fallback fonts-nanum openssl diction groff-base lintian tesseract-ocr tesseract-ocr-spa parallel locales"
if [ -n "$in_ci" ]; then
  # cups-daemon is a system's service: only a machine that is there for tests gets it
  more="$more clang libclang-rt-dev clang-tidy clang-format cppcheck cups-daemon"
  command -v node >/dev/null || more="$more nodejs"
  command -v npm >/dev/null || more="$more npm"
  command -v chromium >/dev/null || more="$more chromium"
fi
bash src/setup.sh packages "$more"

logs=$(mktemp -d)
trap 'rm -rf "$logs"' EXIT
folders=() static_passed=0 static_failed=0

# configure FOLDER COMPILER MESON-OPTIONS...: made, or looked over again, because what is installed may have changed
configure() {
  folder=$1 compiler=$2
  shift 2
  if [ -f "$folder/build.ninja" ]; then
    meson configure --clearcache "$folder" && meson setup --reconfigure "$folder" "$@"
  else
    CC=$compiler meson setup "$folder" "$@"
  fi >"$logs/setup" 2>&1 || { cat "$logs/setup"; exit 1; }
}

# run_suite NAME COMPILER SUITES MESON-OPTIONS...; SUITES are meson test's, none for all
run_suite() {
  name=$1 compiler=$2 suites=$3
  shift 3
  folder=.build-$name
  [ "$name" != plain ] || folder=.build
  echo "== $name ($compiler): building"
  configure "$folder" "$compiler" "$@"
  ninja -C "$folder" >"$logs/build" 2>&1 || { tail -50 "$logs/build"; exit 1; }
  # shellcheck disable=SC2086
  CK_TIMEOUT_MULTIPLIER=5 meson test -C "$folder" --no-rebuild -t 3 $suites 2>&1 | grep --line-buffered -E '^ *[0-9]+/[0-9]+ ' || true
  folders+=("$folder")
}

if [ -n "$in_ci" ]; then
  run_suite plain gcc "" -Dwerror=true
  # the program as a whole has been tried; another compiler's code is tried part by part, and what asks
  # the same of any compiler (`once`) is not asked again
  run_suite clang clang "--suite base --suite yaml --suite records --suite care --suite words --suite sheet --suite fuzz --no-suite once" -Dwerror=true
  # the sanitizers' checks decide how fast it runs, not the optimizer, which doubles what it takes to build
  run_suite sanitized gcc "--no-suite once" -Db_sanitize=address,undefined -Db_lundef=false -Doptimization=1
  echo "== static checks"
  if bash tests/static/run.sh .build; then static_passed=1; else static_failed=1; fi
else
  run_suite plain gcc ""
fi
python3 tests/common/closing.py "$static_passed" "$static_failed" "${folders[@]}"
