// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "stage/program.hpp"

#include <algorithm>
#include <cassert>
#include <filesystem>
#include <utility>

#include "picture/review_words.hpp"
#include "procedure/bundle.hpp"
#include "procedure/texts.hpp"

namespace beforehand::stage {

Program::Program(std::vector<ShelfItem> shelf, Strings strings, Outside outside, Choice first,
                 SettingsReading settings)
    : shelf_(std::move(shelf)),
      watch_(outside.scenarios),
      strings_(std::move(strings)),
      outside_(std::move(outside)),
      choice_(std::move(first)),
      settings_(std::move(settings.settings)) {
  if (!outside_.own_scenarios.empty()) shelf_ = read_both();
  if (!settings.problems.empty()) settings_problem_ = settings.problems.front();
  to_start();
  if (outside_.records) to_people();
}

// The user's own scenarios stand behind those that came with the program.
std::vector<ShelfItem> Program::read_both() const {
  auto shelf = read_shelf(outside_.scenarios, settings_.language);
  if (outside_.own_scenarios.empty()) return shelf;
  for (auto& item : read_shelf(outside_.own_scenarios, settings_.language))
    shelf.push_back(std::move(item));
  return shelf;
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

// A drill of the records once more, on what it was played on, whatever lies on the shelf now. A
// stretch of it is no assessment.
void Program::play_stored() {
  const auto wish = review_->wish();
  const auto& played = review_->played();
  const auto& setup = played.session.setup;
  const auto on_shelf = std::find_if(shelf_.begin(), shelf_.end(), [&](const ShelfItem& item) {
    return item.procedure && item.procedure->id == played.procedure->id;
  });
  chosen_ = {};
  if (on_shelf != shelf_.end()) chosen_.file = on_shelf->file;
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

std::string Program::new_recording(std::uint64_t seed) {
  std::string file;
  if (outside_.records) file = outside_.records->begin(procedure::bundle(played_.sources));
  return file.empty() ? outside_.new_recording(played_.procedure->id, seed) : file;
}

// A stretch that is tried again has nothing around it.
records::Around Program::around() const {
  if (whole_debrief_) return {};
  return {set_up_ ? set_up_->record() : std::nullopt,
          turnover_ ? turnover_->record() : std::nullopt};
}

void Program::finish_record() {
  if (outside_.records) outside_.records->finish(around());
}

records::Library::Spoken Program::speaker_of_now() const {
  return speaker({outside_.scenarios, own_folder()}, settings_.language);
}

void Program::show_saved() {
  if (!outside_.records || !debrief_) return;
  const auto delivery = outside_.records->take();
  if (!delivery) return;
  debrief_->tell(delivery->problems.empty()
                     ? strings_("debrief.records.saved")
                     : strings_("debrief.records.waiting", {delivery->problems.front()}));
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

Units Program::needs() const {
  switch (stand_) {
    case Stand::debrief:
      return {1280, 720};
    case Stand::review:
      return review_->flows() ? Units{} : Units{1280, 720};
    default:
      return {};
  }
}

void Program::to_start() {
  if (shelf_is_old_) read_shelf_again();
  start_ = std::make_unique<StartScreen>(shelf_, outside_.scenarios, choice_);
  if (outside_.records) start_->show(outside_.records->standing());
  start_->offer_lesson(!settings_.lesson_known);
  stand_ = Stand::start;
}

void Program::to_briefing() {
  choice_ = start_->choice();
  read_chosen();
  briefing_.reset();
  brief();
  stand_ = Stand::briefing;
}

void Program::read_chosen() {
  const auto& file = shelf_[choice_.item].file;
  chosen_ = read_item({file, choice_.card, choice_.materials}, settings_.language);
}

// Also while it is shown: it then stays scrolled to where it was.
void Program::brief() {
  const auto scroll = briefing_ ? briefing_->scroll() : Scroll{};
  if (chosen_.procedure && choice_.part > chosen_.procedure->phases.size()) choice_.part = 0;
  briefing_ = std::make_unique<BriefingScreen>(chosen_, materials_on(outside_.scenarios), choice_,
                                               settings_.keys, scroll);
  if (!chosen_.procedure) return desk_.stop();
  timing::PlanRequest request;
  if (choice_.part > 0) request.phase = PhaseIx{choice_.part - 1};
  desk_.ask(*chosen_.procedure, std::move(request));
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
    const auto& all = item.procedure->actions;
    return std::any_of(all.begin(), all.end(), [](const auto& action) { return action.cover; });
  };
  const auto item = std::find_if(shelf_.begin(), shelf_.end(), holds);
  if (item == shelf_.end()) return;
  choice_ = start_->choice();
  choice_.item = static_cast<std::size_t>(item - shelf_.begin());
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

// The lesson is put forward until it was taken, or a drill played without it.
void Program::know_lesson() {
  if (settings_.lesson_known) return;
  settings_.lesson_known = true;
  settings_problem_ = outside_.save ? outside_.save(settings_) : std::string();
}

// The tray comes first, unless the drill alone is wanted or none is laid.
void Program::begin() {
  set_up_.reset();
  take_chosen();
  if (settings_.set_up) {
    const auto& procedure = *played_.procedure;
    std::vector<const procedure::Procedure*> others;
    for (std::size_t i = 0; i < shelf_.size(); ++i)
      if (i != choice_.item && shelf_[i].procedure) others.push_back(&*shelf_[i].procedure);
    const PhaseIx part = choice_.part > 0 ? PhaseIx{choice_.part - 1} : PhaseIx{};
    auto items = drill::set_up_of(procedure, part, others, outside_.new_seed());
    if (!items.empty()) set_up_ = std::make_unique<SetUpScreen>(procedure, std::move(items));
  }
  if (!set_up_) return to_drill(chosen_seed(), choice_);
  stand_ = Stand::set_up;
}

void Program::on_set_up(SetUpScreen::Outcome outcome) {
  if (outcome == SetUpScreen::Outcome::back) stand_ = Stand::briefing;
  if (outcome == SetUpScreen::Outcome::drill) to_drill(chosen_seed(), choice_);
}

// A drill that was played to its end is cleared up after.
void Program::end_drill() {
  know_lesson();
  const auto& run = sitting_->run();
  const bool played = run.session().complete() && run.session().events.back().value != 2;
  if (settings_.set_up && played && !whole_debrief_) {
    auto left = drill::leftovers(sitting_->procedure(), run.world(), run.session());
    if (!left.empty())
      turnover_ = std::make_unique<TurnoverScreen>(sitting_->procedure(), std::move(left));
  }
  if (!turnover_) return to_debrief();
  stand_ = Stand::turnover;
}

// Free: what is seen is typed as it comes, and laid beside no protocol.
void Program::to_observe(bool free) {
  take_chosen();
  const auto& procedure = *played_.procedure;
  observe_ = std::make_unique<ObserveScreen>(
      free ? nullptr : &procedure,
      outside_.observation ? outside_.observation(free ? "free" : procedure.id) : std::string(),
      free ? std::vector<procedure::Procedure>() : procedure::in_every_language(chosen_files()));
  stand_ = Stand::observe;
}

void Program::on_observe(ObserveScreen::Outcome outcome) {
  if (outcome == ObserveScreen::Outcome::home) to_start();
  if (outcome == ObserveScreen::Outcome::free) to_observe(true);
  if (outcome != ObserveScreen::Outcome::durations) return;
  const auto log = std::filesystem::path(outside_.observation(played_.procedure->id));
  observed_ = std::make_unique<ObservedScreen>(*played_.procedure, chosen_files(),
                                               log.parent_path().string(), own_folder());
  stand_ = Stand::observed;
}

void Program::on_observed(ObservedScreen::Outcome outcome) {
  if (outcome == ObservedScreen::Outcome::stay) return;
  const auto before = chosen_files();
  const auto copy = observed_->copy();
  observed_.reset();
  from_copy(copy);
  if (outcome == ObservedScreen::Outcome::compare) to_compare(before, copy);
}

void Program::to_rehearse() {
  take_chosen();
  const auto& procedure = *played_.procedure;
  const auto seed = chosen_seed();
  rehearse_ = std::make_unique<RehearseScreen>(procedure, strings_, seed, [this, &procedure, seed] {
    return outside_.new_recording(procedure.id, seed);
  });
  rehearse_plan_asked_ = false;
  stand_ = Stand::rehearse;
}

void Program::to_improve() {
  desk_.stop();
  improve_ = std::make_unique<ImproveScreen>(chosen_files(), own_folder(), settings_.language);
  stand_ = Stand::improve;
}

// Four times a second. What is offered is always what was saved last; what is being played stays.
void Program::look_at_files(std::chrono::microseconds real) {
  unwatched_ += real;
  if (unwatched_ < std::chrono::milliseconds(250)) return;
  unwatched_ = {};
  if (!watch_.changed()) return;
  fresh_ = true;
  if (stand_ == Stand::start) choice_ = start_->choice();
  read_shelf_again();
  if (stand_ == Stand::start) start_->shelf_changed(choice_.item);
  if (stand_ == Stand::briefing) {
    read_chosen();
    brief();
  }
  if (stand_ != Stand::drill) return;
  const auto now = read_item({played_.file, choice_.card, choice_.materials}, settings_.language);
  drill_->tell_newer(procedure::bundle(now.sources) != procedure::bundle(played_.sources));
}

// The files that are there now, and the chosen one stays chosen. A shelf whose folder is gone stays
// as it was, in the language of now.
void Program::read_shelf_again() {
  shelf_is_old_ = false;
  const auto file = choice_.item < shelf_.size() ? shelf_[choice_.item].file : std::string();
  auto shelf = read_both();
  if (shelf.empty())
    for (const auto& item : shelf_)
      shelf.push_back(read_item({item.file, {}, {}}, settings_.language));
  shelf_ = std::move(shelf);
  const auto at = std::find_if(shelf_.begin(), shelf_.end(),
                               [&](const ShelfItem& item) { return item.file == file; });
  choice_.item = at == shelf_.end() ? 0 : static_cast<std::size_t>(at - shelf_.begin());
}

void Program::on_improve(ImproveScreen::Outcome outcome) {
  if (outcome == ImproveScreen::Outcome::stay) return;
  const auto before = chosen_files();
  const auto copy = improve_->copy();
  improve_.reset();
  from_copy(copy);
  if (outcome == ImproveScreen::Outcome::compare) to_compare(before, copy);
}

// A copy that was written stands on the shelf from now on, and is the one chosen.
void Program::from_copy(const std::string& copy) {
  if (!copy.empty()) {
    start_.reset();
    shelf_ = read_both();
    choice_.item = choice_.part = 0;
    choice_.card.clear();
    for (std::size_t i = 0; i < shelf_.size(); ++i)
      if (shelf_[i].file == copy) choice_.item = i;
  }
  to_start();
}

// Without a b one is proposed, and nothing begins yet.
void Program::to_compare(const procedure::Files& a, const std::string& b) {
  desk_.stop();
  auto all = protocols_on(shelf_, settings_.language);
  const auto at = [&](const procedure::Files& files) {
    const auto found = std::find_if(all.begin(), all.end(), [&](const Protocol& p) {
      return p.files.scenario == files.scenario && p.files.card == files.card;
    });
    return std::min(static_cast<std::size_t>(found - all.begin()), all.size() - 1);
  };
  auto first = at(a), second = b.empty() ? other_than(all, first) : at({b, "", ""});
  if (b.empty() && all[first].id.starts_with(all[second].id + "-"))
    std::swap(first, second);  // a copy is the other way
  compare_ = std::make_unique<CompareScreen>(std::move(all), first, second, settings_.language);
  if (!b.empty()) compare_->begin();
  stand_ = Stand::compare;
}

void Program::on_rehearse(RehearseScreen::Outcome outcome) {
  if (outcome == RehearseScreen::Outcome::home) return to_start();
  if (outcome == RehearseScreen::Outcome::improve) return to_improve();
  ask_for_rehearsed_plan();
}

// The plan is looked for once a debrief is there to lie beside it.
void Program::ask_for_rehearsed_plan() {
  const auto signals = rehearse_->debriefed();
  if (signals && !rehearse_plan_asked_)
    desk_.ask(*played_.procedure, {*signals, {}, nullptr, nullptr});
  rehearse_plan_asked_ = signals.has_value();
}

void Program::to_debrief() {
  if (whole_debrief_) return from_stretch();
  const bool kept = outside_.records && outside_.records->chosen();
  debrief_ = std::make_unique<DebriefScreen>(sitting_->procedure(), sitting_->run().session(),
                                             sitting_->trainee(), kept ? "" : sitting_->recording(),
                                             sitting_->recording_problem(), strings_);
  if (kept) compare_with_earlier();
  ask_for_plan();
  finish_record();
  debrief_->tell_around(picture::around_words(around(), strings_));
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

// A gamepad is a small keyboard wherever it does not play.
Input Program::plain(Input input) const {
  const bool itself =
      stand_ == Stand::drill || stand_ == Stand::settings || stand_ == Stand::rehearse;
  if (!itself && input.kind == Input::Kind::key) input.key = plain_key(input.key);
  return input;
}

void Program::handle(const Input& given) {
  const Input input = plain(given);
  rest_ = {};
  if (input.kind == Input::Kind::pointer || input.kind == Input::Kind::press)
    pointer_ = {input.x, input.y};
  const bool close = input.kind == Input::Kind::close;
  switch (stand_) {
    case Stand::start: {
      const auto outcome = close ? StartScreen::Outcome::close : start_->handle(input);
      if (outcome == StartScreen::Outcome::begin) to_briefing();
      if (outcome == StartScreen::Outcome::settings) to_settings();
      if (outcome == StartScreen::Outcome::learn) to_lesson();
      if (outcome == StartScreen::Outcome::who) to_people();
      if (outcome == StartScreen::Outcome::records) to_review();
      if (outcome != StartScreen::Outcome::close) break;
      if (outside_.records && !close)
        to_people();
      else
        stand_ = Stand::closed;
      break;
    }
    case Stand::briefing: {
      if (close) stand_ = Stand::closed;
      const auto outcome = briefing_->handle(input);
      if (outcome == BriefingScreen::Outcome::begin) begin();
      if (outcome == BriefingScreen::Outcome::laid) {
        choice_ = briefing_->choice();
        read_chosen();
        brief();
      }
      if (outcome == BriefingScreen::Outcome::back) to_start();
      if (outcome == BriefingScreen::Outcome::observe) to_observe(false);
      if (outcome == BriefingScreen::Outcome::rehearse) to_rehearse();
      if (outcome == BriefingScreen::Outcome::improve) to_improve();
      if (outcome == BriefingScreen::Outcome::compare) to_compare(chosen_files(), {});
      break;
    }
    case Stand::drill:
      if (close && drill_->asking()) {  // closed twice: meant so
        sitting_->abandon();
        finish_record();
        stand_ = Stand::closed;
      } else {
        const auto outcome = drill_->handle(input);
        if (outcome == DrillScreen::Outcome::debrief) end_drill();
        if (outcome == DrillScreen::Outcome::sound) switch_sound();
      }
      break;
    case Stand::debrief:
      if (close)
        stand_ = Stand::closed;
      else
        on_debrief(debrief_->handle(input));
      break;
    case Stand::observe:
      if (close)
        stand_ = Stand::closed;
      else
        on_observe(observe_->handle(input));
      break;
    case Stand::rehearse:
      if (close)
        stand_ = Stand::closed;
      else
        on_rehearse(rehearse_->handle(input));
      break;
    case Stand::improve:
      if (close)
        stand_ = Stand::closed;
      else
        on_improve(improve_->handle(input));
      break;
    case Stand::observed:
      if (close)
        stand_ = Stand::closed;
      else
        on_observed(observed_->handle(input));
      break;
    case Stand::compare:
      if (close)
        stand_ = Stand::closed;
      else if (compare_->handle(input) == CompareScreen::Outcome::home)
        to_start();
      break;
    case Stand::people:
      on_people(people_->handle(input));
      break;
    case Stand::replay:
      if (close)
        stand_ = Stand::closed;
      else if (replay_->handle(input) == ReplayScreen::Outcome::back)
        stand_ = shown_from_;
      break;
    case Stand::side_by_side:
      if (close)
        stand_ = Stand::closed;
      else if (side_by_side_->handle(input) == SideBySideScreen::Outcome::back)
        stand_ = shown_from_;
      break;
    case Stand::review:
      if (close)
        stand_ = Stand::closed;
      else if (const auto outcome = review_->handle(input); outcome == ReviewRoom::Outcome::leave)
        from_review();
      else if (outcome == ReviewRoom::Outcome::play)
        play_stored();
      break;
    case Stand::settings:
      if (close)
        stand_ = Stand::closed;
      else
        on_settings(settings_screen_->handle(input));
      break;
    case Stand::set_up:
      if (close)
        stand_ = Stand::closed;
      else
        on_set_up(set_up_->handle(input));
      break;
    case Stand::turnover:
      if (close) {
        finish_record();
        stand_ = Stand::closed;
      } else if (turnover_->handle(input) == TurnoverScreen::Outcome::debrief)
        to_debrief();
      break;
    case Stand::closed:
      break;
  }
}

void Program::on_debrief(DebriefScreen::Outcome outcome) {
  switch (outcome) {
    case DebriefScreen::Outcome::stay:
      break;
    case DebriefScreen::Outcome::again:
      set_up_.reset();
      to_drill(sitting_->run().session().setup.seed, choice_);
      break;
    case DebriefScreen::Outcome::fresh:
      set_up_.reset();
      to_drill(outside_.new_seed(), choice_);
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

void Program::pass(std::chrono::microseconds real) {
  look_at_files(real);
  close_what_rests(real);
  if (stand_ == Stand::drill && drill_->pass(real) == DrillScreen::Outcome::debrief) end_drill();
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
