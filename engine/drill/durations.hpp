// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include "base/random.hpp"
#include "procedure/procedure.hpp"

namespace beforehand::drill {

/// The value below which a triangular distribution over [least, most] with its mode at usual lies
/// with probability u in [0, 1); by the inverse of its distribution function, rounded to whole
/// milliseconds. Only +, -, *, / and sqrt are used, which IEEE 754 rounds alike everywhere.
/// least == most gives that value.
Ms triangular(const procedure::Estimate&, double u);

/// How long a step takes the `occurrence`-th time it is begun in a drill with this seed: at least
/// 1 ms, the reach included. Nothing a trainee does changes it.
Ms draw_duration(const procedure::Step&, std::uint64_t name_hash, std::uint64_t seed,
                 std::uint64_t occurrence);

}  // namespace beforehand::drill
