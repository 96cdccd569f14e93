// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "procedure/outline.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <map>
#include <optional>

#include "procedure/characters.hpp"
#include "procedure/edit.hpp"
#include "procedure/forms.hpp"

namespace beforehand::procedure {
namespace {

constexpr std::size_t most_lines = 400;

// How a line of the assistant's begins, and the verb it means.
struct Beginning {
  std::string_view words;
  Verb verb;
};
constexpr std::array<Beginning, 46> beginnings{{
    {"sets out", Verb::set_out},
    {"set out", Verb::set_out},
    {"puts away", Verb::put_away},
    {"put away", Verb::put_away},
    {"takes back", Verb::take_back},
    {"take back", Verb::take_back},
    {"passes", Verb::pass},
    {"pass", Verb::pass},
    {"hands", Verb::pass},
    {"opens", Verb::open},
    {"open", Verb::open},
    {"mixes", Verb::mix},
    {"mix", Verb::mix},
    {"loads", Verb::load},
    {"load", Verb::load},
    {"wipes", Verb::wipe},
    {"wipe", Verb::wipe},
    {"places", Verb::place},
    {"place", Verb::place},
    {"removes", Verb::remove},
    {"remove", Verb::remove},
    {"uses", Verb::use},
    {"use", Verb::use},
    {"holds", Verb::hold},
    {"hold", Verb::hold},
    {"suctions", Verb::suction},
    {"suction", Verb::suction},
    {"dries", Verb::dry},
    {"dry", Verb::dry},
    {"gives", Verb::pass},
    {"hands over", Verb::pass},
    {"fills", Verb::load},
    {"fill", Verb::load},
    {"puts on", Verb::place},
    {"takes off", Verb::remove},
    {"rinses", Verb::use},
    {"checks", Verb::check},
    {"check", Verb::check},
    {"asks", Verb::check},
    {"reads", Verb::check},
    {"counts", Verb::check},
    {"watches", Verb::check},
    {"looks", Verb::check},
    {"lights", Verb::light},
    {"cures", Verb::light},
    {"cure", Verb::light},
}};

std::string_view trimmed(std::string_view text) {
  const auto first = text.find_first_not_of(" \t\r");
  if (first == std::string_view::npos) return {};
  return text.substr(first, text.find_last_not_of(" \t\r") - first + 1);
}

std::string small(std::string_view text) {
  std::string out(text);
  for (char& c : out) {
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  }
  return out;
}

std::string capital(std::string text) {
  if (!text.empty() && text[0] >= 'a' && text[0] <= 'z')
    text[0] = static_cast<char>(text[0] - 'a' + 'A');
  return text;
}

// An id of a text: its letters and digits, hyphens between.
std::string id_from(std::string_view text) {
  std::string id;
  for (const char c : small(text)) {
    const bool plain = (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9');
    if (plain) id += c;
    if (!plain && !id.empty() && id.back() != '-') id += '-';
  }
  constexpr std::size_t longest = longest_id - 4;  // "-400" may come behind it
  if (id.size() > longest) id.resize(std::min(id.rfind('-', longest), longest));
  while (!id.empty() && id.back() == '-') id.pop_back();
  return id.empty() ? "step" : id;
}

// What a verb is done to: the words behind it, without article, up to the first "for", "to" ...
std::string thing_in(std::string_view rest) {
  auto text = " " + small(trimmed(rest)) + " ";
  for (const std::string stop : {" for ", " to ", " with ", " on ", " into ", " from ", " beside ",
                                 " while ", " in ", " at "}) {
    const auto at = text.find(stop);
    if (at != std::string::npos) text.resize(at + 1);
  }
  for (const std::string article : {" the ", " a ", " an ", " some "}) {
    if (text.starts_with(article)) text.erase(0, article.size() - 1);
  }
  return std::string(trimmed(text));
}

struct Line {
  Mark mark;
  PersonIx who;  // 0 clinician, 1 assistant, 2 second assistant
  std::string what, id, supply;
  Verb verb = Verb::work;
  bool cover = false;
  std::optional<Estimate> takes;
  std::optional<Ms> good_for;  // what is opened, mixed or loaded, from then on
};

class Outline {
 public:
  Outlined read(std::string_view list, const std::string& id, const std::string& title) {
    title_ = title;
    int number = 0;
    while (!list.empty()) {
      const auto end = std::min(list.find('\n'), list.size());
      ++number;
      if (const auto odd = find_odd_character(list.substr(0, end)))
        error({number, odd->mark.column}, odd->what);
      else
        read_line(list.substr(0, end), number);
      list.remove_prefix(std::min(end + 1, list.size()));
    }
    check();
    Outlined out;
    out.problems = std::move(problems_);
    if (!has_errors(out.problems)) out.scenario = written(id);
    for (const auto& line : lines_) out.steps.push_back(line.mark);
    return out;
  }

 private:
  void error(Mark mark, Said message) {
    problems_.push_back({Problem::Kind::error, mark, std::move(message)});
  }

  void read_line(std::string_view line, int number) {
    const auto first = line.find_first_not_of(" \t\r");
    if (first == std::string_view::npos || line[first] == '#') return;
    const Mark mark{number, static_cast<int>(first) + 1};
    const auto colon = line.find(':');
    if (colon == std::string_view::npos)
      return error(mark, "write who does it before a colon, as in \"Assistant: passes the gauze\"");
    const auto who = small(trimmed(line.substr(0, colon)));
    const auto rest = trimmed(line.substr(colon + 1));
    const Mark rest_mark{number, static_cast<int>(colon) + 2};
    if (rest.empty()) return error(rest_mark, "nothing stands behind the colon");
    if (who == "title") return set_title(rest, rest_mark);
    constexpr std::array<std::string_view, 3> people{"clinician", "assistant", "second assistant"};
    const auto person = std::find(people.begin(), people.end(), who);
    if (person == people.end())
      return error(mark, say("\"{}\" is nobody; it is the clinician, the assistant or the "
                             "second assistant",
                             shown(who)));
    if (lines_.size() == most_lines) return error(mark, "more steps than a scenario can have");
    Line out;
    out.mark = rest_mark;
    out.who = PersonIx{static_cast<std::size_t>(person - people.begin())};
    take_duration(without_working_time(rest, out), out);
    if (length_in_characters(out.what) > longest_title)
      error(rest_mark,
            say("longer than {} characters; the why goes into the scenario later", longest_title));
    if (out.who.at() > 0) find_verb(out);
    if (out.good_for && !prepares(out.verb))
      error(rest_mark, "\"good for\" belongs behind what is opened, mixed or loaded");
    lines_.push_back(std::move(out));
  }

  void set_title(std::string_view title, Mark mark) {
    if (length_in_characters(title) > longest_title)
      error(mark, say("a title has {} characters at most", longest_title));
    title_ = title;
  }

  // "mixes the paste, 20 s, good for 90 s": the line without its end.
  std::string_view without_working_time(std::string_view rest, Line& line) {
    const auto comma = rest.rfind(',');
    if (comma == std::string_view::npos) return rest;
    const auto behind = trimmed(rest.substr(comma + 1));
    constexpr std::string_view words = "good for ";
    if (!behind.starts_with(words)) return rest;
    Report report;
    const std::string time(trimmed(behind.substr(words.size())));
    line.good_for = Form<Ms>::read({Node::Kind::text, line.mark, time, {}}, report);
    for (auto& problem : report.take()) problems_.push_back(std::move(problem));
    if (line.good_for == Ms{0}) error(line.mark, "good for no time at all");
    return trimmed(rest.substr(0, comma));
  }

  // Behind the last comma, where something there begins with a digit.
  void take_duration(std::string_view rest, Line& line) {
    const auto comma = rest.rfind(',');
    const auto behind =
        comma == std::string_view::npos ? std::string_view() : trimmed(rest.substr(comma + 1));
    line.what = trimmed(rest);
    if (behind.empty() || behind[0] < '0' || behind[0] > '9') return;
    line.what = trimmed(rest.substr(0, comma));
    Report report;
    const auto dash = behind.find('-');
    const auto unit = behind.find(' ');
    const auto least = dash == std::string_view::npos
                           ? std::string(behind)
                           : fmt::format("{}{}", trimmed(behind.substr(0, dash)),
                                         unit == std::string_view::npos ? "" : behind.substr(unit));
    const auto most =
        dash == std::string_view::npos ? least : std::string(trimmed(behind.substr(dash + 1)));
    if (behind.find(" to ") != std::string_view::npos)
      return error(line.mark,
                   say("\"{}\" is no duration; write a range as in 2-3 min", shown(behind)));
    const auto from = Form<Ms>::read({Node::Kind::text, line.mark, least, {}}, report);
    const auto to = from ? Form<Ms>::read({Node::Kind::text, line.mark, most, {}}, report) : from;
    for (auto& problem : report.take()) problems_.push_back(std::move(problem));
    if (!from || !to) return;
    if (*from == Ms{0} || *from > *to)
      return error(line.mark, "a duration has more than no time, the shorter first");
    line.takes = Estimate{*from, Ms{(from->count() + to->count()) / 2}, *to};
  }

  void find_verb(Line& line) {
    const auto text = small(line.what);
    line.verb = Verb::check;
    bool known = false;
    std::string_view rest;
    for (const auto& [words, verb] : beginnings) {
      if (!text.starts_with(words) || (text.size() > words.size() && text[words.size()] != ' '))
        continue;
      line.verb = verb;
      known = true;
      rest = std::string_view(line.what).substr(words.size());
      break;
    }
    if (!known)
      problems_.push_back(
          {Problem::Kind::warning, line.mark,
           say("\"{}\" is none of the deeds an assistant's line begins with; taken as a check, "
               "with nothing in the hand",
               shown(text.substr(0, text.find(' '))))});
    line.supply = thing_in(rest);
    if (line.verb == Verb::hold && text.find("suction") != std::string::npos)
      line.verb = Verb::suction;
    if (line.verb == Verb::suction) {
      line.cover = true;
      line.supply = "suction tip";
    }
    if (line.verb == Verb::dry) line.supply = "air-water syringe";
    if (line.verb == Verb::light) line.supply = "curing light";
    if (line.verb == Verb::hold || line.verb == Verb::check) line.supply.clear();
    if (line.supply.empty() && line.verb != Verb::hold && line.verb != Verb::check)
      error(line.mark, say("say what, behind \"{}\"", line.what));
  }

  // The clinician's line that comes next, their number when none does.
  std::size_t next_work(std::size_t from) const {
    while (from < lines_.size() && lines_[from].who.at() != 0) ++from;
    return from;
  }

  void check() {
    if (next_work(0) == lines_.size())
      error({},
            "no line of the clinician's; write at least one, as in \"Clinician: rinses, 10 s\"");
    std::map<std::string, int> used;
    for (std::size_t i = 0; i < lines_.size(); ++i) {
      Line& line = lines_[i];
      const auto id = id_from(line.verb == Verb::pass ? "pass " + line.supply : line.what);
      const auto count = ++used[id];
      line.id = count == 1 ? id : fmt::format("{}-{}", id, count);
      if ((line.verb == Verb::pass || line.cover) && next_work(i) == lines_.size())
        error(line.mark, line.cover ? "nothing follows that the suction could be for"
                                    : "nobody takes it: a line of the clinician's must follow");
    }
  }

  std::string written(const std::string& id) const;
  void write_supplies(std::string& out) const;
  void write_step(std::string& out, std::size_t i) const;

  std::string title_;
  std::vector<Line> lines_;
  std::vector<Problem> problems_;
};

// In order of first appearance.
void Outline::write_supplies(std::string& out) const {
  std::vector<std::string> names{"suction tip"};
  for (const auto& line : lines_) {
    if (!line.supply.empty() && std::find(names.begin(), names.end(), line.supply) == names.end())
      names.push_back(line.supply);
  }
  const auto any = [&](const std::string& name, auto is) {
    return std::any_of(lines_.begin(), lines_.end(),
                       [&](const Line& l) { return l.supply == name && is(l); });
  };
  for (const auto& name : names) {
    const bool fixed =
        name == "suction tip" || name == "curing light" || name == "air-water syringe";
    if (fixed && !any(name, [](const Line&) { return true; })) continue;
    out += fmt::format("  {}: {{name: {}, icon: {}, at: {}, ends: used, after-use: ready",
                       id_from(name), yaml_text(capital(name)), fixed ? id_from(name) : "tray",
                       fixed ? "unit" : "tray");
    if (any(name, [](const Line& l) { return l.verb == Verb::set_out; }))
      out += ", stored: cabinet";
    for (const auto& line : lines_)
      if (line.supply == name && line.good_for) {
        out += fmt::format(", working-time: {}", duration_text(*line.good_for));
        break;
      }
    out += "}\n";
  }
  if (out.ends_with("supplies:\n"))
    out += "  suction-tip: {name: Suction tip, icon: suction-tip, at: unit, after-use: ready}\n";
}

void Outline::write_step(std::string& out, std::size_t i) const {
  const Line& line = lines_[i];
  constexpr std::array<std::string_view, 3> people{"clinician", "assistant", "second-assistant"};
  out += fmt::format("\n  - id: {}\n    title: {}\n    phase: all\n    by: {}\n", line.id,
                     yaml_text(capital(line.what)), people[line.who.at()]);
  if (line.verb != Verb::work) out += fmt::format("    does: {}\n", word(line.verb));
  if (!line.supply.empty()) out += fmt::format("    supply: {}\n", id_from(line.supply));
  if (line.cover) {
    out += fmt::format("    covers: [{}]\n", lines_[next_work(i)].id);
  } else if (!line.takes) {
    out += line.verb == Verb::work ? "    takes: 10 s  # a guess\n" : "    takes: 3 s  # a guess\n";
  } else if (line.takes->least == line.takes->most) {
    out += fmt::format("    takes: {}\n", duration_text(line.takes->usual));
  } else {
    out += fmt::format("    takes: {{least: {}, usual: {}, most: {}}}\n",
                       duration_text(line.takes->least), duration_text(line.takes->usual),
                       duration_text(line.takes->most));
  }
  if (line.verb == Verb::pass) out += fmt::format("    for: {}\n", lines_[next_work(i)].id);
  std::string needs;
  std::size_t before = i;
  while (before > 0 && lines_[before - 1].who.at() != 0) {
    --before;
    if (line.verb == Verb::work && lines_[before].verb == Verb::pass)
      needs = id_from(lines_[before].supply) + (needs.empty() ? "" : ", ") + needs;
  }
  if (!needs.empty()) out += fmt::format("    needs: [{}]\n", needs);
  if (before == 0 || line.cover) return;
  const auto& last = lines_[before - 1].id;
  out += line.verb == Verb::work ? fmt::format("    after: [{}]\n", last)
         : line.verb == Verb::take_back || line.verb == Verb::put_away || line.verb == Verb::wipe ||
                 next_work(i) == lines_.size()
             ? fmt::format("    after: [{}]\n",
                           next_work(i) == lines_.size() ? lines_[i - 1].id : last)
             : fmt::format("    after: [{{step: {}, from: start}}]\n", last);
}

std::string Outline::written(const std::string& id) const {
  const bool three = std::any_of(lines_.begin(), lines_.end(),
                                 [](const Line& line) { return line.who.at() == 2; });
  auto out = fmt::format(
      "# Made from a list of steps. Next: the times of your team, a cue and a why for every step "
      "of the\n"
      "# assistant's, the cautions. docs/authoring.md leads through it.\n"
      "beforehand: 2\nid: {}\ntitle: {}\n"
      "summary: {}\n"
      "announces: {}\n"
      "cautions:\n"
      "  - >-\n"
      "    A training exercise. It practises order and readiness; it gives nobody permission to "
      "treat. The\n"
      "    instructions of the materials, the law where you work and the clinician's direction "
      "come first.\n"
      "people:\n"
      "  clinician: {{role: clinician, name: Clinician}}\n"
      "  assistant: {{role: assistant, name: Assistant}}\n",
      id, yaml_text(title_), yaml_text(title_ + ", as our team does it."),
      yaml_text(capital(lines_[next_work(0)].what) + " first, then one after the other."));
  if (three) out += "  second-assistant: {role: second-assistant, name: Second assistant}\n";
  out +=
      "places:\n"
      "  tray: {name: Tray, clock: 3, zone: assistant, motion: II, kind: tray}\n"
      "  unit: {name: Holder on the unit, clock: 3.9, zone: assistant, motion: II, kind: holder}\n"
      "  cabinet: {name: Cabinet, clock: 1, zone: static, motion: IV, kind: store}\n"
      "  used: {name: Tray for used things, clock: 2.5, zone: assistant, motion: III, kind: "
      "soiled}\n"
      "supplies:\n";
  write_supplies(out);
  out += fmt::format("phases:\n  all: {{title: {}}}\nsteps:", yaml_text(title_));
  for (std::size_t i = 0; i < lines_.size(); ++i) write_step(out, i);
  return out;
}

}  // namespace

Outlined scenario_from_outline(std::string_view list, const std::string& id,
                               const std::string& title) {
  return Outline().read(list, id, title);
}

namespace {

// By step: the line of the scenario at which it begins.
std::vector<int> first_lines(const std::string& scenario) {
  std::vector<int> lines;
  int number = 1;
  for (std::size_t at = 0; at < scenario.size(); at = scenario.find('\n', at) + 1, ++number)
    if (scenario.compare(at, 8, "  - id: ") == 0) lines.push_back(number);
  return lines;
}

// The place in the list of what stands in a line of the scenario.
Mark in_list(int line, const std::vector<int>& first, const std::vector<Mark>& steps) {
  const auto behind = std::upper_bound(first.begin(), first.end(), line);
  const auto step = static_cast<std::size_t>(behind - first.begin());
  return step == 0 || step > steps.size() ? Mark{} : steps[step - 1];
}

}  // namespace

std::vector<Problem> told_of_list(const std::vector<Problem>& of_scenario, const Outlined& made) {
  const auto first = first_lines(made.scenario);
  std::vector<Problem> told;
  for (const auto& problem : of_scenario) {
    std::string text = problem.message.english(), out;
    constexpr std::string_view word = "line ";
    for (auto at = text.find(word); at != std::string::npos; at = text.find(word)) {
      const auto digits = at + word.size();
      const auto end = std::min(text.find_first_not_of("0123456789", digits), text.size());
      const auto number = text.substr(digits, end - digits);
      const bool known = !number.empty() && number.size() < 7;
      const auto mark = !known ? Mark{} : in_list(std::stoi(number), first, made.steps);
      out += text.substr(0, digits) + (mark.line > 0 ? std::to_string(mark.line) : number);
      text.erase(0, end);
    }
    told.push_back({problem.kind, in_list(problem.mark.line, first, made.steps), out + text});
  }
  return told;
}

}  // namespace beforehand::procedure
