// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// The way of a drill: briefing, tray, drill, clearing up, debrief, and what leads off from there.
#include <algorithm>
#include <utility>

#include "picture/review_words.hpp"
#include "procedure/bundle.hpp"
#include "stage/program.hpp"

namespace beforehand::stage {

std::string Program::new_recording(std::uint64_t seed) {
  std::string file;
  if (outside_.records) file = outside_.records->begin(procedure::bundle(played_.sources));
  return file.empty() ? outside_.new_recording(played_.procedure->id, seed) : file;
}

void Program::finish_record() {
  if (outside_.records) outside_.records->finish(around());
}

// A stretch that is tried again has nothing around it.
records::Around Program::around() const {
  if (whole_debrief_) return {};
  return {set_up_ ? set_up_->record() : std::nullopt,
          turnover_ ? turnover_->record() : std::nullopt};
}

records::Library::Spoken Program::speaker_of_now() const {
  return speaker({shelf_.shipped_folder(), shelf_.own_folder()}, settings_.language);
}

// A drill of the records once more, on what it was played on, whatever lies on the shelf now. A
// stretch of it is no assessment.
void Program::play_stored() {
  const auto wish = review_->wish();
  const auto& played = review_->played();
  const auto& setup = played.session.setup;
  const auto& shelf = shelf_.items();
  const auto on_shelf = std::find_if(shelf.begin(), shelf.end(), [&](const ShelfItem& item) {
    return item.procedure && item.procedure->id == played.procedure->id;
  });
  chosen_ = {};
  if (on_shelf != shelf.end()) chosen_.file = on_shelf->file;
  chosen_.procedure = played.procedure;
  chosen_.sources.push_back({chosen_.file, played.scenario_text});
  const bool stretch = wish == DebriefScreen::Outcome::stretch;
  const PhaseIx part = stretch ? review_->session()->stretch() : setup.phase;
  choice_.part = part ? part.at() + 1 : 0;
  choice_.level = setup.level;
  if (stretch && setup.level == drill::Level::assessed) choice_.level = drill::Level::unaided;
  const auto seed = wish == DebriefScreen::Outcome::fresh ? outside_.new_seed() : setup.seed;
  set_up_.reset();
  take_chosen();
  to_drill(seed, choice_);
  review_.reset();
}

void Program::show_saved() {
  if (!outside_.records || !debrief_) return;
  const auto delivery = outside_.records->take();
  if (!delivery) return;
  debrief_->tell(delivery->problems.empty()
                     ? strings_("debrief.records.saved")
                     : strings_("debrief.records.waiting", {delivery->problems.front()}));
}

void Program::to_briefing() {
  choice_ = start_->choice();
  lay_as_before();
  read_chosen();
  briefing_.reset();
  brief();
  stand_ = Stand::briefing;
}

void Program::read_chosen() {
  const auto& file = shelf_.items()[choice_.item].file;
  chosen_ = read_item({file, choice_.card, choice_.materials}, settings_.language);
}

// Also while it is shown: it then stays scrolled to where it was.
void Program::brief() {
  const auto scroll = briefing_ ? briefing_->scroll() : Scroll{};
  if (chosen_.procedure && choice_.part > chosen_.procedure->phases.size()) choice_.part = 0;
  briefing_ = std::make_unique<BriefingScreen>(chosen_, shelf_.materials(), choice_, settings_.keys,
                                               scroll);
  if (!chosen_.procedure) return desk_.stop();
  timing::PlanRequest request;
  if (choice_.part > 0) request.phase = PhaseIx{choice_.part - 1};
  desk_.ask(*chosen_.procedure, std::move(request));
}

void Program::on_briefing(BriefingScreen::Outcome outcome) {
  if (outcome == BriefingScreen::Outcome::begin) begin();
  if (outcome == BriefingScreen::Outcome::laid) {
    choice_ = briefing_->choice();
    remember_laid();
    read_chosen();
    brief();
  }
  if (outcome == BriefingScreen::Outcome::back) to_start();
  if (outcome == BriefingScreen::Outcome::observe) to_observe(false);
  if (outcome == BriefingScreen::Outcome::rehearse) to_rehearse();
  if (outcome == BriefingScreen::Outcome::improve) to_improve();
  if (outcome == BriefingScreen::Outcome::compare) to_compare(chosen_files(), {});
}

void Program::take_chosen() {
  desk_.stop();  // what follows has the processor to itself
  debrief_.reset();
  turnover_.reset();
  drill_.reset();
  sitting_.reset();
  observe_.reset();
  rehearse_.reset();
  played_ = chosen_;
}

void Program::to_drill(std::uint64_t seed, const Choice& choice) {
  desk_.stop();
  debrief_.reset();
  turnover_.reset();
  drill_.reset();
  sitting_.reset();
  sitting_ = std::make_unique<Sitting>(*played_.procedure, choice, seed,
                                       lesson_ ? std::string() : new_recording(seed), strings_,
                                       rows_of(settings_.keys.letters));
  drill_ = std::make_unique<DrillScreen>(*sitting_, settings_.keys);
  stand_ = Stand::drill;
}

// The shortest drill on the shelf that has something to hold, guided and at the usual pace.
void Program::to_lesson() {
  const auto holds = [](const ShelfItem& item) {
    if (!item.procedure) return false;
    const auto& actions = item.procedure->actions;
    return std::any_of(actions.begin(), actions.end(),
                       [](const auto& action) { return action.cover; });
  };
  const auto& all = shelf_.items();
  const auto item = std::find_if(all.begin(), all.end(), holds);
  if (item == all.end()) return;
  choice_ = start_->choice();
  choice_.item = static_cast<std::size_t>(item - all.begin());
  choice_.part = 0;
  choice_.level = drill::Level::guided;
  choice_.pace = usual;
  choice_.card.clear();
  lesson_ = true;
  set_up_.reset();
  read_chosen();
  take_chosen();
  to_drill(chosen_seed(), choice_);
  lesson_ = false;
  drill_->teach();
}

// The lesson is put forward until it, or a drill without it, was played to its end.
void Program::know_lesson() {
  if (settings_.lesson_known) return;
  settings_.lesson_known = true;
  settings_problem_ = outside_.save ? outside_.save(settings_) : std::string();
}

// The tray comes first, unless the drill alone is wanted or none is laid.
void Program::begin() {
  take_chosen();
  tray_seed_ = outside_.new_seed();
  lay_tray();
  if (!set_up_) return to_drill(chosen_seed(), choice_);
  stand_ = Stand::set_up;
}

void Program::lay_tray() {
  set_up_.reset();
  if (!settings_.set_up) return;
  const auto& procedure = *played_.procedure;
  std::vector<const procedure::Procedure*> others;
  for (std::size_t i = 0; i < shelf_.items().size(); ++i)
    if (const auto& other = shelf_.items()[i].procedure; other && i != choice_.item)
      others.push_back(other.get());
  const PhaseIx part = choice_.part > 0 ? PhaseIx{choice_.part - 1} : PhaseIx{};
  auto items = drill::set_up_of(procedure, part, others, tray_seed_);
  if (!items.empty()) set_up_ = std::make_unique<SetUpScreen>(procedure, std::move(items));
}

void Program::on_set_up(SetUpScreen::Outcome outcome) {
  if (outcome == SetUpScreen::Outcome::back) stand_ = Stand::briefing;
  if (outcome == SetUpScreen::Outcome::drill) to_drill(chosen_seed(), choice_);
}

void Program::on_drill(DrillScreen::Outcome outcome) {
  if (outcome == DrillScreen::Outcome::debrief) end_drill();
  if (outcome == DrillScreen::Outcome::sound) switch_sound();
}

// A drill that was played to its end is cleared up after.
void Program::end_drill() {
  if (drill_->teacher() && !sitting_->finished()) return to_start();  // it can be begun again
  const auto& run = sitting_->run();
  const bool played = sitting_->finished();
  if (played) know_lesson();
  if (settings_.set_up && played && !whole_debrief_) {
    auto left = drill::leftovers(sitting_->procedure(), run.world(), run.session());
    if (!left.empty())
      turnover_ = std::make_unique<TurnoverScreen>(sitting_->procedure(), std::move(left));
  }
  if (!turnover_) return to_debrief();
  turnover_->tell_newer(newer_is_saved());
  turnover_->tell_used(run.world(), run.session());
  stand_ = Stand::turnover;
}

void Program::to_debrief() {
  if (whole_debrief_) return from_stretch();
  const bool kept = outside_.records && outside_.records->chosen();
  debrief_ = std::make_unique<DebriefScreen>(sitting_->procedure(), sitting_->run().session(),
                                             sitting_->trainee(), kept ? "" : sitting_->recording(),
                                             sitting_->recording_problem(), strings_);
  if (kept && !drill_->teacher()) compare_with_earlier();
  ask_for_plan();
  finish_record();
  debrief_->tell_around(picture::around_words(around(), strings_));
  debrief_->tell_newer(newer_is_saved());
  stand_ = Stand::debrief;
}

void Program::ask_for_plan() {
  const auto& session = sitting_->run().session();
  desk_.ask(sitting_->procedure(),
            {scoring::signals_shown(session), session.setup.phase, nullptr, nullptr});
}

void Program::compare_with_earlier() {
  const auto& p = sitting_->procedure();
  const PhaseIx phase = sitting_->run().session().setup.phase;
  const auto earlier =
      outside_.records->earlier(p.id, phase ? p.phases[phase.at()].id : std::string());
  debrief_->compare_with(earlier.last, earlier.best);
}

void Program::lay_beside(const records::Id& other) {
  auto desk = outside_.records->review(speaker_of_now());
  auto earlier = desk.played(other);
  if (!earlier) return debrief_->tell(desk.problem());
  show_side_by_side(just_played(sitting_->procedure(), debrief_->session()), std::move(*earlier),
                    Stand::debrief);
}

// The same clinician; nothing of it is an assessment.
void Program::to_stretch() {
  const auto seed = sitting_->run().session().setup.seed;
  auto choice = choice_;
  choice.part = debrief_->stretch().at() + 1;
  if (choice.level == drill::Level::assessed) choice.level = drill::Level::unaided;
  whole_sitting_ = std::move(sitting_);
  whole_debrief_ = std::move(debrief_);
  to_drill(seed, choice);
}

void Program::from_stretch() {
  whole_debrief_->take_stretch(sitting_->run().session());
  finish_record();
  drill_.reset();
  sitting_ = std::move(whole_sitting_);
  debrief_ = std::move(whole_debrief_);
  ask_for_plan();
  stand_ = Stand::debrief;
}

void Program::show_replay(Played played, Stand from) {
  desk_.ask(*played.procedure,
            {scoring::signals_shown(played.session), played.session.setup.phase, nullptr, nullptr});
  replay_ = std::make_unique<ReplayScreen>(
      std::move(played), strings_,
      strings_(from == Stand::closed ? "replay.close" : "replay.back"));
  shown_from_ = from;
  stand_ = Stand::replay;
}

void Program::show_side_by_side(Played first, Played second, Stand from) {
  side_by_side_ = std::make_unique<SideBySideScreen>(
      std::move(first), std::move(second), strings_,
      strings_(from == Stand::closed ? "replay.close" : "replay.back"));
  shown_from_ = from;
  stand_ = Stand::side_by_side;
}

std::uint64_t Program::chosen_seed() const {
  return choice_.seed.empty() ? outside_.new_seed() : std::stoull(choice_.seed);
}

void Program::again(std::uint64_t seed) {
  set_up_.reset();
  take_newer();
  to_drill(seed, choice_);
}

void Program::on_debrief(DebriefScreen::Outcome outcome) {
  switch (outcome) {
    case DebriefScreen::Outcome::stay:
      break;
    case DebriefScreen::Outcome::again:
      again(sitting_->run().session().setup.seed);
      break;
    case DebriefScreen::Outcome::fresh:
      again(outside_.new_seed());
      break;
    case DebriefScreen::Outcome::home:
      to_start();
      break;
    case DebriefScreen::Outcome::beside:
      lay_beside(debrief_->other());
      break;
    case DebriefScreen::Outcome::stretch:
      to_stretch();
      break;
  }
}

}  // namespace beforehand::stage
