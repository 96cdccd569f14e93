// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <chrono>
#include <cstddef>
#include <string>
#include <vector>

#include "stage/shelf.hpp"

namespace beforehand::stage {

/// The scenarios on offer, as their files were when they were read last: those that came with the
/// program, behind them the user's own. Both folders are watched.
class LiveShelf {
 public:
  /// `own` may be empty: then everything of the user's lies in `shipped` too.
  LiveShelf(std::string shipped, std::string own, std::vector<ShelfItem> first);

  /// Its address stays, whatever is read.
  const std::vector<ShelfItem>& items() const { return items_; }
  /// Where it stands now, none of them: the number of items.
  std::size_t position_of(const std::string& file) const;
  const std::string& shipped_folder() const { return shipped_; }
  /// Where copies are written.
  const std::string& own_folder() const { return own_.empty() ? shipped_ : own_; }
  /// The materials files of both folders.
  std::vector<Overlay> materials() const;

  /// Whether a file was saved, added or taken away; looks four times a second of real time.
  bool saved(std::chrono::microseconds real);
  /// The files that are there now. A shelf whose folder is gone stays as it was, in this language.
  void read_again(const std::string& language);

 private:
  std::vector<ShelfItem> read(const std::string& language) const;

  std::string shipped_, own_;
  std::vector<ShelfItem> items_;
  std::vector<ShelfWatch> watches_;
  std::chrono::microseconds unwatched_{0};
};

}  // namespace beforehand::stage
