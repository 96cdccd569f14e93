// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/strings.hpp"
#include "scoring/score.hpp"
#include "stage/played.hpp"

namespace beforehand::stage {

/// Something that happened in a drill, as it is listed beside the chart.
struct ReplayMoment {
  enum class Kind {
    step,     ///< somebody else began a step
    action,   ///< the trainee began something
    need,     ///< something was wanted of the trainee, and how that went
    request,  ///< the clinician asked; `sign` is the letter on the chart
    signal,   ///< something could be seen that changes what is needed
    error,    ///< `sign` is the number on the chart
    end
  };
  Kind kind = Kind::step;
  Ms at{0};
  std::string sign;
  std::string text;
  bool bad = false;                  ///< something to look at
  std::optional<std::size_t> error;  ///< position in Score::errors
};

/// Everything that is worth a look, in order of time.
std::vector<ReplayMoment> moments_of(const Played&, const scoring::Score&, const Strings&);

/// "01:12 · late (major): ...": an error in one line, without its number.
std::string error_line(const scoring::Error&, const Strings&);

/// The words under an error: why it matters, what to do instead, what followed from it; empty ones
/// are left out.
struct ErrorWords {
  std::string why, instead, followed;
};
ErrorWords words_under(const procedure::Procedure&, const scoring::Error&, const Strings&);

}  // namespace beforehand::stage
