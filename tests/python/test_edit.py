# SPDX-License-Identifier: MIT
"""Changes that cannot be written into the text of a plan. Source: the promise of `edited` (Error, in plain words)."""

from __future__ import annotations

import pytest
import seasonrisk as sr
from seasonrisk.edit import edited
from small_plan import bare, text

PLAN = text(bare()).encode()


@pytest.mark.parametrize(
    "path",
    ["boat.9.name", "boat.name", "boat.x.name", "business.name.x", "a.0.b", "outlet.0.price.St. Clam", "", "prices..x"],
)
def test_a_path_that_leads_nowhere_is_told_in_plain_words(path: str) -> None:
    with pytest.raises(sr.Error, match="change the file by hand") as told:
        edited(PLAN, [(path, "1")])
    assert path in str(told.value)


def test_a_value_that_is_no_value_is_told_in_plain_words() -> None:
    with pytest.raises(sr.Error, match=r"path=prices.fuel_per_l: 1 2 cannot be written there"):
        edited(PLAN, [("prices.fuel_per_l", "1 2")])


def test_a_sound_change_is_written() -> None:
    """Control of the tests above."""
    assert b'"fuel_per_l" = 2.5' in edited(PLAN, [("prices.fuel_per_l", "2.5")])
