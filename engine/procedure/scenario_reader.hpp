// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "base/text.hpp"
#include "procedure/characters.hpp"
#include "procedure/fields.hpp"
#include "procedure/materials.hpp"

namespace beforehand::procedure {

/// The ids of one kind of thing, known before anything that may refer to them is read.
template <class Ix>
class Directory {
 public:
  /// `kind` and `section` as messages name them: "supply", "supplies".
  Directory(const char* kind, std::string_view section, std::size_t most)
      : kind_(kind), section_(section), most_(most) {}

  /// False when there are already as many as may be.
  bool add(std::string_view id) {
    if (ids_.size() >= most_) return false;
    by_id_.emplace(id, ids_.size());
    ids_.emplace_back(id);
    return true;
  }

  bool contains(std::string_view id) const { return by_id_.contains(id); }

  /// The thing a node names, or none; reports a name that is nobody's.
  Ix find(const Node& node, Report& report) const {
    const auto* id = text_of(node, say("the id of a {}", kind_), report);
    if (!id) return {};
    const auto found = by_id_.find(*id);
    if (found != by_id_.end()) return Ix{found->second};
    report.error(node.mark, unknown(*id, report.full()));
    return {};
  }

  /// What is said of a name that is nobody's: what it may have been meant for.
  Said unknown(const std::string& id, bool in_short) const {
    constexpr std::size_t few = 6;
    const auto near = in_short ? std::nullopt : nearest(id, ids_);
    const auto comma = id.find(',') != std::string::npos;
    const auto remedy =
        comma  ? say("write a list in brackets, as in [{}]", shown(id))
        : near ? say("did you mean \"{}\"?", *near)
        : !ids_.empty() && ids_.size() <= few
            ? say("known are {}; or add it to \"{}\"", listed({ids_.begin(), ids_.end()}), section_)
            : say("add it to \"{}\"", section_);
    return say("there is no {} \"{}\"; {}", kind_, shown(id), remedy);
  }

  /// The things a list names, each once.
  std::vector<Ix> find_all(const Node* list, Report& report) const {
    std::vector<Ix> out;
    for_each_item(list, [&](const Node& item) {
      const Ix ix = find(item, report);
      if (!ix) return;
      for (const auto other : out) {
        if (other == ix) return report.error(item.mark, say("\"{}\" is named twice", item.text));
      }
      out.push_back(ix);
    });
    return out;
  }

  std::string_view section() const { return section_; }
  std::size_t most() const { return most_; }

 private:
  const char* kind_;
  std::string_view section_;
  std::size_t most_;
  std::unordered_map<std::string_view, std::size_t> by_id_;  // looked up only, never walked
  std::vector<std::string> ids_;
};

/// Reads the tree of one scenario into a Procedure, section by section; the ids first, so that
/// references can be followed in any direction.
class ScenarioReader {
 public:
  /// `materials`: whose times to take, none for the scenario's own.
  ScenarioReader(Procedure& procedure, Report& report, const Materials* materials)
      : p_(procedure), report_(report), materials_(materials) {}

  void read(const Node& root);

 private:
  struct Entry {
    const Node* key;
    const Node* value;
  };
  using Entries = std::vector<Entry>;

  // reader.cpp
  void read_head(Fields& fields);
  void read_pacing(const Node* node);
  void read_weights(const Node* node);
  void read_sign_off(const Node* node);

  // scenario_parts.cpp
  template <class Ix>
  Entries index(const Node* section, Directory<Ix>& directory);
  void read_parts(Fields& fields, const Node* steps);
  void read_people(const Entries&);
  void check_roles(Mark mark);
  void read_places(const Entries&);
  void read_devices(const Entries&);
  void read_supplies(const Entries&);
  void read_signals(const Entries&);
  void take_working_time(Supply&);
  void note_taken(const std::string& id, Ms time);
  void read_foretold(const Node&, Signal&);
  void read_phases(const Entries&);
  Said owner(const char* kind, const Node& key) const;

  // scenario_steps.cpp
  void index_steps(const Node* section);
  void read_steps();
  void read_step(const Node& node, Step& step);
  void read_actors(Fields&, Step&);
  void read_deed(Fields&, Step&);
  void check_work(Fields&, const Step&, const Node* does, const Node* supply);
  std::optional<Estimate> read_estimate(const Node&);
  void read_duration(Fields&, Step&);
  void take_time_of_material(const Node&, Step&);
  void read_relations(Fields&, Step&);
  void refuse_itself(const std::vector<StepIx>& others, const Node* place, const Step& step,
                     const char* relation);
  void read_link(const Node&, Step&);
  void read_conditions(Fields&, Step&);
  void read_texts(Fields&, Step&);
  void let_supplies_start_as_used();

  template <class E, class Set>
  void read_set(const Node* list, Set& set) {
    for_each_item(list, [&](const Node& item) {
      if (const auto e = Form<E>::read(item, report_)) set.set(static_cast<std::size_t>(*e));
    });
  }

  Procedure& p_;
  Report& report_;
  const Materials* materials_;
  Directory<PersonIx> people_{"person", "people", 3};
  Directory<PlaceIx> places_{"place", "places", 64};
  Directory<DeviceIx> devices_{"device", "devices", 32};
  Directory<SupplyIx> supplies_{"supply", "supplies", 200};
  Directory<SignalIx> signals_{"signal", "signals", 16};
  Directory<PhaseIx> phases_{"phase", "phases", 32};
  Directory<StepIx> steps_{"step", "steps", 400};
  std::vector<const Node*> step_nodes_;
  std::size_t maximum_lags_ = 0;
  bool roles_are_known_ = true;
  std::vector<bool> starts_is_given_;  // by supply
};

}  // namespace beforehand::procedure
