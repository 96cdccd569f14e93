// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <string>
#include <vector>

#include "stage/flow.hpp"

namespace beforehand::stage {

/// A table that is written downwards: the first column names the row, the others are figures, set
/// to the right.
class Columns {
 public:
  /// `shares` are the columns' parts of the width; they sum up to at most 1.
  Columns(Pen& pen, Flow& flow, std::vector<double> shares)
      : pen_(pen), flow_(flow), shares_(std::move(shares)) {}

  void head(const std::vector<std::string>& cells) { write(cells, Weight::bold); }
  void row(const std::vector<std::string>& cells) { write(cells, Weight::regular); }

 private:
  void write(const std::vector<std::string>& cells, Weight);

  Pen& pen_;
  Flow& flow_;
  std::vector<double> shares_;
};

}  // namespace beforehand::stage
