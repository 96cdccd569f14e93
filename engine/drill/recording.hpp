// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <cstdio>
#include <memory>
#include <stdexcept>
#include <string>
#include <string_view>

#include "drill/session.hpp"

// The recording: JSON Lines, appended and flushed as the drill happens. First line the header, then
// one line a command or event in the order in which they took effect, a checksum now and then, and
// the end.

namespace beforehand::drill {

inline constexpr int recording_format = 1;
inline constexpr const char* program_version = BEFOREHAND_VERSION;

/// A recording that cannot be used; what() names the file, the line, what is wrong and the remedy.
struct RecordingError : std::runtime_error {
  using std::runtime_error::runtime_error;
};

/// Appends a session to a file while it grows.
class RecordingWriter {
 public:
  /// Creates the file; throws RecordingError when it cannot, or when it exists already.
  RecordingWriter(const std::string& path, const procedure::Procedure&, const Session&);
  ~RecordingWriter();
  RecordingWriter(const RecordingWriter&) = delete;
  RecordingWriter& operator=(const RecordingWriter&) = delete;

  /// Writes what the session has gained since the last call, and flushes; throws RecordingError on
  /// a full disk.
  void append(const Session&);

 private:
  struct State;
  std::unique_ptr<State> state_;
};

/// The whole session as one recording text.
std::string to_text(const procedure::Procedure&, const Session&);

/// Reads a recording's text. Cut off anywhere, it is read up to there (Session::complete() is then
/// false). Throws RecordingError when it is of another format, of another scenario or version of
/// it, or a line is not what was written.
Session from_text(std::string_view text, const procedure::Procedure&, const std::string& path);

/// What a recording's header says of the procedure it belongs to, to find it.
struct RecordingHeader {
  int format = 0;
  std::string scenario;
  std::string card, materials;  ///< ids of what was laid over it, empty without
  std::uint64_t fingerprint = 0;
};
RecordingHeader header_of(std::string_view text, const std::string& path);

/// Plays the session's commands again and compares every event; throws RecordingError naming the
/// first false moment.
void verify(const procedure::Procedure&, const Session&, const std::string& path);

}  // namespace beforehand::drill
