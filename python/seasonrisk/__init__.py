# SPDX-License-Identifier: MIT
"""Chances, money and plain words for the season of a small inshore pot boat.

What to use when:

- `Plan.read` a plan file; it tells every problem with its line. `Plan.describe` says it back in sentences.
- `simulate` it: a `Run`, whose page ``print(run)`` shows and whose columns are NumPy arrays.
- `Run.chance`, `Run.mean`, `Run.quantile` ... give an `Estimate`: a number that knows how sure it is.
- `Run.report` writes a page to show to others; `seasonrisk.plot` has the pictures alone (needs matplotlib).
- `drivers` says how much of the spread is luck, how much guess, and which weighs most; `worth_knowing` what pinning
  down a guess is worth for a choice.
- `replay` tells one simulated season day by day.

The command line has the same in three words: ``seasonrisk new``, ``seasonrisk check``, ``seasonrisk season``.
"""

from seasonrisk._core import build_config
from seasonrisk.choice import Drivers, WorthKnowing, drivers, worth_knowing
from seasonrisk.days import DayTable, replay
from seasonrisk.engine import RunCost, cost_of_run, simulate
from seasonrisk.errors import Error, Finding, MissingExtra, PlanError, RunTooLarge
from seasonrisk.estimate import Estimate
from seasonrisk.plan import Plan
from seasonrisk.run import Run
from seasonrisk.table import Table
from seasonrisk.values import EventSize, Guess
from seasonrisk.words import CAUTIONS

__version__: str = build_config()["version"]
__all__ = [
    "CAUTIONS",
    "DayTable",
    "Drivers",
    "Error",
    "Estimate",
    "EventSize",
    "Finding",
    "Guess",
    "MissingExtra",
    "Plan",
    "PlanError",
    "Run",
    "RunCost",
    "RunTooLarge",
    "Table",
    "WorthKnowing",
    "build_config",
    "cost_of_run",
    "drivers",
    "replay",
    "simulate",
    "worth_knowing",
]
