// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "procedure/procedure.hpp"

// Laying the tray before a drill: what the announced plan needs on it, in order of use. All of it
// follows from the scenario; it has no part in the drill and its score.

namespace beforehand::drill {

/// Where a thing belongs when the clinician sits down.
enum class Belongs : std::uint8_t {
  tray,     ///< the plan uses it from the tray
  back_up,  ///< on the tray too, for a signal that may come; anywhere in the order
  counter,  ///< used, but from where it stands
  store,    ///< fetched later, by a step of its own
  nowhere,  ///< the plan has no use for it
};

struct SetUpItem {
  SupplyIx supply;  ///< of the procedure; none for a thing the plan does not know
  std::string name, icon;
  Belongs belongs = Belongs::nowhere;
  StepIx first_use;  ///< the step that first needs it; none when nothing does
};

/// What stands in the cabinet and on the counter, by name: the procedure's own things and some of
/// `others` that it does not know, drawn by `seed`. Empty when there is no tray to be laid: nobody
/// lies in the chair, or nothing starts out on it. `part`: none for the whole procedure.
std::vector<SetUpItem> set_up_of(const procedure::Procedure&, PhaseIx part,
                                 const std::vector<const procedure::Procedure*>& others,
                                 std::uint64_t seed);

enum class SetUpFault : std::uint8_t {
  missing,
  superfluous,   ///< nothing uses it
  from_counter,  ///< used, but not from the tray
  too_soon,      ///< it stays in its store for now
  out_of_order,  ///< used before what lies before it
};
inline constexpr std::size_t set_up_fault_count = 5;
std::string_view word(SetUpFault);

struct SetUpFinding {
  SetUpFault fault = SetUpFault::missing;
  std::size_t item = 0;    ///< position in the list of set_up_of()
  std::size_t before = 0;  ///< out_of_order: the item on the tray that is used after it
};

struct SetUpCheck {
  std::size_t wanted = 0;  ///< things that belong on the tray
  std::size_t right = 0;   ///< of these, laid and in order
  std::vector<SetUpFinding> findings;
};

/// `laid`: positions in `items`, in the order in which they lie; none twice. The order is judged by
/// the most things that can be kept as they lie (a longest non-decreasing subsequence).
SetUpCheck check_set_up(const std::vector<SetUpItem>& items, const std::vector<std::size_t>& laid);

}  // namespace beforehand::drill
