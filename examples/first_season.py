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
    few = days < np.quantile(days, 0.1)
    print(f"\nLeft after the household: {household[few].mean():,.0f} on average in the seasons with fewest days out,")
    print(f"{household[~few].mean():,.0f} in the other nine tenths.")

    # One season in ten is worse than this one. A season is told again, day by day, by its number.
    bad = int(np.argsort(household)[len(household) // 10])
    story = run.replay(bad)
    lowest = int(np.argmin(story["cash"]))
    print(f"\nSeason {bad} is such a bad one: out on {story['out'].sum():.0f} days, repairs of {story['repairs'].sum():,.0f},")
    print(f"and the account is lowest on {story.dates[lowest]}, at {story['cash'][lowest]:,.0f}.")


if __name__ == "__main__":
    main()
