# SPDX-License-Identifier: MIT
"""What an outcome hangs on: how much of its spread is luck, how much is guess, and which guess."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from seasonrisk import _core, progress as progress_
from seasonrisk.choice.same_luck import Sources, outcome, runs_of, same_guesses_other_luck, sources_of
from seasonrisk.engine import Rng
from seasonrisk.estimate import Estimate
from seasonrisk.page import wrapped
from seasonrisk.plan import Plan
from seasonrisk.run import Run
from seasonrisk.table import Table
from seasonrisk.words import counted, noun_of
from seasonrisk.words_drivers import LUCK, TOO_SMALL, error_text, guess_words, share_text, too_small

__all__ = ["Driver", "Drivers", "drivers"]

AUDIT_OF = 10  # one pair for so many histories
FEWEST_PAIRS = 200
SURPRISING = 3.0  # standard errors


@dataclass(frozen=True)
class Driver:
    """One row: a guess, or a kind of luck.

    Attributes
    ----------
    name : str
        Key path of a guess; ``"catch"``, ``"weather"`` ... for luck.
    words : str
    kind : str
        ``"guess"`` or ``"luck"``.
    share : Estimate
        Of the variance of the outcome, by itself: from 0 to 1, a little below 0 by chance when there is nothing.
    total : Estimate
        The same with what it does together with others; those parts stand in two rows.
    effect : Estimate or None
        Outcome at its 1-in-10 high less that at its 1-in-10 low, in the outcome's unit; None where there is no one
        direction (luck of several series, events).
    """

    name: str
    words: str
    kind: str
    share: Estimate
    total: Estimate
    effect: Estimate | None


@dataclass(frozen=True, repr=False)
class Drivers:
    """What an outcome hangs on; made by `drivers`.

    Attributes
    ----------
    title : str
    noun : str
        What one history is.
    rows : tuple of Driver
        The largest share first.
    guess : Estimate
        Share of the variance that is guess: by the fit, or by the pairs when these differ from it.
    luck : Estimate
        The rest.
    guess_pairs, luck_pairs : Estimate
        Shares of what two guesses do together, and of what luck does together with luck or a guess.
    left : Estimate
        Share not followed by the fit: day-to-day luck above all.
    pairs_left_out : int
        Products of two that the histories do not suffice for.
    audit : Estimate or None
        The guess share by pairs of histories with the same guesses and other luck.
    fitted : Estimate
        The guess share by the fit.
    histories, key : int
    """

    title: str
    unit: str
    noun: str
    rows: tuple[Driver, ...]
    guess: Estimate
    luck: Estimate
    guess_pairs: Estimate
    luck_pairs: Estimate
    left: Estimate
    pairs_left_out: int
    audit: Estimate | None
    fitted: Estimate
    histories: int
    key: int

    @property
    def table(self) -> Table:
        """Every row, then what completes them to 100."""
        rows, values = [], []
        for row in self.rows:
            none = row.effect is None or too_small(row.effect)
            effect = "" if row.effect is None else TOO_SMALL if none else row.effect.amount_text
            effect_error = "" if none or row.effect is None else row.effect.error_text
            rows.append([row.words, row.kind, share_text(row.share), error_text(row.share), share_text(row.total), effect, effect_error])
            moved = (math.nan, math.nan) if row.effect is None else (row.effect.value, row.effect.standard_error)
            values.append([row.words, row.kind, row.share.value, row.share.standard_error, row.total.value, *moved])
        for words, kind, share in self._rest():
            rows.append([words, kind, share_text(share), error_text(share), "", "", ""])
            values.append([words, kind, share.value, share.standard_error, math.nan, math.nan, math.nan])
        heads = ["what", "kind", "of the spread, in 100", "\u00b1", "with others", f"low to high, {self.unit}", "\u00b1 "]
        return Table(f"What {self.title} hangs on: shares of its spread (variance)", heads, rows, values)

    def _rest(self) -> list[tuple[str, str, Estimate]]:
        rest = [
            ("two guesses together", "guess", self.guess_pairs),
            ("luck together with luck or a guess", "luck", self.luck_pairs),
            ("day-to-day luck, and what this cannot follow", "luck", self.left),
        ]
        return [row for row in rest if row[2].value or row[2].standard_error]

    def sentences(self) -> list[str]:
        """What the table says, in words."""
        said = []
        guesses = [row for row in self.rows if row.kind == "guess"]
        if not guesses:
            said.append(f"The plan has no guesses, so all of the spread of {self.title} is luck.")
        elif too_small(self.guess):
            said.append(f"Nearly all of the spread of {self.title} is luck; the part of your guesses is {TOO_SMALL}.")
        else:
            # Of the two digits of one number only the first is rounded, so that they add up to 100.
            part = share_text(self.guess)
            rest = f"{100.0 - float(part):.{len(part.partition('.')[2])}f}"
            said.append(
                f"Of the spread of {self.title} from one {self.noun} to the next, {part} in 100 is guess (a better look at your books "
                f"would narrow it) and {rest} in 100 is luck, which nobody can know."
            )
        seen = [row for row in self.rows if not too_small(row.share)]
        for kind, words in (("guess", "Of your guesses"), ("luck", "Of the luck that can be named")):
            row = next((row for row in seen if row.kind == kind), None)
            if row is None:
                continue
            moved = ""
            if kind == "guess" and row.effect is not None and not too_small(row.effect):
                way = "adds" if row.effect.value > 0.0 else "takes"
                moved = f": from its low to its high it {way} about {row.effect.amount_text.removeprefix('-')} {self.unit}"
            said.append(f"{words}, {row.words} weighs most ({share_text(row.share)} in 100){moved}.")
        if self.audit is not None:
            said.append(self._audit_sentence(self.audit))
        if self.pairs_left_out:
            said.append(
                f"{self.pairs_left_out:,} of the products of two were left out: these histories do not suffice for them, and what they would explain "
                "stands with day-to-day luck."
            )
        return said

    def _audit_sentence(self, audit: Estimate) -> str:
        both = f"by {audit.n:,} pairs of histories with the same guesses and other luck the guess share is {share_text(audit)} in 100"
        if self.guess is self.fitted:
            return f"Audit: {both}, which agrees with the fit."
        return f"Audit: {both}, and by the fit {share_text(self.fitted)}. They differ, so the pairs are reported; the rows are the fit's and fall short."

    def to_pandas(self):  # type: ignore[no-untyped-def]
        """The table as a DataFrame of values; shares from 0 to 1."""
        return self.table.to_pandas()

    def __repr__(self) -> str:
        lines = [f"What {self.title} hangs on, in 100 parts of its spread: {counted(self.histories, f'simulated {self.noun}')}, key {self.key}"]
        for sentence in self.sentences():
            lines += wrapped(sentence, "  ")
        return "\n".join([*lines, *("  " + line for line in self.table.lines())])

    def _repr_html_(self) -> str:
        return self.table._repr_html_()


def drivers(
    plan: Run | Plan,
    against: Run | Plan | None = None,
    *,
    of: str = "household",
    audit: bool = False,
    histories: int | None = None,
    rng: Rng = None,
    key: int | None = None,
    threads: int = 0,
    progress: progress_.Progress = None,
) -> Drivers:
    """How much of the spread of an outcome is luck and how much is guess, and which weighs how much.

    The normals of guesses and years are drawn again from their addresses and the outcome is regressed on them: no
    extra runs. What such a fit cannot follow counts as luck; the audit measures whether that is much.

    Parameters
    ----------
    plan : Run or Plan
        A run is looked at as it is; a plan is simulated first.
    against : Run or Plan, optional
        Look at ``plan`` less this one, season by season under the same luck: what the difference of a choice hangs on.
    of : str
        Column of the outcome.
    audit : bool
        Simulate a tenth of the histories again with the same guesses and other luck, and compare.
    histories : int, optional
        For plans: 10,000 when left out. A run has its own.
    rng, key, threads, progress
        For plans, and for the audit: as in `seasonrisk.simulate`.

    Returns
    -------
    Drivers

    Raises
    ------
    ValueError
        For runs of different luck, an outcome that never differs, or too few histories.
    KeyError
        When the run did not keep the column.
    KeyboardInterrupt
        On Ctrl-C.

    Examples
    --------
    >>> import seasonrisk as sr
    >>> plan = sr.Plan.read("examples/plans/one_boat.toml")
    >>> sr.drivers(plan, histories=2000, rng=7).rows[0].kind in ("guess", "luck")
    True
    """
    if not isinstance(of, str):
        raise TypeError(f"of={of!r}: must be the name of a column")
    asked = [plan] if against is None else [against, plan]
    keep = [[of, *_event_columns(p)] if isinstance(p, Plan) else [] for p in asked]
    runs = runs_of(asked, keep, histories=histories, rng=rng, key=key, threads=threads, progress=progress)
    values, sources = outcome(runs, of), sources_of(runs)
    names = list(dict.fromkeys(sources.parts))
    events = _events(runs, values)
    names += list(dict.fromkeys(name for name, _ in events))
    found = _core.spread_shares(
        values, list(sources.normals), [names.index(part) for part in sources.parts], list(sources.guesses),
        [column for _, column in events], [names.index(name) for name, _ in events], len(names),
    )  # fmt: skip
    run = runs[-1]
    unit = run.money if run.column(of).unit == "money" else run.column(of).unit
    shares = {name: Estimate.of(getattr(found, name)) for name in ("guess", "luck", "guess_pairs", "luck_pairs", "left")}
    fitted = shares["guess"]
    pairs = _pairs(runs, of, values, threads=threads, progress=progress) if audit else None
    if pairs is not None and abs(pairs.value - fitted.value) > SURPRISING * math.hypot(pairs.standard_error, fitted.standard_error):
        shares["guess"] = pairs
        shares["luck"] = Estimate(1.0 - pairs.value, pairs.standard_error, 1.0 - pairs.high, 1.0 - pairs.low, pairs.n)
    return Drivers(
        title=f"{of} ({run.plan.name})" if against is None else f"the difference in {of} between the two choices",
        unit=unit, noun=noun_of(run.plan), rows=_rows(runs, names, sources, found.parts, unit),
        pairs_left_out=found.pairs_left_out, audit=pairs, fitted=fitted, histories=run.histories, key=run.key, **shares,
    )  # fmt: skip


def _rows(runs: Sequence[Run], names: list[str], sources: Sources, parts: Sequence[_core.PartShare], unit: str) -> tuple[Driver, ...]:
    is_guess = dict(zip(sources.parts, sources.guesses, strict=True))
    guesses = [name for name in names if is_guess.get(name)]
    words = {**LUCK, **guess_words([run.plan for run in runs], guesses)}
    rows = []
    for name, part in zip(names, parts, strict=True):
        effect = None if math.isnan(part.effect.value) else Estimate.of(part.effect, unit=unit)
        kind = "guess" if is_guess.get(name) else "luck"
        rows.append(Driver(name, words[name], kind, Estimate.of(part.alone), Estimate.of(part.total), effect))
    return tuple(sorted(rows, key=lambda row: -row.share.value))


def _event_columns(plan: Plan) -> list[str]:
    """Columns of the plan's runs that count events."""
    names = [info.name for info in _core.columns_of(plan._core)]
    return [name for name in names if _event_of(name)]


def _event_of(column: str) -> str | None:
    """The row that a column of a run is counted to; sums over all years, of each boat."""
    last = column.rpartition(".")[2]
    if last.isdigit():  # one year of several
        return None
    for start, name in (("days_weather", "days_weather"), ("days_broken_down", "breakdowns"), ("repairs", "breakdowns")):
        if column == start or column.startswith(start + "."):
            return name
    return None


def _events(runs: Sequence[Run], values: NDArray[np.float64]) -> list[tuple[str, NDArray[np.float64]]]:
    """Events of all runs as far as they were kept; weather first, for it does not hang on breakdowns."""
    found: list[tuple[str, NDArray[np.float64]]] = []
    for run in runs:
        for column in run.columns:
            name = _event_of(column)
            known = any(np.array_equal(run[column], other) for _, other in found) or np.array_equal(run[column], values)
            if name and not known and np.ptp(run[column]) > 0.0:
                found.append((name, run[column]))
    return sorted(found, key=lambda event: event[0] != "days_weather")


def _pairs(runs: Sequence[Run], of: str, values: NDArray[np.float64], *, threads: int, progress: progress_.Progress) -> Estimate:
    n = runs[0].histories // AUDIT_OF
    if n < FEWEST_PAIRS:
        raise ValueError(f"histories={runs[0].histories}: an audit takes a tenth of them in pairs, and {FEWEST_PAIRS} pairs at least; simulate {FEWEST_PAIRS * AUDIT_OF:,} or more")
    again = [same_guesses_other_luck(run, of, n, threads=threads, progress=progress) for run in runs]
    other = again[0] if len(again) == 1 else np.ascontiguousarray(again[1] - again[0])
    return Estimate.of(_core.share_in_common(np.ascontiguousarray(values[:n]), other))
