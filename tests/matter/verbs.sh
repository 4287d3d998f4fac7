#!/bin/sh
# The verbs materials and identify as a user meets them: verbs.sh LAPWING. What they print, on which
# stream, and how they end. The figures are those of the tables; what is checked here is the way out.
lapwing=$1
faults=0
checks=0

# expect STATUS PATTERN WORDS…: ends so, and the one stream that speaks has a line like that.
expect() {
    status=$1
    pattern=$2
    shift 2
    checks=$((checks + 1))
    out=$("$lapwing" "$@" 2>"$scratch")
    got=$?
    err=$(cat "$scratch")
    said=$out
    quiet=$err
    if [ "$status" = 2 ]; then
        said=$err
        quiet=$out
    fi
    if [ "$got" != "$status" ] || [ -n "$quiet" ] || ! printf '%s\n' "$said" | grep -q -- "$pattern"; then
        printf 'lapwing %s\n  ended with %s, expected %s and %s\n  out: %.300s\n  err: %.300s\n' \
            "$*" "$got" "$status" "$pattern" "$out" "$err"
        faults=$((faults + 1))
    fi
}

scratch=$(mktemp) || exit 1
trap 'rm -f "$scratch"' EXIT

expect 0 '^diamond  *2\.417 ' materials
expect 0 '^cinnabar .*mercury' materials --caution mercury
expect 0 '"key": *"diamond"' materials --mohs 9.5 --json
expect 1 '^key ' materials --sg 20
expect 1 '"materials": *\[\]' materials --sg 20 --json
expect 0 'critical angle  *34\.62 deg' materials ruby
expect 0 '^- may hold asbestos: ' materials "tiger's eye"
expect 0 '"asbestos"' materials "tiger's eye" --json
expect 0 '  n  2\.45172  (published formula)' materials diamond --wavelength 430.8
expect 0 '^schumann  *W\. Schumann' materials --sources
expect 2 'did you mean quartz?' materials quarz
expect 2 'one of glass_silica, glass_soda_lime' materials glass
expect 2 'expected the name of a material' materials xyzzyplugh
expect 2 'expected the word of a caution' materials --caution sunburn
expect 2 'the greater number first' materials --refractive-index 1.7,1.6
expect 2 'expected one of them' materials topaz --sources
expect 2 'expected a material' materials --wavelength 500
expect 0 '^  1\. Tourmaline, elbaite (tourmaline)$' identify --refractive-index 1.62 --sg 3.06
expect 0 '"material": *"quartz"' identify --refractive-index 1.544,1.553 --sg 2.65 --json
expect 0 '^Weighing: specific gravity 4\.013 +- 0\.' identify --weight-air 4.02 --weight-water 3.02 \
    --water-temperature 20 --balance-error 0.01
expect 0 '"sg_error_assumed": *true' identify --weight-air 4.02 --weight-water 3.02 \
    --water-temperature 20 --json
expect 0 'it reaches 2\.015' identify --over-limit --sg 4.7
expect 1 '^No species in the table agrees\.$' identify --refractive-index 1.3 --sg 1
expect 1 '"matches": *\[\]' identify --refractive-index 1.3 --sg 1 --json
expect 2 'found no reading' identify
expect 2 'one or the other' identify --refractive-index 1.6 --over-limit
expect 2 'together$' identify --weight-air 2
expect 2 'readings may have been swapped' identify --weight-air 1 --weight-water 2 --water-temperature 20
expect 2 'expected one of them' identify --sg 3 --weight-air 2 --weight-water 1 --water-temperature 20
expect 2 'finer balance' identify --weight-air 2 --weight-water 1.9 --water-temperature 20 --balance-error 0.05

printf '%d checks, %d faults\n' "$checks" "$faults"
[ "$faults" -eq 0 ]
