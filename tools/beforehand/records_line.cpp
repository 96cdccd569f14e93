// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "records_line.hpp"

#include <CLI/CLI.hpp>
#include <memory>

#include "records.hpp"

namespace beforehand::command {
namespace {

using Options = std::shared_ptr<RecordsOptions>;
using Part = records::Person::Part;

// One subcommand after another, all with the same options for the store.
class Line {
 public:
  Line(CLI::App& records, std::function<int()>& action) : records_(records), action_(action) {}

  CLI::App* add(CLI::App& to, const std::string& name, const std::string& about,
                const std::function<int(const RecordsOptions&)>& run,
                const std::function<void(CLI::App&, RecordsOptions&)>& more) {
    const auto o = std::make_shared<RecordsOptions>();
    auto* sub = to.add_subcommand(name, about);
    sub->add_option("--store", o->store, "File or postgresql://...; else BEFOREHAND_STORE");
    sub->add_option("--trainer", o->trainer, "The trainer who asks; needs the passcode");
    sub->add_option("--passcode-file", o->passcode_file,
                    "First line: the passcode; else BEFOREHAND_PASSCODE, else asked");
    sub->add_option("--format", o->format, "text for people, json for programs")
        ->check(CLI::IsMember({"text", "json"}))
        ->capture_default_str();
    more(*sub, *o);
    sub->callback(
        [this_action = &action_, o, run] { *this_action = [o, run] { return run(*o); }; });
    return sub;
  }
  CLI::App* add(const std::string& name, const std::string& about,
                const std::function<int(const RecordsOptions&)>& run,
                const std::function<void(CLI::App&, RecordsOptions&)>& more) {
    return add(records_, name, about, run, more);
  }

 private:
  CLI::App& records_;
  std::function<int()>& action_;
};

void add_reading(Line& line) {
  line.add(
      "list", "One trainee's sessions, or (trainers) how everybody stands", records_list,
      [](CLI::App& s, RecordsOptions& o) {
        s.add_option("--trainee", o.trainee, "Whose; nobody: the table of everybody");
        s.add_option("--scenario", o.scenario, "One scenario only");
        s.add_option("--search", o.name, "Part of a name or a title");
        s.add_option("--only", o.only, "Whom the table of everybody shows")
            ->check(CLI::IsMember({"everybody", "to-sign-off", "practising", "due", "signed-off"}))
            ->capture_default_str();
        s.add_option("--sort", o.sort, "The column the table is sorted by")
            ->check(CLI::IsMember({"trainee", "scenario", "standing", "verdict", "last", "best",
                                   "trend", "due", "drills"}))
            ->capture_default_str();
        s.add_flag("--reverse", o.reverse, "The other way round");
        s.add_option("--limit", o.limit, "How many sessions")->capture_default_str();
      });
  line.add("show", "One session: its score and every need; or two side by side", records_show,
           [](CLI::App& s, RecordsOptions& o) {
             s.add_option("SESSION", o.session, "Id, from records list")->required();
             s.add_option("OTHER", o.other, "Another session, to lie beside it");
           });
  line.add("steps", "Step by step, right of everybody's last attempts", records_steps,
           [](CLI::App& s, RecordsOptions& o) {
             s.add_option("--scenario", o.scenario, "Its id")->required();
             s.add_option("--search", o.name, "Part of a name");
           });
  line.add("replay", "Play a session again in the window, or two side by side", records_replay,
           [](CLI::App& s, RecordsOptions& o) {
             s.add_option("SESSION", o.session, "Id, from records list")->required();
             s.add_option("OTHER", o.other, "Another session, to lie beside it");
           });
  line.add("person", "All the store holds of one trainee; as JSON with the recordings",
           records_person, [](CLI::App& s, RecordsOptions& o) {
             s.add_option("NAME", o.name, "Name or id")->required();
           });
  line.add("verify", "Check every record against its recording and the chain", records_verify,
           [](CLI::App& s, RecordsOptions& o) {
             s.add_flag("--hashes-only", o.hashes_only, "Do not play the recordings again");
             s.add_option("--expect", o.expect, "A head's hash noted before: it must be there");
             s.add_flag("--mend-standing", o.mend,
                        "Work out everybody's standing from the sessions anew");
           });
}

void add_signing(Line& line) {
  line.add("sign", "Sign a trainee off for a scenario", records_sign,
           [](CLI::App& s, RecordsOptions& o) {
             s.add_option("--trainee", o.trainee)->required();
             s.add_option("--scenario", o.scenario, "Its id")->required();
             s.add_option("--note", o.note);
             s.add_flag("--although-unmet", o.although_unmet, "Although criteria are not met");
           });
  line.add("revoke", "Revoke a sign-off; it stays on record", records_revoke,
           [](CLI::App& s, RecordsOptions& o) {
             s.add_option("SIGN-OFF", o.sign_off, "Its id")->required();
             s.add_option("--why", o.note)->required();
           });
  line.add("note", "Write a note about a trainee", records_note,
           [](CLI::App& s, RecordsOptions& o) {
             s.add_option("--trainee", o.trainee)->required();
             s.add_option("--session", o.session);
             s.add_option("TEXT", o.note)->required();
           });
}

void add_keeping(Line& line) {
  line.add("backup", "Copy the whole store to a new file", records_backup,
           [](CLI::App& s, RecordsOptions& o) { s.add_option("FILE", o.file)->required(); });
  line.add("merge", "Copy every record of another store that is not in this one", records_merge,
           [](CLI::App& s, RecordsOptions& o) {
             s.add_option("OTHER", o.file, "File or address")->required();
           });
  line.add("erase", "Remove a trainee and everything of theirs for good", records_erase,
           [](CLI::App& s, RecordsOptions& o) {
             s.add_option("NAME", o.name, "Name or id")->required();
             s.add_flag("--yes", o.sure, "Meant so");
           });
  line.add("deliver", "Save the drills that wait on this machine", records_deliver,
           [](CLI::App&, RecordsOptions&) {});
  line.add(
      "demo", "Fill a new store with an invented class, played by bots", records_demo,
      [](CLI::App& s, RecordsOptions& o) {
        s.add_option("--trainees", o.trainees)->check(CLI::Range(1, 1000))->capture_default_str();
        s.add_option("--sessions", o.sessions,
                     "Drills of most; some have four times, some half as many")
            ->check(CLI::Range(1, 1000))
            ->capture_default_str();
        s.add_option("--seed", o.seed)->capture_default_str();
      });
}

void add_people(CLI::App& records, Line& line, Part part) {
  const std::string word(records::word(part));
  auto* group = records.add_subcommand(word, "Who the store knows as a " + word);
  group->require_subcommand(1);
  line.add(
      *group, "add", "Add a " + word,
      [part](const RecordsOptions& o) { return records_add(o, part); },
      [&](CLI::App& s, RecordsOptions& o) {
        s.add_option("NAME", o.name)->required();
        if (part == Part::trainee)
          s.add_flag("--passcode", o.locked, "Only with a passcode are the records shown");
      });
  line.add(
      *group, "list", "Names and ids",
      [part](const RecordsOptions& o) { return records_people(o, part); },
      [](CLI::App&, RecordsOptions&) {});
  line.add(
      *group, "passcode", "Set a new passcode",
      [part](const RecordsOptions& o) { return records_passcode(o, part); },
      [](CLI::App& s, RecordsOptions& o) { s.add_option("NAME", o.name)->required(); });
}

}  // namespace

void add_records(CLI::App& app, std::function<int()>& action) {
  auto* records = app.add_subcommand("records", "Trainees, sessions and sign-offs in the store");
  records->require_subcommand(1);
  Line line(*records, action);
  add_reading(line);
  add_signing(line);
  add_keeping(line);
  add_people(*records, line, Part::trainee);
  add_people(*records, line, Part::trainer);
}

}  // namespace beforehand::command
