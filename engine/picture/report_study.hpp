// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <string>
#include <vector>

#include "base/strings.hpp"
#include "study/improve.hpp"
#include "study/observed_durations.hpp"
#include "study/team_debrief.hpp"

// Studies as pages to print, in the manner of picture/report.hpp: the window's own charts as SVG,
// each with a title, a description and its figures as a table. No script. Nothing about patients.
// In the language of the texts; what a scenario and its changes say, in their own.

namespace beforehand::picture {

/// A scenario played many times by one assistant.
struct Simulated {
  std::string assistant;
  study::Simulation simulation;
};
std::string simulation_report(const procedure::Procedure&, const std::vector<Simulated>&,
                              std::uint64_t seed, const Strings&);

/// One side of a comparison; both must outlive it.
struct ComparedPlan {
  const procedure::Procedure& procedure;
  const timing::Plan& plan;
};
std::string comparison_report(const ComparedPlan& a, const ComparedPlan& b,
                              const study::Comparison&, const std::string& assistant,
                              const Strings&);

/// The gains of the changes found, the most first.
std::string improvement_report(const study::Planned& now, const study::Improvements&,
                               const std::string& assistant, const Strings&);

/// Timed cases, beside the protocol when there is one, and what they say of its steps' durations.
std::string observation_report(const std::vector<study::CaseFigures>&,
                               const std::vector<std::string>& names,
                               const procedure::Procedure* protocol,
                               const std::vector<study::ObservedStep>&, const Strings&);

/// A team's rehearsal; `plan` lies beside it when there is one.
std::string team_report(const procedure::Procedure&, const drill::Session&, const timing::Plan*,
                        const Strings&);

}  // namespace beforehand::picture
