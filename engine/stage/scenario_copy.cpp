// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "stage/scenario_copy.hpp"

#include <fmt/format.h>

#include <filesystem>
#include <fstream>

#include "procedure/characters.hpp"
#include "procedure/edit.hpp"
#include "procedure/forms.hpp"
#include "procedure/reader.hpp"
#include "procedure/texts.hpp"
#include "procedure/title.hpp"

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

// As long as a title may be, with its number.
std::string numbered(const std::string& title, int number) {
  const auto suffix = fmt::format(" ({})", number);
  auto stem = title_without_number(title);
  const auto cut = [&] {  // a letter of several bytes goes as one
    while ((stem.back() & 0xc0) == 0x80) stem.pop_back();
    stem.pop_back();
  };
  while (procedure::length_in_characters(stem + suffix) > procedure::longest_title) cut();
  return stem + suffix;
}

void write_file(const std::string& file, const std::string& text) {
  std::ofstream out(file, std::ios::binary);
  out << text << std::flush;
  if (!out) throw std::runtime_error(file + ": cannot be written");
}

void write_texts(const std::string& copy_file, const procedure::Procedure& copy,
                 const procedure::Files& from, int number) {
  const auto all = procedure::in_every_language(from);
  for (std::size_t i = 1; i < all.size(); ++i) {
    const auto title = numbered(procedure::full_title(all[i], procedure::longest_title), number);
    write_file(procedure::text_file(copy_file, all[i].language),
               procedure::texts_of_copy(copy, all[0], all[i], title));
  }
}

}  // namespace

std::string write_copy(const std::string& folder, std::string yaml, const procedure::Files& from) {
  const auto of = procedure::read(yaml).procedure;
  if (!of) throw procedure::EditError("the changes do not go together");
  int number = 2;
  const auto stem = stem_of(of->id, number);
  std::error_code failed;
  while (fs::exists(fs::path(folder) / fmt::format("{}-{}", stem, number), failed)) ++number;
  const auto id = fmt::format("{}-{}", stem, number);
  yaml = procedure::with_value(yaml, "id", id);
  yaml = procedure::with_value(yaml, "title", procedure::yaml_text(numbered(of->title, number)));
  const auto copy = procedure::read(yaml).procedure;
  if (!copy) throw procedure::EditError("the copy's name is too long: " + id);
  const auto own = fs::path(folder) / id;
  fs::create_directories(own);
  const auto file = (own / "scenario.yaml").string();
  write_file(file, yaml);
  write_texts(file, *copy, from, number);
  return file;
}

}  // namespace beforehand::stage
