// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "records/store.hpp"

// Drills on their way into the store. Each is a few files in a folder of this machine from its
// first moment on, and leaves the folder when the store has it: a program killed in mid-drill or a
// network that is gone loses nothing, and delivering twice saves once.

namespace beforehand::records {

/// A drill being played. While the object lives, nobody else takes the drill for an interrupted
/// one; after that, finished or not, it waits to be delivered.
class Underway {
 public:
  Underway(Underway&&) noexcept;
  Underway& operator=(Underway&&) noexcept;
  ~Underway();

  const Id& id() const;
  /// Where to write the recording (drill::RecordingWriter); the file does not exist yet.
  const std::string& recording() const;
  /// The drill has ended, and what was done around it. `reference`: what its chair time is measured
  /// against; without one the proven plan is found when the drill is delivered.
  void finish(Moment ended, std::optional<scoring::Reference> reference = {},
              const Around& around = {});

 private:
  friend class Queue;
  struct State;
  explicit Underway(std::unique_ptr<State>);
  std::unique_ptr<State> state_;
};

/// What became of the drills that waited.
struct Delivery {
  int saved = 0;                      ///< complete or broken off, interrupted ones included
  int interrupted = 0;                ///< of those, cut off by a kill or a crash
  int waiting = 0;                    ///< still in the queue for this store
  std::vector<std::string> problems;  ///< why they wait, or were set aside: what to do
};

class Queue {
 public:
  /// `folder` is made when it is needed.
  explicit Queue(std::string folder);

  /// Throws StoreError when the folder cannot be written.
  Underway begin(const std::string& store_address, const Id& trainee, const std::string& program,
                 const std::string& scenario_text, Moment started) const;

  /// Saves everything that waits for this store and that nobody is playing any more. What can never
  /// be saved (its trainee was erased, its recording damaged) goes to the folder `set-aside`.
  Delivery deliver(Store&) const;

  /// Opens the store and delivers; when it cannot be opened, says why and how many wait.
  Delivery deliver(const std::string& store_address, const Clock&) const;

  int waiting(const std::string& store_address) const;

 private:
  std::string folder_;
};

}  // namespace beforehand::records
