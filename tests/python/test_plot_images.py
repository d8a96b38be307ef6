# SPDX-License-Identifier: MIT
"""Six pictures as they look, against pictures that were looked at by eye (kept in tests/data/golden/pictures).

Source: this library's own pictures of plans that are shipped. What is compared is a small grey copy, for letters
differ a little from one version of matplotlib to the next. To draw them anew after a change that was looked at:

    python tests/python/test_plot_images.py
"""

from __future__ import annotations

import io
from collections.abc import Callable
from pathlib import Path

import numpy as np
import pytest
import seasonrisk as sr
from matplotlib.axes import Axes
from numpy.typing import NDArray
from PIL import Image
from seasonrisk import plot, plot_compare, plot_drivers, plot_end_early, plot_years

REPOSITORY = Path(__file__).resolve().parents[2]
GOLDEN = REPOSITORY / "tests" / "data" / "golden" / "pictures"
DEMO = REPOSITORY / "examples" / "plans" / "one_boat.toml"
HISTORIES, KEY = 1_000, 7
CELL = 4  # pixels that become one, each way
LARGEST = 1.0  # of 255, in the mean over the picture; another seed of the same plan makes 2.8 and more


def demo_run(key: int = KEY) -> sr.Run:
    return sr.simulate(sr.Plan.read(DEMO), histories=HISTORIES, key=key)


def more_pots() -> Axes:
    comparison = sr.compare(sr.Plan.read(DEMO), ["A hundred more pots"], histories=HISTORIES, key=KEY)
    return plot_compare.paired_difference(comparison["A hundred more pots"])


PICTURES: dict[str, Callable[[], Axes]] = {
    "month_cash": lambda: plot.month_cash(demo_run()),
    "dots": lambda: plot.dots(demo_run()),
    "clearing": lambda: plot_years.clearing(demo_run()),
    "paired_difference": more_pots,
    "last_days": lambda: plot_end_early.last_days(sr.end_early(sr.Plan.read(DEMO), histories=HISTORIES, key=KEY)),
    "drivers": lambda: plot_drivers.drivers(sr.drivers(sr.Plan.read(DEMO), histories=HISTORIES, key=KEY)),
}


def small(ax: Axes) -> NDArray[np.uint8]:
    """The figure in grey, each `CELL` by `CELL` pixels made one."""
    buffer = io.BytesIO()
    ax.get_figure(root=True).savefig(buffer, format="png", dpi=60)  # type: ignore[union-attr]
    grey = np.asarray(Image.open(buffer).convert("L"), dtype=np.float64)
    rows, columns = (size // CELL for size in grey.shape)
    cells = grey[: rows * CELL, : columns * CELL].reshape(rows, CELL, columns, CELL)
    return np.asarray(np.round(cells.mean(axis=(1, 3))), dtype=np.uint8)


def kept(name: str) -> NDArray[np.uint8]:
    return np.asarray(Image.open(GOLDEN / f"{name}.png"))


def apart(one: NDArray[np.uint8], other: NDArray[np.uint8]) -> float:
    assert one.shape == other.shape
    return float(np.abs(one.astype(np.float64) - other).mean())


@pytest.mark.parametrize("name", PICTURES)
def test_a_picture_looks_as_it_did(name: str) -> None:
    assert apart(small(PICTURES[name]()), kept(name)) < LARGEST


def test_a_picture_of_other_seasons_would_be_seen() -> None:
    other = sr.simulate(sr.Plan.read(DEMO).replace({"household.draw_per_month": 2_000.0}), histories=HISTORIES, key=KEY)

    assert apart(small(plot.month_cash(other)), kept("month_cash")) > LARGEST


def test_a_picture_without_its_line_would_be_seen() -> None:
    ax = plot_years.clearing(demo_run())
    ax.lines[0].remove()

    assert apart(small(ax), kept("clearing")) > LARGEST


if __name__ == "__main__":
    GOLDEN.mkdir(exist_ok=True)
    for picture, drawn in PICTURES.items():
        Image.fromarray(small(drawn())).save(GOLDEN / f"{picture}.png", optimize=True)
