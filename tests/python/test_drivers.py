# SPDX-License-Identifier: MIT
"""Whose doing the spread is, on plans small enough to know. All plans are invented."""

from __future__ import annotations

import math

import numpy as np
import pytest
import seasonrisk as sr
from seasonrisk import _core, plot_drivers
from seasonrisk.choice import same_luck
from seasonrisk.estimate import Estimate
from seasonrisk.words_drivers import share_text, too_small
from small_plan import bare, text

GUESSED_BILL = {"name": "yard bill", "amount": {"low": 400.0, "typical": 600.0, "high": 900.0}, "month": "apr"}
LOG_SD = math.log(1.5) / 1.281551565545  # of the bill: 600 x exp(sd z), the same slope to both sides
KEY = 20270601


def plan_of(**sections: dict) -> sr.Plan:
    return sr.Plan.parse(text(bare(**sections)), "bare")


def with_bill(**sections: dict) -> sr.Plan:
    return sr.Plan.parse(text({**bare(**sections), "standing": [GUESSED_BILL]}), "bare")


def bill_variance() -> float:
    """Of 600 exp(sd z): the log-normal law (closed form)."""
    return 600.0**2 * math.exp(LOG_SD**2) * (math.exp(LOG_SD**2) - 1.0)


def year_variance(sd: float) -> float:
    """Of 10,000 exp(sd z - sd^2 / 2): 100 days of 100 pots at 1 kg and 1 GBP."""
    return 10_000.0**2 * (math.exp(sd**2) - 1.0)


def test_a_guess_from_its_normal_drawn_again_is_the_one_the_engine_drew() -> None:
    plan = with_bill()
    run = sr.simulate(plan, histories=1_000, key=KEY, keep="standing_costs")
    ((part, is_guess, z),) = _core.spread_sources(plan._core, KEY, 1_000)
    entry = next(e for e in plan.entries if e.path == "standing.0.amount")

    assert (part, is_guess) == ("standing.0.amount", True)
    np.testing.assert_allclose([entry.at(one) for one in z], run["standing_costs"], rtol=1e-14)


def test_a_plan_of_guesses_alone_is_all_guess() -> None:
    found = sr.drivers(with_bill(), of="standing", histories=4_000, key=KEY)

    # A cubic follows exp(sd z) but for the terms from the fourth on: sd^8 / 4! of sd^2 + ... (Hermite expansion of exp).
    beyond = 1.0 - sum(LOG_SD ** (2 * k) / math.factorial(k) for k in (1, 2, 3)) / (math.exp(LOG_SD**2) - 1.0)
    assert found.guess.value == pytest.approx(1.0 - beyond, abs=1e-4)
    assert found.rows[0].name == "standing.0.amount"
    assert found.rows[0].effect.value == pytest.approx(-500.0, abs=5.0)
    said = " ".join(found.sentences())
    assert "yard bill: amount weighs most" in said
    assert "takes about 500.0 GBP" in said


def test_a_plan_without_guesses_is_all_luck_and_says_so() -> None:
    found = sr.drivers(plan_of(species={"year_sd": 0.15}), of="standing", histories=4_000, key=KEY)

    assert (found.guess.value, found.luck.value) == (0.0, 1.0)
    assert found.rows[0].name == "catch"
    assert found.rows[0].share.value == pytest.approx(1.0, abs=1e-3)
    assert "no guesses, so all of the spread" in repr(found)


def test_shares_of_luck_and_guess_are_those_of_the_closed_form() -> None:
    found = sr.drivers(with_bill(species={"year_sd": 0.15}), of="standing", histories=20_000, key=KEY)
    bill, year = bill_variance(), year_variance(0.15)
    shares = {row.name: row.share for row in found.rows}

    for name, truth in (("standing.0.amount", bill / (bill + year)), ("catch", year / (bill + year))):
        assert 0.0 < shares[name].standard_error < 0.01
        assert abs(shares[name].value - truth) < 4.0 * shares[name].standard_error + 1e-3, name
    rest = [found.guess_pairs.value, found.luck_pairs.value, found.left.value]
    assert sum(row.share.value for row in found.rows) + sum(rest) == pytest.approx(1.0, abs=1e-12)


def test_bad_days_beyond_the_year_and_breakdowns_are_named() -> None:
    plan = plan_of(
        weather={"unfishable_fraction": 0.3, "persistence": 0.4, "year_sd": 0.5},
        boat={"breakdown": [{"kind": "engine", "per_100_days": 2.0, "repair": 900.0, "days_lost": 3.0}]},
    )
    found = sr.drivers(plan, of="standing", histories=10_000, key=KEY)
    shares = {row.name: row.share.value for row in found.rows}

    assert set(shares) == {"weather", "days_weather", "breakdowns"}
    assert min(shares.values()) > 0.05
    # Sales are 100 GBP a day fished and repairs are counted: once all three are known nothing much is left.
    assert found.left.value < 0.05


def test_the_difference_of_a_choice_hangs_on_what_the_choice_moves(plan: sr.Plan) -> None:
    base = with_bill(species={"year_sd": 0.15})
    dearer = base.choose({"standing.0.amount": sr.Guess(800.0, 1200.0, 1800.0)})
    found = sr.drivers(dearer, base, of="standing", histories=4_000, key=KEY)

    assert found.guess.value == pytest.approx(1.0, abs=1e-3)  # the year is the same in both
    assert found.rows[0].effect.value == pytest.approx(-500.0, abs=5.0)
    runs = [sr.simulate(p, histories=4_000, key=KEY, keep="standing") for p in (base, dearer)]
    again = sr.drivers(runs[1], runs[0], of="standing")
    assert again.guess.value == pytest.approx(found.guess.value, abs=1e-12)


def test_a_choice_that_changes_nothing_has_no_spread_to_share_out() -> None:
    base = with_bill(species={"year_sd": 0.15})
    with pytest.raises(ValueError, match="no spread to share out"):
        sr.drivers(base.choose({"species.0.year_sd": 0.15}), base, of="standing", histories=1_000, key=KEY)


def test_the_audit_agrees_where_a_cubic_can_follow() -> None:
    found = sr.drivers(with_bill(species={"year_sd": 0.15}), of="standing", histories=40_000, key=KEY, audit=True)

    assert found.audit.n == 4_000
    assert abs(found.audit.value - found.fitted.value) < 4.0 * found.audit.standard_error
    assert found.guess is found.fitted
    assert "Audit: by 4,000 pairs" in repr(found)
    assert "agrees with the fit" in repr(found)


def test_the_audit_reports_the_pairs_where_a_cubic_cannot_follow() -> None:
    """Days to the money are a whole count: with the cash of one month end a guess of them works like a step."""
    plan = sr.Plan.parse(
        text(
            bare(
                season={"end": bare()["season"]["start"].replace(month=7)},
                outlet={"paid_after_days": {"low": 28.0, "typical": 29.0, "high": 120.0}},
            )
        ),
        "bare",
    )
    run = sr.simulate(plan, histories=20_000, key=KEY)
    column = next(c for c in run.columns if c == "cash.2027-07")
    found = sr.drivers(run, of=column, audit=True)

    # No luck in this plan: all of the spread is guess, whatever its shape.
    assert found.audit.value == pytest.approx(1.0, abs=1e-12)
    assert found.fitted.value < 0.99
    assert found.guess is found.audit
    assert "the pairs are reported" in repr(found)


def test_other_luck_keeps_the_guesses() -> None:
    run = sr.simulate(with_bill(species={"year_sd": 0.15}), histories=500, key=KEY, keep="all")
    bills = same_luck.same_guesses_other_luck(run, "standing_costs", 500, threads=1, progress=None)
    sales = same_luck.same_guesses_other_luck(run, "sales", 500, threads=1, progress=None)

    np.testing.assert_array_equal(bills, run["standing_costs"])
    assert abs(np.corrcoef(sales, run["sales"])[0, 1]) < 4.9 / math.sqrt(500.0)


def test_a_small_row_says_so() -> None:
    assert too_small(Estimate(0.002, 0.0015, -0.001, 0.005, 1000))
    assert share_text(Estimate(0.002, 0.0015, -0.001, 0.005, 1000)) == "too small to see"
    assert share_text(Estimate(0.34567, 0.004, 0.338, 0.353, 1000)) == "34.5"


def test_the_demo_tells_its_drivers_in_words(plan: sr.Plan) -> None:
    run = sr.simulate(plan, histories=10_000, key=KEY)
    found = sr.drivers(run)
    page = repr(found)

    assert found.histories == 10_000
    assert found.key == KEY
    assert 0.05 < found.guess.value < 0.95
    assert "in 100 is guess" in page
    assert "in 100 is luck" in page
    assert max(map(len, page.splitlines())) < 180
    assert found.to_pandas().shape[0] == len(found.table.rows)
    names = [row.words for row in found.rows if row.kind == "guess"]
    assert len(set(names)) == len(names)
    assert "lobster: per haul" in names
    direct = sr.drivers(plan, histories=10_000, key=KEY)
    assert direct.guess.value == pytest.approx(found.guess.value, abs=1e-12)


def test_wrong_arguments_are_refused_by_name(plan: sr.Plan) -> None:
    run = sr.simulate(plan, histories=400, key=1)
    for arguments, error, says in (
        ({"plan": 3}, TypeError, "must be a Run or a Plan"),
        ({"plan": run, "key": 3}, ValueError, "a run has its own"),
        ({"plan": run, "of": "profit"}, KeyError, "there is none of that name"),
        ({"plan": run, "of": 3}, TypeError, "must be the name of a column"),
        ({"plan": run, "audit": True}, ValueError, "simulate 2,000 or more"),
        ({"plan": run, "against": sr.simulate(plan, histories=400, key=2)}, ValueError, "differ in key"),
        ({"plan": plan, "histories": 100, "key": 1}, ValueError, "too few to share the spread"),
    ):
        with pytest.raises(error, match=says):
            sr.drivers(**arguments)  # type: ignore[arg-type]


def test_ctrl_c_passes_on(plan: sr.Plan) -> None:
    def stop(done: int) -> None:
        raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        sr.drivers(plan, histories=200_000, key=1, progress=stop)


def test_the_picture_shows_the_rows_that_can_be_seen(plan: sr.Plan) -> None:
    found = sr.drivers(plan, histories=4_000, key=KEY)
    ax = plot_drivers.drivers(found)
    seen = [row for row in found.rows if not too_small(row.share)][: plot_drivers.MOST_BARS]

    widths = sorted((bar.get_width() for bar in ax.patches), reverse=True)
    np.testing.assert_allclose(widths, [100.0 * row.share.value for row in seen])
    assert seen[0].words in plot_drivers.drivers_caption(found)
    again = plot_drivers.drivers(found, ax=ax)
    assert again is ax
