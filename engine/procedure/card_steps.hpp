// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <deque>
#include <string>
#include <string_view>
#include <vector>

#include "procedure/fields.hpp"

namespace beforehand::procedure {

/// The step of a list with this id, or none.
const Node* find_step(const Node& steps, std::string_view id);

/// A map with the keys of `change` in place of its own; a key with nothing behind it is taken away.
/// New nodes go to `nodes`.
const Node* with_changed_keys(std::deque<Node>& nodes, const Node& old, const Node& change,
                              const std::string& owner, Report& report);

/// Changes the list of steps as a card says.
class CardSteps {
 public:
  CardSteps(std::deque<Node>& nodes, const Node& steps, Report& report)
      : nodes_(nodes), list_(steps), report_(report), steps_(steps.items) {}

  const Node* changed(const Node& changes);

 private:
  void apply(const Node& change);
  void change_step(const Node& id, const Node& change);
  void add_step(const Node& id, const Node& change);
  void move_step(const Node& id, const Node& change);
  void leave_out(const Node& id, const Node& change);
  std::size_t find(const Node& id);
  std::size_t target(const Node& change, const char* what);
  const Node* rest_of(const Node& change);
  void mend_references();
  const Node* mended(const Node& step);
  const Node* without_left_out(const Node& list, bool follow);
  void add_mended(const Node& item, std::size_t far, Node& out);
  const Node* left_out(const Node& reference) const;

  struct LeftOut {
    const Node* step;
    Mark mark;
  };

  std::deque<Node>& nodes_;
  const Node& list_;
  Report& report_;
  std::vector<const Node*> steps_;
  std::vector<LeftOut> left_out_;
};

}  // namespace beforehand::procedure
