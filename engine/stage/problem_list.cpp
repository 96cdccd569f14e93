// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "stage/problem_list.hpp"

namespace beforehand::stage {
namespace {

std::vector<std::string> lines_of(const ShelfItem& item, Problem::Kind kind,
                                  const Phrases& phrases) {
  std::vector<std::string> lines;
  for (const auto& problem : item.problems)
    if (problem.kind == kind) lines.push_back(problem_line(problem, item.sources, phrases));
  return lines;
}

}  // namespace

void write_problems(Pen& pen, Flow& flow, const ShelfItem& item, double bottom) {
  flow.heading(pen.t("mend.title"));
  flow.text(pen.t("mend.text", {item.file}), pen.ink().ink);
  flow.gap(8);
  const auto lines = lines_of(item, Problem::Kind::error, pen.t.phrases());
  for (std::size_t i = 0; i < lines.size(); ++i) {
    if (flow.y + pen.px(90) > bottom)
      return flow.text(pen.t("mend.more", {std::to_string(lines.size() - i)}), pen.ink().danger);
    flow.item("!", lines[i], pen.ink().danger);
  }
}

void write_warnings(Pen& pen, Flow& flow, const ShelfItem& item) {
  for (const auto& line : lines_of(item, Problem::Kind::warning, pen.t.phrases()))
    flow.item("?", line, pen.ink().caution);
}

}  // namespace beforehand::stage
