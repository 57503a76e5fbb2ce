#!/usr/bin/python3
"""The models of bench_fit by HiGHS (scipy.optimize.milp): what bench_fit is measured beside.

  bench_fit > ours.json; bench_fit --models | highs_fit.py ours.json

The same rows and columns, to a gap of 0. Timed: the call of milp, in seconds of the
processor, without the reading. Stops with a failure where the two optima differ.
"""
import json
import sys
import time

import numpy as np
import scipy
from scipy.optimize import Bounds, LinearConstraint, milp
from scipy.sparse import csr_matrix


def programs(lines):
    for line in lines:
        columns, rows, entries = map(int, line.split())
        box = np.array([next(lines).split() for _ in range(columns)], dtype=float)
        reach = np.array([next(lines).split() for _ in range(rows)], dtype=float)
        at = np.array([next(lines).split() for _ in range(entries)], dtype=float)
        matrix = csr_matrix((at[:, 2], (at[:, 0].astype(int), at[:, 1].astype(int))), shape=(rows, columns))
        yield box, reach, matrix


def main():
    with open(sys.argv[1]) as file:
        ours = [json.loads(line) for line in file]
    total, differ = 0.0, 0
    for our, (box, reach, matrix) in zip(ours, programs(sys.stdin)):
        begun = time.process_time()
        answer = milp(
            box[:, 0],
            integrality=np.ones(len(box)),
            bounds=Bounds(box[:, 1], box[:, 2]),
            constraints=LinearConstraint(matrix, reach[:, 0], reach[:, 1]),
            options={"mip_rel_gap": 0, "time_limit": 300},
        )
        seconds = time.process_time() - begun
        total += seconds
        same = answer.status == 0 and our["state"] == "proven" and round(answer.fun) == our["total"]
        differ += not same
        print(
            json.dumps(
                {
                    "model": our["model"],
                    "columns": matrix.shape[1],
                    "rows": matrix.shape[0],
                    "status": answer.status,
                    "total": None if answer.x is None else round(answer.fun),
                    "same": same,
                    "nodes": answer.get("mip_node_count"),
                    "seconds": round(seconds, 4),
                    "fit_seconds": our["seconds"],
                }
            ),
            flush=True,
        )
    fit = ours[-1]["seconds"]
    print(
        json.dumps(
            {
                "program": "highs_fit",
                "scipy": scipy.__version__,
                "differ": differ,
                "seconds": round(total, 3),
                "fit_seconds": fit,
                "highs_per_fit": round(total / fit, 2),
            }
        )
    )
    return 1 if differ else 0


if __name__ == "__main__":
    sys.exit(main())
