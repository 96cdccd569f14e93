// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// Turns the icon drawings into the table the program carries: bake_icons OUT.cpp ICON.svg...
// A drawing is 24 by 24 and uses path (M L C Z, absolute), circle, rect and line. fill="none"
// leaves a shape open, fill="#000000" shades it; anything else in it is an error.
#include <algorithm>
#include <array>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <pugixml.hpp>
#include <sstream>
#include <stdexcept>
#include <string>
#include <vector>

#include "picture/geometry.hpp"

namespace {

using beforehand::picture::Point;

constexpr double side = 24;

struct Shape {
  std::vector<Point> points;
  bool closed = true;
};

double read_number(std::istream& in) {
  double value = 0;
  if (!(in >> value)) throw std::runtime_error("a number is missing in a path");
  return value;
}

Point read_point(std::istream& in) {
  const double x = read_number(in);
  return {x, read_number(in)};
}

void read_curve(std::istream& in, std::vector<Point>& points) {
  const Point c1 = read_point(in);
  const Point c2 = read_point(in);
  const Point end = read_point(in);
  const auto part = beforehand::picture::curve(points.back(), c1, c2, end);
  points.insert(points.end(), part.begin(), part.end());
}

Shape read_path(const std::string& d) {
  std::istringstream in(d);
  Shape shape{{}, false};
  for (char command = 0; in >> command;) {
    if (command == 'Z')
      shape.closed = true;
    else if (command == 'M' && shape.points.empty())
      shape.points.push_back(read_point(in));
    else if (command == 'L' && !shape.points.empty())
      shape.points.push_back(read_point(in));
    else if (command == 'C' && !shape.points.empty())
      read_curve(in, shape.points);
    else
      throw std::runtime_error(std::string("unexpected '") + command + "' in a path");
  }
  return shape;
}

Shape read_shape(const pugi::xml_node& node) {
  const std::string name = node.name();
  const auto at = [&](const char* key) { return node.attribute(key).as_double(); };
  if (name == "path") return read_path(node.attribute("d").value());
  if (name == "line") return {{{at("x1"), at("y1")}, {at("x2"), at("y2")}}, false};
  if (name == "circle") {
    // Chords are chosen for a large drawing of the icon.
    auto points = beforehand::picture::circle_outline({at("cx") * 8, at("cy") * 8}, at("r") * 8);
    for (Point& p : points) p = p * (1.0 / 8);
    return {points, true};
  }
  if (name == "rect") {
    const double x = at("x"), y = at("y"), w = at("width"), h = at("height");
    return {{{x, y}, {x + w, y}, {x + w, y + h}, {x, y + h}}, true};
  }
  throw std::runtime_error("unexpected element '" + name + "'");
}

std::string shape_code(const pugi::xml_node& node) {
  Shape shape = read_shape(node);
  const std::string fill = node.attribute("fill").as_string();
  if (!fill.empty() && fill != "none" && fill != "#000000")
    throw std::runtime_error("unexpected fill '" + fill + "'");
  if (fill == "none" && shape.closed) shape.points.push_back(shape.points.front());
  const bool closed = shape.closed && fill != "none";
  std::ostringstream out;
  out << "        {{";
  for (const Point& p : shape.points) out << '{' << p.x / side << ", " << p.y / side << "}, ";
  out << "}, " << (closed ? "true" : "false") << ", " << (fill == "#000000" ? "true" : "false")
      << "},\n";
  return out.str();
}

std::string icon_code(const std::filesystem::path& file) {
  pugi::xml_document document;
  const auto result = document.load_file(file.c_str());
  if (!result) throw std::runtime_error(result.description());
  std::string code = "      {\"" + file.stem().string() + "\", {\n";
  for (const auto& node : document.child("svg").children()) code += shape_code(node);
  return code + "      }},\n";
}

void bake(const std::string& target, const std::vector<std::filesystem::path>& drawings) {
  std::string code =
      "// Made from the drawings in assets/icons by bake_icons.\n#include \"picture/icons.hpp\"\n\n"
      "namespace beforehand::picture {\n\nconst std::vector<Icon>& baked_icons() {\n"
      "  static const std::vector<Icon> all{\n";
  for (const auto& file : drawings) {
    try {
      code += icon_code(file);
    } catch (const std::exception& e) {
      throw std::runtime_error(file.string() + ": " + e.what());
    }
  }
  code += "  };\n  return all;\n}\n\n}  // namespace beforehand::picture\n";
  std::ofstream out(target);
  if (!(out << code << std::flush)) throw std::runtime_error("cannot write " + target);
}

}  // namespace

int main(int argc, char** argv) {
  if (argc < 3) {
    std::cerr << "usage: bake_icons OUT.cpp ICON.svg...\n";
    return 2;
  }
  std::vector<std::filesystem::path> drawings(argv + 2, argv + argc);
  std::sort(drawings.begin(), drawings.end(),
            [](const auto& a, const auto& b) { return a.stem() < b.stem(); });
  try {
    bake(argv[1], drawings);
  } catch (const std::exception& e) {
    std::cerr << "error: " << e.what() << '\n';
    return 1;
  }
  return 0;
}
