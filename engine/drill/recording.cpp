// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "drill/recording.hpp"

#include <fmt/format.h>

#include <array>
#include <cerrno>
#include <cstring>
#include <nlohmann/json.hpp>
#include <optional>

#include "base/random.hpp"
#include "drill/replay.hpp"

namespace beforehand::drill {
namespace {

using nlohmann::json;
using nlohmann::ordered_json;
using procedure::Procedure;

constexpr const char* format_name = "beforehand-recording";
constexpr std::size_t lines_per_check = 16;
constexpr std::size_t longest_line = 4096;

// Ids, not positions, stand in the file: a recording can be read by eye.
template <class List, class Ix>
void put(ordered_json& j, const char* key, const List& list, Ix ix) {
  if (ix) j[key] = list[ix.at()].id;
}

std::string action_id(const Procedure& p, ActionIx a) {
  const auto& kind = p.action(a);
  return std::string(procedure::word(kind.verb)) + ":" +
         (kind.supply ? p.supply(kind.supply).id : "");
}

ordered_json to_json(const Procedure& p, const Command& c) {
  ordered_json j{{"t", c.at.count()}, {"do", word(c.op)}};
  put(j, "who", p.people, c.person);
  if (c.action) j["action"] = action_id(p, c.action);
  put(j, "step", p.steps, c.step);
  if (c.op == Op::ask || c.op == Op::help) j["need"] = c.need;
  put(j, "signal", p.signals, c.signal);
  return j;
}

ordered_json to_json(const Procedure& p, const Event& e) {
  ordered_json j{{"t", e.at.count()}, {"is", word(e.what)}};
  put(j, "who", p.people, e.person);
  if (e.action) j["action"] = action_id(p, e.action);
  put(j, "step", p.steps, e.step);
  put(j, "cause", p.steps, e.cause);
  put(j, "supply", p.supplies, e.supply);
  put(j, "signal", p.signals, e.signal);
  if (e.value != 0) j["value"] = e.value;
  if (e.since != Ms{0}) j["since"] = e.since.count();
  return j;
}

ordered_json header(const Procedure& p, const Session& s) {
  ordered_json j{{"format", format_name},
                 {"version", recording_format},
                 {"program", program_version},
                 {"scenario", s.scenario},
                 {"fingerprint", fmt::format("{:016x}", s.fingerprint)},
                 {"seed", s.setup.seed},
                 {"level", word(s.setup.level)},
                 {"assistant", s.setup.assistant},
                 {"trainee", s.setup.trainee}};
  put(j, "phase", p.phases, s.setup.phase);
  if (!p.card.empty()) j["card"] = p.card;
  if (!p.materials.empty()) j["materials"] = p.materials;
  return j;
}

// "with the card 'x'", "without a card".
std::string with_card(const std::string& card) {
  return card.empty() ? "without a card" : fmt::format("with the card '{}'", card);
}

std::string line_of(const ordered_json& j) {
  return j.dump(-1, ' ', false, json::error_handler_t::replace) + "\n";
}

// Turns what a session has gained into lines, checks in between.
struct Lines {
  std::size_t commands = 0, events = 0, lines = 0;
  std::uint64_t check = fnv1a("");

  void add(std::string& out, const std::string& line) {
    out += line;
    check = fnv1a(line, check);
    if (++lines % lines_per_check == 0) out += fmt::format("{{\"check\":\"{:016x}\"}}\n", check);
  }

  std::string gained(const Procedure& p, const Session& s) {
    std::string out;
    if (lines == 0) add(out, line_of(header(p, s)));
    while (commands < s.commands.size() || events < s.events.size()) {
      const bool command = commands < s.commands.size() && s.events_before[commands] <= events;
      if (command) {
        add(out, line_of(to_json(p, s.commands[commands++])));
      } else {
        add(out, line_of(to_json(p, s.events[events++])));
      }
    }
    return out;
  }
};

// ---- reading -----------------------------------------------------------------------------------

class Reader {
 public:
  Reader(const Procedure& p, const std::string& path) : p_(p), path_(path) {}

  Session read(std::string_view text) {
    while (!text.empty()) {
      const auto end = text.find('\n');
      if (end == std::string_view::npos) break;  // cut off in mid-line
      ++line_;
      take(text.substr(0, end + 1));
      text.remove_prefix(end + 1);
    }
    if (line_ == 0) fail("is empty, or no recording");
    return std::move(session_);
  }

  [[noreturn]] void fail(const std::string& what) const {
    throw RecordingError(
        fmt::format("{}:{}: error: the recording {}", path_, std::max(1, line_), what));
  }

 private:
  void take(std::string_view line) {
    if (line.size() > longest_line) fail("has a line longer than any it could hold");
    const auto j = json::parse(line, nullptr, false);
    if (!j.is_object()) fail("has a line that is no record; it was damaged or edited");
    if (line_ == 1) {
      take_header(j);
    } else if (j.contains("check")) {
      const bool holds = j["check"].is_string() && j["check"] == fmt::format("{:016x}", check_);
      if (!holds) fail("was edited: a line before this one is not what was written");
      return;
    } else if (done_) {
      fail("goes on after its end: lines were added");
    } else if (j.contains("do")) {
      take_command(j);
    } else if (j.contains("is")) {
      take_event(j);
    } else {
      fail("has a line that is neither command nor event; it was damaged or edited");
    }
    check_ = fnv1a(line, check_);
  }

  void take_header(const json& j) {
    const auto h = parse_header(j);
    if (h.scenario != p_.id) {
      fail(fmt::format("is of the scenario '{}', not of '{}'", h.scenario, p_.id));
    }
    if (h.card != p_.card)
      fail(fmt::format("was played {}, not {}", with_card(h.card), with_card(p_.card)));
    if (h.fingerprint != p_.fingerprint) {
      fail(
          fmt::format("was played with another version of the scenario '{}'{}; give the version it "
                      "was played with",
                      h.scenario, other_layers(h)));
    }
    session_.scenario = h.scenario;
    session_.fingerprint = h.fingerprint;
    session_.setup.seed = number<std::uint64_t>(j, "seed");
    const auto level = text(j, "level");
    for (const auto l : {Level::guided, Level::unaided, Level::assessed}) {
      if (word(l) == level) session_.setup.level = l;
    }
    session_.setup.assistant = text(j, "assistant");
    session_.setup.trainee = text(j, "trainee");
    session_.setup.phase = find<PhaseIx>(j, "phase", p_.phases);
  }

 public:
  RecordingHeader parse_header(const json& j) const {
    if (!j.is_object() || !j.contains("format") || j["format"] != format_name) {
      fail("does not begin with the header of a Beforehand recording");
    }
    RecordingHeader h;
    h.format = number<int>(j, "version");
    if (h.format != recording_format) {
      fail(fmt::format("has format version {}; this program reads version {}", h.format,
                       recording_format));
    }
    h.scenario = text(j, "scenario");
    if (j.contains("card")) h.card = text(j, "card");
    if (j.contains("materials")) h.materials = text(j, "materials");
    const auto hex = text(j, "fingerprint");
    char* end = nullptr;
    h.fingerprint = std::strtoull(hex.c_str(), &end, 16);
    if (hex.empty() || *end != 0) fail("has no fingerprint of its scenario");
    return h;
  }

 private:
  std::string other_layers(const RecordingHeader& h) const {
    if (h.card.empty() && h.materials == p_.materials) return "";
    if (h.materials == p_.materials) return fmt::format(" or of the card '{}'", h.card);
    return h.materials.empty()
               ? " or without a materials file"
               : fmt::format(" or with other times than of the materials '{}'", h.materials);
  }

  void take_command(const json& j) {
    Command c;
    c.at = time(j);
    c.op = one_of<Op>(j, "do", 7);
    c.person = find<PersonIx>(j, "who", p_.people);
    c.action = action(j);
    c.step = find<StepIx>(j, "step", p_.steps);
    if (j.contains("need")) c.need = static_cast<std::uint8_t>(number<int>(j, "need"));
    c.signal = find<SignalIx>(j, "signal", p_.signals);
    check_command(c);
    session_.commands.push_back(c);
    session_.events_before.push_back(static_cast<std::uint32_t>(session_.events.size()));
  }

  // Nothing that the run loop would trust may be missing.
  void check_command(const Command& c) const {
    const bool whole = c.op == Op::raise                     ? bool(c.signal)
                       : c.op == Op::act || c.op == Op::stop ? c.person && c.action
                       : c.op == Op::break_off               ? bool(c.person)
                       : c.op == Op::begin
                           ? c.person && c.step
                           : c.person && c.step && c.need <= p_.step(c.step).needs.size();
    if (!whole) fail("has an incomplete command; it was damaged or edited");
  }

  void take_event(const json& j) {
    Event e;
    e.at = time(j);
    e.what = one_of<What>(j, "is", 26);
    e.person = find<PersonIx>(j, "who", p_.people);
    e.action = action(j);
    e.step = find<StepIx>(j, "step", p_.steps);
    e.cause = find<StepIx>(j, "cause", p_.steps);
    e.supply = find<SupplyIx>(j, "supply", p_.supplies);
    e.signal = find<SignalIx>(j, "signal", p_.signals);
    if (j.contains("value")) e.value = number<std::int64_t>(j, "value");
    if (j.contains("since")) e.since = Ms{number<std::int64_t>(j, "since")};
    session_.events.push_back(e);
    done_ = e.what == What::ended;
  }

  Ms time(const json& j) {
    const Ms t{number<std::int64_t>(j, "t")};
    if (t < last_) fail("runs backwards in time; lines were moved or edited");
    return last_ = t;
  }

  template <class N>
  N number(const json& j, const char* key) const {
    if (!j.contains(key) || !j[key].is_number_integer()) {
      fail(fmt::format("lacks a whole number '{}'; it was damaged or edited", key));
    }
    return j[key].template get<N>();
  }

  std::string text(const json& j, const char* key) const {
    if (!j.contains(key) || !j[key].is_string()) {
      fail(fmt::format("lacks the text '{}'; it was damaged or edited", key));
    }
    return j[key].get<std::string>();
  }

  template <class E>
  E one_of(const json& j, const char* key, int count) const {
    const auto value = text(j, key);
    for (int i = 0; i < count; ++i) {
      if (word(static_cast<E>(i)) == value) return static_cast<E>(i);
    }
    fail(fmt::format("names '{}', which this program does not know", value));
  }

  template <class Ix, class List>
  Ix find(const json& j, const char* key, const List& list) const {
    if (!j.contains(key)) return {};
    const auto id = text(j, key);
    for (std::size_t i = 0; i < list.size(); ++i) {
      if (list[i].id == id) return Ix{i};
    }
    fail(fmt::format("names '{}', which its scenario does not have", id));
  }

  ActionIx action(const json& j) const {
    if (!j.contains("action")) return {};
    const auto id = text(j, "action");
    for (std::size_t i = 0; i < p_.actions.size(); ++i) {
      if (action_id(p_, ActionIx{i}) == id) return ActionIx{i};
    }
    fail(fmt::format("names the action '{}', which its scenario does not have", id));
  }

  const Procedure& p_;
  const std::string& path_;
  Session session_;
  std::uint64_t check_ = fnv1a("");
  Ms last_{0};
  int line_ = 0;
  bool done_ = false;
};

}  // namespace

struct RecordingWriter::State {
  const Procedure& procedure;
  std::string path;
  std::FILE* file = nullptr;
  Lines lines;
};

RecordingWriter::RecordingWriter(const std::string& path, const Procedure& p, const Session& s)
    : state_(new State{p, path, std::fopen(path.c_str(), "wbx"), {}}) {
  if (!state_->file) {
    throw RecordingError(
        errno == EEXIST
            ? fmt::format("{}: error: exists already; choose another name", path)
            : fmt::format("{}: error: cannot be written: {}", path, std::strerror(errno)));
  }
  append(s);
}

RecordingWriter::~RecordingWriter() {
  if (state_->file) std::fclose(state_->file);
}

void RecordingWriter::append(const Session& s) {
  const auto text = state_->lines.gained(state_->procedure, s);
  if (text.empty()) return;
  const bool written = std::fwrite(text.data(), 1, text.size(), state_->file) == text.size() &&
                       std::fflush(state_->file) == 0;
  if (!written) {
    throw RecordingError(
        fmt::format("{}: error: the recording could not be continued: {}; what "
                    "was written so far is kept",
                    state_->path, std::strerror(errno)));
  }
}

std::string to_text(const Procedure& p, const Session& s) { return Lines{}.gained(p, s); }

Session from_text(std::string_view text, const Procedure& p, const std::string& path) {
  return Reader(p, path).read(text);
}

RecordingHeader header_of(std::string_view text, const std::string& path) {
  const Procedure none;
  const Reader reader(none, path);
  const auto first = text.substr(0, std::min(text.find('\n'), longest_line));
  return reader.parse_header(json::parse(first, nullptr, false));
}

namespace {

std::string moment(const Procedure& p, const Event& e) {
  auto j = to_json(p, e);
  j.erase("t");
  return fmt::format("{} {}", clock_text(e.at),
                     j.dump(-1, ' ', false, json::error_handler_t::replace));
}

// The events are compared as they come, so that the first false one is named.
void compare(const Procedure& p, const Session& told, const Session& played, std::size_t& checked,
             const std::string& path) {
  for (; checked < played.events.size() && checked < told.events.size(); ++checked) {
    if (played.events[checked] == told.events[checked]) continue;
    throw RecordingError(fmt::format(
        "{}: error: the recording's events do not follow from its commands; first at event {}: it "
        "says {}, but played again it is {}",
        path, checked + 1, moment(p, told.events[checked]), moment(p, played.events[checked])));
  }
}

}  // namespace

void verify(const Procedure& p, const Session& told, const std::string& path) {
  Replay replay(p, told);
  std::size_t checked = 0;
  while (replay.reach_command()) {
    compare(p, told, replay.played(), checked, path);
    replay.apply_command();
  }
  replay.finish();
  compare(p, told, replay.played(), checked, path);
  if (told.events.size() > checked) {
    throw RecordingError(fmt::format(
        "{}: error: the recording's events do not follow from its commands; first at event {}: it "
        "says {}, but played again nothing follows",
        path, checked + 1, moment(p, told.events[checked])));
  }
  const auto& played = replay.played();
  if (played.commands.size() < told.commands.size()) {
    throw RecordingError(fmt::format("{}: error: the recording has commands after its end", path));
  }
}

}  // namespace beforehand::drill
