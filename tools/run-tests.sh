#!/usr/bin/env bash
# run-tests.sh TEST...   runs the test programs, as many at a time as there are processors; tells each in order, whole where
# it failed, and ends with a count.
set -u
export ASAN_OPTIONS=${ASAN_OPTIONS:-detect_leaks=1:abort_on_error=0}
out=$(mktemp -d)
trap 'rm -rf "$out"' EXIT
run() { # number  test
    local begun=$SECONDS
    CMOCKA_MESSAGE_OUTPUT=STDOUT "$2" >"$out/$1" 2>&1
    echo $? >"$out/$1.rc"
    echo $((SECONDS - begun)) >"$out/$1.took"
}
export -f run
export out
n=0
for t in "$@"; do n=$((n + 1)); printf '%d\0%s\0' "$n" "$t"; done | xargs -0 -n 2 -P "$(nproc)" bash -c 'run "$0" "$1"'
passed=0 failed=0 skipped=0 n=0
for t in "$@"; do
    n=$((n + 1)) log=$out/$n rc=$(cat "$out/$n.rc" 2>/dev/null || echo 'not run')
    p=$(grep -c '^\[       OK \]' "$log") s=$(grep -c '^\[  SKIPPED \] [A-Za-z_]' "$log")
    passed=$((passed + p)) skipped=$((skipped + s))
    if [ "$rc" != 0 ]; then
        failed=$((failed + 1))
        printf '== %s failed (%s)\n' "$t" "$rc"
        cat "$log"
    else
        took=$(cat "$log.took")
        printf 'ok %s: %d tests%s\n' "${t#build/}" "$p" "$([ "$took" -lt 5 ] || echo ", $took s")"
        grep -E '^skipped: ' "$log"
    fi
done
printf '%d passed, %d failed, %d skipped\n' $passed $failed $skipped
[ $failed -eq 0 ] && [ $passed -gt 0 ]
