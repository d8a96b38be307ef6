// SPDX-License-Identifier: MIT
#pragma once

#include <stdexcept>
#include <string>
#include <vector>

namespace seasonrisk {

enum class Severity { error, warning };

/// One thing the rule book has to say about a plan.
struct Finding {
    Severity severity = Severity::error;
    std::string path{};     ///< key path, "boat.0.crew.1.share_fraction"; empty for the file as a whole
    std::string value{};    ///< as written, shortened; empty when there is none
    std::string message{};  ///< what is wrong and what is allowed, no trailing stop
    std::string hint{};     ///< likely meaning, nearest key, way out; may be empty
    std::string file{};     ///< name given to the reader; empty for a plan built in code
    int line = 0;           ///< 1-based; 0 = not from a file
    int column = 0;
};

/// `file:line: path = value: message (hint)`, the one form every finding is shown in.
std::string to_text(const Finding& finding);

/// Anything that is not the caller's fault in the arguments; the base of the library's own errors.
struct Error : std::runtime_error {
    using std::runtime_error::runtime_error;
};

/// A plan with problems: carries every finding, and its `what()` lists them all.
struct PlanError : Error {
    explicit PlanError(std::vector<Finding> findings);
    std::vector<Finding> findings;
};

}  // namespace seasonrisk
