// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include <fmt/format.h>

#include <chrono>

#include "commands.hpp"
#include "language.hpp"
#include "picture/report_study.hpp"
#include "score_json.hpp"
#include "score_text.hpp"

namespace beforehand::command {
namespace {

constexpr std::chrono::seconds longest_search{5};

// The plan of what was played, for the signals that occurred; best found when the time is up.
timing::Plan planned(const procedure::Procedure& p, const drill::Session& session) {
  const auto until = std::chrono::steady_clock::now() + longest_search;
  timing::PlanRequest request;
  request.happened = scoring::signals_shown(session);
  request.phase = session.setup.phase;
  request.stopped = [until] { return std::chrono::steady_clock::now() > until; };
  return timing::plan(p, request);
}

std::string rehearsal_page(const procedure::Procedure& p, const drill::Session& session,
                           const timing::Plan& plan, const std::string& language) {
  if (!study::is_rehearsal(session))
    throw Failure(wrong_usage,
                  "html is for a team's rehearsal; \"report --session\" prints a drill's page");
  return picture::team_report(p, session, &plan, texts_in(language));
}

}  // namespace

void print_result(const procedure::Procedure& p, const drill::Session& session,
                  const std::string& format, const std::string& language) {
  const auto trainee = p.who(procedure::Role::assistant);
  const auto plan = planned(p, session);
  if (format == "html") {
    fmt::print("{}", rehearsal_page(p, session, plan, language));
    return;
  }
  const auto score = plan.found() && plan.chair_time_proven
                         ? scoring::score(p, session, trainee, {plan.chair_time, true})
                         : scoring::score(p, session, trainee);
  fmt::print("{}",
             format == "json" ? score_json(p, session, score) : score_text(p, session, score));
}

}  // namespace beforehand::command
