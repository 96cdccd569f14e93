// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <bitset>
#include <cstdint>
#include <string_view>
#include <vector>

#include "drill/session.hpp"
#include "drill/world.hpp"

// Clearing up after a drill: where each thing that was used goes before the room is ready for the
// next patient. All of it follows from the scenario and from what was used; it has no part in the
// drill's score.

namespace beforehand::drill {

enum class Destination : std::uint8_t {
  sharps,  ///< the sharps container
  waste,
  soiled,  ///< closed away to be cleaned and sterilised
  wiped,   ///< cleaned and disinfected where it is, or before it goes back
};
inline constexpr std::size_t destination_count = 4;
std::string_view word(Destination);

/// Why a thing goes there.
enum class ClearedBecause : std::uint8_t {
  says,        ///< the scenario says where it ends
  soiled,      ///< it is soiled and made to be used again
  in_mouth,    ///< it was in the mouth: never only wiped
  on_patient,  ///< it was worn by the patient
  touched,     ///< it was handled with gloves on
};
std::string_view word(ClearedBecause);

struct Leftover {
  SupplyIx supply;
  std::bitset<destination_count> right;  ///< where it may go
  ClearedBecause because = ClearedBecause::says;

  bool goes_to(Destination d) const { return right.test(static_cast<std::size_t>(d)); }
};

/// What is left to clear away after a session: what was used, and has not gone where it ends. What
/// the scenario does not settle is left out. Empty when nobody lay in the chair.
std::vector<Leftover> leftovers(const Procedure&, const World&, const Session&);

struct Cleared {
  std::size_t leftover = 0;  ///< position in the list of leftovers()
  Destination to = Destination::waste;
};

struct TurnoverCheck {
  std::size_t right = 0;           ///< things that went where they may go
  std::vector<std::size_t> wrong;  ///< positions in `cleared`
  /// Positions in `cleared` of sharps that waited for other things (common practice: sharps go
  /// first, and whoever used them disposes of them).
  std::vector<std::size_t> sharps_late;
};

/// `cleared`: in the order in which it was done.
TurnoverCheck check_turnover(const std::vector<Leftover>&, const std::vector<Cleared>& cleared);

}  // namespace beforehand::drill
