#!/usr/bin/env bash
# Installs the Debian packages that are missing, builds into .build, and writes the example
# sheet into out/. `src/setup.sh packages` and `src/setup.sh build` do the first parts alone.
set -eu
cd "$(dirname "$0")/.."

packages="gcc meson ninja-build pkg-config libhpdf-dev libyaml-dev nettle-dev check zlib1g-dev libunibreak-dev
  libharfbuzz-dev libqrencode-dev libpng-dev libical-dev libcurl4-openssl-dev libmicrohttpd-dev libcsv-dev libcups2-dev libqpdf-dev fonts-liberation icc-profiles-free poppler-utils qpdf python3 python3-pikepdf
  python3-yaml"

install_packages() {
  missing=""
  for package in $packages ${1:-}; do
    dpkg-query -W -f '${Status}' "$package" 2>/dev/null | grep -q '^install ok installed' || missing="$missing $package"
  done
  [ -n "$missing" ] || return 0
  echo "installing:$missing"
  as_root=""
  [ "$(id -u)" = 0 ] || as_root=sudo
  $as_root apt-get update -qq
  # shellcheck disable=SC2086
  $as_root env DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends $missing >/dev/null
}

build() {
  [ -f .build/build.ninja ] || meson setup .build
  ninja -C .build
}

case "${1:-all}" in
  packages) install_packages "${2:-}" ;;
  build) build ;;
  all)
    install_packages
    build
    .build/src/cli/baskleaf sheet templates/visits/biscuit-ball-python.yaml
    ;;
  *) echo "usage: src/setup.sh [packages [MORE] | build]" >&2; exit 2 ;;
esac
