// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "base/strings.hpp"

namespace beforehand::stage {

/// A language the screens can be read in.
struct Language {
  std::string code;  ///< its file's name without the ending
  std::string name;  ///< as it calls itself
};

/// The languages of a folder whose file can be read, in the order of their codes; `problems` says
/// of the others why not.
struct Languages {
  std::vector<Language> all;
  std::string problems;
};
Languages languages_in(const std::filesystem::path& folder);

/// The texts of a language; what it has no text for is in English, and so is all when it has no
/// file. Throws BadStrings when its file or the English one cannot be read.
Strings strings_in(const std::filesystem::path& folder, const std::string& language);

/// The same, but a language whose file cannot be read is replaced by English. Throws BadStrings
/// only when that cannot be read either.
Strings strings_or_english(const std::filesystem::path& folder, const std::string& language);

}  // namespace beforehand::stage
