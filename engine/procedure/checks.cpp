// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "procedure/checks.hpp"
namespace beforehand::procedure {
std::vector<Problem> check(const Procedure&) { return {}; }
}  // namespace beforehand::procedure
