// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "stage/debrief_screen.hpp"

#include <algorithm>

#include "picture/chart_build.hpp"
#include "records/review.hpp"
#include "stage/debrief_ids.hpp"
#include "stage/picture_words.hpp"

namespace beforehand::stage {

using namespace debrief_ids;

DebriefScreen::DebriefScreen(const procedure::Procedure& procedure, const drill::Session& session,
                             PersonIx trainee, std::string saved, std::string problem,
                             const Strings& t)
    : procedure_(procedure),
      t_(t),
      session_(session),
      trainee_(trainee),
      ending_(session.complete() ? static_cast<Ending>(session.events.back().value) : Ending::left),
      saved_(std::move(saved)),
      problem_(std::move(problem)),
      score_(scoring::score(procedure, session, trainee)),
      debrief_(scoring::debrief(procedure, score_)),
      chart_(picture::played_chart(procedure, session, score_, t), chart_words(t)) {}

void DebriefScreen::refer_to(const timing::Plan& plan) {
  if (!plan.found()) return;
  if (plan.chair_time_proven) {
    score_.reference_chair_time = plan.chair_time;
    score_.reference_proven = true;
  }
  chart_.refer_to(procedure_, plan);
  plan_ = plan;
  if (watching_) watching_->refer_to(plan);
}

void DebriefScreen::compare_with(const std::optional<records::SessionRecord>& last,
                                 const std::optional<records::SessionRecord>& best) {
  earlier_.clear();
  first_attempt_ = !last && !best;
  if (ending_ == Ending::left) return;  // part of a drill is no measure of a whole one
  const auto add = [&](const char* key, const records::SessionRecord& s) {
    const std::string level = "level." + std::string(drill::word(s.level));
    earlier_.push_back({t_(key, {records::day_text(s.started), t_(level)}),
                        compared(figures_of(score_), figures_of(s), t_)});
  };
  last_ = last ? last->id : records::Id();
  best_ = best ? best->id : records::Id();
  const bool same = last && best && last->id == best->id;
  if (last) add(same ? "debrief.earlier.both" : "debrief.earlier.last", *last);
  if (best && !same) add("debrief.earlier.best", *best);
}

void DebriefScreen::take_stretch(const drill::Session& session) {
  const auto score = scoring::score(procedure_, session, trainee_);
  const auto advice = scoring::debrief(procedure_, score);
  Tried tried{session,
              session.setup.phase,
              stretch_of(procedure_, score_, session.setup.phase),
              stretch_of(procedure_, score, session.setup.phase),
              {},
              1,
              false};
  if (!advice.change.empty()) tried.still = advice.change.front().change;
  if (tried_ && tried_->phase == tried.phase) tried.times = tried_->times + 1;
  tried.complete = session.complete() && session.events.back().value != 2;
  tried_ = std::move(tried);
  scroll_.offset = 0;
}

PhaseIx DebriefScreen::phase_of(std::size_t target) const {
  const auto changes = debrief_.change.size();
  const StepIx step =
      target < changes ? debrief_.change[target].step : score_.errors[target - changes].step;
  return step ? procedure_.step(step).phase : PhaseIx{};
}

std::optional<std::size_t> DebriefScreen::error_of(const scoring::Advice& advice) const {
  for (std::size_t i = 0; i < score_.errors.size(); ++i)
    if (score_.errors[i].kind == advice.kind && score_.errors[i].at == advice.first) return i;
  return std::nullopt;
}

void DebriefScreen::watch_at(Ms moment) {
  watching_ = std::make_unique<ReplayScreen>(just_played(procedure_, session_), t_,
                                             t_("replay.to-debrief"));
  if (plan_) watching_->refer_to(*plan_);
  watching_->show(moment);
}

void DebriefScreen::watch(std::size_t target) {
  const auto changes = debrief_.change.size();
  const auto error =
      target < changes ? error_of(debrief_.change[target]) : std::optional(target - changes);
  watch_at(error ? Ms{0} : debrief_.change[target].first - ReplayScreen::lead_in);
  if (error) watching_->show_error(*error);
}

void DebriefScreen::watch_stretch() {
  if (!tried_) return;
  watching_ = std::make_unique<ReplayScreen>(just_played(procedure_, tried_->session), t_,
                                             t_("replay.to-debrief"));
}

DebriefScreen::Outcome DebriefScreen::beside(const records::Id& other) {
  other_ = other;
  return other.empty() ? Outcome::stay : Outcome::beside;
}

// What the keyboard is on, else what was tried, else what costs most.
PhaseIx DebriefScreen::next_stretch() const {
  if (!marked_ && tried_) return tried_->phase;
  return targets() == 0 ? PhaseIx{} : phase_of(marked_.value_or(0));
}

DebriefScreen::Outcome DebriefScreen::try_again(PhaseIx phase) {
  stretch_ = phase;
  return phase && plays_ ? Outcome::stretch : Outcome::stay;
}

void DebriefScreen::mark(int by) {
  const auto count = static_cast<int>(targets());
  if (count == 0) return;
  const int at = marked_ ? static_cast<int>(*marked_) + by : by > 0 ? 0 : count - 1;
  marked_ = static_cast<std::size_t>((at + count) % count);
  to_marked_ = true;
}

DebriefScreen::Outcome DebriefScreen::handle(const Input& input) {
  if (watching_) {
    if (watching_->handle(input) == ReplayScreen::Outcome::back) {
      watched_ = watching_->now();
      watching_.reset();
    }
    return Outcome::stay;
  }
  if (input.kind == Input::Kind::wheel) scroll_.move(-input.wheel * 60);
  if (input.kind == Input::Kind::press) {
    const int id = hits_.at({input.x, input.y}).value_or(-1);
    if (id == id_chart)
      if (const auto moment = chart_.handle(input)) watch_at(*moment);
    return on_press(id);
  }
  return input.kind == Input::Kind::key ? on_key(input) : Outcome::stay;
}

DebriefScreen::Outcome DebriefScreen::on_press(int id) {
  switch (id) {
    case id_again:
      return Outcome::again;
    case id_fresh:
      return Outcome::fresh;
    case id_home:
      return Outcome::home;
    case id_zoom:
      chart_.zoom(watched_.value_or(Ms{0}));
      break;
    case id_earlier:
    case id_later:
      chart_.pan(id == id_later ? 1 : -1);
      break;
    case id_watch:
      watch_at(Ms{0});
      break;
    case id_watch_stretch:
      watch_stretch();
      break;
    case id_last:
    case id_best:
      return beside(id == id_last ? last_ : best_);
    case id_stretch:
      return try_again(next_stretch());
    default:
      if (id >= id_try) return try_again(phase_of(static_cast<std::size_t>(id - id_try)));
      if (id >= id_see) watch(static_cast<std::size_t>(id - id_see));
  }
  return Outcome::stay;
}

DebriefScreen::Outcome DebriefScreen::on_key(const Input& input) {
  switch (input.key) {
    case Key::enter:
      if (!marked_) return plays_ ? Outcome::again : Outcome::stay;
      watch(*marked_);
      break;
    case Key::escape:
      if (!marked_) return Outcome::home;
      marked_.reset();
      break;
    case Key::tab:
    case Key::back_tab:
      mark(input.key == Key::tab ? 1 : -1);
      break;
    case Key::left:
      chart_.pan(-1);
      break;
    case Key::right:
      chart_.pan(1);
      break;
    case Key::symbol:
      if (input.symbol == U'n' && plays_) return Outcome::fresh;
      if (input.symbol == U't') return try_again(next_stretch());
      if (input.symbol == U'z') return on_press(id_zoom);
      if (input.symbol == U'w') return on_press(id_watch);
      if (input.symbol == U'v') watch_stretch();
      if (input.symbol == U'l') return beside(last_);
      if (input.symbol == U'b') return beside(best_);
      break;
    default:
      scroll_.follow(input.key);
      break;
  }
  return Outcome::stay;
}

void DebriefScreen::pass(std::chrono::microseconds real) {
  if (watching_) watching_->pass(real);
}

}  // namespace beforehand::stage
