// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "procedure/kind.hpp"

#include "procedure/card_steps.hpp"

namespace beforehand::procedure {

Kind kind_of(std::string_view yaml_text) {
  Report report;
  const Tree tree = parse_yaml(yaml_text, report);
  if (!tree.root || value_of(*tree.root, "beforehand")) return Kind::scenario;
  if (value_of(*tree.root, "card")) return Kind::card;
  if (value_of(*tree.root, "texts")) return Kind::texts;
  return value_of(*tree.root, "materials") ? Kind::materials : Kind::scenario;
}

}  // namespace beforehand::procedure
