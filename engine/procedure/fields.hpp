// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <string>
#include <string_view>
#include <type_traits>
#include <utility>
#include <vector>

#include "procedure/forms.hpp"

namespace beforehand::procedure {

/// Reads the keys of one map: required<T>(key), optional<T>(key, otherwise), and at the end
/// finish(), which rejects the keys nobody read. `owner` names the thing in messages: "step etch".
/// A node that is no map is reported once, and then has no keys.
class Fields {
 public:
  Fields(const Node& node, Said owner, Report& report);

  /// The value of a key, none when it is not there. Keys must be string literals.
  const Node* find(std::string_view key);

  /// The value of a key; reports it missing.
  const Node* demand(std::string_view key);

  template <class T>
  auto required(std::string_view key) {
    return value_or<T>(demand(key), {});
  }
  template <class T, class V>
  V optional(std::string_view key, V otherwise) {
    return value_or<T>(find(key), std::move(otherwise));
  }
  /// An optional text or list of texts, empty when it is not there.
  template <class T>
  std::string optional(std::string_view key) {
    return optional<T>(key, std::string{});
  }

  void finish();

  Mark mark() const { return node_.mark; }
  const Said& owner() const { return owner_; }

 private:
  template <class T>
  using ValueOf = typename decltype(Form<T>::read(std::declval<const Node&>(),
                                                  std::declval<Report&>()))::value_type;

  template <class T>
  ValueOf<T> value_or(const Node* node, ValueOf<T> otherwise) {
    if (!node) return otherwise;
    auto value = Form<T>::read(*node, report_);
    return value ? std::move(*value) : otherwise;
  }

  const Node& node_;
  Said owner_;
  Report& report_;
  std::vector<std::string_view> known_;
  std::vector<bool> was_read_;  // by entry
};

/// Calls `visit` for each entry of a list. A single value may be written without brackets.
template <class Visit>
void for_each_item(const Node* node, Visit visit) {
  if (!node) return;
  if (node->kind != Node::Kind::list) return visit(*node);
  for (const Node* item : node->items) visit(*item);
}

}  // namespace beforehand::procedure
