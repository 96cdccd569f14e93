// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <compare>
#include <cstddef>
#include <cstdint>

namespace beforehand {

/// Position of a thing in its own list of a Procedure; a step's index cannot be taken for a
/// supply's. A default-made index points at nothing and is false in a condition.
template <class Tag>
struct Index {
  std::uint16_t value = 0xffff;

  constexpr Index() = default;
  constexpr explicit Index(std::size_t v) : value(static_cast<std::uint16_t>(v)) {}
  constexpr explicit operator bool() const { return value != 0xffff; }
  constexpr std::size_t at() const { return value; }
  friend constexpr auto operator<=>(Index, Index) = default;
};

using StepIx = Index<struct StepTag>;
using SupplyIx = Index<struct SupplyTag>;
using PlaceIx = Index<struct PlaceTag>;
using PersonIx = Index<struct PersonTag>;
using DeviceIx = Index<struct DeviceTag>;
using SignalIx = Index<struct SignalTag>;
using PhaseIx = Index<struct PhaseTag>;
using ActionIx = Index<struct ActionTag>;

}  // namespace beforehand
