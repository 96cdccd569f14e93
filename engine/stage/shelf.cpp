// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "stage/shelf.hpp"

#include <algorithm>
#include <exception>

#include "procedure/reader.hpp"
#include "timing/windows.hpp"

namespace beforehand::stage {
namespace {

ShelfItem read_item(const std::string& file) {
  ShelfItem item;
  item.file = file;
  try {
    auto reading = procedure::read(procedure::load_text(file));
    item.problems = std::move(reading.problems);
    using procedure::Role;
    const auto& read = reading.procedure;
    if (read && !has_errors(item.problems) &&
        !(read->who(Role::clinician) && read->who(Role::assistant)))
      item.problems.push_back({Problem::Kind::error, {}, "needs a clinician and an assistant"});
    if (!has_errors(item.problems)) item.procedure = std::move(reading.procedure);
  } catch (const std::exception& failure) {
    item.problems.push_back({Problem::Kind::error, {}, failure.what()});
  }
  return item;
}

}  // namespace

std::vector<ShelfItem> read_shelf(const std::filesystem::path& folder) {
  std::vector<std::string> files;
  std::error_code failed;
  for (const auto& entry : std::filesystem::directory_iterator(folder, failed)) {
    const auto file = entry.path() / "scenario.yaml";
    if (std::filesystem::is_regular_file(file, failed)) files.push_back(file.string());
  }
  std::sort(files.begin(), files.end());
  std::vector<ShelfItem> shelf;
  for (const auto& file : files) shelf.push_back(read_item(file));
  std::stable_sort(shelf.begin(), shelf.end(), [](const ShelfItem& a, const ShelfItem& b) {
    if (!a.procedure || !b.procedure) return a.procedure.has_value() && !b.procedure;
    return minutes_to_play(*a.procedure) < minutes_to_play(*b.procedure);
  });
  return shelf;
}

int minutes_to_play(const procedure::Procedure& procedure) {
  Ms length = timing::earliest_finish(procedure, {});
  for (const auto& step : procedure.steps)
    if (step.lapse && step.when.empty()) length -= std::min(length, step.takes.usual);
  const auto minutes = (length + Ms{59'999}) / Ms{60'000};
  return static_cast<int>(std::max<std::int64_t>(1, minutes));
}

}  // namespace beforehand::stage
