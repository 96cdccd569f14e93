// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include <algorithm>

#include "base/time.hpp"
#include "picture/field_seen.hpp"
#include "picture/room_build.hpp"

namespace beforehand::picture {
namespace {

using drill::Doing;
using drill::StepState;
using drill::World;
using procedure::PlaceKind;
using procedure::Procedure;
using procedure::Role;
using procedure::Step;
using procedure::SupplyState;
using procedure::Verb;

/// Supplies whose place on the patient is drawn as what it is, and not as a thing beside it.
constexpr const char* drawn_in_place[] = {
    "dam-clamp",    "matrix-band", "wedge",     "light-shield", "glasses",     "suction-tip",
    "curing-light", "cord",        "dam-sheet", "cotton-roll",  "oxygen-mask", "monitor"};

class FieldBuilder {
 public:
  FieldBuilder(const Procedure& p, const World& w, const FieldWords& words)
      : p_(p), w_(w), words_(words) {}

  FieldView build() {
    field_.subject = subject();
    field_.seen = seen_at_tooth(p_, w_);
    field_.corded = cord_lies(p_, w_);
    field_.dam = has_icon("dam-clamp") || has_icon("dam-sheet");
    const auto all = std::count_if(p_.steps.begin(), p_.steps.end(), fills);
    if (all > 0)
      field_.filled_share =
          std::min(1.0, static_cast<double>(w_.filled) / static_cast<double>(all));
    for (std::size_t i = 0; i < p_.steps.size(); ++i) {
      if (w_.steps[i].state == StepState::done) see_done(StepIx{i});
    }
    see_actions();
    see_left();
    name();
    return std::move(field_);
  }

 private:
  static bool fills(const Step& step) {
    return step.leaves.test(static_cast<std::size_t>(procedure::Field::filled));
  }

  std::string icon_of(SupplyIx index) const {
    const procedure::Supply& supply = p_.supply(index);
    return icon_for(supply.icon, supply.id, supply.name);
  }

  ToolSeen tool(SupplyIx index) const { return {icon_of(index), p_.supply(index).name}; }

  Subject subject() const {
    const bool tooth =
        std::any_of(p_.steps.begin(), p_.steps.end(),
                    [](const Step& s) { return s.leaves.any() || s.clears.any(); }) ||
        std::any_of(p_.signals.begin(), p_.signals.end(),
                    [](const procedure::Signal& s) { return s.leaves.any(); });
    if (tooth) return has_icon("crown") ? Subject::crown : Subject::tooth;
    const bool patient =
        std::any_of(p_.places.begin(), p_.places.end(),
                    [](const procedure::Place& place) { return place.kind == PlaceKind::patient; });
    return patient ? Subject::patient : Subject::surfaces;
  }

  bool has_icon(const char* icon) const {
    for (std::size_t i = 0; i < p_.supplies.size(); ++i) {
      if (icon_of(SupplyIx{i}) == icon) return true;
    }
    return false;
  }

  /// What a step that is done has changed for good, by the icons of what it was done with.
  void see_done(StepIx index) {
    const Step& step = p_.step(index);
    const Ms ended = w_.step(index).ended;
    const bool clinician = p_.person(step.by.front()).role == Role::clinician;
    for (const procedure::Need& need : step.needs) {
      if (!clinician || need.kind != procedure::Need::Kind::supply) continue;
      const std::string icon = icon_of(need.supply);
      field_.tooth_out |= icon == "forceps";
      field_.stitched |= icon == "needle-holder";
    }
    if (!step.supply) return;
    const std::string icon = icon_of(step.supply);
    if (icon == "timer" && step.verb == Verb::use) field_.on_clock = w_.now - ended;
    if (icon == "chair" && step.verb == Verb::use)
      field_.posture = field_.posture == Posture::flat ? Posture::half_upright : Posture::flat;
    see_surface(step, icon, ended);
  }

  void see_surface(const Step& step, const std::string& icon, Ms ended) {
    const Surface before = field_.surface;
    if (icon == "film" && step.verb == Verb::put_away) field_.surface = Surface::bare;
    if (icon == "film" && step.verb == Verb::use) field_.surface = Surface::covered;
    if (icon == "wipe" && before == Surface::bare) field_.surface = Surface::cleaned;
    if (icon == "bottle" && before == Surface::cleaned)
      field_.surface = w_.now < ended + left_wet(step) ? Surface::wet : Surface::dry;
  }

  /// The longest time that something must wait after a step: a disinfectant's contact time.
  Ms left_wet(const Step& wetting) const {
    Ms longest{0};
    for (const Step& step : p_.steps) {
      for (const procedure::Link& link : step.after) {
        if (&p_.step(link.step) == &wetting) longest = std::max(longest, link.at_least);
      }
    }
    return longest;
  }

  void see_actions() {
    for (std::size_t i = 0; i < w_.people.size(); ++i) {
      for (const Doing& doing : w_.people[i].doing) see_action(p_.people[i].role, doing);
    }
  }

  void see_action(Role role, const Doing& doing) {
    Verb verb = Verb::work;
    if (doing.action)
      verb = p_.action(doing.action).verb;
    else if (doing.step)
      verb = p_.step(doing.step).verb;
    field_.suction |= verb == Verb::suction;
    field_.drying |= verb == Verb::dry;
    field_.light |= verb == Verb::light;
    const bool step = static_cast<bool>(doing.step);
    field_.rinsing |=
        step && p_.step(doing.step).leaves.test(static_cast<std::size_t>(procedure::Field::wet));
    const bool no_tooth = field_.subject == Subject::patient || field_.subject == Subject::surfaces;
    if (role == Role::clinician && step && !doing.helping) {
      for (const procedure::Need& need : p_.step(doing.step).needs) {
        if (need.kind == procedure::Need::Kind::supply) add_tool(need.supply);
      }
    } else if (doing.supply && (no_tooth ? verb != Verb::pass : at_tooth(verb))) {
      add_tool(doing.supply);
    }
  }

  static bool at_tooth(Verb verb) { return verb == Verb::hold || verb == Verb::dry; }

  /// Suction, air and light are drawn at work, and so is the patient.
  void add_tool(SupplyIx supply) {
    const std::string icon = icon_of(supply);
    const bool drawn = icon == "suction-tip" || icon == "curing-light" || icon == "patient" ||
                       (icon == "air-water-syringe" && field_.subject != Subject::surfaces);
    if (!drawn && field_.tools.size() < 2) field_.tools.push_back(tool(supply));
  }

  void see_left() {
    for (std::size_t i = 0; i < p_.supplies.size(); ++i) {
      const drill::SupplyNow& now = w_.supplies[i];
      if (now.state != SupplyState::in_use || now.holder || now.place) continue;
      if (fixed_on_patient(p_, w_, field_.seen, SupplyIx{i}) == Fixed::off) continue;
      const ToolSeen seen = tool(SupplyIx{i});
      field_.left.push_back(seen);
    }
  }

  void say(bool is_so, const std::string& word) {
    if (is_so) field_.words.push_back(word);
  }

  /// What goes on now first, then what was done last: when there is room for less, the oldest goes.
  void name() {
    say(field_.suction, words_.suction);
    say(field_.rinsing, words_.rinsing);
    say(field_.drying, words_.drying);
    say(field_.light, words_.light);
    say(field_.on_clock != never, words_.on_clock + clock_text(field_.on_clock));
    if (field_.subject == Subject::patient)
      say(true, words_.postures[static_cast<std::size_t>(field_.posture)]);
    if (field_.subject == Subject::surfaces)
      say(true, words_.surfaces[static_cast<std::size_t>(field_.surface)]);
    say(field_.stitched, words_.stitched);
    say(field_.tooth_out, words_.tooth_out);
    say(field_.corded, words_.corded);
    for (std::size_t i = procedure::field_count; i-- > 0;) say(field_.seen.test(i), words_.seen[i]);
    for (const ToolSeen& left : field_.left) say(!is_drawn_in_place(left.icon), left.name);
    for (const ToolSeen& used : field_.tools) say(true, used.name);
  }

  static bool is_drawn_in_place(const std::string& icon) {
    return std::find(std::begin(drawn_in_place), std::end(drawn_in_place), icon) !=
           std::end(drawn_in_place);
  }

  const Procedure& p_;
  const World& w_;
  const FieldWords& words_;
  FieldView field_;
};

}  // namespace

FieldView field_of(const Procedure& procedure, const World& world, const FieldWords& words) {
  return FieldBuilder(procedure, world, words).build();
}

}  // namespace beforehand::picture
