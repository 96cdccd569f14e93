// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include <array>

#include "scoring/score.hpp"

namespace beforehand::scoring {
namespace {

constexpr std::array<std::string_view, error_kind_count> error_kinds{
    "omitted", "extra",   "repeated",     "out-of-order", "too-early", "late",
    "expired", "overrun", "contaminated", "unsafe",       "uncovered"};
constexpr std::array<std::string_view, 4> verdicts{"ready", "nearly", "practise", "repeat"};

}  // namespace

std::string_view word(ErrorKind k) { return error_kinds[static_cast<std::size_t>(k)]; }
std::string_view word(Verdict v) { return verdicts[static_cast<std::size_t>(v)]; }

}  // namespace beforehand::scoring
