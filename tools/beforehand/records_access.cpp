// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include <fmt/format.h>
#include <termios.h>
#include <unistd.h>

#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <iostream>

#include "records.hpp"
#include "records/queue.hpp"
#include "stage/app.hpp"

// Who asks, and whether they may.

namespace beforehand::command {
namespace {

using records::Person;
using records::Store;
using records::StoreError;
using Part = Person::Part;

// Reads a line from the terminal without showing it.
std::string ask_unseen(const std::string& question) {
  if (isatty(STDIN_FILENO) == 0)
    throw Failure(wrong_usage, question + ": there is no terminal to ask on; see --passcode-file");
  fmt::print(stderr, "{}: ", question);
  termios before{};
  tcgetattr(STDIN_FILENO, &before);
  termios unseen = before;
  unseen.c_lflag &= ~static_cast<tcflag_t>(ECHO);
  tcsetattr(STDIN_FILENO, TCSAFLUSH, &unseen);
  std::string line;
  std::getline(std::cin, line);
  tcsetattr(STDIN_FILENO, TCSAFLUSH, &before);
  fmt::print(stderr, "\n");
  return line;
}

std::string passcode_of(const Person& who, const StoreOptions& o) {
  if (!o.passcode_file.empty()) {
    std::ifstream in(o.passcode_file);
    std::string line;
    if (!std::getline(in, line))
      throw Failure(input_at_fault, o.passcode_file + " holds no passcode");
    return line;
  }
  const char* set = std::getenv("BEFOREHAND_PASSCODE");
  return set != nullptr ? set : ask_unseen("Passcode of " + who.name);
}

int exit_code_of(const StoreError& e) {
  return e.kind == StoreError::Kind::refused ? input_at_fault : environment_at_fault;
}

}  // namespace

records::Moment wall_clock() {
  return std::chrono::floor<std::chrono::milliseconds>(std::chrono::system_clock::now());
}

std::string required_address(const std::string& option) {
  try {
    return records::store_address(option, stage::data_folder());
  } catch (const StoreError& e) {
    throw Failure(wrong_usage, e.what());
  }
}

Store open_store(const StoreOptions& o) {
  auto store = Store::open(required_address(o.store), [] { return wall_clock(); });
  const auto delivery = records::Queue(stage::data_folder() + "/queue").deliver(store);
  for (const auto& problem : delivery.problems) fmt::print(stderr, "beforehand: {}\n", problem);
  if (delivery.saved > 0)
    fmt::print(stderr, "beforehand: {} drill(s) that waited on this machine were saved\n",
               delivery.saved);
  return store;
}

void prove(Store& store, const Person& who, const StoreOptions& o) {
  if (!who.locked)
    throw Failure(input_at_fault,
                  fmt::format("{} has no passcode yet; a trainer who has one sets it with "
                              "records {} passcode",
                              who.name, word(who.part)));
  const auto answer = store.try_passcode(who.id, passcode_of(who, o));
  if (answer.wait.count() > 0)
    throw Failure(input_at_fault,
                  fmt::format("too many wrong passcodes; the next is looked at in {} s",
                              answer.wait.count()));
  if (!answer.right) throw Failure(input_at_fault, "the passcode is wrong");
}

Person required_trainer(Store& store, const StoreOptions& o) {
  if (o.trainer.empty())
    throw Failure(wrong_usage, store.people(Part::trainer).empty()
                                   ? "this is for trainers, and the store has none yet; add one "
                                     "with: records trainer add NAME"
                                   : "this is for trainers; say who you are with --trainer NAME");
  const auto trainer = store.person(Part::trainer, o.trainer);
  prove(store, trainer, o);
  return trainer;
}

Person required_trainee(Store& store, const StoreOptions& o, const std::string& name) {
  // A trainer is proven first: whoever is not one learns nothing about who is in the store.
  if (!o.trainer.empty()) required_trainer(store, o);
  const auto trainee = store.person(Part::trainee, name);
  if (o.trainer.empty() && trainee.locked) prove(store, trainee, o);
  return trainee;
}

std::string new_passcode(const std::string& whose) {
  if (const char* set = std::getenv("BEFOREHAND_NEW_PASSCODE"); set != nullptr) return set;
  const auto first = ask_unseen("New passcode for " + whose);
  if (ask_unseen("The same again") != first)
    throw Failure(input_at_fault, "the two are not the same; nothing was changed");
  return first;
}

int with_store(const StoreOptions& o, const std::function<int(Store&)>& work) {
  try {
    auto store = open_store(o);
    return work(store);
  } catch (const StoreError& e) {
    throw Failure(exit_code_of(e), e.what());
  }
}

}  // namespace beforehand::command
