// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "stage/pace.hpp"

#include <algorithm>
#include <array>

namespace beforehand::stage {
namespace {

constexpr std::array<int, 8> paces{50, 75, 100, 125, 150, 200, 250, 300};

// Parts of a drill millisecond that one real microsecond is worth at 1 %.
constexpr std::int64_t parts_in_a_millisecond = 100'000;

}  // namespace

Pace quicker(Pace pace) {
  const auto next = std::upper_bound(paces.begin(), paces.end(), pace.percent);
  return {next == paces.end() ? paces.back() : *next};
}

Pace slower(Pace pace) {
  const auto here = std::lower_bound(paces.begin(), paces.end(), pace.percent);
  return {here == paces.begin() ? paces.front() : *(here - 1)};
}

std::string text_of(Pace pace) {
  std::string text = std::to_string(pace.percent / 100);
  if (const int rest = pace.percent % 100; rest != 0)
    text.append(rest % 10 == 0 ? "."
                : rest < 10    ? ".0"
                               : ".")
        .append(std::to_string(rest % 10 == 0 ? rest / 10 : rest));
  return text.append("×");
}

Ms PaceClock::pass(std::chrono::microseconds real, Ms lapse_until) {
  if (paused_) return now_;
  std::int64_t left =
      std::clamp<std::int64_t>(real.count(), 0, std::chrono::microseconds(longest_frame).count());
  if (now_ < lapse_until) {
    const std::int64_t until = (lapse_until - now_).count() * parts_in_a_millisecond - rest_;
    const std::int64_t speed = std::int64_t{100} * lapse_speed;
    const std::int64_t used = std::min(left, (until + speed - 1) / speed);
    rest_ += std::min(until, used * speed);
    left -= used;
  }
  rest_ += left * pace_.percent;
  now_ += Ms{rest_ / parts_in_a_millisecond};
  rest_ %= parts_in_a_millisecond;
  return now_;
}

}  // namespace beforehand::stage
