// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "stage/scenario_copy.hpp"

#include <fmt/format.h>

#include <filesystem>
#include <fstream>

#include "procedure/edit.hpp"
#include "procedure/reader.hpp"

namespace beforehand::stage {

namespace fs = std::filesystem;

namespace {

// A copy of a copy is numbered on, and not named twice: "core-2" leads to "core-3".
std::string stem_of(const std::string& id, int& number) {
  const auto dash = id.rfind('-');
  const auto digits = dash == std::string::npos ? std::string() : id.substr(dash + 1);
  const bool copied = !digits.empty() && digits.size() < 4 &&
                      digits.find_first_not_of("0123456789") == std::string::npos;
  number = copied ? std::stoi(digits) + 1 : 2;
  return copied ? id.substr(0, dash) : id;
}

std::string title_without_number(const std::string& title) {
  const auto at = title.rfind(" (");
  const bool numbered = at != std::string::npos && title.back() == ')' &&
                        title.find_first_not_of("0123456789", at + 2) == title.size() - 1;
  return numbered ? title.substr(0, at) : title;
}

}  // namespace

std::string write_copy(const std::string& folder, std::string yaml,
                       const procedure::Procedure& of) {
  int number = 2;
  const auto stem = stem_of(of.id, number);
  std::error_code failed;
  while (fs::exists(fs::path(folder) / fmt::format("{}-{}", stem, number), failed)) ++number;
  const auto id = fmt::format("{}-{}", stem, number);
  const auto title = fmt::format("{} ({})", title_without_number(of.title), number);
  yaml = procedure::with_value(yaml, "id", id);
  yaml = procedure::with_value(yaml, "title", procedure::yaml_text(title));
  if (!procedure::read(yaml).procedure)
    throw procedure::EditError("the changes do not go together");
  const auto own = fs::path(folder) / id;
  fs::create_directories(own);
  const auto file = (own / "scenario.yaml").string();
  std::ofstream out(file, std::ios::binary);
  out << yaml << std::flush;
  if (!out) throw std::runtime_error(file + ": cannot be written");
  return file;
}

}  // namespace beforehand::stage
