// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "procedure/fields.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "base/text.hpp"
#include "procedure/characters.hpp"

namespace beforehand::procedure {
namespace {

const Node& nothing() {
  static const Node node;
  return node;
}

}  // namespace

Fields::Fields(const Node& node, std::string owner, Report& report)
    : node_(node.kind == Node::Kind::map ? node : nothing()),
      owner_(std::move(owner)),
      report_(report),
      was_read_(node_.items.size() / 2) {
  if (node.kind != Node::Kind::map)
    report.error(node.mark, fmt::format("{} needs keys and values here (key: value)", owner_));
  known_.reserve(32);
}

const Node* Fields::find(std::string_view key) {
  known_.push_back(key);
  for (std::size_t i = 0; i < was_read_.size(); ++i) {
    if (node_.items[2 * i]->text != key) continue;
    was_read_[i] = true;
    return node_.items[2 * i + 1];
  }
  return nullptr;
}

const Node* Fields::demand(std::string_view key) {
  const Node* value = find(key);
  if (!value && &node_ != &nothing())
    report_.error(node_.mark, fmt::format("{} has no \"{}\"", owner_, key));
  return value;
}

void Fields::finish() {
  for (std::size_t i = 0; i < was_read_.size(); ++i) {
    const Node& key = *node_.items[2 * i];
    if (was_read_[i] || key.kind != Node::Kind::text || report_.full()) continue;
    bool known = false;  // the second of two: reported as that
    for (const auto name : known_) known = known || name == key.text;
    if (known) continue;
    std::vector<std::string> names;
    for (const auto name : known_)
      if (std::find(names.begin(), names.end(), name) == names.end()) names.emplace_back(name);
    const auto near = nearest(key.text, names);
    report_.error(key.mark, fmt::format("{} has no key \"{}\"; {}", owner_, shown(key.text),
                                        near ? fmt::format("did you mean \"{}\"?", *near)
                                             : fmt::format("it may have {}", list_text(names))));
  }
}

}  // namespace beforehand::procedure
