// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <string>

#include "records/review.hpp"
#include "scoring/score.hpp"

// Words that the pages of the report share.

namespace beforehand::picture {

std::string verdict_text(scoring::Verdict);
/// The law in words: "exponential: 62 points missing at first, 24 % fewer from drill to drill ...".
std::string law_text(const records::LearningCurve&);
/// What the test of competence is and how often it errs, with the chances worked out.
std::string test_text(const records::CompetenceTest& = {});
std::string standing_text(const records::Standing&);
/// "12 of 15", or "–".
std::string share_text(int passed, int attempts);

}  // namespace beforehand::picture
