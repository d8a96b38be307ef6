# SPDX-License-Identifier: MIT
"""The pictures of the README, from the invented boat's plan: python examples/draw_pictures.py

Draw them again when the plan, the model or the pictures change. Needs the extra "plot".
"""

from pathlib import Path

import seasonrisk as sr
from matplotlib.axes import Axes
from seasonrisk import plot

EXAMPLES = Path(__file__).parent
SAME_BYTES_ANYWHERE = {"Software": None}  # or matplotlib's version stands in the file


def write(ax: Axes, name: str) -> None:
    figure = ax.get_figure(root=True)
    assert figure is not None, "axes drawn on nothing"
    figure.savefig(EXAMPLES / "pictures" / name, dpi=110, metadata=SAME_BYTES_ANYWHERE)


def main() -> None:
    run = sr.simulate(sr.Plan.read(EXAMPLES / "plans" / "one_boat.toml"), histories=100_000, rng=7)
    write(plot.month_cash(run), "month_cash.png")
    write(plot.dots(run), "dots.png")
    print(plot.month_cash_caption(run))
    print(plot.dots_caption(run))


if __name__ == "__main__":
    main()
