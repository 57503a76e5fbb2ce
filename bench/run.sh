#!/usr/bin/env bash
# run.sh   runs every benchmark program in build/bench, then the same forecast in NumPy beside it,
# and the models of fit by HiGHS.
# Timings vary by a factor of two on a busy machine: compare within one run of this, not between runs.
set -eu
cd "$(dirname "$0")/.."
[ -e build/demo/garage.db ] || build/fettle demo build/demo > build/demo.log # bench_forecast reads it
for program in build/bench/*; do
    [ -x "$program" ] && [ "$program" != build/bench/bench_fit ] || continue
    echo "== ${program#build/}"
    "$program"
done
# bench_forecast --project prints its project in the form that numpy_forecast.py describes.
if [ -x build/bench/bench_forecast ]; then
    echo "== numpy_forecast.py (draws and forward pass only)"
    build/bench/bench_forecast --project | bench/numpy_forecast.py
fi
if [ -x build/bench/bench_fit ]; then
    echo "== bench/bench_fit, and highs_fit.py: the same models by HiGHS, some minutes"
    build/bench/bench_fit | tee build/bench_fit.json
    build/bench/bench_fit --models | bench/highs_fit.py build/bench_fit.json
fi
echo "== the pages (web.sh)"
bench/web.sh
