// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <atomic>
#include <future>
#include <optional>
#include <vector>

#include "procedure/procedure.hpp"
#include "timing/explain.hpp"

namespace beforehand::stage {

/// Finds reference plans beside the frames, one at a time, in a thread of its own.
class PlanDesk {
 public:
  struct Answer {
    timing::Plan plan;
    timing::Explanation explanation;
  };

  PlanDesk() = default;
  ~PlanDesk() { stop(); }
  PlanDesk(const PlanDesk&) = delete;
  PlanDesk& operator=(const PlanDesk&) = delete;

  /// Begins the search for a plan, of one phase or of all; the one under way is given up. What was
  /// asked last is not searched for again.
  void ask(const procedure::Procedure&, timing::PlanRequest);
  /// Gives up the search under way.
  void stop();
  bool searching() const { return search_.valid(); }

  /// The answer to the last question once it is found; at most once each time it is asked.
  std::optional<Answer> take();
  /// Waits until the search under way is over.
  void wait() const;

 private:
  struct Question {
    std::uint64_t procedure = 0;
    PhaseIx phase;
    std::vector<SignalIx> happened;
    friend bool operator==(const Question&, const Question&) = default;
  };

  std::optional<Question> question_;  // of the answer or of the search
  std::optional<Answer> answer_;
  bool untaken_ = false;
  std::atomic<bool> stopped_ = false;
  std::future<Answer> search_;
};

}  // namespace beforehand::stage
