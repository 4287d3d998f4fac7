#!/usr/bin/env bash
# Each room includes only what it may: its own headers, those of the rooms listed for it, and, in core,
# no header of the system beyond a short list. So that core/geom stays free of core/cut, and core of
# files, clocks, threads and printing.
set -euo pipefail
cd -- "$(dirname -- "${BASH_SOURCE[0]}")/.."
. tools/rooms.sh

core_system='assert.h ctype.h errno.h float.h limits.h locale.h math.h stdalign.h stdarg.h stdbool.h
 stddef.h stdint.h stdio.h stdlib.h string.h stdnoreturn.h '
core_system=" $(tr -s '\n' ' ' <<<"$core_system") "
faults=0
includes=0

fault() {
    printf '%s\n' "$*"
    faults=$((faults + 1))
}

# The room that a quoted include belongs to, seen from a file's own folder; empty when there is no such
# file.
room_of_include() {
    local from=$1 name=$2 base
    for base in "$from" core cuts places study sheet cli .; do
        if [ -e "$base/$name" ]; then
            room_of_file "$(realpath --relative-to=. "$base/$name")"
            return
        fi
    done
}

room_of_file() {
    local room
    while read -r room _; do
        case $1 in
        "$room"/*) [ -n "$room" ] && printf '%s\n' "$room" && return ;;
        esac
    done <<<"$rooms"
    printf 'none\n'
}

check_include() {
    local room=$1 allowed=$2 file=$3 line=$4 include=$5 name target
    name=${include:1:-1}
    includes=$((includes + 1))
    if [ "${include:0:1}" = '<' ]; then
        case $room:$core_system in
        core/*:*" $name "*) ;;
        # The compiler's own words for many lanes: they stand for instructions and call nothing.
        core/light:*)
            case $file:$name in
            core/light/wide/lanes_*:immintrin.h | core/light/wide/lanes_*:emmintrin.h | core/light/wide/lanes_*:wasm_simd128.h) ;;
            *) fault "$file:$line: <$name> is no header for core" ;;
            esac
            ;;
        core/*) fault "$file:$line: <$name> is no header for core" ;;
        esac
        return
    fi
    target=$(room_of_include "$(dirname "$file")" "$name")
    case " $allowed $room " in
    *" $target "*) ;;
    *) [ -z "$target" ] || fault "$file:$line: $room may not include $name of $target" ;;
    esac
}

while read -r room allowed; do
    [ -n "$room" ] && [ -d "$room" ] || continue
    while IFS=: read -r file line include; do
        check_include "$room" "$allowed" "$file" "$line" "$include"
    done < <(grep -rnoE --include='*.[ch]' '^ *# *include *[<"][^>"]+[>"]' "$room" | sed -E 's/: *# *include */:/')
done <<<"$rooms"

if [ "$includes" -lt 50 ]; then
    fault "only $includes includes were looked at: the check itself is broken"
fi
printf '%d includes, %d faults\n' "$includes" "$faults"
[ "$faults" -eq 0 ]
