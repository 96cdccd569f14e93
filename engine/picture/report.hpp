// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <string>

#include "base/strings.hpp"
#include "records/gather.hpp"

// The printed side of a review: one HTML page that holds everything it needs, with the window's own
// charts as SVG, each with a title, a description and its figures as a table. No script. Good on
// A4, Letter and a phone. In the language of the texts; what a scenario says, in its own.

namespace beforehand::picture {

std::string session_report(const records::SessionFile&, const Strings&);
std::string trainee_report(const records::TraineeFile&, const Strings&);
std::string cohort_report(const records::CohortFile&, const Strings&);

}  // namespace beforehand::picture
