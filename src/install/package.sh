#!/usr/bin/env bash
# Makes a Debian package: `src/install/package.sh FOLDER [BUILD]` writes FOLDER/baskleaf_VERSION_ARCHITECTURE.deb.
# BUILD is a folder that is built already; without one .build-package is made. The same sources give the same bytes.
set -eu
root=$(cd "$(dirname "$0")/../.." && pwd)
[ $# -ge 1 ] || { echo "usage: src/install/package.sh FOLDER [BUILD]" >&2; exit 2; }
mkdir -p "$1"
out=$(cd "$1" && pwd)
build=${2:-$root/.build-package}
if [ $# -lt 2 ]; then
  [ -d "$build" ] || meson setup --prefix=/usr "$build" "$root"
  ninja -C "$build"
fi
SOURCE_DATE_EPOCH=${SOURCE_DATE_EPOCH:-$(git -C "$root" log -1 --format=%ct 2>/dev/null || stat -c %Y "$root/meson.build")}
export SOURCE_DATE_EPOCH LC_ALL=C
umask 022
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
tree=$work/baskleaf

# The program finds everything from where it lies itself, so any prefix can become /usr.
DESTDIR=$work/installed meson install --no-rebuild --quiet -C "$build"
prefix=$(find "$work/installed" -path '*/bin/baskleaf' -printf '%h\n')
mkdir -p "$tree/DEBIAN"
mv "$(dirname "$prefix")" "$tree/usr"
find "$tree" -name .gitkeep -delete

version=$("$tree/usr/bin/baskleaf" --version | grep -o '[0-9][0-9.]*' | head -1)
architecture=$(dpkg --print-architecture)
documents=$tree/usr/share/doc/baskleaf
fill() {
  sed -e "s|@VERSION@|$version|" -e "s|@ARCHITECTURE@|$architecture|" -e "s|@SIZE@|${size:-}|" -e "s|@DEPENDS@|${depends:-}|" \
    -e "s|@DATE@|$(date -u -R -d "@$SOURCE_DATE_EPOCH")|" "$root/src/install/debian/$1"
}
fill changelog.in | gzip -9n >"$documents/changelog.gz"
find "$tree/usr/share/man" -name '*.[157]' -exec gzip -9n {} +
mkdir -p "$tree/usr/share/lintian/overrides"
cp "$root/src/install/debian/overrides" "$tree/usr/share/lintian/overrides/baskleaf"

# Modes as Debian has them; names of debugging are left out.
find "$tree/usr" -type d -exec chmod 755 {} +
find "$tree/usr" -type f -exec chmod 644 {} +
programs=$(find "$tree/usr/bin" "$tree/usr/libexec" -type f)
for program in $programs; do
  case $program in
    *.so) strip --strip-unneeded "$program" ;;
    *) strip "$program" && chmod 755 "$program" ;;
  esac
done

# What they are linked with, as the packages of this machine name it.
mkdir -p "$work/debian"
printf 'Source: baskleaf\n\nPackage: baskleaf\nArchitecture: any\n' >"$work/debian/control"
# shellcheck disable=SC2086
depends=$(cd "$work" && dpkg-shlibdeps -O --ignore-missing-info $programs 2>/dev/null | sed -n 's/^shlibs:Depends=//p')
[ -n "$depends" ] || { echo "package.sh: dpkg-shlibdeps named no library" >&2; exit 1; }
size=$(du -k -s --apparent-size "$tree/usr" | cut -f1)
fill control.in >"$tree/DEBIAN/control"
(cd "$tree" && find usr -type f -print0 | sort -z | xargs -0 md5sum) >"$tree/DEBIAN/md5sums"
chmod 644 "$tree/DEBIAN/control" "$tree/DEBIAN/md5sums"
find "$tree" -newermt "@$SOURCE_DATE_EPOCH" -exec touch -h -d "@$SOURCE_DATE_EPOCH" {} +
dpkg-deb --root-owner-group --build "$tree" "$out/baskleaf_${version}_$architecture.deb"
