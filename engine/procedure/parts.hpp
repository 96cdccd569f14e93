// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <bitset>
#include <string>
#include <vector>

#include "base/index.hpp"
#include "base/problem.hpp"
#include "base/time.hpp"
#include "procedure/words.hpp"

// Who and what a procedure needs, and what may happen in it. An Index is a position in the list of
// the procedure that holds the thing.

namespace beforehand::procedure {

struct Person {
  std::string id, name;
  Role role = Role::assistant;
  int hands = 2;
  Mark mark;
};

struct Place {
  std::string id, name;
  double clock_hour =
      3;  ///< position around the patient's mouth, 12 behind the head, for a right-handed operator
  Zone zone = Zone::assistant_zone;
  Motion motion = Motion::ii;  ///< what it takes the assistant to reach it
  PlaceKind kind = PlaceKind::tray;
  SupplyIx
      inside;  ///< the supply it is a part of: what is stored here comes out once that is there
  Mark mark;
};

/// Something there is one of, which two steps cannot use at once.
struct Device {
  std::string id, name;
  Mark mark;
};

/// Says that a step lasts as long as a material's instructions tell, `times` over.
struct TimedBy {
  MaterialTime time = MaterialTime::mixing;
  std::string material;  ///< id in a materials file; none: the times are the scenario's own
  int times = 1;
  Mark mark;
};

struct Supply {
  std::string id, name, icon, caution;
  std::string material;      ///< whose working time it has, by id in a materials file; may be empty
  PlaceIx stored, at, ends;  ///< where it is kept, lies ready, and goes when put away
  SupplyState starts = SupplyState::stored;
  AfterUse after_use =
      AfterUse::soiled;  ///< what a use leaves: soiled, to be loaded again, or as ready as before
  Ms working_time = never;      ///< from prepared until it has set
  std::string sets_as = "set";  ///< how it spoils, for messages: "set", "dried out"
  std::bitset<hazard_count> hazards;
  bool cleans_hands = false;     ///< using it makes soiled gloves clean (hand rub, overgloves)
  bool needs_preparing = false;  ///< derived: some step opens, mixes or loads it
  Mark mark;
};

/// A signal another one makes likelier: the first surprise predicts the second.
struct Foretold {
  SignalIx by;
  int likely_percent = 100;
};

/// Something that changes what will be needed. Whether it happens is drawn, or chosen; it shows, or
/// is known not to come, `delay` after `after` has started or ended.
struct Signal {
  std::string id, title, cue, why;
  int likely_percent = 0;
  StepIx after;
  bool from_start = false;
  Ms delay{0};
  std::vector<Foretold>
      foretold;     ///< when one of these has happened, its percentage replaces likely_percent
  FieldSet leaves;  ///< what can be seen at the tooth once it has happened
  Mark mark;
};

struct Phase {
  std::string id, title;
  Mark mark;
};

}  // namespace beforehand::procedure
