// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <cstdint>
#include <string>

#include "procedure/procedure.hpp"

// Procedures made up by chance, for tests that must hold for any. Invented: the parts are of the
// trade's kinds (hand-overs, things that set, rinsing under suction, curing, increments,
// surprises), their order and times are drawn.

namespace beforehand::test {

/// How large, and how alike its phases are.
struct Shape {
  int phases = 2;
  int blocks = 3;    ///< of each phase: a block is one clinician's step and what belongs to it
  int duties = 0;    ///< so many things more for the assistant to check before each block
  int distinct = 0;  ///< so many phases are drawn and then come again in turn; 0: all are
  bool sets = true;  ///< whether some things have a working time
  bool signals = true;
};

/// A shape drawn by chance: 1 to 5 phases of 2 to 5 blocks, some 10 to 100 steps.
Shape any_shape(std::uint64_t seed);

/// The scenario file. It is so made that one assistant can do everything in time: before a block
/// the clinician is at work for at least as long as the block's preparations take, and nothing that
/// takes the assistant's attention goes on until the moment of a hand-over.
std::string made_up_text(std::uint64_t seed, const Shape&);

/// The same, read and checked; throws with every problem when it is not valid.
procedure::Procedure made_up(std::uint64_t seed, const Shape&);
inline procedure::Procedure made_up(std::uint64_t seed) { return made_up(seed, any_shape(seed)); }

}  // namespace beforehand::test
