// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "procedure/with_card.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <vector>

#include "procedure/card.hpp"
#include "procedure/edit.hpp"
#include "procedure/formats.hpp"
#include "procedure/forms.hpp"
#include "procedure/title.hpp"

namespace beforehand::procedure {
namespace {

using Ids = std::vector<std::string>;

// As it can stand in one line.
std::string in_one_line(const Node& node) {
  std::string out;
  switch (node.kind) {
    case Node::Kind::empty:
      return "";
    case Node::Kind::text:
      return yaml_text(node.text);
    case Node::Kind::list:
      for (const Node* item : node.items) out += (out.empty() ? "" : ", ") + in_one_line(*item);
      return "[" + out + "]";
    case Node::Kind::map:
      for (std::size_t i = 0; i < node.items.size(); i += 2)
        out += (out.empty() ? "" : ", ") + in_one_line(*node.items[i]) + ": " +
               in_one_line(*node.items[i + 1]);
      return "{" + out + "}";
  }
  return out;
}

// A step as an item of the list, a line a key.
std::string as_item(const Node& step) {
  std::string out;
  for (std::size_t i = 0; i < step.items.size(); i += 2)
    out += in_one_line(*step.items[i]) + ": " + in_one_line(*step.items[i + 1]) + "\n";
  return out;
}

bool means_the_same(const Node& a, const Node& b) {
  return &a == &b || (a.kind == b.kind && a.text == b.text && a.items.size() == b.items.size() &&
                      std::equal(a.items.begin(), a.items.end(), b.items.begin(),
                                 [](auto* x, auto* y) { return means_the_same(*x, *y); }));
}

Ids ids_of(const Node& steps) {
  Ids ids;
  for (const Node* step : steps.items) {
    const Node* id = step->kind == Node::Kind::map ? value_of(*step, "id") : nullptr;
    if (!id) throw EditError("a step without an id");
    ids.push_back(id->text);
  }
  return ids;
}

bool holds(const Ids& ids, const std::string& id) {
  return std::find(ids.begin(), ids.end(), id) != ids.end();
}

/// Writes down, place by place, what makes one tree of another.
class TreeWriter {
 public:
  explicit TreeWriter(std::string yaml) : yaml_(std::move(yaml)) {}

  std::string write(const Node& old, const Node& now) && {
    map("", old, now);
    return std::move(yaml_);
  }

 private:
  void map(const std::string& path, const Node& old, const Node& now) {
    for (std::size_t i = 0; i < now.items.size(); i += 2) {
      const auto& key = now.items[i]->text;
      const Node *was = value_of(old, key), &is = *now.items[i + 1];
      if (was && means_the_same(*was, is)) continue;
      const auto at = path + key;
      if (was && at == "steps")
        steps(*was, is);
      else if (was && was->kind == Node::Kind::map && is.kind == Node::Kind::map)
        map(at + "/", *was, is);
      else
        yaml_ = with_value(yaml_, at, in_one_line(is));
    }
    for (std::size_t i = 0; i < old.items.size(); i += 2)
      if (!value_of(now, old.items[i]->text)) yaml_ = without(yaml_, path + old.items[i]->text);
  }

  void steps(const Node& old, const Node& now) {
    const auto wanted = ids_of(now);
    auto order = ids_of(old);
    for (const auto& id : Ids(order))
      if (!holds(wanted, id)) take_out(id, order);
    for (std::size_t i = 0; i < wanted.size(); ++i) {
      const auto& id = wanted[i];
      if (i < order.size() && order[i] == id) continue;
      // One that was moved further down comes back when its place is reached.
      if (i + 1 < order.size() && order[i + 1] == id)
        take_out(Ids(order)[i], order);
      else
        put(id, i, *now.items[i], order);
    }
    for (std::size_t i = 0; i < wanted.size(); ++i)
      if (const Node* was = find_step_in(old, wanted[i]))
        if (!moved(wanted[i]) && !means_the_same(*was, *now.items[i]))
          map("steps/" + wanted[i] + "/", *was, *now.items[i]);
  }

  void take_out(const std::string& id, Ids& order) {
    yaml_ = without(yaml_, "steps/" + id);
    order.erase(std::find(order.begin(), order.end(), id));
  }

  void put(const std::string& id, std::size_t place, const Node& step, Ids& order) {
    if (holds(order, id)) take_out(id, order);
    yaml_ = with_item(yaml_, "steps", place == 0 ? std::string() : order[place - 1], as_item(step));
    order.insert(order.begin() + static_cast<std::ptrdiff_t>(place), id);
    written_.push_back(id);
  }

  bool moved(const std::string& id) const { return holds(written_, id); }

  static const Node* find_step_in(const Node& steps, const std::string& id) {
    for (const Node* step : steps.items)
      if (value_of(*step, "id")->text == id) return step;
    return nullptr;
  }

  std::string yaml_;
  Ids written_;  // whole, as they are to be
};

void refuse_errors(Report& report) {
  for (const auto& problem : report.take())
    if (problem.kind == Problem::Kind::error)
      throw EditError(fmt::format("line {}: {}", problem.mark.line, problem.message.english()));
}

}  // namespace

std::string with_card(std::string_view scenario, std::string_view card) {
  const auto text = convert(scenario).text;
  Report report;
  Procedure head;
  Tree tree = parse_yaml(text, report), over = parse_yaml(card, report, 1);
  bring_up(over, Kind::card, report);
  if (!tree.root || !over.root || tree.root->kind != Node::Kind::map)
    throw EditError("a scenario and a card are needed");
  const Node* whole = lay_over(tree, over, head, report);
  refuse_errors(report);
  auto out = TreeWriter(text).write(*tree.root, *whole);
  const Node *id = value_of(*tree.root, "id"), *title = value_of(*tree.root, "title");
  head.id = id ? id->text : std::string();
  head.title = title ? title->text : std::string();
  const auto own_id = head.id + "-" + head.card;
  out = with_value(out, "id", own_id.size() <= longest_id ? own_id : head.card);
  return with_value(out, "title", yaml_text(full_title(head, longest_title)));
}

std::string load_as_one(const Files& files) {
  const auto scenario = load_text(files.scenario);
  return files.card.empty() ? scenario : with_card(scenario, load_text(files.card));
}

}  // namespace beforehand::procedure
