#!/usr/bin/env bash
# fuzz.sh TARGET SECONDS [INPUTS]   builds fuzz/fuzz_TARGET.c with every floor (clang, libFuzzer, ASan, UBSan) and
# runs it for SECONDS at most; with INPUTS until so many were tried, and it fails if fewer were. Seeds: fuzz/seeds/TARGET,
# if there are any; what is found worth keeping stays in build/fuzz.
# Ends with status 0 if nothing was found; an input that fails is left in build/fuzz/TARGET-*.
set -euo pipefail
cd "$(dirname "$0")/.."
{ [ $# -eq 2 ] || [ $# -eq 3 ]; } && [ -f "fuzz/fuzz_$1.c" ] ||
    { echo "fuzz.sh: TARGET is one of $(cd fuzz && echo fuzz_*.c | sed 's/fuzz_\([^ ]*\)\.c/\1/g'), then SECONDS [INPUTS]" >&2; exit 2; }
target=$1 seconds=$2 inputs=${3:-} b=build/fuzz
libs=()
for floor in photo $(make -s print-BELOW_cli); do libs+=("$b/lib$floor.a"); done
make --no-print-directory -s -j"$(nproc)" VARIANT=clang B=$b \
    CFLAGS="-O1 -fno-omit-frame-pointer -fsanitize=fuzzer-no-link,address,undefined -fno-sanitize-recover=all" "${libs[@]}" $b/obj/embed.o
read -ra packages <<<"$(pkg-config --cflags --libs $(make -s print-PKGS) $(make -s print-PKGS_photo))"
clang -std=c17 -D_DEFAULT_SOURCE -D_POSIX_C_SOURCE=200809L -Isrc -Itests -g -O1 -pthread \
    -fsanitize=fuzzer,address,undefined -fno-sanitize-recover=all \
    -o "$b/fuzz_$target" "fuzz/fuzz_$target.c" "${libs[@]}" $b/obj/embed.o "${packages[@]}" -lm
mkdir -p "$b/corpus-$target"
seeds=(); [ -d "fuzz/seeds/$target" ] && seeds=("fuzz/seeds/$target")
# Leaks are looked for once, at the end: sites keep garages open between requests.
said=$("$b/fuzz_$target" -detect_leaks=0 -max_total_time="$seconds" ${inputs:+-runs="$inputs"} -timeout=30 -rss_limit_mb=2048 -len_control=0 \
    -print_final_stats=1 -artifact_prefix="$b/$target-" "$b/corpus-$target" "${seeds[@]}" 2>&1 | tail -n 40) || { echo "$said"; exit 1; }
echo "$said"
[ "$(sed -n 's/.*number_of_executed_units: *//p' <<<"$said")" -ge "${inputs:-1}" ] ||
    { echo "fuzz.sh: fewer than $inputs inputs in $seconds s" >&2; exit 1; }
