// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <cstdint>
#include <string_view>

#include "records/record.hpp"

namespace beforehand::records {

/// Makes version 7 UUIDs (RFC 9562, section 5.7): 48 bits of Unix milliseconds, then random bits.
/// In one maker each id is greater than the one before, also within a millisecond and when the
/// clock jumps back.
class IdMaker {
 public:
  Id make(Moment now);

 private:
  std::int64_t last_ms_ = -1;
  std::uint64_t high_ = 0, low_ = 0;  // 12 and 62 random bits, counted up within a millisecond
};

/// Whether a text is a UUID as IdMaker writes it.
bool is_id(std::string_view);

}  // namespace beforehand::records
