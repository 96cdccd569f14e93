// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <chrono>
#include <memory>
#include <optional>
#include <string>

#include "stage/debrief_screen.hpp"
#include "stage/review_class_screen.hpp"
#include "stage/review_desk.hpp"
#include "stage/review_door_screen.hpp"
#include "stage/review_heat_screen.hpp"
#include "stage/review_person_screen.hpp"
#include "stage/side_by_side_screen.hpp"
#include "stage/sign_off_screen.hpp"

namespace beforehand::stage {

/// The way round the records: through the door to the class, to one trainee, to one drill. A
/// trainee who looks at their own sees nothing else.
class ReviewRoom {
 public:
  /// play: whoever looks at their own drill wants to play it again, see wish().
  enum class Outcome { stay, leave, play };
  enum class Stand { door, everybody, heat, person, dialog, session, pair };

  /// Of a trainee who has shown that it is them.
  ReviewRoom(ReviewDesk, const records::Person& trainee, const Strings&);
  /// For trainers: begins at the door.
  ReviewRoom(ReviewDesk, const Strings&);
  ReviewRoom(const ReviewRoom&) = delete;  // the screens refer to the desk
  ReviewRoom& operator=(const ReviewRoom&) = delete;

  /// Everybody's records shut themselves after this long without an input.
  static constexpr std::chrono::minutes longest_rest{5};

  Outcome handle(const Input&);
  void pass(std::chrono::microseconds real);
  /// Whether something moves by itself.
  bool moves() const;
  void draw(Pen&, const Box&);

  Stand stand() const { return stand_; }
  /// For Outcome::play: again, fresh or stretch, of the drill that is shown.
  DebriefScreen::Outcome wish() const { return wish_; }
  const Played& played() const { return *played_; }
  ReviewClass* everybody() { return class_.get(); }
  ReviewPerson* person() { return person_.get(); }
  DebriefScreen* session() { return debrief_.get(); }
  SideBySideScreen* pair() { return pair_.get(); }

 private:
  Outcome on_door(ReviewDoor::Outcome);
  Outcome on_session(DebriefScreen::Outcome);
  void shut();
  Outcome on_class(ReviewClass::Outcome);
  Outcome on_person(ReviewPerson::Outcome);
  void on_dialog(SignOffDialog::Outcome);
  void to_person(const records::Person&, const std::string& scenario);
  void show_criteria();
  void to_session();
  void to_pair();
  void to_dialog(SignOffDialog::Kind);
  void write_class_report();
  void write_report();

  ReviewDesk desk_;
  const Strings& t_;
  bool own_;  // a trainee's own records
  Stand stand_;
  std::chrono::microseconds rest_{0};
  std::optional<Stand> behind_;  // what lies behind a door that fell shut
  DebriefScreen::Outcome wish_ = DebriefScreen::Outcome::stay;
  std::unique_ptr<ReviewDoor> door_;
  records::Id trainer_;  // who came in
  std::unique_ptr<ReviewClass> class_;
  std::unique_ptr<ReviewHeat> heat_;
  std::unique_ptr<ReviewPerson> person_;
  std::unique_ptr<SignOffDialog> dialog_;
  std::optional<Played> played_;
  std::unique_ptr<DebriefScreen> debrief_;
  std::unique_ptr<SideBySideScreen> pair_;
};

}  // namespace beforehand::stage
