// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "picture/room_build.hpp"

#include <algorithm>

namespace beforehand::picture {
namespace {

using drill::Doing;
using drill::PersonNow;
using drill::SupplyNow;
using drill::World;
using procedure::PlaceKind;
using procedure::Procedure;
using procedure::Role;
using procedure::SupplyState;
using procedure::Verb;

/// How long a hand takes to be seen on its way; for the eye only, the drill's times know nothing of
/// it.
constexpr Ms travel{350};

/// A heap of used things holds whatever was used, in the order in which it came, up to so many.
constexpr std::size_t heap_slots = 15;

/// On the patient, for what is used there and left.
constexpr std::size_t spare_slots = 2;

double smooth(double t) {
  const double c = std::clamp(t, 0.0, 1.0);
  return c * c * (3 - 2 * c);
}

double share_of(Ms part, Ms whole) {
  return whole.count() <= 0
             ? 1
             : static_cast<double>(part.count()) / static_cast<double>(whole.count());
}

class RoomBuilder {
 public:
  RoomBuilder(const Procedure& p, const World& w, const RoomChoice& choice)
      : p_(p), w_(w), choice_(choice), patient_(patient_place()) {}

  RoomView build() {
    room_.hand = choice_.hand;
    for (std::size_t i = 0; i < p_.places.size(); ++i) add_place(PlaceIx{i});
    if (patient_ == p_.places.size()) add_patient();
    for (std::size_t i = 0; i < p_.supplies.size(); ++i) lay_down(SupplyIx{i});
    for (std::size_t i = 0; i < p_.people.size(); ++i) add_person(PersonIx{i});
    return std::move(room_);
  }

 private:
  std::size_t patient_place() const {
    const auto found = std::find_if(p_.places.begin(), p_.places.end(), [](const auto& place) {
      return place.kind == PlaceKind::patient;
    });
    return static_cast<std::size_t>(found - p_.places.begin());
  }

  bool is_placed(SupplyIx supply) const {
    return std::any_of(p_.steps.begin(), p_.steps.end(), [&](const procedure::Step& step) {
      return step.verb == Verb::place && step.supply == supply;
    });
  }

  bool belongs(SupplyIx supply, PlaceIx place) const {
    const procedure::Supply& s = p_.supply(supply);
    if (p_.place(place).kind == PlaceKind::patient) return is_placed(supply);
    return s.stored == place || s.at == place || s.ends == place;
  }

  void add_place(PlaceIx index) {
    const procedure::Place& place = p_.place(index);
    PlaceView view{place.name, place.clock_hour, place.zone, place.motion, place.kind, {}};
    std::vector<SupplyIx> owners;
    if (place.kind != PlaceKind::waste && place.kind != PlaceKind::sharps) {
      for (std::size_t i = 0; i < p_.supplies.size(); ++i) {
        if (belongs(SupplyIx{i}, index)) owners.emplace_back(i);
      }
    }
    if (place.kind == PlaceKind::soiled) {
      owners.assign(std::clamp<std::size_t>(used_things(), 3, heap_slots), SupplyIx{});
    }
    if (place.kind == PlaceKind::patient) owners.resize(owners.size() + spare_slots);
    view.slots.resize(owners.size());
    owners_.push_back(std::move(owners));
    room_.places.push_back(std::move(view));
  }

  std::size_t used_things() const {
    return static_cast<std::size_t>(std::count_if(
        p_.supplies.begin(), p_.supplies.end(),
        [](const procedure::Supply& s) { return s.after_use != procedure::AfterUse::ready; }));
  }

  void add_patient() {
    std::vector<SupplyIx> owners;
    for (std::size_t i = 0; i < p_.supplies.size(); ++i) {
      if (is_placed(SupplyIx{i})) owners.emplace_back(i);
    }
    owners.resize(owners.size() + spare_slots);
    PlaceView view{choice_.on_patient, 6, procedure::Zone::transfer_zone, procedure::Motion::i,
                   PlaceKind::patient, {}};
    view.slots.resize(owners.size());
    owners_.push_back(std::move(owners));
    room_.places.push_back(std::move(view));
  }

  SupplyView view_of(SupplyIx index) const {
    const procedure::Supply& supply = p_.supply(index);
    const SupplyNow& now = w_.supply(index);
    SupplyView view;
    view.supply = index;
    view.name = supply.name;
    view.icon = icon_for(supply.icon, supply.id, supply.name);
    view.state = now.state;
    view.hazards = supply.hazards;
    if (now.sets_at != never) {
      view.left = std::max(Ms{0}, now.sets_at - w_.now);
      view.left_share = share_of(view.left, supply.working_time);
    }
    const auto& open = choice_.open_windows;
    view.open_window = std::find(open.begin(), open.end(), index) != open.end();
    view.chosen = choice_.chosen && choice_.chosen == index;
    return view;
  }

  /// What somebody looks at, with no hand on it, lies where it lay.
  bool only_looked_at(SupplyIx index) const {
    const Doing* doing = doing_with(w_.supply(index).holder, index);
    return doing && doing->action && doing->hands == 0;
  }

  /// Puts a supply that lies somewhere into its own slot there, or the first free one.
  void lay_down(SupplyIx index) {
    const SupplyNow& now = w_.supply(index);
    const bool held = now.holder && !only_looked_at(index);
    if (held || now.state == SupplyState::discarded) return;
    const std::size_t place = now.place ? now.place.at() : patient_;
    if (place >= room_.places.size()) return;
    auto& slots = room_.places[place].slots;
    const auto& owners = owners_[place];
    const auto own = std::find(owners.begin(), owners.end(), index);
    std::size_t slot = static_cast<std::size_t>(own - owners.begin());
    if (own == owners.end()) {
      slot = 0;  // one that is nobody's own
      while (slot < slots.size() && (slots[slot] || owners[slot])) ++slot;
    }
    if (slot < slots.size()) slots[slot] = view_of(index);
  }

  static double seat_of(Role role) {
    switch (role) {
      case Role::clinician:
        return 11;  // one of the operator's positions: 7, 9, 11
      case Role::assistant:
        return 3;  // the middle of the assistant's zone
      case Role::second_assistant:
        return 1;  // stands behind, in the static zone
    }
    return 3;
  }

  void add_person(PersonIx index) {
    const procedure::Person& person = p_.person(index);
    PersonView view;
    view.name = person.name;
    view.role = person.role;
    view.hour = seat_of(person.role);
    view.gloves_soiled = w_.person(index).gloves_soiled;
    view.trainee = choice_.trainee && choice_.trainee == index;
    std::array<bool, 2> taken{};
    for (std::size_t i = 0; i < p_.supplies.size(); ++i) {
      const SupplyIx supply{i};
      if (w_.supply(supply).holder == index && !only_looked_at(supply))
        fill_hand(view, taken, index, supply);
    }
    for (const Doing& doing : w_.person(index).doing) busy_hands(view, taken, doing);
    room_.people.push_back(std::move(view));
  }

  /// The assistant's suction stays in one hand, so that the other passes: the right one beside a
  /// right-handed operator (trade convention).
  std::size_t preferred_side(Role role, bool cover) const {
    const bool right = choice_.hand == Handedness::right;
    const bool other = role == Role::clinician ? !right : cover == right;
    return other ? 1 : 0;
  }

  const Doing* doing_with(PersonIx person, SupplyIx supply) const {
    for (const Doing& doing : w_.person(person).doing) {
      if (doing.supply == supply) return &doing;
      if (doing.step && p_.step(doing.step).supply == supply) return &doing;
    }
    return nullptr;
  }

  void fill_hand(PersonView& view, std::array<bool, 2>& taken, PersonIx person, SupplyIx supply) {
    const Doing* doing = doing_with(person, supply);
    std::size_t side = preferred_side(view.role, doing && doing->cover);
    if (taken[side]) side = 1 - side;
    if (taken[side]) return;
    taken[side] = true;
    HandView& hand = view.hands[side];
    hand.holds = view_of(supply);
    if (doing) {
      aim(hand, *doing);
    } else if (w_.supply(supply).offered) {
      hand.goal = HandView::Goal::transfer;
    } else if (view.role == Role::clinician && w_.person(person).attention()) {
      hand.goal = HandView::Goal::mouth;
    }
  }

  /// Hands at work that hold nothing.
  void busy_hands(PersonView& view, std::array<bool, 2>& taken, const Doing& doing) {
    if (doing.supply && w_.supply(doing.supply).holder) return;
    const std::size_t first = preferred_side(view.role, doing.cover);
    int hands = doing.hands;
    for (const std::size_t side : {first, 1 - first}) {
      if (hands <= 0 || taken[side]) continue;
      taken[side] = true;
      aim(view.hands[side], doing);
      --hands;
    }
  }

  Verb verb_of(const Doing& doing) const {
    if (doing.action) return p_.action(doing.action).verb;
    return doing.step ? p_.step(doing.step).verb : Verb::work;
  }

  PlaceIx place_for(const Doing& doing, Verb verb) const {
    if (!doing.supply) return {};
    const procedure::Supply& supply = p_.supply(doing.supply);
    if (verb == Verb::set_out) return supply.stored ? supply.stored : supply.at;
    return verb == Verb::put_away && supply.ends ? supply.ends : supply.at;
  }

  void aim(HandView& hand, const Doing& doing) const {
    const Verb verb = verb_of(doing);
    const Ms since = w_.now - doing.started;
    double reach = smooth(share_of(since, travel));
    switch (verb) {
      case Verb::pass:
      case Verb::take_back:
        hand.goal = HandView::Goal::transfer;
        break;
      case Verb::set_out:
      case Verb::open:
      case Verb::mix:
      case Verb::load:
      case Verb::wipe:
      case Verb::put_away: {
        const PlaceIx place = place_for(doing, verb);
        hand.goal = place ? HandView::Goal::place : HandView::Goal::rest;
        hand.place = place ? place.at() : 0;
        if (doing.ends != never)
          reach = std::min(reach, smooth(share_of(doing.ends - w_.now, travel)));
        break;
      }
      default:
        hand.goal = HandView::Goal::mouth;
        break;
    }
    hand.reach = choice_.still ? 1 : reach;
  }

  const Procedure& p_;
  const World& w_;
  const RoomChoice& choice_;
  std::size_t patient_;
  std::vector<std::vector<SupplyIx>> owners_;  ///< by place and slot
  RoomView room_;
};

/// Steps after which the tooth is fuller than before.
int increments(const Procedure& p) {
  return static_cast<int>(std::count_if(p.steps.begin(), p.steps.end(), [](const auto& step) {
    return step.leaves.test(static_cast<std::size_t>(procedure::Field::filled));
  }));
}

bool leaves(const Procedure& p, const Doing& doing, procedure::Field flag) {
  return doing.step && p.step(doing.step).leaves.test(static_cast<std::size_t>(flag));
}

void see_actions(FieldView& field, const Procedure& p, const World& w) {
  for (const PersonNow& person : w.people) {
    for (const Doing& doing : person.doing) {
      Verb verb = Verb::work;
      if (doing.action)
        verb = p.action(doing.action).verb;
      else if (doing.step)
        verb = p.step(doing.step).verb;
      field.suction = field.suction || verb == Verb::suction;
      field.drying = field.drying || verb == Verb::dry;
      field.light = field.light || verb == Verb::light;
      field.rinsing = field.rinsing || leaves(p, doing, procedure::Field::wet);
    }
  }
}

}  // namespace

RoomView room_of(const Procedure& procedure, const World& world, const RoomChoice& choice) {
  return RoomBuilder(procedure, world, choice).build();
}

FieldView field_of(const Procedure& procedure, const World& world, const FieldWords& words) {
  FieldView field;
  field.seen = world.field;
  const int all = increments(procedure);
  if (all > 0) field.filled_share = std::min(1.0, static_cast<double>(world.filled) / all);
  see_actions(field, procedure, world);
  for (std::size_t i = 0; i < procedure::field_count; ++i) {
    if (field.seen.test(i)) field.words.push_back(words.seen[i]);
  }
  if (field.suction) field.words.push_back(words.suction);
  if (field.rinsing) field.words.push_back(words.rinsing);
  if (field.drying) field.words.push_back(words.drying);
  if (field.light) field.words.push_back(words.light);
  return field;
}

}  // namespace beforehand::picture
