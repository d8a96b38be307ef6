// SPDX-License-Identifier: MIT
#pragma once

#include <functional>
#include <span>
#include <vector>

#include "seasonrisk/season/prepared_plan.hpp"
#include "seasonrisk/season/workspace.hpp"

namespace seasonrisk {

/// Days `first` to `last` - 1 of the money year, lived in one workspace.
struct Leg {
    Workspace* work = nullptr;
    std::size_t first = 0;
    std::size_t last = 0;
    int ending = -1;  ///< which of the endings beside it is; -1 = the season as planned
};

/// Earlier endings of a season, told beside the season itself. Until the day its gear would begin to come in, a
/// season that stops early is the same as one that does not, to the bit; so on that morning the state is copied and
/// only the short rest of that ending is followed.
class EndingsBeside {
public:
    /// `ready` is the plan made ready with its last day of fishing on the season's end; it is turned to one stop
    /// after the other while a batch is told, and back, so every thread has its own. One year.
    /// \pre every stop lies in the season
    EndingsBeside(PreparedPlan& ready, std::vector<Date> stops);

    /// The legs of this batch, in the order they are lived; `work` has drawn its guesses.
    std::span<const Leg> legs_of(Workspace& work);
    /// The ending's own state, as it is on the morning it begins.
    void begin(const Leg& leg, const Workspace& season);
    void end(const Leg& leg);

    Workspace beside;                               ///< where the endings are lived
    std::function<void(std::size_t ending)> told{};  ///< called when an ending is over, with its state in `beside`

private:
    void turn_to(Date stop);
    std::size_t first_day_of(Date stop, const Workspace& work);

    PreparedPlan& ready_;
    std::vector<Date> stops_;
    std::vector<Leg> legs_{};
};

}  // namespace seasonrisk
