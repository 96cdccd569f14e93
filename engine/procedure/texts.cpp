// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "procedure/texts.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <map>
#include <set>
#include <stdexcept>

#include "base/text.hpp"
#include "procedure/characters.hpp"
#include "procedure/edit.hpp"
#include "procedure/fields.hpp"
#include "procedure/formats.hpp"
#include "procedure/reader.hpp"

namespace beforehand::procedure {
namespace {

// The texts of a procedure as a tree of keys; a leaf has a slot.
struct Branch {
  std::string key;
  const TextSlot* slot = nullptr;
  std::vector<Branch> children;  // in the scenario's order

  Branch& child(std::string_view name) {
    for (auto& branch : children) {
      if (branch.key == name) return branch;
    }
    return children.emplace_back(Branch{std::string(name), nullptr, {}});
  }
  const Branch* find(std::string_view name) const {
    for (const auto& branch : children) {
      if (branch.key == name) return &branch;
    }
    return nullptr;
  }
};

Branch tree_of(const std::vector<TextSlot>& slots) {
  Branch root;
  for (const auto& slot : slots) {
    Branch* at = &root;
    for (std::string_view rest = slot.path; !rest.empty();) {
      const auto end = std::min(rest.find('/'), rest.size());
      at = &at->child(rest.substr(0, end));
      rest.remove_prefix(std::min(end + 1, rest.size()));
    }
    at->slot = &slot;
  }
  return root;
}

// "steps" with "etch" below it: "step etch".
std::string owner_of(const std::string& above, const std::string& key) {
  if (above == "people") return "person " + key;
  if (above == "supplies") return "supply " + key;
  const bool section = above.find(' ') == std::string::npos && above.ends_with('s');
  return (section ? above.substr(0, above.size() - 1) : above) + " " + key;
}

// What a card has put in other words, or brought along.
std::vector<TextSlot> changed_slots(Procedure& p, Procedure base) {
  std::set<std::pair<std::string, std::string>> old;
  for (const auto& slot : text_slots(base)) old.emplace(slot.path, *slot.text);
  auto slots = text_slots(p);
  std::erase_if(slots, [&](const TextSlot& s) { return old.contains({s.path, *s.text}); });
  return slots;
}

class TextsReader {
 public:
  TextsReader(const Procedure& of, const Procedure* base, Report& report)
      : p_(of), slots_(base ? changed_slots(p_, *base) : text_slots(p_)), report_(report) {
    of_card_ = base != nullptr;
  }

  Texts read(const Node& root) {
    read_head(root);
    if (root.kind == Node::Kind::map) walk(root, tree_of(slots_), "");
    if (missing_ > 0 && !complete_)
      report_.warning(root.mark,
                      "not complete: what is missing is shown in the language of the "
                      "scenario");
    return std::move(texts_);
  }

 private:
  bool is_of_the_head(std::string_view key) const {
    return key == "texts" || key == "language" || key == "scenario" || key == "complete" ||
           (of_card_ && key == "card");
  }

  // Knows its own keys only: walk() sees to the rest.
  void read_head(const Node& root) {
    Fields f(root, "a text file", report_);
    f.demand("texts");
    if (const Node* language = f.demand("language")) {
      texts_.language = Form<Language>::read(*language, report_).value_or("");
      if (texts_.language == p_.language)
        report_.error(language->mark,
                      say("\"{}\" is the language of the scenario itself", texts_.language));
    }
    if (const Node* scenario = f.demand("scenario")) {
      const auto id = Form<Id>::read(*scenario, report_);
      if (id && *id != p_.id)
        report_.error(
            scenario->mark,
            say("these are texts of \"{}\", but the scenario beside them is \"{}\"", *id, p_.id));
    }
    if (of_card_) check_card(f.demand("card"));
    complete_ = f.optional<bool>("complete", true);
  }

  void check_card(const Node* card) {
    const auto id = card ? Form<Id>::read(*card, report_) : std::nullopt;
    if (id && *id != p_.card)
      report_.error(card->mark, say("these are texts of the card \"{}\", but the card with "
                                    "this name is \"{}\"",
                                    *id, p_.card));
  }

  void walk(const Node& node, const Branch& branch, const std::string& owner) {
    std::vector<bool> seen(branch.children.size());
    for (std::size_t i = 0; i < node.items.size(); i += 2) {
      const Node& key = *node.items[i];
      if (key.kind != Node::Kind::text || (owner.empty() && is_of_the_head(key.text))) continue;
      const Branch* found = branch.find(key.text);
      if (!found) {
        report_unknown(key, branch, owner);
        continue;
      }
      for (std::size_t c = 0; c < seen.size(); ++c)
        seen[c] = seen[c] || &branch.children[c] == found;
      take(*node.items[i + 1], *found, owner.empty() ? key.text : owner_of(owner, key.text));
    }
    report_missing(node.mark, branch, seen, owner);
  }

  void take(const Node& value, const Branch& branch, const std::string& owner) {
    if (branch.slot) return take_text(value, *branch.slot);
    if (owner == "cautions") return take_list(value, branch);
    if (value.kind == Node::Kind::map) return walk(value, branch, owner);
    report_.error(value.mark, say("{} needs keys and texts here (key: text)", owner));
  }

  void take_text(const Node& value, const TextSlot& slot) {
    auto text = slot.longest == longest_title ? Form<Title>::read(value, report_)
                                              : Form<Prose>::read(value, report_);
    if (text) texts_.entries.push_back({slot.path, *slot.text, std::move(*text)});
  }

  void take_list(const Node& value, const Branch& branch) {
    const bool list = value.kind == Node::Kind::list;
    const auto count = list ? value.items.size() : 1, wanted = branch.children.size();
    if (count != wanted)
      report_.error(value.mark, say("{} cautions; the scenario has {}", count, wanted));
    for (std::size_t i = 0; i < std::min(count, wanted); ++i)
      take_text(list ? *value.items[i] : value, *branch.children[i].slot);
  }

  void report_unknown(const Node& key, const Branch& branch, const std::string& owner) {
    std::vector<std::string> names;
    for (const auto& below : branch.children) names.push_back(below.key);
    if (owner.empty()) names.insert(names.end(), {"texts", "language", "scenario", "complete"});
    if (owner.empty() && of_card_) names.emplace_back("card");
    const auto near = report_.full() ? std::nullopt : nearest(key.text, names);
    const auto remedy = near ? say("did you mean \"{}\"?", *near)
                        : names.size() > 12
                            ? say("it has {}", "other ids: look them up there")
                            : say("it has {}", listed({names.begin(), names.end()}));
    const auto* whose = of_card_ ? "card" : "scenario";
    report_.error(key.mark, owner.empty() ? say("the {} has no text \"{}\"; {}", whose,
                                                shown(key.text), remedy)
                                          : say("the {} has no text \"{}\" in {}; {}", whose,
                                                shown(key.text), owner, remedy));
  }

  void report_missing(Mark mark, const Branch& branch, const std::vector<bool>& seen,
                      const std::string& owner) {
    std::vector<std::string> names;
    for (std::size_t i = 0; i < seen.size(); ++i) {
      if (!seen[i]) names.push_back("\"" + branch.children[i].key + "\"");
    }
    missing_ += names.size();
    if (names.empty() || !complete_) return;
    report_.error(mark, say("{} has no {}; translate what is missing, or write \"complete: "
                            "false\" at the top",
                            owner.empty() ? Said("the file") : Said(owner),
                            listed({names.begin(), names.end()})));
  }

  Procedure p_;
  std::vector<TextSlot> slots_;
  Report& report_;
  Texts texts_;
  bool complete_ = true, of_card_ = false;
  std::size_t missing_ = 0;
};

}  // namespace

TextsReading read_texts(std::string_view yaml_text, const Procedure& of, const Procedure* base) {
  Report report;
  Texts texts;
  Tree tree = parse_yaml(yaml_text, report);
  bring_up(tree, Kind::texts, report);
  if (tree.root)
    texts = TextsReader(of, base, report).read(*tree.root);
  else if (report.graph_is_whole())
    report.error({}, "an empty file; a text file begins with \"texts: 2\"");
  TextsReading reading;
  reading.problems = report.take();
  if (!has_errors(reading.problems)) reading.texts = std::move(texts);
  return reading;
}

Procedure with_texts(Procedure p, const Texts& texts) {
  std::map<std::string_view, const Texts::Entry*> by_path;
  for (const auto& entry : texts.entries) by_path.emplace(entry.path, &entry);
  for (const auto& slot : text_slots(p)) {
    const auto found = by_path.find(slot.path);
    if (found != by_path.end() && *slot.text == found->second->of) *slot.text = found->second->text;
  }
  p.language = texts.language;
  return p;
}

std::string text_file(const std::string& scenario_file, std::string_view language) {
  const auto folder = std::filesystem::path(scenario_file).parent_path();
  return (folder / (std::string(language) + ".yaml")).string();
}

std::vector<std::string> languages_of(const Procedure& p, const std::string& scenario_file) {
  namespace fs = std::filesystem;
  std::vector<std::string> found;
  std::error_code failed;
  const auto folder = fs::path(scenario_file).parent_path();
  for (const auto& entry : fs::directory_iterator(folder.empty() ? "." : folder, failed)) {
    const auto name = entry.path().stem().string();
    if (entry.path().extension() == ".yaml" && name.size() == 2 && name != p.language)
      found.push_back(name);
  }
  std::sort(found.begin(), found.end());
  found.insert(found.begin(), p.language);
  return found;
}

std::string card_text_file(const std::string& card_file, std::string_view language) {
  const std::filesystem::path card(card_file);
  return (card.parent_path() / language / card.filename()).string();
}

TextsReading load_texts(const std::string& file, const Procedure& of, const Procedure* base) {
  TextsReading reading;
  try {
    reading = read_texts(load_text(file), of, base);
  } catch (const std::runtime_error& e) {
    reading.problems.push_back({Problem::Kind::error, {}, std::string(e.what())});
  }
  const std::filesystem::path path(file);
  const auto name = (base ? path.parent_path().filename() : path.stem()).string();
  if (!reading.texts || reading.texts->language == name) return reading;
  reading.problems.push_back(
      {Problem::Kind::error,
       {},
       say("its language is \"{}\", so its {} must be {}{}", reading.texts->language,
           base ? "folder" : "name", reading.texts->language, base ? "" : ".yaml")});
  reading.texts.reset();
  return reading;
}

namespace {

// Adds what is wrong with a text file, and gives its texts when they can be used.
std::optional<Texts> take_texts(const std::string& file, const Procedure& of, const Procedure* base,
                                InLanguage& out) {
  std::error_code failed;
  if (!std::filesystem::exists(file, failed)) return std::nullopt;
  auto reading = load_texts(file, of, base);
  const auto number = static_cast<int>(out.sources.size());
  out.sources.push_back({file, reading.problems.empty() ? std::string() : load_text(file)});
  for (auto& problem : reading.problems) {
    problem.mark.file = number;
    out.problems.push_back(std::move(problem));
  }
  return std::move(reading.texts);
}

}  // namespace

InLanguage in_language(Procedure p, const Files& files, std::string_view language) {
  InLanguage out{std::move(p), {}, {}, {}};
  out.language = out.procedure.language;
  if (language == out.language) return out;
  const bool card = !files.card.empty();
  const auto base = card ? read(load_text(files.scenario)).procedure : std::nullopt;
  const Procedure original = out.procedure;
  const auto own =
      take_texts(text_file(files.scenario, language), base ? *base : original, nullptr, out);
  if (!own) return out;
  out.procedure = with_texts(std::move(out.procedure), *own);
  out.language = language;
  if (!base) return out;
  const auto cards = take_texts(card_text_file(files.card, language), original, &*base, out);
  if (cards) out.procedure = with_texts(std::move(out.procedure), *cards);
  return out;
}

std::vector<Procedure> in_every_language(const Files& files) {
  std::vector<Procedure> all;
  try {
    const auto own = load(files).reading.procedure;
    if (!own) return {};
    for (const auto& language : languages_of(*own, files.scenario)) {
      auto in = in_language(*own, files, language);
      if (in.language == language) all.push_back(std::move(in.procedure));
    }
  } catch (const std::runtime_error&) {  // gone since it was read
  }
  return all;
}

namespace {

void write_branch(const Branch& branch, std::size_t indent, std::string& out) {
  const bool numbered = !branch.children.empty() && branch.children.front().key == "0";
  for (const auto& child : branch.children) {
    out.append(indent, ' ').append(numbered ? "-" : child.key + ":");
    if (child.slot) {
      out.append(" ").append(yaml_text(*child.slot->text)).append("\n");
    } else {
      out += '\n';
      write_branch(child, indent + 2, out);
    }
  }
}

}  // namespace

std::string texts_of_copy(const Procedure& copy, const Procedure& original,
                          const Procedure& translated, const std::string& title) {
  std::map<std::pair<std::string, std::string>, std::string> known;
  auto from = original, to = translated, own = copy;
  const auto old = text_slots(from), now = text_slots(to);
  for (std::size_t i = 0; i < old.size(); ++i) known[{old[i].path, *old[i].text}] = *now[i].text;
  auto slots = text_slots(own);
  for (auto& slot : slots) {
    const auto found = known.find({slot.path, *slot.text});
    if (slot.path == "title")
      *slot.text = title;
    else
      *slot.text = found == known.end() ? std::string() : found->second;
  }
  const auto missing = [](const TextSlot& s) { return s.text->empty(); };
  const bool whole = std::none_of(slots.begin(), slots.end(), missing);
  // Cautions are a list: all of them, or none.
  const bool all_cautions = std::none_of(slots.begin(), slots.end(), [&](const TextSlot& s) {
    return s.path.starts_with("cautions/") && missing(s);
  });
  std::erase_if(slots, [&](const TextSlot& s) {
    return missing(s) || (!all_cautions && s.path.starts_with("cautions/"));
  });
  auto out = fmt::format("texts: {}\nlanguage: {}\nscenario: {}\n{}\n", current_format(Kind::texts),
                         translated.language, copy.id, whole ? "" : "complete: false\n");
  write_branch(tree_of(slots), 0, out);
  return out;
}

}  // namespace beforehand::procedure
