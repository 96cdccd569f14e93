// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "records/record.hpp"

// How lists and long texts stand in a column, and how figures become whole numbers.

namespace beforehand::records {

std::int64_t thousandths(double);
std::int64_t millionths(double);
/// Back again; the nearest double, so that a figure read equals a figure written.
double from_thousandths(std::int64_t);
double from_millionths(std::int64_t);

/// "+step -step": passed and not.
std::string pack(const std::vector<StepOutcome>&);
std::vector<StepOutcome> unpack_outcomes(std::string_view);

/// JSON, an array a need. The second throws std::runtime_error for anything else.
std::string pack(const std::vector<NeedRecord>&);
std::vector<NeedRecord> unpack_needs(std::string_view);

/// JSON, or nothing for nothing. The second throws std::runtime_error for anything else.
std::string pack(const Around&);
Around unpack_around(std::string_view);

/// "step=0110 step=1".
std::string pack(const std::vector<StepHistory>&);
std::vector<StepHistory> unpack_history(std::string_view);

/// Deflated (RFC 1951, in a zlib stream) and in base64 (RFC 4648), the length in front.
std::string squeeze(std::string_view text);
/// Throws std::runtime_error when the text is not what squeeze() gave.
std::string expand(std::string_view squeezed);

}  // namespace beforehand::records
