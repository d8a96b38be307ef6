# SPDX-License-Identifier: MIT
"""Tables of time off: rung by rung, what became of the days, the dates at home, and the same days from other starts."""

from __future__ import annotations

from seasonrisk.choice.compare_tables import RUNG_WORDS, points, signed_points
from seasonrisk.choice.end_early import chance_cell
from seasonrisk.choice.time_off import TimeOff
from seasonrisk.summary import half_width, points_text
from seasonrisk.table import Table
from seasonrisk.words import boats_of, seasons_of, short_day

__all__ = ["became", "family", "rungs", "starts"]


def rungs(found: TimeOff) -> Table:
    """Money given up at each rung, and the chance that the season pays it, without and with the days off."""
    rows, values = [], []
    for name, words in RUNG_WORDS.items():
        with_them, change, mean = found.asked.chances[name], found.asked.chance_changes[name], found.asked.given_up[name]
        # Room above the overdraft's end is a lowest point, not money left: its mean would mislead beside the others.
        money = ("", "") if name == "cash_room" else (mean.amount_text, mean.error_text)
        rows.append([words, *money, points(found.chances[name]), points(with_them), *signed_points(change)])
        values.append([
            words, mean.value, half_width(mean), found.chances[name].value, with_them.value, change.value, half_width(change),
        ])  # fmt: skip
    pays = "the season pays its" if len(seasons_of(found.plan)) == 1 else "all years together pay their"
    title = f"Money given up, {found.money}, and the chance in 100 that {pays}"
    return Table(title, ["", "given up, mean", "\u00b1", "as it is", "with the days off", "points", "\u00b1"], rows, values)


def became(found: TimeOff) -> Table:
    """What the days off would have been otherwise."""
    boats, seasons = len(boats_of(found.plan)), len(seasons_of(found.plan))
    days = found.days()
    of_all = f", {boats} boats together" if boats > 1 else ""
    of_all += f", all {seasons} seasons" if seasons > 1 else ""
    return Table(
        f"What became of these {found.n_days} days as it is{of_all}",
        ["", "days, mean", "\u00b1"],
        [[words, mean.amount_text, mean.error_text] for words, mean in days],
        [[words, mean.value, half_width(mean)] for words, mean in days],
    )


def family(found: TimeOff) -> Table:
    """Chance that each family date is as wished, without and with the days off."""
    both = [(name, found.family[name], chance) for name, chance in found.asked.family.items()]
    return Table(
        "Chance that each date at home is as wished",
        ["", "as it is", "\u00b1 points", "with the days off", "\u00b1 points"],
        [[name, chance_cell(was), points_text(was), chance_cell(chance), points_text(chance)] for name, was, chance in both],
        [[name, was.value, half_width(was), chance.value, half_width(chance)] for name, was, chance in both],
    )


def starts(found: TimeOff) -> Table:
    """As many days off from each starting day that was tried."""
    rows, values = [], []
    for days in found.starts:
        mean, covered = days.given_up["household"], days.chances["household"]
        here = " (asked)" if days is found.asked else ""
        rows.append([
            short_day(days.first_day) + here, mean.amount_text, mean.error_text, days.low.amount_text, days.high.amount_text,
            days.days_gained.amount_text, points(covered), points_text(covered),
        ])  # fmt: skip
        values.append([
            days.first_day, mean.value, half_width(mean), days.low.value, days.high.value, days.days_gained.value,
            covered.value, half_width(covered),
        ])  # fmt: skip
    heads = ["from", "mean", "\u00b1", "1 in 10 below", "1 in 10 above", "days at home", "covered", "\u00b1 points"]
    return Table(f"{found.n_days} days off by their first day, and the money they give up after everything, {found.money}", heads, rows, values)
