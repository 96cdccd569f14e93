// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "stage/live_shelf.hpp"

#include <algorithm>
#include <iterator>
#include <utility>

namespace beforehand::stage {
namespace {

template <class T>
void add_behind(std::vector<T>& list, std::vector<T> more) {
  std::move(more.begin(), more.end(), std::back_inserter(list));
}

}  // namespace

LiveShelf::LiveShelf(std::string shipped, std::string own, std::vector<ShelfItem> first)
    : shipped_(std::move(shipped)), own_(std::move(own)), items_(std::move(first)) {
  watches_.emplace_back(shipped_);
  if (!own_.empty()) watches_.emplace_back(own_);
}

std::size_t LiveShelf::position_of(const std::string& file) const {
  const auto at = std::find_if(items_.begin(), items_.end(),
                               [&](const ShelfItem& item) { return item.file == file; });
  return static_cast<std::size_t>(at - items_.begin());
}

std::vector<Overlay> LiveShelf::materials() const {
  auto all = materials_on(shipped_);
  if (!own_.empty()) add_behind(all, materials_on(own_));
  return all;
}

bool LiveShelf::saved(std::chrono::microseconds real) {
  unwatched_ += real;
  if (unwatched_ < std::chrono::milliseconds(250)) return false;
  unwatched_ = {};
  bool any = false;
  for (auto& watch : watches_) any |= watch.changed();
  return any;
}

void LiveShelf::read_again(const std::string& language) {
  auto now = read(language);
  if (now.empty())
    for (const auto& item : items_) now.push_back(read_item({item.file, {}, {}}, language));
  items_ = std::move(now);
}

std::vector<ShelfItem> LiveShelf::read(const std::string& language) const {
  auto all = read_shelf(shipped_, language);
  if (!own_.empty()) add_behind(all, read_shelf(own_, language));
  return all;
}

}  // namespace beforehand::stage
