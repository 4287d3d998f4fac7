#!/usr/bin/env bash
# check_symbols.sh BUILD: the libraries of core, as built, ask the outside for nothing but what stands
# below: memory, bytes, numbers to and from text, square roots. No file, clock, thread, socket, process
# or printing; no sine of libm's, whose last bits differ between machines. What the processor can do
# is read from the compiler's own list (__cpu_model). And what they show to the outside begins with
# lw_, and none of it can be written to.
set -euo pipefail
cd -- "$(dirname -- "${BASH_SOURCE[0]}")/.."
build=$1

allowed='malloc calloc realloc free memcpy memmove memset memcmp memchr strlen strnlen strcmp strncmp
 strchr strrchr strstr strspn strcspn strpbrk strtod strtol strtoul qsort bsearch abort atoi
 snprintf vsnprintf localeconv __assert_fail __stack_chk_fail
 __memcpy_chk __memmove_chk __memset_chk __strcpy_chk __strcat_chk __snprintf_chk __vsnprintf_chk
 __ctype_b_loc tolower toupper
 sqrt fabs floor ceil trunc round rint nearbyint fmod remainder frexp ldexp modf copysign nextafter
 fmin fmax exp log pow sqrtf fabsf floorf
 __cpu_model __cpu_features2
 _GLOBAL_OFFSET_TABLE_'
allowed=" $(tr -s '\n' ' ' <<<"$allowed") "
faults=0
symbols=0

fault() {
    printf '%s\n' "$*"
    faults=$((faults + 1))
}

mapfile -t libraries < <(find "$build/core" "$build/cuts" "$build/places" -name 'lib*.a' | sort)
[ "${#libraries[@]}" -gt 0 ] || fault "no library of core under $build"

# What the rooms define for one another is theirs to ask for.
own=$(nm --defined-only "${libraries[@]}" | awk 'NF == 3 && $2 ~ /[A-Z]/ {print $3}' | sort -u)

while read -r name; do
    [ -n "$name" ] || continue
    symbols=$((symbols + 1))
    case $allowed in
    *" $name "*) continue ;;
    esac
    grep -qxF -- "$name" <<<"$own" || fault "core asks for $name: $(nm -A --undefined-only "${libraries[@]}" |
        awk -v name="$name" '$NF == name {print $1}' | sort -u | head -n 3 | tr '\n' ' ')"
done < <(nm --undefined-only "${libraries[@]}" | awk '$1 == "U" {print $2}' | sort -u)

while read -r name; do
    case $name in
    lw_*) ;;
    *) fault "core shows $name, which does not begin with lw_" ;;
    esac
done <<<"$own"

# Tables that hold addresses are made read-only when the program is loaded (.data.rel.ro): fine.
while read -r section name; do
    fault "core has a variable that can be written to: $name ($section)"
done < <(objdump -t "${libraries[@]}" | awk '$3 == "O" || $4 == "O" { for (i = 1; i < NF; i++)
    if ($i ~ /^\.(data|bss|tdata|tbss)/ && $i !~ /^\.data\.rel\.ro/) print $i, $NF }' | sort -u)

# lapwing itself starts in no time because it links next to nothing.
if [ -x "$build/lapwing" ]; then
    while read -r library; do
        case $library in
        libjansson.so.* | libm.so.* | libc.so.*) ;;
        *) fault "lapwing links $library" ;;
        esac
    done < <(objdump -p "$build/lapwing" | awk '$1 == "NEEDED" {print $2}')
fi

[ "$symbols" -gt 5 ] || fault "only $symbols symbols were looked at: the check itself is broken"
printf '%d libraries, %d symbols asked for, %d faults\n' "${#libraries[@]}" "$symbols" "$faults"
[ "$faults" -eq 0 ]
