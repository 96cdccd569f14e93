// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <chrono>
#include <filesystem>
#include <functional>
#include <memory>
#include <string>
#include <tuple>
#include <vector>

#include "procedure/load.hpp"
#include "procedure/procedure.hpp"

namespace beforehand::stage {

/// What can be laid over a scenario: a preference card, or a materials file.
struct Overlay {
  std::string file, title;
  friend bool operator==(const Overlay&, const Overlay&) = default;
};

/// A scenario file as the window offers it. One that cannot be played has problems instead of a
/// procedure; one that can may have warnings.
struct ShelfItem {
  std::string file;
  std::shared_ptr<const procedure::Procedure> procedure;  ///< with its texts as they are shown
  std::vector<Problem> problems;
  std::vector<Source> sources;  ///< what it was read from: as the marks of the problems count
  std::vector<Overlay> cards;   ///< those beside it that can be read
};

/// A scenario with what is laid over it, in a language if it has its texts.
ShelfItem read_item(const procedure::Files&, const std::string& language);

/// Every */scenario.yaml in a folder, the shortest procedure first, unplayable ones last. An
/// unreadable or missing folder gives an empty shelf.
std::vector<ShelfItem> read_shelf(const std::filesystem::path& folder,
                                  const std::string& language = "en");

/// The materials files of the shelf's folder "materials" that can be read.
std::vector<Overlay> materials_on(const std::filesystem::path& folder);

/// Puts procedures that were kept elsewhere into a language, with the texts beside the scenario of
/// the same id in one of the folders; what differs from that scenario stays as it is.
std::function<procedure::Procedure(procedure::Procedure)> speaker(
    std::vector<std::filesystem::path> folders, std::string language);

/// Where and what, as a person reads it: "scenario.yaml, line 12: ...".
std::string problem_line(const Problem&, const std::vector<Source>&, const Phrases&);

/// Sees when somebody saves a scenario, a card, its texts or materials.
class ShelfWatch {
 public:
  explicit ShelfWatch(std::filesystem::path folder);
  /// Whether a file was saved, added or taken away since this was asked last.
  bool changed();

 private:
  using Seen = std::tuple<std::filesystem::path, std::filesystem::file_time_type, std::uintmax_t>;
  std::vector<Seen> look() const;

  std::filesystem::path folder_;
  std::vector<Seen> seen_;
};

/// How long a person sits in front of it at the usual pace: the chair time without the stretches
/// that are run fast. Rounded up to whole minutes.
int minutes_to_play(const procedure::Procedure&);

}  // namespace beforehand::stage
