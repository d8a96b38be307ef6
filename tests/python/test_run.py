# SPDX-License-Identifier: MIT
"""Runs: draws, columns, estimates, stopping, keeping. Sources: definitions stated beside each test, and NumPy."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import textwrap
import threading
import time
from pathlib import Path

import numpy as np
import pytest
import seasonrisk as sr

STOPS_WITHIN_S = 2.0  # the aim is 0.2 s; a busy machine gets ten times that


def test_the_same_rng_gives_the_same_run_on_any_number_of_threads(plan: sr.Plan) -> None:
    one, more = (sr.simulate(plan, histories=3000, rng=7, threads=threads, keep="all") for threads in (1, 3))

    assert one.key == more.key
    assert one.columns == more.columns
    for name in one.columns:
        np.testing.assert_array_equal(one[name], more[name], strict=True)


@pytest.mark.parametrize("instructions", ["baseline", "best"])
def test_every_instruction_set_gives_the_same_bits(plan: sr.Plan, instructions: str) -> None:
    expected = sr.simulate(plan, histories=500, key=3, threads=1)

    run = sr.simulate(plan, histories=500, key=3, instructions=instructions)  # type: ignore[arg-type]

    np.testing.assert_array_equal(run["household"], expected["household"])


def test_an_unseeded_run_can_be_made_again_from_its_key(plan: sr.Plan) -> None:
    run, other = (sr.simulate(plan, histories=100) for _ in range(2))

    assert run.key != other.key
    np.testing.assert_array_equal(sr.simulate(plan, histories=100, key=run.key)["sales"], run["sales"])


def test_a_generator_moves_on_and_a_seed_sequence_is_taken(plan: sr.Plan) -> None:
    """SPEC 7: what numpy.random.default_rng takes; one 64-bit word is drawn."""
    generator = np.random.default_rng(11)
    expected = [int(np.random.default_rng(11).integers(0, 2**64, dtype=np.uint64)), None]

    keys = [sr.simulate(plan, histories=1, rng=generator).key for _ in range(2)]

    assert keys[0] == expected[0] != keys[1]
    assert sr.simulate(plan, histories=1, rng=np.random.SeedSequence(11)).key == keys[0]


def test_rng_and_key_together_are_refused(plan: sr.Plan) -> None:
    with pytest.raises(ValueError, match="give one of them, not both"):
        sr.simulate(plan, histories=1, rng=1, key=1)


@pytest.mark.parametrize("histories", [0, -1, True, 10.0, 10.5, "10", None, float("nan")])
def test_a_number_of_histories_that_is_none_is_refused(plan: sr.Plan, histories: object) -> None:
    with pytest.raises(ValueError, match=r"histories=.*must be a whole number from 1"):
        sr.simulate(plan, histories=histories)  # type: ignore[arg-type]


def test_two_to_the_31_histories_are_refused_at_once_with_the_way_out(plan: sr.Plan) -> None:
    start = time.monotonic()
    with pytest.raises(sr.RunTooLarge, match=r"GB, above the limit of 4\.0 GB; ask for fewer histories"):
        sr.simulate(plan, histories=2**31)
    assert time.monotonic() - start < STOPS_WITHIN_S


def test_the_cost_of_a_run_is_known_before(plan: sr.Plan) -> None:
    """8 bytes a number: two columns of a million histories are 0.016 x 10^9 bytes."""
    small, large = (
        sr.cost_of_run(plan, histories=n, threads=1, keep=["household", "sales"]) for n in (10_000, 1_000_000)
    )

    assert large.memory_gb == 0.016
    assert 0.0 < small.seconds < large.seconds


def test_a_run_above_its_time_limit_is_refused(plan: sr.Plan) -> None:
    with pytest.raises(sr.RunTooLarge, match="raise the time limit"):
        sr.simulate(plan, histories=100_000, time_limit_s=1e-6)


@pytest.mark.parametrize(
    ("argument", "value", "says"),
    [
        ("threads", -1, "threads=-1: must be a whole number from 0"),
        ("key", 2**64, "key=18446744073709551616: must be"),
        ("keep", ["profit"], "keep=profit: no such column"),
        ("instructions", "fast", "instructions=fast: must be"),
        ("on_interrupt", "ignore", "on_interrupt='ignore': must be"),
        ("memory_limit_gb", 0, "memory_limit_gb=0: must be a number above 0"),
        ("time_limit_s", float("nan"), "time_limit_s=nan: must be"),
    ],
)
def test_an_argument_outside_its_range_is_named(plan: sr.Plan, argument: str, value: object, says: str) -> None:
    with pytest.raises(ValueError, match=says):
        sr.simulate(plan, **{"histories": 10, argument: value})  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("argument", "value", "says"),
    [
        ("keep", [1], r"keep=\[1\]: must be the name of a column, a list of names"),
        ("keep", 5, "keep=5: must be the name"),
        ("keep", b"household", "keep=b'household': must be the name"),
        ("instructions", None, "instructions=None: must be a word"),
        ("progress", 5, "progress=5: must be None, True, False or a function"),
        ("plan", "plan.toml", "plan='plan.toml': must be a Plan; Plan.read makes one"),
    ],
)
def test_an_argument_of_a_wrong_kind_is_named(plan: sr.Plan, argument: str, value: object, says: str) -> None:
    """Common practice: TypeError for what is of the wrong kind."""
    with pytest.raises(TypeError, match=says):
        sr.simulate(**{"plan": plan, "histories": 10, argument: value})  # type: ignore[arg-type]


def test_keeping_nothing_is_not_taken_for_keeping_the_usual(plan: sr.Plan) -> None:
    """Source: the project's rule that nothing is guessed in silence."""
    with pytest.raises(ValueError, match="names no column; leave it out for the usual ones"):
        sr.simulate(plan, histories=10, keep=[])


def test_the_cost_of_a_run_names_a_wrong_argument_too(plan: sr.Plan) -> None:
    with pytest.raises(TypeError, match=r"keep=\[1\]: must be"):
        sr.cost_of_run(plan, histories=10, keep=[1])  # type: ignore[list-item]
    with pytest.raises(TypeError, match="plan=None: must be a Plan"):
        sr.cost_of_run(None, histories=10)  # type: ignore[arg-type]


def test_one_history_is_a_run_whose_errors_are_unknown(plan: sr.Plan) -> None:
    run = sr.simulate(plan, histories=1, key=5)
    mean = run.mean("household")

    assert mean.value == run["household"][0]
    assert np.isnan(mean.standard_error)
    assert "how sure is unknown" in str(mean)
    assert "too few to say" in repr(run)


def test_columns_are_read_only_views_that_outlive_the_run(plan: sr.Plan) -> None:
    run = sr.simulate(plan, histories=64, key=1)
    column, first = run["sales"], float(run["sales"][0])

    assert column.dtype == np.float64
    assert not column.flags.owndata
    assert np.shares_memory(column, run["sales"])
    with pytest.raises(ValueError, match="read-only"):
        column[0] = 1.0
    with pytest.raises(ValueError, match="WRITEABLE"):
        column.setflags(write=True)
    del run
    assert column[0] == first


def test_a_column_not_kept_and_one_that_is_not_there_are_told_apart(plan: sr.Plan) -> None:
    run = sr.simulate(plan, histories=10, key=1, keep=["household", "sales"])

    assert set(run) == {"household", "sales"}
    with pytest.raises(KeyError, match="was not kept in this run"):
        run["hauls"]
    with pytest.raises(KeyError, match="did you mean household"):
        run["housholds"]
    assert "household" in repr(run)  # what was kept is shown, what was not is left out


def test_estimates_are_those_of_numpy(run: sr.Run) -> None:
    x, n = run["household"], run.histories
    short, worst = -x[x < 0.0], np.sort(x)[: n // 10]

    assert run.chance("household").value == np.mean(x >= 0.0)
    assert run.chance("household", at_least=5000.0).value == np.mean(x >= 5000.0)
    assert run.mean("household").value == pytest.approx(x.mean(), rel=1e-12)
    assert run.mean("household").standard_error == pytest.approx(x.std(ddof=1) / np.sqrt(n), rel=1e-9)
    assert run.standard_deviation("household").value == pytest.approx(x.std(ddof=1), rel=1e-12)
    assert run.quantile("household", 0.1).value == np.sort(x)[n // 10 - 1]
    assert run.shortfall_when_missed("household").value == pytest.approx(short.mean(), rel=1e-12)
    assert run.shortfall_when_missed("household").n == len(short)
    assert run.worst_share_mean("household", 0.1).value == pytest.approx(worst.mean(), rel=1e-12)


def test_an_estimate_knows_its_unit_and_cannot_be_changed(run: sr.Run) -> None:
    assert run.mean("sales").unit == "GBP"
    assert run.mean("days_fished").unit == "days"
    assert run.column("catch.lobster").unit == "kg"
    with pytest.raises(AttributeError):
        run.mean("sales").value = 0.0  # type: ignore[misc]


def test_month_cash_and_the_lowest_month_are_those_of_the_columns(run: sr.Run) -> None:
    table = run.month_cash((0.1, 0.5))
    lowest = np.bincount(run["lowest_cash_month"].astype(int), minlength=12)

    assert table.months == run.months
    assert len(table.months) == 12
    assert table.estimates[3][1].value == np.sort(run[f"cash.{run.months[3]}"])[run.histories // 2 - 1]
    assert run.lowest_month().month == run.months[int(lowest.argmax())]
    assert run.lowest_month().chance.value == lowest.max() / run.histories


def test_a_history_replayed_is_the_history_of_the_run(run: sr.Run) -> None:
    for history in (0, 1, 33, 19_999):
        days = run.replay(history)

        assert days["sales"].sum() == pytest.approx(run["sales"][history], abs=1e-6)
        assert days["cash"][-1] == run["closing_cash"][history]
        assert days["out"].sum() == run["days_fished"][history]
        assert np.count_nonzero(days.why == "weather") == run["days_weather"][history]
    with pytest.raises(ValueError, match="history=20000: must be"):
        run.replay(20_000)


def test_a_day_table_is_short_to_look_at_and_goes_to_pandas(run: sr.Run) -> None:
    days = run.replay(2)
    frame = days.to_pandas()

    assert len(repr(days).splitlines()) <= 4
    assert frame.shape == (366, 1 + len(days.columns))
    assert frame.loc["2027-06-01", "why"] == days.why[np.flatnonzero(days.dates == np.datetime64("2027-06-01"))[0]]
    with pytest.raises(ValueError, match="read-only"):
        days["cash"][0] = 1.0


def test_a_run_shows_itself_in_about_fifteen_lines(run: sr.Run) -> None:
    lines = repr(run).splitlines()

    assert 10 <= len(lines) <= 18
    assert max(map(len, lines)) <= 110
    assert str(run.key) in lines[-1]
    assert "<table>" in run._repr_html_()


def test_html_of_a_run_escapes_what_the_plan_says() -> None:
    from small_plan import bare, text

    run = sr.simulate(sr.Plan.parse(text(bare(business={"name": "<script>&"}))), histories=50, key=1)

    assert "&lt;script&gt;&amp;" in run._repr_html_()
    assert "<script>" not in run._repr_html_()


def test_summary_has_the_error_of_every_number(run: sr.Run) -> None:
    table = run.summary()
    labels = [row[0] for row in table.rows]

    assert {"chance: household covered", "short when loan is missed", "days lost to weather"} <= set(labels)
    assert all(row[2] for row in table.rows)
    assert table.to_pandas().shape == (len(labels), 3)


@pytest.mark.parametrize("of", ["run", "summary", "days"])
def test_without_pandas_each_to_pandas_tells_what_to_install(
    run: sr.Run, of: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The written promise of the three: MissingExtra with the line to type."""
    told = {"run": run, "summary": run.summary(), "days": run.replay(0)}[of]
    monkeypatch.setitem(sys.modules, "pandas", None)

    with pytest.raises(sr.MissingExtra, match=r'to_pandas needs pandas.*pip install "seasonrisk\[pandas\]"'):
        told.to_pandas()


def test_to_pandas_has_a_row_for_each_history(run: sr.Run) -> None:
    frame = run.to_pandas()

    assert frame.shape == (run.histories, len(run.columns))
    np.testing.assert_array_equal(frame["household"], run["household"])


# ------------------------------------------------------------------------------------------------------- keeping


def test_a_saved_run_comes_back_the_same(plan: sr.Plan, tmp_path: Path) -> None:
    choice = plan.replace({"prices.levy_fraction": 0.02}).choose({"boat.0.fishery.0.count": 520})
    run = sr.simulate(choice, histories=200, key=2**64 - 1)
    run.save(tmp_path / "run.npz")

    again = sr.Run.load(tmp_path / "run.npz")

    assert (again.plan, again.facts, again.columns) == (run.plan, run.facts, run.columns)
    assert again.plan.changes == run.plan.changes
    for name in run.columns:
        np.testing.assert_array_equal(again[name], run[name], strict=True)
        assert again.column(name) == run.column(name)
        assert not again[name].flags.writeable
    assert repr(again) == repr(run)
    np.testing.assert_array_equal(again.replay(7)["cash"], run.replay(7)["cash"])


def test_a_saved_run_is_readable_by_numpy_alone(plan: sr.Plan, tmp_path: Path) -> None:
    import json

    run = sr.simulate(plan, histories=20, key=1, keep=["household"])
    run.save(tmp_path / "run.npz")

    with np.load(tmp_path / "run.npz", allow_pickle=False) as file:
        header = json.loads(str(file["header"]))
        np.testing.assert_array_equal(file["column_0"], run["household"])
    assert header["columns"][0]["name"] == "household"
    assert header["facts"]["key"] == 1


def test_saving_never_replaces_a_file_unless_told(plan: sr.Plan, tmp_path: Path) -> None:
    run = sr.simulate(plan, histories=20, key=1)
    (tmp_path / "run.npz").write_text("my own")

    with pytest.raises(FileExistsError, match="is there already"):
        run.save(tmp_path / "run.npz")
    assert (tmp_path / "run.npz").read_text() == "my own"
    run.save(tmp_path / "run.npz", overwrite=True)
    assert sr.Run.load(tmp_path / "run.npz").key == 1


@pytest.mark.parametrize("content", [b"", b"no run", b"PK\x03\x04 broken"])
def test_a_file_that_is_no_run_is_told(tmp_path: Path, content: bytes) -> None:
    (tmp_path / "run.npz").write_bytes(content)

    with pytest.raises(ValueError, match="is no saved run"):
        sr.Run.load(tmp_path / "run.npz")


# ------------------------------------------------------------------------------------------------------- stopping

MANY = 20_000_000  # minutes of work


@pytest.mark.usefixtures("ctrl_c_is_heard")
def test_ctrl_c_stops_a_run_soon_and_cleanly(demo_path: Path) -> None:
    program = f"""
        import sys, seasonrisk as sr
        told = []
        def tell(done):
            if not told:
                told.append(done); print("running", flush=True)
        try:
            sr.simulate(sr.Plan.read({str(demo_path)!r}), histories={MANY}, keep="household", progress=tell, time_limit_s=1e9)
        except KeyboardInterrupt:
            print("stopped"); sys.exit(7)
    """
    process = subprocess.Popen(
        [sys.executable, "-c", textwrap.dedent(program)], stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True
    )
    assert process.stdout is not None
    assert process.stdout.readline() == "running\n"

    process.send_signal(signal.SIGINT)
    start = time.monotonic()
    assert process.stdout.readline() == "stopped\n"
    seconds = time.monotonic() - start
    _, errors = process.communicate(timeout=30)

    print(f"stopped {seconds:.3f} s after the signal")
    assert seconds < STOPS_WITHIN_S
    assert (process.returncode, errors) == (7, "")


@pytest.mark.usefixtures("ctrl_c_is_heard")
def test_ctrl_c_can_return_the_completed_prefix_equal_to_a_shorter_run(plan: sr.Plan) -> None:
    timer = threading.Timer(0.4, os.kill, (os.getpid(), signal.SIGINT))
    timer.start()

    run = sr.simulate(plan, histories=MANY, key=4, keep="household", on_interrupt="return", time_limit_s=1e9)

    assert 0 < run.histories < MANY
    assert not run.complete
    assert f"of the {MANY:,} asked for, then it was stopped" in " ".join(repr(run).split())
    shorter = sr.simulate(plan, histories=min(run.histories, 5000), key=4, keep="household")
    np.testing.assert_array_equal(run["household"][: shorter.histories], shorter["household"])


def test_what_a_progress_function_raises_stops_the_run_and_passes_on(plan: sr.Plan) -> None:
    def tell(done: int) -> None:
        raise RuntimeError(f"enough at {done}")

    with pytest.raises(RuntimeError, match="enough at"):
        sr.simulate(plan, histories=MANY, keep="household", progress=tell, time_limit_s=1e9)


def test_progress_counts_up_and_other_threads_run_meanwhile(plan: sr.Plan) -> None:
    told: list[int] = []
    ticks: list[float] = []
    stop = threading.Event()

    def tick() -> None:
        while not stop.wait(0.005):
            ticks.append(time.monotonic())

    thread = threading.Thread(target=tick)
    thread.start()
    sr.simulate(plan, histories=100_000, key=1, keep="household", threads=1, progress=told.append)
    stop.set()
    thread.join()

    assert told == sorted(told)
    assert told[-1] <= 100_000
    assert len(ticks) > 5  # the GIL is free during the run


def test_progress_is_silent_unless_asked(plan: sr.Plan, capfd: pytest.CaptureFixture[str]) -> None:
    sr.simulate(plan, histories=50_000, key=1, keep="household", progress=False)
    assert capfd.readouterr() == ("", "")


def test_progress_without_a_bar_is_a_line_for_each_tenth_in_a_log(
    plan: sr.Plan, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setitem(sys.modules, "tqdm.auto", None)
    sr.simulate(plan, histories=200_000, key=1, keep="household", threads=1, progress=True)
    out, err = capsys.readouterr()

    assert out == ""
    assert 1 <= len(err.splitlines()) <= 10
    assert all("of 200,000 seasons" in line for line in err.splitlines())
