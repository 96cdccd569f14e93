// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "procedure/answers.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace beforehand::procedure {
namespace {

const std::string& answer(const std::vector<Question>& questions, const std::string& key) {
  static const std::string none;
  const auto found = std::find_if(questions.begin(), questions.end(),
                                  [&](const Question& q) { return q.key == key; });
  return found == questions.end() ? none : found->answer;
}

bool says_no(const std::string& text) {
  return text.empty() || text == "no" || text == "none" || text == "n" || text == "-";
}

}  // namespace

std::string outline_from(const std::vector<Question>& q) {
  const auto a = [&](const char* key) { return answer(q, key); };
  std::string out;
  const auto add = [&](const std::string& line) { out += line + "\n"; };
  add("Title: " + a("title"));
  if (a("people") == "3") add("Second assistant: checks the record, 5 s");
  if (!says_no(a("first-instrument"))) {
    add("Assistant: sets out the " + a("first-instrument"));
    add("Assistant: passes the " + a("first-instrument"));
  }
  if (!says_no(a("water"))) add("Assistant: holds the suction");
  add(fmt::format("Clinician: {}, {}", a("first"), a("first-takes")));
  if (!says_no(a("first-instrument"))) add("Assistant: takes back the " + a("first-instrument"));
  if (!says_no(a("material"))) {
    add(fmt::format("Assistant: mixes the {}, {}, good for {}", a("material"), a("mixing"),
                    a("working")));
    add("Assistant: passes the " + a("material"));
  }
  add(fmt::format("Clinician: {}, {}", a("second"), a("second-takes")));
  if (!says_no(a("material"))) add("Assistant: puts away the " + a("material"));
  if (!says_no(a("light"))) add(fmt::format("Assistant: cures, {}", a("light")));
  add("Clinician: checks the result, 15 s");
  return out;
}

std::vector<Question> questions(const std::string& title) {
  return {{"title", "What is it called?", title},
          {"people", "Two of you, or three?", "2"},
          {"first", "What does the clinician do first?", "cleans and rinses the tooth"},
          {"first-takes", "How long does that take, as in \"50 s\" or \"40-60 s\"?", "40-60 s"},
          {"first-instrument", "What do you pass for it? (no: nothing)", "mirror and probe"},
          {"water", "Does water run meanwhile, so that you hold the suction? (yes, no)", "yes"},
          {"material", "What do you mix for the next step? (no: nothing)", "lining paste"},
          {"mixing", "How long is it mixed? (its instructions say)", "20 s"},
          {"working", "How long can it be worked with, once mixed?", "90 s"},
          {"second", "What does the clinician do then?", "places what you passed"},
          {"second-takes", "How long does that take?", "25-35 s"},
          {"light", "How long is it cured with light? (no: not at all)", "20 s"}};
}

bool asked(const std::vector<Question>& q, const std::string& key) {
  return (key != "mixing" && key != "working") || !says_no(answer(q, "material"));
}

}  // namespace beforehand::procedure
