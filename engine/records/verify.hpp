// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "records/store.hpp"

namespace beforehand::records {

/// Something in the store that is not as it was written.
struct Finding {
  enum class Kind : std::uint8_t {
    broken_chain,      ///< a link's hash does not follow from the one before, or links are missing
    missing_record,    ///< a link's session or sign-off is gone, and nobody was erased for it
    edited_record,     ///< it is not what its link was made of
    edited_recording,  ///< its events do not follow from its commands, or it cannot be read
    edited_score,      ///< the figures are not what the recording gives
    edited_scenario,   ///< the scenario's text is not what its hash says
    edited_summary,    ///< the table of a trainee's standing is not what the sessions give
    unlinked,          ///< a session or sign-off that no link holds
    not_checked,       ///< its score cannot be recomputed here, and why; its chain was checked
  };
  Kind kind = Kind::broken_chain;
  std::int64_t position = 0;  ///< of the link; 0: none
  Id record;
  std::string what;  ///< one sentence
};
std::string_view word(Finding::Kind);

struct Verification {
  std::int64_t links = 0, sessions = 0, sign_offs = 0, erased = 0;
  Link head;  ///< noted elsewhere, its hash shows later that nothing before it was changed
  std::vector<Finding> findings;
  bool sound() const;  ///< no finding but `not_checked`
};

struct VerifyOptions {
  bool recompute = true;  ///< play every recording again and score it; else the hashes alone
  /// The head's hash as it was noted before: it must still be in the chain. Empty: none.
  std::string expect;
  std::function<void(std::int64_t done, std::int64_t all)> progress;
};

/// Checks every link, record, recording and score of a store. Reads only.
Verification verify(const Store&, const VerifyOptions&);

}  // namespace beforehand::records
