// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <string>
#include <vector>

#include "base/strings.hpp"
#include "picture/review_charts.hpp"
#include "records/sign_off.hpp"

// What a review says, in the language of the texts: on a screen and on a page.

namespace beforehand::picture {

ReviewWords review_words(const Strings&);

/// "Signed off", "Evidence complete", ...
const std::string& readiness_words(records::Readiness, const Strings&);
const std::string& verdict_words(scoring::Verdict, const Strings&);

/// Why this phase is to be practised next.
std::string reason_words(const procedure::Procedure&, const records::PracticePart&, const Strings&);

/// One criterion, and below it what it rests on.
std::string criterion_words(const records::Criterion&, const procedure::Procedure&, const Strings&);
std::vector<std::string> evidence_words(const records::Criterion&, const records::ScenarioReview&,
                                        const Strings&);

/// How the tray was laid, in one line.
std::string tray_words(const records::TaskRecord&, const Strings&);

/// How the tray was laid and the room cleared: a line each, and one for all that was to be changed.
std::vector<std::string> around_words(const records::Around&, const Strings&);

/// What the test of competence says of one step: how sure, or how much is lacking.
std::string step_words(const records::StepReview&, const Strings&);

}  // namespace beforehand::picture
