// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "procedure/procedure.hpp"
#include "records/store.hpp"

namespace beforehand::records {

struct PlayedScenario {
  procedure::Procedure procedure;
  std::string text;
};

struct DemoClass {
  int trainees = 12, sessions = 8;  ///< sessions of most; some have four times, some half as many
  std::uint64_t seed = 1;
  std::string trainer = "Robin Demo", passcode = "demo-class";
};

/// Fills an empty store with an invented class: real drills, played by bots whose habits get better
/// with practice, over the weeks before `now`, and the store's own sign-offs for some of those who
/// meet the criteria. Throws StoreError `refused` when somebody is in the store already. The
/// sessions say "invented" for their assistant. `progress` is told how many of all drills are done.
void fill_demo(Store&, const std::vector<PlayedScenario>&, const DemoClass&,
               const std::function<void(int done, int all)>& progress = {});

}  // namespace beforehand::records
