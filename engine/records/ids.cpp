// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "records/ids.hpp"

#include <fmt/format.h>
#include <sodium.h>

#include <algorithm>

namespace beforehand::records {
namespace {

constexpr std::uint64_t bits12 = 0xfff, bits48 = (std::uint64_t{1} << 48) - 1,
                        bits62 = (std::uint64_t{1} << 62) - 1;

}  // namespace

Id IdMaker::make(Moment now) {
  const std::int64_t ms = now.time_since_epoch().count();
  std::uint64_t random[2];
  randombytes_buf(random, sizeof random);
  if (ms > last_ms_) {
    last_ms_ = ms;
    count_ = random[0] & (bits12 >> 1);  // the top bit stays clear: room to count up
  } else if (++count_ > bits12) {
    count_ = 0;
    ++last_ms_;
  }
  const auto time = static_cast<std::uint64_t>(last_ms_) & bits48;
  const auto rest = random[1] & bits62;
  return fmt::format("{:08x}-{:04x}-7{:03x}-{:04x}-{:012x}", time >> 16, time & 0xffff, count_,
                     0x8000 | (rest >> 48), rest & bits48);
}

bool is_id(std::string_view text) {
  if (text.size() != 36) return false;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const bool dash = i == 8 || i == 13 || i == 18 || i == 23;
    const char c = text[i];
    const bool hex = (c >= '0' && c <= '9') || (c >= 'a' && c <= 'f');
    if (dash ? c != '-' : !hex) return false;
  }
  return true;
}

}  // namespace beforehand::records
