# SPDX-License-Identifier: MIT
"""Estimates, and what holds them, as plain values, for what the command line prints for machines."""

from __future__ import annotations

import dataclasses
import math
from collections.abc import Mapping
from typing import Any

from seasonrisk.estimate import Estimate
from seasonrisk.plan import Plan

__all__ = ["estimate_json", "plain"]


def estimate_json(estimate: Estimate) -> dict[str, Any]:
    """An estimate as a dict; what is not known is None."""
    known = {
        key: None if isinstance(value, float) and math.isnan(value) else value
        for key, value in dataclasses.asdict(estimate).items()
    }
    return {**known, "text": str(estimate)}


def plain(value: Any) -> Any:
    """Estimates and what holds them as plain values; a plan by its changes."""
    if isinstance(value, Estimate):
        return estimate_json(value)
    if isinstance(value, Plan):
        return {"source": value.source, "changes": value.changes}
    if dataclasses.is_dataclass(value) and not isinstance(value, type):
        return {field.name: plain(getattr(value, field.name)) for field in dataclasses.fields(value)}
    if isinstance(value, Mapping):
        return {name: plain(one) for name, one in value.items()}
    if isinstance(value, tuple | list):
        return [plain(one) for one in value]
    return value
