// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "stage/review_desk.hpp"

#include <algorithm>
#include <cerrno>
#include <filesystem>
#include <fstream>
#include <utility>

namespace beforehand::stage {
namespace {

using records::Person;
using records::Store;
using records::StoreError;
namespace fs = std::filesystem;

// The rows of the map in the order of the ids, where they have one.
void put_in_order(records::HeatMap& map, const std::vector<std::string>& ids) {
  std::vector<std::size_t> order(map.steps.size());
  for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
  const auto place = [&](std::size_t row) {
    return std::find(ids.begin(), ids.end(), map.steps[row]) - ids.begin();
  };
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return place(a) < place(b); });
  auto sorted = map;
  for (std::size_t i = 0; i < order.size(); ++i) {
    sorted.steps[i] = map.steps[order[i]];
    sorted.cells[i] = map.cells[order[i]];
  }
  map = std::move(sorted);
}

std::string day_and_time(records::Moment m) {
  auto text = records::minute_text(m);
  std::replace(text.begin(), text.end(), ' ', '-');
  std::erase(text, ':');
  return text;
}

}  // namespace

ReviewDesk::ReviewDesk(std::string store_address, std::string reports, records::Clock now,
                       records::Library::Spoken spoken)
    : address_(std::move(store_address)),
      reports_(std::move(reports)),
      now_(std::move(now)),
      spoken_(std::move(spoken)) {}

bool ReviewDesk::attempt(const std::function<void(Store&)>& work) {
  problem_.clear();
  try {
    if (!store_) {
      store_ = std::make_unique<Store>(Store::open(address_, now_));
      library_ = std::make_shared<records::Library>(*store_, spoken_);
    }
    work(*store_);
    return true;
  } catch (const StoreError& e) {
    problem_ = e.what();
    if (e.kind != StoreError::Kind::refused) store_.reset();  // a broken connection stays broken
  } catch (const std::exception& e) {
    problem_ = e.what();
  }
  return false;
}

std::vector<Person> ReviewDesk::trainers() {
  std::vector<Person> list;
  attempt([&](Store& s) { list = s.people(Person::Part::trainer); });
  return list;
}

std::optional<Person> ReviewDesk::add_first_trainer(const std::string& name,
                                                    const std::string& passcode) {
  std::optional<Person> added;
  attempt([&](Store& s) {
    if (s.people(Person::Part::trainer).empty())
      added = s.add_person(Person::Part::trainer, name, passcode);
  });
  return added;
}

Store::PasscodeAnswer ReviewDesk::try_passcode(const records::Id& who,
                                               const std::string& passcode) {
  Store::PasscodeAnswer answer;
  attempt([&](Store& s) { answer = s.try_passcode(who, passcode); });
  return answer;
}

std::vector<ReviewDesk::Scenario> ReviewDesk::scenarios() {
  std::map<std::string, std::string> titles;
  attempt([&](Store& s) {
    for (const auto& v : s.scenarios()) titles[v.id] = v.title;
    for (const auto& [id, p] : newest_versions(s, *library_))
      if (p != nullptr) titles[id] = p->title;
  });
  std::vector<Scenario> list;
  for (auto& [id, title] : titles) list.push_back({id, title});
  std::sort(list.begin(), list.end(),
            [](const Scenario& a, const Scenario& b) { return a.title < b.title; });
  return list;
}

records::CohortTable ReviewDesk::cohort(const std::string& scenario) {
  records::CohortTable table;
  attempt([&](Store& s) {
    records::SummaryQuery q;
    q.scenario = scenario;
    q.limit = most_rows;
    table = records::CohortTable(cohort_rows(s, *library_, q), s.now());
  });
  return table;
}

records::CohortFile ReviewDesk::class_file(const std::string& scenario, const std::string& search) {
  records::CohortFile file;
  attempt([&](Store& s) {
    records::SummaryQuery q;
    q.scenario = scenario;
    q.search = search;
    file = cohort_file(s, *library_, q);
  });
  return file;
}

ReviewDesk::Heat ReviewDesk::heat(const std::string& scenario, const std::string& search, int from,
                                  int count) {
  Heat heat;
  attempt([&](Store& s) {
    records::SummaryQuery q;
    q.scenario = scenario;
    q.search = search;
    q.offset = from;
    q.limit = count;
    q.with_history = true;
    heat.map = records::heat_map(s.summaries(q));
    const auto newest = newest_versions(s, *library_);
    const auto at = newest.find(scenario);
    std::vector<std::string> ids;
    std::map<std::string, std::string> titles;
    if (at != newest.end() && at->second != nullptr)
      for (const auto& step : at->second->steps) {
        ids.push_back(step.id);
        titles[step.id] = step.title;
      }
    put_in_order(heat.map, ids);
    for (const auto& id : heat.map.steps)
      heat.step_titles.push_back(titles.contains(id) ? titles[id] : id);
  });
  return heat;
}

std::optional<ReviewDesk::Trainee> ReviewDesk::trainee(const Person& who) {
  std::optional<Trainee> found;
  attempt([&](Store& s) {
    auto file = trainee_file(s, *library_, s.person(Person::Part::trainee, who.id));
    found = {library_, std::move(file)};
  });
  return found;
}

std::optional<Played> ReviewDesk::played(const records::Id& session) {
  std::optional<Played> found;
  attempt([&](Store& s) { found = stored_session(s, *library_, session); });
  return found;
}

std::vector<records::Criterion> ReviewDesk::criteria(const procedure::Procedure& p,
                                                     const records::Id& trainee) {
  std::vector<records::Criterion> list;
  attempt([&](Store& s) { list = records::criteria(p, s, trainee); });
  return list;
}

bool ReviewDesk::sign(records::SignOff s) {
  return attempt([&](Store& store) { store.sign(std::move(s)); });
}

bool ReviewDesk::revoke(const records::Id& sign_off, const records::Id& trainer,
                        const std::string& why) {
  return attempt([&](Store& s) { s.revoke(sign_off, trainer, why); });
}

bool ReviewDesk::note(records::Note n) {
  return attempt([&](Store& s) { s.add_note(std::move(n)); });
}

std::string ReviewDesk::write_report(const std::string& page, const std::string& about) {
  problem_.clear();
  std::error_code failed;
  fs::create_directories(reports_, failed);
  fs::permissions(reports_, fs::perms::owner_all, failed);
  const auto stem = reports_ + "/" + day_and_time(now_()) + "-" + about;
  auto file = stem + ".html";
  for (int i = 2; fs::exists(file, failed); ++i) file = stem + "-" + std::to_string(i) + ".html";
  std::ofstream out(file, std::ios::binary);
  out << page << std::flush;
  if (out) return file;
  problem_ = file + ": " + std::error_code(errno, std::generic_category()).message();
  fs::remove(file, failed);
  return {};
}

}  // namespace beforehand::stage
