# SPDX-License-Identifier: MIT
"""Plain words for differences between choices."""

from __future__ import annotations

import math
import textwrap
from typing import TYPE_CHECKING

from seasonrisk import _core
from seasonrisk.estimate import Estimate, rounded, rounded_up
from seasonrisk.words import FEW, chance_text, counted, noun_of, plural

if TYPE_CHECKING:
    from seasonrisk.choice.compared import BoatShare, Compared, Comparison, Hours, MorePots, PolicyChange
    from seasonrisk.plan import Plan

__all__ = [
    "boats_sentences", "choice_sentences", "difference_text", "hours_sentence", "new_boat_sentence", "of_seasons", "policies_sentences",
    "pots_sentences", "seen", "short_name", "verdicts",
]  # fmt: skip

AS_IT_IS = "as it is"
LESS_CATCH = (
    "Mind: all pots together catch less. They crowd the ground (fishery.elasticity) and are hauled no more often (hauls_per_day), and where the "
    "plan has no species.soak_time_constant_nights a pot that lies longer holds no more; say how pots fill, or how many more are hauled."
)
ONE_SEASON = "1 in 10 is worse"


def seen(difference: Estimate) -> bool:
    """Whether a difference can be told from none: two standard errors or more, or exact and not 0."""
    return difference.value != 0.0 and abs(difference.value) >= 2.0 * difference.standard_error


def difference_text(difference: Estimate, more: str = "more", less: str = "less") -> str:
    """A difference in money, in words.

    Examples
    --------
    >>> difference_text(Estimate(2310.0, 90.0, 2130.0, 2490.0, 10_000, unit="GBP"))
    '2,300 GBP more, give or take 200'
    >>> difference_text(Estimate(30.0, 90.0, -146.0, 206.0, 10_000, unit="GBP"))
    'no difference we can see (under 300 GBP)'
    >>> difference_text(Estimate(-1100.0, 0.0, -1100.0, -1100.0, 10_000, exact=True, unit="GBP"))
    '1,100 GBP less, exactly'
    """
    unit = f" {difference.unit}" if difference.unit else ""
    way = more if difference.value > 0.0 else less
    size = rounded(abs(difference.value), 0.0 if difference.exact else difference.standard_error)
    if difference.exact:
        return f"{size}{unit} {way}, exactly" if difference.value else "no difference"
    if math.isnan(difference.standard_error):
        return f"about {size}{unit} {way}, how sure is unknown"
    if not seen(difference):
        return f"no difference we can see (under {rounded_up(max(-difference.low, difference.high))}{unit})"
    return f"{size}{unit} {way}, give or take {difference.error_text}"


def of_seasons(chance: Estimate, plan: Plan) -> str:
    """A chance as a count: ``"63 of 100 seasons"``."""
    text = chance_text(chance)
    if text.endswith("(exact)"):
        return text.removesuffix(" (exact)").replace("season", noun_of(plan))
    return f"{text.replace(' in ', ' of ')} {plural(noun_of(plan))}"


def short_name(name: str, width: int = 38) -> str:
    """A name that fits a table; a long one is cut at a word."""
    return textwrap.shorten(name, width, placeholder=" ...") if " " in name else name[:width]


def choice_sentences(choice: Compared) -> str:
    """Better how often, how much on average, how bad a bad season; then the chance at home."""
    change = choice.rungs["household"]
    plan, noun = choice.plan, noun_of(choice.plan)
    if change.mean.exact and change.mean.value == 0.0:
        return f"It changes nothing that is left in any {noun}."
    if change.better.n <= FEW:
        return f"On average {difference_text(change.mean)}; {counted(change.better.n, noun)} {'is' if change.better.n == 1 else 'are'} too few to say how often."
    often = f"Better in {of_seasons(change.better, plan)}"
    if change.worse.value + change.better.value < 1.0 and change.worse.value > 0.0:
        often += f", worse in {chance_text(change.worse)}"
    bad = difference_text(change.bad)
    said = f"{often}; on average {difference_text(change.mean)}; a bad {noun} ({ONE_SEASON}): {bad}."
    household = f" The household is covered in {of_seasons(change.choice_chance, plan)}, {chance_text(change.base_chance)} as it is"
    if change.gained.value or change.lost.value:
        household += f": turned from short to covered in {chance_text(change.gained, whole=False)}, and the reverse in {chance_text(change.lost, whole=False)}"
    return said + household + "."


def verdicts(comparison: Comparison) -> list[str]:
    """Which choices are equal for the owner, and which cannot be told from the plan as it is."""
    if comparison.histories == 1:
        return ["1 season is too few to tell choices apart."]
    said = []
    equal = [c.name for c in comparison.ranked() if c.equal_within(comparison.indifference)]
    if equal:
        within = f"{comparison.indifference:,.0f} {comparison.money}"
        said.append(f"Equal for you, for they differ from the plan as it is by less than {within}: {'; '.join(equal)}.")
    for choice in comparison.ranked():
        mean = choice.mean
        if choice.name in equal or seen(mean) or mean.exact:
            continue
        some = comparison.indifference or max(abs(mean.low), abs(mean.high))
        needed = _core.histories_to_tell(mean.standard_error, mean.n, some)
        more = f": about {float(f'{needed:.1g}'):,.0f} would show a difference of {some:,.0f} {comparison.money}" if needed > mean.n else ""
        said.append(
            f"{choice.name}: cannot be told from the plan as it is with {counted(mean.n, noun_of(comparison.plan))}{more}."
        )
    return said + against_the_best(comparison)


def against_the_best(comparison: Comparison) -> list[str]:
    """Which of the others are equal for the owner to the best of the choices, and which cannot be told from it."""
    best, *others = comparison.ranked()
    equal, untold = [], []
    for other in others:
        found = Estimate.of(_core.mean_difference(other.differences["household"], best.differences["household"]))
        if comparison.indifference is not None and -comparison.indifference <= found.low and found.high <= comparison.indifference:
            equal.append(other.name)
        elif not seen(found) and not found.exact:
            untold.append(other.name)
    said = []
    if equal:
        said.append(f"Equal for you to the best of them, {best.name}: {'; '.join(equal)}.")
    if untold:
        said.append(f"Cannot be told from the best of them, {best.name}, with {counted(comparison.histories, noun_of(comparison.plan))}: {'; '.join(untold)}.")
    return said


def boats_sentences(boats: tuple[BoatShare, ...], plan: Plan, before: tuple[BoatShare, ...] = ()) -> list[str]:
    """How often each boat pays the loan secured on her; of those that were there before, only what reads otherwise now."""
    was = {boat.name: boat.pays_own_loan for boat in before}
    said = []
    for boat in boats:
        now, then = boat.pays_own_loan, was.get(boat.name)
        if now is None or (then is not None and chance_text(then) == chance_text(now)):
            continue
        as_it_was = "" if then is None else f" ({chance_text(then)} {AS_IT_IS})"
        said.append(f"{boat.name} pays her own loan in {of_seasons(now, plan)}{as_it_was}; after it she leaves on average {boat.after_own_loan}.")
    return said


def new_boat_sentence(choice: Compared) -> str:
    """Is the business better off with her, or without, and why that differs from what she leaves herself."""
    found = choice.new_boat
    assert found is not None
    names, mean, rest = " and ".join(found.names), choice.mean, found.steps[1][1]
    better = (
        f"The business is better off {'without' if found.gone else 'with'} {names} in {of_seasons(choice.rungs['household'].better, choice.plan)}: "
        f"on average {difference_text(mean)}."
    )
    if not seen(rest):
        return better
    loses = (rest.value < 0.0) != found.gone
    size = rounded(abs(rest.value), rest.standard_error)
    why = " (shared ground, the buyers' limits, the owner's days, what is bought ahead for her)" if loses else ""
    return f"{better} Beside her the rest of the business is {size} {mean.unit} {'worse' if loses else 'better'} off{why}, which what she leaves herself does not show."


def pots_sentences(pots: MorePots, plan: Plan, money: str) -> list[str]:
    """Catch per pot, what an added pot brings, and when they are paid back."""
    more = pots.pots > 0.0
    many = f"{abs(pots.pots):,.0f} pots {'more' if more else 'fewer'}"
    said = [
        f"{many}: {name} a pot {before.amount_text} {unit} as it is, {after.amount_text} with it; each pot {'added brings' if more else 'taken away costs'} {added.amount_text} {unit} a season."
        for name, unit, before, after, added in pots.catch
    ]
    if not more:
        return said
    if any(added.high < 0.0 for *_, added in pots.catch):
        said.append(LESS_CATCH)
    if pots.yearly_gain.high <= 0.0:
        paid = ", also once they are paid" if pots.cost_counted else ""
        return [*said, f"They never pay back: what is left of a season does not rise{paid}."]
    if pots.cost is None:
        return [*said, "How soon they pay back is not known: the plan has no cost of a pot (boat.gear_loss.pot_cost)."]
    counted_or_not = "which all figures here have in them" if pots.cost_counted else "which no figure here has in it (a choice's spend_now would)"
    cost = f"They cost {pots.cost:,.0f} {money} once, {counted_or_not}"
    if pots.payback_seasons is None:
        return [*said, f"{cost}; whether they ever pay that back cannot be told with so many seasons."]
    return [*said, f"{cost}; they are paid back in {pots.payback_seasons}."]


def hours_sentence(hours: Hours, mean: Estimate) -> str:
    """Time of the owner and the family, and what it brings or costs by the hour; never what an hour is worth."""
    more, an_hour = hours.more, hours.an_hour
    size = rounded(abs(more.value), 0.0 if more.exact else more.standard_error)
    said = f"It {'takes' if more.value > 0.0 else 'saves'} {size} hours of the owner and the family"
    if not seen(mean):
        return f"{said}."
    by_hour = rounded(abs(an_hour.value), 0.0 if an_hour.exact else an_hour.standard_error)
    way = "more" if mean.value > 0.0 else "less"
    return f"{said}: {by_hour} {an_hour.unit.replace(' an hour', '')} {way} is left for each of them."


def policies_sentences(policies: tuple[PolicyChange, ...], money: str) -> list[str]:
    """How many claims a year the change in premium is worth."""
    return [
        f"{policy.boat}: {abs(policy.premium_saved):,.0f} {money} of premium a year against {abs(policy.deductible_more):,.0f} of each claim: "
        f"the higher deductible costs less as long as fewer than {policy.break_even_claims:.2g} claims a year, one in {1.0 / policy.break_even_claims:.2g} years, are above it."
        for policy in policies
    ]
