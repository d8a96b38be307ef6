# SPDX-License-Identifier: MIT
"""What a lender can be shown.

- `loans`: balance, interest and principal by money year, and what is held against them.
- `coverage`: how far each year's money goes round its payments, before and after the owner's living; missed payments;
  who covers a year that runs short.
- `working_capital`: the account by month, the facility it asks for, payments against what comes in.
- `stresses`: nine fixed stresses and the owner's own, under the same luck.
- `past_years`: actuals beside the model; `what_happened`: a season that was shown beside what it came to.

A run for `coverage`, `working_capital`, `stresses` and `past_years` at once keeps the columns that `lender_columns` names.
"""

from seasonrisk.credit.coverage import Coverage, CoverageYear, Margin, Ratio, coverage, coverage_columns
from seasonrisk.credit.gives_first import Coverer, WhatGivesFirst, what_gives_first
from seasonrisk.credit.lender_note import LenderNote, lender_columns, lender_note
from seasonrisk.credit.loans import LoanLife, Loans, LoanYear, loans, over_loan_life
from seasonrisk.credit.past import PastFigure, PastYear, PastYears, past_columns, past_years, what_happened
from seasonrisk.credit.peak import PeakWeeks, peak_weeks
from seasonrisk.credit.stresses import Stressed, Stresses, stress_columns, stresses
from seasonrisk.credit.working_capital import MonthFlow, WorkingCapital, working_capital, working_capital_columns

__all__ = [
    "Coverage",
    "CoverageYear",
    "Coverer",
    "LenderNote",
    "LoanLife",
    "LoanYear",
    "Loans",
    "Margin",
    "MonthFlow",
    "PastFigure",
    "PastYear",
    "PastYears",
    "PeakWeeks",
    "Ratio",
    "Stressed",
    "Stresses",
    "WhatGivesFirst",
    "WorkingCapital",
    "coverage",
    "coverage_columns",
    "lender_columns",
    "lender_note",
    "loans",
    "over_loan_life",
    "past_columns",
    "past_years",
    "peak_weeks",
    "stress_columns",
    "stresses",
    "what_gives_first",
    "what_happened",
    "working_capital",
    "working_capital_columns",
]
