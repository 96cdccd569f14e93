// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <string>

#include "records/gather.hpp"

// The printed side of a review: one HTML page that holds everything it needs, with the window's own
// charts as SVG, each with a title, a description and its figures as a table. No script. Good on
// A4, Letter and a phone.

namespace beforehand::picture {

std::string session_report(const records::SessionFile&);
std::string trainee_report(const records::TraineeFile&);
std::string cohort_report(const records::CohortFile&);

}  // namespace beforehand::picture
