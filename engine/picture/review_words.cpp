// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "picture/review_words.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "base/text.hpp"

namespace beforehand::picture {
namespace {

using procedure::Procedure;
using records::Criterion;

constexpr std::size_t most_named = 5;

std::string step_lately(const Procedure& p, const records::WeakStep& w, const Strings& t) {
  const auto& step = p.step(w.step);
  if (w.attempts == 0) return t("review.next.untried", {step.title});
  if (w.passed == w.attempts) return t("review.next.unsure", {step.title});
  return t("review.next.weak", {step.title, std::to_string(w.passed), std::to_string(w.attempts)});
}

std::string drill_words(const records::SessionRecord& s, const Strings& t) {
  return t("review.evidence.drill",
           {records::minute_text(s.started), fmt::format("{:.1f}", s.total)});
}

bool is_assessed(const records::SessionRecord& s) {
  return s.level == drill::Level::assessed && records::counts_for_standing(s.assistant) &&
         s.complete && s.phase.empty();
}

// About a thing, where it went, and everywhere it may go.
std::string turnover_fault_words(const records::TaskRecord::Fault& fault, const Strings& t) {
  std::vector<std::string> about;
  for (std::size_t i = 0; i < fault.about.size(); ++i) {
    const auto text = i == 0 ? fault.about[i] : t("turnover." + fault.about[i]);
    if (i > 2)
      about.back() = t("turnover.or", {about.back(), text});
    else
      about.push_back(text);
  }
  return t("turnover." + fault.kind, about);
}

}  // namespace

ReviewWords review_words(const Strings& t) {
  return {t("review.curve.drill"), t("review.curve.total"), t("review.curve.ready-from"),
          t("review.curve.ready"), t("review.curve.other"), t("review.curve.band"),
          t("review.heat.none"),   t("review.heat.ticked"), t("review.heat.lately")};
}

const std::string& readiness_words(records::Readiness r, const Strings& t) {
  static constexpr const char* keys[] = {"readiness.none", "readiness.practising",
                                         "readiness.evidence", "readiness.signed-off"};
  return t(keys[static_cast<std::size_t>(r)]);
}

const std::string& verdict_words(scoring::Verdict v, const Strings& t) {
  return t("verdict." + std::string(scoring::word(v)));
}

std::string reason_words(const Procedure& p, const records::PracticePart& part, const Strings& t) {
  std::vector<std::string> named;
  for (const auto& w : part.steps)
    if (w.weak() && named.size() < 2) named.push_back(step_lately(p, w, t));
  std::string text;
  for (const auto& one : named) text += (text.empty() ? "" : " ") + one;
  return text;
}

std::string criterion_words(const Criterion& c, const Procedure& p, const Strings& t) {
  const auto have = std::to_string(c.have), need = std::to_string(c.need);
  switch (c.kind) {
    case Criterion::Kind::assessed_passes:
      return t("review.criterion.passes", {have, need});
    case Criterion::Kind::no_unsafe_act:
      if (!c.met && c.have == 0) return t("review.criterion.safe.unknown");
      return c.met ? t("review.criterion.safe", {need})
                   : t("review.criterion.unsafe", {have, need});
    case Criterion::Kind::competence:
      return t(
          "review.criterion.steps",
          {have, need, t("severity." + std::string(procedure::word(p.sign_off.competent_from)))});
  }
  return {};
}

std::vector<std::string> evidence_words(const Criterion& c, const records::ScenarioReview& r,
                                        const Strings& t) {
  std::vector<std::string> lines;
  if (c.kind == Criterion::Kind::competence) {
    for (const auto& s : r.steps)
      if (std::find(c.steps.begin(), c.steps.end(), s.id) != c.steps.end())
        lines.push_back(t("review.evidence.step", {s.title, step_words(s, t)}));
    return lines;
  }
  for (auto s = r.sessions.rbegin(); s != r.sessions.rend() && lines.size() < most_named; ++s) {
    if (!is_assessed(*s)) continue;
    const bool pass = s->verdict == scoring::Verdict::ready;
    if (c.kind == Criterion::Kind::assessed_passes ? pass : s->unsafe)
      lines.push_back(drill_words(*s, t));
  }
  return lines;
}

std::string tray_words(const records::TaskRecord& task, const Strings& t) {
  const int lacking = task.of - task.right;
  const int extra = static_cast<int>(task.faults.size()) - lacking;
  return t(extra > 0 ? "setup.summary.extra" : "setup.summary",
           {std::to_string(task.right), std::to_string(task.of), clock_text(task.took),
            std::to_string(extra)});
}

std::vector<std::string> around_words(const records::Around& around, const Strings& t) {
  std::vector<std::string> lines;
  if (const auto& task = around.set_up) {
    lines.push_back(t("debrief.around.setup", {tray_words(*task, t)}));
    for (const auto& fault : task->faults) lines.push_back(t("setup." + fault.kind, fault.about));
  }
  if (const auto& task = around.turnover) {
    const auto summary = t("turnover.summary", {std::to_string(task->right),
                                                std::to_string(task->of), clock_text(task->took)});
    lines.push_back(t("debrief.around.turnover", {summary}));
    for (const auto& fault : task->faults) lines.push_back(turnover_fault_words(fault, t));
  }
  return lines;
}

std::string step_words(const records::StepReview& s, const Strings& t) {
  if (s.standing.attempts == 0) return t("review.step.untried");
  if (s.standing.competent())
    return t("review.step.complete", {std::to_string(s.standing.signal_at)});
  const auto more = std::to_string(records::passes_to_signal(s.standing));
  const auto passed = std::to_string(s.recent_passed), recent = std::to_string(s.recent);
  return t(s.standing.lapsed_at > 0 ? "review.step.lapsed" : "review.step.lacking",
           {passed, recent, more});
}

}  // namespace beforehand::picture
