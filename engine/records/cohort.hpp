// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <array>
#include <cstddef>
#include <string>
#include <vector>

#include "records/review.hpp"

// Everybody's standing as a table that is searched, filtered and sorted in memory: ten thousand
// rows are gone through once for each change of the view, and not at all for showing them.

namespace beforehand::records {

/// One trainee in one scenario.
struct CohortRow {
  Summary summary;    ///< without its history
  std::string title;  ///< of the scenario
  Readiness readiness = Readiness::none;
  Moment due{};
};

/// What is shown of the table, and in which order.
struct CohortView {
  enum class Column : std::uint8_t {
    trainee,
    scenario,
    standing,
    verdict,
    last,
    best,
    trend,
    due,
    drills
  };
  static constexpr std::size_t columns = 9;
  enum class Only : std::uint8_t { everybody, to_sign_off, practising, due, signed_off };
  static constexpr std::size_t onlys = 5;

  std::string search;  ///< part of the name or the title, in any case
  Only only = Only::everybody;
  Column by = Column::trainee;
  bool descending = false;
  friend bool operator==(const CohortView&, const CohortView&) = default;
};

class CohortTable {
 public:
  CohortTable() = default;
  CohortTable(std::vector<CohortRow>, Moment now);

  /// Goes through the rows once, unless the view is the one shown.
  void show(const CohortView&);

  std::size_t size() const { return shown_.size(); }
  const CohortRow& operator[](std::size_t i) const { return rows_[shown_[i]]; }
  std::size_t all() const { return rows_.size(); }
  Moment now() const { return now_; }
  /// How many rows the search leaves for each `only`.
  const std::array<std::size_t, CohortView::onlys>& counts() const { return counts_; }
  /// How many rows were looked at so far: what showing has cost.
  std::size_t looked_at() const { return looked_at_; }

 private:
  bool belongs(const CohortRow&, CohortView::Only) const;
  void sort();

  std::vector<CohortRow> rows_;
  std::vector<std::string> folded_;  ///< name and title, by row
  std::vector<std::size_t> shown_;
  std::array<std::size_t, CohortView::onlys> counts_{};
  Moment now_{};
  CohortView view_;
  bool fresh_ = true;
  std::size_t looked_at_ = 0;
};

}  // namespace beforehand::records
