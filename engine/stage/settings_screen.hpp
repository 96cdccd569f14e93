// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <string>
#include <vector>

#include "stage/languages.hpp"
#include "stage/pen.hpp"
#include "stage/settings.hpp"

namespace beforehand::stage {

/// How the program is seen, heard and handled. What is changed holds at once.
class SettingsScreen {
 public:
  enum class Outcome { stay, changed, back };

  /// `problem` is what a person should know about the file they are kept in, or empty.
  SettingsScreen(Settings settings, std::vector<Language> languages, std::string problem)
      : settings_(std::move(settings)),
        languages_(std::move(languages)),
        problem_(std::move(problem)) {}

  Outcome handle(const Input&);
  void draw(Pen&, const Box&);

  const Settings& settings() const { return settings_; }
  void tell(std::string problem) { problem_ = std::move(problem); }
  /// Whether the next key or button is taken for the deed that the keyboard is at.
  bool asking_for_key() const { return asking_; }

 private:
  struct Choices {
    std::string name;
    std::vector<std::string> options;
    std::size_t chosen = 0;
  };
  std::vector<Choices> choices(const Strings&) const;
  std::size_t row_count() const;
  Outcome on_key(const Input&);
  Outcome on_press(Point at);
  Outcome set(std::size_t row, std::size_t option);
  Outcome step(int by);
  Outcome take_key(Key);
  void draw_choice(Pen&, const Box&, const Choices&, std::size_t row);
  void draw_deed(Pen&, const Box&, std::size_t deed);
  void draw_bar(Pen&, const Box&);

  Settings settings_;
  std::vector<Language> languages_;
  std::string problem_;
  std::size_t row_ = 0;
  bool asking_ = false;
  Scroll scroll_;
  Hits hits_;
};

}  // namespace beforehand::stage
