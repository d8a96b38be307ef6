# SPDX-License-Identifier: MIT
"""Tables of a comparison: the ranking, the rungs, where a difference comes from, boats, caution."""

from __future__ import annotations

from seasonrisk import summary
from seasonrisk.choice.compared import BoatShare, Compared, Comparison
from seasonrisk.estimate import Estimate, rounded
from seasonrisk.summary import half_width
from seasonrisk.table import Table
from seasonrisk.words import FEW, edge_in_100, seasons_of
from seasonrisk.words_compare import AS_IT_IS, short_name

__all__ = ["boats", "caution", "new_boat", "ranking", "rungs", "where_from"]

RUNG_WORDS = {
    "running": "running costs",
    "standing": "... and bills",
    "loan": "... and loan",
    "household": "... and household",
    "cash_room": "cash holds",
}
STEP_WORDS = {column: words for steps in summary.STEPS.values() for column, words, _ in steps}


def signed(difference: Estimate) -> str:
    """A difference with its sign, to the digits it supports."""
    text = rounded(difference.value, 0.0 if difference.exact else difference.standard_error)
    return f"+{text}" if difference.value > 0.0 and text != "0" else text


def points(chance: Estimate) -> str:
    """A chance in 100, to the digits it supports."""
    if chance.n <= FEW and not chance.exact:
        return "too few"
    if chance.value in (0.0, 1.0) and not chance.exact:
        return edge_in_100(chance)
    return rounded(100.0 * chance.value, 0.0 if chance.exact else 100.0 * chance.standard_error)


def signed_points(difference: Estimate) -> tuple[str, str]:
    """A difference in chance in points, and half its interval."""
    d = difference
    hundred = Estimate(100.0 * d.value, 100.0 * d.standard_error, 100.0 * d.low, 100.0 * d.high, d.n, d.exact)
    if hundred.value == 0.0 and not hundred.exact:
        return "0", hundred.error_text
    return signed(hundred), hundred.error_text


def ranking(comparison: Comparison) -> Table:
    """Choices by what is left on average, the plan as it is among them."""
    rows: list[list[str]] = []
    values: list[list[object]] = []
    base_chance = comparison.choices[0].rungs["household"].base_chance
    placed = False
    for choice in comparison.ranked():
        if not placed and not choice.mean.value > 0.0:
            placed = _as_it_is(rows, values, base_chance)
        change = choice.rungs["household"]
        rows.append(
            [
                short_name(choice.name, 24), signed(change.mean), change.mean.error_text, points(change.better), signed(change.bad),
                signed(change.worst_tenth), points(change.choice_chance), points(choice.rungs["cash_room"].choice_chance),
            ]
        )  # fmt: skip
        values.append(
            [
                choice.name, change.mean.value, half_width(change.mean), change.better.value, change.bad.value,
                change.worst_tenth.value, change.choice_chance.value, choice.rungs["cash_room"].choice_chance.value,
            ]
        )  # fmt: skip
    if not placed:
        _as_it_is(rows, values, base_chance)
    cash = comparison.choices[0].rungs["cash_room"].base_chance
    at = next(n for n, row in enumerate(rows) if row[0] == AS_IT_IS)
    rows[at][-1], values[at][-1] = points(cash), cash.value
    heads = ["", "on average", "\u00b1", "better", "bad season", "worst tenth", "covered", "cash holds"]
    return Table(f"What is left after everything, against the plan as it is, {comparison.money}; chances in 100", heads, rows, values)


def _as_it_is(rows: list[list[str]], values: list[list[object]], chance: Estimate) -> bool:
    rows.append([AS_IT_IS, "0", "-", "-", "-", "-", points(chance), ""])
    values.append([AS_IT_IS, 0.0, 0.0, 0.0, 0.0, 0.0, chance.value, 0.0])
    return True


def rungs(choice: Compared, money: str) -> Table:
    """Each rung: chances in 100 as it is and with the choice, how many turned either way, and the mean difference."""
    rows, values = [], []
    for name, change in choice.rungs.items():
        difference, sure = signed_points(change.chance)
        words = RUNG_WORDS[name]
        # Room above the overdraft's end is a lowest point, not money left: its mean would mislead beside the others.
        mean = ("", "") if name == "cash_room" else (signed(change.mean), change.mean.error_text)
        rows.append([words, points(change.base_chance), points(change.choice_chance), difference, sure, points(change.gained), points(change.lost), *mean])
        values.append(
            [
                words, change.base_chance.value, change.choice_chance.value, change.chance.value, half_width(change.chance),
                change.gained.value, change.lost.value, change.mean.value, half_width(change.mean),
            ]
        )  # fmt: skip
    heads = ["", AS_IT_IS, "with it", "points", "\u00b1", "gained", "lost", f"{money}, mean", "\u00b1"]
    pays = "the season pays its" if len(seasons_of(choice.plan)) == 1 else "all years together pay their"
    return Table(f"Chance in 100 that {pays}", heads, rows, values)


def where_from(choice: Compared, money: str) -> Table:
    """Where the mean difference comes from; the steps add up to it, and what does not differ at all is left out."""
    found = [(STEP_WORDS[name], step) for name, step in choice.steps if not (step.exact and step.value == 0.0)]
    found.append(("= left after everything", choice.mean))
    return Table(
        f"Where the difference comes from, {money}",
        ["", "mean", "\u00b1"],
        [[words, signed(step), step.error_text] for words, step in found],
        [[words, step.value, half_width(step)] for words, step in found],
    )


def boats(shares: tuple[BoatShare, ...], money: str) -> Table:
    """Each boat by herself."""
    rows, values = [], []
    for boat in shares:
        pays = boat.pays_own_loan
        rows.append(
            [
                boat.name, boat.contribution.amount_text, boat.contribution.error_text, boat.after_own_loan.amount_text,
                boat.after_own_loan.error_text, "-" if pays is None else points(pays),
            ]
        )  # fmt: skip
        values.append([boat.name, boat.contribution.value, half_width(boat.contribution), boat.after_own_loan.value, half_width(boat.after_own_loan), None if pays is None else pays.value])
    heads = ["", "leaves herself", "\u00b1", "after her own loan", "\u00b1", "pays it, in 100"]
    return Table(f"Each boat by herself: sales less what is spent on her alone, {money}", heads, rows, values)


def new_boat(choice: Compared, money: str) -> Table:
    """From what the new boat leaves herself to what the business has more or less."""
    assert choice.new_boat is not None
    steps = [(words, step) for words, step in choice.new_boat.steps if not (step.exact and step.value == 0.0)]
    steps.append(("= left after everything", choice.mean))
    return Table(
        f"From the boat to the business, {money}",
        ["", "mean", "\u00b1"],
        [[words, signed(step), step.error_text] for words, step in steps],
        [[words, step.value, half_width(step)] for words, step in steps],
    )


def _worth_text(worth: Estimate) -> tuple[str, str]:
    known = worth.exact or worth.error_text != "unknown"
    return (signed(worth), worth.error_text) if known else ("cannot say", "")


def caution(comparison: Comparison) -> Table:
    """What each choice is worth, against the plan as it is, with more caution and with less."""
    assert comparison.caution is not None
    worths = comparison.caution.worth
    names = [choice.name for choice in comparison.ranked()]
    return Table(
        f"Worth to you, by your own caution, against the plan as it is, {comparison.money}",
        ["", "twice", "\u00b1", "this caution", "\u00b1", "half", "\u00b1"],
        [[short_name(name, 32), *(text for worth in worths for text in _worth_text(worth[name]))] for name in names],
        [[name, *(number for worth in worths for number in (worth[name].value, half_width(worth[name])))] for name in names],
    )
