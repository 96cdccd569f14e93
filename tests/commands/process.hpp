// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <string>
#include <vector>

namespace beforehand {

/// What a finished process left behind.
struct Outcome {
  int code = -1;  ///< exit code; -1: ended by a signal
  std::string out, err;
};

/// How the program is run.
struct Setting {
  bool terminal = false;     ///< its standard error is a terminal
  std::string folder;        ///< where it runs; empty: where the test does
  std::string typed;         ///< its standard input is a terminal with this on it; empty: nothing
  std::string interrupt_at;  ///< Ctrl-C as soon as this text is on its standard error; empty: never
};

/// Runs the built program with these arguments and waits for its end, two minutes at most.
Outcome run(const std::vector<std::string>& arguments, const Setting& = {});

}  // namespace beforehand
