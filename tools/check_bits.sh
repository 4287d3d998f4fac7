#!/usr/bin/env bash
# check_bits.sh RELEASE WASM: the solved built-in cuts have the same bits in the release build, with
# fused multiply-add hidden from libm, and as WebAssembly. Where the processor has fused multiply-add,
# libm's own sine must notice that it is hidden, or the second run would show nothing.
set -euo pipefail
cd -- "$(dirname -- "${BASH_SOURCE[0]}")/.."
release=$1/bits wasm=$2/bits
mask=glibc.cpu.hwcaps=-FMA,-FMA4,-AVX2,-AVX512F

# node below 20 asks for a flag.
wasi=$([ "$(node -p 'parseInt(process.versions.node)')" -ge 20 ] || echo --experimental-wasi-unstable-preview1)

plain=$("$release/lw_bits") || { printf '%s\n' "$plain"; exit 1; }
hidden=$(GLIBC_TUNABLES=$mask "$release/lw_bits") || { printf '%s\n' "$hidden"; exit 1; }
web=$(node --no-warnings $wasi tests/bits/run.mjs "$wasm/lw_bits.wasm") || { printf '%s\n' "$web"; exit 1; }
printf '%s\n' "$plain"

faults=0
differ() {
    if [ "$2" != "$3" ]; then
        printf '%s:\n' "$1"
        diff <(printf '%s\n' "$2") <(printf '%s\n' "$3") || true
        faults=$((faults + 1))
    fi
}
differ 'with fused multiply-add hidden' "$plain" "$hidden"
differ 'as WebAssembly' "$plain" "$web"
if grep -qw fma /proc/cpuinfo && [ "$("$release/lw_bits_libm")" = "$(GLIBC_TUNABLES=$mask "$release/lw_bits_libm")" ]; then
    printf 'hiding fused multiply-add has no effect: the comparison shows nothing\n'
    faults=$((faults + 1))
fi
printf '%s, the same three times over\n' "$(tail -n 1 <<<"$plain")"
[ "$faults" -eq 0 ]
