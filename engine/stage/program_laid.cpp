// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// The card and the materials that were laid over a scenario last are laid over it again.
#include <algorithm>
#include <filesystem>

#include "stage/program.hpp"

namespace beforehand::stage {
namespace {

std::string name_of(const std::string& file) { return std::filesystem::path(file).stem().string(); }

// None when there is no such file any more.
const Overlay* called(const std::string& name, const std::vector<Overlay>& offered) {
  const auto found = std::find_if(offered.begin(), offered.end(), [&](const Overlay& overlay) {
    return name_of(overlay.file) == name;
  });
  return found == offered.end() ? nullptr : &*found;
}

}  // namespace

// Materials hold from one scenario to the next until others are chosen for one of them.
void Program::lay_as_before() {
  const auto& item = shelf_.items()[choice_.item];
  if (!item.procedure) return;
  const auto laid = settings_.laid.find(item.procedure->id);
  if (laid == settings_.laid.end()) return;
  const auto* card = called(laid->second.card, item.cards);
  choice_.card = card ? card->file : std::string();
  const auto offered = shelf_.materials();
  const auto* materials = called(laid->second.materials, offered);
  choice_.materials = materials ? materials->file : std::string();
}

void Program::remember_laid() {
  const auto& item = shelf_.items()[choice_.item];
  if (!item.procedure) return;
  settings_.laid[item.procedure->id] = {name_of(choice_.card), name_of(choice_.materials)};
  settings_problem_ = outside_.save ? outside_.save(settings_) : std::string();
}

std::map<std::string, std::string> Program::laid_titles() const {
  std::map<std::string, std::string> titles;
  const auto offered = shelf_.materials();
  for (const auto& item : shelf_.items()) {
    const auto laid =
        item.procedure ? settings_.laid.find(item.procedure->id) : settings_.laid.end();
    if (laid == settings_.laid.end()) continue;
    std::string title;
    if (const auto* card = called(laid->second.card, item.cards)) title = card->title;
    if (const auto* materials = called(laid->second.materials, offered))
      title += (title.empty() ? "" : "; ") + materials->title;
    if (!title.empty()) titles[item.file] = title;
  }
  return titles;
}

}  // namespace beforehand::stage
