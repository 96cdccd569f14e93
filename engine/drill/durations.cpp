// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "drill/durations.hpp"

#include <algorithm>
#include <cmath>

namespace beforehand::drill {

Ms triangular(const procedure::Estimate& e, double u) {
  const auto a = static_cast<double>(e.least.count());
  const auto c = static_cast<double>(e.usual.count());
  const auto b = static_cast<double>(e.most.count());
  if (b <= a) return e.usual;
  const double rising = (c - a) / (b - a);
  const double x = u < rising ? a + std::sqrt(u * (b - a) * (c - a))
                              : b - std::sqrt((1.0 - u) * (b - a) * (b - c));
  return Ms{static_cast<std::int64_t>(x + 0.5)};
}

Ms draw_duration(const procedure::Step& step, std::uint64_t name_hash, std::uint64_t seed,
                 std::uint64_t occurrence) {
  const Ms drawn = triangular(step.takes, keyed_uniform({seed, name_hash, occurrence}));
  return std::max(Ms{1}, drawn + step.reach);
}

}  // namespace beforehand::drill
