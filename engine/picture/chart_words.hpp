// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include "base/strings.hpp"
#include "picture/activity_chart.hpp"

namespace beforehand::picture {

/// The words on a multiple-activity chart, in the language of the texts.
ChartWords chart_words(const Strings&);

}  // namespace beforehand::picture
