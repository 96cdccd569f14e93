// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "stage/program.hpp"

#include <algorithm>
#include <utility>

namespace beforehand::stage {

Program::Program(std::vector<ShelfItem> shelf, Strings strings, Outside outside, Choice first,
                 SettingsReading settings)
    : shelf_(outside.scenarios, outside.own_scenarios, std::move(shelf)),
      strings_(std::move(strings)),
      outside_(std::move(outside)),
      choice_(std::move(first)),
      settings_(std::move(settings.settings)) {
  if (!outside_.own_scenarios.empty()) shelf_.read_again(settings_.language);
  if (!settings.problems.empty()) settings_problem_ = settings.problems.front();
  to_start();
  if (outside_.records) to_people();
}

void Program::to_people() {
  outside_.records->refresh();
  people_ = std::make_unique<PeopleScreen>(*outside_.records);
  stand_ = Stand::people;
}

// From the start the own records of whoever practises, else everybody's behind the door.
void Program::to_review() {
  auto& records = *outside_.records;
  const bool own = stand_ == Stand::start;
  if (own) choice_ = start_->choice();
  if (own && !records.chosen()) return;
  auto desk = records.review(speaker_of_now());
  review_ = own ? std::make_unique<ReviewRoom>(std::move(desk), *records.chosen(), strings_)
                : std::make_unique<ReviewRoom>(std::move(desk), strings_);
  review_own_ = own;
  stand_ = Stand::review;
}

void Program::from_review() {
  review_.reset();
  if (review_own_)
    to_start();
  else
    to_people();
}

// Whoever has a passcode and goes away is asked for it again.
void Program::close_what_rests(std::chrono::microseconds real) {
  rest_ += real;
  auto* records = outside_.records;
  const bool open = stand_ == Stand::start || (stand_ == Stand::review && review_own_);
  const bool locked = records && records->chosen() && records->chosen()->locked;
  if (!open || !locked || rest_ < ReviewRoom::longest_rest) return;
  records->choose_nobody();
  if (choice_.known) choice_.name.clear();
  choice_.known = false;
  review_.reset();
  to_start();
  to_people();
  people_->tell(strings_("people.asleep", {std::to_string(ReviewRoom::longest_rest.count())}));
}

void Program::on_review(ReviewRoom::Outcome outcome) {
  if (outcome == ReviewRoom::Outcome::leave) from_review();
  if (outcome == ReviewRoom::Outcome::play) play_stored();
}

void Program::on_people(PeopleScreen::Outcome outcome) {
  auto& records = *outside_.records;
  if (outcome == PeopleScreen::Outcome::close) stand_ = Stand::closed;
  if (outcome == PeopleScreen::Outcome::nobody) records.choose_nobody();
  if (outcome == PeopleScreen::Outcome::review) to_review();
  if (outcome != PeopleScreen::Outcome::chosen && outcome != PeopleScreen::Outcome::nobody) return;
  if (!records.chosen() && choice_.known) choice_.name.clear();
  choice_.known = records.chosen().has_value();
  if (choice_.known) choice_.name = records.chosen()->name;
  to_start();
}

void Program::to_settings() {
  choice_ = start_->choice();
  settings_screen_ =
      std::make_unique<SettingsScreen>(settings_, outside_.languages, settings_problem_);
  stand_ = Stand::settings;
}

void Program::on_settings(SettingsScreen::Outcome outcome) {
  if (outcome == SettingsScreen::Outcome::back) to_start();
  if (outcome == SettingsScreen::Outcome::changed) keep(settings_screen_->settings());
}

// What is set holds at once, kept or not; what cannot be kept is said.
void Program::keep(const Settings& settings) {
  if (settings.language != settings_.language && outside_.strings_in) try {
      strings_ = outside_.strings_in(settings.language);
      shelf_is_old_ = true;
    } catch (const BadStrings& bad) {
      settings_screen_->tell(bad.what());
      return;
    }
  settings_ = settings;
  settings_problem_ = outside_.save ? outside_.save(settings_) : std::string();
  if (stand_ == Stand::settings) settings_screen_->tell(settings_problem_);
}

void Program::change_scale(int by_percent) {
  auto settings = settings_;
  settings.scale_percent = std::clamp(settings.scale_percent + by_percent, 100, 200);
  if (stand_ == Stand::settings)
    settings_screen_ =
        std::make_unique<SettingsScreen>(settings, outside_.languages, settings_problem_);
  keep(settings);
}

void Program::switch_sound() {
  auto settings = settings_;
  settings.sound = !settings.sound;
  keep(settings);
}

std::string Program::announced() const {
  const auto& over = stand_ == Stand::briefing ? chosen_ : played_;
  const bool now = stand_ == Stand::briefing || stand_ == Stand::set_up;
  return now && over.procedure ? over.procedure->plan : std::string();
}

Units Program::needs() const { return {}; }

void Program::to_start() {
  if (shelf_is_old_) read_shelf_again();
  start_ = std::make_unique<StartScreen>(shelf_.items(), shelf_.shipped_folder(), choice_);
  if (outside_.records) start_->show(outside_.records->standing());
  start_->show_laid(laid_titles());
  start_->offer_lesson(!settings_.lesson_known);
  start_->warn(settings_problem_.empty() ? complaint_ : settings_problem_);
  stand_ = Stand::start;
}

void Program::complain(const std::string& problem) {
  if (complaint_.empty()) complaint_ = problem;
  start_->warn(complaint_);
}

// A press meant for the drill's last moment must not begin the next one.
bool Program::hears(const Input& input) const {
  const bool press = input.kind == Input::Kind::key || input.kind == Input::Kind::text ||
                     input.kind == Input::Kind::press;
  return !press || deaf_ <= deaf_.zero();
}

// A gamepad is a small keyboard wherever it does not play.
Input Program::plain(Input input) const {
  const bool itself =
      stand_ == Stand::drill || stand_ == Stand::settings || stand_ == Stand::rehearse;
  if (!itself && input.kind == Input::Kind::key) input.key = plain_key(input.key);
  return input;
}

void Program::on_start(StartScreen::Outcome outcome) {
  if (outcome == StartScreen::Outcome::begin) to_briefing();
  if (outcome == StartScreen::Outcome::settings) to_settings();
  if (outcome == StartScreen::Outcome::learn) to_lesson();
  if (outcome == StartScreen::Outcome::who) to_people();
  if (outcome == StartScreen::Outcome::records) to_review();
  if (outcome != StartScreen::Outcome::close) return;
  if (outside_.records)
    to_people();
  else
    stand_ = Stand::closed;
}

void Program::handle(const Input& given) {
  if (!hears(given)) return;
  const Input input = plain(given);
  rest_ = {};
  if (input.kind == Input::Kind::pointer || input.kind == Input::Kind::press)
    pointer_ = {input.x, input.y};
  if (input.kind == Input::Kind::close) return close(input);
  switch (stand_) {
    case Stand::start:
      return on_start(start_->handle(input));
    case Stand::briefing:
      return on_briefing(briefing_->handle(input));
    case Stand::drill:
      return on_drill(drill_->handle(input));
    case Stand::debrief:
      return on_debrief(debrief_->handle(input));
    case Stand::observe:
      return on_observe(observe_->handle(input));
    case Stand::rehearse:
      return on_rehearse(rehearse_->handle(input));
    case Stand::improve:
      return on_improve(improve_->handle(input));
    case Stand::observed:
      return on_observed(observed_->handle(input));
    case Stand::compare:
      if (compare_->handle(input) == CompareScreen::Outcome::home) to_start();
      break;
    case Stand::people:
      return on_people(people_->handle(input));
    case Stand::replay:
      if (replay_->handle(input) == ReplayScreen::Outcome::back) stand_ = shown_from_;
      break;
    case Stand::side_by_side:
      if (side_by_side_->handle(input) == SideBySideScreen::Outcome::back) stand_ = shown_from_;
      break;
    case Stand::review:
      return on_review(review_->handle(input));
    case Stand::settings:
      return on_settings(settings_screen_->handle(input));
    case Stand::set_up:
      return on_set_up(set_up_->handle(input));
    case Stand::turnover:
      if (turnover_->handle(input) == TurnoverScreen::Outcome::debrief) to_debrief();
      break;
    case Stand::closed:
      break;
  }
}

// The window's own button. A drill asks first; closed twice, it was meant so.
void Program::close(const Input& input) {
  if (stand_ == Stand::people) return on_people(people_->handle(input));
  if (stand_ == Stand::drill && !drill_->asking()) return on_drill(drill_->handle(input));
  if (stand_ == Stand::drill) sitting_->abandon();
  if (stand_ == Stand::drill || stand_ == Stand::turnover) finish_record();
  stand_ = Stand::closed;
}

void Program::pass(std::chrono::microseconds real) {
  if (shelf_.saved(real)) take_saved();
  close_what_rests(real);
  deaf_ = std::max(deaf_ - real, std::chrono::microseconds{0});
  if (stand_ == Stand::drill && drill_->pass(real) == DrillScreen::Outcome::debrief) {
    end_drill();
    deaf_ = deaf_after_a_drill;
  }
  if (stand_ == Stand::set_up) set_up_->pass(real);
  if (stand_ == Stand::turnover) turnover_->pass(real);
  if (stand_ == Stand::observe) observe_->pass(real);
  if (stand_ == Stand::debrief) debrief_->pass(real);
  if (stand_ == Stand::improve) improve_->pass();
  if (stand_ == Stand::replay) replay_->pass(real);
  if (stand_ == Stand::side_by_side) side_by_side_->pass(real);
  if (stand_ == Stand::review) review_->pass(real);
  if (stand_ == Stand::compare) compare_->pass();
  if (stand_ == Stand::rehearse) {
    rehearse_->pass(real);
    ask_for_rehearsed_plan();
  }
  show_plan();
  show_saved();
}

void Program::show_plan() {
  const auto answer = desk_.take();
  if (!answer) return;
  if (stand_ == Stand::briefing) briefing_->show(answer->plan, answer->explanation);
  if (stand_ == Stand::debrief) debrief_->refer_to(answer->plan);
  if (stand_ == Stand::rehearse) rehearse_->refer_to(answer->plan);
  if (stand_ == Stand::replay) replay_->refer_to(answer->plan);
}

void Program::settle() {
  if (stand_ == Stand::improve) improve_->settle();
  if (stand_ == Stand::compare) compare_->settle();
  desk_.wait();
  show_plan();
  if (outside_.records) outside_.records->wait();
  show_saved();
}

bool Program::moves() const {
  return fresh_ || desk_.searching() || (stand_ == Stand::observe && observe_->running()) ||
         (stand_ == Stand::rehearse && rehearse_->moves()) ||
         (stand_ == Stand::improve && improve_->working()) ||
         (stand_ == Stand::debrief && debrief_->moves()) ||
         (stand_ == Stand::replay && replay_->playing()) ||
         (stand_ == Stand::side_by_side && side_by_side_->playing()) ||
         (stand_ == Stand::review && review_->moves()) ||
         (stand_ == Stand::compare && compare_->working()) ||
         (outside_.records && outside_.records->saving()) ||
         (stand_ == Stand::drill && !sitting_->clock().paused());
}

void Program::draw(picture::Canvas& canvas, const picture::Theme& theme, double width,
                   double height) {
  fresh_ = false;
  Hits unused;
  Pen pen{canvas, theme, strings_, unused, pointer_};
  const Box box{0, 0, width, height};
  canvas.rectangle(box, {theme.palette.page, {}});
  switch (stand_) {
    case Stand::start:
      start_->draw(pen, box);
      break;
    case Stand::briefing:
      briefing_->draw(pen, box);
      break;
    case Stand::drill:
      drill_->draw(pen, box);
      break;
    case Stand::debrief:
      debrief_->draw(pen, box);
      break;
    case Stand::observe:
      observe_->draw(pen, box);
      break;
    case Stand::rehearse:
      rehearse_->draw(pen, box);
      break;
    case Stand::improve:
      improve_->draw(pen, box);
      break;
    case Stand::observed:
      observed_->draw(pen, box);
      break;
    case Stand::compare:
      compare_->draw(pen, box);
      break;
    case Stand::people:
      people_->draw(pen, box);
      break;
    case Stand::review:
      review_->draw(pen, box);
      break;
    case Stand::settings:
      settings_screen_->draw(pen, box);
      break;
    case Stand::replay:
      replay_->draw(pen, box);
      break;
    case Stand::side_by_side:
      side_by_side_->draw(pen, box);
      break;
    case Stand::set_up:
      set_up_->draw(pen, box);
      break;
    case Stand::turnover:
      turnover_->draw(pen, box);
      break;
    case Stand::closed:
      break;
  }
}

}  // namespace beforehand::stage
