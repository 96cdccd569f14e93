// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "language.hpp"

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <algorithm>
#include <filesystem>

#include "base/text.hpp"
#include "procedure/texts.hpp"
#include "stage/app.hpp"

namespace beforehand::command {

namespace fs = std::filesystem;

void add_language(CLI::App& sub, std::string& language) {
  sub.add_option("--language", language, "Of the page: en or es")->capture_default_str();
}

std::string home_of_texts() {
  const auto home = stage::home_folder();
  if (home.empty())
    throw Failure(environment_at_fault,
                  "the folder \"assets\" is missing: it belongs beside or above the program");
  return home + "/assets/strings";
}

Strings texts_in(const std::string& language) {
  const fs::path home = home_of_texts();
  std::vector<std::string> known;
  for (const auto& entry : fs::directory_iterator(home))
    if (entry.path().extension() == ".txt") known.push_back(entry.path().stem().string());
  std::sort(known.begin(), known.end());
  if (std::find(known.begin(), known.end(), language) == known.end())
    throw Failure(wrong_usage, fmt::format("there are no texts in the language '{}', only in {}",
                                           language, list_text(known)));
  return Strings::load(home / (language + ".txt"));
}

procedure::Procedure told_in(const std::string& language, procedure::Procedure p,
                             const std::string& input, const Layers& layers) {
  return procedure::in_language(std::move(p), files_of(input, layers), language).procedure;
}

}  // namespace beforehand::command
