// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "procedure/card.hpp"

#include <algorithm>

#include "base/text.hpp"
#include "procedure/card_steps.hpp"
#include "procedure/characters.hpp"

namespace beforehand::procedure {
namespace {

// Nothing behind a key takes it away.
bool takes_away(const Node& value) {
  return value.kind == Node::Kind::empty || (value.kind == Node::Kind::text && value.text == "~");
}

class Card {
 public:
  Card(Tree& scenario, Tree& card, Procedure& p, Report& report)
      : nodes_(scenario.nodes),
        scenario_(*scenario.root),
        card_(*card.root),
        p_(p),
        report_(report) {}

  const Node* lay_over() {
    Fields f(card_, "a card", report_);
    root_ = &copy_of(scenario_);
    read_head(f);
    for (const auto* section : {"people", "places", "devices", "supplies", "signals", "phases"})
      if (const Node* change = f.find(section))
        if (const Node* all = change_section(section, *change)) put(section, all);
    if (const Node* change = f.find("steps")) {
      const Node* steps = value_of(scenario_, "steps");
      if (steps && steps->kind == Node::Kind::list)
        put("steps", CardSteps(nodes_, *steps, report_).changed(*change));
      refuse_signals_of_left_out();
    }
    f.finish();
    return root_;
  }

 private:
  void read_head(Fields& f) {
    f.demand("card");
    p_.card = f.required<Id>("id");
    p_.card_title = f.required<Title>("title");
    f.optional<Prose>("note");
    if (const Node* of = f.demand("scenario")) check_scenario(*of);
    if (const Node* hand = f.find("hand")) put("hand", hand);
    if (const Node* plan = f.find("announces")) put("announces", plan);
    if (const Node* summary = f.find("summary")) put("summary", summary);
    if (const Node* cautions = f.find("cautions")) add_cautions(*cautions);
    if (const Node* pacing = f.find("pacing")) change_pacing(*pacing);
  }

  void check_scenario(const Node& of) {
    const auto id = Form<Id>::read(of, report_);
    const Node* scenario = value_of(scenario_, "id");
    if (id && scenario && scenario->text != *id)
      report_.error(of.mark, say("this card is for \"{}\", but the scenario is \"{}\"", *id,
                                 shown(scenario->text)));
  }

  // A card can warn of more, never of less.
  void add_cautions(const Node& more) {
    Node& all = new_node(Node::Kind::list, more.mark);
    const auto add = [&](const Node& item) { all.items.push_back(&item); };
    for_each_item(value_of(scenario_, "cautions"), add);
    for_each_item(&more, add);
    put("cautions", &all);
  }

  void change_pacing(const Node& change) {
    const Node* pacing = value_of(scenario_, "pacing");
    put("pacing", pacing ? changed(*pacing, change, "pacing") : &change);
  }

  // By id: what is there gets other keys or goes, what is new is added. None when nothing is left.
  const Node* change_section(std::string_view name, const Node& change) {
    const Node* section = value_of(scenario_, name);
    if (!section || section->kind != Node::Kind::map || change.kind != Node::Kind::map)
      return &change;  // what is wrong with it the reader tells
    Node& out = copy_of(*section);
    for (std::size_t i = 0; i < change.items.size(); i += 2) {
      const Node &id = *change.items[i], &keys = *change.items[i + 1];
      const auto at = place_of(out, id.text);
      const bool known = at < out.items.size();
      if (takes_away(keys) && known) {
        const auto from = out.items.begin() + static_cast<std::ptrdiff_t>(at);
        out.items.erase(from, from + 2);
      } else if (!known) {
        out.items.insert(out.items.end(), {&id, &keys});
      } else {
        out.items[at + 1] = changed(*out.items[at + 1], keys, std::string(name) + " " + id.text);
      }
    }
    if (out.items.empty()) drop(name);
    return out.items.empty() ? nullptr : &out;
  }

  const Node* changed(const Node& old, const Node& change, const std::string& owner) {
    return with_changed_keys(nodes_, old, change, owner, report_);
  }

  void refuse_signals_of_left_out() {
    const Node *signals = value_of(*root_, "signals"), *steps = value_of(*root_, "steps");
    if (!signals || signals->kind != Node::Kind::map || !steps) return;
    for (std::size_t i = 1; i < signals->items.size(); i += 2) {
      const Node* after = value_of(*signals->items[i], "after");
      const auto* gone = after ? find_step(*value_of(scenario_, "steps"), after->text) : nullptr;
      if (!gone || find_step(*steps, after->text)) continue;
      report_.error(card_.mark, say("the signal {} shows at {}, which this card leaves out; "
                                    "give it another \"after\", in \"signals\"",
                                    signals->items[i - 1]->text, after->text));
    }
  }

  Node& new_node(Node::Kind kind, Mark mark) {
    Node& node = nodes_.emplace_back();
    node.kind = kind;
    node.mark = mark;
    return node;
  }
  Node& copy_of(const Node& node) { return nodes_.emplace_back(node); }

  void put(std::string_view key, const Node* value) {
    const auto at = place_of(*root_, key);
    if (at < root_->items.size()) {
      root_->items[at + 1] = value;
      return;
    }
    Node& name = new_node(Node::Kind::text, value->mark);
    name.text = key;
    root_->items.push_back(&name);
    root_->items.push_back(value);
  }
  void drop(std::string_view key) {
    const auto at = root_->items.begin() + static_cast<std::ptrdiff_t>(place_of(*root_, key));
    root_->items.erase(at, at + 2);
  }

  std::deque<Node>& nodes_;
  const Node& scenario_;
  const Node& card_;
  Procedure& p_;
  Report& report_;
  Node* root_ = nullptr;
};

}  // namespace

const Node* with_changed_keys(std::deque<Node>& nodes, const Node& old, const Node& change,
                              const std::string& owner, Report& report) {
  if (change.kind != Node::Kind::map || old.kind != Node::Kind::map) {
    report.error(change.mark, say("{} needs keys and values here (key: value)", owner));
    return &old;
  }
  Node& out = nodes.emplace_back(old);
  const auto drop = [&](std::size_t at) {
    const auto from = out.items.begin() + static_cast<std::ptrdiff_t>(at);
    out.items.erase(from, from + 2);
  };
  for (std::size_t i = 0; i < change.items.size(); i += 2) {
    const Node &key = *change.items[i], &value = *change.items[i + 1];
    const auto at = place_of(out, key.text);
    const bool known = at < out.items.size();
    if (takes_away(value)) {
      if (known)
        drop(at);
      else
        report.error(key.mark, say("{} has no \"{}\" to take away; write what it is to be", owner,
                                   shown(key.text)));
    } else if (known) {
      out.items[at] = &key;
      out.items[at + 1] = &value;
    } else {
      out.items.push_back(&key);
      out.items.push_back(&value);
    }
  }
  // A time that the card gives is no longer that of the material.
  for (const auto& [time, source] :
       {std::pair{"takes", "timed-by"}, {"working-time", "material"}}) {
    const auto at = place_of(out, source);
    if (value_of(change, time) && !value_of(change, source) && at < out.items.size()) drop(at);
  }
  return &out;
}

const Node* lay_over(Tree& scenario, Tree& card, Procedure& procedure, Report& report) {
  if (scenario.root->kind != Node::Kind::map) return scenario.root;
  return Card(scenario, card, procedure, report).lay_over();
}

}  // namespace beforehand::procedure
