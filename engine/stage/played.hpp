// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <memory>
#include <string>

#include "drill/session.hpp"
#include "procedure/procedure.hpp"
#include "records/gather.hpp"

namespace beforehand::stage {

/// A session that was played, with the procedure it was played on.
struct Played {
  std::shared_ptr<const procedure::Procedure> procedure;
  drill::Session session;
  std::string who;   ///< may be empty
  std::string when;  ///< date and time, or the file's name; may be empty

  records::Around around{};     ///< what was done before and after it, where that was kept
  std::string scenario_text{};  ///< what it was played on, where it comes from a store

  PersonIx trainee() const { return procedure->who(procedure::Role::assistant); }
};

/// A session of a store. Throws StoreError for an unknown id, and drill::RecordingError when its
/// recording cannot be used or its events do not follow from its commands, naming the first false
/// moment.
Played stored_session(const records::Store&, records::Library&, const records::Id& session);

/// A session of a procedure that lives longer.
Played just_played(const procedure::Procedure&, const drill::Session&);

}  // namespace beforehand::stage
