#!/usr/bin/env bash
# bounded.sh LAPWING: whatever comes in, time and memory stay bounded: two seconds of processor and
# 64 MB of address space, for texts without an end, of 100 MB, and as absurd as the limits let through.
set -uo pipefail
lapwing=$(realpath -- "$1")
work=$(mktemp -d)
trap 'rm -rf -- "$work"' EXIT
cd -- "$work" || exit 2
failed=0

# refused NAME COMMAND…: ends with 2 and one line, within the bounds.
refused() {
    local name=$1 status=0
    shift
    (
        ulimit -v 65536
        ulimit -t 2
        "$@"
    ) >out 2>err || status=$?
    if [ "$status" -ne 2 ] || [ -s out ] || [ "$(wc -l <err)" -ne 1 ]; then
        printf '%s: status %d\n' "$name" "$status"
        head -n 5 out err
        failed=1
    fi
}

refused 'zeros without end' "$lapwing" solve - </dev/zero
refused 'lines without end' "$lapwing" solve - < <(yes 'main at 42 on 96 to point')
yes 'wheel 96' | head -c 100000000 >big.cut
refused '100 MB' "$lapwing" solve big.cut

{ echo 'wheel 96'; yes '# remark' | head -n 100000; } >remarks.cut
refused 'remarks alone' "$lapwing" solve remarks.cut
{ echo 'wheel 96'; echo 'dop crown'; echo 'pavilion'; for _ in $(seq 600); do echo 'main at 42 on 96 x96 to point'; done; } >many.cut
refused 'too many facets' "$lapwing" solve many.cut
{ printf 'wheel 96\nlet a = '; printf '(%.0s' $(seq 900); printf '1'; printf ')%.0s' $(seq 900); echo; } >deep.cut
refused 'brackets in brackets' "$lapwing" solve deep.cut
echo 'wheel 999999999999999999999' >wheel.cut
refused 'an absurd wheel' "$lapwing" solve wheel.cut
printf 'wheel 96\nfold 99999999\n' >fold.cut
refused 'an absurd fold' "$lapwing" solve fold.cut

printf '%d failed\n' "$failed"
exit "$failed"
