# SPDX-License-Identifier: MIT
"""What it is worth to pin a guess down before choosing."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np

from seasonrisk import _core, progress as progress_
from seasonrisk.choice.same_luck import runs_of, sources_of
from seasonrisk.engine import Rng
from seasonrisk.estimate import Estimate
from seasonrisk.page import wrapped
from seasonrisk.plan import Plan
from seasonrisk.run import Run
from seasonrisk.table import Table
from seasonrisk.values import Value
from seasonrisk.words import chance_text, counted, noun_of
from seasonrisk.words_drivers import guess_words, too_small

__all__ = ["GuessWorth", "WorthKnowing", "worth_knowing"]

AS_IT_IS = "the plan as it is"


@dataclass(frozen=True)
class GuessWorth:
    """One guess.

    Attributes
    ----------
    path : str
    words : str
    value : Estimate
        What choosing with this guess known leaves more, on average, than choosing now; in money a history.
    would_change : Estimate
        Chance that another choice would then be taken.
    """

    path: str
    words: str
    value: Estimate
    would_change: Estimate

    def sentence(self, noun: str) -> str:
        """In words."""
        if self.value.value == 0.0:
            return f"Pinning down {self.words} is worth nothing for this choice: it would not change it."
        if too_small(self.value):
            high = replace(self.value, value=self.value.high)
            return f"Pinning down {self.words}: no worth we can see for this choice (under {high.amount_text} {self.value.unit} a {noun})."
        return (
            f"Pinning down {self.words} is worth up to about {self.value.amount_text} {self.value.unit} a {noun} for this choice: "
            f"it would change the choice in {chance_text(self.would_change).replace(' in ', ' of ')} cases."
        )


@dataclass(frozen=True, repr=False)
class WorthKnowing:
    """What each guess is worth to know for one choice; made by `worth_knowing`.

    Attributes
    ----------
    of : str
        Column that the choice is judged by; the more the better.
    choices : tuple of str
        The plan first.
    means : tuple of Estimate
        Mean of ``of`` under each choice.
    best_now : int
        Which of them is best on average, with nothing more known.
    rows : tuple of GuessWorth
        The most worth first.
    noun : str
        What one history is.
    histories, key : int
    """

    of: str
    choices: tuple[str, ...]
    means: tuple[Estimate, ...]
    best_now: int
    rows: tuple[GuessWorth, ...]
    noun: str
    histories: int
    key: int

    @property
    def table(self) -> Table:
        """Every guess with its worth and the chance that the choice would change."""
        unit = self.means[0].unit
        rows = [
            [
                row.words,
                "nothing" if row.value.value == 0.0 else "too small to see" if too_small(row.value) else row.value.amount_text,
                "" if too_small(row.value) or row.value.value == 0.0 else row.value.error_text,
                "never" if row.value.value == 0.0 else "" if too_small(row.value) else chance_text(row.would_change, whole=False),
            ]
            for row in self.rows
        ]
        values = [[row.words, row.value.value, row.value.standard_error, row.would_change.value] for row in self.rows]
        return Table(
            f"What pinning down one guess is worth, judged by the mean of {self.of}, {unit} a {self.noun}",
            ["guess", "worth up to", "\u00b1", "would change the choice"], rows, values,
        )  # fmt: skip

    def sentences(self) -> list[str]:
        """What the table says, in words; of guesses that change nothing only how many."""
        said = [f"On average the best of {counted(len(self.choices), 'choice')} now is {self.choices[self.best_now]} ({self.means[self.best_now]})."]
        told = [row for row in self.rows if not too_small(row.value) and row.value.value > 0.0]
        said += [row.sentence(self.noun) for row in told]
        others = len(self.rows) - len(told)
        if not self.rows:
            said.append("The plan has no guesses.")
        elif others:
            which = "Pinning down any one of your guesses" if not told else f"Pinning down any of the other {others}" if others > 1 else "Pinning down the other one"
            said.append(f"{which} would change nothing we can see.")
        return said

    def to_pandas(self):  # type: ignore[no-untyped-def]
        """The table as a DataFrame of values."""
        return self.table.to_pandas()

    def __repr__(self) -> str:
        lines = [f"Which guess is worth pinning down before choosing: {counted(self.histories, f'simulated {self.noun}')} of each choice, key {self.key}"]
        for sentence in self.sentences():
            lines += wrapped(sentence, "  ")
        return "\n".join([*lines, *("  " + line for line in self.table.lines())])

    def _repr_html_(self) -> str:
        return self.table._repr_html_()


def worth_knowing(
    plan: Run | Plan,
    choices: str | Plan | Run | Mapping[str, Value] | Sequence[str | Plan | Run | Mapping[str, Value]],
    *,
    of: str = "household",
    histories: int | None = None,
    rng: Rng = None,
    key: int | None = None,
    threads: int = 0,
    progress: progress_.Progress = None,
) -> WorthKnowing:
    """What it is worth to know each guess before choosing between the plan and some choices.

    The value of perfect information on one guess at a time: E[max over choices of E[outcome | guess]] less the best
    mean now, from one regression on the normals of guesses and years. An upper bound: no look at the books makes a
    guess exact. It judges by the mean alone; who fears bad seasons more may value knowing more or less.

    Parameters
    ----------
    plan : Run or Plan
    choices : str, mapping, Plan or Run, or a sequence of them
        Names of choices in the plan, values by key path, other plans, or their runs.
    of : str
        Column the choice is judged by; the more the better.
    histories : int, optional
        For plans: 10,000 when left out.
    rng, key, threads, progress
        For plans: as in `seasonrisk.simulate`; every choice meets the same luck.

    Returns
    -------
    WorthKnowing

    Raises
    ------
    ValueError, TypeError, KeyError
        For what is no choice of the plan, or runs of different luck.
    KeyboardInterrupt
        On Ctrl-C.
    """
    if not isinstance(of, str):
        raise TypeError(f"of={of!r}: must be the name of a column")
    single = isinstance(choices, str | Plan | Run | Mapping)
    listed = [choices] if single else list(choices)  # type: ignore[arg-type]
    if not listed:
        raise ValueError("choices: names none; knowing is worth something only for a choice")
    base = plan.plan if isinstance(plan, Run) else plan
    if not isinstance(base, Plan):
        raise TypeError(f"plan={plan!r:.60}: must be a Run or a Plan")
    asked = [plan, *(_chosen(base, choice) for choice in listed)]
    runs = runs_of(asked, [[of]] * len(asked), histories=histories, rng=rng, key=key, threads=threads, progress=progress)
    sources = sources_of(runs)
    found = _core.worth_knowing([run[of] for run in runs], list(sources.normals), list(sources.guesses))
    paths = [part for part, is_guess in zip(sources.parts, sources.guesses, strict=True) if is_guess]
    words = guess_words([run.plan for run in runs], paths)
    means = tuple(run.mean(of) for run in runs)
    rows = [
        GuessWorth(path, words[path], Estimate.of(one.value, unit=means[0].unit), Estimate.of(one.would_change, "chance"))
        for path, one in zip(paths, found, strict=True)
    ]
    return WorthKnowing(
        of=of, choices=(AS_IT_IS, *(_name(choice, n) for n, choice in enumerate(listed, 1))), means=means,
        best_now=int(np.argmax([mean.value for mean in means])), rows=tuple(sorted(rows, key=lambda row: -row.value.value)),
        noun=noun_of(base), histories=runs[0].histories, key=runs[0].key,
    )  # fmt: skip


def _chosen(plan: Plan, choice: object) -> Run | Plan:
    if isinstance(choice, Run | Plan):
        return choice
    if isinstance(choice, str | Mapping):
        return plan.choose(choice)
    raise TypeError(f"choices={choice!r:.60}: must be a name, values by key path, a Plan or a Run")


def _name(choice: object, n: int) -> str:
    if isinstance(choice, str):
        return choice
    if isinstance(choice, Mapping):
        return ", ".join(f"{path} = {value}" for path, value in choice.items())
    return f"choice {n}"
