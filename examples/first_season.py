# SPDX-License-Identifier: MIT
"""One boat's season from its plan file: the chances, the money, and one bad season told day by day.

Run from anywhere: python examples/first_season.py
"""

from pathlib import Path

import numpy as np

import seasonrisk as sr

PLAN = Path(__file__).parent / "plans" / "one_boat.toml"


def main() -> None:
    plan = sr.Plan.read(PLAN)
    run = sr.simulate(plan, histories=100_000, rng=7)

    print(run)

    print("\nHow often, and how sure:")
    for rung in ("running", "standing", "loan", "household"):
        print(f"  {rung:<10} {run.chance(rung)}")

    # A run is columns of numbers, one per season: any question of your own is NumPy from here.
    household, days = run["household"], run["days_fished"]
    few_days = days < np.quantile(days, 0.1)
    print(f"\nIn the tenth of seasons with the fewest days out the household rung is {household[few_days].mean():,.0f} on average;")
    print(f"in the others it is {household[~few_days].mean():,.0f}.")

    # One season in ten is worse than this one.
    bad = int(np.argsort(household)[len(household) // 10])
    story = run.replay(bad)
    print(f"\nSeason number {bad} is such a bad one. Told day by day it has {len(story)} days.")


if __name__ == "__main__":
    main()
