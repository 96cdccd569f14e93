// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include "picture/activity_chart.hpp"
#include "study/timed_case.hpp"

namespace beforehand::picture {

/// A timed case: what was seen, and the time between as what it was. Errors of order carry the
/// number of their place in out_of_order, then repeated, then extra, from 1.
ActivityChart case_chart(const study::CaseFigures&, const std::string& title);

}  // namespace beforehand::picture
