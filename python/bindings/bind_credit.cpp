// SPDX-License-Identifier: MIT
#include "pybind.hpp"

#include <span>
#include <vector>

#include "array.hpp"
#include "seasonrisk/choice/compare.hpp"
#include "seasonrisk/credit/coverage.hpp"
#include "seasonrisk/credit/loan_schedule.hpp"
#include "seasonrisk/credit/short_years.hpp"
#include "seasonrisk/season/bills.hpp"

namespace seasonrisk::python {
namespace {

std::vector<std::span<const double>> spans_of(const std::vector<ColumnArray>& columns) {
    std::vector<std::span<const double>> spans;
    for (const ColumnArray& column : columns) spans.push_back(span_of(column));
    return spans;
}

void bind_loans(py::module_& module) {
    py::class_<LoanPayment>(module, "LoanPayment")
        .def_readonly("month", &LoanPayment::month)
        .def_readonly("interest", &LoanPayment::interest)
        .def_readonly("principal", &LoanPayment::principal)
        .def_readonly("balance", &LoanPayment::balance);
    py::class_<LoanYear>(module, "LoanYear")
        .def_readonly("interest", &LoanYear::interest)
        .def_readonly("principal", &LoanYear::principal)
        .def_readonly("repaid_early", &LoanYear::repaid_early)
        .def_readonly("balance", &LoanYear::balance);
    py::class_<LoanSchedule>(module, "LoanSchedule")
        .def_readonly("payments", &LoanSchedule::payments)
        .def_readonly("years", &LoanSchedule::years);

    module.def("loan_schedules", &loan_schedules, py::arg("plan"));
    module.def("worn_value", &worn_value, py::kw_only(), py::arg("cost"), py::arg("resale"), py::arg("life_years"), py::arg("age_years"));
}

void bind_coverage(py::module_& module) {
    py::class_<Coverage>(module, "Coverage")
        .def_property_readonly("available", [](const Coverage& c) { return owning_array(c.available); })
        .def_property_readonly("before_household", [](const Coverage& c) { return owning_array(c.before_household); })
        .def_property_readonly("capacity", [](const Coverage& c) { return owning_array(c.capacity); })
        .def_property_readonly("after_household", [](const Coverage& c) { return owning_array(c.after_household); })
        .def_property_readonly("repayment_margin", [](const Coverage& c) { return owning_array(c.repayment_margin); })
        .def_property_readonly("replacement_margin", [](const Coverage& c) { return owning_array(c.replacement_margin); });

    module.def("coverage", [](const ColumnArray& standing, const ColumnArray& loan_payments, const ColumnArray& loan_interest, const ColumnArray& overdraft_interest,
                              const ColumnArray& tax, const ColumnArray& draw, const ColumnArray& other_income, const ColumnArray& overdrawn_before, double wear) {
        return coverage({span_of(standing), span_of(loan_payments), span_of(loan_interest), span_of(overdraft_interest), span_of(tax), span_of(draw),
                         span_of(other_income), span_of(overdrawn_before), wear});
    }, py::kw_only(), py::arg("standing"), py::arg("loan_payments"), py::arg("loan_interest"), py::arg("overdraft_interest"), py::arg("tax"), py::arg("draw"),
       py::arg("other_income"), py::arg("overdrawn_before"), py::arg("wear"));
}

void bind_short_years(py::module_& module) {
    py::class_<WhoCovers>(module, "WhoCovers")
        .def_property_readonly("shortage", [](const WhoCovers& w) { return owning_array(w.shortage); })
        .def_property_readonly("reserve", [](const WhoCovers& w) { return owning_array(w.reserve); })
        .def_property_readonly("overdraft", [](const WhoCovers& w) { return owning_array(w.overdraft); })
        .def_property_readonly("household", [](const WhoCovers& w) { return owning_array(w.household); })
        .def_property_readonly("other_income", [](const WhoCovers& w) { return owning_array(w.other_income); })
        .def_property_readonly("nobody", [](const WhoCovers& w) { return owning_array(w.nobody); });

    module.def("who_covers", [](const ColumnArray& household, const ColumnArray& draw, const ColumnArray& other_income, const ColumnArray& opening_cash,
                                const ColumnArray& overdraft_limit) {
        return who_covers({span_of(household), span_of(draw), span_of(other_income), span_of(opening_cash), span_of(overdraft_limit)});
    }, py::kw_only(), py::arg("household"), py::arg("draw"), py::arg("other_income"), py::arg("opening_cash"), py::arg("overdraft_limit"));
    module.def("missed_twice", [](const std::vector<ColumnArray>& by_year) { return owning_array(missed_twice(spans_of(by_year))); }, py::arg("by_year"));
}

}  // namespace

void bind_credit(py::module_& module) {
    bind_loans(module);
    bind_coverage(module);
    bind_short_years(module);
}

}  // namespace seasonrisk::python
