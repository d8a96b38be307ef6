# SPDX-License-Identifier: MIT
"""``python -m seasonrisk`` is the command ``seasonrisk``."""

import sys

from seasonrisk.cli import main

if __name__ == "__main__":
    sys.exit(main())
