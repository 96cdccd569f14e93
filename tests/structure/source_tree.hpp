// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// The project's own files as text, for the tests that read them.
#pragma once

#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

namespace beforehand::structure {

struct SourceFile {
  std::string path;  // from the project's root, with "/" between the parts
  std::vector<std::string> lines;
};

// Every text file of the project below `folder` ("" for all), by path. What a build, an editor or
// git leaves behind is not the project's.
std::vector<SourceFile> text_files(const std::string& folder);

// The same, C++ headers and sources only.
std::vector<SourceFile> cpp_files(const std::string& folder);

// "path:line: " with the line counted from 1, as editors read it.
std::string place(const SourceFile& file, std::size_t line_index);

// Whether the text stands in the line, and not as a part of a longer word.
bool holds_word(std::string_view line, std::string_view text);

}  // namespace beforehand::structure
