// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <cstdint>
#include <vector>

#include "study/comparison.hpp"

namespace beforehand::study {

/// Adds up, over pairs of runs, what every step of the clinician adds to the chair time. Whole
/// milliseconds, so that the order of adding is nothing.
class StepShares {
 public:
  StepShares(const Procedure& a, const Procedure& b);

  void add(const Player& a, const Player& b);
  void add(const StepShares& other);

  /// Of so many pairs, the most difference first.
  std::vector<StepShare> shares(std::size_t pairs) const;

 private:
  struct Part {
    std::int64_t all = 0, before = 0;
  };
  struct Sum {
    std::string id, title;
    std::size_t a, b;  // the step's position, or none
    Part in_a, in_b;
    std::int64_t difference = 0, square = 0;
  };
  static constexpr std::size_t none = ~std::size_t{0};
  static void read(const Procedure&, const Player&, std::vector<Part>& parts);

  const Procedure *a_, *b_;
  std::vector<Sum> sums_;
  std::vector<Part> parts_a_, parts_b_;  // by step, and one for the rest
};

}  // namespace beforehand::study
