// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "procedure/formats.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "procedure/card_steps.hpp"
#include "procedure/edit.hpp"
#include "procedure/extent.hpp"
#include "procedure/forms.hpp"

namespace beforehand::procedure {
namespace {

// A key at the top of a file that has another name since a version.
struct Renamed {
  Kind kind;
  int since;
  std::string_view from, to;
};

// 2: "plan" is what the program works out; what the clinician says is announced.
constexpr std::array<Renamed, 3> renamed{{{Kind::scenario, 2, "plan", "announces"},
                                          {Kind::card, 2, "plan", "announces"},
                                          {Kind::texts, 2, "plan", "announces"}}};

std::vector<Renamed> renamed_since(Kind kind, int format) {
  std::vector<Renamed> out;
  for (const auto& r : renamed)
    if (r.kind == kind && r.since > format) out.push_back(r);
  return out;
}

// None, with the reason reported, when it is no version of this kind.
std::optional<int> version_in(const Node& root, Kind kind, Report& report) {
  const Node* node = value_of(root, format_key(kind));
  if (!node) return std::nullopt;
  const auto version = Form<Count>::read(*node, report);
  if (!version) return std::nullopt;
  const int newest = current_format(kind);
  if (*version >= 1 && *version <= newest) return *version;
  report.error(node->mark, say("format {}; this program reads {}", *version,
                               newest == 1 ? "format 1" : "formats 1 to 2"));
  return std::nullopt;
}

const Node* key_node(const Node& root, std::string_view key) {
  const auto at = place_of(root, key);
  return at < root.items.size() ? root.items[at] : nullptr;
}

std::string put_in(std::string text, std::size_t at, std::string_view old, std::string_view now) {
  if (text.compare(at, old.size(), old) != 0)
    throw EditError(fmt::format("\"{}\" is written in a way that cannot be changed in place", old));
  return text.replace(at, old.size(), now);
}

}  // namespace

int current_format(Kind kind) { return kind == Kind::materials ? 1 : 2; }

std::string_view format_key(Kind kind) {
  constexpr std::array<std::string_view, 4> keys{"beforehand", "card", "materials", "texts"};
  return keys[static_cast<std::size_t>(kind)];
}

int bring_up(Tree& tree, Kind kind, Report& report) {
  const int newest = current_format(kind);
  if (!tree.root || tree.root->kind != Node::Kind::map) return newest;
  const int version = version_in(*tree.root, kind, report).value_or(newest);
  Node root = *tree.root;
  for (const auto& r : renamed_since(kind, version)) {
    const auto at = place_of(root, r.from);
    if (at == root.items.size() || key_node(root, r.to)) continue;  // what is odd the reader tells
    Node key = *root.items[at];
    key.text = r.to;
    root.items[at] = &tree.nodes.emplace_back(std::move(key));
  }
  tree.root = &tree.nodes.emplace_back(std::move(root));
  return version;
}

Converted convert(std::string_view yaml) {
  Report report;
  const Tree tree = parse_yaml(yaml, report);
  const Kind kind = kind_of(yaml);
  const auto version = tree.root ? version_in(*tree.root, kind, report) : std::optional<int>();
  const auto problems = report.take();
  if (!problems.empty())
    throw EditError(
        fmt::format("line {}: {}", problems[0].mark.line, problems[0].message.english()));
  if (!version)
    throw EditError(
        "no version at its top, as in \"beforehand: 1\"; is it a file of this program?");
  Converted out{std::string(yaml), *version, current_format(kind), {}};
  if (out.from == out.to) return out;
  // From the last place to the first, so that each mark still holds when its turn comes.
  struct Change {
    Mark mark;
    std::string old, now;
  };
  std::vector<Change> changes{{value_of(*tree.root, format_key(kind))->mark,
                               std::to_string(out.from), std::to_string(out.to)}};
  for (const auto& r : renamed_since(kind, out.from)) {
    if (key_node(*tree.root, r.to))
      throw EditError(fmt::format("line {}: \"{}\" is a name of format {} already",
                                  key_node(*tree.root, r.to)->mark.line, r.to, r.since));
    if (const Node* key = key_node(*tree.root, r.from))
      changes.push_back({key->mark, std::string(r.from), std::string(r.to)});
  }
  std::sort(changes.begin(), changes.end(),
            [](const Change& a, const Change& b) { return b.mark < a.mark; });
  for (const auto& c : changes) {
    out.text = put_in(std::move(out.text), offset_of(yaml, c.mark), c.old, c.now);
    out.changes.insert(out.changes.begin(),
                       fmt::format("line {}: {} is now {}", c.mark.line, c.old, c.now));
  }
  return out;
}

}  // namespace beforehand::procedure
