# SPDX-License-Identifier: MIT
"""One history of a one-boat plan in plain Python: written from the description of the model, apart from the
engine, to find mistakes in either. Slow and readable on purpose."""
