#!/usr/bin/env bash
# command.sh LAPWING MAPS_JSON: what `lapwing light` promises to whoever reads its JSON, its exit statuses, and
# limits that hold for any cut.
set -uo pipefail
lapwing=$1 maps_json=$2
faults=0
work=$(mktemp -d)
trap 'rm -rf -- "$work"' EXIT
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
# worked: to within what each says of its own error
holds "head" "($(value brightness "$with") + $(value extinction "$with") - $(value brightness "$bare"))^2 < ($(value error_est "$with") + $(value error_est "$bare"))^2"
mean=$("$lapwing" light classic-quartz-round --tilt-deg 13 --unpolarised --json)
full=$("$lapwing" light classic-quartz-round --tilt-deg 13 --json)
holds "polarisation matters" "$(value brightness "$mean") != $(value brightness "$full")"

# A window opens where it is worked to: a 41 degree pavilion of corundum from 11.7 degrees on (less
# what the breaks and the facets between change); fluorite has one face-up; it says so.
tilt() {
    sed -n "s/^    \"$1\": \(.*[^,]\),\{0,1\}\$/\1/p" <<<"$2"
}
json=$("$lapwing" light round-brilliant --set pavilion=41 --refractive-index 1.77 --json)
holds "corundum's window" "$(tilt clear_to_deg "$json") > 10 && $(tilt clear_to_deg "$json") < 14"
[ "$(tilt window_name "$json")" = '"table"' ] || fault "a window under $(tilt window_name "$json")"
json=$("$lapwing" light round-brilliant --material fluorite --json)
holds "fluorite's window" "$(tilt clear_to_deg "$json") == 0 && $(tilt window_face_up "$json") > 0.1"
grep -q "window is open face-up" <<<"$("$lapwing" light round-brilliant --material fluorite)" ||
    fault "fluorite: no word of a window"
json=$("$lapwing" light round-brilliant --refractive-index 4 --json)
[ "$(tilt window_opens "$json")" = false ] && [ "$(tilt window_step "$json")" = null ] ||
    fault "a window at an index of 4"

# Places and colours.
even=$("$lapwing" light pear-brilliant --json)
window=$("$lapwing" light pear-brilliant --place north-window --json)
[ "$(value place "$even")" = null ] && [ "$(value place "$window")" != null ] || fault "place's name"
holds "a place changes it" "$(value brightness "$even") != $(value brightness "$window")"
pale=$("$lapwing" light pear-brilliant --width-mm 5 --colour 8040C0 --colour-mm 5 --json)
deep=$("$lapwing" light pear-brilliant --width-mm 15 --colour 8040C0 --colour-mm 5 --json)
holds "larger is darker" "$(value brightness "$deep") < $(value brightness "$pale")"
holds "coloured is darker" "$(value brightness "$pale") < $(value brightness "$even")"
holds "colour takes it" "$(value absorbed "$deep") > $(value absorbed "$pale")"

# The maps, in numbers and painted.
"$lapwing" light round-brilliant --material diamond --width-mm 8 --json --steps \
    --beam-map "$work/beams.json" --tilt-map "$work/tilt.json" >"$work/whole.json" &&
    "$lapwing" light round-brilliant --material diamond --width-mm 8 --beam-map "$work/beams.svg" \
        --tilt-map "$work/tilt.png" >"$work/said" || fault "maps: exit $?"
"$maps_json" "$work/beams.json" "$work/whole.json" "$work/tilt.json" "$work/beams.svg" ||
    fault "maps"
[ "$(head -c 8 "$work/tilt.png" | od -An -tx1 | tr -d ' ')" = 89504e470d0a1a0a ] || fault "no PNG"
cmp -s "$work/said" <("$lapwing" light round-brilliant --material diamond --width-mm 8) ||
    fault "what is said depends on who paints"

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
wrong round-brilliant --beam-map "$work/map.gif"
wrong round-brilliant --beam-map "$work/none/map.json"
wrong round-brilliant --tilt-map "$work/none/map.svg"
wrong round-brilliant --place no-such-place
wrong round-brilliant --colour 8040C0 --colour-mm 5
wrong round-brilliant --colour 8040C0 --width-mm 5
wrong

printf '%d faults\n' $faults
[ $faults -eq 0 ]
