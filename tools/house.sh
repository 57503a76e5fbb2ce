#!/usr/bin/env bash
# house.sh   small rules of the house that no compiler checks.
set -eu
cd "$(dirname "$0")/.."
bad=0
while read -r lines file; do
    [ "$file" = total ] && continue
    if [ "$lines" -gt 600 ]; then echo "$file: $lines lines; a file over 600 holds more than one thing" >&2; bad=1; fi
done < <(git ls-files 'src/*.c' 'src/*.h' 'tests/*.c' | xargs -r wc -l)
if git grep -nE '\b(sprintf|strcpy|strcat|gets|strtok) ?\(' -- 'src/*.c'; then
    echo "use text.h instead" >&2; bad=1
fi
if git grep -nE '\bexit ?\(' -- 'src/*.c' | grep -v '^src/face/cli/'; then
    echo "nothing below src/face/cli calls exit" >&2; bad=1
fi
if git grep -nE '\b(time|clock_gettime|getenv|fopen|printf|rand) ?\(' -- 'src/reckon/*.c'; then
    echo "src/reckon has no clock, no files, no environment" >&2; bad=1
fi
exit $bad
