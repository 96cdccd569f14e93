// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include <fmt/format.h>

#include "commands.hpp"
#include "score_json.hpp"
#include "score_text.hpp"

namespace beforehand::command {

void print_result(const procedure::Procedure& p, const drill::Session& session,
                  const std::string& format) {
  const auto trainee = p.who(procedure::Role::assistant);
  const auto score = scoring::score(p, session, trainee);
  fmt::print("{}",
             format == "json" ? score_json(p, session, score) : score_text(p, session, score));
}

}  // namespace beforehand::command
