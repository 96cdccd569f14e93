// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "procedure/fields.hpp"

#include <algorithm>
#include <array>

#include "base/text.hpp"
#include "procedure/characters.hpp"

namespace beforehand::procedure {
namespace {

const Node& nothing() {
  static const Node node;
  return node;
}

// Where a key that is asked for nowhere here belongs, by the sections in which people look for it.
struct Home {
  std::string_view key;
  const char* where;
};
constexpr const char* of_a_supply = "a supply, under \"supplies\"";
constexpr const char* of_a_step = "a step";
constexpr const char* of_a_link = "a link, as in \"after: [{step: etch, at-most: 30 s}]\"";
constexpr const char* of_a_signal = "a signal, under \"signals\"";
constexpr std::array<Home, 24> homes{
    {{"working-time", of_a_supply}, {"sets-as", of_a_supply},  {"hazards", of_a_supply},
     {"stored", of_a_supply},       {"ends", of_a_supply},     {"icon", of_a_supply},
     {"after-use", of_a_supply},    {"material", of_a_supply}, {"cleans-hands", of_a_supply},
     {"does", of_a_step},           {"takes", of_a_step},      {"covers", of_a_step},
     {"needs", of_a_step},          {"keeps", of_a_step},      {"severity", of_a_step},
     {"timed-by", of_a_step},       {"says", of_a_step},       {"at-most", of_a_link},
     {"at-least", of_a_link},       {"if-late", of_a_link},    {"unsafe", of_a_link},
     {"likely", of_a_signal},       {"delay", of_a_signal},    {"foretold", of_a_signal}}};

const char* home_of(std::string_view key) {
  const auto found =
      std::find_if(homes.begin(), homes.end(), [&](const Home& home) { return home.key == key; });
  return found == homes.end() ? nullptr : found->where;
}

}  // namespace

Fields::Fields(const Node& node, Said owner, Report& report)
    : node_(node.kind == Node::Kind::map ? node : nothing()),
      owner_(std::move(owner)),
      report_(report),
      was_read_(node_.items.size() / 2) {
  if (node.kind != Node::Kind::map)
    report.error(node.mark, say("{} needs keys and values here (key: value)", owner_));
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
    report_.error(node_.mark, say("{} has no \"{}\"", owner_, key));
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
    if (const auto* home = home_of(key.text)) {
      report_.error(key.mark,
                    say("{} has no key \"{}\"; it belongs to {}", owner_, key.text, home));
      continue;
    }
    const auto near = nearest(key.text, names);
    report_.error(key.mark,
                  say("{} has no key \"{}\"; {}", owner_, shown(key.text),
                      near ? say("did you mean \"{}\"?", *near)
                           : say("it may have {}", listed({names.begin(), names.end()}))));
  }
}

}  // namespace beforehand::procedure
