// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <string>

#include "stage/input.hpp"
#include "stage/pen.hpp"
#include "stage/review_desk.hpp"

namespace beforehand::stage {

/// Steps by trainees, a screenful at a time: where a whole class is weak.
class ReviewHeat {
 public:
  enum class Outcome { stay, leave };

  ReviewHeat(ReviewDesk&, std::string scenario, std::string title, std::string search);

  Outcome handle(const Input&);
  void draw(Pen&, const Box&);
  /// The trainees in view, by name.
  const std::vector<std::string>& trainees() const { return heat_.map.trainees; }

 private:
  void load();
  void move(int columns, int rows);

  ReviewDesk& desk_;
  std::string scenario_, title_, search_;
  ReviewDesk::Heat heat_;
  int from_ = 0, columns_ = 8, loaded_from_ = -1, loaded_ = 0;
  bool more_ = false;
  std::size_t first_row_ = 0, rows_ = 1;
  Hits hits_;
};

}  // namespace beforehand::stage
