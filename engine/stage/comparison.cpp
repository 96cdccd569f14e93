// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "stage/comparison.hpp"

#include <algorithm>
#include <cmath>

#include "base/time.hpp"
#include "picture/text.hpp"
#include "records/review.hpp"
#include "records/save.hpp"
#include "stage/need_lines.hpp"

namespace beforehand::stage {
namespace {

using Change = FigureRow::Change;

// Long times are easier to read without tenths.
Ms shown(Ms t, Ms other) {
  const std::int64_t unit = std::max(t, other) < Ms{60'000} ? 100 : 1000;
  return Ms{(t.count() + unit / 2) / unit * unit};
}

class Rows {
 public:
  explicit Rows(const Strings& t) : t_(t) {}

  // Compared as they are shown, so that "62" is never better than "62".
  void points(const char* key, double now, double then, const char* unit) {
    const double by = std::round(now) - std::round(then);
    add(key, t_(unit, {whole_number(now)}), t_(unit, {whole_number(then)}),
        t_(unit, {whole_number(std::abs(by))}), by > 0, by < 0);
  }
  void time(const char* key, Ms now, Ms then) {
    const Ms a = shown(now, then), b = shown(then, now);
    const bool less = a < b, more = b < a;
    add(key, duration_text(a), duration_text(b), duration_text(more ? a - b : b - a), less, more);
  }
  void parts(const char* key, int now, int of_now, int then, int of_then) {
    add(key, t_("compare.of", {std::to_string(now), std::to_string(of_now)}),
        t_("compare.of", {std::to_string(then), std::to_string(of_then)}),
        std::to_string(std::abs(now - then)), now > then, now < then);
  }
  void count(const char* key, int now, int then) {
    const bool fewer = now < then, more = then < now;
    add(key, std::to_string(now), std::to_string(then), std::to_string(std::abs(now - then)), fewer,
        more);
  }

  std::vector<FigureRow> rows;

 private:
  void add(const char* key, std::string now, std::string then, const std::string& by, bool better,
           bool worse) {
    const auto change = better  ? t_("compare.better", {by})
                        : worse ? t_("compare.worse", {by})
                                : t_("compare.same");
    rows.push_back({t_(key), std::move(now), std::move(then), change,
                    better  ? Change::better
                    : worse ? Change::worse
                            : Change::same});
  }

  const Strings& t_;
};

constexpr Ms noticeable_lateness{1000};

// How a need went, in few words.
std::string how_it_went(const std::optional<records::NeedRecord>& need, const Strings& t) {
  if (!need) return t("compare.not-met");
  if (need->helped) return t("compare.helped", {duration_text(need->wait)});
  const Ms late = std::max(Ms{0}, -need->lead());
  if (need->requested) return t("compare.asked", {duration_text(late)});
  if (late > noticeable_lateness) return t("compare.waited", {duration_text(late)});
  return t("compare.ready");
}

std::string title_by_id(const procedure::Procedure& p, const std::string& id) {
  for (const auto& supply : p.supplies)
    if (supply.id == id) return supply.name;
  for (const auto& step : p.steps)
    if (step.id == id) return step.title;
  return id;
}

}  // namespace

std::string whole_number(double value) {
  return std::to_string(static_cast<long long>(std::llround(value)));
}

std::vector<NeedDifference> differences(const Played& first, const scoring::Score& of_first,
                                        const Played& second, const scoring::Score& of_second,
                                        const Strings& t) {
  std::vector<NeedDifference> all;
  const auto& p = *first.procedure;
  for (const auto& pair : records::side_by_side(records::needs_of(p, of_first),
                                                records::needs_of(*second.procedure, of_second))) {
    auto a = how_it_went(pair.first, t), b = how_it_went(pair.second, t);
    if (a == b) continue;
    all.push_back({t("compare.need", {title_by_id(p, pair.need), title_by_id(p, pair.step)}),
                   std::move(a), std::move(b)});
  }
  return all;
}

Figures figures_of(const scoring::Score& s) {
  return {s.total,      s.anticipation,   s.idle,     s.sequence,
          s.chair_time, s.clinician_wait, s.requests, static_cast<int>(s.errors.size())};
}

Figures figures_of(const records::SessionRecord& s) {
  return {s.total,      s.anticipation,   s.idle,     s.sequence,
          s.chair_time, s.clinician_wait, s.requests, s.errors};
}

std::vector<FigureRow> compared(const Figures& now, const Figures& then, const Strings& t) {
  Rows rows(t);
  rows.points("compare.total", now.total, then.total, "compare.points");
  rows.points("compare.anticipation", 100 * now.anticipation, 100 * then.anticipation,
              "compare.percent");
  rows.points("compare.idle", 100 * now.idle, 100 * then.idle, "compare.percent");
  rows.points("compare.sequence", 100 * now.sequence, 100 * then.sequence, "compare.percent");
  rows.time("compare.wait", now.clinician_wait, then.clinician_wait);
  rows.count("compare.requests", now.requests, then.requests);
  rows.count("compare.errors", now.errors, then.errors);
  rows.time("compare.chair", now.chair_time, then.chair_time);
  return std::move(rows.rows);
}

StretchFigures stretch_of(const procedure::Procedure& p, const scoring::Score& score,
                          PhaseIx phase) {
  StretchFigures figures;
  const auto in_it = [&](StepIx step) { return step && p.step(step).phase == phase; };
  for (const auto& need : score.needs) {
    if (!in_it(need.step)) continue;
    ++figures.needs;
    figures.in_time += went_well(need) ? 1 : 0;
    figures.requests += need.requested ? 1 : 0;
    figures.wait += need.wait;
  }
  for (const auto& error : score.errors) figures.errors += in_it(error.step) ? 1 : 0;
  return figures;
}

std::vector<FigureRow> compared(const StretchFigures& now, const StretchFigures& then,
                                const Strings& t) {
  Rows rows(t);
  rows.parts("compare.in-time", now.in_time, now.needs, then.in_time, then.needs);
  rows.time("compare.wait", now.wait, then.wait);
  rows.count("compare.requests", now.requests, then.requests);
  rows.count("compare.errors", now.errors, then.errors);
  return std::move(rows.rows);
}

namespace {

struct Widths {
  double name = 0, now = 0, then = 0, change = 0;
  double each() const { return then + change; }
  double sum(std::size_t others) const { return name + now + each() * static_cast<double>(others); }
};

// What the words and figures take; a name over a column of figures has more lines where there is no
// room for one.
Widths taken(const Pen& pen, const std::string& now, const std::vector<Attempt>& others,
             double room) {
  const auto width = [&](std::string_view text, Weight weight = Weight::bold) {
    return pen.canvas.measure(text, pen.size(TextSize::label), weight).width + pen.px(16);
  };
  Widths w{pen.px(120), std::clamp(width(now) * 0.6, pen.px(80), pen.px(200)), pen.px(80),
           pen.px(80)};
  for (const auto& other : others)
    for (const auto& row : other.rows) {
      w.name = std::max(w.name, width(row.name));
      w.now = std::max(w.now, width(row.now));
      w.then = std::max(w.then, width(row.then, Weight::regular));
      w.change = std::max(w.change, width(row.change, Weight::regular));
    }
  const double one_line = width(now) - w.now;
  if (one_line > 0 && w.sum(others.size()) + one_line <= room) w.now += one_line;
  return w;
}

}  // namespace

void write_comparison(Pen& pen, Flow& flow, const std::string& now,
                      const std::vector<Attempt>& others) {
  if (others.empty()) return;
  const auto least = taken(pen, now, others, flow.width());
  const double wider = flow.width() / least.sum(others.size());
  if (wider < 1 && others.size() > 1) {  // one below the other
    for (const auto& other : others) write_comparison(pen, flow, now, {other});
    return;
  }
  const auto& ink = pen.ink();
  const double gap = pen.px(8);
  double name = least.name * wider, first = least.now * wider, each = least.each() * wider,
         value = least.then * wider;
  // Where room is short, a name has two lines rather than a figure.
  if (const double rest = flow.width() - least.sum(1) + least.name;
      wider < 1 && rest >= pen.px(100))
    name = rest, first = least.now, each = least.each(), value = least.then;
  const double left = flow.x() + name + first;
  double below = paragraph(pen, {flow.x() + name, flow.y}, first - gap, now, TextSize::label,
                           ink.ink_soft, Weight::bold) +
                 pen.px(5);
  for (std::size_t i = 0; i < others.size(); ++i)
    below =
        std::max(below, paragraph(pen, {left + each * static_cast<double>(i), flow.y}, each - gap,
                                  others[i].name, TextSize::label, ink.ink_soft, Weight::bold) +
                            pen.px(5));
  flow.y = below;
  for (std::size_t r = 0; r < others.front().rows.size(); ++r) {
    pen.canvas.line({flow.x(), flow.y}, {flow.x() + flow.width(), flow.y}, {ink.edge, pen.px(1)});
    flow.gap(4);
    double under = flow.y + pen.px(20);  // what does not fit one line has two
    const auto write = [&](double x, double room, const std::string& text, Colour colour,
                           Weight weight) {
      under = std::max(
          under, paragraph(pen, {x, flow.y}, room - gap, text, TextSize::label, colour, weight));
    };
    write(flow.x(), name, others[0].rows[r].name, ink.ink, r == 0 ? Weight::bold : Weight::regular);
    write(flow.x() + name, first, others[0].rows[r].now, ink.ink, Weight::bold);
    for (std::size_t i = 0; i < others.size(); ++i) {
      const auto& row = others[i].rows[r];
      const double x = left + each * static_cast<double>(i);
      write(x, value, row.then, ink.ink, Weight::regular);
      const Colour colour = row.kind == Change::better  ? ink.good
                            : row.kind == Change::worse ? ink.danger
                                                        : ink.ink_soft;
      write(x + value, each - value, row.change, colour, Weight::regular);
    }
    flow.y = under + pen.px(4);
  }
  flow.gap(12);
}

}  // namespace beforehand::stage
