# SPDX-License-Identifier: MIT
"""Coverage and short years in plain words."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Literal

from seasonrisk.credit.words import in_100_or_dash, money_cell, ratio_cells, seen_note
from seasonrisk.page import section, wrapped
from seasonrisk.summary import half_width, points_text
from seasonrisk.table import Table
from seasonrisk.words import chance_text, counted, money_text, month_text, noun_of
from seasonrisk.words_compare import of_seasons

if TYPE_CHECKING:
    from seasonrisk.credit.coverage import Coverage, Ratio
    from seasonrisk.credit.gives_first import WhatGivesFirst
    from seasonrisk.estimate import Estimate

__all__ = ["AFTER", "BEFORE", "MARGINS", "gives_first_lines", "gives_first_table", "margins_table", "page", "table"]

BEFORE = "Commercial form: cash available before the owner's living and tax (sales less running costs, bills and what is bought ahead) over loan payments."
AFTER = (
    "Farm-finance form: repayment capacity after the owner's living and tax (net income + other income of the household + wear + "
    "interest on loans - draw - tax; net income is after wear and all interest) over loan payments."
)
MARGINS = "Repayment margin: capacity less payments and less the overdraft brought into the year; replacement margin: that, less a year's wear of the assets."
NO_PAYMENTS = "no payments"


def _ratio_values(ratio: Ratio | None) -> list[float | None]:
    return [None] * 4 if ratio is None else [ratio.median.value, ratio.bad.value, ratio.below_1.value, ratio.below_1_25.value]


def table(found: Coverage, form: Literal["before", "after"]) -> Table:
    """One row for each money year, in one of the two forms."""
    rows, values = [], []
    for year in found.years:
        ratio = year.before_household if form == "before" else year.after_household
        rows.append([str(year.season), money_cell(year.payments), *ratio_cells(ratio, NO_PAYMENTS), in_100_or_dash(year.missed)])
        values.append([year.season, year.payments.value, *_ratio_values(ratio), None if year.missed is None else year.missed.value])
    heads = ["", "payments", "times, middle", "1 in 10", "below 1.0", "below 1.25", "payment missed"]
    which = "before living and tax" if form == "before" else "after living and tax"
    return Table(f"Times that a year's money covers its loan payments, {which}; {found.plan.money}, chances in 100", heads, rows, values)


def margins_table(found: Coverage) -> Table:
    """One row for each money year: what is left after payments, and after replacing what wears."""
    rows, values = [], []
    for year in found.years:
        margins = (year.capacity, year.repayment_margin, year.replacement_margin)
        rows.append([str(year.season), *(text for m in margins for text in (m.median.amount_text, m.bad.amount_text)), in_100_or_dash(year.replacement_margin.below_0)])
        values.append([year.season, *(v for m in margins for v in (m.median.value, m.bad.value)), year.replacement_margin.below_0.value])
    heads = ["", "capacity", "1 in 10", "after payments", "1 in 10", "and wear", "1 in 10", "below 0, in 100"]
    return Table(f"Repayment capacity, repayment margin and replacement margin, {found.plan.money}", heads, rows, values)


def page(found: Coverage) -> str:
    """Both forms, what is missed, and who covers it."""
    noun = f"simulated {noun_of(found.plan)}"
    lines = wrapped(f"{found.plan.name}: what there is for loan payments, by money year; {counted(found.histories, noun)}.")
    lines += [*section(table(found, "before")), *wrapped(BEFORE, "  "), *section(table(found, "after")), *wrapped(AFTER, "  ")]
    for sentence in missed_sentences(found):
        lines += wrapped(sentence, "  ")
    lines += section(margins_table(found))
    lines += wrapped(MARGINS, "  ")
    lines += ["", *gives_first_lines(found.gives_first), *wrapped(seen_note(found.histories), "  ")]
    return "\n".join(lines)


def missed_sentences(found: Coverage) -> list[str]:
    """Missed payments, two bad years running, loans that go on."""
    said = []
    n = len(found.years)
    if found.missed is None:
        said.append("No loan payment falls due in these years, so there is no ratio.")
    else:
        over = "the year" if n == 1 else f"these {n} years"
        said.append(f"In {of_seasons(found.missed, found.plan)} a month with a payment due ends below the overdraft limit at least once in {over}: a payment missed.")
    if found.two_bad_years is not None and found.two_short_years is not None:
        said.append(
            f"Two bad years running (loans not covered, as earned): {chance_text(found.two_bad_years)}; two years running in which the "
            f"household is short: {chance_text(found.two_short_years)}."
        )
    if found.loans_go_on:
        until = "; ".join(f"{name}, until {month_text(last)}" for name, last in found.loans_go_on)
        said.append(f"After these years payments go on that are not in these chances: {until}.")
    return said


def gives_first_table(found: WhatGivesFirst) -> Table:
    """One row for each who covers."""
    from seasonrisk.credit.gives_first import COVERERS

    given = [(COVERERS[c.name], c.chance, c.mean) for c in found.coverers]
    rows = [[words, in_100_or_dash(chance), points_text(chance), *_mean_cells(chance, mean)] for words, chance, mean in [*given, ("together: the shortage", found.chance, found.shortage)]]
    values = [[c.name, c.chance.value, half_width(c.chance), c.mean.value, half_width(c.mean)] for c in found.coverers]
    values.append(["shortage", found.chance.value, half_width(found.chance), found.shortage.value, half_width(found.shortage)])
    heads = ["in this order", "chance in 100", "\u00b1 points", "mean when short", "\u00b1"]
    return Table(f"Who covers a year that runs short, {found.money}", heads, rows, values)


def _mean_cells(chance: Estimate, mean: Estimate) -> tuple[str, str]:
    """Nothing seen is not nothing for certain, so it is not shown as an amount."""
    return ("-", "-") if chance.value == 0.0 else (mean.amount_text, mean.error_text)


def gives_first_lines(found: WhatGivesFirst) -> list[str]:
    """The sentence and the table."""
    if math.isnan(found.shortage.value):
        return wrapped(f"Years that run short: {chance_text(found.chance)}; so nobody is seen to cover one.")
    noun = "the season runs short" if found.n_years == 1 else f"some year of the {found.n_years} runs short"
    together = "" if found.n_years == 1 else ", its short years together"
    lines = wrapped(f"Chance that {noun} after everything: {chance_text(found.chance)}, by {money_text(found.shortage, found.money)} on average{together}.")
    return [*lines, *section(gives_first_table(found)), *wrapped("A year counts as earned; a squeeze within the year shows in the account by month.", "  ")]
