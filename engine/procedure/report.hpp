// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "base/problem.hpp"

namespace beforehand::procedure {

/// Collects the problems of one scenario, up to a number a person can still use.
class Report {
 public:
  static constexpr std::size_t most_problems = 200;

  /// Something that leaves a hole in the step graph, so that nothing can be said of the graph.
  void error(Mark mark, Said message) {
    graph_is_whole_ = false;
    add({Problem::Kind::error, mark, std::move(message)});
  }
  /// Something wrong that the graph does not depend on: a text, a figure, a place.
  void slip(Mark mark, Said message) { add({Problem::Kind::error, mark, std::move(message)}); }
  void warning(Mark mark, Said message) { add({Problem::Kind::warning, mark, std::move(message)}); }
  void add(Problem problem) {
    if (problems_.size() < most_problems) problems_.push_back(std::move(problem));
  }

  /// True when more would not be kept: time to stop looking.
  bool full() const { return problems_.size() >= most_problems; }
  bool graph_is_whole() const { return graph_is_whole_; }

  /// All problems, ordered by place.
  std::vector<Problem> take() {
    sort_by_place(problems_);
    if (full()) {
      problems_.push_back(
          {Problem::Kind::error, {}, "too many problems to list; mend these first"});
    }
    return std::move(problems_);
  }

 private:
  std::vector<Problem> problems_;
  bool graph_is_whole_ = true;
};

}  // namespace beforehand::procedure
