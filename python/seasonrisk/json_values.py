# SPDX-License-Identifier: MIT
"""Estimates as plain values, for what the command line prints for machines."""

from __future__ import annotations

import dataclasses
import math
from typing import Any

from seasonrisk.estimate import Estimate

__all__ = ["estimate_json"]


def estimate_json(estimate: Estimate) -> dict[str, Any]:
    """An estimate as a dict; what is not known is None."""
    known = {
        key: None if isinstance(value, float) and math.isnan(value) else value
        for key, value in dataclasses.asdict(estimate).items()
    }
    return {**known, "text": str(estimate)}
