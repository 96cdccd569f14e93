// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "scoring/timekeeper.hpp"

namespace beforehand::scoring {
namespace {

bool same_stretch(const Stretch& a, const Stretch& b) {
  return a.kind == b.kind && a.step == b.step && a.action == b.action;
}

}  // namespace

void Timekeeper::reset() {
  const auto people = f_.procedure.people.size();
  t_.idle.clear();
  t_.both_idle = Ms{0};
  t_.stretches.resize(people);
  t_.people_.resize(people);
  for (std::size_t i = 0; i < people; ++i) reset(PersonIx{i});
}

void Timekeeper::reset(PersonIx who) {
  PersonNow& now = t_.people_[who.at()];
  now.doing.clear();
  now.awaited.clear();
  now.offers.clear();
  now.counted = now.own_work = Ms{0};
  now.clinician = f_.procedure.person(who).role == procedure::Role::clinician;
  now.free_hands = f_.procedure.person(who).hands;
  now.now = {Stretch::Kind::standby, who, Ms{0}, Ms{0}, {}, {}};
  t_.stretches[who.at()].clear();
}

void Timekeeper::count_idle_together(Ms at) {
  if (at <= t_.end) return;
  const bool all = std::all_of(t_.people_.begin(), t_.people_.end(), [](const PersonNow& who) {
    return who.now.kind != Stretch::Kind::work && who.now.kind != Stretch::Kind::cover;
  });
  if (all) t_.both_idle += at - t_.end;
}

void Timekeeper::close(Ms end) {
  for (auto& who : t_.people_) close(who, end);
}

void Timekeeper::count_own_work(PersonNow& who, Ms at) {
  const bool own = std::any_of(who.doing.begin(), who.doing.end(), [](const Doing& d) {
    return d.own_step && d.attention && !d.paused;
  });
  if (own) who.own_work += at - who.counted;
  who.counted = at;
}

void Timekeeper::settle(PersonNow& who, Ms at) {
  Stretch next = is_at(who);
  const int hands = f_.procedure.person(next.person).hands;
  const int free = hands - static_cast<int>(who.offers.size());
  if (same_stretch(next, who.now) && free == who.free_hands) return;
  close(who, at);
  next.from = at;
  who.now = next;
  who.free_hands = free;
}

Stretch Timekeeper::is_at(const PersonNow& who) {
  Stretch s{Stretch::Kind::standby, who.now.person, Ms{0}, Ms{0}, {}, {}};
  const Doing* cover = nullptr;
  for (const Doing& d : who.doing) {
    if (d.paused) s.step = d.step;
    if (d.paused) continue;
    if (d.attention) return {Stretch::Kind::work, s.person, Ms{0}, Ms{0}, d.step, d.action};
    cover = &d;
  }
  if (who.clinician && (s.step || !who.awaited.empty())) {
    s.kind = Stretch::Kind::waiting;
    if (!who.awaited.empty()) s.step = who.awaited.front();
  } else if (cover != nullptr) {
    s = {Stretch::Kind::cover, s.person, Ms{0}, Ms{0}, cover->step, cover->action};
  }
  return s;
}

void Timekeeper::close(PersonNow& who, Ms at) {
  if (at <= who.now.from) return;
  who.now.to = at;
  auto& list = t_.stretches[who.now.person.at()];
  if (who.now.person == f_.whom && who.now.kind == Stretch::Kind::standby)
    t_.idle.push_back({who.now.from, at, who.free_hands});
  if (!list.empty() && same_stretch(list.back(), who.now) && list.back().to == who.now.from)
    list.back().to = at;
  else
    list.push_back(who.now);
  who.now.from = at;
}

void Timekeeper::take_offer(SupplyIx supply, Ms at) {
  for (std::size_t i = 0; i < t_.people_.size(); ++i) {
    const auto& offers = t_.people_[i].offers;
    if (std::find(offers.begin(), offers.end(), supply) == offers.end()) continue;
    change(PersonIx{i}, at, [&](PersonNow& who) { drop(who.offers, supply); });
  }
}

}  // namespace beforehand::scoring
