// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "stage/review_room.hpp"

#include <chrono>
#include <utility>

#include "picture/report.hpp"
#include "picture/review_words.hpp"
#include "timing/plan.hpp"

namespace beforehand::stage {

using records::Person;

namespace {

// Nobody waits longer than this for what the drill is measured against.
constexpr std::chrono::milliseconds longest_search{1500};

timing::Plan plan_of(const Played& played) {
  const auto until = std::chrono::steady_clock::now() + longest_search;
  return timing::plan(*played.procedure,
                      {scoring::signals_shown(played.session), played.session.setup.phase,
                       [until] { return std::chrono::steady_clock::now() > until; }, nullptr});
}

}  // namespace

ReviewRoom::ReviewRoom(ReviewDesk desk, const Person& trainee, const Strings& t)
    : desk_(std::move(desk)), t_(t), own_(true), stand_(Stand::person) {
  to_person(trainee, {});
}

ReviewRoom::ReviewRoom(ReviewDesk desk, const Strings& t)
    : desk_(std::move(desk)),
      t_(t),
      own_(false),
      stand_(Stand::door),
      door_(std::make_unique<ReviewDoor>(desk_)) {}

ReviewRoom::Outcome ReviewRoom::handle(const Input& input) {
  rest_ = {};
  switch (stand_) {
    case Stand::door:
      return on_door(door_->handle(input));
    case Stand::everybody:
      return on_class(class_->handle(input));
    case Stand::heat:
      if (heat_->handle(input) == ReviewHeat::Outcome::leave) stand_ = Stand::everybody;
      break;
    case Stand::person:
      return on_person(person_->handle(input));
    case Stand::dialog:
      on_dialog(dialog_->handle(input));
      break;
    case Stand::session:
      return on_session(debrief_->handle(input));
    case Stand::pair:
      if (pair_->handle(input) == SideBySideScreen::Outcome::back) stand_ = Stand::person;
      break;
  }
  return Outcome::stay;
}

ReviewRoom::Outcome ReviewRoom::on_door(ReviewDoor::Outcome outcome) {
  if (outcome == ReviewDoor::Outcome::leave) return Outcome::leave;
  if (outcome == ReviewDoor::Outcome::stay) return Outcome::stay;
  const bool same = behind_ && trainer_ == door_->trainer().id;
  trainer_ = door_->trainer().id;
  if (!same) class_ = std::make_unique<ReviewClass>(desk_);
  stand_ = same ? *behind_ : Stand::everybody;
  behind_.reset();
  return Outcome::stay;
}

// What was begun in a dialog goes: it is not another's to end.
void ReviewRoom::shut() {
  behind_ = stand_ == Stand::dialog ? Stand::person : stand_;
  dialog_.reset();
  auto door = std::make_unique<ReviewDoor>(desk_);
  door->fell_shut(door_->trainer(), static_cast<int>(longest_rest.count()));
  door_ = std::move(door);
  stand_ = Stand::door;
}

ReviewRoom::Outcome ReviewRoom::on_session(DebriefScreen::Outcome outcome) {
  if (outcome == DebriefScreen::Outcome::home) stand_ = Stand::person;
  const bool plays = outcome == DebriefScreen::Outcome::again ||
                     outcome == DebriefScreen::Outcome::fresh ||
                     outcome == DebriefScreen::Outcome::stretch;
  if (!plays) return Outcome::stay;
  wish_ = outcome;
  return Outcome::play;
}

ReviewRoom::Outcome ReviewRoom::on_class(ReviewClass::Outcome outcome) {
  const auto* row = class_->row();
  switch (outcome) {
    case ReviewClass::Outcome::leave:
      return Outcome::leave;
    case ReviewClass::Outcome::open: {
      Person who;
      who.id = row->summary.trainee;
      to_person(who, row->summary.scenario);
      break;
    }
    case ReviewClass::Outcome::heat:
      heat_ = std::make_unique<ReviewHeat>(desk_, row->summary.scenario, row->title,
                                           class_->view().search);
      stand_ = Stand::heat;
      break;
    case ReviewClass::Outcome::report:
      write_class_report();
      break;
    case ReviewClass::Outcome::stay:
      break;
  }
  return Outcome::stay;
}

void ReviewRoom::to_person(const Person& who, const std::string& scenario) {
  auto found = desk_.trainee(who);
  if (found) {
    person_ = std::make_unique<ReviewPerson>(std::move(*found), scenario, !own_);
    show_criteria();
    stand_ = Stand::person;
  } else if (own_) {
    ReviewDesk::Trainee nothing;
    nothing.file.trainee = who;
    person_ = std::make_unique<ReviewPerson>(std::move(nothing), scenario, false);
    person_->tell(desk_.problem(), true);
  } else {
    class_->tell(desk_.problem());
  }
}

void ReviewRoom::show_criteria() {
  if (const auto* p = person_->procedure())
    person_->show_criteria(desk_.criteria(*p, person_->file().trainee.id));
}

ReviewRoom::Outcome ReviewRoom::on_person(ReviewPerson::Outcome outcome) {
  switch (outcome) {
    case ReviewPerson::Outcome::leave:
      if (own_) return Outcome::leave;
      class_->refresh();
      stand_ = Stand::everybody;
      break;
    case ReviewPerson::Outcome::session:
      to_session();
      break;
    case ReviewPerson::Outcome::pair:
      to_pair();
      break;
    case ReviewPerson::Outcome::report:
      write_report();
      break;
    case ReviewPerson::Outcome::sign:
      to_dialog(person_->signed_off() ? SignOffDialog::Kind::revoke : SignOffDialog::Kind::sign);
      break;
    case ReviewPerson::Outcome::note:
      to_dialog(SignOffDialog::Kind::note);
      break;
    case ReviewPerson::Outcome::stay:
      if (person_->wants_criteria()) show_criteria();
      break;
  }
  return Outcome::stay;
}

void ReviewRoom::to_session() {
  debrief_.reset();
  played_ = desk_.played(person_->session()->id);
  if (!played_) {
    person_->tell(desk_.problem(), true);
    return;
  }
  debrief_ = std::make_unique<DebriefScreen>(*played_->procedure, played_->session,
                                             played_->trainee(), "", "", t_);
  if (const auto plan = plan_of(*played_); plan.found()) debrief_->refer_to(plan);
  debrief_->from_records(own_, played_->who + " · " + played_->when);
  debrief_->tell_around(picture::around_words(played_->around, t_));
  stand_ = Stand::session;
}

// What changed is told of the later one.
void ReviewRoom::to_pair() {
  const auto *one = person_->session(), *other = person_->marked();
  if (one->started < other->started) std::swap(one, other);
  auto first = desk_.played(one->id);
  auto second = first ? desk_.played(other->id) : std::nullopt;
  if (!second) {
    person_->tell(desk_.problem(), true);
    return;
  }
  pair_ = std::make_unique<SideBySideScreen>(std::move(*first), std::move(*second), t_,
                                             t_("review.back"));
  stand_ = Stand::pair;
}

void ReviewRoom::to_dialog(SignOffDialog::Kind kind) {
  SignOffDialog::Subject s;
  s.kind = kind;
  s.trainer = door_->trainer();
  s.file = &person_->file();
  s.review = person_->review();
  s.procedure = person_->procedure();
  if (s.review) s.scenario_hash = s.review->sessions.back().scenario_hash;
  if (const auto* standing = person_->signed_off()) s.sign_off = standing->id;
  if (kind == SignOffDialog::Kind::sign)
    s.criteria = desk_.criteria(*s.procedure, s.file->trainee.id);
  dialog_ = std::make_unique<SignOffDialog>(desk_, std::move(s));
  stand_ = Stand::dialog;
}

void ReviewRoom::on_dialog(SignOffDialog::Outcome outcome) {
  if (outcome == SignOffDialog::Outcome::stay) return;
  const auto kind = dialog_->kind();
  dialog_.reset();
  stand_ = Stand::person;
  person_->tell({});
  if (outcome == SignOffDialog::Outcome::leave) return;
  static constexpr const char* told[] = {"review.sign.done", "review.revoke.done",
                                         "review.note.done"};
  person_->tell(t_(told[static_cast<int>(kind)]));
  auto again = desk_.trainee(person_->file().trainee);
  if (again)
    person_->refresh(std::move(*again));
  else
    person_->tell(desk_.problem(), true);
  show_criteria();
}

void ReviewRoom::write_report() {
  const auto file = desk_.write_report(picture::trainee_report(person_->file(), t_), "trainee");
  if (file.empty())
    person_->tell(desk_.problem(), true);
  else
    person_->tell(t_("review.report.written", {file}));
}

void ReviewRoom::write_class_report() {
  const auto page = desk_.class_file(class_->scenario(), class_->view().search);
  const auto file =
      desk_.problem().empty() ? desk_.write_report(picture::cohort_report(page, t_), "class") : "";
  class_->tell(file.empty() ? desk_.problem() : t_("review.report.written", {file}));
}

void ReviewRoom::pass(std::chrono::microseconds real) {
  rest_ += real;
  if (!own_ && stand_ != Stand::door && rest_ >= longest_rest) shut();
  if (stand_ == Stand::session) debrief_->pass(real);
  if (stand_ == Stand::pair) pair_->pass(real);
}

bool ReviewRoom::moves() const {
  return (stand_ == Stand::session && debrief_->moves()) ||
         (stand_ == Stand::pair && pair_->playing());
}

void ReviewRoom::draw(Pen& pen, const Box& box) {
  switch (stand_) {
    case Stand::door:
      return door_->draw(pen, box);
    case Stand::everybody:
      return class_->draw(pen, box);
    case Stand::heat:
      return heat_->draw(pen, box);
    case Stand::person:
      return person_->draw(pen, box);
    case Stand::dialog:
      return dialog_->draw(pen, box);
    case Stand::session:
      return debrief_->draw(pen, box);
    case Stand::pair:
      return pair_->draw(pen, box);
  }
}

}  // namespace beforehand::stage
