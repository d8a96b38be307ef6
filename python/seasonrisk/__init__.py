# SPDX-License-Identifier: MIT
"""Chances, money and plain words for the season of a small inshore pot boat.

What to use when:

- `Plan.read` a plan file; it tells every problem with its line. `Plan.describe` says it back in sentences.
- `simulate` it: a `Run`, whose page ``print(run)`` shows and whose columns are NumPy arrays.
- `Run.chance`, `Run.mean`, `Run.quantile` ... give an `Estimate`: a number that knows how sure it is.
- `end_early` scores every possible last day of fishing under the same luck; `time_off` days off in mid-season.
- `compare` choices of a plan, or `menu` of values for one number: what each changes under the same luck, and why.
- `Run.report` writes a page to show to others; `seasonrisk.plot` has the pictures alone (needs matplotlib).
- `drivers` says how much of the spread is luck, how much guess, and which weighs most; `worth_knowing` what pinning
  down a guess is worth for a choice.
- `loans`, `coverage`, `working_capital`, `stresses` and `past_years` are what a lender can be shown.
- `replay` tells one simulated season day by day.
- `break_even` finds the price, catch or number of days at which a rung is just covered; `reserve` what to put by;
  `safe_promise` what to promise a regular.

The command line has the same in seven words: ``seasonrisk new``, ``check``, ``season``, ``compare``, ``end-early``,
``time-off``, ``break-even``.
"""

from seasonrisk._core import build_config
from seasonrisk.choice import (
    BreakEven,
    Compared,
    Comparison,
    Drivers,
    EndEarly,
    Promise,
    Reserve,
    TimeOff,
    WorthKnowing,
    break_even,
    compare,
    drivers,
    end_early,
    menu,
    reserve,
    safe_promise,
    time_off,
    worth_knowing,
)
from seasonrisk.credit import (
    Coverage,
    LenderNote,
    Loans,
    PastYears,
    Stresses,
    WorkingCapital,
    coverage,
    coverage_columns,
    lender_columns,
    lender_note,
    loans,
    past_years,
    stresses,
    what_happened,
    working_capital,
)
from seasonrisk.days import DayTable, replay
from seasonrisk.engine import RunCost, cost_of_run, simulate
from seasonrisk.errors import Error, Finding, MissingExtra, PlanError, RunTooLarge
from seasonrisk.estimate import Estimate
from seasonrisk.plan import Plan
from seasonrisk.run import Run
from seasonrisk.table import Table
from seasonrisk.values import EventSize, Guess, Source
from seasonrisk.words import CAUTIONS

__version__: str = build_config()["version"]
__all__ = [
    "CAUTIONS",
    "BreakEven",
    "Compared",
    "Comparison",
    "Coverage",
    "DayTable",
    "Drivers",
    "EndEarly",
    "Error",
    "Estimate",
    "EventSize",
    "Finding",
    "Guess",
    "LenderNote",
    "Loans",
    "MissingExtra",
    "PastYears",
    "Plan",
    "PlanError",
    "Promise",
    "Reserve",
    "Run",
    "RunCost",
    "RunTooLarge",
    "Source",
    "Stresses",
    "Table",
    "TimeOff",
    "WorkingCapital",
    "WorthKnowing",
    "break_even",
    "build_config",
    "compare",
    "cost_of_run",
    "coverage",
    "coverage_columns",
    "drivers",
    "end_early",
    "lender_columns",
    "lender_note",
    "loans",
    "menu",
    "past_years",
    "replay",
    "reserve",
    "safe_promise",
    "simulate",
    "stresses",
    "time_off",
    "what_happened",
    "working_capital",
    "worth_knowing",
]
