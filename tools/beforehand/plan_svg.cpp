// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "commands.hpp"
#include "picture/chart_page.hpp"
#include "picture/plan_chart.hpp"
#include "picture/svg_canvas.hpp"
#include "picture/text.hpp"
#include "plan_output.hpp"
#include "planned.hpp"
#include "procedure/title.hpp"

namespace beforehand::command {
namespace {

using namespace picture;

constexpr double page_margin = 24;
constexpr const char* caution =
    "A plan for practising order and readiness. The materials' own instructions, local law on "
    "delegated duties and the clinician's direction come first.";

// Title, then what is proven; gives the height used.
double write_head(Canvas& canvas, const PlanOutput& o, const Theme& theme, double width) {
  auto title = procedure::full_title(o.procedure);
  if (o.request.phase) title += ", " + o.procedure.phases[o.request.phase.at()].title;
  double y = page_margin;
  const TextStyle big{theme.size(TextSize::heading), theme.palette.ink, Weight::bold};
  const TextStyle small{theme.size(TextSize::label), theme.palette.ink, Weight::regular};
  y += paragraph(canvas, {page_margin, y, width, 1e6}, title, big);
  y += paragraph(canvas, {page_margin, y, width, 1e6}, headline(o.plan), small);
  y += paragraph(canvas, {page_margin, y, width, 1e6}, caution, small);
  return y - page_margin + theme.px(12);
}

}  // namespace

// As wide as it must be to have the shape of A4 upright, from where letters are largest.
std::string plan_svg(const PlanOutput& o) {
  constexpr double least = 1000, most = 1800, step = 100, shape = 297.0 / 210.0;
  const Theme theme;
  const auto chart = plan_chart(o.procedure, o.plan, o.explanation);
  for (double width = least;; width += step) {
    SvgCanvas ruler(width, 100, chart.title);
    const double inside = width - 2 * page_margin;
    const ChartPage page(ruler, chart, {}, theme, inside);
    const double head = write_head(ruler, o, theme, inside);
    const double height = head + page.height() + 2 * page_margin;
    if (height > width * shape && width < most) continue;
    SvgCanvas canvas(width, height, chart.title, headline(o.plan));
    write_head(canvas, o, theme, inside);
    page.draw(canvas, {page_margin, page_margin + head});
    return canvas.str();
  }
}

}  // namespace beforehand::command
