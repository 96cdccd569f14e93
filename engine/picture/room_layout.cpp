// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include <algorithm>
#include <cmath>
#include <numbers>
#include <numeric>
#include <sstream>

#include "picture/room_view.hpp"
#include "picture/text.hpp"

namespace beforehand::picture {
namespace {

using procedure::Motion;
using procedure::PlaceKind;

// Shares of the clock face's radius.
constexpr double seat_radius = 0.80;
constexpr double shoulder_half = 0.17;
constexpr double transfer_radius = 0.46;

double radius_of(const PlaceView& place) {
  return place.kind == PlaceKind::patient ? 0.62 : reach_radius(place.motion);
}

double distance(Point a, Point b) { return std::hypot(a.x - b.x, a.y - b.y); }

/// Steps away from a point, the nearest first, over an area of this size in each direction.
std::vector<Point> steps_outwards(double width, double height, double step) {
  std::vector<Point> steps;
  const int across = static_cast<int>(width / step), along = static_cast<int>(height / step);
  for (int i = -across; i <= across; ++i)
    for (int j = -along; j <= along; ++j) steps.push_back({i * step, j * step});
  const auto square = [](Point p) { return p.x * p.x + p.y * p.y; };
  std::stable_sort(steps.begin(), steps.end(),
                   [&](Point a, Point b) { return square(a) < square(b); });
  return steps;
}

/// Finds for each box the free spot nearest to where it belongs.
class Packer {
 public:
  /// The steps must outlive it.
  Packer(const Box& room, double gap, const std::vector<Point>& steps)
      : room_(room), gap_(gap), steps_(steps) {}

  void keep_free(const Box& box) { taken_.push_back(box); }

  /// The box moved to the free spot of least cost, its distance from where it was plus `penalty` of
  /// its centre; or nothing when there is no free spot.
  template <class Penalty>
  std::optional<Box> put(const Box& box, Penalty penalty) {
    std::optional<Box> best;
    double least = 0;
    const Point from = within(box);
    for (const Point step : steps_) {
      const double far = distance(step, {});
      if (best && far >= least) break;
      const Box candidate{from.x + step.x, from.y + step.y, box.width, box.height};
      if (!is_inside(candidate)) continue;
      const double cost = far + penalty(candidate.centre());
      if ((best && cost >= least) || !is_free(candidate)) continue;
      best = candidate;
      least = cost;
    }
    if (best) taken_.push_back(*best);
    return best;
  }

 private:
  /// Its corner, moved into the room.
  Point within(const Box& box) const {
    return {std::clamp(box.x, room_.x, std::max(room_.x, room_.right() - box.width)),
            std::clamp(box.y, room_.y, std::max(room_.y, room_.bottom() - box.height))};
  }
  bool is_inside(const Box& box) const {
    return box.x >= room_.x && box.y >= room_.y && box.right() <= room_.right() &&
           box.bottom() <= room_.bottom();
  }
  bool is_free(const Box& box) const {
    const Box wide = box.inset(-gap_);
    return std::none_of(taken_.begin(), taken_.end(),
                        [&](const Box& other) { return wide.overlaps(other); });
  }

  Box room_;
  double gap_;
  const std::vector<Point>& steps_;
  std::vector<Box> taken_;
};

Box around(Point centre, double half) {
  return {centre.x - half, centre.y - half, 2 * half, 2 * half};
}

class Arranger {
 public:
  Arranger(const Canvas& canvas, const RoomView& room, const Theme& theme, const Box& box)
      : canvas_(canvas),
        room_(room),
        theme_(theme),
        box_(box.inset(theme.px(2))),
        steps_(steps_outwards(box_.width, box_.height, std::max(3.0, theme.px(6)))) {
    set_face(1);
  }

  /// One way to try: how large the clock face is, and how much room words get.
  struct Pass {
    double face;  ///< share of the largest radius
    bool zones_named;
    double longest_name;  ///< of a line of a place's name, at scale 1
  };

  /// Things must be large enough to be known before anything else; then the larger clock face, the
  /// zones' names and names in one line are better. Only when nothing else helps may places stray
  /// far from their zones, and rather two than all.
  RoomLayout arrange() {
    const double largest = std::max(theme_.px(46), out_.radius * 0.17);
    for (const std::size_t strays : {std::size_t{0}, std::size_t{2}, room_.places.size()}) {
      for (double tile = largest; tile > largest * 0.4; tile *= 0.92) {
        if (arrange_with(tile, tile < largest * 0.75, strays)) return std::move(out_);
      }
    }
    begin(passes[0]);
    place_plates_anyhow();
    return std::move(out_);
  }

 private:
  static constexpr Pass passes[] = {{1, true, 190},    {1, true, 110},     {0.9, true, 190},
                                    {0.9, true, 110},  {0.8, true, 190},   {0.8, true, 110},
                                    {0.72, true, 110}, {0.9, false, 190},  {0.9, false, 110},
                                    {0.8, false, 110}, {0.72, false, 110}, {0.6, true, 110}};
  static constexpr Pass smallest[] = {
      {0.6, false, 110}, {0.6, false, 190}, {0.6, false, 80}, {0.6, true, 110}};

  bool try_pass(const Pass& pass, double tile, std::size_t strays) {
    begin(pass);
    return place_plates(tile, strays, nearest_first()) ||
           place_plates(tile, strays, highest_first(tile));
  }

  /// What finds no room about the smallest face finds none about a larger one.
  bool arrange_with(double tile, bool unnamed, std::size_t strays) {
    const auto fits = [&](const Pass& pass) {
      return (unnamed || pass.zones_named) && try_pass(pass, tile, strays);
    };
    if (std::none_of(std::begin(smallest), std::end(smallest), fits)) return false;
    const RoomLayout least = out_;
    if (std::any_of(std::begin(passes), std::end(passes), fits)) return true;
    out_ = least;
    return true;
  }

  void begin(const Pass& pass) {
    set_face(pass.face);
    out_.figures.clear();
    for (const PersonView& person : room_.people) out_.figures.push_back(figure_of(person));
    out_.zones.clear();
    if (pass.zones_named) name_zones();
    longest_name_ = theme_.px(pass.longest_name);
  }

  /// The face stands to the operator's side: the assistant's has more lying about it.
  void set_face(double share) {
    const double dial = theme_.px(24);
    const double full = std::min(box_.height / 2 - dial, box_.width * 0.34);
    out_.radius = std::max(10.0, full * share);
    const double aside = std::max(box_.width * 0.4 * share, out_.radius + dial);
    const bool right = room_.hand == Handedness::right;
    out_.mouth = {right ? box_.x + aside : box_.right() - aside, box_.y + box_.height / 2};
  }

  double label_size() const { return theme_.size(TextSize::label); }

  Point at(double right_handed_hour, double radius_share) const {
    return polar(out_.mouth, out_.radius * radius_share,
                 degrees(hour_for(right_handed_hour, room_.hand)));
  }

  Box into_room(Box b) const {
    b.x = std::clamp(b.x, box_.x, std::max(box_.x, box_.right() - b.width));
    b.y = std::clamp(b.y, box_.y, std::max(box_.y, box_.bottom() - b.height));
    return b;
  }

  /// A box of this size outside a circle around `from`, touching it in a direction.
  static Box beyond(Point from, double radius, double degrees, double width, double height) {
    const Point way = polar({}, 1, degrees);
    const Point centre = from + way * radius + Point{way.x * width / 2, way.y * height / 2};
    return {centre.x - width / 2, centre.y - height / 2, width, height};
  }

  RoomLayout::Figure figure_of(const PersonView& person) const {
    RoomLayout::Figure figure;
    const double direction = degrees(hour_for(person.hour, room_.hand));
    figure.head = at(person.hour, seat_radius);
    figure.facing = direction + 180;
    const double half = out_.radius * shoulder_half;
    figure.shoulders = {polar(figure.head, half, figure.facing - 90),
                        polar(figure.head, half, figure.facing + 90)};
    const double width =
        canvas_.measure(person.name, label_size(), Weight::bold).width + theme_.px(18);
    figure.label =
        into_room(beyond(figure.head, out_.radius * 0.13, direction, width, label_size() * 1.4));
    return figure;
  }

  void name_zones() {
    for (const ZoneArc& arc : zone_arcs(room_.hand)) out_.zones.push_back(zone_label(arc));
  }

  double width_of(const std::vector<std::string>& lines) const {
    double width = 0;
    for (const std::string& line : lines)
      width = std::max(width, canvas_.measure(line, label_size(), {}).width + 1);
    return width;
  }

  /// A name at its spaces in as few lines as this width allows; no word is ever cut.
  std::vector<std::string> lines_of(const std::string& name, double width) const {
    std::vector<std::string> words;
    std::istringstream in(name);
    for (std::string word; in >> word;) words.push_back(word);
    return wrap(canvas_, name, std::max(width, width_of(words)), label_size());
  }

  RoomLayout::ZoneLabel label_at(const ZoneArc& arc, double hour, double wrap_width) const {
    RoomLayout::ZoneLabel label{arc.zone, {}, {}};
    label.lines = lines_of(zone_word(room_.words, arc.zone), wrap_width);
    const double width = width_of(label.lines);
    const double height = label_size() * 1.2 * static_cast<double>(label.lines.size());
    label.box =
        into_room(beyond(out_.mouth, out_.radius + theme_.px(26), degrees(hour), width, height));
    return label;
  }

  /// What a zone's name must not lie on: the clock face, roughly, its numbers and the people's
  /// names.
  double hidden_by(const Box& box) const {
    double area = 0;
    const auto add = [&](const Box& other) {
      const Box both = box.common(other);
      area += both.width * both.height;
    };
    for (int hour = 1; hour <= 12; ++hour) {
      add(around(polar(out_.mouth, out_.radius + theme_.px(13), degrees(hour)), theme_.px(11)));
    }
    for (int degree = 0; degree < 360; degree += 10) {
      add(around(polar(out_.mouth, out_.radius * 0.96, degree), out_.radius * 0.05));
    }
    for (const RoomLayout::Figure& figure : out_.figures) add(figure.label);
    return area;
  }

  /// The spot along the zone's arc where its name is hidden least, near the middle if it can be.
  RoomLayout::ZoneLabel zone_label(const ZoneArc& arc) const {
    RoomLayout::ZoneLabel best;
    double least = -1;
    for (const double share : {0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8, 0.1, 0.9}) {
      for (const double wrap_width : {theme_.px(88), theme_.px(1000)}) {
        RoomLayout::ZoneLabel label = label_at(arc, arc.from + arc.hours() * share, wrap_width);
        const double hidden = hidden_by(label.box);
        if (least >= 0 && hidden >= least) continue;
        least = hidden;
        best = std::move(label);
      }
    }
    return best;
  }

  /// A table wider than high with as few empty corners as can be.
  static std::size_t columns_for(std::size_t count) {
    const auto root = [](double n) { return static_cast<std::size_t>(std::ceil(std::sqrt(n))); };
    const auto n = static_cast<double>(count);
    const auto empty = [count](std::size_t c) { return (c - count % c) % c; };
    std::size_t best = root(2 * n);
    for (std::size_t c = best; c >= root(n); --c) {
      if (empty(c) < empty(best)) best = c;
    }
    return best;
  }

  /// A place's ground with its slots and its name, from (0, 0).
  RoomLayout::Plate plate_of(const PlaceView& place, double tile) const {
    RoomLayout::Plate plate;
    if (place.kind == PlaceKind::soiled) tile *= 0.8;  // a heap: what lies there is done with
    const std::size_t count = std::max<std::size_t>(1, place.slots.size());
    const std::size_t columns = columns_for(count);
    const std::size_t rows = (count + columns - 1) / columns;
    const double gap = theme_.px(7);
    const double pad = theme_.px(7);
    const double tiles_width = static_cast<double>(columns) * (tile + gap) - gap;
    const double reach =
        place.kind == PlaceKind::patient
            ? 0
            : canvas_.measure(numeral(place.motion), label_size(), Weight::bold).width + pad;
    plate.name = lines_of(place.name, std::max(longest_name_, tiles_width - reach));
    const double width = std::max(tiles_width, width_of(plate.name) + reach) + 2 * pad;
    const double row = theme_.px(2), line = label_size() * 1.3;
    const double height = line + label_size() * 1.2 * static_cast<double>(plate.name.size() - 1);
    const double top = height + theme_.px(7);
    plate.label = {pad, row, width - 2 * pad - reach, height};
    plate.reach = {width - pad - reach, row, reach, line};
    const double left = (width - tiles_width) / 2;
    for (std::size_t i = 0; i < place.slots.size(); ++i) {
      plate.tiles.push_back({left + static_cast<double>(i % columns) * (tile + gap),
                             top + static_cast<double>(i / columns) * (tile + gap), tile, tile});
    }
    plate.box = {0, 0, width, top + static_cast<double>(rows) * (tile + gap) - gap + pad};
    return plate;
  }

  /// Everything that must stay visible: figures, the way from each to the mouth, names.
  void keep_people_free(Packer& packer) const {
    const double radius = out_.radius;
    packer.keep_free(around(out_.mouth, radius * 0.34));
    for (const RoomLayout::Figure& figure : out_.figures) {
      packer.keep_free(figure.label);
      for (const double share : {0.0, 0.25, 0.5}) {
        const Point on_way = figure.head * (1 - share) + out_.mouth * share;
        packer.keep_free(around(on_way, radius * (share == 0 ? 0.21 : 0.15)));
      }
    }
    for (const RoomLayout::ZoneLabel& label : out_.zones) packer.keep_free(label.box);
    packer.keep_free(around(at(5.2, transfer_radius), radius * 0.12));
  }

  RoomLayout::Plate wanted_plate(const PlaceView& place, double tile) const {
    RoomLayout::Plate plate = plate_of(place, tile);
    const Point centre = at(place.hour, radius_of(place));
    move(plate, {centre.x - plate.box.width / 2, centre.y - plate.box.height / 2});
    return plate;
  }

  /// How many hours of the clock a point lies outside a zone.
  double hours_outside(Point point, procedure::Zone zone) const {
    const Point d = point - out_.mouth;
    const double hour = std::atan2(d.x, -d.y) * 6 / std::numbers::pi;
    for (const ZoneArc& arc : zone_arcs(room_.hand)) {
      if (arc.zone != zone) continue;
      const double middle = arc.from + arc.hours() / 2;
      const double off = std::abs(std::remainder(hour - middle, 12.0));
      return std::max(0.0, off - arc.hours() / 2);
    }
    return 0;
  }

  /// How far a place may lie outside its zone, in hours, and still be seen to belong there.
  static constexpr double belongs = 0.15;

  /// False when one found no room, or more than so many none in their zones.
  bool place_plates(double tile, std::size_t strays, const std::vector<std::size_t>& order) {
    out_.plates.assign(room_.places.size(), {});
    out_.tile = tile;
    out_.held = std::max(theme_.px(32), tile * 0.9);
    Packer packer(box_, theme_.px(5), steps_);
    keep_people_free(packer);
    for (const std::size_t i : order) {
      RoomLayout::Plate plate = wanted_plate(room_.places[i], tile);
      const procedure::Zone zone = room_.places[i].zone;
      const auto stray = [&](Point centre) {
        const double hours = hours_outside(centre, zone);
        return out_.radius * (hours <= belongs ? hours : 4);
      };
      const auto spot = packer.put(plate.box, stray);
      if (!spot) return false;
      if (hours_outside(spot->centre(), zone) > belongs && strays-- == 0) return false;
      move(plate, Point{spot->x, spot->y} - Point{plate.box.x, plate.box.y});
      out_.plates[i] = std::move(plate);
    }
    return true;
  }

  /// The places in ascending order of a figure.
  template <class Figure>
  std::vector<std::size_t> sorted_by(Figure figure) const {
    std::vector<std::size_t> order(room_.places.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
      return figure(room_.places[a]) < figure(room_.places[b]);
    });
    return order;
  }

  /// Places within easy reach choose first: they are the ones used all the time.
  std::vector<std::size_t> nearest_first() const { return sorted_by(radius_of); }

  /// Where that leaves no room for a high one: those first.
  std::vector<std::size_t> highest_first(double tile) const {
    return sorted_by([&](const PlaceView& place) { return -plate_of(place, tile).box.height; });
  }

  /// A box too small for its room: everything where it belongs, overlapping.
  void place_plates_anyhow() {
    out_.plates.clear();
    for (const PlaceView& place : room_.places) {
      out_.plates.push_back(wanted_plate(place, out_.tile));
    }
  }

  static void move(RoomLayout::Plate& plate, Point by) {
    const auto shift = [by](Box& b) { b = {b.x + by.x, b.y + by.y, b.width, b.height}; };
    shift(plate.box);
    shift(plate.label);
    shift(plate.reach);
    for (Box& b : plate.tiles) shift(b);
  }

  const Canvas& canvas_;
  const RoomView& room_;
  const Theme& theme_;
  Box box_;
  std::vector<Point> steps_;
  double longest_name_ = 0;
  RoomLayout out_;
};

}  // namespace

double reach_radius(Motion motion) {
  switch (motion) {
    case Motion::i:
      return 0.46;
    case Motion::ii:
      return 0.66;
    case Motion::iii:
      return 0.92;
    case Motion::iv:
      return 1.2;
    case Motion::v:
      return 1.45;
  }
  return 1;
}

std::string_view numeral(Motion motion) {
  static constexpr std::string_view numerals[] = {"I", "II", "III", "IV", "V"};
  return numerals[static_cast<std::size_t>(motion) - 1];
}

double room_scale(double wanted, double width, double height) {
  constexpr double least_width = 440, least_height = 420;
  const double fits = std::min(width / least_width, height / least_height);
  if (fits >= wanted) return wanted;
  return std::max(1.0, std::floor(fits * 4) / 4);
}

RoomLayout lay_out(const Canvas& canvas, const RoomView& room, const Theme& theme, const Box& box) {
  return Arranger(canvas, room, theme, box).arrange();
}

}  // namespace beforehand::picture
