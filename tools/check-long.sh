#!/usr/bin/env bash
# check-long.sh   the proofs that take minutes. Each ends with a line of its own figures; the last line counts.
# A proof is one line below: a name, and a command that exits with 0 if it holds.
set -u
cd "$(dirname "$0")/.."
passed=0 failed=0
proof() { # name  command...
    local name=$1 out; shift
    if out=$("$@" 2>&1); then
        passed=$((passed + 1))
        printf 'ok %s\n' "$name"
        grep -E '[0-9] kills|power cuts|makings refused|damages found|writers x|runs: |PASSED|executed_units' <<<"$out" | sed 's/^/   /'
    else
        failed=$((failed + 1)); printf '== %s failed\n%s\n' "$name" "$out"
    fi
}
build() { make --no-print-directory -s "$@"; }

build build/tests/crash/kill build/tests/crash/writers || exit 2
proof kills   build/tests/crash/kill 200 1
proof writers build/tests/crash/writers 2 1000

# Every schedule of 5,000 random projects is checked; where less work ends later is counted on 1,000.
build VARIANT=asan build/asan/tests/reckon/test_check build/asan/tests/reckon/test_anomaly || exit 2
proof schedules build/asan/tests/reckon/test_check 5000
proof anomalies build/asan/tests/reckon/test_anomaly 1000

# What `make check` tries at every so manieth place, here at each: power cuts and refused writes, cut files of trade data;
# damaged bytes of a garage at every 97th.
build VARIANT=asan build/asan/tests/garage/test_power build/asan/tests/garage/test_tamper build/asan/tests/library/test_folder || exit 2
proof power  build/asan/tests/garage/test_power 1
proof tamper build/asan/tests/garage/test_tamper 97
proof folder build/asan/tests/library/test_folder 1

# Hostile trade data, text in every field, sheets as pages, forms with files and pictures, for a minute each; a million
# sums typed at the bench, about two minutes; of requests, over the path of `serve --once`, ten thousand, however long
# they take.
for target in trade entry html multipart photo csv; do proof "fuzz-$target" tools/fuzz.sh $target 60; done
proof fuzz-bench   tools/fuzz.sh bench 600 1000000
proof fuzz-request tools/fuzz.sh request 3600 10000

printf '%d passed, %d failed\n' $passed $failed
[ $failed -eq 0 ]
