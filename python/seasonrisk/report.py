# SPDX-License-Identifier: MIT
"""One HTML page that needs nothing beside it, to print or to send. Needs Jinja2 and matplotlib."""

from __future__ import annotations

import base64
import datetime as dt
import io
from importlib import resources
from typing import TYPE_CHECKING, Any

from seasonrisk import page, plot, summary, words
from seasonrisk.errors import missing_extra
from seasonrisk.values import EventSize, Guess, number_as_typed

if TYPE_CHECKING:
    from matplotlib.axes import Axes

    from seasonrisk.plan import Plan
    from seasonrisk.run import Run

__all__ = ["html_page", "require_report"]

NEEDED = (
    "running", "standing", "loan", "household", "cash_room", "sales", "lowest_cash", "lowest_cash_month", "days_fished",
)  # fmt: skip


def require_report() -> Any:
    """Jinja2, once it and matplotlib are known to be there: asked before a long run.

    Raises
    ------
    MissingExtra
        When one of them is not installed.
    """
    for package in ("matplotlib", "jinja2"):
        try:
            module = __import__(package)
        except ImportError as error:
            missing_extra(package, "report", "A report", error)
    return module


def picture(axes: Axes) -> str:
    """The figure of ``axes`` as a data address for an image."""
    buffer = io.BytesIO()
    axes.get_figure(root=True).savefig(buffer, format="png", dpi=160, metadata={"Software": None})  # type: ignore[union-attr]
    return "data:image/png;base64," + base64.b64encode(buffer.getvalue()).decode("ascii")


def assumptions(plan: Plan) -> list[tuple[str, str, str, str, str, str]]:
    """Every number of the plan: key, low, typical, high, unit, meaning."""
    rows = []
    for entry in plan.entries:
        if entry.kind not in ("number", "size"):
            continue
        value = plan.numbers[entry.path]
        points = (value.low, value.typical, value.high) if isinstance(value, Guess | EventSize) else (None, value, None)
        low, typical, high = ("" if point is None else number_as_typed(point) for point in points)
        unit = entry.unit.replace("money", plan.money)
        rows.append(
            (
                entry.path,
                low,
                typical,
                high,
                unit,
                entry.meaning + (" (each event anew)" if isinstance(value, EventSize) else ""),
            )
        )
    return rows


def html_page(run: Run, date: dt.date | None = None) -> str:
    """The page as text: the same bytes for the same run and date.

    Parameters
    ----------
    run : Run
        With the usual columns kept; costs by kind are shown as far as they were kept.
    date : date, optional
        Day written on the page; today when left out.

    Raises
    ------
    ValueError
        When a column the page cannot do without was not kept.
    MissingExtra
        When Jinja2 or matplotlib is not installed.
    """
    jinja2 = require_report()
    missing = [name for name in NEEDED if name not in run]
    if missing or len(run.months) < 12:
        raise ValueError(
            f"keep: a report needs the usual columns; this run lacks {', '.join(missing) or 'months of cash'}"
        )
    environment = jinja2.Environment(
        autoescape=True, undefined=jinja2.StrictUndefined, trim_blocks=True, lstrip_blocks=True
    )
    template = environment.from_string(resources.files("seasonrisk").joinpath("report.html").read_text("utf-8"))
    return str(
        template.render(
            run=run,
            date=words.day_text(date or dt.date.today()),
            headline=page.headline(run),
            sentence=words.households_sentence(run),
            rungs=summary.rungs(run),
            good_and_bad=summary.good_and_bad(run),
            cash=run.month_cash(),
            years=summary.years(run) if len(words.seasons_of(run.plan)) > 1 else None,
            days=summary.days(run),
            selling=summary.selling(run),
            family=summary.family(run),
            costs=summary.costs(run),
            pictures={
                "dots": (picture(plot.dots(run)), plot.dots_caption(run)),
                "month_cash": (picture(plot.month_cash(run)), plot.month_cash_caption(run)),
            },
            assumptions=assumptions(run.plan),
            total_loss=page.total_loss_lines(run),
            give_or_take=page.GIVE_OR_TAKE,
            provenance=page.provenance(run),
            not_modelled=words.NOT_MODELLED,
            cautions=words.CAUTIONS,
        )
    )
