// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include <algorithm>

#include "procedure/scenario_reader.hpp"

namespace beforehand::procedure {
namespace {

constexpr std::size_t most_maximum_lags = 200;

// These can be done with nothing but eyes and hands.
bool can_do_without_supply(Verb verb) { return verb == Verb::check || verb == Verb::hold; }

}  // namespace

void ScenarioReader::index_steps(const Node* section) {
  if (!section) return;
  if (section->kind != Node::Kind::list)
    return report_.error(section->mark, "\"steps\" needs a list here, each step after a hyphen");
  if (section->items.empty()) report_.error(section->mark, "no steps; write at least one");
  for (const Node* node : section->items) {
    const Node* id = value_of(*node, "id");
    const bool named = id && id->kind == Node::Kind::text;
    if (named && steps_.contains(id->text)) {
      const Mark first = p_.steps[steps_.find(*id, report_).at()].mark;
      report_.error(id->mark, say("a second step \"{}\"; the first is in line {}", shown(id->text),
                                  first.line));
      continue;
    }
    if (!steps_.add(named ? std::string_view(id->text) : std::string_view())) {
      report_.error(node->mark, say("more than {} steps", steps_.most()));
      break;
    }
    p_.steps.emplace_back().mark = named ? id->mark : node->mark;
    step_nodes_.push_back(node);
  }
}

void ScenarioReader::read_steps() {
  for (std::size_t i = 0; i < step_nodes_.size() && !report_.full(); ++i)
    read_step(*step_nodes_[i], p_.steps[i]);
  let_supplies_start_as_used();
}

void ScenarioReader::read_step(const Node& node, Step& step) {
  const Node* id = value_of(node, "id");
  Fields f(node, id ? owner("step", *id) : "this step", report_);
  step.id = f.required<Id>("id");
  if (const Node* phase = f.demand("phase")) step.phase = phases_.find(*phase, report_);
  read_actors(f, step);
  read_deed(f, step);
  read_relations(f, step);
  read_duration(f, step);
  read_conditions(f, step);
  read_texts(f, step);
  f.finish();
}

void ScenarioReader::read_actors(Fields& f, Step& step) {
  const Node* by = f.demand("by");
  step.by = people_.find_all(by, report_);
  if (by && by->kind == Node::Kind::list && by->items.empty())
    report_.error(by->mark, say("nobody may do {}; name who does it", f.owner()));
  const Node* hands = f.find("hands");
  if (hands) step.hands = Form<Count>::read(*hands, report_).value_or(step.hands);
  if (step.hands > 2)
    report_.error(hands->mark, say("{} takes {} hands; a person has 2", f.owner(), step.hands));
  step.devices = devices_.find_all(f.find("devices"), report_);
}

void ScenarioReader::read_deed(Fields& f, Step& step) {
  const Node* does = f.find("does");
  const auto verb = does ? Form<Verb>::read(*does, report_) : std::optional(Verb::work);
  step.verb = verb.value_or(Verb::work);
  const Node* supply = f.find("supply");
  if (supply) step.supply = supplies_.find(*supply, report_);
  if (step.verb != Verb::work && !supply && !can_do_without_supply(step.verb))
    report_.error(f.mark(), say("{} has no \"supply\"; name what it does \"{}\" to", f.owner(),
                                word(step.verb)));
  if (verb == Verb::work) check_work(f, step, does, supply);
}

// Work is what a clinician does, to no supply in particular; so it is never an action to choose.
void ScenarioReader::check_work(Fields& f, const Step& step, const Node* does, const Node* supply) {
  const bool clinicians_own = std::all_of(step.by.begin(), step.by.end(), [&](PersonIx who) {
    return who.at() < p_.people.size() && p_.person(who).role == Role::clinician;
  });
  const Mark mark = does ? does->mark : f.mark();
  if (!clinicians_own && roles_are_known_)
    report_.error(mark, does ? "work is the clinician's; say what the assistant does, as in "
                               "\"does: pass\""
                             : say("{} has no \"does\"; say what is done, as in \"does: "
                                   "pass\"",
                                   f.owner()));
  else if (f.find("covers"))
    report_.error(mark, say("{} covers something; say how, as in \"does: hold\"", f.owner()));
  else if (supply)
    report_.error(supply->mark, say("{} does nothing to this supply; say what, in \"does\", "
                                    "or name it in \"needs\"",
                                    f.owner()));
}

std::optional<Estimate> ScenarioReader::read_estimate(const Node& node) {
  if (node.kind != Node::Kind::map) {
    const auto one = Form<Ms>::read(node, report_);
    return one ? std::optional(Estimate{*one, *one, *one}) : std::nullopt;
  }
  Fields f(node, "takes", report_);
  const auto part = [&](std::string_view key) {
    const Node* value = f.demand(key);
    return value ? Form<Ms>::read(*value, report_) : std::nullopt;
  };
  const auto least = part("least"), usual = part("usual"), most = part("most");
  f.finish();
  return least && usual && most ? std::optional(Estimate{*least, *usual, *most}) : std::nullopt;
}

void ScenarioReader::read_duration(Fields& f, Step& step) {
  const bool is_cover = f.find("covers") != nullptr;
  const Node* timed_by = is_cover ? nullptr : f.find("timed-by");
  const Node* takes = is_cover ? f.find("takes") : f.demand("takes");
  if (!takes) return;
  if (is_cover)
    return report_.error(takes->mark,
                         "a cover lasts as long as what it covers; take \"takes\" away");
  const auto estimate = read_estimate(*takes);
  if (!estimate) return;
  step.takes = *estimate;
  const auto& [least, usual, most] = step.takes;
  if (least > usual || usual > most)
    report_.error(takes->mark,
                  say("least ({}) should not exceed usual ({}), nor usual most "
                      "({})",
                      duration_text(least), duration_text(usual), duration_text(most)));
  else if (least == Ms{0})
    report_.error(takes->mark, say("{} takes no time; give it some", f.owner()));
  if (timed_by) take_time_of_material(*timed_by, step);
}

// The usual time becomes the material's; what may be shorter or longer stays so by as much.
void ScenarioReader::take_time_of_material(const Node& node, Step& step) {
  step.timed_by = Form<TimedBy>::read(node, report_).value_or(TimedBy{});
  const auto& [time, id, times, mark] = step.timed_by;
  const auto* material = materials_ && !id.empty() ? materials_->find(id) : nullptr;
  const auto own = material ? material->time(time) : std::nullopt;
  if (!own || *own * times == step.takes.usual) return;
  const auto by = *own * times - step.takes.usual;
  auto& [least, usual, most] = step.takes;
  usual += by;
  least = std::max(Ms{1}, least + by);
  most += by;
  note_taken(step.id, usual);
}

void ScenarioReader::read_relations(Fields& f, Step& step) {
  const Node* covers = f.find("covers");
  step.covers = steps_.find_all(covers, report_);
  refuse_itself(step.covers, covers, step, "cover");
  step.attention = f.optional<bool>("attention", covers == nullptr);
  const Node* serves = f.find("for");
  if (serves) step.serves = steps_.find(*serves, report_);
  refuse_itself({step.serves}, serves, step, "be for");
  if (covers && serves)
    report_.error(serves->mark, "a cover names what it serves in \"covers\"; take \"for\" away");
  if (covers && covers->kind == Node::Kind::list && covers->items.empty())
    report_.error(covers->mark, say("{} covers nothing; name a step", f.owner()));
  for (const auto s : supplies_.find_all(f.find("needs"), report_)) {
    Need need;
    need.supply = s;
    need.mark = step.mark;
    step.needs.push_back(need);
  }
  step.keeps = supplies_.find_all(f.find("keeps"), report_);
  for_each_item(f.find("after"), [&](const Node& item) { read_link(item, step); });
}

void ScenarioReader::refuse_itself(const std::vector<StepIx>& others, const Node* place,
                                   const Step& step, const char* relation) {
  for (const StepIx other : others) {
    if (other && &p_.steps[other.at()] == &step)
      report_.error(place->mark, say("a step cannot {} itself", relation));
  }
}

void ScenarioReader::read_link(const Node& node, Step& step) {
  Link link;
  link.mark = node.mark;
  if (node.kind == Node::Kind::map) {
    Fields f(node, "after", report_);
    if (const Node* other = f.demand("step")) link.step = steps_.find(*other, report_);
    link.from = f.optional<Anchor>("from", Anchor::end);
    link.at_least = f.optional<Ms>("at-least", Ms{0});
    link.at_most = f.optional<Ms>("at-most", never);
    link.unsafe = f.optional<bool>("unsafe", false);
    link.if_late = f.optional<Title>("if-late");
    link.why = f.optional<Prose>("why");
    f.finish();
  } else {
    link.step = steps_.find(node, report_);
  }
  if (link.at_most != never && ++maximum_lags_ == most_maximum_lags + 1)
    report_.error(node.mark, say("more than {} maximum lags (at-most)", most_maximum_lags));
  if (link.at_least > link.at_most)
    report_.error(node.mark, say("at-least ({}) is longer than at-most ({}), so it can "
                                 "never start",
                                 duration_text(link.at_least), duration_text(link.at_most)));
  if (link.step && &p_.steps[link.step.at()] == &step)
    return report_.error(node.mark, "a step cannot come after itself");
  if (link.step) step.after.push_back(std::move(link));
}

void ScenarioReader::read_conditions(Fields& f, Step& step) {
  step.when = signals_.find_all(f.find("when"), report_);
  step.unless = signals_.find_all(f.find("unless"), report_);
  for (const auto signal : step.when) {
    if (std::find(step.unless.begin(), step.unless.end(), signal) != step.unless.end())
      report_.error(step.mark, say("{} never applies: \"{}\" stands in both \"when\" and "
                                   "\"unless\"",
                                   f.owner(), p_.signal(signal).id));
  }
}

void ScenarioReader::read_texts(Fields& f, Step& step) {
  step.title = f.required<Title>("title");
  step.severity = f.optional<Severity>("severity", Severity::minor);
  step.lapse = f.optional<bool>("lapse", false);
  read_set<Field>(f.find("leaves"), step.leaves);
  read_set<Field>(f.find("clears"), step.clears);
  step.says = f.optional<Prose>("says");
  step.cue = f.optional<Prose>("cue");
  step.why = f.optional<Prose>("why");
  step.caution = f.optional<Prose>("caution");
}

void ScenarioReader::let_supplies_start_as_used() {
  for (std::size_t i = 0; i < p_.supplies.size(); ++i) {
    if (starts_is_given_[i]) continue;
    const bool is_set_out = std::any_of(p_.steps.begin(), p_.steps.end(), [&](const Step& s) {
      return s.verb == Verb::set_out && s.supply == SupplyIx{i};
    });
    p_.supplies[i].starts = is_set_out ? SupplyState::stored : SupplyState::set_out;
  }
}

}  // namespace beforehand::procedure
