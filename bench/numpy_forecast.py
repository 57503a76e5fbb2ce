#!/usr/bin/python3
"""A forecast in vectorised NumPy: what bench_forecast is measured beside.

Draws and a forward pass only: no sessions, hands, bay, purse or setbacks, so it does less work a run than
Fettle's own forecast, and finishes sooner in calendar terms. Reads one project as JSON from standard input:

  {"pace_share": a, "state_share": b,
   "jobs": [{"minutes": [low, middle, high], "wait": [low, middle, high], "after": [index, ...]}, ...]}

Points are 10th percentile, median and 90th; "wait" (calendar minutes after the job) may be left out; "after"
holds indices of earlier jobs. Writes one line of JSON; finish is in minutes of unbroken time.
Timed: draws, forward pass and quantiles; not the reading of JSON. The best of the repeats is given.
"""
import argparse
import json
import sys
import time

import numpy as np

Z90 = 1.2815515655446004  # standard normal 90th percentile


def spread(points):
    """middle, log sd below, log sd above; middle 0 is "none"."""
    low, middle, high = points
    if middle == 0:
        return 0.0, 0.0, 0.0
    return middle, np.log(middle / low) / Z90, np.log(high / middle) / Z90


def draw(points, z):
    """Two-piece lognormal: points is rows of (middle, below, above), z is [runs, rows]."""
    middle, below, above = points.T
    return middle * np.exp(z * np.where(z < 0, below, above))


def forecast(project, minutes, waits, runs, generator):
    a, b = project["pace_share"], project["state_share"]
    jobs = project["jobs"]
    shared = np.sqrt(a) * generator.standard_normal((runs, 1)) + np.sqrt(
        b
    ) * generator.standard_normal((runs, 1))
    own = np.sqrt(1 - a - b)
    duration = draw(minutes, shared + own * generator.standard_normal((runs, len(jobs))))
    wait = draw(waits, generator.standard_normal((runs, len(jobs))))
    ready = np.empty((len(jobs), runs))  # when what follows may start
    last = np.zeros(runs)
    for j, job in enumerate(jobs):
        start = np.zeros(runs)
        for before in job["after"]:
            np.maximum(start, ready[before], out=start)
        finish = start + duration[:, j]
        np.add(finish, wait[:, j], out=ready[j])
        np.maximum(last, finish, out=last)
    return np.quantile(last, [0.5, 0.8], method="inverted_cdf")


def main():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--runs", type=int, default=4000)
    parser.add_argument("--repeats", type=int, default=5)
    parser.add_argument("--seed", type=int, default=1)
    options = parser.parse_args()
    project = json.load(sys.stdin)
    for j, job in enumerate(project["jobs"]):
        if any(not 0 <= before < j for before in job["after"]):
            sys.exit(f"job {j}: 'after' names a job that is not before it; sort the jobs first")
    minutes = np.array([spread(job["minutes"]) for job in project["jobs"]])
    waits = np.array([spread(job.get("wait", (0, 0, 0))) for job in project["jobs"]])
    seconds = []
    for repeat in range(options.repeats):
        generator = np.random.default_rng(options.seed)
        begun = time.perf_counter()
        p50, p80 = forecast(project, minutes, waits, options.runs, generator)
        seconds.append(time.perf_counter() - begun)
    best = min(seconds)
    json.dump(
        {
            "program": "numpy_forecast",
            "numpy": np.__version__,
            "jobs": len(project["jobs"]),
            "runs": options.runs,
            "seconds": round(best, 6),
            "runs_per_second": round(options.runs / best),
            "finish_minutes": {"p50": round(p50, 1), "p80": round(p80, 1)},
        },
        sys.stdout,
    )
    print()


if __name__ == "__main__":
    main()
