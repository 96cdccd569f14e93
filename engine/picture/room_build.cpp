// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "picture/room_build.hpp"

#include <algorithm>

#include "picture/field_seen.hpp"
#include "picture/room_motion.hpp"
#include "procedure/relations.hpp"

namespace beforehand::picture {
namespace {

using drill::Doing;
using drill::PersonNow;
using drill::StepState;
using drill::SupplyNow;
using drill::World;
using procedure::PlaceKind;
using procedure::Procedure;
using procedure::Role;
using procedure::SupplyState;
using procedure::Verb;

/// How long a hand is seen reaching for a thing, at most; for the eye only, the drill's times know
/// nothing of it.
constexpr Ms reaching{700};

/// A heap of used things has a slot for each that can come to lie there, but no more than so many.
constexpr std::size_t heap_slots = 15;

/// On the patient, for what is used there and left.
constexpr std::size_t spare_slots = 1;

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
      : p_(p),
        w_(w),
        choice_(choice),
        patient_(patient_place()),
        in_order_(procedure::in_order_of_use(p)) {
    const auto seen = seen_at_tooth(p, w);
    for (std::size_t i = 0; i < p.supplies.size(); ++i)
      fixed_.push_back(fixed_on_patient(p, w, seen, SupplyIx{i}));
  }

  RoomView build() {
    room_.hand = choice_.hand;
    for (std::size_t i = 0; i < p_.places.size(); ++i) add_place(PlaceIx{i});
    room_.patient = somebody_lies_there();
    if (room_.patient && patient_ == p_.places.size()) add_patient();
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

  bool has_step(Verb verb, SupplyIx supply) const {
    return std::any_of(p_.steps.begin(), p_.steps.end(), [&](const procedure::Step& step) {
      return step.verb == verb && step.supply == supply;
    });
  }

  Fixed fixed(SupplyIx supply) const { return fixed_[supply.at()]; }

  /// Whether it lies or stays on the patient at some time.
  bool is_placed(SupplyIx supply) const {
    return has_step(Verb::place, supply) || fixed(supply) != Fixed::never;
  }

  PlaceKind kind_of(PlaceIx place) const { return place ? p_.place(place).kind : PlaceKind::tray; }

  /// Whether it is put to the place where it ends while the drill goes on.
  bool is_put_to(SupplyIx supply) const { return has_step(Verb::put_away, supply); }

  /// Whether it can come to lie among the used things.
  bool gets_used(SupplyIx supply) const {
    const procedure::Supply& s = p_.supply(supply);
    return (is_put_to(supply) && kind_of(s.ends) == PlaceKind::soiled) ||
           s.after_use == procedure::AfterUse::soiled || has_step(Verb::remove, supply) ||
           is_fixed_on_tooth(supply);
  }

  /// The shield comes off the lamp clean, what was on the tooth does not.
  bool is_fixed_on_tooth(SupplyIx supply) const {
    return fixed(supply) != Fixed::never && !has_step(Verb::place, supply);
  }

  bool belongs(SupplyIx supply, PlaceIx place) const {
    const procedure::Supply& s = p_.supply(supply);
    if (p_.place(place).kind == PlaceKind::patient) return is_placed(supply);
    return s.stored == place || s.at == place || (s.ends == place && is_put_to(supply));
  }

  void add_place(PlaceIx index) {
    const procedure::Place& place = p_.place(index);
    PlaceView view{place.name, place.clock_hour, place.zone, place.motion, place.kind, {}};
    std::vector<SupplyIx> owners;
    const bool heap = place.kind == PlaceKind::soiled;
    if (place.kind != PlaceKind::waste && place.kind != PlaceKind::sharps) {
      for (const SupplyIx supply : in_order_)
        if (heap ? gets_used(supply) : belongs(supply, index)) owners.push_back(supply);
    }
    if (heap) owners.resize(std::clamp<std::size_t>(owners.size(), 3, heap_slots));
    if (place.kind == PlaceKind::patient) owners.resize(owners.size() + spare_slots);
    view.slots.resize(owners.size());
    owners_.push_back(std::move(owners));
    room_.places.push_back(std::move(view));
  }

  /// The chair is empty where nothing is done to anybody.
  bool somebody_lies_there() const {
    return patient_ < p_.places.size() ||
           std::any_of(in_order_.begin(), in_order_.end(),
                       [&](SupplyIx supply) { return is_placed(supply); }) ||
           std::any_of(p_.steps.begin(), p_.steps.end(), [](const procedure::Step& step) {
             return step.leaves.any() || step.clears.any();
           });
  }

  void add_patient() {
    std::vector<SupplyIx> owners;
    for (const SupplyIx supply : in_order_)
      if (is_placed(supply)) owners.push_back(supply);
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
    view.state = state_seen(index);
    view.hazards = supply.hazards;
    view.sealed = supply.needs_preparing &&
                  (view.state == SupplyState::stored || view.state == SupplyState::set_out);
    if (now.sets_at != never) {
      view.left = std::max(Ms{0}, now.sets_at - w_.now);
      view.left_share = share_of(view.left, supply.working_time);
    }
    const auto& open = choice_.open_windows;
    view.open_window = std::find(open.begin(), open.end(), index) != open.end();
    view.chosen = choice_.chosen && choice_.chosen == index;
    return view;
  }

  /// What was put away and is kept. The drill has done with it; it lies where it was put.
  bool is_kept(SupplyIx supply) const {
    const SupplyNow& now = w_.supply(supply);
    if (now.state != SupplyState::discarded || !now.place) return false;
    const PlaceKind kind = kind_of(now.place);
    return kind != PlaceKind::waste && kind != PlaceKind::sharps;
  }

  SupplyState state_seen(SupplyIx supply) const {
    const SupplyNow& now = w_.supply(supply);
    if (is_kept(supply))
      return kind_of(now.place) == PlaceKind::soiled ? SupplyState::soiled : SupplyState::stored;
    if (now.state == SupplyState::discarded) return now.state;
    if (fixed(supply) == Fixed::on) return SupplyState::in_use;
    if (fixed(supply) == Fixed::off)
      return is_fixed_on_tooth(supply) ? SupplyState::soiled : SupplyState::set_out;
    return now.state;
  }

  /// Where it is seen to lie; nowhere on the patient.
  PlaceIx place_seen(SupplyIx supply) const {
    const SupplyNow& now = w_.supply(supply);
    if (now.state == SupplyState::discarded) return now.place;
    if (fixed(supply) == Fixed::on) return {};
    if (fixed(supply) != Fixed::off) return now.place;
    const PlaceIx used = used_place();
    return is_fixed_on_tooth(supply) && used ? used : p_.supply(supply).at;
  }

  /// Where a supply that lies at a place has its slot there: its own, or the first that is
  /// nobody's.
  Spot spot_at(PlaceIx place, SupplyIx supply) const {
    const std::size_t at = place ? place.at() : patient_;
    if (at >= owners_.size()) return {};
    const auto& owners = owners_[at];
    const auto& slots = room_.places[at].slots;
    const auto own = std::find(owners.begin(), owners.end(), supply);
    if (own != owners.end()) return slot(at, static_cast<std::size_t>(own - owners.begin()));
    std::size_t free = 0;
    while (free < slots.size() && (slots[free] || owners[free])) ++free;
    return slot(at, free);
  }

  static Spot slot(std::size_t place, std::size_t slot) { return {Spot::Kind::place, place, slot}; }

  void lay_down(SupplyIx index) {
    const bool gone = w_.supply(index).state == SupplyState::discarded && !is_kept(index);
    if (gone || in_a_hand(index)) return;
    if (drill::is_shut_away(p_, w_, index)) return;
    const Spot spot = spot_at(place_seen(index), index);
    if (spot.kind != Spot::Kind::place) return;
    auto& slots = room_.places[spot.place].slots;
    if (spot.slot < slots.size()) slots[spot.slot] = view_of(index);
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
      if (w_.supply(SupplyIx{i}).holder == index) fill_hand(view, taken, index, SupplyIx{i});
    }
    for (const Doing& doing : w_.person(index).doing) busy_hands(view, taken, index, doing);
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

  Verb verb_of(const Doing& doing) const {
    if (doing.action) return p_.action(doing.action).verb;
    return doing.step ? p_.step(doing.step).verb : Verb::work;
  }

  /// A way a hand takes, and whether it carries the supply on it.
  struct Leg {
    Spot from, to;
    double reach = 1;
    bool carries = false;
  };

  static Spot to_mouth() { return {Spot::Kind::mouth, 0, 0}; }
  static Spot to_transfer() { return {Spot::Kind::transfer, 0, 0}; }

  /// First to where the thing is, then with it to where it goes, and for what goes back to its
  /// place, back. All of it within the time the deed takes, so that what arrives is ready.
  Leg way(const Doing& doing, const Spot& take, const Spot& bring, bool returns) const {
    if (choice_.still) return {take, bring, 1, true};
    const Ms since = w_.now - doing.started;
    const Ms whole = doing.ends == never ? never : doing.ends - doing.started;
    const Ms out = whole == never ? reaching : std::min(reaching, whole * 2 / 5);
    if (since < out) return {{}, take, smooth(share_of(since, out)), false};
    if (returns && whole != never && doing.ends - w_.now < out)
      return {take, bring, smooth(share_of(doing.ends - w_.now, out)), true};
    const Ms carry = whole == never || returns ? out : whole - out;
    return {take, bring, smooth(share_of(since - out, carry)), true};
  }

  /// To a thing that stays where it lies, and away from it at the end.
  Leg visit(const Doing& doing, const Spot& there) const {
    if (choice_.still) return {{}, there, 1, false};
    const Ms since = w_.now - doing.started;
    double reach = smooth(share_of(since, reaching));
    if (doing.ends != never)
      reach = std::min(reach, smooth(share_of(doing.ends - w_.now, reaching)));
    return {{}, there, reach, false};
  }

  /// What is used beside the chair stays there; what lies at hand goes to the patient.
  bool stays_put(SupplyIx supply) const {
    const SupplyNow& now = w_.supply(supply);
    if (!now.place || p_.supply(supply).cleans_hands) return true;
    const PlaceKind kind = p_.place(now.place).kind;
    return kind == PlaceKind::counter || kind == PlaceKind::store || kind == PlaceKind::patient ||
           p_.supply(supply).icon == "chair";
  }

  /// What is on the patient, or is the patient, is not carried about.
  bool is_at_patient(SupplyIx supply) const {
    return fixed(supply) == Fixed::on || kind_of(p_.supply(supply).at) == PlaceKind::patient;
  }

  PlaceIx used_place() const {
    for (std::size_t i = 0; i < p_.places.size(); ++i) {
      if (p_.places[i].kind == PlaceKind::soiled) return PlaceIx{i};
    }
    return {};
  }

  Leg leg_of(const Doing& doing) const {
    const SupplyIx supply = doing.supply;
    if (!supply || is_at_patient(supply)) return visit(doing, to_mouth());
    const procedure::Supply& kind = p_.supply(supply);
    const PlaceIx seen = place_seen(supply);
    const Spot lies = spot_at(seen ? seen : kind.at, supply);
    const Spot after = state_seen(supply) == SupplyState::soiled && used_place()
                           ? spot_at(used_place(), supply)
                           : spot_at(kind.at, supply);
    switch (verb_of(doing)) {
      case Verb::pass:
        return way(doing, lies, to_transfer(), false);
      case Verb::take_back:
        return way(doing, to_transfer(), after, false);
      case Verb::set_out:
        return way(doing, spot_at(kind.stored ? kind.stored : kind.at, supply),
                   spot_at(kind.at, supply), false);
      case Verb::put_away:
        return way(doing, lies, spot_at(kind.ends, supply), false);
      case Verb::place:
        return way(doing, lies, to_mouth(), false);
      case Verb::remove:
        return way(doing, to_mouth(), spot_at(used_place() ? used_place() : kind.at, supply),
                   false);
      case Verb::open:
      case Verb::mix:
      case Verb::load:
      case Verb::wipe:
        return visit(doing, lies);
      case Verb::check:
      case Verb::use:
        return stays_put(supply) ? visit(doing, lies) : way(doing, lies, to_mouth(), true);
      default:
        return way(doing, lies, to_mouth(), true);
    }
  }

  /// What a clinician's step was handed over for is fetched from the transfer zone; what was in the
  /// hand already is not.
  Leg own_leg(const Doing& doing, SupplyIx supply) const {
    if (!supply) return visit(doing, to_mouth());
    if (doing.helping) return visit(doing, spot_at(w_.supply(supply).place, supply));
    const auto& needs = p_.step(doing.step).needs;
    const bool handed = std::any_of(needs.begin(), needs.end(), [&](const procedure::Need& need) {
      return need.supply == supply && need.from && w_.step(need.from).state == StepState::done;
    });
    if (!handed || choice_.still) return {to_mouth(), to_mouth(), 1, true};
    const Ms since = w_.now - doing.started;
    return {to_transfer(), to_mouth(), smooth(share_of(since - RoomMotion::way, RoomMotion::way)),
            true};
  }

  /// Who is taking a supply out of another's hand now.
  const Doing* taken_back(SupplyIx supply) const {
    for (const PersonNow& person : w_.people) {
      for (const Doing& doing : person.doing) {
        if (doing.supply == supply && doing.action && verb_of(doing) == Verb::take_back)
          return &doing;
      }
    }
    return nullptr;
  }

  /// Whether a supply is seen in somebody's hand: held, and not only looked at, reached for or
  /// worked on where it lies.
  bool in_a_hand(SupplyIx supply) const {
    const PersonIx holder = w_.supply(supply).holder;
    if (const Doing* taking = taken_back(supply); taking && leg_of(*taking).carries) return true;
    if (!holder) return false;
    const Doing* doing = doing_with(holder, supply);
    if (!doing || !doing->action) return true;
    return doing->hands > 0 && leg_of(*doing).carries;
  }

  void fill_hand(PersonView& view, std::array<bool, 2>& taken, PersonIx person, SupplyIx supply) {
    const Doing* doing = doing_with(person, supply);
    if (doing && doing->action) return;  // busy_hands sees to it
    const Doing* taking = taken_back(supply);
    if (taking && leg_of(*taking).carries) return;
    std::size_t side = preferred_side(view.role, false);
    if (taken[side]) side = 1 - side;
    if (taken[side]) return;
    taken[side] = true;
    HandView& hand = view.hands[side];
    hand.holds = view_of(supply);
    if (doing) {
      const Leg leg = own_leg(*doing, supply);
      hand.from = leg.from;
      hand.to = leg.to;
      hand.reach = leg.reach;
    } else if (w_.supply(supply).offered || taking) {
      hand.from = taking ? to_mouth() : to_transfer();
      hand.to = to_transfer();
      if (taking) hand.reach = leg_of(*taking).reach;
    } else if (view.role == Role::clinician && w_.person(person).attention()) {
      hand.from = hand.to = to_mouth();
    }
  }

  /// Hands at work, with what they carry.
  void busy_hands(PersonView& view, std::array<bool, 2>& taken, PersonIx person,
                  const Doing& doing) {
    if (!doing.action && doing.supply && w_.supply(doing.supply).holder == person) return;
    const Leg leg =
        doing.action || !doing.helping ? leg_of(doing) : own_leg(doing, helped_with(doing));
    const std::size_t first = preferred_side(view.role, doing.cover);
    bool carried = !leg.carries || !doing.supply || !doing.action;
    int hands = std::max(doing.hands, carried ? 0 : 1);
    for (const std::size_t side : {first, 1 - first}) {
      if (hands <= 0 || taken[side]) continue;
      taken[side] = true;
      HandView& hand = view.hands[side];
      hand.from = leg.from;
      hand.to = leg.to;
      hand.reach = leg.reach;
      if (!carried) hand.holds = view_of(doing.supply);
      carried = true;
      --hands;
    }
  }

  // One past the last need: what somebody keeps from the step.
  SupplyIx helped_with(const Doing& doing) const {
    const auto& step = p_.step(doing.step);
    return doing.need < step.needs.size() ? step.needs[doing.need].supply : step.supply;
  }

  const Procedure& p_;
  const World& w_;
  const RoomChoice& choice_;
  std::size_t patient_;
  std::vector<SupplyIx> in_order_;             ///< of use
  std::vector<Fixed> fixed_;                   ///< by supply
  std::vector<std::vector<SupplyIx>> owners_;  ///< by place and slot
  RoomView room_;
};

}  // namespace

RoomView room_of(const Procedure& procedure, const World& world, const RoomChoice& choice) {
  return RoomBuilder(procedure, world, choice).build();
}

}  // namespace beforehand::picture
