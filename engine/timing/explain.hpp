// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <string>
#include <vector>

#include "timing/plan.hpp"
#include "timing/plan_model.hpp"

namespace beforehand::timing {

/// One link of the critical chain: why `step` does not start earlier than it does.
struct ChainLink {
  enum class Kind : std::uint8_t { start, lag, attention, hands, device } kind = Kind::start;
  StepIx step;
  StepIx after;        ///< what it has to come after; none: it is the first
  Because because;     ///< for a lag
  std::size_t of = 0;  ///< the person or device, for attention, hands and devices
};

/// A stretch in which a person's attention is free while the chair time runs.
struct Gap {
  PersonIx who;
  Ms from{0}, to{0};
  StepIx until;        ///< the person's next step; none: nothing more to do
  StepIx waiting_for;  ///< somebody else's step that ends as that one starts; none: free by choice
};

/// What a shared step costs when another may not leave it: the best chair time with that person.
struct RoleChoice {
  StepIx step;
  PersonIx by;       ///< who does it in the plan
  PersonIx instead;  ///< who would do it
  Ms longer{0};      ///< chair time then, less the plan's
  bool possible = true;
};

/// The chair time gained if a step takes its least time instead of its usual time, at least: the
/// order of the plan is kept.
struct Shortening {
  StepIx step;
  Ms shorter{0}, gain{0};
};

struct Explanation {
  std::vector<ChainLink> chain;         ///< from the first to the last step
  std::vector<Gap> gaps;                ///< by person, then time
  std::vector<RoleChoice> roles;        ///< those that are known before the search is stopped
  std::vector<Shortening> shortenings;  ///< on the chain, the most gain first; gains above 0 only
};

/// Explains a plan found for the same procedure and request.
Explanation explain(const Procedure&, const PlanRequest&, const Plan&);

/// Sentences for people, in the steps' own titles.
std::vector<std::string> chain_in_words(const Procedure&, const Plan&, const Explanation&);
std::vector<std::string> gaps_in_words(const Procedure&, const Explanation&);
std::vector<std::string> advice_in_words(const Procedure&, const Explanation&);

}  // namespace beforehand::timing
