// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "source_tree.hpp"

#include <algorithm>
#include <array>
#include <cctype>
#include <fstream>
#include <sstream>

namespace beforehand::structure {
namespace {

namespace fs = std::filesystem;

bool is_left_behind(const fs::path& folder) {
  static constexpr std::array<std::string_view, 5> names{"build", ".git", ".cache", ".vscode",
                                                         "node_modules"};
  return std::find(names.begin(), names.end(), folder.filename().string()) != names.end();
}

std::string content(const fs::path& path) {
  std::ifstream in(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

std::vector<std::string> split(const std::string& text) {
  std::vector<std::string> lines;
  std::istringstream in(text);
  for (std::string line; std::getline(in, line);) lines.push_back(line);
  return lines;
}

}  // namespace

std::vector<SourceFile> text_files(const std::string& folder) {
  const fs::path root{PROJECT_DIR};
  std::vector<SourceFile> files;
  if (!fs::exists(root / folder)) return files;
  for (auto it = fs::recursive_directory_iterator(root / folder); it != fs::end(it); ++it) {
    if (it->is_directory() && is_left_behind(it->path())) it.disable_recursion_pending();
    if (!it->is_regular_file()) continue;
    const std::string text = content(it->path());
    const bool binary = text.find('\0') != std::string::npos;
    if (!binary) files.push_back({fs::relative(it->path(), root).generic_string(), split(text)});
  }
  std::sort(files.begin(), files.end(), [](auto& a, auto& b) { return a.path < b.path; });
  return files;
}

std::vector<SourceFile> cpp_files(const std::string& folder) {
  auto files = text_files(folder);
  std::erase_if(files, [](const SourceFile& file) {
    const auto extension = fs::path(file.path).extension();
    return extension != ".cpp" && extension != ".hpp";
  });
  return files;
}

std::string place(const SourceFile& file, std::size_t line_index) {
  return file.path + ":" + std::to_string(line_index + 1) + ": ";
}

bool holds_word(std::string_view line, std::string_view text) {
  const auto in_word = [](char c) {
    return std::isalnum(static_cast<unsigned char>(c)) || c == '_';
  };
  for (auto at = line.find(text); at != line.npos; at = line.find(text, at + 1)) {
    const auto end = at + text.size();
    const bool starts = at == 0 || !in_word(text.front()) || !in_word(line[at - 1]);
    const bool ends = end == line.size() || !in_word(text.back()) || !in_word(line[end]);
    if (starts && ends) return true;
  }
  return false;
}

}  // namespace beforehand::structure
