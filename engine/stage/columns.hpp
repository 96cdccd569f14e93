// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <string>
#include <vector>

#include "stage/flow.hpp"

namespace beforehand::stage {

/// A table that is written downwards: the first column names the row, the others are figures, set
/// to the right. Where it is too narrow for that, each row is its name and, under it, its figures
/// behind the words of the head.
class Columns {
 public:
  /// `shares` are the columns' parts of the width; they sum up to at most 1.
  Columns(Pen& pen, Flow& flow, std::vector<double> shares)
      : pen_(pen), flow_(flow), shares_(std::move(shares)) {}

  void head(const std::vector<std::string>& cells);
  void row(const std::vector<std::string>& cells);

 private:
  void write(const std::vector<std::string>& cells, Weight);

  Pen& pen_;
  Flow& flow_;
  std::vector<double> shares_;
  std::vector<std::string> head_;
  bool stacked_ = false;
};

}  // namespace beforehand::stage
