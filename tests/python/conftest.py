# SPDX-License-Identifier: MIT
"""What several tests use: the demo plan, one run of it, and a folder in which nothing can be written."""

from __future__ import annotations

import os
import signal
from collections.abc import Iterator
from pathlib import Path

import pytest
import seasonrisk as sr
from hypothesis import HealthCheck, settings

# Generated cases: a few that are the same each time, or with --hypothesis-profile=long many and others each time.
# Times are not judged, for machines differ.
settings.register_profile("short", max_examples=12, derandomize=True, deadline=None, suppress_health_check=[HealthCheck.too_slow])
settings.register_profile("long", parent=settings.get_profile("short"), max_examples=1_000, derandomize=False)
settings.load_profile("short")

ROOT = Path(__file__).resolve().parents[2]
DEMO = ROOT / "examples/plans/one_boat.toml"


@pytest.fixture(scope="session")
def demo_path() -> Path:
    return DEMO


@pytest.fixture(scope="session")
def plan() -> sr.Plan:
    return sr.Plan.read(DEMO)


@pytest.fixture(scope="session")
def run(plan: sr.Plan) -> sr.Run:
    return sr.simulate(plan, histories=20_000, key=2027, keep="all")


@pytest.fixture
def ctrl_c_is_heard() -> Iterator[None]:
    """Also where the tests run in the background of a shell, which has its children ignore it."""
    before = signal.signal(signal.SIGINT, signal.default_int_handler)
    yield
    signal.signal(signal.SIGINT, before)


@pytest.fixture
def closed_folder(tmp_path: Path) -> Iterator[Path]:
    """Permissions do not hold root back, so root gets a folder of the kernel's."""
    if os.geteuid() == 0:
        yield Path("/proc/self")
        return
    folder = tmp_path / "closed"
    folder.mkdir(mode=0o555)
    yield folder
    folder.chmod(0o755)
