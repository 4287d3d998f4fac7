#!/usr/bin/env bash
# command.sh LAPWING: what `lapwing light` promises to whoever reads its JSON, its exit statuses, and
# limits that hold for any cut.
set -uo pipefail
lapwing=$1
faults=0
fault() {
    printf '%s\n' "$*"
    faults=$((faults + 1))
}

# value KEY JSON
value() {
    sed -n "s/^  \"$1\": \(.*[^,]\),\{0,1\}\$/\1/p" <<<"$2"
}

# holds WHAT AWK-CONDITION
holds() {
    awk "BEGIN { exit !($2) }" || fault "$1: $2"
}

json=$("$lapwing" light round-brilliant --material diamond --json) || fault "exit $?"
for key in brightness glare window leak extinction fire_deg contrast beams unresolved error_est; do
    [[ $(value $key "$json") =~ ^[0-9.e-]+$ ]] || fault "no number for $key"
done
holds "shares add to one" "($(value reflected "$json") + $(value sent "$json") + $(value absorbed "$json") + $(value given_up "$json") - 1)^2 < 1e-18"
holds "fire in diamond" "$(value fire_deg "$json") > 0.5"
[ "$(value unpolarised "$json")" = false ] || fault "unpolarised by itself"

json=$("$lapwing" light round-brilliant --refractive-index 1 --json)
holds "no index, all window" "$(value window "$json") > 0.999999"
json=$("$lapwing" light round-brilliant --refractive-index 2.417 --json)
holds "no dispersion, no fire" "$(value fire_deg "$json") == 0"
[ "$(value material "$json")" = null ] || fault "a material that was not given"

# Without a head nothing is hidden, and what it hid is seen.
with=$("$lapwing" light classic-quartz-round --json)
bare=$("$lapwing" light classic-quartz-round --head-deg 0 --json)
[ "$(value material "$with")" = '"quartz"' ] || fault "the cut's own material is not taken"
holds "head" "$(value extinction "$with") > 0 && $(value extinction "$bare") == 0"
holds "head" "($(value brightness "$with") + $(value extinction "$with") - $(value brightness "$bare"))^2 < 1e-12"
mean=$("$lapwing" light classic-quartz-round --tilt-deg 13 --unpolarised --json)
full=$("$lapwing" light classic-quartz-round --tilt-deg 13 --json)
holds "polarisation matters" "$(value brightness "$mean") != $(value brightness "$full")"

# wrong ARGUMENTS…: exit 2, nothing on standard output, one line on standard error.
wrong() {
    local out err status
    err=$("$lapwing" light "$@" 2>&1 >/dev/null)
    status=$?
    out=$("$lapwing" light "$@" 2>/dev/null)
    [ $status -eq 2 ] && [ -z "$out" ] && [ "$(wc -l <<<"$err")" -eq 1 ] || fault "light $*: $status: $err"
}
wrong round-brilliant --refractive-index 0.9
wrong round-brilliant --material no-such-stone
wrong round-brilliant --tilt-deg 90
wrong round-brilliant --refractive-index 1.01 --material diamond
wrong no-such-cut
wrong

printf '%d faults\n' $faults
[ $faults -eq 0 ]
