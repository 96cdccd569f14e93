// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "stage/record_desk.hpp"

#include <chrono>
#include <utility>

#include "drill/recording.hpp"

namespace beforehand::stage {

using records::Person;
using records::StoreError;

constexpr int all_sessions = 1'000'000;

RecordDesk::RecordDesk(std::string store_address, const std::string& data, records::Clock now)
    : address_(std::move(store_address)),
      reports_(data + "/reports"),
      now_(std::move(now)),
      queue_(data + "/queue") {}

RecordDesk::~RecordDesk() { wait(); }

void RecordDesk::refresh() {
  wait();
  try {
    if (!store_) store_ = std::make_unique<records::Store>(records::Store::open(address_, now_));
    saved_ = queue_.deliver(*store_);
    people_ = store_->people(Person::Part::trainee);
    problem_.clear();
    read_standing();
  } catch (const std::exception& e) {
    store_.reset();  // a broken connection does not mend itself
    problem_ = e.what();
  }
}

std::string RecordDesk::add(const std::string& name) {
  if (!store_) return problem_;
  try {
    choose(store_->add_person(Person::Part::trainee, name));
    people_ = store_->people(Person::Part::trainee);
    return {};
  } catch (const std::exception& e) {
    return e.what();
  }
}

void RecordDesk::choose(const Person& who) {
  chosen_ = who;
  try {
    read_standing();
  } catch (const StoreError& e) {
    problem_ = e.what();
  }
}

void RecordDesk::choose_nobody() {
  chosen_.reset();
  standing_.clear();
}

RecordDesk::Passcode RecordDesk::try_passcode(const Person& who, const std::string& passcode) {
  if (!store_) return Passcode::wrong;
  try {
    const auto answer = store_->try_passcode(who.id, passcode);
    if (answer.right) return Passcode::right;
    return answer.wait.count() > 0 ? Passcode::too_soon : Passcode::wrong;
  } catch (const std::exception& e) {
    problem_ = e.what();
    return Passcode::wrong;
  }
}

void RecordDesk::read_standing() {
  standing_.clear();
  if (!store_ || !chosen_) return;
  records::SummaryQuery q;
  q.trainee = chosen_->id;
  for (auto& s : store_->summaries(q)) standing_[s.scenario] = std::move(s);
}

RecordDesk::Earlier RecordDesk::earlier(const std::string& scenario, const std::string& phase) {
  wait();
  Earlier found;
  if (!store_ || !chosen_) return found;
  records::SessionQuery q;
  q.trainee = chosen_->id;
  q.scenario = scenario;
  q.limit = all_sessions;
  try {
    for (auto& s : store_->sessions(q)) {
      const bool same = s.complete && s.phase == phase && records::counts_for_standing(s.assistant);
      if (!same) continue;
      if (!found.best || s.total > found.best->total) found.best = s;
      if (!found.last) found.last = std::move(s);
    }
  } catch (const StoreError& e) {
    problem_ = e.what();
    return {};
  }
  return found;
}

std::string RecordDesk::begin(const std::string& scenario_text) {
  underway_.reset();
  if (!chosen_) return {};
  try {
    underway_ = queue_.begin(address_, chosen_->id, drill::program_version, scenario_text, now_());
    return underway_->recording();
  } catch (const std::exception& e) {
    problem_ = e.what();
    return {};
  }
}

void RecordDesk::finish(const records::Around& around) {
  if (!underway_) return;
  try {
    underway_->finish(now_(), {}, around);
  } catch (const StoreError& e) {
    problem_ = e.what();
  }
  underway_.reset();
  deliver();
}

void RecordDesk::deliver() {
  wait();
  // With a connection of its own: a store serves one thread.
  saving_ = std::async(std::launch::async, [queue = queue_, address = address_, now = now_] {
    return queue.deliver(address, now);
  });
}

std::optional<records::Delivery> RecordDesk::take() {
  if (saving_.valid() && saving_.wait_for(std::chrono::seconds{0}) == std::future_status::ready)
    wait();
  return std::exchange(saved_, std::nullopt);
}

void RecordDesk::wait() {
  if (!saving_.valid()) return;
  saved_ = saving_.get();
  try {
    read_standing();
  } catch (const StoreError& e) {
    problem_ = e.what();
    store_.reset();
  }
}

}  // namespace beforehand::stage
