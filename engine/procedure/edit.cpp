// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "procedure/edit.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <optional>
#include <vector>

#include "procedure/extent.hpp"
#include "procedure/yaml_tree.hpp"

namespace beforehand::procedure {
namespace {

Tree parsed(std::string_view yaml) {
  Report report;
  Tree tree = parse_yaml(yaml, report);
  const auto problems = report.take();
  if (!problems.empty())
    throw EditError(
        fmt::format("line {}: {}", problems[0].mark.line, problems[0].message.english()));
  if (!tree.root) throw EditError("an empty text");
  return tree;
}

std::vector<std::string> parts_of(std::string_view path) {
  std::vector<std::string> parts;
  while (!path.empty()) {
    const auto end = std::min(path.find('/'), path.size());
    parts.emplace_back(path.substr(0, end));
    path.remove_prefix(std::min(end + 1, path.size()));
  }
  return parts;
}

// What a text means, without where it stands.
struct Meaning {
  static constexpr std::size_t most = 200'000;  // aliases could stand for more than can be held

  Node::Kind kind = Node::Kind::empty;
  std::string text;
  std::vector<Meaning> items;
  friend bool operator==(const Meaning&, const Meaning&) = default;

  static Meaning of(const Node& node, std::size_t& count) {
    if (++count > most) throw EditError("too much is written by aliases (*name)");
    Meaning out{node.kind, node.text, {}};
    for (const Node* item : node.items) out.items.push_back(of(*item, count));
    return out;
  }
  static Meaning of(std::string_view yaml) {
    std::size_t count = 0;
    return of(*parsed(yaml).root, count);
  }

  // Where an entry stands among the items; for a map where its value does.
  std::optional<std::size_t> find(const std::string& name) const {
    if (kind == Node::Kind::map) {
      for (std::size_t i = 0; i < items.size(); i += 2) {
        if (items[i].text == name) return i + 1;
      }
      return std::nullopt;
    }
    for (std::size_t i = 0; i < items.size(); ++i) {
      const auto id = items[i].kind == Node::Kind::map ? items[i].find("id") : std::nullopt;
      if (id && items[i].items[*id].text == name) return i;
    }
    std::size_t n = 0;
    const auto [end, fault] = std::from_chars(name.data(), name.data() + name.size(), n);
    const bool number = fault == std::errc{} && end == name.data() + name.size();
    return number && kind == Node::Kind::list && n < items.size() ? std::optional(n) : std::nullopt;
  }
};

// A value in its text, with what surrounds it.
struct Spot {
  const Node* node;
  const Node* holder = nullptr;  // the map or list it is an entry of
  std::size_t place = 0;         // among the holder's items
  bool in_flow = false;          // the holder is in brackets
  std::size_t indent = 0;        // of the holder's entries
};

class Page {
 public:
  explicit Page(std::string_view yaml) : yaml_(yaml), tree_(parsed(yaml)) {}

  // Of what is there; nothing is when only the last part is missing, and `last` is set then.
  std::optional<Spot> find(const std::vector<std::string>& parts, Spot& last) const {
    last = {tree_.root};
    for (std::size_t i = 0; i < parts.size(); ++i) {
      std::size_t count = 0;
      const auto place = Meaning::of(*last.node, count).find(parts[i]);
      if (!place) {
        if (i + 1 == parts.size()) return std::nullopt;
        throw EditError(fmt::format("there is no \"{}\"", parts[i]));
      }
      last = entry(last, *place);
    }
    return last;
  }

  Spot entry(const Spot& of, std::size_t place) const {
    const auto at = offset(*of.node);
    return {of.node->items[place], of.node, place, of.in_flow || opens_brackets(yaml_, at),
            at - line_start(yaml_, at)};
  }

  std::size_t offset(const Node& node) const { return offset_of(yaml_, node.mark); }
  bool in_brackets(const Spot& s) const {
    return s.in_flow || opens_brackets(yaml_, offset(*s.node));
  }
  bool is_block(const Spot& s) const {
    const bool collection = s.node->kind == Node::Kind::list || s.node->kind == Node::Kind::map;
    return collection && !s.node->items.empty() && !in_brackets(s);
  }

  std::size_t end(const Spot& s) const {
    if (is_block(s)) return end(entry(s, s.node->items.size() - 1));
    if (s.node->kind == Node::Kind::empty) return behind_key(s);
    return end_of(yaml_, offset(*s.node), s.in_flow, s.indent);
  }

  const Node& key_of(const Spot& s) const { return *s.holder->items[s.place - 1]; }
  bool has_key(const Spot& s) const { return s.holder && s.holder->kind == Node::Kind::map; }

  // Behind the colon.
  std::size_t behind_key(const Spot& s) const {
    if (!has_key(s)) throw EditError("an entry with nothing in it");
    const auto at = offset(key_of(s));
    const bool in_quotes = yaml_[at] == '"' || yaml_[at] == '\'';
    return yaml_.find(':', in_quotes ? end_of_quotes(yaml_, at) : at + key_of(s).text.size()) + 1;
  }

  // Where the whole entry begins: its key, or the hyphen before it.
  std::size_t begin(const Spot& s) const {
    if (has_key(s)) return offset(key_of(s));
    const auto at = offset(*s.node);
    return s.in_flow ? at : line_start(yaml_, at) + s.indent;
  }

  std::string_view yaml() const { return yaml_; }

 private:
  std::string_view yaml_;
  Tree tree_;
};

std::string spliced(std::string_view yaml, std::size_t from, std::size_t to, std::string_view by) {
  return std::string(yaml.substr(0, from)).append(by).append(yaml.substr(to));
}

void refuse_lines(std::string_view value) {
  if (value.find('\n') != std::string_view::npos)
    throw EditError("a value of several lines cannot be put there; write it in one");
}

// The meaning that the edited text must have.
Meaning& meaning_at(Meaning& root, const std::vector<std::string>& parts, std::size_t count) {
  Meaning* at = &root;
  for (std::size_t i = 0; i < count; ++i) at = &at->items[at->find(parts[i]).value()];
  return *at;
}

std::string if_it_means(std::string edited, const Meaning& wanted) {
  bool same = false;
  try {
    same = Meaning::of(edited) == wanted;
  } catch (const EditError&) {
  }
  if (!same) throw EditError("this is written in a way that cannot be changed in place");
  return edited;
}

std::string with_new_key(const Page& page, const Spot& map, const std::string& key,
                         std::string_view value) {
  if (map.node->kind != Node::Kind::map || map.node->items.empty())
    throw EditError(fmt::format("there is no \"{}\", and nowhere to add it", key));
  const auto last = page.entry(map, map.node->items.size() - 1);
  const auto end = page.end(last);
  if (last.in_flow) return spliced(page.yaml(), end, end, fmt::format(", {}: {}", key, value));
  const auto at = end_of_line(page.yaml(), end);
  return spliced(page.yaml(), at, at,
                 fmt::format("\n{}{}: {}", std::string(last.indent, ' '), key, value));
}

std::string indented(std::string_view item, std::size_t indent) {
  std::string out(indent, ' ');
  out += "- ";
  while (!item.empty() && item.back() == '\n') item.remove_suffix(1);
  for (const char c : item) {
    out += c;
    if (c == '\n') out.append(indent + 2, ' ');
  }
  return out;
}

std::string with_block_item(const Page& page, const Spot& list, std::optional<std::size_t> behind,
                            std::string_view item) {
  const auto yaml = page.yaml();
  const auto first = page.entry(list, 0);
  const auto line = indented(item, first.indent);
  const bool spaced =
      list.node->items.size() > 1 &&
      yaml.substr(page.end(first), page.begin(page.entry(list, 1)) - page.end(first))
              .find("\n\n") != std::string_view::npos;
  const std::string gap = spaced ? "\n\n" : "\n";
  if (!behind) {
    const auto at = line_start(yaml, page.begin(first));
    return spliced(yaml, at, at, line + gap);
  }
  const auto at = end_of_line(yaml, page.end(page.entry(list, *behind)));
  return spliced(yaml, at, at, gap + line);
}

std::string with_flow_item(const Page& page, const Spot& list, std::optional<std::size_t> behind,
                           std::string_view item) {
  refuse_lines(item);
  if (!behind) {
    const auto at = page.offset(*list.node) + 1;
    const auto* comma = list.node->items.empty() ? "" : ", ";
    return spliced(page.yaml(), at, at, fmt::format("{}{}", item, comma));
  }
  const auto at = page.end(page.entry(list, *behind));
  return spliced(page.yaml(), at, at, fmt::format(", {}", item));
}

}  // namespace

std::string with_value(std::string_view yaml, std::string_view path, std::string_view value) {
  refuse_lines(value);
  const Page page(yaml);
  const auto parts = parts_of(path);
  auto wanted = Meaning::of(yaml);
  Spot last;
  const auto spot = page.find(parts, last);
  if (!spot) {
    auto& map = meaning_at(wanted, parts, parts.size() - 1);
    map.items.push_back({Node::Kind::text, parts.back(), {}});
    map.items.push_back(Meaning::of(value));
    return if_it_means(with_new_key(page, last, parts.back(), value), wanted);
  }
  meaning_at(wanted, parts, parts.size()) = Meaning::of(value);
  const bool behind_colon = page.is_block(*spot) || spot->node->kind == Node::Kind::empty;
  const auto from = behind_colon ? page.behind_key(*spot) : page.offset(*spot->node);
  return if_it_means(
      spliced(yaml, from, page.end(*spot), (behind_colon ? " " : "") + std::string(value)), wanted);
}

std::string without(std::string_view yaml, std::string_view path) {
  const Page page(yaml);
  const auto parts = parts_of(path);
  Spot last;
  const auto spot = parts.empty() ? std::nullopt : page.find(parts, last);
  if (!spot) throw EditError(fmt::format("there is no \"{}\"", path));
  const std::size_t size = page.has_key(*spot) ? 2 : 1, place = spot->place + 1 - size;
  auto wanted = Meaning::of(yaml);
  auto& holder = meaning_at(wanted, parts, parts.size() - 1).items;
  if (holder.size() == size) throw EditError("nothing would be left there");
  const auto first = holder.begin() + static_cast<std::ptrdiff_t>(place);
  holder.erase(first, first + static_cast<std::ptrdiff_t>(size));
  const Spot above{spot->holder, nullptr, 0, spot->in_flow, spot->indent};
  const bool is_last = spot->place + 1 == spot->holder->items.size();
  auto from = page.begin(*spot), to = page.end(*spot);
  const bool own_lines =
      !spot->in_flow && yaml.find_first_not_of(' ', line_start(yaml, from)) == from;
  const auto neighbour = [&](std::size_t i) { return page.entry(above, i); };
  if (own_lines) {
    from = line_start(yaml, from);
    to = next_line(yaml, to);
  } else if (!is_last) {
    to = page.begin(neighbour(spot->place + size));
  } else {
    from = page.end(neighbour(spot->place - size));
  }
  return if_it_means(spliced(yaml, from, to, ""), wanted);
}

std::string with_item(std::string_view yaml, std::string_view path, std::string_view behind,
                      std::string_view item) {
  const Page page(yaml);
  const auto parts = parts_of(path);
  Spot last;
  const auto spot = page.find(parts, last);
  if (!spot) return with_value(yaml, path, fmt::format("[{}]", item));
  auto wanted = Meaning::of(yaml);
  auto& list = meaning_at(wanted, parts, parts.size());
  const bool single = list.kind != Node::Kind::list;
  if (single) list = {Node::Kind::list, "", {list}};
  std::optional<std::size_t> place;
  if (!behind.empty()) {
    place = list.find(std::string(behind));
    if (!place) throw EditError(fmt::format("there is no \"{}\"", behind));
  }
  list.items.insert(list.items.begin() + static_cast<std::ptrdiff_t>(place ? *place + 1 : 0),
                    Meaning::of(item));
  if (!single && page.is_block(*spot))
    return if_it_means(with_block_item(page, *spot, place, item), wanted);
  if (!single) return if_it_means(with_flow_item(page, *spot, place, item), wanted);
  refuse_lines(item);
  const auto from = page.offset(*spot->node), to = page.end(*spot);
  const std::string old(yaml.substr(from, to - from));
  return if_it_means(
      spliced(yaml, from, to,
              place ? fmt::format("[{}, {}]", old, item) : fmt::format("[{}, {}]", item, old)),
      wanted);
}

std::string yaml_text(std::string_view text) {
  const bool odd = text.empty() || text.find(": ") != std::string_view::npos ||
                   text.find_first_of("#\"'\\,[]{}\n\t") != std::string_view::npos ||
                   std::string_view("*&!|>%@`-?:~ ").find(text.front()) != std::string_view::npos ||
                   text.back() == ' ' || text.back() == ':' || text == "null";
  if (!odd) return std::string(text);
  std::string out = "\"";
  for (const char c : text) {
    if (c == '"' || c == '\\') out += '\\';
    if (c == '\n' || c == '\t') {
      out += c == '\n' ? "\\n" : "\\t";
    } else {
      out += c;
    }
  }
  return out + "\"";
}

}  // namespace beforehand::procedure
