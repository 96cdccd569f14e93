// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include <fmt/format.h>

#include <chrono>
#include <optional>

#include "commands.hpp"
#include "score_json.hpp"
#include "score_text.hpp"
#include "scoring/planned.hpp"

namespace beforehand::command {
namespace {

constexpr std::chrono::seconds longest_search{5};

std::optional<scoring::Reference> planned(const procedure::Procedure& p,
                                          const drill::Session& session) {
  const auto until = std::chrono::steady_clock::now() + longest_search;
  return scoring::planned_reference(p, session,
                                    [until] { return std::chrono::steady_clock::now() > until; });
}

}  // namespace

void print_result(const procedure::Procedure& p, const drill::Session& session,
                  const std::string& format) {
  const auto trainee = p.who(procedure::Role::assistant);
  const auto reference = planned(p, session);
  const auto score = reference ? scoring::score(p, session, trainee, *reference)
                               : scoring::score(p, session, trainee);
  fmt::print("{}",
             format == "json" ? score_json(p, session, score) : score_text(p, session, score));
}

}  // namespace beforehand::command
