// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <concepts>
#include <map>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace beforehand {

/// By English words of ours, the same in another language: there {0}, {1}, ... stand where the {}
/// of the English stand, counted from the left.
using Phrases = std::map<std::string, std::string, std::less<>>;

/// Something said to a person so that it can be said in another language too. The English words are
/// its name; what is put into them is a figure, a name or somebody's own words, which stay as they
/// are, or Said itself.
class Said {
 public:
  Said() = default;
  /// Words of ours.
  Said(const char* words) : words_(words) {}
  /// As it is in every language.
  Said(std::string as_it_is) : words_(std::move(as_it_is)), ours_(false) {}
  Said(std::string_view as_it_is) : Said(std::string(as_it_is)) {}
  Said(std::integral auto number) : Said(std::to_string(number)) {}

  /// Words of ours with a {} for each argument, in turn.
  template <class... Arguments>
  friend Said say(const char* words, Arguments&&... arguments) {
    Said said(words);
    (said.arguments_.emplace_back(std::forward<Arguments>(arguments)), ...);
    return said;
  }

  friend bool operator==(const Said&, const Said&) = default;
  bool empty() const { return words_.empty(); }
  std::string english() const { return in({}); }
  /// In the language of the phrases; what they do not have, in English.
  std::string in(const Phrases&) const;

 private:
  std::string words_;
  std::vector<Said> arguments_;
  bool ours_ = true;
};

template <class... Arguments>
Said say(const char* words, Arguments&&... arguments);

/// "a, b and c".
Said listed(const std::vector<Said>& items);

}  // namespace beforehand
