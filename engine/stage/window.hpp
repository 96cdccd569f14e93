// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <memory>
#include <string>
#include <vector>

#include "stage/input.hpp"

namespace beforehand::stage {

/// Why no window can be opened here, in plain words; empty when one can.
std::string display_problem();

/// The window of the operating system with its OpenGL context, and what people do in it as Inputs.
class Window {
 public:
  /// Needs display_problem() to be empty.
  Window(const std::string& title, int width, int height);
  ~Window();
  Window(const Window&) = delete;
  Window& operator=(const Window&) = delete;

  /// What happened since the last call, in order. Waits for something when `wait`, but no longer
  /// than a tenth of a second.
  std::vector<Input> inputs(bool wait);
  /// Shows what was drawn.
  void show();
  /// Writes what was drawn to a PNG file; false when it cannot be written.
  bool save_picture(const std::string& file) const;

  int width() const;
  int height() const;

 private:
  struct Inside;
  std::unique_ptr<Inside> inside_;
};

}  // namespace beforehand::stage
