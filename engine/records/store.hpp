// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <memory>
#include <optional>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

#include "records/record.hpp"

// The store of a practice or a school, behind one class. What is where:
//   record.hpp    the values that go in and out
//   ids.hpp       ids made on this machine
//   save.hpp      a drill::Session turned into a NewSession: figures, needs, outcomes
//   queue.hpp     drills on their way into the store: what survives a kill and a lost network
//   sign_off.hpp  a scenario's criteria, met or not
//   verify.hpp    every record checked against its recording and its chain
//   passcode.hpp  trainers' (and, if they like, trainees') passcodes
//   schema.cpp    the tables, in versions; database.hpp the one place that knows SOCI

namespace beforehand::records {

/// The store cannot do what was asked. what() says what happened, what is safe, what to do.
struct StoreError : std::runtime_error {
  enum class Kind : std::uint8_t {
    unreachable,  ///< no server, no such folder, the network gone: what waits in the queue is safe
    busy,         ///< locked by another for too long
    full,         ///< no room on the disk
    read_only,
    newer,    ///< made by a later version of this program
    damaged,  ///< the integrity check failed, or it is no store at all
    refused,  ///< the request contradicts what is stored: unknown id, name taken
  };
  StoreError(Kind k, const std::string& message) : std::runtime_error(message), kind(k) {}
  Kind kind;
};

/// One link of the chain that holds the store together: each hash covers the one before it, so an
/// edited or missing record breaks it (BLAKE2b, RFC 7693).
struct Link {
  std::int64_t position = 0;  ///< counts from 1 without a gap
  std::string kind;           ///< "session", "sign-off", "revocation", "erasure"
  Id record;
  std::string content;  ///< hash of the record
  std::string hash;     ///< of the previous link's hash, this position, kind, record and content
  bool erased = false;  ///< the record was removed with its person; the link stays
};

/// What came of putting another store's records into this one.
struct MergeResult {
  int people = 0, sessions = 0, sign_offs = 0, notes = 0;
  std::vector<Id> damaged;    ///< sessions that do not fit their hash there: not taken
  std::vector<Id> differing;  ///< sessions here and there, with different contents: ours stay
  std::vector<Person> erased_there;  ///< erased in the other store, and still here
};

/// Somebody erased: the positions of the links that were emptied.
struct Erasure {
  Id person;
  Moment at{};
  std::string positions;  ///< "3 4 9"
};

/// Every method reads or writes in one transaction and throws StoreError. One object serves one
/// thread; any number of processes may have the same store open.
class Store {
 public:
  /// Opens, and makes it when it is new. `address`: a file, or postgresql://...; brings an older
  /// schema up to date after a backup beside it. `now` stamps records and makes ids.
  /// Another writer is waited for at most `patience`.
  static Store open(const std::string& address, Clock now,
                    std::chrono::milliseconds patience = std::chrono::seconds{10});
  Store(Store&&) noexcept;
  Store& operator=(Store&&) noexcept;
  ~Store();

  const std::string& address() const;
  Moment now() const;

  // People. Names are trimmed, 1 to 200 bytes, no control characters.
  Person add_person(Person::Part, const std::string& name, const std::string& passcode = {});
  std::vector<Person> people(Person::Part) const;  ///< by name
  /// By id, or by name in any case. Throws `refused` when there is none, or more than one of them.
  Person person(Person::Part, const std::string& id_or_name) const;
  void set_passcode(const Id&, const std::string& passcode);
  /// The right code resets the count of wrong ones; each wrong one doubles the time that must pass
  /// before the next is looked at (passcode.hpp).
  struct PasscodeAnswer {
    bool right = false;
    std::chrono::seconds wait{0};  ///< too soon: not looked at; try again after this
  };
  PasscodeAnswer try_passcode(const Id&, const std::string& passcode);

  // Sessions.
  /// False when the session is there already: saving twice is saving once.
  bool save(const NewSession&);
  std::vector<SessionRecord> sessions(const SessionQuery&) const;
  std::optional<SessionRecord> session(const Id&) const;
  Evidence evidence(const Id& session) const;
  ScenarioVersion scenario(const std::string& hash) const;
  std::vector<ScenarioVersion> scenarios() const;  ///< without their texts
  std::vector<Summary> summaries(const SummaryQuery&) const;
  /// Those that are not what the sessions give, or are missing: somebody edited them. Made right
  /// by the next save, or by mend_summaries().
  std::vector<Summary> wrong_summaries() const;
  void mend_summaries();

  // Sign-offs and notes: added and revoked, never changed.
  SignOff sign(SignOff);  ///< id and moment are filled in
  void revoke(const Id& sign_off, const Id& trainer, const std::string& why);
  std::vector<SignOff> sign_offs(const Id& trainee) const;  ///< empty: everybody's
  Note add_note(Note);
  std::vector<Note> notes(const Id& trainee) const;  ///< empty: everybody's

  // The whole.
  /// Removes a trainee and all that is theirs; the chain keeps its links, emptied.
  void erase(const Id& trainee);
  std::vector<Erasure> erasures() const;
  std::vector<Link> chain(std::int64_t after, int limit) const;
  /// The newest link's position and hash, as the store last wrote them.
  Link head() const;
  /// Copies every record of `other` that is not here. Nobody erased here comes back; a trainer
  /// comes without the passcode, which has to be set here. Can be done again and broken off.
  MergeResult merge(const Store& other);
  /// A whole copy in a new file. SQLite only; a server has its own tools.
  void backup(const std::string& file) const;

 private:
  struct State;
  class Merge;
  /// Everybody, with the hash of the passcode.
  std::vector<std::pair<Person, std::string>> passcodes() const;
  explicit Store(std::unique_ptr<State>);
  std::unique_ptr<State> state_;
};

/// `--store`, else BEFOREHAND_STORE, else records.db in the user's data folder; "sqlite://FILE" as
/// FILE. Throws `refused` for the address of a kind of store that there is not.
std::string store_address(const std::string& option, const std::string& data_folder);

}  // namespace beforehand::records
