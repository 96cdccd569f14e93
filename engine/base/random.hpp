// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <cstdint>
#include <string_view>

namespace beforehand {

/// 64-bit FNV-1a (Fowler, Noll, Vo 1991): names into keys, texts into fingerprints. Not for
/// secrets.
constexpr std::uint64_t fnv1a(std::string_view text, std::uint64_t hash = 0xcbf29ce484222325u) {
  for (const char c : text) hash = (hash ^ static_cast<unsigned char>(c)) * 0x100000001b3u;
  return hash;
}

/// One step of SplitMix64 (Steele, Lea, Flood 2014): a well-mixed 64-bit value of the argument.
constexpr std::uint64_t mix64(std::uint64_t x) {
  x += 0x9e3779b97f4a7c15u;
  x = (x ^ (x >> 30)) * 0xbf58476d1ce4e5b9u;
  x = (x ^ (x >> 27)) * 0x94d049bb133111ebu;
  return x ^ (x >> 31);
}

/// A random number that depends on nothing but its key, so that what one person draws never shifts
/// what another draws. `name` is the hash of the step's or signal's id, `occurrence` counts how
/// often it was drawn.
struct RandomKey {
  std::uint64_t seed = 0;
  std::uint64_t name = 0;
  std::uint64_t occurrence = 0;
};

constexpr std::uint64_t keyed_bits(RandomKey key) {
  return mix64(mix64(mix64(key.seed) ^ key.name) ^ key.occurrence);
}

/// Uniform in [0, 1), with 53 random bits; the same double on every machine.
constexpr double keyed_uniform(RandomKey key) {
  return static_cast<double>(keyed_bits(key) >> 11) * 0x1.0p-53;
}

}  // namespace beforehand
