// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <string>
#include <string_view>

namespace beforehand::records {

/// The name without blanks at its ends; throws std::runtime_error, saying what is wrong, unless it
/// is 1 to 200 bytes of UTF-8 without control characters.
std::string checked_name(std::string_view);

/// The text in lower case, for comparing and searching: Latin, Greek and Cyrillic letters by
/// Unicode's simple case folding, others as they are.
std::string folded(std::string_view);

}  // namespace beforehand::records
