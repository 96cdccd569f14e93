// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <functional>
#include <string>

#include "commands.hpp"
#include "records/store.hpp"

// The commands of the store: `beforehand records ...`, one function each.

namespace beforehand::command {

/// What every command of the store takes.
struct StoreOptions {
  std::string store;          ///< empty: store_address() decides
  std::string trainer;        ///< who asks, when it is not the trainee
  std::string passcode_file;  ///< else BEFOREHAND_PASSCODE, else asked on the terminal
  std::string format = "text";
};

struct RecordsOptions : StoreOptions {
  std::string trainee, scenario, session, other, name, file, note, sign_off, expect;
  std::string only = "everybody", sort = "trainee";
  int limit = 50, trainees = 12, sessions = 8;
  std::uint64_t seed = 1;
  bool locked = false, hashes_only = false, mend = false, although_unmet = false, sure = false,
       reverse = false;
};

int records_list(const RecordsOptions&);
int records_show(const RecordsOptions&);
int records_steps(const RecordsOptions&);
int records_replay(const RecordsOptions&);
int records_person(const RecordsOptions&);
int records_verify(const RecordsOptions&);
int records_backup(const RecordsOptions&);
int records_merge(const RecordsOptions&);
int records_erase(const RecordsOptions&);
int records_add(const RecordsOptions&, records::Person::Part);
int records_passcode(const RecordsOptions&, records::Person::Part);
int records_people(const RecordsOptions&, records::Person::Part);
int records_sign(const RecordsOptions&);
int records_revoke(const RecordsOptions&);
int records_note(const RecordsOptions&);
int records_deliver(const RecordsOptions&);
int records_demo(const RecordsOptions&);

/// The store's address by the option or the environment; ends the command when it is none.
std::string required_address(const std::string& option);

/// Opens the store, after what waits for it on this machine was delivered; what could not be is
/// said on the standard error.
records::Store open_store(const StoreOptions&);

/// The moment now; the only clock of the commands of the store.
records::Moment wall_clock();

/// Proves who asks by a passcode; ends the command when it is wrong, or comes too soon after a
/// wrong one.
void prove(records::Store&, const records::Person&, const StoreOptions&);

/// The trainer of --trainer, proven. Ends the command when none was named.
records::Person required_trainer(records::Store&, const StoreOptions&);

/// Who may see a trainee's records: the trainee (with the passcode, when there is one) and any
/// trainer.
records::Person required_trainee(records::Store&, const StoreOptions&, const std::string& name);

/// A passcode for somebody who gets one: BEFOREHAND_NEW_PASSCODE, else asked twice on the terminal.
std::string new_passcode(const std::string& whose);

/// Runs a command on a store and turns its errors into the command's.
int with_store(const StoreOptions&, const std::function<int(records::Store&)>& work);

}  // namespace beforehand::command
