// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "procedure/kind.hpp"

#include "procedure/card_steps.hpp"

namespace beforehand::procedure {

namespace {

Kind kind_in(const Node& root) {
  if (value_of(root, "beforehand")) return Kind::scenario;
  if (value_of(root, "card") && !value_of(root, "texts")) return Kind::card;
  if (value_of(root, "texts")) return Kind::texts;
  return value_of(root, "materials") ? Kind::materials : Kind::scenario;
}

}  // namespace

Head head_of(std::string_view yaml_text) {
  Report report;
  const Tree tree = parse_yaml(yaml_text, report);
  if (!tree.root) return {};
  const auto text = [&](std::string_view key) {
    const Node* node = value_of(*tree.root, key);
    return node ? node->text : std::string();
  };
  const auto kind = kind_in(*tree.root);
  return {kind, text("id"), text("title"), kind == Kind::texts ? text("card") : std::string()};
}

}  // namespace beforehand::procedure
