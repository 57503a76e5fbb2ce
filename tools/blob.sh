#!/usr/bin/env bash
# blob.sh FILE...   the files in one stream: "path\n", "size\n", the bytes, "\n". Read by src/library/source.c.
set -eu
for f in "$@"; do
    printf '%s\n%s\n' "$f" "$(stat -c %s "$f")"
    cat "$f"
    printf '\n'
done
