// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "drill/bots.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>

#include "base/random.hpp"

namespace beforehand::drill {

using procedure::Need;
using procedure::SupplyState;
using procedure::Verb;

namespace {

constexpr Ms soon{3000};  // a cover needed again within this time is kept up

std::optional<double> number_after(const std::string& text, std::string_view word) {
  if (text.rfind(word, 0) != 0) return std::nullopt;
  double value = 0;
  const char* end = text.data() + text.size();
  const auto read = std::from_chars(text.data() + word.size(), end, value);
  const bool whole = read.ec == std::errc{} && read.ptr == end && std::isfinite(value);
  return whole && value >= 0 ? std::optional{value} : std::nullopt;
}

// A step that changes a supply ahead of its use. `eager` does it as soon as the order lets it, and
// at once where it sets: whether being early costs anything is then told by what sets alone.
bool sets_up(Verb v) { return v == Verb::set_out || procedure::prepares(v); }

bool sets_once_ready(const Procedure& p, StepIx s) {
  const auto& step = p.step(s);
  return procedure::prepares(step.verb) && step.supply &&
         p.supply(step.supply).working_time != never;
}

}  // namespace

std::optional<Habit> habit_from(const std::string& text) {
  using Kind = Habit::Kind;
  if (text == "expert") return Habit{};
  if (text == "eager") return Habit{Kind::eager, Ms{0}, 0};
  if (text == "asked") return Habit{Kind::asked, Ms{0}, 0};
  if (text == "absent") return Habit{Kind::absent, Ms{0}, 0};
  if (const auto s = number_after(text, "late:"); s && *s <= 3600) {
    return Habit{Kind::late, Ms{std::llround(*s * 1000)}, 0};
  }
  if (const auto p = number_after(text, "forgetful:"); p && *p <= 100) {
    return Habit{Kind::forgetful, Ms{0}, static_cast<int>(*p)};
  }
  if (const auto p = number_after(text, "shuffled:"); p && *p <= 100) {
    return Habit{Kind::shuffled, Ms{0}, static_cast<int>(*p)};
  }
  return std::nullopt;
}

Bot::Bot(PersonIx me, Habit habit, std::uint64_t seed, std::shared_ptr<timing::WindowFinder> finder)
    : me_(me), habit_(habit), seed_(seed), finder_(std::move(finder)) {}

void Bot::get_ready(const Procedure& p) {
  forgotten_.assign(p.steps.size(), 0);
  noticed_.assign(p.steps.size(), never);
  progress_.resize(p.steps.size());
  for (std::size_t i = 0; i < p.steps.size(); ++i) {
    if (p.steps[i].by.front() != me_) continue;
    mine_.push_back(StepIx{i});
    const double u = keyed_uniform({seed_, fnv1a(p.steps[i].id, fnv1a("forgets")), 0});
    forgotten_[i] = habit_.kind == Habit::Kind::forgetful && u * 100.0 < habit_.percent;
  }
}

void Bot::look_ahead(const Procedure&, const World& w) {
  if (moves_seen_ == w.moves) return;
  moves_seen_ = w.moves;
  std::erase_if(mine_, [&](StepIx s) { return w.finished(s); });
  using State = timing::StepTime::State;
  for (std::size_t i = 0; i < progress_.size(); ++i) {
    const auto& s = w.steps[i];
    auto& t = progress_[i];
    t = {};
    if (s.state == StepState::done) t = {State::done, s.started, s.ended};
    if (s.state == StepState::doing || s.state == StepState::paused) {
      t = {State::doing, s.started, never};
    }
    if (s.state == StepState::skipped) t.state = State::skipped;
  }
  finder_->find(progress_, w.now, plan_);
}

bool Bot::act_on(ActionIx action, Command& out) const {
  out.op = Op::act;
  out.action = action;
  return true;
}

bool Bot::decide(const Procedure& p, const World& w, Command& out) {
  wake_ = never;
  if (habit_.kind == Habit::Kind::absent || w.over) return false;
  if (forgotten_.empty()) get_ready(p);
  look_ahead(p, w);
  return let_go(p, w, out) || make_good(p, w, out) || choose(p, w, out);
}

// Whether the clinician has asked for something that this step leads to.
bool Bot::asked_for(const Procedure& p, const World& w, StepIx s) const {
  for (std::size_t i = 0; i < p.steps.size(); ++i) {
    if (w.finished(StepIx{i})) continue;
    const auto& needs = p.steps[i].needs;
    for (std::size_t n = 0; n < needs.size(); ++n) {
      if (!w.need_asked[w.need_index(StepIx{i}, n)] || !needs[n].from) continue;
      if (needs[n].from == s || p.precedes(s, needs[n].from)) return true;
    }
  }
  return false;
}

bool Bot::minds(const Procedure& p, const World& w, StepIx s) const {
  const bool waits_to_be_asked = habit_.kind == Habit::Kind::asked || forgotten_[s.at()];
  return !waits_to_be_asked || asked_for(p, w, s);
}

// Whether an expert would begin this step now; if only time is missing, asks to be woken then.
bool Bot::useful_now(const Procedure& p, const World& w, StepIx s) {
  if (w.step(s).state != StepState::waiting || !minds(p, w, s)) return false;
  const bool ahead = habit_.kind == Habit::Kind::eager && sets_up(p.step(s).verb);
  if (ahead && sets_once_ready(p, s)) return true;
  Ms from;
  if (!conditions_hold(p, w, s, true, from)) return false;
  if (ahead) return true;
  const Ms opens = plan_[s.at()].earliest;
  if (opens > w.now) {
    wake_ = std::min(wake_, opens);
    return false;
  }
  auto& noticed = noticed_[s.at()];
  if (noticed == never) noticed = w.now;
  const Ms begins = noticed + habit_.lateness;
  if (begins <= w.now) return true;
  wake_ = std::min(wake_, begins);
  return false;
}

// Whether beginning this step leaves the attention free for what is more urgent and may be begun
// at any moment now. What may be begun already is chosen by its urgency.
bool Bot::keeps_clear(const Procedure& p, const World& w, StepIx s) const {
  const auto& step = p.step(s);
  if (!step.attention || step.is_cover()) return true;
  const Ms until = w.now + step.takes.usual + step.reach;
  const Ms latest = plan_[s.at()].latest;
  return std::none_of(mine_.begin(), mine_.end(), [&](StepIx other) {
    const auto& window = plan_[other.at()];
    Ms from;
    return other != s && w.step(other).state == StepState::waiting && window.latest < latest &&
           window.latest < until && window.expected < until &&
           !conditions_hold(p, w, other, true, from);
  });
}

namespace {

// The pass of what is still held out although the step it was for has begun without it.
ActionIx offered_in_vain(const Procedure& p, const World& w, SupplyIx supply) {
  for (std::size_t a = 0; a < p.actions.size(); ++a) {
    const auto& kind = p.actions[a];
    if (kind.verb != Verb::pass || kind.supply != supply) continue;
    StepIx last;
    for (const auto s : kind.steps) {
      if (w.step(s).state == StepState::done) last = s;
    }
    if (last && w.step(p.step(last).serves).state != StepState::waiting) return ActionIx{a};
  }
  return {};
}

}  // namespace

bool Bot::let_go(const Procedure& p, const World& w, Command& out) {
  for (const auto supply : w.person(me_).holds) {
    if (!(out.action = offered_in_vain(p, w, supply))) continue;
    out.op = Op::stop;
    return true;
  }
  for (const auto& d : w.person(me_).doing) {
    if (!d.cover || (d.step && !w.finished(d.step))) continue;
    const auto& chain = p.action(d.action).steps;
    const bool again = std::any_of(chain.begin(), chain.end(), [&](StepIx s) {
      return w.step(s).state == StepState::waiting && plan_[s.at()].earliest <= w.now + soon &&
             minds(p, w, s);
    });
    if (again) continue;
    out.op = Op::stop;
    out.action = d.action;
    return true;
  }
  return false;
}

// What the clinician stands still for and what no open step would bring any more: it has set, or
// was laid down again.
bool Bot::make_good(const Procedure& p, const World& w, Command& out) const {
  if (!w.awaited || w.person(me_).attention()) return false;
  const auto& needs = p.step(w.awaited).needs;
  for (std::size_t n = 0; n < needs.size(); ++n) {
    const auto& need = needs[n];
    const auto at = w.need_index(w.awaited, n);
    if (need.kind != Need::Kind::supply || !need.from || !w.need_open[at]) continue;
    if (habit_.kind == Habit::Kind::asked && !w.need_asked[at]) continue;
    if (!p.may_do(me_, need.from) || !minds(p, w, need.from)) continue;
    const auto state = w.supply(need.supply).state;
    const bool unprepared = p.supply(need.supply).needs_preparing && state != SupplyState::prepared;
    const auto redo = unprepared && need.prepared_by ? need.prepared_by : need.from;
    if (w.step(redo).state != StepState::done) continue;
    const auto reason = may_i(p, w, me_, p.action_of[redo.at()]);
    if (reason == Reason::none) return act_on(p.action_of[redo.at()], out);
    if (reason == Reason::hands_full && free_a_hand(p, w, redo, out)) return true;
  }
  return false;
}

// Puts back what is offered too early for the sake of `wanted`.
bool Bot::free_a_hand(const Procedure& p, const World& w, StepIx wanted, Command& out) const {
  const Ms latest = plan_[wanted.at()].latest;
  for (const auto supply : w.person(me_).holds) {
    for (std::size_t a = 0; a < p.actions.size(); ++a) {
      const auto& kind = p.actions[a];
      if (kind.verb != Verb::pass || kind.supply != supply) continue;
      const bool for_later = std::all_of(kind.steps.begin(), kind.steps.end(), [&](StepIx s) {
        const auto target = p.step(s).serves;
        return !target || w.finished(target) ||
               (w.step(target).awaited == never && plan_[target.at()].expected > latest);
      });
      if (!for_later) continue;
      out.op = Op::stop;
      out.action = ActionIx{a};
      return true;
    }
  }
  return false;
}

bool Bot::choose(const Procedure& p, const World& w, Command& out) {
  StepIx best, blocked;
  for (const auto s : mine_) {
    if (!useful_now(p, w, s)) continue;
    const auto action = p.action_of[s.at()];
    const auto reason = may_i(p, w, me_, action);
    const Ms latest = plan_[s.at()].latest;
    if (reason == Reason::hands_full && latest <= w.now) blocked = s;
    if (reason != Reason::none || (best && latest >= plan_[best.at()].latest)) continue;
    if (keeps_clear(p, w, s)) best = s;
  }
  if (!best) return blocked && free_a_hand(p, w, blocked, out);
  if (choose_wrongly(p, w, out)) return true;
  return act_on(p.action_of[best.at()], out);
}

// Now and then anything that can be done instead of what should be.
bool Bot::choose_wrongly(const Procedure& p, const World& w, Command& out) {
  if (habit_.kind != Habit::Kind::shuffled || w.person(me_).attention()) return false;
  const double u = keyed_uniform({seed_, fnv1a("slips"), ++choices_});
  if (u * 100.0 >= habit_.percent) return false;
  std::vector<ActionIx> possible;
  for (const auto s : mine_) {
    const auto a = p.action_of[s.at()];
    const bool open = w.step(s).state == StepState::waiting && counts_for(p, w, a) == s;
    if (open && may_i(p, w, me_, a) == Reason::none) possible.push_back(a);
  }
  if (possible.empty()) return false;
  const auto pick = keyed_bits({seed_, fnv1a("picks"), choices_}) % possible.size();
  return act_on(possible[pick], out);
}

}  // namespace beforehand::drill
