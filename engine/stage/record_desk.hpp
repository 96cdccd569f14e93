// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <future>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "records/queue.hpp"
#include "records/store.hpp"
#include "stage/review_desk.hpp"

namespace beforehand::stage {

/// The window's way to the records: who practises, how they stood, and each drill on its way into
/// the store. Saving happens beside the frames. A store that cannot be reached stops nobody from
/// practising: problem() says what is wrong, and drills wait on this machine.
class RecordDesk {
 public:
  /// `data` is the user's data folder.
  RecordDesk(std::string store_address, const std::string& data, records::Clock);
  ~RecordDesk();
  RecordDesk(const RecordDesk&) = delete;
  RecordDesk& operator=(const RecordDesk&) = delete;

  /// Opens the store if it is not open, delivers what waits, and reads who is there.
  void refresh();
  /// Why the store cannot be used, or empty.
  const std::string& problem() const { return problem_; }
  const std::vector<records::Person>& people() const { return people_; }

  /// Who practises from now on. Adding says why not in the text it gives, else it is empty.
  std::string add(const std::string& name);
  void choose(const records::Person&);
  /// For somebody with a passcode: empty when it is right, else what to say.
  enum class Passcode { right, wrong, too_soon };
  Passcode try_passcode(const records::Person&, const std::string& passcode);
  /// Nobody: drills are not saved.
  void choose_nobody();
  const std::optional<records::Person>& chosen() const { return chosen_; }
  /// Of whoever practises, by scenario.
  const std::map<std::string, records::Summary>& standing() const { return standing_; }

  /// The attempts before at the same, played to the end by whoever practises: the newest, and the
  /// one with the most points. `phase`: the id of a phase, or empty for whole procedures.
  struct Earlier {
    std::optional<records::SessionRecord> last, best;
  };
  Earlier earlier(const std::string& scenario, const std::string& phase);

  /// Begins a drill of the scenario with this text (procedure::bundle); gives where to record it,
  /// or nothing when nobody is chosen.
  std::string begin(const std::string& scenario_text);
  /// The drill under way has ended, or was left: it is saved beside the frames, with what was done
  /// around it.
  void finish(const records::Around& = {});
  bool saving() const { return saving_.valid(); }
  /// What came of saving, once it is known; at most once each time.
  std::optional<records::Delivery> take();
  /// A way to look through the same records, with a connection of its own.
  ReviewDesk review(records::Library::Spoken spoken = {}) const {
    return {address_, reports_, now_, std::move(spoken)};
  }
  /// Waits until saving is done.
  void wait();

 private:
  void deliver();
  void read_standing();

  std::string address_, reports_;
  records::Clock now_;
  records::Queue queue_;
  std::unique_ptr<records::Store> store_;
  std::string problem_;
  std::vector<records::Person> people_;
  std::optional<records::Person> chosen_;
  std::map<std::string, records::Summary> standing_;
  std::optional<records::Underway> underway_;
  std::future<records::Delivery> saving_;
  std::optional<records::Delivery> saved_;
};

}  // namespace beforehand::stage
