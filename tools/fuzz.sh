#!/usr/bin/env bash
# fuzz.sh FUZZER SECONDS: runs a libFuzzer program from its seeds (fuzz/seeds/NAME/). What it learns is
# kept in build/corpus/NAME/; an input that breaks it is left in build/broken/.
set -euo pipefail
cd -- "$(dirname -- "${BASH_SOURCE[0]}")/.."
fuzzer=$1 seconds=$2
name=$(basename "$fuzzer")
name=${name#fuzz_}
mkdir -p "build/corpus/$name" build/broken
seeds=()
more=()
case $name in
cut_*) more=(cuts tests/cut/broken) ;;
place) more=(places) ;;
esac
for folder in "fuzz/seeds/$name" "${more[@]}"; do
    [ -d "$folder" ] && seeds+=("$folder")
done
options=(-max_total_time="$seconds" -timeout=10 -rss_limit_mb=2048 -print_final_stats=1
    -artifact_prefix="build/broken/$name-")
dictionary=fuzz/${name/cut_solve/cut_read}.dict
[ -f "$dictionary" ] && options+=(-dict="$dictionary")
log=$(mktemp)
trap 'rm -f "$log"' EXIT
"$fuzzer" "${options[@]}" "build/corpus/$name" "${seeds[@]}" >"$log" 2>&1 || { tail -n 60 "$log"; exit 1; }
runs=$(sed -n 's/^stat::number_of_executed_units: *//p' "$log")
cover=$(grep -oE 'cov: [0-9]+' "$log" | tail -n 1 || true)
if [ "${runs:-0}" -lt 100 ]; then
    tail -n 20 "$log"
    printf 'only %s runs: the fuzzer does not work\n' "${runs:-0}"
    exit 1
fi
printf '%s runs, %s\n' "$runs" "$cover"
