// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "stage/languages.hpp"

#include <algorithm>

namespace beforehand::stage {
namespace {

namespace fs = std::filesystem;

constexpr const char* english = "en";

fs::path file_of(const fs::path& folder, const std::string& language) {
  return folder / (language + ".txt");
}

bool has_file(const fs::path& folder, const std::string& language) {
  std::error_code failed;
  return fs::exists(file_of(folder, language), failed);
}

}  // namespace

Languages languages_in(const fs::path& folder) {
  Languages languages;
  std::error_code failed;
  for (const auto& entry : fs::directory_iterator(folder, failed)) {
    if (entry.path().extension() != ".txt") continue;
    try {
      languages.all.push_back(
          {entry.path().stem().string(), Strings::load(entry.path())("language.name")});
    } catch (const BadStrings& bad) {
      languages.problems += bad.what();
    }
  }
  std::sort(languages.all.begin(), languages.all.end(),
            [](const Language& a, const Language& b) { return a.code < b.code; });
  return languages;
}

Strings strings_in(const fs::path& folder, const std::string& language) {
  if (!has_file(folder, language)) return Strings::load(file_of(folder, english));
  auto strings = Strings::load(file_of(folder, language));
  if (language != english) strings.complete_with(Strings::load(file_of(folder, english)));
  return strings;
}

Strings strings_or_english(const fs::path& folder, const std::string& language) {
  try {
    return strings_in(folder, language);
  } catch (const BadStrings&) {
    return strings_in(folder, english);  // languages_in() says what is wrong with the other
  }
}

}  // namespace beforehand::stage
