#!/usr/bin/env bash
# run_transcript.sh LAPWING TRANSCRIPT: runs each command of a transcript and compares what it said and
# how it ended with what stands there, byte for byte. LW_ACCEPT=1 writes the transcript anew instead.
#
#     $ lapwing show nosuch       a command for bash, in an empty folder with data/ beside it
#       text                      two blanks: what it printed on standard output
#     ! text                      what it said on standard error
#     = 2                         how it ended, where not 0
#     # text                      a remark; it and empty lines stay as they are
set -uo pipefail
lapwing=$(realpath -- "$1") transcript=$(realpath -- "$2")
here=$(dirname -- "$(realpath -- "${BASH_SOURCE[0]}")")
work=$(mktemp -d)
trap 'rm -rf -- "$work"' EXIT
mkdir "$work/bin" "$work/run"
ln -s "$lapwing" "$work/bin/lapwing"
ln -s "$(dirname -- "$lapwing")/tests/cli/json_look" "$work/bin/json_look"
cp -r "$here/data" "$work/run/data"
cd -- "$work/run" || exit 2
export PATH=$work/bin:$PATH

run_command() {
    local status=0
    (eval "$1") >"$work/out" 2>"$work/err" </dev/null || status=$?
    sed -e 's/^/  /' -e '$a\' "$work/out"
    sed -e 's/^/! /' -e '$a\' "$work/err"
    [ "$status" -eq 0 ] || printf '= %d\n' "$status"
}

commands=0
while IFS= read -r line || [ -n "$line" ]; do
    case $line in
    '$ '*)
        printf '%s\n' "$line"
        run_command "${line#'$ '}"
        commands=$((commands + 1))
        ;;
    '  '* | '! '* | '!' | '= '*) ;;
    *) printf '%s\n' "$line" ;;
    esac
done <"$transcript" >"$work/now"

if [ "${LW_ACCEPT:-}" = 1 ]; then
    cp "$work/now" "$transcript"
    exit 0
fi
if ! diff -u --label expected "$transcript" --label now "$work/now"; then
    exit 1
fi
printf '%d commands\n' "$commands"
[ "$commands" -gt 0 ]
