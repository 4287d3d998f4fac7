#!/usr/bin/env bash
# Every C file stands as clang-format lays it out.
set -euo pipefail
cd -- "$(dirname -- "${BASH_SOURCE[0]}")/.."
. tools/rooms.sh
mapfile -t files < <(room_files)
clang-format --dry-run -Werror "${files[@]}"
printf '%d files\n' "${#files[@]}"
