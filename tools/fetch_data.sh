#!/usr/bin/env bash
# Fetches what the lock files name (open data for the tests), once for each state of a lock file.
set -euo pipefail
cd -- "$(dirname -- "${BASH_SOURCE[0]}")/.."
count=0
for lock in tests/data/package-lock.json; do
    [ -f "$lock" ] || continue
    count=$((count + 1))
    folder=$(dirname "$lock")
    stamp=$folder/node_modules/.fetched
    if ! [ -f "$stamp" ] || ! cmp -s "$lock" "$stamp"; then
        (cd "$folder" && npm ci --ignore-scripts --no-audit --no-fund --loglevel=error)
        cp "$lock" "$stamp"
    fi
done
printf '%d lock file(s) fulfilled\n' "$count"
