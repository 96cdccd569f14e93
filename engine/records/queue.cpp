// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "records/queue.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/file.h>
#include <unistd.h>

#include <algorithm>
#include <atomic>
#include <cerrno>
#include <chrono>
#include <cstring>
#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>

#include "drill/recording.hpp"
#include "procedure/bundle.hpp"
#include "records/database.hpp"
#include "records/ids.hpp"
#include "records/packing.hpp"
#include "records/save.hpp"
#include "scoring/planned.hpp"

namespace beforehand::records {
namespace {

namespace fs = std::filesystem;
using nlohmann::json;
using Kind = StoreError::Kind;

// A drill's files share its id: .lock is locked while it is played, .json says what it is, .jsonl
// is its recording. The scenario's text lies beside it under its hash.
std::string file_of(const std::string& folder, const Id& id, const char* ending) {
  return folder + "/" + id + ending;
}

[[noreturn]] void cannot_write(const std::string& file) {
  const int code = errno;
  throw StoreError(code == ENOSPC || code == EDQUOT || code == EFBIG ? Kind::full : Kind::read_only,
                   fmt::format("{} cannot be written: {}. What was saved before is safe; make "
                               "room or give this user the right to write there",
                               file, std::strerror(code)));
}

// All or nothing: a reader sees the old text or the new one. Two windows may write the same
// scenario at once, each into a file of its own.
void write_whole(const std::string& file, const std::string& text) {
  static std::atomic<int> written_here{0};
  const auto half = fmt::format("{}.{}-{}.half", file, ::getpid(), ++written_here);
  const int fd = ::open(half.c_str(), O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC, 0600);
  if (fd < 0) cannot_write(half);
  const bool written = ::write(fd, text.data(), text.size()) == static_cast<ssize_t>(text.size()) &&
                       ::fsync(fd) == 0;
  const int code = errno;
  ::close(fd);
  errno = code;
  if (!written || std::rename(half.c_str(), file.c_str()) != 0) {
    const int why = errno;
    ::unlink(half.c_str());
    errno = why;
    cannot_write(file);
  }
}

std::string read_whole(const std::string& file) {
  std::ifstream in(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

// Held until it is destroyed or the process ends, however it ends.
class FileLock {
 public:
  explicit FileLock(const std::string& file, bool create)
      : fd_(::open(file.c_str(), O_RDWR | O_CLOEXEC | (create ? O_CREAT : 0), 0600)) {
    if (fd_ >= 0) held_ = ::flock(fd_, LOCK_EX | LOCK_NB) == 0;
  }
  ~FileLock() {
    if (fd_ >= 0) ::close(fd_);
  }
  FileLock(const FileLock&) = delete;
  FileLock& operator=(const FileLock&) = delete;
  bool held() const { return held_; }

 private:
  int fd_;
  bool held_ = false;
};

struct Slip {
  Id id, trainee;
  std::string store, program, scenario;  // the last by hash
  long long started = 0;
  std::optional<long long> ended;
  std::optional<scoring::Reference> reference;
  std::string around;  // packed

  std::string text() const {
    json j{{"id", id},           {"trainee", trainee},   {"store", store},
           {"program", program}, {"scenario", scenario}, {"started", started}};
    if (ended) j["ended"] = *ended;
    if (reference)
      j["reference"] = {{"chair_time", reference->chair_time.count()},
                        {"proven", reference->proven}};
    if (!around.empty()) j["around"] = around;
    return j.dump() + "\n";
  }

  static Slip from(const std::string& text) {
    const auto j = json::parse(text);
    Slip s;
    s.id = j.at("id");
    s.trainee = j.at("trainee");
    s.store = j.at("store");
    s.program = j.at("program");
    s.scenario = j.at("scenario");
    s.started = j.at("started");
    if (j.contains("ended")) s.ended = j["ended"].get<long long>();
    if (j.contains("reference"))
      s.reference = scoring::Reference{Ms{j["reference"].at("chair_time").get<std::int64_t>()},
                                       j["reference"].at("proven")};
    s.around = j.value("around", "");
    return s;
  }
};

std::vector<Id> ids_in(const std::string& folder) {
  std::vector<Id> ids;
  std::error_code failed;
  for (const auto& entry : fs::directory_iterator(folder, failed)) {
    const auto name = entry.path().filename().string();
    if (name.ends_with(".json") && is_id(name.substr(0, name.size() - 5)))
      ids.push_back(name.substr(0, name.size() - 5));
  }
  std::sort(ids.begin(), ids.end());
  return ids;
}

// A drill of which not even the header was written: nothing was played.
bool nothing_played(const std::string& recording) {
  return recording.find('\n') == std::string::npos;
}

constexpr std::chrono::seconds longest_search{5};

// What the drill is measured against: the proven plan, as everywhere else.
std::optional<scoring::Reference> reference_of(const Slip& slip, const procedure::Procedure& p,
                                               const drill::Session& session) {
  if (slip.reference) return slip.reference;
  const auto until = std::chrono::steady_clock::now() + longest_search;
  return scoring::planned_reference(p, session,
                                    [until] { return std::chrono::steady_clock::now() > until; });
}

NewSession session_of(const Slip& slip, const std::string& recording, const std::string& text,
                      const std::string& file) {
  const auto reading = procedure::read_bundle(text);
  if (!reading.procedure) throw std::runtime_error("its scenario cannot be read any more");
  const auto& p = *reading.procedure;
  const auto session = drill::from_text(recording, p, file);
  Sitting sitting;
  sitting.id = slip.id;
  sitting.trainee = slip.trainee;
  sitting.program = slip.program;
  sitting.scenario_text = text;
  sitting.around = unpack_around(slip.around);
  sitting.started = Moment{std::chrono::milliseconds{slip.started}};
  const Ms played = session.events.empty() ? Ms{0} : session.events.back().at;
  sitting.ended = slip.ended ? Moment{std::chrono::milliseconds{*slip.ended}}
                             : sitting.started + std::chrono::milliseconds{played.count()};
  return new_session(p, session, sitting, reference_of(slip, p, session));
}

void remove(const std::string& folder, const Id& id) {
  for (const auto* ending : {".json", ".jsonl", ".lock"})
    ::unlink(file_of(folder, id, ending).c_str());
}

void set_aside(const std::string& folder, const Id& id) {
  const auto aside = folder + "/set-aside";
  fs::create_directories(aside);
  for (const auto* ending : {".jsonl", ".json"}) {
    std::error_code failed;
    fs::rename(file_of(folder, id, ending), file_of(aside, id, ending), failed);
  }
  ::unlink(file_of(folder, id, ".lock").c_str());
}

// Scenario texts that no waiting drill needs any more.
void tidy(const std::string& folder) {
  if (!ids_in(folder).empty()) return;
  std::error_code failed;
  for (const auto& entry : fs::directory_iterator(folder, failed)) {
    const auto age = fs::file_time_type::clock::now() - fs::last_write_time(entry, failed);
    if (!failed && entry.path().extension() != "" && age > std::chrono::hours{1})
      fs::remove(entry.path(), failed);
  }
}

}  // namespace

struct Underway::State {
  State(const std::string& in, const Id& id)
      : folder(in), lock(file_of(in, id, ".lock"), true), recording(file_of(in, id, ".jsonl")) {}
  std::string folder;
  FileLock lock;
  std::string recording;
  Slip slip;
};

Underway::Underway(std::unique_ptr<State> state) : state_(std::move(state)) {}
Underway::Underway(Underway&&) noexcept = default;
Underway& Underway::operator=(Underway&&) noexcept = default;
Underway::~Underway() = default;
const Id& Underway::id() const { return state_->slip.id; }
const std::string& Underway::recording() const { return state_->recording; }

void Underway::finish(Moment ended, std::optional<scoring::Reference> reference,
                      const Around& around) {
  state_->slip.ended = ended.time_since_epoch().count();
  state_->slip.reference = reference;
  state_->slip.around = pack(around);
  write_whole(file_of(state_->folder, id(), ".json"), state_->slip.text());
}

Queue::Queue(std::string folder) : folder_(std::move(folder)) {}

Underway Queue::begin(const std::string& store_address, const Id& trainee,
                      const std::string& program, const std::string& scenario_text,
                      Moment started) const {
  static IdMaker ids;
  std::error_code failed;
  fs::create_directories(folder_, failed);
  const auto id = ids.make(started);
  auto state = std::make_unique<Underway::State>(folder_, id);
  if (!state->lock.held()) cannot_write(folder_);
  const auto hash = scenario_hash(scenario_text);
  write_whole(folder_ + "/" + hash + ".yaml", scenario_text);
  state->slip = {id,      trainee, shown(store_address),
                 program, hash,    started.time_since_epoch().count(),
                 {},      {},      {}};
  write_whole(file_of(folder_, id, ".json"), state->slip.text());
  return Underway(std::move(state));
}

namespace {

// Delivers one drill; false when it is still being played or is for another store.
class Deliverer {
 public:
  Deliverer(const std::string& folder, Store& store, Delivery& delivery)
      : folder_(folder), store_(store), delivery_(delivery) {}

  void take(const Id& id) {
    FileLock lock(file_of(folder_, id, ".lock"), false);
    const auto slip_text = read_whole(file_of(folder_, id, ".json"));
    if (!lock.held() || slip_text.empty()) return;
    try {
      const auto slip = Slip::from(slip_text);
      if (slip.store == shown(store_.address())) save(slip);
    } catch (const StoreError& e) {
      if (e.kind != Kind::refused) throw;
      give_up(id, e.what());
    } catch (const std::exception& e) {
      give_up(id, e.what());
    }
  }

 private:
  void save(const Slip& slip) {
    const auto file = file_of(folder_, slip.id, ".jsonl");
    const auto recording = read_whole(file);
    if (!nothing_played(recording)) {
      const auto text = read_whole(folder_ + "/" + slip.scenario + ".yaml");
      store_.save(session_of(slip, recording, text, file));
      ++delivery_.saved;
      delivery_.interrupted += !slip.ended;
    }
    remove(folder_, slip.id);
  }

  void give_up(const Id& id, const char* why) {
    set_aside(folder_, id);
    delivery_.problems.push_back(fmt::format(
        "a drill could not be saved: {}. Its recording is kept in {}/set-aside", why, folder_));
  }

  const std::string& folder_;
  Store& store_;
  Delivery& delivery_;
};

}  // namespace

Delivery Queue::deliver(Store& store) const {
  Delivery delivery;
  try {
    Deliverer deliverer(folder_, store, delivery);
    for (const auto& id : ids_in(folder_)) deliverer.take(id);
    tidy(folder_);
  } catch (const StoreError& e) {
    delivery.problems.push_back(e.what());
  }
  delivery.waiting = waiting(store.address());
  return delivery;
}

Delivery Queue::deliver(const std::string& store_address, const Clock& now) const {
  try {
    auto store = Store::open(store_address, now);
    return deliver(store);
  } catch (const StoreError& e) {
    return {0, 0, waiting(store_address), {e.what()}};
  }
}

int Queue::waiting(const std::string& store_address) const {
  int n = 0;
  for (const auto& id : ids_in(folder_)) {
    const FileLock lock(file_of(folder_, id, ".lock"), false);
    const auto slip = json::parse(read_whole(file_of(folder_, id, ".json")), nullptr, false);
    n += lock.held() && slip.is_object() && slip.value("store", "") == shown(store_address);
  }
  return n;
}

}  // namespace beforehand::records
