#!/usr/bin/env bash
# floors.sh   an include may only point down, or stay inside its folder. See docs/architecture.md.
set -eu
cd "$(dirname "$0")/.."
bad=0
allow() { # folder  allowed-prefixes...
    local dir=$1; shift
    local own=${dir#src/}
    local pattern="^($own/"
    for p in "$@"; do pattern="$pattern|$p/"; done
    pattern="$pattern)"
    while IFS=: read -r file line text; do
        inc=$(sed -n 's/.*#include "\([^"]*\)".*/\1/p' <<<"$text")
        if ! grep -Eq "$pattern" <<<"$inc"; then
            echo "$file:$line: $own may not include $inc" >&2; bad=1
        fi
    done < <(grep -nH '#include "' "$dir"/*.c "$dir"/*.h 2>/dev/null)
}
allow src/base
allow src/reckon base
allow src/bench base reckon
allow src/library base
allow src/garage base
allow src/model base reckon library garage
allow src/shop base reckon bench library garage model
allow src/face/show base reckon bench library garage model shop
allow src/face/web base reckon bench library garage model shop face/show
allow src/face/photo base
allow src/face/cli base reckon bench library garage model shop face/show face/web
# The independent checker may not see the solvers that it checks: only the shapes that both speak of.
if grep -n '#include "reckon/' src/reckon/check.c 2>/dev/null | grep -Ev 'reckon/(project|schedule|check)\.h'; then
    echo "src/reckon/check.c: a checker includes no header of the solver that it checks" >&2; bad=1
fi
if grep -nE 'sqlite3|SELECT |INSERT ' -r src --include=*.c --include=*.h | grep -v '^src/garage/'; then
    echo "SQL belongs to src/garage" >&2; bad=1
fi
exit $bad
