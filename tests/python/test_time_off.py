# SPDX-License-Identifier: MIT
"""Time off in mid-season: what days at home give up, under the same luck, and from which day they give up least.

Source of each expectation: by hand where it is said, else the plan with these days written into it.
"""

from __future__ import annotations

import datetime as dt
import json

import numpy as np
import pytest
import seasonrisk as sr
from matplotlib.figure import Figure
from seasonrisk import plot_time_off
from seasonrisk.choice.time_off_page import cheapest_sentence, sentence, whole_page
from seasonrisk.cli import main
from small_plan import bare, text

FIRST, LAST = dt.date(2027, 7, 10), dt.date(2027, 7, 23)
DEMO = "examples/plans/one_boat.toml"
CLOSED = {"days_off": [{"from": dt.date(2027, 8, 2), "to": dt.date(2027, 8, 15), "why": "closed"}]}


@pytest.fixture(scope="module")
def fortnight(plan: sr.Plan) -> sr.TimeOff:
    return sr.time_off(plan, FIRST, days=14, histories=2000, key=7)


def small(**sections: dict[str, object]) -> sr.Plan:
    return sr.Plan.parse(text(bare(**sections)))


def test_without_luck_each_day_out_that_falls_away_is_given_up() -> None:
    """By hand: 100 hauls of 1 kg at 1 a day out; of 14 days two are Sundays, so 12 days out and 1,200 fall away."""
    found = sr.time_off(small(season={"rest_days": ["Sunday"]}), dt.date(2027, 7, 1), days=14, histories=64, rng=1)
    asked = found.asked
    for name in ("running", "standing", "loan", "household"):
        assert asked.given_up[name].exact
        assert asked.given_up[name].value == pytest.approx(1200.0, abs=1e-9)
    assert asked.low.value == asked.high.value == pytest.approx(1200.0, abs=1e-9)
    assert asked.days_gained.value == 12.0
    assert asked.per_day.value == pytest.approx(1200.0 / 14.0)
    assert asked.per_day_at_home.value == pytest.approx(100.0)
    assert [(words, mean.value) for words, mean in found.days()] == [("at sea", 12.0), ("rest days, and days off already", 2.0)]
    assert "14 days off, 1 July 2027 to 14 July 2027, give up 1,200 GBP, exactly, in every season" in sentence(found)


def test_moved_over_a_season_with_one_dear_month_they_give_up_least_outside_it() -> None:
    """By hand: July lands twice as much, so a week of July gives up 1,400 and any other 700."""
    found = sr.time_off(small(species={"month_shape": {"jun": 1.0, "jul": 2.0, "aug": 1.0, "sep": 1.0}}), dt.date(2027, 7, 6), days=7, histories=64, rng=1)
    whole = {days.first_day: days.given_up["household"].value for days in found.starts}
    assert list(whole) == [dt.date(2027, 6, 1) + n * dt.timedelta(days=7) for n in range(14)]
    assert whole[dt.date(2027, 7, 6)] == pytest.approx(1400.0)
    assert whole[dt.date(2027, 6, 29)] == pytest.approx(1200.0)  # five of its days are in July
    assert whole[dt.date(2027, 8, 3)] == pytest.approx(700.0)
    assert {days.first_day for days in found.cheapest()} == {day for day, cost in whole.items() if cost < 701.0}
    assert found.runs_made == 15


@pytest.mark.parametrize(
    "closed",
    [
        {"season": CLOSED},
        {"season": {"rest_days": ["Monday", "Tuesday"]}},
        {"fishery": {"to": dt.date(2027, 7, 31)}},
        {"season": {"stop_on": dt.date(2027, 7, 31)}},
    ],
    ids=["days off already", "rest days", "fishery closed", "after the stop"],
)
def test_days_on_which_nobody_would_go_give_up_exactly_nothing(closed: dict[str, dict[str, object]]) -> None:
    weather = {"unfishable_fraction": 0.3, "persistence": 0.5}
    made = bare(weather=weather, species={"day_sd": 0.3}, season=closed.get("season", {}))
    made["boat"][0]["fishery"][0].update(closed.get("fishery", {}))
    days = 2 if "rest_days" in made["season"] else 14
    found = sr.time_off(sr.Plan.parse(text(made)), dt.date(2027, 8, 2), days=days, histories=500, rng=3)  # a Monday
    assert found.asked.given_up["household"].exact
    assert found.asked.given_up["household"].value == 0.0
    assert found.asked.days_gained.value == 0.0
    assert np.isnan(found.asked.per_day_at_home.value)
    np.testing.assert_array_equal(found.run["household"], found.base["household"])
    assert "make no difference." in sentence(found)


def test_days_half_off_already_are_counted_once() -> None:
    """By hand: of 20 days from 30 July on, 14 are off already; 6 days out and 600 fall away, before and after them."""
    found = sr.time_off(small(season=CLOSED), dt.date(2027, 7, 30), dt.date(2027, 8, 18), histories=64, rng=1)
    assert found.asked.given_up["household"].value == pytest.approx(600.0, abs=1e-9)
    assert [(words, mean.value) for words, mean in found.days()] == [("at sea", 6.0), ("rest days, and days off already", 14.0)]


def test_it_is_to_the_bit_the_plan_with_these_days_written_in_as_a_choice(plan: sr.Plan, fortnight: sr.TimeOff) -> None:
    already = {"from": plan["season.days_off.0.from"], "to": plan["season.days_off.0.to"]}
    by_hand = plan.choose({"season.days_off": [already, {"from": FIRST, "to": LAST, "why": "a fortnight"}]})
    run = sr.simulate(by_hand, histories=2000, key=7, keep=list(fortnight.run.columns))
    for name in fortnight.run.columns:
        np.testing.assert_array_equal(fortnight.run[name], run[name], err_msg=name)


def test_it_is_to_the_bit_another_plan_with_these_days_where_nothing_remembers_the_first() -> None:
    weather = {"unfishable_fraction": 0.3, "persistence": 0.5}
    own = small(weather=weather, species={"day_sd": 0.3}, season={"days_off": [{"from": FIRST, "to": LAST, "why": "by hand"}]})
    found = sr.time_off(small(weather=weather, species={"day_sd": 0.3}), FIRST, LAST, histories=500, key=5)
    run = sr.simulate(own, histories=500, key=5, keep=["household", "days_out"])
    for name in ("household", "days_out"):
        np.testing.assert_array_equal(found.run[name], run[name], err_msg=name)


def test_moved_days_are_those_asked_for_from_there(plan: sr.Plan, fortnight: sr.TimeOff) -> None:
    other = fortnight.starts[3]
    alone = sr.time_off(plan, other.first_day, other.last_day, move=False, histories=2000, key=7)
    assert alone.asked == other
    assert alone.starts == ()
    assert alone.runs_made == 2


def test_the_days_add_up_to_those_asked_for(fortnight: sr.TimeOff) -> None:
    days = dict(fortnight.days())
    assert sum(mean.value for mean in days.values()) == pytest.approx(14.0, abs=1e-9)
    assert days["at sea"] == fortnight.asked.days_gained
    assert days["rest days, and days off already"].value == 2.0  # two Sundays
    assert 0.0 < days["days lost to weather"].value < 12.0


def test_the_difference_is_made_of_parts_that_add_up(fortnight: sr.TimeOff) -> None:
    *parts, total = fortnight.where_from().values
    assert sum(part[1] for part in parts) == pytest.approx(total[1], abs=0.005)
    assert total[1] == pytest.approx(-fortnight.asked.given_up["household"].value, abs=0.005)


def test_the_range_holds_eight_seasons_in_ten(fortnight: sr.TimeOff) -> None:
    given_up = fortnight.base["household"] - fortnight.run["household"]
    inside = (given_up >= fortnight.asked.low.value) & (given_up <= fortnight.asked.high.value)
    assert inside.mean() == pytest.approx(0.8, abs=0.002)


def test_of_several_seasons_and_boats_every_days_cause_is_counted() -> None:
    plan = sr.Plan.read("examples/plans/three_boats_five_years.toml")
    found = sr.time_off(plan, dt.date(2027, 8, 1), days=10, move=False, histories=64, rng=2)
    assert sum(mean.value for _, mean in found.days()) == pytest.approx(10 * 3 * 5)
    assert found.asked.per_day.value == pytest.approx(found.asked.given_up["household"].value / 50.0)
    assert "of each year" in sentence(found)


def test_a_date_at_home_is_met_by_days_off_around_it(plan: sr.Plan) -> None:
    dated = plan.replace({"family_date": [{"name": "regatta", "date": dt.date(2027, 7, 17), "gear_ashore": False}]})
    found = sr.time_off(dated, FIRST, days=14, move=False, histories=500, key=7)
    assert found.family["regatta"].value < 0.6
    assert found.asked.family["regatta"].value == 1.0
    assert "regatta" in repr(found)


@pytest.mark.parametrize(
    ("asked", "says"),
    [
        ({"first_day": dt.date(2027, 5, 1), "days": 3}, "first_day=2027-05-01: must be a day of the season, 1 June 2027 to 30 November 2027"),
        ({"first_day": FIRST, "last_day": FIRST - dt.timedelta(days=1)}, "last_day=2027-07-09: must be a day of the season"),
        ({"first_day": FIRST, "days": 0}, "days=0: must be a whole number from 1 to 144"),
        ({"first_day": FIRST}, "last_day=None, days=None: give one of them"),
        ({"first_day": FIRST, "last_day": LAST, "days": 3}, "give one of them"),
        ({"first_day": FIRST, "days": 3, "histories": 0}, "histories=0: must be a whole number from 1"),
    ],
)
def test_arguments_out_of_range_are_named(plan: sr.Plan, asked: dict[str, object], says: str) -> None:
    with pytest.raises(ValueError, match=says):
        sr.time_off(plan, **asked)  # type: ignore[arg-type]


def test_what_is_no_date_is_named(plan: sr.Plan) -> None:
    with pytest.raises(TypeError, match="first_day='2027-07-10': must be a date"):
        sr.time_off(plan, "2027-07-10", days=3)  # type: ignore[arg-type]


def test_a_whole_season_off_is_a_problem_of_the_plan() -> None:
    with pytest.raises(sr.PlanError, match="leaves no day to fish"):
        sr.time_off(small(), dt.date(2027, 6, 1), dt.date(2027, 9, 8), histories=64)


def test_the_page_says_what_it_gives_up_and_never_what_it_is_worth(fortnight: sr.TimeOff) -> None:
    told = whole_page(fortnight)
    assert "for each extra day at home" in told
    assert "no number here says whether to take it" in told
    assert "Local rules" in told
    assert "25 runs of 2,000 simulated seasons" in told
    assert cheapest_sentence(fortnight).split(" give up")[0] in told.replace("\n  ", " ")
    assert max(map(len, told.splitlines())) <= 100
    for word in ("worth it", "price of", "value of a day", "deserve"):
        assert word not in told


def test_the_picture_has_a_point_for_each_starting_day(fortnight: sr.TimeOff) -> None:
    ax = Figure().add_subplot()
    assert plot_time_off.time_off(fortnight, ax=ax) is ax
    assert len(ax.get_lines()[0].get_xdata()) == len(fortnight.starts) == 24
    np.testing.assert_array_equal(ax.get_lines()[0].get_ydata(), [days.given_up["household"].value for days in fortnight.starts])
    assert "by their first day" in plot_time_off.time_off_caption(fortnight)


def test_a_picture_of_days_that_were_not_moved_is_refused(plan: sr.Plan) -> None:
    alone = sr.time_off(plan, FIRST, days=2, move=False, histories=64, key=7)
    with pytest.raises(ValueError, match="were not moved"):
        plot_time_off.time_off(alone)


def test_the_command_line_tells_it_too(capsys: pytest.CaptureFixture[str]) -> None:
    asked = ["time-off", DEMO, "--from", "2027-07-10", "--seasons", "300", "--seed", "7"]
    assert main([*asked, "--days", "14", "--why", "a fortnight away"]) == 0
    told = capsys.readouterr().out
    assert "a fortnight away" in told
    assert "14 days off, 10 July 2027 to 23 July 2027" in told.replace("\n", " ")
    assert main([*asked, "--to", "2027-07-23", "--only", "--json"]) == 0
    found = json.loads(capsys.readouterr().out)
    assert found["asked"]["last_day"] == "2027-07-23"
    assert found["asked"]["given_up"]["household"]["value"] > 0.0
    assert found["starts"] == []
    assert main([*asked, "--to", "2027-12-15"]) == 1
    assert "last_day=2027-12-15: must be a day of the season" in capsys.readouterr().err
    with pytest.raises(SystemExit) as stopped:
        main(asked)
    assert stopped.value.code == 1
