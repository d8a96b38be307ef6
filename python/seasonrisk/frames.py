# SPDX-License-Identifier: MIT
"""The one place that makes a DataFrame: pandas is imported only when somebody asks for one."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from seasonrisk.errors import missing_extra

if TYPE_CHECKING:
    import pandas as pd

__all__ = ["frame"]


def frame(data: Any, **options: Any) -> pd.DataFrame:
    """What `pandas.DataFrame` makes of the same arguments.

    Raises
    ------
    MissingExtra
        When pandas is not installed.
    """
    try:
        import pandas as pd
    except ImportError as error:
        missing_extra("pandas", "pandas", "to_pandas", error)
    return pd.DataFrame(data, **options)
