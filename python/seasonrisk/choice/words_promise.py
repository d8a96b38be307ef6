# SPDX-License-Identifier: MIT
"""A promise in plain words."""

from __future__ import annotations

from typing import TYPE_CHECKING

from seasonrisk.choice.inputs import digits
from seasonrisk.estimate import rounded
from seasonrisk.page import wrapped
from seasonrisk.table import Table
from seasonrisk.words import counted, money_text, noun_of

if TYPE_CHECKING:
    from seasonrisk.choice.promise import Promise

__all__ = ["page", "promise_table"]


def promise_table(found: Promise) -> Table:
    """Promises tried; "-" where one of the two was not looked at."""
    rows, values = [], []
    for tried in found.tried:
        kept = "-" if tried.kept is None else rounded(100.0 * tried.kept.value, 100.0 * tried.kept.standard_error)
        pays, error = ("-", "-") if tried.pays is None else (tried.pays.amount_text, tried.pays.error_text)
        rows.append([digits(tried.quantity), kept, pays, error])
        values.append([tried.quantity, tried.kept and tried.kept.value, tried.pays and tried.pays.value, error])
    return Table(f"Promised to {found.who}, {found.unit} a day it is due", ["promise", "weeks kept in 100", f"{found.of}, {found.plan.money}", "\u00b1"], rows, values)


def page(found: Promise) -> str:
    """The answers, and how they were found."""
    each = f"{found.unit} each of the {found.days_a_week} days a week" if found.days_a_week > 1 else f"{found.unit} a week"
    lines = [f"Promised to {found.who}, {each}; the plan has {digits(found.in_plan)}:"]
    for share, value in found.safe.items():
        sure = "" if value.low == value.high else f" ({digits(value.low)} to {digits(value.high)})"
        lines.append(f"  kept in {100.0 * share:g} of 100 weeks: up to {digits(value.value)}{sure}")
    lines += wrapped(_best_sentence(found))
    noun = noun_of(found.plan)
    lines += wrapped(
        "A week counts as kept when nothing is short on any of its due days, with the promise as it stands all season. What pays best counts all "
        f"the plan says of short weeks. {counted(found.runs, 'plan')}, each over the same {counted(found.histories, noun)} (key {found.key}).",
        "  ",
    )
    return "\n".join(lines)


def _best_sentence(found: Promise) -> str:
    if found.best >= found.most:
        return f"The more is promised, the more it pays, as far as looked at ({digits(found.most)}): nothing in the plan makes a short week cost enough."
    low, high = found.as_good
    as_good = "" if low == high else f"; of those tried, from {digits(low)} to {digits(high)} does as well as far as these seasons can tell"
    gain = found.gain
    if gain.exact or abs(gain.value) >= 2.0 * gain.standard_error:
        against = f"{money_text(gain, found.plan.money)} {'more' if gain.value >= 0.0 else 'less'} than the plan's {digits(found.in_plan)}"
    else:
        against = f"no different from the plan's {digits(found.in_plan)} that we can see"
    weeks = rounded(100.0 * found.best_kept.value, 100.0 * found.best_kept.standard_error)
    return f"Pays best on average: {digits(found.best)}, {against}, but kept in {weeks} of 100 weeks{as_good}."
