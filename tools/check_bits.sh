#!/usr/bin/env bash
# check_bits.sh RELEASE WASM: the solved built-in cuts have the same bits in the release build, with
# fused multiply-add hidden from libm, and as WebAssembly. Where the processor has fused multiply-add,
# libm's own sine must notice that it is hidden, or the second run would show nothing.
set -euo pipefail
cd -- "$(dirname -- "${BASH_SOURCE[0]}")/.."
release=$1/bits wasm=$2/bits
mask=glibc.cpu.hwcaps=-FMA,-FMA4,-AVX2,-AVX512F

plain=$("$release/lw_bits")
hidden=$(GLIBC_TUNABLES=$mask "$release/lw_bits")
web=$(node --no-warnings tests/bits/run.mjs "$wasm/lw_bits.wasm")
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
