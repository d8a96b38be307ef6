# SPDX-License-Identifier: MIT
"""A plan with every section, said back in sentences. Source of every expected number: the plan's own text
(tests/data/broken_plans/business.toml, invented) and the arithmetic beside it."""

from __future__ import annotations

import re
import tomllib
from pathlib import Path

import pytest
import seasonrisk as sr
from small_plan import bare, text

BUSINESS = Path(__file__).resolve().parents[1] / "data/broken_plans/business.toml"


@pytest.fixture
def said(monkeypatch: pytest.MonkeyPatch) -> str:
    """What is said of two boats, three years and two outlets, apart from the bills, which the engine adds up."""
    monkeypatch.setattr("seasonrisk.describe.bill_lines", lambda plan: [])
    return sr.Plan.read(BUSINESS).describe()


@pytest.mark.parametrize(
    "sentence",
    [
        # 3 May to 27 November are 209 days; 3 May to 30 October are 181, of which 25 are Sundays.
        "a season of 209 days, 3 May 2027 to 27 November 2027; rest days Sunday; 156 days are left",
        "A history is 3 years long",
        # The last 4 days up to 30 October begin on the 27th; 28 days are left to 27 November: 28 x 4 and 4 x 260.
        "Bringing the gear ashore takes 4 days of fishable weather, begun on 27 October 2027",
        "stopped early, on 30 October 2027, 28 days before its end; hands on a day wage get 5 days of notice; "
        "in 30 of 100 such years the crew goes elsewhere, and a new one costs 900 GBP; the yard asks 150 GBP; "
        "112 GBP of premium comes back; work ashore brings 1,040 GBP.",
        "At home, half-term: 25 October 2027; it is counted how often your own boats stay in that day.",
        "At home, the wedding: 6 November 2027; it is counted how often all the gear is ashore when the day begins.",
        # 1 - 0.92^3 = 0.2213
        "Red tide: odds 8 in 100 a year, 22 in 100 for at least one in 3 years; nobody fishes then from 1 August 2027 to 14 August 2027.",
        "On 10 in 100 of the days lost to weather the boat had gone out and turned back",
        # 1.1 x 220 and 1.1 x 500
        "Crab: 1.1 kg a haul after the usual soak, so 242 kg from 220 hauls of Ember and 550 kg from 500 hauls of Gull",
        "Crab is sorted into number ones (40 in 100, sold by the dozen, 0.12 dozen in a kg) and browns (60 in 100, sold by the kg)",
        "Last year's lobster was 0.9 times a middling year",
        "Limit: 400 kg of lobster a week for the whole business, 3 May 2027 to 27 November 2027; what is above it goes back",
        "Limit: 22,000 kg of crab a season for the whole business, 3 May 2027 to 31 October 2027; each kg above it is leased at 0.40 GBP.",
        # Thursdays from 3 June to 30 September: 18. 30 - 26 = 4.
        "Order of the inn: 8 dozen of number ones each Thursday, 1 June 2027 to 30 September 2027, 18 times, at 26 GBP; "
        "each dozen short is bought in at 30 GBP, which costs 4 GBP; 50 in 100 of what was short is not ordered again that year.",
        "Order of the school: 20 kg of browns each Monday and Wednesday, 3 May 2027 to 27 November 2027, 60 times, at 2 GBP; "
        "each kg short is paid back with 1 GBP.",
        # 1.1^-0.15 = 0.9858
        "The lorry: open Monday to Saturday; pays 13 GBP a kg of lobster, 14 GBP a dozen of number ones, 1.60 GBP a kg of browns "
        "and 18 GBP a kg of large; takes no more than 60 kg of lobster and 300 kg of browns a day; 10 in 100 more landed than usual "
        "lowers its price by 1.4 in 100; the money comes 14 days later; odds 2 in 100 a year that it never pays for some week.",
        # Fridays, Saturdays and Sundays of the season: 30 + 30 + 29 = 89; 89 x 45 = 4,005; 89 x 6 = 534.
        "customers ask for 12 kg of lobster, 6 dozen of number ones, 10 kg of browns, 5 kg of large and 5 kg of small prawns on an open day",
        "an open day costs 45 GBP, 4,005 GBP on 89 open days of the season; it takes 6 hours of yours or the family's a day, 534 in a season",
        # 0.98^7 = 0.8681
        "Held, lobster: 30 in 100 of what orders leave of a landing is kept for the stall, and what no outlet took is kept, up to 80 kg "
        "and 10 days; 2 in 100 die in a night, so that of 100 86.8 are left after a week; odds of a die-off 0.5 in 100 a day, which "
        "takes 40 in 100; what is too old or too much is sold off at 60 in 100 of the lowest price of the day.",
        "Held, browns: what no outlet took is kept, up to 150 kg and 2 days; no deaths;",
        "Ember: you are the skipper; 95 in 100 is left of every boat's catch",
        "For lobster and crab, 3 May 2027 to 31 August 2027; 30 spare pots ashore take the place of lost ones.",
        "For prawn, 1 September 2027 to 27 November 2027; changing over to it costs 400 GBP.",
        # 300 hauls x 0.30
        "A full day out for prawn costs about 57 GBP of fuel (60 l), 90 GBP of bait.",
        "after its bait and fuel are taken off; on 5 in 100 of the days the hand does not come, and 60 in 100 of the hauls are made.",
        # (5,200 / 6,000)^0.6 = 0.9177
        "at its 5,200 hours it comes 0.918 times as often as stated for 6,000",
        "Spare for engine: 700 GBP, paid once; it saves 1 day at each breakdown.",
        # 1 - 0.8^3 = 0.488; 0.02 x 120,000
        "Storms: odds 20 in 100 of at least one in a season that takes gear, 49 in 100 for at least one in 3 years;",
        "the policy pays what is above 2,400 GBP.",
        "Gull: with a hired skipper; she fishes from 14 June 2027 on;",
        "odds 25 in 100 a year that the skipper is missing, for 4 weeks in the mean; she takes you off your own boats 1 day a month and "
        "1 day after each breakdown; she stays in when an ordinary catch at the day's prices would leave less than 50 GBP.",
        "Trotline: 500 hauls on each day out",
        "Laid up: odds 6 in 100 a season, for 4.7 weeks in the mean; the boats you skipper yourself stay in.",
        # 2,000 x 0.95 / 0.1
        "Frozen bait: 2,000 bought ahead, of which 5 in 100 spoil; 0.1 go on a haul, so it is enough for 19,000 hauls; more is bought on the day at 0.40 GBP.",
        "Boat loan: 60,000 GBP at 8.5 in 100 a year, paid off in 10 years; interest alone for the first 6 months, then level payments over what is left; the lender holds Ember.",
        # 1 April 2025 to 1 March 2030 are 1,795 days: 14,000 - 11,000 x 1,795 / 365.25 / 8 = 7,243
        "The van: 14,000 GBP on 1 April 2025, worn down to 3,000 GBP in 8 years; worth 7,243 GBP when the books end on 28 February 2030.",
        # 1.03^2 = 1.0609 and 1.02^2 = 1.0404
        "Growth: bills, premium and the draw 3 in 100 a year, so 1.06 times as much in the last;",
        "prices 2 in 100 a year, so 1.04 times as much in the last.",
        # 420 x 0.2 and 12 x 30
        "Your own and the family's hours: 9 on each day out of Ember, 534 at the stall, 84 on pots before the season and 360 ashore in the year.",
        "Supposed in year 2 of the history: nobody fishes from 7 June for 14 days.",
        "Supposed in year 1 of the history: Ember is broken down from 5 July 2027 for 20 days; it costs 6,500 GBP, of which no insurer pays any.",
        "Supposed in year 3 of the history: Ember has no skipper from 3 May to the season's end.",
        "Supposed in year 1 of the history: every species has its 1-in-10 low year, and prices follow as they are tied.",
        "Stresses of your own, beside those that are always the same: the lorry pays less.",
        "Past year 2025: sales 96,000 GBP and days fished 210; nothing simulated rests on it.",
        "Note for the lender: 20,000 GBP asked for of the bank.",
        "Sources told of numbers or of whole sections: published 1 and own record 1.",
        "Guesses, drawn once for all years of a history",
    ],
)  # fmt: skip
def test_every_section_is_said_in_a_sentence(said: str, sentence: str) -> None:
    assert sentence in said


def test_boats_are_told_one_after_the_other(said: str) -> None:
    lines = said.splitlines()
    heads = ("Ember:", "Pots: 420", "Pots: 600", "Insurance:", "Gull:", "Trotline:", "No insurance.")
    places = [next(n for n, line in enumerate(lines) if line.startswith(head)) for head in heads]

    assert places == sorted(places)


def test_the_worst_month_of_deaths_is_told() -> None:
    """0.96^7 = 0.7514: a night that costs 4 in 100 leaves three quarters after a week."""
    plan = bare()
    plan["holding"] = [{
        "grade": "crab", "capacity": 50, "longest_days": 9, "forced_price_fraction": 0.5,
        "loss_per_night_fraction": {"jun": 0.01, "jul": 0.02, "aug": 0.04, "sep": 0.02},
    }]  # fmt: skip

    said = sr.Plan.parse(text(plan)).describe()

    assert "in August, the worst month, 4 in 100 die in a night, so that of 100 75.1 are left after a week" in said


def test_a_plan_of_one_boat_is_told_without_headings(plan: sr.Plan) -> None:
    said = plan.describe()

    assert "you are the skipper" not in said
    assert "What orders leave" not in said
    assert "Growth" not in said


def test_every_plan_that_the_rule_book_lets_through_can_be_described(monkeypatch: pytest.MonkeyPatch) -> None:
    """The plans of tests/data/broken_plans that are only warned of: no sentence fails, and none holds a number that
    nobody writes."""
    monkeypatch.setattr("seasonrisk.describe.bill_lines", lambda plan: [])
    described = 0
    for case in tomllib.loads((BUSINESS.parent / "expected.toml").read_text("utf-8"))["case"]:
        toml = (BUSINESS.parent / f"{case.get('plan', 'sound')}.toml").read_text("utf-8")
        for before, after in case["change"]:
            toml = toml.replace(before, after)
        try:
            said = sr.Plan.parse(toml).describe()
        except sr.PlanError:
            continue
        described += 1
        assert not re.search(r"\b(nan|inf|None)\b|\de[+-]\d", said), case["about"]

    assert described > 5
