// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <cstdint>
#include <string_view>

#include "records/record.hpp"

namespace beforehand::records {

/// Makes version 7 UUIDs (RFC 9562, section 5.7): 48 bits of Unix milliseconds, a counter within
/// the millisecond (section 6.2, method 1), then random bits. In one maker each id is greater than
/// the one before, also within a millisecond and when the clock jumps back.
class IdMaker {
 public:
  Id make(Moment now);

 private:
  std::int64_t last_ms_ = -1;
  std::uint64_t count_ = 0;  // within a millisecond: 12 bits, begun at random
};

/// Whether a text is a UUID as IdMaker writes it.
bool is_id(std::string_view);

}  // namespace beforehand::records
