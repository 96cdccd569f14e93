// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <string>

#include "base/strings.hpp"
#include "picture/activity_chart.hpp"
#include "picture/html_page.hpp"
#include "picture/study_charts.hpp"
#include "timing/plan.hpp"

// Parts that the pages of drills and studies share.

namespace beforehand::picture {

/// A multiple-activity chart as a figure, its words from the chart's title. `to`: where its time
/// ends, so that several can have one scale; never: after its last bar.
HtmlPage::Figure activity_figure(const ActivityChart&, const std::string& description,
                                 HtmlPage::Table figures, const Strings&, Ms to = never);
HtmlPage::Figure interval_figure(const IntervalChart&, const std::string& title,
                                 const std::string& description, HtmlPage::Table figures);
HtmlPage::Figure spread_figure(const SpreadChart&, const std::string& title,
                               const std::string& description, HtmlPage::Table figures);

/// "7 min 45.5 s (proven: no plan is shorter), the clinician waits 1 min".
std::string plan_words(const timing::Plan&, const Strings&);
/// The figure of a measure with its unit.
std::string measure_text(double, study::Measure);
/// "12.1 to 13.4".
std::string interval_words(const study::Interval&, const Strings&);
/// What a measure is called, "Chair time".
std::string measure_words(study::Measure, const Strings&);

}  // namespace beforehand::picture
