#!/usr/bin/env bash
# run-tests.sh TEST...   runs each test program, tells each that failed, ends with a count.
set -u
export ASAN_OPTIONS=${ASAN_OPTIONS:-detect_leaks=1:abort_on_error=0}
passed=0 failed=0 skipped=0
for t in "$@"; do
    out=$(CMOCKA_MESSAGE_OUTPUT=STDOUT "$t" 2>&1); rc=$?
    p=$(grep -c '^\[       OK \]' <<<"$out"); f=$(grep -c '^\[  FAILED  \] [A-Za-z_]' <<<"$out"); s=$(grep -c '^\[  SKIPPED \] [A-Za-z_]' <<<"$out")
    passed=$((passed + p)); skipped=$((skipped + s))
    if [ $rc -ne 0 ]; then
        failed=$((failed + (f > 0 ? f : 1)))
        printf '== %s failed (%s)\n%s\n' "$t" "$rc" "$out"
    else
        printf 'ok %s: %d tests\n' "${t#build/}" "$p"
        grep -E '^skipped: ' <<<"$out"
    fi
done
printf '%d passed, %d failed, %d skipped\n' $passed $failed $skipped
[ $failed -eq 0 ] && [ $passed -gt 0 ]
