// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <functional>

namespace CLI {
class App;
}

namespace beforehand::command {

/// Adds `records` and its subcommands to the command line; parsing one sets `action`.
void add_records(CLI::App&, std::function<int()>& action);

}  // namespace beforehand::command
