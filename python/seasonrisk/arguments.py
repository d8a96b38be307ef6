# SPDX-License-Identifier: MIT
"""Arguments that several commands share, and what the library calls them."""

from __future__ import annotations

import argparse
import re

__all__ = ["add_run", "as_typed", "seed", "whole"]

#: What the library calls an argument, and what is typed for it.
OPTIONS = {
    "between": "--between", "chance": "--chance", "choice": "--choice", "histories": "--seasons", "indifference": "--equal-within",
    "key": "--key", "largest_loss": "--largest-loss", "last_days": "--last-days", "of": "--of", "target": "--target",
    "threads": "--threads", "what": "KEY",
}  # fmt: skip


def seed(text: str) -> int:
    """A seed, or a key."""
    if not text.isdecimal():
        raise argparse.ArgumentTypeError(f"must be a whole number of 0 or more, not {text!r}")
    return int(text)


def whole(text: str) -> int:
    """A count, with or without commas between its thousands."""
    try:
        return int(text.replace(",", ""))
    except ValueError:
        raise argparse.ArgumentTypeError(f"must be a whole number such as 20000, not {text!r}") from None


def add_run(parser: argparse.ArgumentParser, *, seasons: int, of_what: str) -> None:
    """How many seasons, of which luck, on how many threads."""
    parser.add_argument("--seasons", type=whole, default=seasons, metavar="N", help=f"how many to simulate{of_what}; {seasons:,} when left out")
    luck = parser.add_mutually_exclusive_group()
    luck.add_argument("--seed", type=seed, metavar="S", help="the same seed gives the same seasons; left out, new ones each time")
    luck.add_argument("--key", type=seed, metavar="K", help="the key that stands on a page: the same seasons as there")
    parser.add_argument("--threads", type=whole, default=0, metavar="N", help="0 = as many as there are")


def as_typed(message: str) -> str:
    """A refusal of the library in the words of the command line.

    Examples
    --------
    >>> as_typed("histories=0: must be a whole number from 1")
    '--seasons 0: must be a whole number from 1'
    """
    return re.sub(r"^(\w+)=", lambda found: f"{OPTIONS[found[1]]} " if found[1] in OPTIONS else found[0], message)
