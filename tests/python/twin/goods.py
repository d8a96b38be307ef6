# SPDX-License-Identifier: MIT
"""What is sold: a grade of a species, or the species itself when it has none."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from twin.effects import mean_one
from twin.philox import Luck


@dataclass(frozen=True)
class Good:
    number: int
    name: str
    species: int
    fraction: float
    sold_units_per_unit: float
    year_sd: float


def goods_of(v: dict[str, Any]) -> list[Good]:
    """Species in the order of the plan, the grades of each in theirs."""
    goods: list[Good] = []
    for k, species in enumerate(v["species"]):
        for grade in species.get("grade") or [{"name": species["name"], "fraction": 1.0}]:
            units, sd = grade.get("sold_units_per_unit", 1.0), grade.get("year_sd", 0.0)
            goods.append(Good(len(goods), grade["name"], k, grade["fraction"], units, sd))
    return goods


def number_of(goods: list[Good], name: str) -> int:
    return next(g.number for g in goods if g.name == name)


def by_good(v: dict[str, Any], goods: list[Good], values: dict[str, float]) -> dict[int, float]:
    """Values of a map by name, by good; the name of a graded species holds for all its grades without their own."""
    out = {}
    for good in goods:
        for name in (good.name, v["species"][good.species]["name"]):
            if name in values:
                out[good.number] = values[name]
                break
    return out


def shares_of_year(goods: list[Good], luck: Luck, year: int) -> dict[int, float]:
    """Each good's share of its species' catch in the season that starts in `year`."""
    drawn = {
        g.number: g.fraction * mean_one(g.year_sd, luck.normal_in_year(year, "year_grade", g.number)) for g in goods
    }
    shares = {}
    for good in goods:
        others = [g.number for g in goods if g.species == good.species]
        shares[good.number] = drawn[good.number] / sum(drawn[n] for n in others) if len(others) > 1 else 1.0
    return shares
