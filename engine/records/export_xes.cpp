// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include <fmt/format.h>

#include <pugixml.hpp>
#include <sstream>

#include "records/export.hpp"
#include "records/review.hpp"

namespace beforehand::records {
namespace {

using drill::What;
using pugi::xml_node;

// What XML 1.0 cannot hold is shown as what it is: unreadable.
std::string clean(std::string_view text) {
  std::string out;
  for (const char c : text) {
    const bool control = static_cast<unsigned char>(c) < 0x20 && c != '\t' && c != '\n';
    if (control) {
      out += "\uFFFD";
    } else {
      out += c;
    }
  }
  return out;
}

void attribute(xml_node to, const char* type, const char* key, const std::string& value) {
  auto a = to.append_child(type);
  a.append_attribute("key") = key;
  a.append_attribute("value") = clean(value).c_str();
}

void string(xml_node to, const char* key, std::string_view value) {
  attribute(to, "string", key, std::string(value));
}

void extension(xml_node log, const char* name, const char* prefix) {
  auto e = log.append_child("extension");
  e.append_attribute("name") = name;
  e.append_attribute("prefix") = prefix;
  e.append_attribute("uri") = fmt::format("http://www.xes-standard.org/{}.xesext", prefix).c_str();
}

void classifier(xml_node log, const char* name, const char* keys) {
  auto c = log.append_child("classifier");
  c.append_attribute("name") = name;
  c.append_attribute("keys") = keys;
}

// The states of the standard life cycle that a drill's events stand for; null: no event of a log.
const char* transition(What what) {
  switch (what) {
    case What::step_started:
    case What::action_started:
    case What::cover_started:
      return "start";
    case What::step_done:
    case What::action_done:
    case What::cover_stopped:
      return "complete";
    case What::action_broken:
      return "ate_abort";
    case What::step_paused:
      return "suspend";
    case What::step_resumed:
      return "resume";
    case What::step_skipped:
      return "autoskip";
    default:
      return nullptr;
  }
}

// Steps by verb are told by their actions; the others by themselves.
bool told(const drill::Event& e, const procedure::Procedure& p) {
  const bool of_action = e.what == What::action_started || e.what == What::action_done ||
                         e.what == What::action_broken || e.what == What::cover_started ||
                         e.what == What::cover_stopped;
  if (of_action) return true;
  return e.step && (e.what != What::step_done || !p.action_of[e.step.at()]);
}

std::string name_of(const drill::Event& e, const procedure::Procedure& p) {
  if (e.step) return p.step(e.step).title;
  const auto& action = p.action(e.action);
  return fmt::format("{}: {}", procedure::word(action.verb), p.supply(action.supply).name);
}

void event(xml_node trace, const ExportSession& s, const drill::Event& e) {
  const auto& p = *s.procedure;
  auto node = trace.append_child("event");
  string(node, "concept:name", name_of(e, p));
  string(node, "lifecycle:transition", transition(e.what));
  attribute(node, "date", "time:timestamp", iso_text(s.record.started + e.at));
  if (e.person) {
    string(node, "org:resource", p.person(e.person).id);
    string(node, "org:role", procedure::word(p.person(e.person).role));
  }
  if (e.step) string(node, "step", p.step(e.step).id);
}

void trace(xml_node log, const ExportSession& s) {
  const auto& r = s.record;
  auto t = log.append_child("trace");
  string(t, "concept:name", r.id);
  string(t, "scenario", r.scenario);
  string(t, "scenario_hash", r.scenario_hash);
  string(t, "level", drill::word(r.level));
  if (!r.phase.empty()) string(t, "phase", r.phase);
  string(t, "trainee", r.trainee);
  if (!s.trainee_name.empty()) string(t, "trainee_name", s.trainee_name);
  attribute(t, "date", "started", iso_text(r.started));
  attribute(t, "float", "total", fmt::format("{:.3f}", r.total));
  string(t, "verdict", scoring::word(r.verdict));
  attribute(t, "boolean", "complete", r.complete ? "true" : "false");
  if (s.procedure == nullptr || s.session == nullptr) return;
  for (const auto& e : s.session->events) {
    if (transition(e.what) != nullptr && told(e, *s.procedure)) event(t, s, e);
  }
}

xml_node global(xml_node log, const char* scope) {
  auto g = log.append_child("global");
  g.append_attribute("scope") = scope;
  string(g, "concept:name", "");
  return g;
}

}  // namespace

std::string to_xes(const std::vector<ExportSession>& sessions) {
  pugi::xml_document document;
  auto declaration = document.append_child(pugi::node_declaration);
  declaration.append_attribute("version") = "1.0";
  declaration.append_attribute("encoding") = "UTF-8";
  auto log = document.append_child("log");
  log.append_attribute("xes.version") = "1849.2016";
  log.append_attribute("xes.features") = "";
  extension(log, "Concept", "concept");
  extension(log, "Time", "time");
  extension(log, "Lifecycle", "lifecycle");
  extension(log, "Organizational", "org");
  global(log, "trace");
  auto events = global(log, "event");
  string(events, "lifecycle:transition", "complete");
  attribute(events, "date", "time:timestamp", iso_text(Moment{}));
  classifier(log, "Step", "concept:name");
  classifier(log, "Step and transition", "concept:name lifecycle:transition");
  string(log, "lifecycle:model", "standard");
  for (const auto& s : sessions) trace(log, s);
  std::ostringstream out;
  document.save(out, "  ");
  return out.str();
}

}  // namespace beforehand::records
