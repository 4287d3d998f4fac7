#!/usr/bin/env bash
# picture.sh LAPWING PNG_LOOK: what `lapwing picture` writes, says and leaves behind.
set -uo pipefail
lapwing=$(realpath -- "$1") png_look=$(realpath -- "$2")
work=$(mktemp -d)
trap 'rm -rf -- "$work"' EXIT
cd -- "$work" || exit 2
faults=0
fault() {
    printf '%s\n' "$*"
    faults=$((faults + 1))
}
picture() { "$lapwing" picture "$@"; }

# value KEY JSON
value() {
    sed -n "s/^  \"$1\": \(.*[^,]\),\{0,1\}\$/\1/p" <<<"$2"
}

# holds WHAT AWK-CONDITION
holds() {
    awk "BEGIN { exit !($2) }" || fault "$1: $2"
}

# looks FILE PATTERN: libpng reads it, and it is such.
looks() {
    local seen
    seen=$("$png_look" "$1") || fault "$1: $seen"
    [[ $seen == $2 ]] || fault "$1: found '$seen', expected '$2'"
}

small="--size 40 --bands 3 --lanes scalar"

# A still: a PNG that says it is sRGB; nothing said into a pipe but the result; nothing left beside it.
json=$(picture round-brilliant --material diamond $small -o still.png --json 2>said) || fault "still: $?"
[ -s said ] && fault "still: said '$(cat said)'"
looks still.png '40 40 srgb 0 frames 0 mean*'
[ "$(ls | tr '\n' ' ')" = 'said still.png ' ] || fault "left behind: $(ls)"
[ "$(value lanes "$json")" = '"scalar"' ] || fault "lanes: $(value lanes "$json")"
[ "$(value written "$json")" = '["still.png"]' ] || fault "written: $(value written "$json")"

# The same bytes whatever the threads.
for threads in 1 2 5; do
    picture oval-brilliant --material corundum $small --threads $threads -o t$threads.png \
        --raw t$threads.pfm --colour 7f9ce0 --colour-mm 5 --width-mm 7 --tilt-deg 9 >said || fault "threads"
done
for ending in png pfm; do
    cmp -s t1.$ending t2.$ending && cmp -s t1.$ending t5.$ending || fault "threads show in the $ending"
done

# Under the even sky, with nothing below, its mean is what light measures; published with the cut.
json=$(picture round-brilliant --refractive-index 1.77 --ground 0 --size 200 --samples 16 --tilt-deg 8 \
    -o mean.png --json) || fault "mean: $?"
light=$("$lapwing" light round-brilliant --refractive-index 1.77 --tilt-deg 8 --json)
both="($(value brightness "$light") + $(value glare "$light"))"
holds "mean" "($(value stone_radiance "$json") - $both) ^ 2 < 0.001 ^ 2"
[ "$(value bands "$json")" = 1 ] || fault "bands where nothing has a colour: $(value bands "$json")"

# Radiance as it is: a float map of 40 x 40, 12 bytes a pixel behind its head. worked: the ground is
# the top left pixel, 0.18 of the card's 1.
picture round-brilliant --refractive-index 1.77 $small --raw raw.pfm >said || fault "raw: $?"
[ "$(head -c 17 raw.pfm | tr '\n' ' ')" = 'PF 40 40 -1.0 PF' ] || [ "$(head -n 3 raw.pfm | head -c 14 | tr '\n' ' ')" = 'PF 40 40 -1.0 ' ] ||
    fault "head of the float map"
[ "$(stat -c %s raw.pfm)" = $((14 + 12 * 40 * 40)) ] || fault "size of the float map: $(stat -c %s raw.pfm)"
first=$(tail -c $((12 * 40)) raw.pfm | head -c 12 | od -An -t f4)
for number in $first; do
    holds "ground" "($number - 0.18) ^ 2 < 0.00001 ^ 2"
done

# Frames: one that moves, a sheet, files.
picture single-cut --refractive-index 1.6 $small --rock 6 -o rock.png >said || fault "rock: $?"
looks rock.png '40 40 srgb 0 frames 6 mean*'
picture single-cut --refractive-index 1.6 $small --turntable 3 --as sheet -o sheet.png >said || fault "sheet: $?"
looks sheet.png '120 40 srgb 0 frames 0 mean*'
picture single-cut --refractive-index 1.6 ${small/--size 40/--size 40x30} --turntable 3 --as files -o dir.d/f.png 2>said &&
    fault "wrote into a folder that is not there"
[ "$(wc -l <said)" = 1 ] || fault "said: $(cat said)"
mkdir dir.d
picture single-cut --refractive-index 1.6 ${small/--size 40/--size 40x30} --turntable 3 --as files -o dir.d/f.png >said || fault "files: $?"
[ "$(ls dir.d | tr '\n' ' ')" = 'f-001.png f-002.png f-003.png ' ] || fault "files: $(ls dir.d)"
looks dir.d/f-002.png '40 30 srgb 0 frames 0 mean*'
# worked: an eight-fold stone on three frames of a turn stands turned by 120 degrees: not the same.
cmp -s dir.d/f-001.png dir.d/f-002.png && fault "the turn-table stands still"

# Interrupted: nothing written, what stood there stands, 2.
for signal in INT TERM; do
    echo before >kept.png
    timeout --preserve-status -s $signal 1 "$lapwing" picture round-brilliant --material diamond \
        --size 4000 --samples 256 -o kept.png >said 2>&1
    [ $? = 2 ] || fault "$signal: ended otherwise"
    [ "$(cat kept.png)" = before ] || fault "$signal: kept.png changed"
    [ "$(cat said)" = 'lapwing: picture: stopped; nothing was written' ] || fault "$signal: said '$(cat said)'"
    [ "$(ls kept.png*)" = kept.png ] || fault "$signal: left behind $(ls kept.png*)"
done

# A copy elsewhere: the folder is not there, is no file, cannot be written to.
for place in nowhere/x.png dir.d; do
    picture single-cut --refractive-index 1.6 $small -o $place >said 2>&1
    [ $? = 2 ] || fault "$place: ended otherwise"
    [ "$(wc -l <said)" = 1 ] || fault "$place: said '$(cat said)'"
done

[ $faults = 0 ]
