# SPDX-License-Identifier: MIT
"""One history of a plan in plain Python: written from the description of the model, apart from the engine, to find
mistakes in either. Slow and readable on purpose. `season.simulate` is the way in; `season.History` tells the day."""
