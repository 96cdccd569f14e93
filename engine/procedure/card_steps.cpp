// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "procedure/card_steps.hpp"

#include <algorithm>

#include "base/text.hpp"
#include "procedure/characters.hpp"

namespace beforehand::procedure {
namespace {

constexpr std::string_view deeds[]{"change", "add", "move", "leave-out"};

std::string_view id_of(const Node& step) {
  const Node* id = value_of(step, "id");
  return id ? std::string_view(id->text) : std::string_view();
}

bool names(const Node& list, std::string_view id) {
  bool found = false;
  for_each_item(&list, [&](const Node& item) {
    const Node* step = item.kind == Node::Kind::map ? value_of(item, "step") : &item;
    found = found || (step && step->text == id);
  });
  return found;
}

}  // namespace

const Node* find_step(const Node& steps, std::string_view id) {
  for (const Node* step : steps.items) {
    if (id_of(*step) == id) return step;
  }
  return nullptr;
}

const Node* CardSteps::changed(const Node& changes) {
  if (changes.kind != Node::Kind::list) {
    report_.error(changes.mark,
                  "\"steps\" of a card needs a list here, each change after a hyphen");
    return &list_;
  }
  for (const Node* change : changes.items) apply(*change);
  mend_references();
  Node& out = nodes_.emplace_back(list_);
  out.items = steps_;
  return &out;
}

void CardSteps::apply(const Node& change) {
  for (const auto deed : deeds) {
    const Node* id = value_of(change, deed);
    if (!id) continue;
    if (!check_id(*id, report_)) return;
    if (deed == "change") return change_step(*id, change);
    if (deed == "add") return add_step(*id, change);
    if (deed == "move") return move_step(*id, change);
    return leave_out(*id, change);
  }
  report_.error(
      change.mark,
      "say what is done to a step: \"change\", \"add\", \"move\" or \"leave-out\", with its "
      "id behind");
}

void CardSteps::change_step(const Node& id, const Node& change) {
  const auto at = find(id);
  if (at < steps_.size())
    steps_[at] =
        with_changed_keys(nodes_, *steps_[at], *rest_of(change), "step " + id.text, report_);
}

void CardSteps::add_step(const Node& id, const Node& change) {
  if (std::any_of(steps_.begin(), steps_.end(), [&](auto* s) { return id_of(*s) == id.text; }))
    return report_.error(id.mark, say("the scenario has a step \"{}\" already; change it, or "
                                      "choose another id",
                                      id.text));
  const auto at = target(change, "added");
  if (at > steps_.size()) return;
  Node step = *rest_of(change);
  Node& key = nodes_.emplace_back();
  key.kind = Node::Kind::text;
  key.mark = id.mark;
  key.text = "id";
  step.items.insert(step.items.begin(), {&key, &id});
  steps_.insert(steps_.begin() + static_cast<std::ptrdiff_t>(at), &nodes_.emplace_back(step));
}

void CardSteps::move_step(const Node& id, const Node& change) {
  Fields f(change, "a move", report_);
  for (const auto* key : {"move", "behind", "ahead-of"}) f.find(key);
  f.finish();
  const auto from = find(id);
  if (from == steps_.size()) return;
  const Node* step = steps_[from];
  steps_.erase(steps_.begin() + static_cast<std::ptrdiff_t>(from));
  const auto to = target(change, "moved");
  steps_.insert(steps_.begin() + static_cast<std::ptrdiff_t>(std::min(to, steps_.size())), step);
}

void CardSteps::leave_out(const Node& id, const Node& change) {
  Fields f(change, "what is left out", report_);
  f.find("leave-out");
  f.finish();
  const auto at = find(id);
  if (at == steps_.size()) return;
  left_out_.push_back({steps_[at], id.mark});
  steps_.erase(steps_.begin() + static_cast<std::ptrdiff_t>(at));
}

// Where the step with this id stands; reports an id that is nobody's.
std::size_t CardSteps::find(const Node& id) {
  std::vector<std::string> ids;
  for (const Node* step : steps_) ids.emplace_back(id_of(*step));
  const auto found = std::find(ids.begin(), ids.end(), id.text);
  if (found != ids.end()) return static_cast<std::size_t>(found - ids.begin());
  const auto near = nearest(id.text, ids);
  report_.error(id.mark, say("the scenario has no step \"{}\"{}", shown(id.text),
                             near ? say("; did you mean \"{}\"?", *near) : ""));
  return steps_.size();
}

// Before which of the steps it goes; past their number when that cannot be told.
std::size_t CardSteps::target(const Node& change, const char* what) {
  const Node *behind = value_of(change, "behind"), *ahead = value_of(change, "ahead-of");
  if ((behind == nullptr) == (ahead == nullptr)) {
    report_.error(change.mark, say("say where it is {}: \"behind\" or \"ahead-of\" a step, in "
                                   "the order in which a practised pair would work",
                                   what));
    return steps_.size() + 1;
  }
  const auto at = find(behind ? *behind : *ahead);
  if (at == steps_.size()) return steps_.size() + 1;
  return behind ? at + 1 : at;
}

// The keys of the step itself.
const Node* CardSteps::rest_of(const Node& change) {
  Node& rest = nodes_.emplace_back(change);
  rest.items.clear();
  const bool adds = value_of(change, "add") != nullptr;
  for (std::size_t i = 0; i < change.items.size(); i += 2) {
    const auto& key = change.items[i]->text;
    const bool own =
        key == "add" || key == "change" || (adds && (key == "behind" || key == "ahead-of"));
    if (key == "id")
      report_.error(change.items[i]->mark, "a step keeps its id; take \"id\" away");
    else if (!own)
      rest.items.insert(rest.items.end(), {change.items[i], change.items[i + 1]});
  }
  return &rest;
}

const Node* CardSteps::left_out(const Node& reference) const {
  const Node* id = reference.kind == Node::Kind::map ? value_of(reference, "step") : &reference;
  for (const auto& gone : left_out_) {
    if (id && id_of(*gone.step) == id->text) return gone.step;
  }
  return nullptr;
}

// What came after a step that is left out comes after what that one came after. What is done for it
// alone must be left out as well.
void CardSteps::mend_references() {
  if (left_out_.empty()) return;
  for (const Node*& step : steps_) step = mended(*step);
  for (const auto& [gone, mark] : left_out_) {
    for (const Node* step : steps_) {
      const Node *serves = value_of(*step, "for"), *covers = value_of(*step, "covers");
      const bool alone = covers && covers->kind == Node::Kind::list && covers->items.empty();
      const Node* before = alone ? find_step(list_, id_of(*step)) : nullptr;
      const Node* covered = before ? value_of(*before, "covers") : nullptr;
      if ((serves && serves->text == id_of(*gone)) || (covered && names(*covered, id_of(*gone))))
        report_.error(mark, say("{} is there for {} alone; leave it out too, or change what "
                                "it is for",
                                id_of(*step), id_of(*gone)));
    }
  }
}

const Node* CardSteps::mended(const Node& step) {
  Node* out = nullptr;
  for (const auto* key : {"after", "covers"}) {
    const auto at = place_of(step, key);
    if (at == step.items.size()) continue;
    bool touched = false;
    for_each_item(step.items[at + 1], [&](const Node& x) { touched = touched || left_out(x); });
    if (!touched) continue;
    if (!out) out = &nodes_.emplace_back(step);
    out->items[at + 1] = without_left_out(*step.items[at + 1], key == std::string_view("after"));
  }
  return out ? out : &step;
}

const Node* CardSteps::without_left_out(const Node& list, bool follow) {
  Node out;
  out.kind = Node::Kind::list;
  out.mark = list.mark;
  for_each_item(&list,
                [&](const Node& item) { add_mended(item, follow ? left_out_.size() : 0, out); });
  return &nodes_.emplace_back(std::move(out));
}

// `far`: over how many left-out steps it may still lead.
void CardSteps::add_mended(const Node& item, std::size_t far, Node& out) {
  const Node* gone = left_out(item);
  if (!gone) {
    const bool plain = item.kind == Node::Kind::text;
    if (!plain || !names(out, item.text)) out.items.push_back(&item);
    return;
  }
  const Node* before = far > 0 ? value_of(*gone, "after") : nullptr;
  for_each_item(before, [&](const Node& other) {
    const Node* id = other.kind == Node::Kind::map ? value_of(other, "step") : &other;
    if (id) add_mended(*id, far - 1, out);
  });
}

}  // namespace beforehand::procedure
