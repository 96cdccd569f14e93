// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// Every word on a screen comes from a file of lines "key = text", one file a language
// (assets/strings/en.txt).
#pragma once

#include <filesystem>
#include <map>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

#include "base/said.hpp"

namespace beforehand {

/// A line of a string file that is not "key = text", or a key given twice. what() holds every
/// problem, one a line, each as "path:line: error: ...".
struct BadStrings : std::runtime_error {
  using std::runtime_error::runtime_error;
};

class Strings {
 public:
  /// Reads the lines of one language. Blank lines and lines that begin with # are skipped. Throws
  /// BadStrings.
  static Strings parse(std::string_view content, const std::string& name);
  /// Reads a file, and what is said of scenarios in its language from the file of the same name in
  /// the folder "problems" beside its own, if there is one. Throws BadStrings, also when the file
  /// cannot be opened.
  static Strings load(const std::filesystem::path& file);

  /// The text of a key. A key without text is a mistake of ours: it is shown as "?key?" and
  /// remembered, and a test that walks every screen fails on it.
  const std::string& operator()(std::string_view key) const;

  /// The text of a key with {0}, {1}, ... replaced. The arguments are inserted as they are.
  std::string operator()(std::string_view key, const std::vector<std::string>& arguments) const;

  /// Takes in the texts of another for the keys that have none here.
  void complete_with(const Strings& other) {
    texts_.insert(other.texts_.begin(), other.texts_.end());
  }

  /// What is said of scenarios, by the English words; empty in English.
  const Phrases& phrases() const { return phrases_; }

  bool has(std::string_view key) const { return texts_.find(key) != texts_.end(); }
  const std::map<std::string, std::string, std::less<>>& all() const { return texts_; }
  /// Keys asked for and not found, with their shown text.
  const std::map<std::string, std::string, std::less<>>& missing() const { return missing_; }

 private:
  Phrases phrases_;
  std::map<std::string, std::string, std::less<>> texts_;
  mutable std::map<std::string, std::string, std::less<>> missing_;
};

/// A text with {0}, {1}, ... replaced by the arguments; a number without an argument stays as it
/// is.
std::string filled(std::string_view text, const std::vector<std::string>& arguments);

}  // namespace beforehand
