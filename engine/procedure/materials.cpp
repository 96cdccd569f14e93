// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "procedure/materials.hpp"

#include <algorithm>

#include "base/text.hpp"
#include "procedure/characters.hpp"
#include "procedure/fields.hpp"
#include "procedure/formats.hpp"

namespace beforehand::procedure {
namespace {

constexpr std::size_t most_materials = 200;
constexpr std::array<std::string_view, material_time_count> time_keys{"mixing", "working", "acting",
                                                                      "setting", "curing"};

class MaterialsReader {
 public:
  explicit MaterialsReader(Report& report) : report_(report) {}

  Materials read(const Node& root) {
    Fields f(root, "a materials file", report_);
    f.demand("materials");
    m_.id = f.required<Id>("id");
    m_.title = f.required<Title>("title");
    m_.note = f.optional<Prose>("note");
    m_.generic = f.optional<bool>("generic", false);
    read_lamp(f.find("lamp"));
    read_list(f.demand("list"));
    f.finish();
    return std::move(m_);
  }

 private:
  void read_lamp(const Node* node) {
    if (!node) return;
    Fields f(*node, "lamp", report_);
    if (const Node* output = f.demand("output")) {
      m_.lamp = Form<Irradiance>::read(*output, report_);
      if (m_.lamp) judge_lamp(output->mark);
    }
    f.optional<Title>("name");
    f.finish();
  }

  void judge_lamp(Mark mark) {
    if (*m_.lamp < too_weak)
      report_.slip(mark, say("a lamp below {} mW/cm2 is to be rejected (Rueggeberg and "
                             "others 1994)",
                             too_weak));
    else if (*m_.lamp < weak)
      report_.warning(mark, say("below {} mW/cm2 a minute of light is not enough for 2 mm "
                                "(Rueggeberg and others 1994)",
                                weak));
  }

  void read_list(const Node* list) {
    if (!list) return;
    if (list->kind != Node::Kind::map)
      return report_.error(list->mark,
                           "\"list\" needs ids with their keys here, as in \"id: "
                           "{name: ...}\"");
    for (std::size_t i = 0; i < list->items.size(); i += 2) {
      const Node& key = *list->items[i];
      if (key.kind != Node::Kind::text || m_.find(key.text)) continue;  // reported
      if (m_.materials.size() == most_materials)
        return report_.error(key.mark, say("more than {} materials", most_materials));
      check_id(key, report_);
      read_material(key, *list->items[i + 1]);
    }
  }

  void read_material(const Node& key, const Node& value) {
    Fields f(value, say("material {}", shown(key.text)), report_);
    Material m;
    m.id = key.text;
    m.mark = key.mark;
    m.name = f.required<Title>("name");
    for (std::size_t i = 0; i < m.times.size(); ++i) {
      const Node* time = f.find(time_keys[i]);
      if (!time) continue;
      m.times[i] = Form<Ms>::read(*time, report_);
      if (m.times[i] == Ms{0}) report_.slip(time->mark, "no time at all; take the key away");
    }
    if (const Node* demand = f.find("demand")) m.demand = Form<Exposure>::read(*demand, report_);
    read_published(f.find("published"), m);
    f.finish();
    settle_cure(m, f);
    m_.materials.push_back(std::move(m));
  }

  void read_published(const Node* node, Material& m) {
    if (!node) return;
    Fields f(*node, say("published of {}", m.id), report_);
    for (std::size_t i = 0; i < time_keys.size(); ++i) {
      const Node* bounds = f.find(time_keys[i]);
      if (!bounds) continue;
      Fields b(*bounds, std::string(time_keys[i]), report_);
      Published p;
      p.time = static_cast<MaterialTime>(i);
      p.least = b.optional<Ms>("least", p.least);
      p.most = b.optional<Ms>("most", p.most);
      p.source = b.required<Prose>("source");
      b.finish();
      if (p.least > p.most)
        report_.slip(bounds->mark, say("least ({}) exceeds most ({})", duration_text(p.least),
                                       duration_text(p.most)));
      m.published.push_back(std::move(p));
    }
    f.finish();
  }

  // Lamp and time must give what the material demands; without a time it follows from both.
  void settle_cure(Material& m, Fields& f) {
    auto& curing = m.times[static_cast<std::size_t>(MaterialTime::curing)];
    if (!m.demand) return;
    if (!m_.lamp)
      return report_.slip(m.mark, say("{} demands {} of light; say what your lamp gives, as "
                                      "in \"lamp: {output: 1000 mW/cm2}\"",
                                      m.id, exposure_text(*m.demand)));
    const auto needed = time_to(*m.demand, *m_.lamp);
    if (!curing) curing = needed;
    const Node* time = f.find("curing");
    const Mark mark = time ? time->mark : m.mark;
    const auto given = exposure_of(*m_.lamp, *curing);
    if (given < *m.demand)
      report_.slip(
          mark, say("{} at {} mW/cm2 give {}, and {} demands {}: {} at least",
                    duration_text(*curing), *m_.lamp, exposure_text(static_cast<int>(given)), m.id,
                    exposure_text(*m.demand), duration_text(needed)));
    else if (*m_.lamp > very_strong && *curing <= Ms{5000})
      report_.warning(mark, say("above {} mW/cm2 a few seconds of light call for caution "
                                "(consensus statement, Halifax 2014)",
                                very_strong));
  }

  Materials m_;
  Report& report_;
};

class Comparison {
 public:
  Comparison(const Procedure& p, const Materials& m) : p_(p), m_(m) {}

  std::vector<Problem> run() {
    for (const Supply& supply : p_.supplies) {
      if (const auto* material = known(supply.material, supply.mark))
        if (supply.working_time != never)
          compare(*material, MaterialTime::working, supply.working_time, supply.working_time,
                  supply.id, supply.mark);
    }
    for (const Step& step : p_.steps) {
      const auto& [time, id, times, mark] = step.timed_by;
      if (const auto* material = known(id, mark))
        compare(*material, time, step.takes.least / times, step.takes.most / times, step.id,
                step.mark);
    }
    sort_by_place(problems_);
    return std::move(problems_);
  }

 private:
  void warn(Mark mark, Said message) {
    problems_.push_back({Problem::Kind::warning, mark, std::move(message)});
  }

  const Material* known(const std::string& id, Mark mark) {
    const auto* found = id.empty() ? nullptr : m_.find(id);
    if (id.empty() || found) return found;
    std::vector<std::string> ids;
    for (const auto& m : m_.materials) ids.push_back(m.id);
    const auto near = nearest(id, ids);
    warn(mark, say("the materials \"{}\" have no {}{}", m_.id, id,
                   near ? say("; did you mean \"{}\"?", *near) : "; the time given here stands"));
    return nullptr;
  }

  void compare(const Material& m, MaterialTime time, Ms least, Ms most, const std::string& what,
               Mark mark) {
    for (const auto& p : m.published) {
      if (p.time != time || (least >= p.least && most <= p.most)) continue;
      const auto bounds = p.most == never ? say("{} or more", duration_text(p.least))
                          : p.least == Ms{0}
                              ? say("{} at most", duration_text(p.most))
                              : say("{} to {}", duration_text(p.least), duration_text(p.most));
      warn(mark, say("{}: {} of {} takes {}; published is {} ({})", what, word(time), m.name,
                     least == most ? duration_text(least)
                                   : say("{} to {}", duration_text(least), duration_text(most)),
                     bounds, p.source));
    }
  }

  const Procedure& p_;
  const Materials& m_;
  std::vector<Problem> problems_;
};

}  // namespace

const Material* Materials::find(std::string_view wanted) const {
  const auto found = std::find_if(materials.begin(), materials.end(),
                                  [&](const auto& m) { return m.id == wanted; });
  return found == materials.end() ? nullptr : &*found;
}

MaterialsReading read_materials(std::string_view yaml_text, int file) {
  Report report;
  Materials materials;
  Tree tree = parse_yaml(yaml_text, report, file);
  bring_up(tree, Kind::materials, report);
  if (tree.root)
    materials = MaterialsReader(report).read(*tree.root);
  else if (report.graph_is_whole())
    report.error({0, 0, file}, "an empty file; a materials file begins with \"materials: 1\"");
  MaterialsReading reading;
  reading.problems = report.take();
  if (!has_errors(reading.problems)) reading.materials = std::move(materials);
  return reading;
}

std::vector<Problem> compare_with_published(const Procedure& p, const Materials& m) {
  return Comparison(p, m).run();
}

}  // namespace beforehand::procedure
