// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "procedure/reader.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cerrno>
#include <fstream>
#include <functional>
#include <stdexcept>
#include <system_error>

#include "base/random.hpp"
#include "procedure/card.hpp"
#include "procedure/checks.hpp"
#include "procedure/derive.hpp"
#include "procedure/formats.hpp"
#include "procedure/scenario_reader.hpp"

namespace beforehand::procedure {

void ScenarioReader::read(const Node& root) {
  Fields fields(root, "a scenario", report_);
  if (root.kind != Node::Kind::map) return;
  read_head(fields);
  read_parts(fields, fields.demand("steps"));
  read_steps();
  fields.finish();
}

void ScenarioReader::read_head(Fields& fields) {
  fields.demand("beforehand");
  p_.format = current_format(Kind::scenario);
  p_.language = fields.optional<Language>("language", p_.language);
  p_.id = fields.required<Id>("id");
  p_.title = fields.required<Title>("title");
  p_.summary = fields.required<Prose>("summary");
  p_.plan = fields.required<Prose>("announces");
  const Node* cautions = fields.demand("cautions");
  for_each_item(cautions, [&](const Node& item) {
    if (auto text = Form<Prose>::read(item, report_)) p_.cautions.push_back(std::move(*text));
  });
  if (cautions && cautions->kind == Node::Kind::list && cautions->items.empty())
    report_.slip(cautions->mark,
                 "no caution; write at least one, so that nobody takes the drill "
                 "for permission to treat");
  if (const Node* hand = fields.find("hand"))
    p_.left_handed =
        choice(*hand, {"right", "left"}, "hand", report_) == std::optional<std::size_t>(1);
  read_pacing(fields.find("pacing"));
  read_weights(fields.find("weights"));
  read_sign_off(fields.find("sign-off"));
}

void ScenarioReader::read_pacing(const Node* node) {
  if (!node) return;
  Fields f(*node, "pacing", report_);
  p_.patience = f.optional<Ms>("patience", p_.patience);
  p_.self_help = f.optional<Ms>("self-help", p_.self_help);
  p_.offer = f.optional<Ms>("offer", p_.offer);
  f.finish();
  if (p_.patience <= Ms{0} || p_.self_help < p_.patience)
    report_.slip(node->mark, say("the clinician asks after \"patience\" ({}), which is more "
                                 "than nothing, and helps himself or herself after "
                                 "\"self-help\" ({}), which is not less",
                                 duration_text(p_.patience), duration_text(p_.self_help)));
}

void ScenarioReader::read_weights(const Node* node) {
  if (!node) return;
  Fields f(*node, "weights", report_);
  auto& [anticipation, idle, sequence] = p_.weights;
  anticipation = f.optional<Count>("anticipation", anticipation);
  idle = f.optional<Count>("idle", idle);
  sequence = f.optional<Count>("sequence", sequence);
  f.finish();
  const auto sum = std::int64_t{anticipation} + idle + sequence;
  if (sum != 100) report_.slip(node->mark, say("the weights add up to {}, not 100", sum));
}

void ScenarioReader::read_sign_off(const Node* node) {
  if (!node) return;
  Fields f(*node, "sign-off", report_);
  auto& rule = p_.sign_off;
  rule.assessed_passes = f.optional<Count>("assessed-passes", rule.assessed_passes);
  rule.competent_from = f.optional<Severity>("competent-from", rule.competent_from);
  f.finish();
  if (rule.assessed_passes < 1)
    report_.slip(node->mark, "nobody is signed off without an assessed pass; ask for at least 1");
}

namespace {

// A whole file of ours, in the names of today.
Tree parse_whole(std::string_view text, Kind kind, Report& report) {
  const bool scenario = kind == Kind::scenario;
  Tree tree = parse_yaml(text, report, scenario ? 0 : 1);
  if (!tree.root && report.graph_is_whole())
    report.error({0, 0, scenario ? 0 : 1},
                 say("an empty file; a {} begins with \"{}: {}\"", scenario ? "scenario" : "card",
                     format_key(kind), current_format(kind)));
  bring_up(tree, kind, report);
  return tree;
}

// Where the card itself is at fault, what then seems wrong with the scenario only follows from it:
// of the scenario's problems those stay that it has without the card.
void tell_apart(const Layers& layers, std::vector<Problem>& problems) {
  const auto is_of_card = [](const Problem& p) { return p.mark.file == 1; };
  if (std::none_of(problems.begin(), problems.end(), [&](const Problem& p) {
        return is_of_card(p) && p.kind == Problem::Kind::error;
      }))
    return;
  std::erase_if(problems, std::not_fn(is_of_card));
  auto own = read(layers.scenario).problems;
  problems.insert(problems.begin(), own.begin(), own.end());
}

}  // namespace

Reading read(std::string_view yaml_text) { return read(Layers{yaml_text, std::nullopt, nullptr}); }

Reading read(const Layers& layers) {
  Report report;
  Procedure procedure;
  procedure.fingerprint = fnv1a(layers.scenario);
  Tree card, tree = parse_whole(layers.scenario, Kind::scenario, report);
  const Node* root = tree.root;
  if (layers.card) {
    card = parse_whole(*layers.card, Kind::card, report);
    procedure.fingerprint = fnv1a(*layers.card, procedure.fingerprint);
    root = tree.root && card.root ? lay_over(tree, card, procedure, report) : nullptr;
  }
  if (layers.materials) {
    procedure.materials = layers.materials->id;
    procedure.materials_title = layers.materials->title;
  }
  if (root) ScenarioReader(procedure, report, layers.materials).read(*root);
  if (report.graph_is_whole()) {
    for (auto& problem : derive(procedure)) report.add(std::move(problem));
  }
  if (!procedure.topological.empty()) {
    for (auto& problem : check(procedure)) report.add(std::move(problem));
  }
  Reading reading;
  reading.problems = report.take();
  if (layers.card) tell_apart(layers, reading.problems);
  if (!has_errors(reading.problems)) reading.procedure = std::move(procedure);
  return reading;
}

std::string load_text(const std::string& path) {
  errno = 0;
  std::ifstream file(path, std::ios::binary);
  std::string text(longest_text + 1, '\0');  // one more than is read, so that too much is seen
  if (file) file.read(text.data(), static_cast<std::streamsize>(text.size()));
  if (!file.is_open() || file.bad())
    throw std::runtime_error(
        fmt::format("{}: {}", path, std::generic_category().message(errno ? errno : EIO)));
  text.resize(static_cast<std::size_t>(file.gcount()));
  return text;
}

}  // namespace beforehand::procedure
