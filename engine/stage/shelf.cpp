// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "stage/shelf.hpp"

#include <algorithm>
#include <exception>

#include "procedure/kind.hpp"
#include "procedure/texts.hpp"
#include "timing/doubts.hpp"
#include "timing/windows.hpp"

namespace beforehand::stage {
namespace {

namespace fs = std::filesystem;
using procedure::Files;
using procedure::Procedure;
using procedure::Role;

void add_errors(std::vector<Problem>& problems, const std::vector<Problem>& more) {
  for (const auto& problem : more)
    if (problem.kind == Problem::Kind::error) problems.push_back(problem);
}

// What keeps a procedure that was read whole from being played here.
void judge(const Procedure& p, std::vector<Problem>& problems) {
  if (!(p.who(Role::clinician) && p.who(Role::assistant)))
    problems.push_back({Problem::Kind::error, {}, "needs a clinician and an assistant"});
  add_errors(problems, timing::doubts(p));
}

// Texts with errors stop nobody from playing in the language of the scenario.
std::shared_ptr<const Procedure> shown(Procedure p, const Files& files, const std::string& language,
                                       ShelfItem& item) {
  auto in = procedure::in_language(std::move(p), files, language);
  const auto number = static_cast<int>(item.sources.size());
  for (auto& problem : in.problems) {
    problem.kind = Problem::Kind::warning;
    problem.mark.file += number;
    item.problems.push_back(std::move(problem));
  }
  for (auto& source : in.sources) item.sources.push_back(std::move(source));
  return std::make_shared<const Procedure>(std::move(in.procedure));
}

// The files of a folder that are of a kind, under the titles they give themselves.
std::vector<Overlay> overlays(const std::vector<std::string>& files, procedure::Kind kind) {
  std::vector<Overlay> found;
  for (const auto& file : files) try {
      const auto head = procedure::head_of(procedure::load_text(file));
      if (head.kind == kind && !head.title.empty()) found.push_back({file, head.title});
    } catch (const std::exception&) {  // what cannot be read cannot be offered
    }
  return found;
}

std::vector<fs::path> yaml_files(const fs::path& folder) {
  std::vector<fs::path> files;
  std::error_code failed;
  for (const auto& entry : fs::directory_iterator(folder, failed))
    if (entry.path().extension() == ".yaml") files.push_back(entry.path());
  std::sort(files.begin(), files.end());
  return files;
}

}  // namespace

ShelfItem read_item(const Files& files, const std::string& language) {
  ShelfItem item;
  item.file = files.scenario;
  try {
    item.cards = overlays(procedure::cards_of(files.scenario), procedure::Kind::card);
    auto loaded = procedure::load(files);
    item.problems = std::move(loaded.reading.problems);
    item.sources = std::move(loaded.sources);
    auto& read = loaded.reading.procedure;
    if (read) judge(*read, item.problems);
    if (read && !has_errors(item.problems))
      item.procedure = shown(std::move(*read), files, language, item);
  } catch (const std::exception& failure) {
    item.problems.push_back({Problem::Kind::error, {}, std::string(failure.what())});
  }
  return item;
}

std::vector<ShelfItem> read_shelf(const fs::path& folder, const std::string& language) {
  std::vector<std::string> files;
  std::error_code failed;
  for (const auto& entry : fs::directory_iterator(folder, failed)) {
    const auto file = entry.path() / "scenario.yaml";
    if (fs::is_regular_file(file, failed)) files.push_back(file.string());
  }
  std::sort(files.begin(), files.end());
  std::vector<ShelfItem> shelf;
  for (const auto& file : files) shelf.push_back(read_item({file, {}, {}}, language));
  std::stable_sort(shelf.begin(), shelf.end(), [](const ShelfItem& a, const ShelfItem& b) {
    if (!a.procedure || !b.procedure) return a.procedure && !b.procedure;
    return minutes_to_play(*a.procedure) < minutes_to_play(*b.procedure);
  });
  return shelf;
}

std::vector<Overlay> materials_on(const fs::path& folder) {
  std::vector<std::string> files;
  for (const auto& file : yaml_files(folder / "materials")) files.push_back(file.string());
  return overlays(files, procedure::Kind::materials);
}

std::function<Procedure(Procedure)> speaker(std::vector<fs::path> folders, std::string language) {
  return [folders = std::move(folders), language = std::move(language)](Procedure p) {
    for (const auto& folder : folders) try {
        const auto file = folder / p.id / "scenario.yaml";
        if (!fs::exists(file)) continue;
        Files files{file.string(), {}, {}};
        if (!p.card.empty()) files.card = (folder / p.id / "cards" / (p.card + ".yaml")).string();
        return procedure::in_language(p, files, language).procedure;
      } catch (const std::exception&) {  // files that went or changed: as it was kept
      }
    return p;
  };
}

std::string problem_line(const Problem& problem, const std::vector<Source>& sources,
                         const Phrases& phrases) {
  const auto message = problem.message.in(phrases);
  const auto number = static_cast<std::size_t>(problem.mark.file);
  if (problem.mark.line <= 0 || number >= sources.size()) return message;
  const auto name = fs::path(sources[number].path).filename().string();
  return name + ":" + std::to_string(problem.mark.line) + ": " + message;
}

ShelfWatch::ShelfWatch(fs::path folder) : folder_(std::move(folder)), seen_(look()) {}

bool ShelfWatch::changed() {
  auto now = look();
  const bool differs = now != seen_;
  seen_ = std::move(now);
  return differs;
}

std::vector<ShelfWatch::Seen> ShelfWatch::look() const {
  std::vector<Seen> seen;
  std::error_code failed;
  const auto look_into = [&](const fs::path& folder) {
    for (const auto& file : yaml_files(folder)) {
      const auto saved = fs::last_write_time(file, failed);
      seen.emplace_back(file, saved, fs::file_size(file, failed));
    }
  };
  look_into(folder_ / "materials");
  for (const auto& entry : fs::directory_iterator(folder_, failed)) {
    if (!fs::exists(entry.path() / "scenario.yaml", failed)) continue;
    look_into(entry.path());
    look_into(entry.path() / "cards");
    for (const auto& deeper : fs::directory_iterator(entry.path() / "cards", failed))
      look_into(deeper.path());  // a folder a language
  }
  std::sort(seen.begin(), seen.end());
  return seen;
}

int minutes_to_play(const procedure::Procedure& procedure) {
  Ms length = timing::earliest_finish(procedure, {});
  for (const auto& step : procedure.steps)
    if (step.lapse && step.when.empty()) length -= std::min(length, step.takes.usual);
  const auto minutes = (length + Ms{59'999}) / Ms{60'000};
  return static_cast<int>(std::max<std::int64_t>(1, minutes));
}

}  // namespace beforehand::stage
