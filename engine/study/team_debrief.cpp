// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "study/team_debrief.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "scoring/debrief.hpp"

namespace beforehand::study {
namespace {

using drill::What;
using procedure::Procedure;
using procedure::Role;

constexpr std::size_t most_changes = 2;
constexpr Ms worth_saying{2000};

/// What the clinician's own pace and words did.
class ClinicianReader {
 public:
  ClinicianReader(const Procedure& p, const drill::Session& s)
      : p_(p), s_(s), who_(p.who(Role::clinician)), done_(p.steps.size(), never) {}

  std::vector<std::string> changes() {
    for (const auto& e : s_.events) take(e);
    std::vector<std::string> out;
    if (slowest_ && longest_ > worth_saying)
      out.push_back(
          fmt::format("At {} everything for \"{}\" was there and it began {} later: begin, "
                      "or say what you wait for.",
                      clock_text(ready_at_), p_.step(slowest_).title, duration_text(longest_)));
    if (asked_ > 0)
      out.push_back(fmt::format(
          "You asked {}, first for \"{}\": say one step ahead what comes next.",
          asked_ == 1 ? "once" : fmt::format("{} times", asked_), p_.step(first_asked_).title));
    if (helped_ > 0 && out.size() < most_changes)
      out.push_back(fmt::format("You helped yourself {}: ask first, and let the other do it.",
                                helped_ == 1 ? "once" : fmt::format("{} times", helped_)));
    return out;
  }

 private:
  void take(const drill::Event& e) {
    if (e.what == What::step_done) done_[e.step.at()] = e.at;
    if (e.what == What::step_skipped) done_[e.step.at()] = Ms{0};
    if (e.person == who_ && e.what == What::step_started) start(e);
    if (e.person == who_ && e.what == What::step_done) free_since_ = e.at;
    if (e.what == What::asked && asked_++ == 0) first_asked_ = asked_for(e);
    helped_ += e.what == What::helping;
  }

  StepIx asked_for(const drill::Event& e) const {
    const auto& need = p_.step(e.step).needs[static_cast<std::size_t>(e.value)];
    return need.from ? need.from : e.step;
  }

  // need_met events stand around the start of their step.
  void start(const drill::Event& e) {
    Ms ready = free_since_;
    for (const auto& link : p_.step(e.step).after) {
      const Ms done = done_[link.step.at()];
      if (done != never && link.from == procedure::Anchor::end)
        ready = std::max(ready, done + link.at_least);
    }
    for (const auto& other : s_.events)
      if (other.what == What::need_met && other.step == e.step)
        ready = std::max(ready, other.since);
    if (e.at - ready <= longest_) return;
    longest_ = e.at - ready;
    ready_at_ = ready;
    slowest_ = e.step;
  }

  const Procedure& p_;
  const drill::Session& s_;
  PersonIx who_;
  std::vector<Ms> done_;
  Ms free_since_{0}, longest_{0}, ready_at_{0};
  StepIx slowest_, first_asked_;
  int asked_ = 0, helped_ = 0;
};

std::vector<std::string> assistants_changes(const Procedure& p, const drill::Session& s,
                                            PersonIx who) {
  std::vector<std::string> out;
  for (const auto& advice : scoring::debrief(p, scoring::score(p, s, who)).change) {
    if (out.size() == most_changes) break;
    out.push_back(
        fmt::format("{} At {}: {}", advice.change, clock_text(advice.first), advice.example));
  }
  return out;
}

PersonIx served_by(const Procedure& p, const drill::Session& s, const scoring::NeedScore& need) {
  for (const auto& e : s.events)
    if (e.what == What::need_met && e.step == need.step && e.value == need.need && e.person)
      return e.person;
  return p.step(need.from).by.front();
}

}  // namespace

TeamDebrief team_debrief(const Procedure& p, const drill::Session& s) {
  TeamDebrief out;
  out.score = scoring::score(p, s, p.who(Role::assistant));
  out.both_idle = out.score.both_idle;
  for (std::size_t i = 0; i < p.people.size(); ++i) {
    const PersonIx who{i};
    if (p.people[i].role == Role::clinician) {
      out.change.push_back(ClinicianReader(p, s).changes());
      continue;
    }
    out.change.push_back(assistants_changes(p, s, who));
    const auto score = scoring::score(p, s, who);
    for (const auto& need : score.needs) {
      ++out.needs;
      out.unasked += !need.requested && !need.helped;
      if (need.wait > Ms{0})
        out.waits.push_back(
            {served_by(p, s, need), need.step, need.from, need.need_at, need.wait, need.requested});
    }
  }
  std::stable_sort(out.waits.begin(), out.waits.end(),
                   [](const TeamWait& a, const TeamWait& b) { return a.wait > b.wait; });
  return out;
}

}  // namespace beforehand::study
