// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "picture/supply_tile.hpp"

#include <algorithm>
#include <cmath>

#include "picture/hatch.hpp"
#include "picture/icons.hpp"

namespace beforehand::picture {
namespace {

using procedure::SupplyState;

struct Ground {
  Colour fill;
  Stroke line;
  Colour icon;
};

Ground ground_of(SupplyState state, const Theme& theme) {
  const Palette& p = theme.palette;
  const double thin = theme.px(1.25);
  switch (state) {
    case SupplyState::stored:
      return {p.well, {p.edge_strong, thin, theme.px(3), theme.px(3)}, p.edge_strong};
    case SupplyState::prepared:
      return {p.good_soft, {p.good, theme.px(2)}, p.ink};
    case SupplyState::set:
      return {p.standby, {p.danger, theme.px(2)}, p.ink_soft};
    case SupplyState::in_use:
      return {p.accent_soft, {p.accent, theme.px(2)}, p.ink};
    case SupplyState::soiled:
      return {p.caution_soft, {p.caution, theme.px(2)}, p.ink};
    case SupplyState::set_out:
    case SupplyState::cleaned:
    case SupplyState::discarded:
      break;
  }
  return {p.card, {p.ink, thin}, p.ink};
}

/// A small round sign at a corner of the tile.
struct Sign {
  Canvas& canvas;
  Point centre;
  double radius;
  Stroke stroke;

  Point at(double x, double y) const { return {centre.x + x * radius, centre.y + y * radius}; }
  void disc(Colour fill) const { canvas.circle(centre, radius, {fill, stroke}); }
};

void draw_state_sign(const Sign& sign, SupplyState state, bool sealed, const Palette& p) {
  const Stroke white{p.card, sign.radius * 0.28};
  if (sealed && state == SupplyState::set_out) {
    sign.disc(p.edge_strong);  // a closed lid
    sign.canvas.line(sign.at(-0.5, 0), sign.at(0.5, 0), white);
    return;
  }
  switch (state) {
    case SupplyState::prepared:
      sign.disc(p.good);
      sign.canvas.circle(sign.centre, sign.radius * 0.35, {p.card, {}});
      break;
    case SupplyState::set:
      sign.disc(p.danger);
      sign.canvas.line(sign.at(-0.4, -0.4), sign.at(0.4, 0.4), white);
      sign.canvas.line(sign.at(-0.4, 0.4), sign.at(0.4, -0.4), white);
      break;
    case SupplyState::soiled:
      sign.disc(p.caution);
      sign.canvas.circle(sign.at(-0.35, -0.2), sign.radius * 0.22, {p.card, {}});
      sign.canvas.circle(sign.at(0.3, -0.3), sign.radius * 0.18, {p.card, {}});
      sign.canvas.circle(sign.at(0.05, 0.4), sign.radius * 0.25, {p.card, {}});
      break;
    case SupplyState::cleaned:
      sign.disc(p.good);
      sign.canvas.polyline({sign.at(-0.45, 0.05), sign.at(-0.1, 0.4), sign.at(0.45, -0.35)}, white);
      break;
    case SupplyState::stored:
    case SupplyState::set_out:
    case SupplyState::in_use:
    case SupplyState::discarded:
      break;
  }
}

void draw_hazard_sign(const Sign& sign, const Palette& p) {
  sign.canvas.polygon({sign.at(0, -1.1), sign.at(1.1, 0.8), sign.at(-1.1, 0.8)},
                      {okabe_ito::yellow, {p.ink, sign.radius * 0.18}});
  sign.canvas.line(sign.at(0, -0.4), sign.at(0, 0.2), {p.ink, sign.radius * 0.26});
  sign.canvas.line(sign.at(0, 0.52), sign.at(0, 0.54), {p.ink, sign.radius * 0.26});
}

/// A ring that empties clockwise; under a quarter left it thickens and changes colour.
void draw_time_left(Canvas& canvas, double share, const Box& tile, const Theme& theme) {
  const Palette& p = theme.palette;
  const double left = std::clamp(share, 0.0, 1.0);
  const bool nearly_over = left < 0.25;
  const double radius = tile.width * 0.5;
  const double width = theme.px(nearly_over ? 5 : 3.5);
  canvas.arc(tile.centre(), radius, 0, 360, {p.card, width + theme.px(2)});
  canvas.arc(tile.centre(), radius, 0, 360, {p.edge, width});
  canvas.arc(tile.centre(), radius, 360 * (1 - left), 360,
             {nearly_over ? p.danger : p.good, width});
}

}  // namespace

void draw_supply(Canvas& canvas, const SupplyView& supply, const Box& tile, const Theme& theme) {
  if (supply.state == SupplyState::discarded) return;
  const Palette& p = theme.palette;
  const Group group(canvas, {supply.name + ", " + std::string(procedure::word(supply.state)) +
                                 (supply.sealed ? ", sealed" : ""),
                             {},
                             "img"});
  if (supply.open_window) {
    canvas.rectangle(tile.inset(-theme.px(2)),
                     {nothing, {p.window, theme.px(2.5), theme.px(6), theme.px(4)}}, theme.px(8));
  }
  const bool runs_out = supply.state == SupplyState::prepared && supply.left != never;
  if (runs_out) draw_time_left(canvas, supply.left_share, tile, theme);
  const Ground ground = ground_of(supply.state, theme);
  const Box plate = runs_out ? tile.inset(tile.width * 0.13) : tile.inset(theme.px(1));
  canvas.rectangle(plate, {ground.fill, ground.line}, runs_out ? plate.width / 2 : theme.px(6));
  if (supply.state == SupplyState::set) {
    hatch(canvas, plate.inset(theme.px(2)), theme.px(7), Slope::falling, {p.edge, theme.px(1.5)});
  }
  canvas.icon(supply.icon, plate.inset(plate.width * 0.12),
              {p.card, {ground.icon, std::max(1.0, tile.width / 34)}});
  const double r = tile.width * 0.15;
  draw_state_sign({canvas, {tile.right() - r, tile.bottom() - r}, r, {p.card, theme.px(1)}},
                  supply.state, supply.sealed, p);
  if (supply.hazards.any()) {
    draw_hazard_sign({canvas, {tile.x + r, tile.y + r}, r, {}}, p);
  }
  if (supply.chosen) {
    canvas.rectangle(tile.inset(-theme.px(1)), {nothing, {p.accent_strong, theme.px(3.5)}},
                     theme.px(8));
  }
}

std::string icon_for(std::string_view icon, std::string_view id, std::string_view name) {
  if (find_icon(icon)) return std::string(icon);
  std::string best;
  for (const Icon& candidate : icons()) {
    const bool named = id.find(candidate.name) != std::string_view::npos;
    if (named && candidate.name.size() > best.size()) best = candidate.name;
  }
  return best.empty() ? std::string(name) : best;
}

}  // namespace beforehand::picture
