#!/usr/bin/env bash
# check_install.sh BUILD: installed elsewhere, lapwing finds its helpers, and brings its man page and
# its completion.
set -euo pipefail
cd -- "$(dirname -- "${BASH_SOURCE[0]}")/.."
place=$(mktemp -d)
trap 'rm -rf -- "$place"' EXIT
cmake --install "$1" --prefix "$place" >/dev/null
"$place/bin/lapwing" show round-brilliant >/dev/null
(cd "$place" && bin/lapwing sheet round-brilliant --width-mm 8 --material quartz -o sheet.pdf >/dev/null)
pages=$(pdfinfo "$place/sheet.pdf" | sed -n 's/^Pages: *//p')
LC_ALL=C.UTF-8 man --warnings -l "$place/share/man/man1/lapwing.1" 2>&1 >/dev/null | (! grep .)
bash -n "$place/share/bash-completion/completions/lapwing"
printf 'installed: %d files, a sheet of %d pages\n' "$(find "$place" -type f | wc -l)" "$pages"
