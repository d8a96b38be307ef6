# SPDX-License-Identifier: MIT
"""The page of a comparison, short for a prompt or whole for the terminal."""

from __future__ import annotations

from seasonrisk.choice import compare_tables
from seasonrisk.choice.caution import CANNOT_SAY
from seasonrisk.choice.compared import Compared, Comparison
from seasonrisk.page import GIVE_OR_TAKE, section, wrapped
from seasonrisk.words import CAUTIONS, chance_text, counted, noun_of, seasons_of
from seasonrisk.words_compare import (
    boats_sentences,
    choice_sentences,
    difference_text,
    hours_sentence,
    new_boat_sentence,
    of_seasons,
    policies_sentences,
    pots_sentences,
    verdicts,
)

__all__ = ["page", "short_page"]


def headline(comparison: Comparison) -> str:
    """What is compared, and with how many seasons."""
    noun = f"simulated {noun_of(comparison.plan)}"
    return (
        f"{comparison.plan.name}: {counted(len(comparison), 'choice')} against the plan as it is, {counted(comparison.histories, noun)}, "
        f"the same luck for each; money in {comparison.money}"
    )


def short_page(comparison: Comparison) -> str:
    """The ranking, and a sentence or two for each choice."""
    lines = [*wrapped(headline(comparison)), *section(comparison.table)]
    for sentence in verdicts(comparison):
        lines += wrapped(sentence)
    for choice in comparison.ranked():
        lines += ["", *wrapped(f"{choice.name}: {choice_sentences(choice)}")]
    return "\n".join([*lines, "", f"Key {comparison.facts.key}; more in comparison.page()."])


def page(comparison: Comparison) -> str:
    """The whole page."""
    lines = [*wrapped(headline(comparison)), *section(comparison.table)]
    for sentence in verdicts(comparison):
        lines += wrapped(sentence, "  ")
    if comparison.base_boats:
        lines += section(compare_tables.boats(comparison.base_boats, comparison.money))
        for sentence in boats_sentences(comparison.base_boats, comparison.plan):
            lines += wrapped(sentence, "  ")
    for choice in comparison.ranked():
        lines += choice_lines(comparison, choice)
    lines += caution_lines(comparison)
    facts = comparison.facts
    made = (
        f"Plan {comparison.plan.source}; key {facts.key}; {counted(comparison.histories, noun_of(comparison.plan))} of each; seasonrisk {facts.version}, "
        f"draws of version {facts.stream_version}."
    )
    return "\n".join([*lines, "", *wrapped(GIVE_OR_TAKE), *wrapped(made), "", *wrapped(" ".join(CAUTIONS))])


def choice_lines(comparison: Comparison, choice: Compared) -> list[str]:
    """One choice: in plain words, in chances, in money, and what else it touches."""
    why = f" ({choice.why})" if choice.why else ""
    lines = ["", "", *wrapped(choice.name + why), *wrapped(choice_sentences(choice), "  ")]
    said = [] if choice.pots is None else pots_sentences(choice.pots, choice.plan, comparison.money)
    said += policies_sentences(choice.policies, comparison.money)
    if choice.hours is not None:
        said.append(hours_sentence(choice.hours, choice.mean))
    if choice.new_boat is not None:
        shares = comparison.base_boats if choice.new_boat.gone else choice.boats
        said += boats_sentences(tuple(boat for boat in shares if boat.name in choice.new_boat.names), choice.plan)
        said.append(new_boat_sentence(choice))
    else:
        said += boats_sentences(choice.boats, choice.plan, comparison.base_boats)
    if choice.two_bad_years is not None:
        two = choice.two_bad_years
        said.append(
            f"The loan is missed two years running in {of_seasons(two.choice, choice.plan)} ({chance_text(two.base)} as it is)."
        )
    said.append(f"What is owned less what is owed at the end: {difference_text(choice.end_position)}.")
    for sentence in (*said, *choice.notes):
        lines += wrapped(sentence, "  ")
    lines += section(compare_tables.rungs(choice, comparison.money))
    if choice.new_boat is not None:
        lines += section(compare_tables.new_boat(choice, comparison.money))
    return lines + section(compare_tables.where_from(choice, comparison.money))


def caution_lines(comparison: Comparison) -> list[str]:
    """What the owner's own caution makes of it, beside money and chances."""
    found = comparison.caution
    if found is None:
        return []
    lines = ["", *section(compare_tables.caution(comparison))]
    tolerance = f"{found.tolerances[1]:,.0f} {comparison.money}"
    advice = (
        "The answer rests on the few worst of these seasons; simulate more of them, or name a larger loss."
        if set(found.best) == {CANNOT_SAY}
        else "Where it cannot be said, the answer rests on the few worst of these seasons; simulate more of them, or name a larger loss. "
        f"Else: twice as cautious, {found.best[0]}; so cautious, {found.best[1]}; half as cautious, {found.best[2]}."
        if CANNOT_SAY in found.best
        else f"The advice is the same with half and with twice that caution: {found.best[0]}."
        if found.steady
        else f"The advice depends on it: twice as cautious, {found.best[0]}; so cautious, {found.best[1]}; half as cautious, {found.best[2]}."
    )
    for sentence in (
        advice,
        f"You would take a loss of {found.largest_loss:,.0f} {comparison.money}{_over(comparison)} at 1 chance in 20. A sure sum that is worth as much as the luck, with a tolerance of {tolerance}, about a third of that loss (exponential utility). It goes beside the money and the chances above, never in their place.",
    ):
        lines += wrapped(sentence, "  ")
    return lines


def _over(comparison: Comparison) -> str:
    """Of several seasons the sum is told of all of them together."""
    years = len(seasons_of(comparison.plan))
    return "" if years == 1 else f" over all {years} seasons together"
