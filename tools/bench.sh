#!/usr/bin/env bash
# bench.sh BUILD: every benchmark, quick unless LW_LONG is set; the figures go to build/bench/ as JSON
# too. Fails where one cannot run or misses what it is held to. Timings of a busy machine are noise:
# what counts is the ratio to the peer that took turns with it.
set -euo pipefail
cd -- "$(dirname -- "${BASH_SOURCE[0]}")/.."
build=$1
mkdir -p build/bench
quick=(--quick)
[ -z "${LW_LONG:-}" ] || quick=()
count=0
for program in "$build"/bench/bench_*; do
    [ -x "$program" ] && [ -f "$program" ] || continue
    name=$(basename "$program")
    arguments=()
    [ "$name" != bench_startup ] || arguments=("$build/lapwing" "$build/bench/empty")
    "$program" "${arguments[@]}" "${quick[@]}" --json "build/bench/${name#bench_}.json"
    count=$((count + 1))
done
# Native against WebAssembly in node; below 20 node asks for a flag.
wasm=build/wasm/bench/wasm/lw_rays.wasm
if [ -e "$wasm" ] && [ -x "$build/bench/wasm/lw_rays" ]; then
    wasi=$([ "$(node -p 'parseInt(process.versions.node)')" -ge 20 ] || echo --experimental-wasi-unstable-preview1)
    node --no-warnings $wasi bench/wasm/compare.mjs "$build/bench/wasm/lw_rays" "$wasm" "${quick[@]}" \
        --json build/bench/wasm.json
    count=$((count + 1))
fi
printf '%d benchmarks, figures in build/bench\n' "$count"
[ "$count" -gt 0 ]
