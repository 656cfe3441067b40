#!/usr/bin/env bash
# Makes the README's pictures: the pages of the example sheet as small grey PNG files in templates/pictures/.
set -eu
cd "$(dirname "$0")/.."
mkdir -p templates/pictures
rm -f templates/pictures/example-*.png
sheet=$(mktemp)
trap 'rm -f "$sheet"' EXIT
.build/src/main/baskleaf sheet --today 2026-03-14 -o - templates/visits/biscuit-ball-python.yaml > "$sheet"
pdftoppm -r 57 -gray -png -f 1 -l 2 "$sheet" templates/pictures/example
ls templates/pictures/example-*.png
