// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <memory>
#include <optional>
#include <vector>

#include "drill/bots.hpp"
#include "drill/run.hpp"

namespace beforehand::drill {

/// Who plays whom: the clinician is scripted, and a bot of this habit plays everybody else; without
/// a habit they are driven by Run::submit(). Before the first advance only. `finder` lays out the
/// run's procedure; runs of one thread may share it.
void cast(Run&, const std::optional<Habit>&, const std::shared_ptr<timing::WindowFinder>& finder);

/// The same for one run alone.
void cast(Run&, const std::optional<Habit>&);

/// Around people at this machine, by person: they are driven by Run::submit(), the clinician else
/// is scripted, and whoever else is there helps like an expert. Before the first advance only.
void cast_around(Run&, const std::vector<bool>& human);

/// Around a person at this machine: `trainee` is driven by Run::submit(), the clinician is
/// scripted, and whoever else is there helps like an expert. Before the first advance only.
void cast_around(Run&, PersonIx trainee);

}  // namespace beforehand::drill
