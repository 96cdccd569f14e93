// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "study/team_debrief.hpp"

#include <algorithm>

#include "scoring/debrief.hpp"
#include "scoring/hindsight.hpp"
#include "study/phrases.hpp"

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
    const auto& say = phrases(p_.language);
    const auto often = [&](int n) { return n == 1 ? std::string(say.once) : filled(say.times, n); };
    if (slowest_ && longest_ > worth_saying)
      out.push_back(filled(say.begin_sooner, clock_text(ready_at_), p_.step(slowest_).title,
                           duration_text(longest_)));
    if (asked_ > 0)
      out.push_back(filled(say.say_ahead, often(asked_), p_.step(first_asked_).title));
    if (helped_ > 0 && out.size() < most_changes)
      out.push_back(filled(say.let_the_other, often(helped_)));
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
    const auto& needs = p_.step(e.step).needs;
    const auto which = static_cast<std::size_t>(e.value);
    return which < needs.size() && needs[which].from ? needs[which].from : e.step;
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
    out.push_back(filled(phrases(p.language).change_with_example, advice.change,
                         clock_text(advice.first), advice.example));
  }
  return out;
}

// Whose the need was: who served it, unless the clinician had to do without `who`.
PersonIx served_by(const drill::Session& s, const scoring::NeedScore& need, PersonIx who) {
  if (need.helped) return who;
  for (const auto& e : s.events)
    if (e.what == What::need_met && e.step == need.step && e.value == need.need && e.person)
      return e.person;
  return who;
}

// What scoring found as the reason that it came late.
std::string late_because(const scoring::Score& score, StepIx from) {
  for (const auto& e : score.errors)
    if (e.kind == scoring::ErrorKind::late && e.step == from) return e.what;
  return {};
}

/// Everything but the changes.
class Looker {
 public:
  Looker(const Procedure& p, const drill::Session& s, TeamDebrief& out) : p_(p), s_(s), out_(out) {}

  void look() {
    for (std::size_t i = 0; i < p_.people.size(); ++i)
      if (p_.people[i].role != Role::clinician) look_at(PersonIx{i});
    std::stable_sort(out_.hand_overs.begin(), out_.hand_overs.end(),
                     [](const HandOver& a, const HandOver& b) { return a.at < b.at; });
    std::stable_sort(out_.waits.begin(), out_.waits.end(),
                     [](const TeamWait& a, const TeamWait& b) { return a.wait > b.wait; });
    look_for_nobody();
  }

 private:
  void look_at(PersonIx who) {
    const auto score = scoring::score(p_, s_, who);
    for (const auto& need : score.needs) {
      const bool unasked = !need.requested && !need.helped;
      const auto by = served_by(s_, need, who);
      out_.unasked += unasked;
      out_.hand_overs.push_back({by, need.step, need.from, need.need_at, unasked});
      if (need.wait > Ms{0})
        out_.waits.push_back({p_.who(Role::clinician), by, need.step, need.from, need.need_at,
                              need.wait, need.requested, late_because(score, need.from)});
    }
    for (const auto& stretch : score.stretches)
      if (stretch.person == who) assistant_waits(stretch);
  }

  // Nothing useful to begin, and then a step begins as somebody else's ends: that was waited for.
  void assistant_waits(const scoring::Stretch& stretch) {
    using Kind = scoring::Stretch::Kind;
    if (stretch.kind != Kind::standby && stretch.kind != Kind::waiting) return;
    if (stretch.to - stretch.from < worth_saying) return;
    const auto* begun = next_begun(stretch.person, stretch.to);
    if (begun == nullptr) return;
    const drill::Event* ended = nullptr;
    for (const auto& e : s_.events) {
      const bool near =
          e.at > stretch.from && e.at <= stretch.to && stretch.to - e.at <= scoring::allowance;
      if (e.what == What::step_done && e.person != stretch.person && near) ended = &e;
    }
    if (ended == nullptr) return;
    out_.waits.push_back({stretch.person, ended->person, begun->step, ended->step, stretch.from,
                          stretch.to - stretch.from, false, ""});
  }

  const drill::Event* next_begun(PersonIx who, Ms at) const {
    for (const auto& e : s_.events) {
      const bool begins = e.what == What::step_started || e.what == What::action_started ||
                          e.what == What::cover_started;
      if (begins && e.person == who && e.step && e.at == at) return &e;
    }
    return nullptr;
  }

  void look_for_nobody() {
    using Kind = scoring::Stretch::Kind;
    std::vector<NobodyBusy> busy;
    for (const auto& s : out_.score.stretches)
      if (s.kind == Kind::work || s.kind == Kind::cover) busy.push_back({s.from, s.to});
    std::sort(busy.begin(), busy.end(),
              [](const NobodyBusy& a, const NobodyBusy& b) { return a.from < b.from; });
    Ms until{0};
    busy.push_back({out_.score.chair_time, out_.score.chair_time});
    for (const auto& b : busy) {
      if (b.from - until >= scoring::allowance) out_.nobody_busy.push_back({until, b.from});
      until = std::max(until, b.to);
    }
  }

  const Procedure& p_;
  const drill::Session& s_;
  TeamDebrief& out_;
};

}  // namespace

bool is_rehearsal(const drill::Session& s) { return s.setup.assistant == rehearsing; }

TeamDebrief team_debrief(const Procedure& p, const drill::Session& s) {
  TeamDebrief out;
  out.score = scoring::score(p, s, p.who(Role::assistant));
  out.both_idle = out.score.both_idle;
  for (std::size_t i = 0; i < p.people.size(); ++i)
    out.change.push_back(p.people[i].role == Role::clinician
                             ? ClinicianReader(p, s).changes()
                             : assistants_changes(p, s, PersonIx{i}));
  Looker(p, s, out).look();
  return out;
}

}  // namespace beforehand::study
