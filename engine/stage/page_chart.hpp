// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include "picture/activity_chart.hpp"
#include "stage/flow.hpp"

namespace beforehand::stage {

/// Writes a chart into a page. In a wide window its bars are so high that a label has two lines.
void write_chart(Pen&, Flow&, const picture::ActivityChart&, const picture::ChartView&);

/// The same in words: by person, what was done when. A narrow bar has no room for its name.
void write_in_words(Pen&, Flow&, const picture::ActivityChart&);

}  // namespace beforehand::stage
