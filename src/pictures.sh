#!/usr/bin/env bash
# Makes the README's pictures: the pages of the example sheet as small grey PNG files in templates/pictures/, or in the
# folder that is named.
set -eu
cd "$(dirname "$0")/.."
folder=${1:-templates/pictures}
mkdir -p "$folder"
rm -f "$folder"/example-*.png
sheet=$(mktemp)
trap 'rm -f "$sheet"' EXIT
"${BASKLEAF:-.build/src/cli/baskleaf}" sheet --today 2026-03-14 -o - templates/visits/biscuit-ball-python.yaml > "$sheet"
pdftoppm -r 57 -gray -png "$sheet" "$folder/example"
ls "$folder"/example-*.png
