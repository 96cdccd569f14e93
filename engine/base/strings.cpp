// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "base/strings.hpp"

#include <fstream>
#include <sstream>

namespace beforehand {
namespace {

std::string_view trimmed(std::string_view s) {
  constexpr std::string_view blank = " \t\r";
  const auto first = s.find_first_not_of(blank);
  if (first == std::string_view::npos) return {};
  return s.substr(first, s.find_last_not_of(blank) - first + 1);
}

}  // namespace

Strings Strings::parse(std::string_view content, const std::string& name) {
  Strings result;
  std::string problems;
  std::istringstream lines{std::string(content)};
  std::string line;
  for (int number = 1; std::getline(lines, line); ++number) {
    const auto text = trimmed(line);
    if (text.empty() || text.front() == '#') continue;
    const auto place = name + ":" + std::to_string(number) + ": error: ";
    const auto equals = text.find('=');
    const auto key = trimmed(text.substr(0, equals));
    if (equals == std::string_view::npos || key.empty())
      problems += place + "expected \"key = text\"\n";
    else if (!result.texts_.emplace(key, trimmed(text.substr(equals + 1))).second)
      problems += place + "\"" + std::string(key) + "\" is given twice\n";
  }
  if (!problems.empty()) throw BadStrings(problems);
  return result;
}

Strings Strings::load(const std::filesystem::path& file) {
  const auto read = [](const std::filesystem::path& path) {
    std::ifstream in(path, std::ios::binary);
    if (!in) throw BadStrings(path.string() + ": error: the texts of the screens cannot be read\n");
    std::ostringstream content;
    content << in.rdbuf();
    return parse(content.str(), path.string());
  };
  auto strings = read(file);
  const auto problems = file.parent_path().parent_path() / "problems" / file.filename();
  std::error_code failed;
  if (std::filesystem::exists(problems, failed)) strings.phrases_ = read(problems).texts_;
  return strings;
}

const std::string& Strings::operator()(std::string_view key) const {
  if (const auto found = texts_.find(key); found != texts_.end()) return found->second;
  std::string shown = "?";
  shown.append(key).append("?");
  return missing_.emplace(key, shown).first->second;
}

std::string Strings::operator()(std::string_view key,
                                const std::vector<std::string>& arguments) const {
  return filled((*this)(key), arguments);
}

std::string filled(std::string_view text, const std::vector<std::string>& arguments) {
  std::string result;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const bool slot = text[i] == '{' && i + 2 < text.size() && text[i + 2] == '}' &&
                      text[i + 1] >= '0' && text[i + 1] <= '9';
    const auto which = slot ? static_cast<std::size_t>(text[i + 1] - '0') : 0;
    if (slot && which < arguments.size()) {
      result += arguments[which];
      i += 2;
    } else {
      result += text[i];
    }
  }
  return result;
}

}  // namespace beforehand
