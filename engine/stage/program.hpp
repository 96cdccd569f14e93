// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <chrono>
#include <cstdint>
#include <functional>
#include <map>
#include <memory>
#include <string>
#include <variant>
#include <vector>

#include "stage/briefing_screen.hpp"
#include "stage/compare_screen.hpp"
#include "stage/debrief_screen.hpp"
#include "stage/drill_screen.hpp"
#include "stage/improve_screen.hpp"
#include "stage/live_shelf.hpp"
#include "stage/observe_screen.hpp"
#include "stage/observed_screen.hpp"
#include "stage/people_screen.hpp"
#include "stage/plan_desk.hpp"
#include "stage/rehearse_screen.hpp"
#include "stage/replay_screen.hpp"
#include "stage/review_room.hpp"
#include "stage/set_up_screen.hpp"
#include "stage/settings_screen.hpp"
#include "stage/side_by_side_screen.hpp"
#include "stage/start_screen.hpp"
#include "stage/turnover_screen.hpp"
#include "stage/units.hpp"

namespace beforehand::stage {

/// What the program takes from outside, so that a test can put something else there.
struct Outside {
  std::string scenarios;  ///< the folder the shelf was read from
  /// The folder of the user's own scenarios, where copies go; empty: the same.
  std::string own_scenarios = {};
  /// A file for the recording of a scenario, which must not exist yet, or empty for none.
  std::function<std::string(const std::string& scenario, std::uint64_t seed)> new_recording;
  std::function<std::uint64_t()> new_seed;
  /// The log of a scenario's observation, to begin or to go on with, or empty for none.
  std::function<std::string(const std::string& scenario)> observation = {};
  std::vector<Language> languages{};
  /// The texts of one of the languages. May throw BadStrings.
  std::function<Strings(const std::string& language)> strings_in{};
  /// Keeps the settings; gives what went wrong, or nothing.
  std::function<std::string(const Settings&)> save{};
  /// The records; without them nobody is asked who practises, and recordings stay files.
  RecordDesk* records = nullptr;
};

/// The way round: start, briefing, set-up, drill, turnover, debrief and back. Knows no window.
/// Which screen follows which in practising stands in program_practice.cpp, in what a team does in
/// program_study.cpp; what a saved file changes in program_reload.cpp.
class Program {
 public:
  enum class Stand {
    start,
    briefing,
    drill,
    debrief,
    observe,
    rehearse,
    improve,
    closed,
    people,
    settings,
    replay,
    side_by_side,
    set_up,
    turnover,
    review,
    compare,
    observed
  };

  /// What comes up by itself when a drill ends takes no press for so long.
  static constexpr std::chrono::milliseconds deaf_after_a_drill{500};

  Program(std::vector<ShelfItem> shelf, Strings strings, Outside outside, Choice first = {},
          SettingsReading settings = {});
  Program(const Program&) = delete;  // the screens refer to its parts
  Program& operator=(const Program&) = delete;

  void handle(const Input&);
  void pass(std::chrono::microseconds real);
  void draw(picture::Canvas&, const picture::Theme&, double width, double height);

  Stand stand() const { return stand_; }
  bool closed() const { return stand_ == Stand::closed; }
  /// Whether something moves by itself; if not, a frame is needed after an input only.
  bool moves() const;
  /// Waits for what is worked out beside the frames, and shows it.
  void settle();

  /// Plays a session again; the way out leads back to `from`.
  void show_replay(Played, Stand from);
  /// Two sessions on one axis of time, the later one first; the way out leads back to `from`.
  void show_side_by_side(Played, Played, Stand from);

  /// Something is not as it should be, and the program goes on without: the start says so.
  void complain(const std::string& problem);

  const Settings& settings() const { return settings_; }
  void change_scale(int by_percent);
  /// What the clinician announces while the drill is talked over and prepared; else empty.
  std::string announced() const;
  /// What the screen that is shown needs; a window that is smaller shows it at a smaller scale.
  Units needs() const;

  const Strings& strings() const { return strings_; }
  StartScreen& start() { return *start_; }
  PeopleScreen* people() { return people_.get(); }
  /// The running or last drill, or nullptr.
  Sitting* sitting() { return sitting_.get(); }
  const Sitting* sitting() const { return sitting_.get(); }
  DrillScreen* drill() { return drill_.get(); }
  BriefingScreen* briefing() { return briefing_.get(); }
  DebriefScreen* debrief() { return debrief_.get(); }
  SetUpScreen* set_up() { return set_up_.get(); }
  TurnoverScreen* turnover() { return turnover_.get(); }
  ObserveScreen* observe() { return observe_.get(); }
  RehearseScreen* rehearse() { return rehearse_.get(); }
  ImproveScreen* improve() { return improve_.get(); }
  ReplayScreen* replay() { return replay_.get(); }
  SideBySideScreen* side_by_side() { return side_by_side_.get(); }
  ReviewRoom* review() { return review_.get(); }
  CompareScreen* compare() { return compare_.get(); }
  ObservedScreen* observed() { return observed_.get(); }

 private:
  void close(const Input&);
  void on_review(ReviewRoom::Outcome);
  void on_start(StartScreen::Outcome);
  void on_briefing(BriefingScreen::Outcome);
  void on_drill(DrillScreen::Outcome);
  void to_people();
  void to_review();
  void from_review();
  void play_stored();
  void close_what_rests(std::chrono::microseconds real);
  void to_start();
  void to_settings();
  void to_briefing();
  void lay_as_before();
  void remember_laid();
  std::map<std::string, std::string> laid_titles() const;
  void read_chosen();
  void brief();
  void take_chosen();
  void take_saved();
  void read_shelf_again();
  void to_drill(std::uint64_t seed, const Choice&);
  void to_stretch();
  void from_stretch();
  void ask_for_plan();
  void compare_with_earlier();
  void begin();
  void lay_tray();
  void lay_newer_tray();
  bool newer_is_saved() const;
  void take_newer();
  void again(std::uint64_t seed);
  void on_set_up(SetUpScreen::Outcome);
  void end_drill();
  void to_lesson();
  bool hears(const Input&) const;
  void know_lesson();
  void lay_beside(const records::Id&);
  void to_observe(bool free);
  void on_observe(ObserveScreen::Outcome);
  void on_observed(ObservedScreen::Outcome);
  void to_rehearse();
  void to_improve();
  void on_improve(ImproveScreen::Outcome);
  void from_copy(const std::string& copy);
  void to_compare(const procedure::Files& a, const std::string& b);
  /// What is briefed; materials change times alone, which studies take from the scenario.
  procedure::Files chosen_files() const { return {chosen_.file, choice_.card, ""}; }
  void on_rehearse(RehearseScreen::Outcome);
  void ask_for_rehearsed_plan();
  void to_debrief();
  std::uint64_t chosen_seed() const;
  void on_debrief(DebriefScreen::Outcome);
  void on_people(PeopleScreen::Outcome);
  std::string new_recording(std::uint64_t seed);
  void finish_record();
  records::Around around() const;
  records::Library::Spoken speaker_of_now() const;
  void show_saved();
  Input plain(Input) const;
  void on_settings(SettingsScreen::Outcome);
  void keep(const Settings&);
  void switch_sound();
  void show_plan();

  LiveShelf shelf_;
  bool shelf_is_old_ = false, fresh_ = false;
  ShelfItem chosen_;  // what is briefed, with what is laid over it
  ShelfItem played_;  // what the drill and whatever follows it refer to: it stays as it was
  Strings strings_;
  Outside outside_;
  Choice choice_;
  std::uint64_t tray_seed_ = 0;  // draws what stands in the cabinet beside what is needed
  Settings settings_;
  std::string settings_problem_, complaint_;
  Stand stand_ = Stand::start;
  Point pointer_{-1, -1};
  std::unique_ptr<PeopleScreen> people_;
  std::unique_ptr<StartScreen> start_;
  std::unique_ptr<SettingsScreen> settings_screen_;
  std::unique_ptr<BriefingScreen> briefing_;
  std::unique_ptr<Sitting> sitting_;
  std::unique_ptr<DrillScreen> drill_;
  std::unique_ptr<SetUpScreen> set_up_;
  std::unique_ptr<TurnoverScreen> turnover_;
  std::unique_ptr<DebriefScreen> debrief_;
  // The drill and the debrief a stretch was begun from, while it is played.
  std::unique_ptr<Sitting> whole_sitting_;
  std::unique_ptr<DebriefScreen> whole_debrief_;
  std::unique_ptr<ObserveScreen> observe_;
  std::unique_ptr<RehearseScreen> rehearse_;
  std::unique_ptr<ImproveScreen> improve_;
  std::unique_ptr<ReplayScreen> replay_;
  std::unique_ptr<SideBySideScreen> side_by_side_;
  Stand shown_from_ = Stand::start;  // where the replay or the pair was opened
  std::unique_ptr<ReviewRoom> review_;
  bool review_own_ = false;
  std::chrono::microseconds rest_{0};  // since the last input
  std::unique_ptr<CompareScreen> compare_;
  std::unique_ptr<ObservedScreen> observed_;
  bool rehearse_plan_asked_ = false;
  std::chrono::microseconds deaf_{0};  // until what follows the drill listens
  bool lesson_ = false;                // the drill is the lesson: nothing of it is kept
  PlanDesk desk_;
};

}  // namespace beforehand::stage
