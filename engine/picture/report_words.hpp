// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <string>
#include <vector>

#include "base/strings.hpp"
#include "records/review.hpp"

// Words that the pages of the report share.

namespace beforehand::picture {

/// The law in words: "Exponential: 62 points to gain at first, 24 % of them go each drill ...".
std::string law_words(const records::LearningCurve&, const Strings&);
/// What the test of competence is and how often it errs, with the chances worked out.
std::string test_words(const Strings&, const records::CompetenceTest& = {});
std::string evidence_words(const records::Standing&, const Strings&);
/// "12 of 15", or "–".
std::string share_words(int passed, int attempts, const Strings&);
std::string level_words(drill::Level, const Strings&);
std::string severity_words(procedure::Severity, const Strings&);

/// The texts of these keys, each behind the prefix; a key with a dot in it stands for itself.
std::vector<std::string> texts(const Strings&, std::string_view prefix,
                               const std::vector<std::string_view>& keys);

}  // namespace beforehand::picture
