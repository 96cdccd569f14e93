// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "records/sign_off.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "base/text.hpp"
#include "records/competence.hpp"

namespace beforehand::records {
namespace {

using procedure::Procedure;

Criterion unsafe_acts(const Procedure& p, const std::vector<SessionRecord>& newest_first) {
  Criterion c{Criterion::Kind::no_unsafe_act, false, 0, p.sign_off.assessed_passes, {}};
  int seen = 0;
  for (const auto& s : newest_first) {
    if (s.level != drill::Level::assessed || !counts_for_standing(s.assistant)) continue;
    if (seen == c.need) break;
    ++seen;
    c.have += s.unsafe;
  }
  c.met = seen > 0 && c.have == 0;
  return c;
}

Criterion competence(const Procedure& p, const std::vector<StepHistory>& history) {
  Criterion c{Criterion::Kind::competence, false, 0, 0, {}};
  const auto trainee = p.who(procedure::Role::assistant);
  for (const auto& step : p.steps) {
    if (step.by.front() != trainee || step.severity < p.sign_off.competent_from) continue;
    ++c.need;
    const auto at = std::find_if(history.begin(), history.end(),
                                 [&](const StepHistory& h) { return h.step == step.id; });
    if (at != history.end() && standing(at->outcomes).competent())
      ++c.have;
    else
      c.steps.push_back(step.id);
  }
  c.met = c.steps.empty();
  return c;
}

std::string title_of(const Procedure& p, const std::string& id) {
  for (const auto& step : p.steps)
    if (step.id == id) return step.title;
  return id;
}

std::string in_words(const Procedure& p, const Criterion& c) {
  switch (c.kind) {
    case Criterion::Kind::assessed_passes:
      return fmt::format("{} of {} assessed drills passed", c.have, c.need);
    case Criterion::Kind::no_unsafe_act:
      if (!c.met && c.have == 0) return "no assessed drill yet that could show an unsafe act";
      return c.have == 0 ? fmt::format("no unsafe act in the last {} assessed drills", c.need)
                         : fmt::format("an unsafe act in {} of the last {} assessed drills", c.have,
                                       c.need);
    case Criterion::Kind::competence: {
      std::vector<std::string> lacking;
      for (const auto& id : c.steps) lacking.push_back('"' + title_of(p, id) + '"');
      return fmt::format("evidence of competence in {} of {} {} steps{}", c.have, c.need,
                         procedure::word(p.sign_off.competent_from),
                         lacking.empty() ? "" : "; not yet in " + list_text(lacking));
    }
  }
  return {};
}

}  // namespace

std::string_view word(Criterion::Kind kind) {
  static constexpr std::string_view words[] = {"assessed passes", "no unsafe act", "competence"};
  return words[static_cast<int>(kind)];
}

std::vector<Criterion> criteria(const Procedure& p, const Summary& summary,
                                const std::vector<SessionRecord>& newest_first) {
  const int need = p.sign_off.assessed_passes, have = summary.assessed_passes;
  return {{Criterion::Kind::assessed_passes, have >= need, have, need, {}},
          unsafe_acts(p, newest_first),
          competence(p, summary.history)};
}

std::vector<Criterion> criteria(const Procedure& p, const Store& store, const Id& trainee) {
  SummaryQuery summary;
  summary.trainee = trainee;
  summary.scenario = p.id;
  summary.with_history = true;
  SessionQuery sessions;
  sessions.trainee = trainee;
  sessions.scenario = p.id;
  const auto found = store.summaries(summary);
  return criteria(p, found.empty() ? Summary{} : found.front(), store.sessions(sessions));
}

bool all_met(const std::vector<Criterion>& list) {
  return std::all_of(list.begin(), list.end(), [](const Criterion& c) { return c.met; });
}

std::string in_words(const Procedure& p, const std::vector<Criterion>& list) {
  std::string text;
  for (const auto& c : list)
    text += fmt::format("{} {}\n", c.met ? "met:    " : "not met:", in_words(p, c));
  return text;
}

}  // namespace beforehand::records
