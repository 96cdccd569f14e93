// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "stage/played.hpp"

#include "drill/recording.hpp"

namespace beforehand::stage {

Played stored_session(const records::Store& store, records::Library& library,
                      const records::Id& id) {
  auto file = records::session_file(store, library, id);
  drill::verify(*file.procedure, file.session, "session " + id);
  return {std::make_shared<const procedure::Procedure>(*file.procedure),
          std::move(file.session),
          file.trainee_name,
          records::minute_text(file.record.started),
          std::move(file.around),
          store.scenario(file.record.scenario_hash).text};
}

Played just_played(const procedure::Procedure& procedure, const drill::Session& session) {
  return {{std::shared_ptr<void>(), &procedure}, session, session.setup.trainee, {}, {}, {}};
}

}  // namespace beforehand::stage
