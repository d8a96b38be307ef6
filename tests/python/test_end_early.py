# SPDX-License-Identifier: MIT
"""Ending early: every last day under the same luck, what it gives up, and the dates at home.

Outside source: the season "Home for the half-term" of the outside checks (checks/season.json), whose figures were worked
out apart from this project.
"""

from __future__ import annotations

import datetime as dt
import itertools
import json

import numpy as np
import pytest
import seasonrisk as sr
from season_checks import entries
from seasonrisk import plot_end_early
from seasonrisk.choice.end_early_page import chances_sentence, family_sentence, page, sentence, whole_page
from seasonrisk.cli import main
from seasonrisk.words import chance_text
from small_plan import bare, text

DAY = dt.timedelta(days=1)
ENDING = {
    "gear_in_days": 4, "crew_notice_days": 6, "crew_leaves_odds": 0.25, "rehire_cost": 900,
    "yard_change_fee": 250, "lay_up_refund_per_day": 6, "shore_job_per_week": 420,
}  # fmt: skip


@pytest.fixture(scope="module")
def plan() -> sr.Plan:
    demo = sr.Plan.read("examples/plans/one_boat.toml")
    return demo.replace({
        "ending": ENDING,
        "family_date": [
            {"name": "half-term", "date": dt.date(2027, 10, 25), "gear_ashore": True},
            {"name": "wedding", "date": dt.date(2027, 11, 13), "gear_ashore": False},
        ],
    })  # fmt: skip


@pytest.fixture(scope="module")
def ends(plan: sr.Plan) -> sr.EndEarly:
    return sr.end_early(plan, last_days=50, histories=4000, rng=7)


@pytest.mark.parametrize("back", [0, 1, 17, 49])
def test_each_last_day_gives_to_the_bit_what_a_simulation_of_it_gives(plan: sr.Plan, ends: sr.EndEarly, back: int) -> None:
    stop = dt.date(2027, 11, 30) - back * DAY
    alone = sr.simulate(plan.choose({"season.stop_on": stop}), histories=4000, key=ends.key, keep="all")
    for name in ends.runs[stop].columns:
        np.testing.assert_array_equal(ends.runs[stop][name], alone[name], err_msg=name)


def test_the_plans_own_last_day_gives_up_exactly_nothing(ends: sr.EndEarly) -> None:
    planned = ends.on(ends.planned)
    assert planned.given_up.value == 0.0
    assert planned.given_up.exact
    assert planned.days_earlier == 0


def test_the_difference_is_made_of_parts_that_add_up(ends: sr.EndEarly) -> None:
    *parts, total = ends.where_from(dt.date(2027, 10, 31)).values
    assert sum(part[1] for part in parts) == pytest.approx(total[1], abs=0.005)
    assert total[1] == pytest.approx(-ends.on(dt.date(2027, 10, 31)).given_up.value, abs=0.005)
    assert {part[0] for part in parts} >= {"sales", "fuel", "bills and premium", "other income"}


def test_cost_by_the_calendar_and_by_the_day_at_home_are_the_means_divided(ends: sr.EndEarly) -> None:
    day = ends.on(dt.date(2027, 10, 31))
    run, base = ends.runs[day.date], ends.runs[ends.planned]
    given_up = (base["household"] - run["household"]).mean()
    at_home = (base["days_out"] - run["days_out"]).mean()
    assert day.per_day.value == pytest.approx(given_up / 30.0)
    assert day.per_day_at_home.value == pytest.approx(given_up / at_home)
    assert 0.0 < at_home < 30.0  # bad weather and Sundays kept her in on the others


def test_stopping_later_never_makes_the_gear_come_ashore_sooner(ends: sr.EndEarly) -> None:
    for run, later in zip([ends.runs[day.date] for day in ends.days], [ends.runs[day.date] for day in ends.days[1:]], strict=False):
        assert (run["family.half-term"] >= later["family.half-term"]).all()


def test_the_latest_start_is_the_last_one_that_makes_it_in_nine_of_ten(ends: sr.EndEarly) -> None:
    latest = ends.latest_for("half-term", 0.9)
    assert latest is not None
    after = ends.on(latest.date + DAY)
    assert latest.family["half-term"].value >= 0.9 > after.family["half-term"].value
    assert latest.gear_in_from == latest.date - 3 * DAY
    assert ends.latest_for("wedding", 1.0) is not None
    assert "half-term" in family_sentence(ends, "half-term")


# Source: checks/season.json, "home-for-half-term".
@pytest.mark.skipif(not entries(), reason="the outside checks are not here")
def test_home_for_the_half_term_costs_what_the_outside_checks_say() -> None:
    check = entries()["home-for-half-term"]
    outside = sr.Plan.parse(check["plan"])
    chosen = dt.date(2027, 10, 17)
    found = sr.end_early(outside, last_days=[chosen], histories=100_000, rng=3)
    expected = {row["name"]: row for row in check["expected"]}
    cost = next(row for name, row in expected.items() if name.startswith("cost of stopping early per day"))
    day = found.on(chosen)
    # Its standing rung is its household rung: there is no loan, tax or draw.
    assert day.per_day.value == pytest.approx(cost["value"], abs=cost["tolerance"])
    for name in ("half-term", "christening", "last Sunday of November"):
        row = expected[f"[Home for the half-term] chance of gear ashore by {name}"]
        assert day.family[name].value == pytest.approx(row["value"], abs=row["tolerance"])


def test_without_luck_the_cost_is_the_days_not_fished() -> None:
    """By hand: 100 hauls of 1 kg at 1 a day; three days fewer are 300."""
    ends = sr.end_early(sr.Plan.parse(text(bare())), last_days=4, histories=64, rng=1)
    first = ends.days[0]
    assert first.given_up.exact
    assert first.given_up.value == pytest.approx(300.0)
    assert first.days_gained.value == 3.0
    assert first.per_day.value == first.per_day_at_home.value == pytest.approx(100.0)
    assert "gives up 300 GBP, exactly, in every season" in sentence(ends, first)


def test_several_seasons_stop_on_the_same_day_of_each() -> None:
    plan = sr.Plan.read("examples/plans/three_boats_five_years.toml").replace({"business.years": 2})
    stop = dt.date(2027, 10, 23)
    ends = sr.end_early(plan, last_days=[stop], histories=64, rng=2)
    alone = sr.simulate(plan.choose({"season.stop_on": stop}), histories=64, key=ends.key, keep=["household"])
    np.testing.assert_array_equal(ends.runs[stop]["household"], alone["household"])
    assert [day.date for day in ends.days] == [stop, dt.date(2027, 11, 30)]


@pytest.mark.parametrize(
    ("asked", "says"),
    [
        ({"last_days": 0}, "last_days=0: must be a whole number from 1 to 180"),
        ({"last_days": "some"}, 'last_days=\'some\': must be "all"'),
        ({"last_days": 7, "histories": 0}, "histories=0: must be a whole number from 1"),
    ],
)
def test_arguments_out_of_range_are_named(plan: sr.Plan, asked: dict[str, object], says: str) -> None:
    with pytest.raises(ValueError, match=says.replace("(", r"\(")):
        sr.end_early(plan, **asked)  # type: ignore[arg-type]


def test_a_last_day_outside_the_season_is_a_problem_of_the_plan(plan: sr.Plan) -> None:
    with pytest.raises(sr.PlanError, match=r"season\.stop_on"):
        sr.end_early(plan, last_days=[dt.date(2027, 12, 24)], histories=64)


def test_a_day_that_was_not_scored_is_named(ends: sr.EndEarly) -> None:
    with pytest.raises(KeyError, match="2027-06-05: was not scored"):
        ends.on(dt.date(2027, 6, 5))


def test_the_page_says_what_it_costs_and_never_what_it_is_worth(ends: sr.EndEarly) -> None:
    text = whole_page(ends, [dt.date(2027, 10, 31)])
    assert "Fishing until 31 October 2027 in place of 30 November 2027" in text
    assert "for each extra day at home" in text
    assert "half-term, 25 October 2027 (all gear ashore when that day begins): to make it in 90 of 100 seasons, bring the gear in" in " ".join(text.split())
    assert "Local rules" in text
    assert page(ends) == repr(ends)
    assert max(map(len, text.splitlines())) <= 100


def test_the_command_line_tells_it_too(capsys: pytest.CaptureFixture[str], tmp_path_factory: pytest.TempPathFactory) -> None:
    asked = ["end-early", "examples/plans/one_boat.toml", "--seasons", "500", "--seed", "7", "--last-days", "20"]
    assert main([*asked, "--on", "2027-11-15"]) == 0
    assert "Fishing until 15 November 2027" in capsys.readouterr().out
    assert main([*asked, "--json"]) == 0
    told = json.loads(capsys.readouterr().out)
    assert len(told["last_days"]) == 20
    assert told["last_days"][-1]["given_up"]["value"] == 0.0
    assert main([*asked, "--on", "2027-12-15"]) == 1  # not the plan is wrong, but what was asked
    assert "--on 2027-12-15: must lie inside the season, 2027-06-01 to 2027-11-30" in capsys.readouterr().err


# Source of what follows: pages read as a spouse and a skipper would, who know nothing of the program.


def test_a_date_on_which_the_gear_may_stay_out_does_not_ask_to_bring_it_in(ends: sr.EndEarly) -> None:
    told = family_sentence(ends, "wedding")
    assert told.startswith("wedding, 13 November 2027 (nobody at sea that day, the gear may stay out): met in ")
    assert "bring the gear in" not in told
    assert told.endswith("to be home on that one day and fish on, add it to season.days_off.")


def test_gear_that_is_counted_ashore_the_same_evening_is_told(plan: sr.Plan) -> None:
    at_once = sr.end_early(plan.replace({"ending": {"gear_in_days": 0}}), last_days=50, histories=200, rng=7)
    told = family_sentence(at_once, "half-term")
    assert "24 October 2027 must be the last day of fishing" in told
    assert "whatever the weather; say in ending.gear_in_days how many days it takes" in told


def test_the_page_says_what_becomes_of_the_loan_and_the_household(ends: sr.EndEarly) -> None:
    day, planned = ends.days[0], ends.on(ends.planned)
    told = chances_sentence(ends, day)
    for name, words in (("loan", "The loan is then covered"), ("household", "the household"), ("cash_room", "cash stays within the overdraft")):
        of = [chance_text(one.chances[name]).replace(" in ", " of ") for one in (day, planned)]
        assert f"{words} in {of[0]} ({of[1]} as planned)" in told
    assert told in " ".join(page(ends).split())


def test_several_seasons_are_divided_by_all_their_days_and_boats_are_named() -> None:
    plan = sr.Plan.read("examples/plans/three_boats_five_years.toml")
    stop = dt.date(2027, 10, 23)  # 38 days before the end, in each of five seasons
    ends = sr.end_early(plan, last_days=[stop], histories=64, rng=2)
    told = sentence(ends, ends.on(stop))
    each = int(told.partition(": ")[2].partition(" for each of the 190 days on the calendar in 5 seasons")[0].replace(",", ""))
    assert each == pytest.approx(ends.on(stop).given_up.value / 190.0, rel=0.1)  # as far as it is rounded
    assert "for each day out that falls away, of all boats together" in told


@pytest.mark.parametrize("histories", [1, 40, 700])
def test_a_page_of_the_whole_season_keeps_to_a_hundred_letters(plan: sr.Plan, histories: int) -> None:
    dates = [{"name": f"a long name of a date at home {n}", "date": dt.date(2027, 10, 1 + n)} for n in range(5)]
    ends = sr.end_early(plan.replace({"family_date": dates}), last_days="all", histories=histories, rng=7)
    assert ends.days[0].date == dt.date(2027, 6, 4)  # four days of bringing in from the first day on
    assert max(map(len, whole_page(ends, [dt.date(2027, 6, 9)]).splitlines())) <= 100


def test_days_below_a_picture_stand_apart_and_a_freak_season_does_not_squeeze_the_others(ends: sr.EndEarly) -> None:
    # Source: pictures looked at; a season that saves a broken engine lies ten times as far out as all others.
    ax = plot_end_early.family_dates(ends)
    ax.figure.canvas.draw()
    boxes = [label.get_window_extent() for label in ax.get_xticklabels() if label.get_text()]
    assert len(boxes) >= 3
    assert all(left.x1 < right.x0 for left, right in itertools.pairwise(boxes))

    one = plot_end_early.one_last_day(ends, dt.date(2027, 10, 31))
    assert sum(bar.get_height() for bar in one.patches) == pytest.approx(100.0)
    given_up = ends.runs[ends.planned]["household"] - ends.runs[dt.date(2027, 10, 31)]["household"]
    width = one.patches[-1].get_x() + one.patches[-1].get_width() - one.patches[0].get_x()
    assert width < 0.7 * np.ptp(given_up)
