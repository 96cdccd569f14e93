// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "procedure/yaml_tree.hpp"

#include <yaml-cpp/eventhandler.h>
#include <yaml-cpp/exceptions.h>
#include <yaml-cpp/parser.h>

#include <algorithm>
#include <array>
#include <sstream>
#include <unordered_map>

#include "procedure/characters.hpp"

namespace beforehand::procedure {
namespace {

constexpr std::size_t deepest = 32;
constexpr std::size_t most_aliases = 64;
constexpr std::size_t most_nodes = 60'000;
constexpr std::size_t most_entries = 1'000;  // in one list or map

// yaml-cpp counts from 0.
Mark mark_of(const YAML::Mark& m, int file) {
  return m.is_null() ? Mark{0, 0, file} : Mark{m.line + 1, m.column + 1, file};
}

struct Refusal {
  Mark mark;
  Said message;
};

// Takes yaml-cpp's events. Its own loader would drop the place of a second key of the same name.
class Builder final : public YAML::EventHandler {
 public:
  Builder(Tree& tree, Report& report, int file) : tree_(tree), report_(report), file_(file) {}

  void OnDocumentStart(const YAML::Mark& mark) override {
    if (tree_.root)
      throw Refusal{mark_of(mark), "a second document begins; a scenario is one: take --- away"};
  }
  void OnDocumentEnd() override {}
  void OnNull(const YAML::Mark& mark, YAML::anchor_t anchor) override {
    const Mark key = key_before();
    Node& node = add(Node::Kind::empty, mark);
    if (key.line > 0) node.mark = key;  // yaml-cpp's place is that of whatever comes next
    name(node, anchor);
  }
  void OnScalar(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                const std::string& value) override {
    refuse_tag(mark, tag);
    Node& node = add(Node::Kind::text, mark);
    node.text = value;
    name(node, anchor);
  }
  void OnAlias(const YAML::Mark& mark, YAML::anchor_t anchor) override {
    if (++aliases_ > most_aliases)
      throw Refusal{mark_of(mark), say("more than {} aliases (*name); write it out", most_aliases)};
    const auto named = named_.find(anchor);
    if (named == named_.end()) throw Refusal{mark_of(mark), "an alias inside what it names"};
    attach(*named->second, mark);
  }
  void OnSequenceStart(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                       YAML::EmitterStyle::value) override {
    begin(Node::Kind::list, mark, tag, anchor);
  }
  void OnMapStart(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                  YAML::EmitterStyle::value) override {
    begin(Node::Kind::map, mark, tag, anchor);
  }
  void OnSequenceEnd() override { end(); }
  void OnMapEnd() override {
    refuse_odd_keys(*open_.back().node);
    end();
  }

 private:
  struct Open {
    Node* node;
    YAML::anchor_t anchor;
  };

  Node& add(Node::Kind kind, const YAML::Mark& mark) {
    if (tree_.nodes.size() >= most_nodes)
      throw Refusal{mark_of(mark),
                    say("more than {} values; a scenario is far smaller", most_nodes)};
    Node& node = tree_.nodes.emplace_back();
    node.kind = kind;
    node.mark = mark_of(mark);
    attach(node, mark);
    return node;
  }

  // The place of the key whose value comes next, if one does.
  Mark key_before() const {
    if (open_.empty() || open_.back().node->kind != Node::Kind::map) return {};
    const auto& items = open_.back().node->items;
    return items.size() % 2 == 1 ? items.back()->mark : Mark{};
  }

  void attach(const Node& node, const YAML::Mark& mark) {
    if (open_.empty()) {
      tree_.root = &node;
      return;
    }
    auto& items = open_.back().node->items;
    if (items.size() >= 2 * most_entries)
      throw Refusal{mark_of(mark), say("more than {} entries in one place", most_entries)};
    items.push_back(&node);
  }

  void begin(Node::Kind kind, const YAML::Mark& mark, const std::string& tag,
             YAML::anchor_t anchor) {
    refuse_tag(mark, tag);
    if (open_.size() >= deepest)
      throw Refusal{mark_of(mark), say("nested deeper than {} levels", deepest)};
    open_.push_back({&add(kind, mark), anchor});
  }

  void end() {
    const Open done = open_.back();
    open_.pop_back();
    name(*done.node, done.anchor);
  }

  // Only what is finished can be named, so that no alias leads back into itself.
  void name(const Node& node, YAML::anchor_t anchor) {
    if (anchor != 0) named_[anchor] = &node;
  }

  void refuse_tag(const YAML::Mark& mark, const std::string& tag) {
    if (tag.empty() || tag == "?" || tag == "!") return;
    report_.error(mark_of(mark), "tags (!name) have no meaning here; take it away");
  }

  void refuse_odd_keys(const Node& map) {
    for (std::size_t i = 0; i < map.items.size(); i += 2) {
      const Node& key = *map.items[i];
      if (key.kind != Node::Kind::text) {
        report_.error(key.mark, "a key is missing or is not a word");
        continue;
      }
      for (std::size_t j = 0; j < i; j += 2) {
        const Node& earlier = *map.items[j];
        if (earlier.kind != Node::Kind::text || earlier.text != key.text) continue;
        report_.error(key.mark, say("\"{}\" stands here twice; the first is in line {}",
                                    shown(key.text), earlier.mark.line));
        break;
      }
    }
  }

  Mark mark_of(const YAML::Mark& mark) const { return procedure::mark_of(mark, file_); }

  Tree& tree_;
  Report& report_;
  int file_;
  std::vector<Open> open_;
  std::unordered_map<YAML::anchor_t, const Node*> named_;
  std::size_t aliases_ = 0;
};

// The parser's terse findings, each with what usually mends it.
Said in_plain_words(const std::string& finding) {
  struct Entry {
    std::string_view finding;
    const char* words;
  };
  static constexpr std::array<Entry, 10> known{{
      {"illegal map value", "a second \": \" in this line; put the text in quotes"},
      {"illegal block entry", "a \"- \" does not belong here; check the indentation"},
      {"illegal map key", "a key does not belong here; check the indentation"},
      {"end of map not found",
       "the line does not fit the lines above; check the indentation, the "
       "colon after the key, and that brackets and quotes are closed"},
      {"end of map flow not found", "the { } is not closed, or a comma is missing in it"},
      {"end of sequence not found", "the line does not fit the list above; check the indentation"},
      {"end of sequence flow not found", "the [ ] is not closed, or a comma is missing in it"},
      {"illegal EOF in scalar", "the quotes are not closed"},
      {"the referenced anchor is not defined",
       "an alias (*name) of nothing; put the text in quotes "
       "if it is meant to begin with *"},
      {"unknown token", "a character that cannot begin a text; put the text in quotes"},
  }};
  for (const auto& entry : known) {
    if (finding.starts_with(entry.finding)) return entry.words;
  }
  return finding;
}

bool is_indented_with_a_tab(std::string_view text, int line) {
  for (; line > 1; --line) text.remove_prefix(std::min(text.find('\n'), text.size() - 1) + 1);
  const auto indent = text.substr(0, text.find_first_not_of(" \t"));
  return line == 1 && indent.find('\t') != std::string_view::npos;
}

// 'don't': the second of the three ends the text.
bool is_after_an_apostrophe(std::string_view text, Mark at) {
  for (int line = 1; line < at.line; ++line)
    text.remove_prefix(std::min(text.find('\n'), text.size() - 1) + 1);
  const auto before =
      text.substr(0, std::min(static_cast<std::size_t>(at.column - 1), text.size()));
  const auto opened = before.find(": '");
  return opened != std::string_view::npos && before.size() > opened + 3 && before.back() == '\'';
}

Said fault_in(std::string_view text, const YAML::Exception& e) {
  const bool tab = is_indented_with_a_tab(text, mark_of(e.mark, 0).line);
  if (is_after_an_apostrophe(text, mark_of(e.mark, 0)))
    return say("not readable as YAML: {}",
               "an apostrophe ends the text; put the text in double quotes");
  return say("not readable as YAML: {}", tab ? "a tab; indent with spaces" : in_plain_words(e.msg));
}

bool is_fit_to_parse(std::string_view text, Report& report, int file) {
  if (text.size() > longest_text) {
    report.error({0, 0, file}, "larger than 1 MiB; a scenario is a few pages");
    return false;
  }
  const auto odd = find_odd_character(text);
  if (!odd) return true;
  report.error({odd->mark.line, odd->mark.column, file}, odd->what);
  return false;
}

}  // namespace

const Node* value_of(const Node& map, std::string_view key) {
  const auto at = place_of(map, key);
  return at < map.items.size() ? map.items[at + 1] : nullptr;
}

std::size_t place_of(const Node& map, std::string_view key) {
  if (map.kind != Node::Kind::map) return map.items.size();
  for (std::size_t i = 0; i < map.items.size(); i += 2) {
    if (map.items[i]->text == key) return i;
  }
  return map.items.size();
}

Tree parse_yaml(std::string_view text, Report& report, int file) {
  Tree tree;
  if (!is_fit_to_parse(text, report, file)) return tree;
  std::istringstream in{std::string(text)};
  Builder builder(tree, report, file);
  try {
    YAML::Parser parser(in);
    while (parser.HandleNextDocument(builder)) {
    }
    return tree;
  } catch (const Refusal& refusal) {
    report.error(refusal.mark, refusal.message);
  } catch (const YAML::Exception& e) {
    report.error(mark_of(e.mark, file), fault_in(text, e));
  }
  tree.root = nullptr;
  return tree;
}

}  // namespace beforehand::procedure
