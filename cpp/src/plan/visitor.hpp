// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <vector>

#include "seasonrisk/plan/plan.hpp"

namespace seasonrisk {

/// A visitor of a plan's keys that knows where it stands: derive, and give the members that matter. The
/// members below do nothing, walk on, and keep the path ("boat.0.crew.1").
template <class Derived>
class PathVisitor {
public:
    void number(const char*, const auto&, auto&&...) {}
    void months(const char*, const auto&, auto&&...) {}
    void by_name(const char*, const auto&, auto&&...) {}
    void total_or_each(const char*, const auto&, auto&&...) {}
    void size(const char*, const auto&, auto&&...) {}
    void text(const char*, const auto&, auto&&...) {}
    void prose(const char*, const auto&, auto&&...) {}
    void date(const char*, const auto&, auto&&...) {}
    void whole(const char*, const auto&, auto&&...) {}
    void flag(const char*, const auto&, auto&&...) {}
    void word(const char*, const auto&, auto&&...) {}
    void texts(const char*, const auto&, auto&&...) {}
    void weekdays(const char*, const auto&, auto&&...) {}
    void month_list(const char*, const auto&, auto&&...) {}
    void one_month(const char*, const auto&, auto&&...) {}
    void days_off(const char*, const auto&, auto&&...) {}
    void day_costs(const char*, const auto&, auto&&...) {}
    void changes(auto&&...) {}
    void sources(const char*, const auto&) {}

    template <class S>
    void section(const char* key, const S& value, Need) {
        inside(key, value);
    }
    template <class S>
    void section(const char* key, const std::optional<S>& value) {
        if (value) inside(key, *value);
    }
    template <class S>
    void list(const char* key, const std::vector<S>& values, Need) {
        for (std::size_t n = 0; n < values.size(); ++n) inside(std::string(key) + "." + std::to_string(n), values[n]);
    }

protected:
    std::string path_of(const std::string& key) const { return path_.empty() ? key : path_ + "." + key; }

private:
    template <class S>
    void inside(const std::string& step, const S& value) {
        const std::string outer = path_;
        path_ = path_of(step);
        S::fields(value, static_cast<Derived&>(*this));
        path_ = outer;
    }
    std::string path_{};
};

}  // namespace seasonrisk
