# SPDX-License-Identifier: MIT
"""What a comparison gives back. All differences are choice less plan, season by season under the same luck."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from seasonrisk import _core
from seasonrisk.estimate import Estimate
from seasonrisk.plan import Plan
from seasonrisk.run import RunFacts

if TYPE_CHECKING:
    import pandas as pd

    from seasonrisk.table import Table

__all__ = ["BoatShare", "Caution", "Compared", "Comparison", "Hours", "MorePots", "NewBoat", "PolicyChange", "RungChange", "TwoBadYears"]


@dataclass(frozen=True)
class RungChange:
    """What a choice does to a rung (or to the room above the overdraft's end): money in the plan's, chances as shares.

    Attributes
    ----------
    base_chance, choice_chance : Estimate
        Chance of 0 or more, as it is and with the choice.
    mean, chance : Estimate
        Differences of the mean and of the chance.
    gained, lost : Estimate
        Share of histories turned from missed to cleared, and the reverse.
    better, worse : Estimate
        Share of histories in which the choice leaves more, and less.
    bad, middling, good : Estimate
        Differences of the 1-in-10 low, the middle and the 1-in-10 high.
    worst_tenth : Estimate
        Difference of the means of the worst tenth.
    """

    base_chance: Estimate
    choice_chance: Estimate
    mean: Estimate
    chance: Estimate
    gained: Estimate
    lost: Estimate
    better: Estimate
    worse: Estimate
    bad: Estimate
    middling: Estimate
    good: Estimate
    worst_tenth: Estimate

    @classmethod
    def of(cls, found: _core.RungChange, money: str) -> RungChange:
        """The Python twin of what the engine found."""
        chances = {"base_chance", "choice_chance", "chance", "gained", "lost", "better", "worse"}
        return cls(
            **{
                name: Estimate.of(getattr(found, name), "chance") if name in chances else Estimate.of(getattr(found, name), unit=money)
                for name in cls.__dataclass_fields__
            }
        )


@dataclass(frozen=True)
class TwoBadYears:
    """Chance that the loan rung is missed in two years running: as it is, with the choice, and the difference."""

    base: Estimate
    choice: Estimate
    difference: Estimate


@dataclass(frozen=True)
class BoatShare:
    """A boat by herself: her sales less what is spent on her alone, and whether that pays the loans secured on her.

    Attributes
    ----------
    name : str
    contribution, after_own_loan : Estimate
        Means, over all years of a history.
    pays_own_loan : Estimate or None
        Chance that nothing is missing after her own loans; None when none is secured on her.
    """

    name: str
    contribution: Estimate
    after_own_loan: Estimate
    pays_own_loan: Estimate | None


@dataclass(frozen=True)
class NewBoat:
    """What boats that only the choice has, or has no more, leave themselves, and what they do to the rest of the business.

    Attributes
    ----------
    names : tuple of str
    gone : bool
        The plan has them and the choice has not.
    steps : tuple of (words, Estimate)
        Add up to the difference at the household rung: what these boats leave before loans, what the rest of the
        business gains or loses beside them, and loans, overdraft, tax and household as far as they differ.
    """

    names: tuple[str, ...]
    gone: bool
    steps: tuple[tuple[str, Estimate], ...]


@dataclass(frozen=True)
class MorePots:
    """What a change in pots does to the catch, and how soon it is paid back.

    Attributes
    ----------
    pots : float
        Pots more (below 0: fewer).
    catch : tuple of (species, unit, per pot as it is, per pot with the choice, per pot that was added)
        Means of a season; the last is the difference in catch over the difference in pots.
    cost : float or None
        What the choice spends now; else of the pots that were added, at the plan's cost of a pot; None when they are fewer
        or the plan does not say.
    payback_seasons : Estimate or None
        Cost over the mean yearly gain; None when there is no cost or the gain is not surely above 0.
    yearly_gain : Estimate
        Mean difference of a season at the household rung, without what is spent now.
    cost_counted : bool
        The cost is spent now, so every other figure of the comparison has it in it.
    """

    pots: float
    catch: tuple[tuple[str, str, Estimate, Estimate, Estimate], ...]
    cost: float | None
    payback_seasons: Estimate | None
    yearly_gain: Estimate
    cost_counted: bool = False


@dataclass(frozen=True)
class Hours:
    """Time of the owner and the family that a choice takes, below 0: saves, and the money difference for each hour of it.

    Attributes
    ----------
    more : Estimate
        Mean difference in hours.
    an_hour : Estimate
        Mean difference of what is left after everything, over that in hours; both more, or both less: what an hour brings.
    """

    more: Estimate
    an_hour: Estimate


@dataclass(frozen=True)
class PolicyChange:
    """A higher deductible for less premium, or a lower one for more (both below 0), of one boat; money of a year."""

    boat: str
    premium_saved: float
    deductible_more: float

    @property
    def break_even_claims(self) -> float:
        """Claims a year, each above the higher deductible, at which the two cost the same."""
        return self.premium_saved / self.deductible_more


@dataclass(frozen=True)
class Caution:
    """How much more, or less, a choice is worth to an owner with so much caution, in the plan's money.

    Attributes
    ----------
    largest_loss : float
        The largest loss he would take at 1 chance in 20.
    tolerances : tuple of float
        R of exponential utility: half, once and twice ``largest_loss`` / ln 20 (about a third of the loss).
    worth : tuple of mapping
        For each tolerance, by choice: certainty equivalent with the choice less that without.
    best : tuple of str
        For each tolerance the choice worth most, ``"as it is"`` when none is surely worth more,
        ``"cannot be said"`` when the answer rests on too few of the worst histories.
    """

    largest_loss: float
    tolerances: tuple[float, ...]
    worth: tuple[Mapping[str, Estimate], ...]
    best: tuple[str, ...]

    @property
    def steady(self) -> bool:
        """Whether the advice is the same with half and with twice the caution."""
        return len(set(self.best)) == 1


@dataclass(frozen=True)
class Compared:
    """One choice against the plan as it is.

    Attributes
    ----------
    name, why : str
    plan : Plan
        With the choice made.
    rungs : mapping of str to RungChange
        ``"running"``, ``"standing"``, ``"loan"``, ``"household"``, ``"cash_room"``.
    end_position : Estimate
        Mean difference of what is owned less what is owed at the end.
    two_bad_years : TwoBadYears or None
        Where histories have several years.
    steps : tuple of (column, Estimate)
        Mean difference of each step of money, signed as it counts; adds up to ``rungs["household"].mean``.
    boats : tuple of BoatShare
        Of the plan with the choice, when it has several boats.
    new_boat : NewBoat or None
    pots : MorePots or None
    policies : tuple of PolicyChange
        Of boats whose deductible and premium change.
    notes : tuple of str
        What a reader must know about this choice.
    hours : Hours or None
        Where the choice takes or saves time of the owner and the family.
    differences : mapping of str to array
        Choice less plan in every history, by rung.
    """

    name: str
    why: str
    plan: Plan
    rungs: Mapping[str, RungChange]
    end_position: Estimate
    two_bad_years: TwoBadYears | None
    steps: tuple[tuple[str, Estimate], ...]
    boats: tuple[BoatShare, ...]
    new_boat: NewBoat | None
    pots: MorePots | None
    policies: tuple[PolicyChange, ...]
    notes: tuple[str, ...]
    hours: Hours | None
    differences: Mapping[str, NDArray[np.float64]] = field(repr=False)

    @property
    def mean(self) -> Estimate:
        """Mean difference of what is left after everything."""
        return self.rungs["household"].mean

    @property
    def told_apart(self) -> bool:
        """Whether the mean difference is at least two standard errors, or exact and not 0."""
        return abs(self.mean.value) >= 2.0 * self.mean.standard_error and self.mean.value != 0.0

    def equal_within(self, amount: float | None) -> bool:
        """Whether the interval of the mean difference lies within ``amount`` of 0 on both sides."""
        return amount is not None and self.mean.low >= -amount and self.mean.high <= amount


@dataclass(frozen=True)
class Comparison:
    """Choices against one plan under the same luck. ``print`` it; ``comparison["More pots"]`` for one of them.

    Attributes
    ----------
    plan : Plan
        As it is.
    choices : tuple of Compared
        In the order asked.
    facts : RunFacts
        Of the plan's run: key and histories make it again.
    base_boats : tuple of BoatShare
        Of the plan as it is, when it has several boats.
    indifference : float or None
        Choices whose difference surely lies within this are equal for the owner.
    caution : Caution or None
        When ``largest_loss`` was given.
    """

    plan: Plan
    choices: tuple[Compared, ...]
    facts: RunFacts
    histories: int
    base_boats: tuple[BoatShare, ...] = ()
    indifference: float | None = None
    caution: Caution | None = None

    @property
    def money(self) -> str:
        """Three letters of the plan's currency."""
        return self.plan.money

    def __getitem__(self, name: str) -> Compared:
        for choice in self.choices:
            if choice.name == name:
                return choice
        raise KeyError(f"choice={name}: was not compared; these were: {', '.join(c.name for c in self.choices)}")

    def __iter__(self) -> Iterator[Compared]:
        return iter(self.choices)

    def __len__(self) -> int:
        return len(self.choices)

    def ranked(self) -> tuple[Compared, ...]:
        """Best mean of what is left after everything first."""
        return tuple(sorted(self.choices, key=lambda choice: -choice.mean.value if not math.isnan(choice.mean.value) else math.inf))

    @property
    def table(self) -> Table:
        """The ranking: what each leaves on average, how often it is better, a bad season, the chance."""
        from seasonrisk.choice.compare_tables import ranking

        return ranking(self)

    def to_pandas(self) -> pd.DataFrame:
        """The ranking as a DataFrame, of values.

        Raises
        ------
        MissingExtra
            When pandas is not installed.
        """
        return self.table.to_pandas()

    def page(self) -> str:
        """The whole page: the ranking, and each choice in money, in chances and in plain words."""
        from seasonrisk.choice.compare_page import page

        return page(self)

    def __repr__(self) -> str:
        from seasonrisk.choice.compare_page import short_page

        return short_page(self)

    def _repr_html_(self) -> str:
        return self.table._repr_html_()
