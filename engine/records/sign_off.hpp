// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <string>
#include <vector>

#include "procedure/procedure.hpp"
#include "records/store.hpp"

namespace beforehand::records {

/// One of the things a scenario asks for before a sign-off (procedure::SignOffRule), and how it
/// stands.
struct Criterion {
  enum class Kind : std::uint8_t {
    assessed_passes,  ///< `have` of `need` assessed drills of the whole procedure with verdict
                      ///< ready
    no_unsafe_act,    ///< of the last `need` assessed drills, `have` had an unsafe act
    competence,       ///< of `need` steps, `have` show evidence of competence; `steps` lack it
  };
  Kind kind = Kind::assessed_passes;
  bool met = false;
  int have = 0, need = 0;
  std::vector<std::string> steps;  ///< ids
};
std::string_view word(Criterion::Kind);

/// How a trainee stands against a scenario's rule, from what the store holds. The trainer decides;
/// this is evidence.
std::vector<Criterion> criteria(const procedure::Procedure&, const Summary& with_history,
                                const std::vector<SessionRecord>& newest_first);
std::vector<Criterion> criteria(const procedure::Procedure&, const Store&, const Id& trainee);
bool all_met(const std::vector<Criterion>&);

/// One line a criterion, in English: what a sign-off keeps, and a terminal shows.
std::string in_words(const procedure::Procedure&, const std::vector<Criterion>&);

}  // namespace beforehand::records
