#!/usr/bin/env bash
# Installs the Debian packages that are missing, builds the program into .build, and writes the example sheet into out/.
# `src/setup.sh packages [MORE]` and `src/setup.sh build [TARGET]` do the first parts alone.
set -eu
cd "$(dirname "$0")/.."

packages="gcc meson ninja-build pkg-config libhpdf-dev libyaml-dev nettle-dev zlib1g-dev libdeflate-dev libunibreak-dev libharfbuzz-dev libfribidi-dev
  libunistring-dev
  libqrencode-dev libpng-dev libjpeg62-turbo-dev libical-dev libcurl4-openssl-dev libidn2-dev libmicrohttpd-dev libcsv-dev libcups2-dev libqpdf-dev
  fonts-liberation icc-profiles-free python3"

# What is not installed of the packages that are named.
missing_of() {
  for package in "$@"; do
    dpkg-query -W -f '${Status}' "$package" 2>/dev/null | grep -q '^install ok installed' || printf '%s ' "$package"
  done
}

# Installing a package must start no service on this machine: Debian asks this file before it does.
forbid_services() {
  policy=/usr/sbin/policy-rc.d
  [ ! -e "$policy" ] || return 0
  $as_root sh -c "printf '#!/bin/sh\nexit 101\n' > $policy && chmod 755 $policy"
  trap '$as_root rm -f "$policy"' EXIT
}

install_packages() {
  # shellcheck disable=SC2086
  missing=$(missing_of $packages ${1:-})
  [ -n "$missing" ] || return 0
  command="apt-get install --no-install-recommends $missing"
  as_root=""
  if [ "$(id -u)" != 0 ]; then
    as_root=sudo
    if ! command -v sudo >/dev/null || ! sudo -v; then
      printf 'These Debian packages are missing, and installing them needs an administrator. Ask one to run:\n\n    %s\n\n' "$command" >&2
      echo "Then run this again; nothing else here needs more rights than yours." >&2
      exit 1
    fi
  fi
  echo "installing: $missing"
  $as_root apt-get update -qq
  # shellcheck disable=SC2086
  LC_ALL=C $as_root apt-get install --assume-no --no-install-recommends $missing 2>/dev/null |
    sed -n 's/^Need to get \(.*\) of archives.*/to download: \1 (some minutes on a slow line)/p
            s/^After this operation, \(.*\) of additional disk space will be used.*/on the disk: \1/p' || true
  forbid_services
  # shellcheck disable=SC2086
  $as_root env DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends $missing >/dev/null
}

# A build folder knows where it was made; after a move it is made anew.
heal() {
  [ -d .build ] || return 0
  python3 - "$PWD" <<'END' || { echo "this folder was moved since it was built: building anew"; rm -rf .build; }
import json, os, sys
try:
    with open(".build/meson-info/meson-info.json", encoding="utf-8") as file:
        made_for = json.load(file)["directories"]["source"]
except (OSError, ValueError, KeyError):
    sys.exit(1)
sys.exit(os.path.realpath(made_for) != os.path.realpath(sys.argv[1]))
END
}

build() {
  heal
  if [ ! -f .build/build.ninja ]; then
    log=$(mktemp)
    meson setup .build >"$log" 2>&1 || { cat "$log" >&2; rm -f "$log"; exit 1; }
    rm -f "$log"
  fi
  echo "building (about a minute)"
  ninja -C .build --quiet "${1:-program}"
}

last_words() {
  cat <<'END'

That is the sheet of an invented ball python at an invented clinic. It says "draft" because no veterinarian has signed it.
Next: say who your clinic is, which nothing is signed without, and begin a visit:
    .build/src/cli/baskleaf clinic
    .build/src/cli/baskleaf start ball-python -o out/first-visit.yaml
README.md tells the rest.
END
}

case "${1:-all}" in
  packages) install_packages "${2:-}" ;;
  build) build "${2:-}" ;;
  all)
    install_packages
    build
    .build/src/cli/baskleaf sheet templates/visits/biscuit-ball-python.yaml
    last_words
    ;;
  *) echo "usage: src/setup.sh [packages [MORE] | build [TARGET]]" >&2; exit 2 ;;
esac
